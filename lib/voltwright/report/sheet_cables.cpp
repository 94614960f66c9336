#include "voltwright/report/sheet_markup.hpp"
#include "voltwright/report/sheet_sections.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

namespace voltwright::sheet {

namespace {

std::string strong(std::string_view text) { return "<b>" + words(text) + "</b>"; }

std::string head_cell(const SystemRun& task) {
    return strong(*task.run.name) + "<br>" +
           words(place_in_words(task.from) + " to " + place_in_words(task.to) + ", " +
                 show(static_cast<const Length&>(task.run.length))) +
           (task.main_fuse ? "<br>no longer than that" : "") + (task.assumed ? "<br><b>assumed: measure it</b>" : "");
}

std::string size_cell(const RunPlan& run) {
    const CableRun& cable = run.task.run;
    std::string html = strong(size_words(run));
    if (cable.body)
        html += "<br>back by the body";
    else if (run.taken() && cable.return_size)
        html += "<br>" + words(show_cable(*cable.return_size, cable.insulation)) + " back";
    if (run.choice.given) html += "<br>" + origin_of_cable(run);
    return html;
}

std::string fuse_cell(const RunPlan& run) {
    const Candidate* taken = run.taken();
    std::string html;
    if (taken)
        for (const FuseFit& fuse : taken->fuses)
            html += (html.empty() ? "" : "<br>") + strong(show(fuse.rating) + " " + fuse.family) + " at the " +
                    words(place_in_words(fuse.at)) + (fuse.given ? "<br>" + origin_of(fuse) : "");
    if (!html.empty()) return html;
    return run.to_lay() ? "<b>" + no_fuse_words(run, *taken) + "</b>" : "not chosen";
}

std::string drop_cell(const RunPlan& run) {
    if (!run.figures) return "not known";
    const NetworkFigures& drop = *run.figures;
    const bool shared = run.way.has_value();
    const std::string allowed = show(*run.task.supply.drop_limit * nominal_voltage);
    std::string html = words(show(drop.drop) + (shared ? "" : " of " + allowed) + " at " + show(drop.current));
    if (shared && run.task.role != RunRole::trunk)
        html += "<br>" + words("whole way " + show(drop.way_drop) + " of " + show(run.way->allowed));
    return html;
}

}  // namespace

std::string cables(const Plan& plan) {
    if (plan.runs.empty()) return {};
    std::string rows;
    for (const RunPlan& run : plan.runs)
        rows += "<tr><th scope=\"row\">" + head_cell(run.task) + "</th><td>" + size_cell(run) + "</td><td>" +
                fuse_cell(run) + "</td><td>" + drop_cell(run) + "</td></tr>\n";
    if (plan.bank)
        rows += "<tr><th scope=\"row\">" + words(heading_of(*plan.bank)) + "</th><td colspan=\"3\">" +
                strong(bought_words(*plan.bank)) + "<br>" + words(bank_words(*plan.bank)) + "</td></tr>\n";
    return "<table>\n<caption>What each run gets. Volts lost are those out and back, against what is "
           "allowed.</caption>\n<thead><tr><th scope=\"col\" class=\"w3\">Run</th><th scope=\"col\" "
           "class=\"w2\">Cable</th><th scope=\"col\">Fuse</th><th scope=\"col\">Volts "
           "lost</th></tr></thead>\n<tbody>\n" +
           rows + "</tbody>\n</table>\n";
}

}  // namespace voltwright::sheet
