#pragma once

#include "voltwright/tables/fridges.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// What a fridge is held at inside: one temperature, or two where a part of it is a freezer.
struct HeldInside {
    Temperature mean;     ///< over its walls
    Temperature coldest;  ///< of its zones: its one compressor works for that

    constexpr HeldInside(Temperature everywhere) : mean(everywhere), coldest(everywhere) {}
    constexpr HeldInside(Temperature mean_of_zones, Temperature coldest_zone)
        : mean(mean_of_zones), coldest(coldest_zone) {}
};

/// Two zones behind one compressor; `share` is that of the freezer in the volume, and so in the walls.
///
///     T_i = (1 − s)·T_fridge + s·T_freezer
///
/// The heat of both is taken out at the evaporating temperature of the colder one: a cautious choice, for a fridge that cools
/// its zones one after the other takes less. Walls by volume: common practice, no source.
HeldInside two_zones(Temperature fridge, Temperature freezer, Ratio share);

/// What a fridge was measured, or is rated, to take on average with its surroundings held at one temperature.
struct RatedPoint {
    Temperature around;
    HeldInside inside;
    Power mean;
};

/// From what it takes in a day: watt-hours, or ampere-hours and the voltage at which they were counted.
constexpr Power mean_power(Energy a_day) { return a_day / hours(24.0); }
constexpr Power mean_power(Charge a_day, Voltage counted_at) { return a_day * counted_at / hours(24.0); }

/// How a fridge's two figures were found.
enum class FridgeFit {
    assumed_share,  ///< nobody measured the share that heat does not change: the usual one, or a drawn one
    two_points,     ///< solved from two points
    no_fixed_part,  ///< the two points are steeper than the model: no fixed part, and the nearest walls
    contradicting,  ///< the hotter point takes no more than the cooler: the usual share, and the nearest walls
};
std::string_view show(FridgeFit fit);

/// A compressor fridge's appetite, in two figures.
///
///     P = P_f + W·(T_a − T_i)·x        x = (T_k − T_e)/T_e        T_k = T_a + c        T_e = T_i − e        W = UA/η
///
/// P_f    what it takes whatever the heat: fan, electronics, door       W      conductance of the walls over efficiency
/// T_a    around it                                                     T_i    inside, over its walls
/// T_k    condensing, c above the surroundings                          T_e    evaporating, e below the inside's coldest zone
/// x      work that an ideal refrigerator needs for a unit of heat      η      the real one's share of the ideal
///
/// c and e are `condenser` and `evaporator` of data/fridge.toml. Surroundings colder than the inside leave P_f. Heat from
/// things put in comes on top: restocking(). Source: heat through a wall and Carnot's efficiency, textbook relations.
/// The usual fixed share makes 32 °C take 2.1 times what 16 °C takes, and 30 °C 1.58 times what 20 °C takes: a chest timed
/// at both took about 1.57 times (read, weak). One report on a household fridge (abstract, read) tells of less, 15 to 53 %
/// more at 33 than at 20 °C, where this gives 80 %: a fridge rated in the cool may turn out more modest in the heat than
/// said here, and one rated in the heat thirstier in the cool.
struct Fridge {
    Power fixed;
    ThermalConductance wall;
    FridgeFit fit;
    bool by_rule_of_thumb;  ///< nothing was measured: walls by volume
};

/// From one point and a share, from nothing to below one, of the mean power at 25 °C around (`share_at`) and the point's
/// own inside: of that power, not of the rated point's, so that a fridge rated at 25 °C and its like rated at 32 °C agree.
Fridge fit_fridge(const RatedPoint& only, Ratio fixed_share, const FridgeRow& row);

/// From two points: both figures. Never a negative one; where two points ask for it, the nearest (least squares) without.
/// Two points that put the same strain on it count as one.
Fridge fit_fridge(const RatedPoint& cool, const RatedPoint& hot, const FridgeRow& row);

