// Everything is asked of the installed headers and libraries: a quantity, a built-in table, a sum.
#include <voltwright/circuit/run.hpp>
#include <voltwright/tables/tables.hpp>
#include <voltwright/units/show.hpp>

#include <iostream>

int main() {
    const voltwright::ConductorRow* row = voltwright::find_conductor(voltwright::built_in_tables(), voltwright::awg(6));
    if (row == nullptr) return 1;
    std::cout << voltwright::show(row->gauge) << ": " << voltwright::show(row->area) << '\n';
}
