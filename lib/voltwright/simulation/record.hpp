#pragma once

#include "voltwright/simulation/state.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// What all loads together drew since something was last switched: shared out among them when something is again.
struct AccountingWindow {
    Charge used;
    units::quantity<si::magnetic_flux> volt_time;  ///< the terminals' voltage, integrated
    Duration took;
};

/// What is written down of a simulation while it goes.
struct alignas(64) Record {
    TripResult result;
    AccountingWindow window;
    Duration lowest_at;
    std::size_t filled;  ///< how many of told_fillings are reached
    bool ended;
    std::vector<Current> draws;  ///< room for a current of each running load
};

Record open_record(const Setup& setup, const State& state);

/// The day of the interval that begins.
void open_day(const Setup& setup, const State& state, Record& record);

/// A step from the present state: what flowed, and for how long.
void book_step(const Setup& setup, const State& state, const KineticStep& step, Record& record);

/// Shares out what was drawn since something was last switched, and notes who was left without and what the fridges owe.
/// To be called before the loads are connected anew.
void attribute_to_loads(const Setup& setup, State& state, Record& record);

/// After a step: the lowest state of charge, of the trip and of the day, and the nearest to freezing.
void record_extremes(const Setup& setup, const State& state, Record& record);

void record_cut_off(const State& state, const CutOff& cut_off, Record& record);
void record_below_limit(const Setup& setup, const State& state, Duration then, Record& record);
void record_end(EndedBy by, std::string name, Record& record);

/// A point of the timeline, where one is asked for.
void record_point(const Setup& setup, State& state, Record& record);

TripResult close_record(const Setup& setup, const State& state, Record&& record);

}  // namespace voltwright