/// A rule of thumb for a fridge of which only the volume is known.
///
///     UA = wall·(V/V_row)^(2/3)
///
/// Walls grow as the surface of a body of one shape. The short form takes the upper end of the recalled range: a fridge
/// that nobody measured is not to promise too much. A thick-walled chest freezer takes less than half of it.
Fridge fridge_by_volume(Volume volume, const FridgeRow& row);
Fridge fridge_by_volume(Volume volume, ThermalConductance wall, Ratio fixed_share, const FridgeRow& row);

/// What it takes on average, while it can hold its temperature.
Power fridge_power(const Fridge& fridge, Temperature around, HeldInside inside, const FridgeRow& row);

/// A fridge's mean power and the share of the time that its compressor runs.
///
///     d = P/P_d
///
/// P_d   what it draws while it runs, more than nothing. A share above 1: it cannot hold its temperature.
struct FridgeDuty {
    Power fixed;
    ThermalConductance wall;
    Temperature around, inside;
    Ratio ideal_work;
    Power power;
    Power draw;
    Ratio duty;
    bool holds;
};

FridgeDuty fridge_duty(const Fridge& fridge, Power draw, Temperature around, HeldInside inside, const FridgeRow& row);

/// What it costs to cool down things that are put in warm.
///
///     Q = m·c·(T − T_i) + Q_f        E = Q·x/η
///
/// m     mass                 T   their temperature              c   specific heat: of water, below 0 °C of ice
/// Q_f   m times the heat of freezing, when a thing that is not frozen goes into a freezer
/// E     what the compressor takes for it, over however long     x, η   as for the fridge itself
///
/// Water stands for all food and drink: a cautious choice, most food takes 3.3 to 3.9 kJ/(kg K). Things colder than the
/// inside are no credit. Source: textbook relations and constants.
struct Restocking {
    Mass mass;
    Temperature from, inside, around;
    Energy cooling, freezing;
    Energy heat;
    Ratio ideal_work, efficiency;
    Energy electric;
};

/// `coldest` is that of a colder zone beside, for which the compressor works.
Restocking restocking(Mass mass, Temperature from, Temperature inside, Temperature around, const FridgeRow& row,
                      std::optional<Temperature> coldest = {});

/// A warm fridge filled with warm things, as it is where nobody cooled it down before: restocking() with what a fridge of
/// its volume usually holds (`filling`, `filled_from` of data/fridge.toml).
Restocking warm_start(Volume volume, Temperature inside, Temperature around, const FridgeRow& row,
                      std::optional<Temperature> coldest = {});

/// How warm a usual filling becomes while the compressor owes heat.
///
///     T = T_i + E·η/(x·m·c)        never warmer than what surrounds it
///
/// E   what is owed, as the energy that the compressor takes for it        m, c   the filling, of water, or of ice where it is colder than 0 °C; nothing melts
///
/// An emptier fridge warms sooner, and then lets in less. Source: textbook relations.
Temperature warmed_by(Energy owed, Volume volume, Temperature inside, Temperature around, const FridgeRow& row,
                      std::optional<Temperature> coldest = {});

/// So warm the inside may become: fresh food to `fresh_to` of data/fridge.toml; what is frozen, and what is set warmer than 5 °C,
/// by `may_warm`.
Temperature may_become(Temperature inside, const FridgeRow& row);

/// What the lid costs in a day.
///
///     Q = q·V/V_q·(T_a − T_i)/ΔT_q        E = n·Q·x/η
///
/// q     heat of the air of a fridge of the volume V_q, changed once, with the outside ΔT_q hotter: `lid_heat` and its like in
///       data/fridge.toml, for humid air           V      volume of this one
/// n     how often a day it is opened              x, η   as for the fridge itself
///
/// Holds for a lid or a door that is shut again within seconds. Computed from textbook constants; a report on household
/// fridges (abstract, read) has 7 to 30 % more for 2 to 8 openings an hour, where this gives about 4 to 18 % of a chest of
/// 47 L.
struct LidOpenings {
    int a_day;
    Volume volume;
    Temperature around, inside;
    Energy heat;  ///< of one opening
    Ratio ideal_work, efficiency;
    Energy electric;  ///< of a day
};

LidOpenings lid_openings(int a_day, Volume volume, Temperature around, HeldInside inside, const FridgeRow& row);

}  // namespace voltwright
