// Everything is asked of the installed headers and libraries: a quantity, a built-in table, a sum, a refusal.
#include <voltwright/circuit/run.hpp>
#include <voltwright/sizing/choice.hpp>
#include <voltwright/tables/tables.hpp>
#include <voltwright/units/show.hpp>

#include <iostream>
#include <stdexcept>
#include <string>

namespace {

/// What is said of a run whose fused ends were forgotten: the field, and no cable without a fuse.
std::string said_of_no_fuse() {
    using namespace voltwright;
    const CableRun lamp{.name = std::string("lamp"), .length = metres(4)};
    const Supply supply{.normal = volts(12.7), .lowest = volts(12), .drop_limit = percent(3)};
    Rules rules;
    rules.sizes = {awg(16), awg(12), awg(8)};
    try {
        return choose_cable(lamp, SteadyLoad{.current = amperes(20)}, supply, rules).taken ? "a cable" : "no cable";
    } catch (const std::invalid_argument& refusal) {
        return refusal.what();
    }
}

}  // namespace

int main() {
    const voltwright::ConductorRow* row = voltwright::find_conductor(voltwright::built_in_tables(), voltwright::awg(6));
    if (row == nullptr) return 1;
    const std::string said = said_of_no_fuse();
    std::cout << voltwright::show(row->gauge) << ": " << voltwright::show(row->area) << "; " << said << '\n';
    return said.find("fused_at") == std::string::npos ? 1 : 0;
}
