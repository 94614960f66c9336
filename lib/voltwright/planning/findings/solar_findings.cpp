#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/planning/findings/system_concerns.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

const FindingSubject the_panel{FindingSubject::Kind::panel};
const FindingSubject the_regulator{FindingSubject::Kind::regulator};

/// With a third string beside it the others push more into a failed one than it stands.
constexpr int strings_without_fuses = 2;

/// What the regulator's terminals for loads carry is printed on it alone.
void find_loads_on_the_regulator(const SystemContext& of, Findings& found) {
    for (const SystemRun& run : of.system.runs)
        if (run.from.kind == PlaceKind::regulator && run.role != RunRole::solar)
            found.push_back({.level = Level::warn,
                             .code = FindingCode::solar_load,
                             .about = {FindingSubject::Kind::run, {*run.run.name}},
                             .found = design_current(run.load).current,
                             .source = sources::fuse_at_the_source});
}

void find_strings_without_fuses(const SolarPanel& solar, Findings& found) {
    if (solar.parallel <= strings_without_fuses) return;
    const Ratio least = in_practice(PracticeShare::string_fuse_least),
                most = in_practice(PracticeShare::string_fuse_most);
    found.push_back({.level = Level::warn,
                     .code = FindingCode::panel_strings,
                     .about = the_panel,
                     .found = static_cast<double>(solar.parallel - 1) * solar.short_circuit,
                     .arguments = {{"count", solar.parallel},
                                   {"at_least", Current(least * solar.short_circuit)},
                                   {"at_most", Current(most * solar.short_circuit)}},
                     .source = sources::string_fuses});
}

/// A regulator that only switches passes on whatever the panels give.
void find_small_regulator(const SolarPanel& solar, const Tables& tables, Findings& found) {
    if (solar.regulator != Regulator::pwm) return;
    const Current most = panel_design_current(solar.all_short_circuit(), tables).most;
    if (!solar.output_given || most <= solar.output) return;
    found.push_back({.level = Level::stop,
                     .code = FindingCode::regulator_small,
                     .about = the_regulator,
                     .found = most,
                     .allowed = solar.output,
                     .source = sources::panel_currents,
                     .concern = Concern::trip});
}

}  // namespace

void find_about_the_sun(const SystemContext& of, Findings& found) {
    if (!of.system.solar) return;
    find_loads_on_the_regulator(of, found);
    find_strings_without_fuses(*of.system.solar, found);
    find_small_regulator(*of.system.solar, of.tables, found);
}

}  // namespace voltwright
