#pragma once

#include "voltwright/provenance/cited.hpp"
#include "voltwright/units/quantities.hpp"

/// Figures of common practice for which there is no source to cite: data/practice/ says what each is.
namespace voltwright {

/// Of data/practice/voltages.toml.
enum class PracticeVoltage {
    starter_least,
    rested_starter,
    charging_house,
    fed_least,
    loads_sag,
    dead_below,
    alive_from,
    as_good_as_open,
    no_joint_any_more,
    dead_most,
    rest_strays,
    battery_is_off,
    least_at_rest,
    most_at_rest,
    above_full_at_rest,
    input_margin,
    least_while_cranking,
    hot_idle,
};

/// Of data/practice/shares.toml.
enum class PracticeShare {
    house_least,
    house_when_tested,
    well_charged,
    idle_charger,
    idle_load,
    length_is_off,
    maker_is_off,
    given_is_off,
    charge_is_off,
    load_is_off,
    losses_are_off,
    charge_is_off_driving,
    charge_is_off_idling,
    load_may_be_off,
    losses_may_be_off,
    charger_gives_more,
    load_takes_more,
    aged_battery,
    short_time,
    bright_sun,
    lasting_sun,
    string_fuse_least,
    string_fuse_most,
    breaking_tolerance,
    behind_main,
    bank_uneven,
    worn_capacity,
};

/// Of data/practice/lengths.toml.
enum class PracticeLength {
    assumed_output,
    assumed_fridge,
    assumed_inverter,
    assumed_panel,
    assumed_regulator,
    body_tail,
    bank_link,
    main_lead,
};

struct PracticeVoltageRow {
    PracticeVoltage what;
    Voltage value;
    Source source;
};

struct PracticeShareRow {
    PracticeShare what;
    Ratio value;
    Source source;
};

struct PracticeLengthRow {
    PracticeLength what;
    Length value;
    Source source;
};

}  // namespace voltwright
