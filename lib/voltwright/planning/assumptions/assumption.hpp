#pragma once

#include "voltwright/planning/findings/finding.hpp"

#include <optional>
#include <vector>

/// What a plan takes as given, or how it reckons, where nothing is to be done: as data, like its findings. An assumption
/// that decides something, a size or a verdict, is a finding instead.
namespace voltwright {

/// What kind of assumption: `ampacity_row` is `ampacity-row` in an answer. Each has its row in messages/assumptions.cpp.
enum class AssumptionCode {
    ampacity_row,         ///< sizes that the ampacity table does not print count as the next row with no more copper
    battery_cold,         ///< how cold it gets, and what that leaves of it
    battery_electronics,  ///< they may open a short, and are not counted on
    battery_heater,       ///< how long it takes before the battery is charged
    battery_new,          ///< nobody says how worn the battery is
    body_return,          ///< the vehicle's body as the return, by its kind; at the upper end too the cable does
    charger_spare,        ///< that the alternator has so much to spare
    fridge_one_point,     ///< what a fridge takes at other temperatures than the one where it was measured
    fridge_starts_cold,   ///< and full, and opened as when it was measured
    fuse_before,          ///< runs that a fuse before them protects
    fuse_next_made,       ///< a fuse above what its cable may carry: none is made between need and that
    hot_place,            ///< where a battery, a charger or a fridge stands in the heat
    idling,               ///< what is left of the charge with a hot engine that idles
    lasting_short,        ///< of more than 5 s, that leaves the cable below its limit
    load_always_on,       ///< nobody said when: on day and night
    load_off,             ///< nobody said when: off
    no_run,               ///< small loads without a run: at the battery
    panel_plate,          ///< what the panel gives when it is short-circuited
    regulator_output,     ///< of the panel's regulator
    relay_flat,           ///< what flows through a relay, from a battery at its depth limit
    relay_spare,          ///< that the alternator has so much to spare
    selectivity,          ///< fuses in series of which both may blow
    sensor_assumed,       ///< of the charger, on the battery
    sky,                  ///< how much of the sun comes through the clouds, where that does not decide
    smart_current,        ///< the current of a charger behind a smart alternator
    starter_assumed,      ///< the starter battery's resistance
    starter_capacity_assumed,
    uncleared_short,  ///< no more than the cable carries for long
};

/// The same of several runs or loads is one assumption that names them all.
struct Assumption {
    AssumptionCode code;
    FindingSubject about;
    std::optional<Measure> found = {};    ///< what is assumed
    std::optional<Measure> allowed = {};  ///< the other end of a range, or what would be usual
    Arguments arguments = {};             ///< what its sentence needs beside these
    Source source;
};

using Assumptions = std::vector<Assumption>;

}  // namespace voltwright
