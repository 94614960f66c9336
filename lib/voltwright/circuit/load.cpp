#include "voltwright/circuit/load.hpp"

#include <algorithm>

namespace voltwright {

LoadCurrent drawn(const LoadLaw& load, Voltage voltage) {
    if (const auto* power = std::get_if<Power>(&load)) {
        const Current current = *power / voltage;
        return {current, -current / voltage};
    }
    if (const auto* current = std::get_if<Current>(&load)) return {*current, Conductance{}};
    const Resistance resistance = std::get<Resistance>(load);
    return {voltage / resistance, 1.0 / resistance};
}

Current most_current(const LoadLaw& load, Voltage lowest, Voltage highest) {
    return std::max(current_at(load, lowest), current_at(load, highest));
}

LoadThroughCable::LoadThroughCable(const LoadLaw& load, Resistance loop, Ratio share_of_time)
    : loop_(loop), share_(in_ratio(share_of_time)) {
    if (const auto* power = std::get_if<Power>(&load)) {
        law_ = Law::power;
        twice_ = 2.0 * share_ * *power;
        drop_ = 4.0 * *power * loop_;
    } else if (const auto* own = std::get_if<Resistance>(&load)) {
        law_ = Law::resistance;
        loop_ += *own;
    } else {
        law_ = Law::current;
        current_ = std::get<Current>(load);
    }
}

}  // namespace voltwright
