#include "voltwright/report/words.hpp"

#include "voltwright/units/show.hpp"

#include <algorithm>

namespace voltwright {

std::string size_words(const RunPlan& run) {
    const Candidate* taken = run.taken();
    if (!taken) return "no size passes";
    const std::string size = show_cable(taken->size, run.task.run.insulation);
    return run.to_lay() ? size : "no size passes, " + size + " comes nearest";
}

std::string failings(const Candidate& candidate) {
    std::string words;
    for (const Criterion criterion : candidate.fails)
        words += (words.empty() ? "" : ", ") + std::string(show(criterion));
    return words;
}

std::string heading_of(const RunPlan& run) {
    const SystemRun& task = run.task;
    const std::string way =
        task.from.name + " to " + task.to.name + ", " + show(static_cast<const Length&>(task.run.length));
    const bool named = *task.run.name != task.to.name;
    return named ? *task.run.name + ", " + way : way;
}

std::string heading_of(const BankLinks& bank) {
    return *bank.link.name + ", " + std::to_string(bank.count) + " batteries, " +
           (bank.bus_bars() ? "leads of " : "a link of ") + show(static_cast<const Length&>(bank.link.length));
}

std::string bought_words(const BankLinks& bank) {
    const Candidate* taken = bank.to_lay();
    if (!taken) return "no size passes";
    return show_cable(taken->size, bank.link.insulation) + ", " + show(taken->fuses.front().rating) + " " +
           taken->fuses.front().family + " on the plus of each battery";
}

std::string bank_words(const BankLinks& bank) {
    const std::string share =
        "each carries " + show(bank.share) + " at worst, one battery's share of " + show(bank.most);
    return bank.bus_bars()
               ? "a red and a black lead from each battery, all of one length, to two bus bars; " + share
               : "red from plus to plus, black from minus to minus; take plus from one battery and minus from the "
                 "other; " +
                     share;
}

std::string show(const FuseFit& fuse) {
    return show(fuse.rating) + " " + fuse.family + " at the " + place_in_words(fuse.at);
}

std::string origin_of_cable(const RunPlan& run) {
    return run.task.run.have_cable ? "there already" : run.choice.given ? "given in the profile" : "";
}

std::string origin_of(const FuseFit& fuse) {
    return fuse.have ? "there already" : fuse.given ? "given in the profile" : "";
}

std::string no_fuse_words(const RunPlan& run, const Candidate& candidate) {
    if (const auto& most = run.task.run.source_limit) return "no fuse: the panel gives at most " + show(*most);
    const bool wanted =
        std::find(candidate.fails.begin(), candidate.fails.end(), Criterion::fuse) != candidate.fails.end();
    return wanted ? "no fuse fits" : "no fuse";
}

std::string other_class_words(const Plan& plan) {
    if (!plan.other_class) return {};
    const OtherClass& other = *plan.other_class;
    const std::string cable = show(other.insulation) + " cable";
    if (other.runs.empty()) return cable + " would do as well: no size and no fuse changes.";
    std::string changed, none;
    for (const OtherCable& run : other.runs) {
        if (!run.size) {
            none += (none.empty() ? "" : ", ") + run.run;
            continue;
        }
        changed += (changed.empty() ? "" : ", ") + run.run + " " + show(*run.size);
        if (!run.other_fuse) continue;
        for (const FuseFit& fuse : run.fuses) changed += " with " + show(fuse.rating) + " " + fuse.family;
    }
    std::string words = "With " + cable + " (much of what shops sell): ";
    if (!changed.empty()) words += changed + (none.empty() ? "." : "; ");
    if (!none.empty()) words += none + (none.find(", ") == std::string::npos ? " does not pass." : " do not pass.");
    return words;
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
    return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::string verdict_line(const Plan& plan) {
    const auto count = [&](Level level) {
        return static_cast<std::size_t>(std::count_if(plan.findings.begin(), plan.findings.end(),
                                                      [&](const Finding& finding) { return finding.level == level; }));
    };
    std::string line = plan.holds() ? "THE PLAN HOLDS." : "THE PLAN DOES NOT HOLD.";
    if (const std::size_t stops = count(Level::stop))
        line += "  " + counted(stops, "thing stops it.", "things stop it.");
    if (const std::size_t assumed = plan.assumed().size())
        line += "  " + counted(assumed, "cable is assumed.", "cables are assumed.");
    if (const std::size_t warns = count(Level::warn)) line += "  " + counted(warns, "warning.", "warnings.");
    if (const std::size_t notes = count(Level::note))
        line += "  " + counted(notes, "thing to note.", "things to note.");
    return line;
}

}  // namespace voltwright
