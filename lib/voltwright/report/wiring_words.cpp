#include "voltwright/report/wiring_words.hpp"

#include "voltwright/report/markup.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <utility>

namespace voltwright {

namespace {

/// No line ends between a figure and its unit.
std::string unbroken(std::string text) {
    for (std::size_t at = 0; (at = text.find(' ', at)) != std::string::npos;) text.replace(at, 1, "\u00a0");
    return text;
}

std::string in_one_piece(const std::string& text) { return unbroken(in_signs(text)); }

/// The longest place that is said in full.
constexpr std::size_t longest_place = 60;

}  // namespace

std::vector<std::string> RunWords::lines(double ems) const {
    if (name.empty()) return in_lines(size, ems, 4);
    std::vector<std::string> one = in_lines(name + ": " + size, ems, 2);
    if (one.size() == 1) return one;
    std::vector<std::string> all = in_lines(name + ":", ems, 2);
    for (std::string& line : in_lines(size, ems, 4)) all.push_back(std::move(line));
    return all;
}

RunWords run_words(const RunPlan& run, const Place& drawn_first) {
    const CableRun& cable = run.task.run;
    const Candidate* taken = run.taken();
    RunWords words{{}, {}, {}, {}, cable.body.has_value()};
    words.size = run.to_lay() ? in_one_piece(show_cable(taken->size, cable.insulation)) : size_words(run);
    if (taken && cable.return_size)
        words.size += " out, " + in_one_piece(show_cable(*cable.return_size, cable.insulation)) + " back";
    words.size += ", " + in_one_piece(show(static_cast<const Length&>(cable.length)));
    if (*cable.name != run.task.to.name) words.name = *cable.name;
    if (run.task.assumed) words.size += " (assumed)";
    if (!taken) return words;
    for (const FuseFit& fuse : taken->fuses) {
        std::string& end = fuse.at == drawn_first ? words.near_fuse : words.far_fuse;
        end += (end.empty() ? "" : ", ") + unbroken(show(fuse.rating) + " " + fuse.family);
    }
    return words;
}

namespace {

/// Abbreviations in capitals, the other names as a profile has them.
std::string chemistry_on_a_page(const ChemistryRow& row) {
    if (row.chemistry == "agm") return "AGM";
    if (row.chemistry == "lfp") return "LFP";
    return std::string(row.chemistry);
}

}  // namespace

std::vector<std::string> box_words(const System& system, const Place& place) {
    std::vector<std::string> words{place_in_words(place)};
    if (place.kind == PlaceKind::house_battery)
        words.push_back((system.house.count > 1 ? std::to_string(system.house.count) + " × " : "") +
                        show(system.house.capacity) + " " + chemistry_on_a_page(*system.house.chemistry));
    if (place.kind == PlaceKind::charger)
        words.push_back(!system.relay                           ? "gives " + show(system.charger.output)
                        : system.charger.wake == Wake::ignition ? std::string("closes with the ignition")
                                                                : "closes at " + show(system.relay->closes_at));
    if (place.kind == PlaceKind::inverter && system.inverter) words.push_back(show(system.inverter->output));
    if (place.kind == PlaceKind::panel && system.solar) words.push_back(show(system.solar->panel));
    return words;
}

std::string wiring_in_words(const Plan& plan) {
    std::string text = "The alternator charges the starter battery.";
    for (const RunPlan& run : plan.runs) {
        const RunWords words = run_words(run, run.task.from);
        text += " From " + cut(place_in_words(run.task.from), longest_place) + " to " +
                cut(place_in_words(run.task.to), longest_place) + ": " + words.size;
        if (run.taken())
            for (const FuseFit& fuse : run.taken()->fuses) text += ", " + show(fuse);
        if (words.body) text += ", " + std::string(by_the_body);
        text += ".";
    }
    return text;
}

}  // namespace voltwright
