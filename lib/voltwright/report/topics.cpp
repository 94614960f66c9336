#include "voltwright/report/topics.hpp"

#include "voltwright/energy/charger_description.hpp"
#include "voltwright/energy/sky_description.hpp"
#include "voltwright/planning/network_figures_description.hpp"
#include "voltwright/simulation/autonomy_description.hpp"
#include "voltwright/sizing/choice_description.hpp"

#include <utility>

namespace voltwright {

namespace {

/// The numbers of a run, what they are called, and how they are found in it.
struct Subject {
    std::string_view name;
    std::string_view words;
    std::optional<Explanation> (*of)(const RunPlan& run);
};

template <class T>
std::optional<Explanation> perhaps(const std::optional<T>& value, std::string_view words) {
    if (!value) return {};
    return explain(*value, words);
}

/// The figures of the network with what they are held against; of a run that shares no way, which is its own network,
/// how its load settles as well.
Explanation volts_lost(const RunPlan& run, std::string_view words) {
    Explanation node = explain(*run.figures, words);
    if (!run.taken()->drop) return node;
    for (Explanation& part : explain(*run.taken()->drop).parts) {
        const bool limit = part.words == "share allowed" || part.words == "volts allowed";
        const bool load =
            part.words == "power that the charger takes in" || part.words == "voltage that is left at the far end";
        const bool empty = part.parts.empty() && std::holds_alternative<std::monostate>(part.value);
        if (!empty && (limit || (load && !run.way))) node.parts.push_back(std::move(part));
    }
    return node;
}

constexpr Subject subjects[] = {
    {"current", "the most current that the run is ever asked to carry for long",
     [](const RunPlan& run) -> std::optional<Explanation> { return explain(run.choice.design, "design current"); }},
    {"drop", "the volts lost on the way",
     [](const RunPlan& run) -> std::optional<Explanation> {
         if (!run.figures) return {};
         return volts_lost(run, "volts lost");
     }},
    {"resistance", "the resistance of the whole loop",
     [](const RunPlan& run) -> std::optional<Explanation> {
         if (!run.taken()) return {};
         return explain(run.figures ? run.figures->resistance : run.taken()->resistance(), "loop resistance");
     }},
    {"ampacity", "the current that the cable may carry where it runs",
     [](const RunPlan& run) { return run.taken() ? perhaps(run.taken()->ampacity, "ampacity") : std::nullopt; }},
    {"temperature", "the temperature that the conductor settles at",
     [](const RunPlan& run) {
         return run.figures ? perhaps(run.figures->temperature, "conductor temperature") : std::nullopt;
     }},
    {"input", "the voltage that the charger keeps when the alternator gives least",
     [](const RunPlan& run) {
         return run.taken() ? perhaps(run.taken()->lowest, "lowest voltage at the charger") : std::nullopt;
     }},
    {"fuse", "the fuse, and why it has that rating",
     [](const RunPlan& run) -> std::optional<Explanation> {
         if (!run.taken() || run.taken()->fuses.empty()) return {};
         return explain(run.taken()->fuses.front(), "fuse rating");
     }},
    {"fault", "the current of a dead short behind the fuse",
     [](const RunPlan& run) -> std::optional<Explanation> {
         if (!run.taken() || run.taken()->fuses.empty()) return {};
         return explain(run.taken()->fuses.front().fault, "fault current at the fuse");
     }},
    {"clearing", "how soon its fuse clears a short at the far end, and what the cable stands",
     [](const RunPlan& run) -> std::optional<Explanation> {
         if (!run.taken() || run.taken()->protection.empty()) return {};
         return explain(run.taken()->protection.front(), "a short at the far end is cleared within");
     }},
    {"part", "what a plug, switch or breaker in it may carry",
     [](const RunPlan& run) -> std::optional<Explanation> {
         if (!run.taken() || run.taken()->parts.empty()) return {};
         return explain(run.taken()->parts.front());
     }},
    {"far-fault", "the current of a dead short at the far end",
     [](const RunPlan& run) {
         return run.taken() ? perhaps(run.taken()->far_fault, "fault current at the far end") : std::nullopt;
     }},
};

/// A number of the night, by its name.
struct EnergySubject {
    std::string name;
    std::string_view words;
    Explanation explanation;
};

std::vector<EnergySubject> energy_subjects(const EnergyPlan& energy) {
    std::vector<EnergySubject> list;
    for (const FridgeNeed& fridge : energy.fridges) {
        list.push_back({fridge.name + ".appetite", "the two figures of the fridge, and how they are known",
                        explain(fridge.fridge, "conductance of the walls over efficiency")});
        list.push_back({fridge.name + ".hottest", "what it takes in the hottest hour of the trip",
                        explain(fridge.hottest_hour, "mean power in the hottest hour")});
        list.push_back({fridge.name + ".lid", "what it takes for its lid in the hottest surroundings",
                        explain(fridge.lid, "taken from the battery for the lid in a day")});
        list.push_back({fridge.name + ".warm-start", "what a usual filling takes that is put in warm",
                        explain(fridge.warm_start, "taken from the battery to cool it")});
        if (fridge.most_put_in)
            list.push_back({fridge.name + ".restock", "what it takes to cool what is put in warm, the most at once",
                            explain(*fridge.most_put_in, "taken from the battery to cool it")});
    }
    if (energy.charger.link)
        list.push_back({"relay.current", "what flows through the relay when charging begins at the depth limit",
                        explain(*energy.charger.link, "current through the relay")});
    else if (energy.settings.charger)
        list.push_back({"charger.output", "what the charger gives behind the feed that was chosen",
                        explain(energy.charger, "output of the charger")});
    list.push_back({"battery.capacity", "what the house battery holds, and how it gives it",
                    explain(energy.battery, "capacity of the house battery")});
    list.push_back({"battery.lasts", "how long it all runs on the battery alone",
                    explain(energy.autonomy, "on the battery alone")});
    list.push_back({"trip.charge", "where the ampere-hours of the trip come from and go to",
                    explain(energy.trip.ledger, "in the battery at the end")});
    if (energy.first_day)
        list.push_back(
            {"trip.sun", "the sun of the trip's first day", explain(*energy.first_day, "sun outside the air")});
    if (energy.dull)
        list.push_back({"trip.dull-days", "the dull days that the trip is judged on",
                        explain(energy.dull->first, "sun of a dull day, of that outside the air")});
    if (energy.best_sun)
        list.push_back({"solar.best", "the hour in which the panel gives most",
                        explain(*energy.best_sun, "power from the panel's regulator")});
    return list;
}

}  // namespace

std::vector<Topic> topics(const Plan& plan) {
    std::vector<Topic> list;
    for (const RunPlan& run : plan.runs)
        for (const Subject& subject : subjects)
            if (subject.of(run))
                list.push_back({*run.task.run.name + "." + std::string(subject.name), std::string(subject.words)});
    for (EnergySubject& subject : energy_subjects(plan.energy))
        list.push_back({std::move(subject.name), std::string(subject.words)});
    return list;
}

std::optional<Explanation> explain_topic(const Plan& plan, std::string_view name) {
    for (const RunPlan& run : plan.runs) {
        const std::string& run_name = *run.task.run.name;
        if (name.substr(0, run_name.size()) != run_name) continue;
        const std::string_view rest = name.substr(run_name.size());
        if (rest.empty()) return explain_run(run);
        if (rest.front() != '.') continue;
        for (const Subject& subject : subjects)
            if (rest.substr(1) == subject.name) return subject.of(run);
    }
    for (EnergySubject& subject : energy_subjects(plan.energy))
        if (subject.name == name) return std::move(subject.explanation);
    return {};
}

Explanation explain_run(const RunPlan& run) {
    Explanation node = run.taken() ? explain(*run.taken(), *run.task.run.name)
                                   : Explanation{"", *run.task.run.name, "", {}, {}, {}, {}};
    node.parts.push_back(explain(run.choice.design, "design current"));
    if (!run.figures) return node;
    // What is reported takes the place of what the size was judged by.
    std::erase_if(node.parts, [](const Explanation& part) { return part.words == "conductor temperature"; });
    for (Explanation& part : node.parts)
        if (part.words == "drop") {
            part = volts_lost(run, "drop");
            return node;
        }
    node.parts.push_back(volts_lost(run, "drop"));
    return node;
}

}  // namespace voltwright
