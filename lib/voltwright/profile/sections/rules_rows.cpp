#include "voltwright/profile/sections/rules.hpp"

#include "voltwright/profile/formats/cable.hpp"
#include "voltwright/profile/formats/fuse.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

/// Drops of 12 V.
Range drop() { return up_to(percent(30.0)); }

std::span<const Key> rules_rows() {
    static const Key rows[] = {
        key<&RulesKeys::ampacity>("ampacity", usual("us-33-cfr-183"), {},
                                  "table that says what current a cable may carry"),
        key<&RulesKeys::sizes>("sizes", usual("awg"), {},
                               "sizes that can be bought: \"awg\", \"metric\", or a list of what the shop has"),
        key<&RulesKeys::fuses>("fuses",
                               Absent{"every rating of the fuse tables", R"(["50 A SF30", "40 A SF30", "15 A blade"])"},
                               {fuse_rating()}, "fuses on the shelf: [\"40 A SF30\", \"15 A blade\"]"),
        key<&RulesKeys::feed_drop>("feed_drop", usual("6 %"), {drop()},
                                   "most voltage, of 12 V, that the run to the charger may lose"),
        key<&RulesKeys::output_drop>(
            "output_drop", usual("1.5 %"), {drop()},
            "most voltage, of 12 V, that the run from charger or regulator to battery may lose"),
        key<&RulesKeys::panel_drop>("panel_drop", usual("4.5 %"), {drop()},
                                    "most voltage, of 12 V a panel in series, that the run to the regulator may lose"),
        key<&RulesKeys::essential_drop>("essential_drop", usual("3 %"), {drop()},
                                        "most voltage, of 12 V, lost from the battery to an essential load"),
        key<&RulesKeys::other_drop>("other_drop", usual("10 %"), {drop()},
                                    "most voltage, of 12 V, lost from the battery to any other load"),
        key<&RulesKeys::fuse_use>("fuse_use", usual("80 %"), {between(percent(30.0), percent(100.0))},
                                  "share of its rating that a fuse carries all day"),
        key<&RulesKeys::smallest>("smallest", usual("1 mm2"),
                                  {between(square_millimetres(0.3), square_millimetres(50.0))},
                                  "smallest cable that stands up to a vehicle's shaking"),
    };
    return rows;
}

void look_through_rules(const WholeProfile& whole, Faults& faults) {
    const RulesKeys& rules = whole.given.rules;
    const auto* sizes = rules.sizes ? std::get_if<std::vector<Gauge>>(&*rules.sizes) : nullptr;
    for (std::size_t i = 0; sizes && i < sizes->size(); ++i)
        size_of_table((*sizes)[i], path_to("rules.sizes", i), whole.tables, faults);
    for (std::size_t i = 0; rules.fuses && i < rules.fuses->size(); ++i)
        fuse_of_table((*rules.fuses)[i], path_to("rules.fuses", i), whole.tables, faults);
}

}  // namespace

SectionRow rules_section() {
    SectionRow row =
        one_section<&Profile::rules>("rules", "what the plan is judged by, and what the shop has", rules_rows());
    row.contradictions = &look_through_rules;
    return row;
}

}  // namespace voltwright
