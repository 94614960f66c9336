#include "voltwright/report/plan_text.hpp"
#include "voltwright/report/sheet_markup.hpp"
#include "voltwright/report/sheet_sections.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

namespace voltwright::sheet {

namespace {

constexpr std::size_t most_in_a_sentence = 8;

/// Every fuse by its place, or how many there are; nothing of none.
std::string fuses_of(const Plan& plan) {
    std::string fuses;
    std::size_t count = 0;
    for (const RunPlan& run : plan.runs)
        if (run.taken())
            for (const FuseFit& fuse : run.taken()->fuses) {
                fuses += (fuses.empty() ? "" : "; ") + show(fuse) + " (" + *run.task.run.name + ")";
                ++count;
            }
    if (count <= most_in_a_sentence) return fuses;
    return "all " + std::to_string(count) + " of the table of cables and fuses";
}

}  // namespace

std::string checks(const Plan& plan, const System& system) {
    const std::string fuses = fuses_of(plan);
    const bool lithium = system.house.chemistry->group == "lithium";
    std::string html;
    html += check("Every fuse is out, and goes in last.");
    if (!fuses.empty())
        html += check(words(
            "Each end from which a battery can feed a cable has its fuse, close to that battery: " + fuses + "."));
    html += check("Each fuse pulled in turn: the far end of its cable goes dead.");
    html += check("A grommet in every hole, and no edge that can saw through a cable.");
    html += check(words("A clip " + clip_spacing() + "; nothing hangs, swings or rubs."));
    html += check("Every crimp tugged hard: it does not move. No strand stands out of a lug.");
    html += check("Nothing near hot or moving parts, steering, pedals, fuel or brake lines, or airbags.");
    html += check("Polarity read with the meter before the first connection.");
    html += lithium ? check("The lithium battery stands outside the living space, and cannot be charged frozen.")
                    : check("The battery is strapped down, and its gas is vented outside.");
    html += check(
        "After an hour of driving each fuse, plug and lug felt with the back of the hand: warm is well, too hot "
        "to hold is a bad joint. A whole fuse proves nothing of it.");
    return "<ul class=\"checks\">\n" + html + "</ul>\n";
}

}  // namespace voltwright::sheet
