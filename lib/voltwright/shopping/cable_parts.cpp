#include "voltwright/shopping/cable_parts.hpp"

#include "voltwright/shopping/articles.hpp"
#include "voltwright/tables/practice.hpp"

namespace voltwright {

namespace {

/// From an appliance to the body. data/practice/lengths.toml.
const Length body_tail = in_practice(PracticeLength::body_tail);

void add_labels(PartsList& list, int count, const std::string& run) {
    add(list, {.kind = PartKind::label, .what = std::string(article::cable_label), .count = count}, run);
}

}  // namespace

std::optional<Gauge> back_of(const SystemRun& run, Gauge size) {
    if (run.run.body) return {};
    return run.run.return_size.value_or(size);
}

Part cable_of(std::string_view colour, Gauge size, Temperature insulation, Length length) {
    return {.kind = PartKind::cable,
            .what = std::string(article::cable),
            .colour = std::string(colour),
            .size = size,
            .insulation = insulation,
            .length = length};
}

std::vector<Part> cables_of(const SystemRun& run, Gauge size) {
    const auto back = back_of(run, size);
    const Temperature insulation = run.run.insulation;
    std::vector<Part> cables = {cable_of("red", size, insulation, run.run.length),
                                cable_of("black", back.value_or(size), insulation, back ? *run.run.length : body_tail)};
    // On a roof it has to stand the sun and the weather as well.
    if (run.role == RunRole::panel)
        for (Part& cable : cables) cable.what = article::sun_cable;
    return cables;
}

void add_cable(PartsList& list, const Part& cable, const std::string& run) {
    add(list, cable, run);
    add_labels(list, 2, run);
}

void add_cables(PartsList& list, const RunPlan& run, const Candidate& taken) {
    const CableRun& laid = run.task.run;
    if (!laid.have_cable) {
        for (const Part& cable : cables_of(run.task, taken.size)) add_cable(list, cable, laid.name);
        return;
    }
    const auto back = back_of(run.task, taken.size);
    list.owned.push_back({.code = PartsNoteCode::owned_cable,
                          .run = laid.name,
                          .size = taken.size,
                          .back = back != taken.size ? back : std::nullopt,
                          .insulation = laid.insulation});
    add_labels(list, back ? 4 : 2, laid.name);
}

}  // namespace voltwright
