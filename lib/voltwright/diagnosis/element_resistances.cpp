#include "voltwright/diagnosis/element_resistances.hpp"

#include "voltwright/planning/plan.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// Copper is somewhere between a cold shed and the warmth of a current in summer, a length is as a tape along the way finds
/// it, within a tenth, and the maker of a cable keeps to two hundredths (data/practice/shares.toml).
constexpr Temperature coldest_copper = celsius(5), hottest_copper = celsius(70);
const double length_is_off = in_ratio(in_practice(PracticeShare::length_is_off)),
             maker_is_off = in_ratio(in_practice(PracticeShare::maker_is_off));
/// A fuse's link is within 30 % where it is known within a bound (data/fuses/ratings.toml); a new holder's two contacts have
/// half to one and a half times the usual (1 to 3 mΩ about 2 mΩ, from memory).
constexpr double link_is_off = 0.3, least_of_holder = 0.5, most_of_holder = 1.5;
/// A resistance that somebody measured, or a body of which no range is known, is within a tenth (data/practice/shares.toml).
const double given_is_off = in_ratio(in_practice(PracticeShare::given_is_off));

struct ExpectedResistance {
    Resistance value, deviation;
};

/// Nothing is known of where within ± a half-width a figure lies: half-width/√3 (JCGM 100:2008, 4.3.7, from memory).
Resistance even_deviation(Resistance half_width) { return half_width / std::sqrt(3.0); }

/// Of a range that holds 19 times in 20, four standard deviations wide.
Resistance deviation_of_range(Resistance low, Resistance high) { return (high - low) / 4.0; }

ExpectedResistance of_cable(const Element& element, const RunPlan& run, const Tables& tables) {
    const Gauge taken = run.taken()->size;
    const Gauge size = element.side == Side::out ? taken : run.task.run.return_size.value_or(taken);
    const auto row = conductor_of(tables, size);
    const Length length = run.task.run.length;
    const auto at = [&](Temperature copper) { return resistance_per_length(*row, Coating::plain, copper) * length; };
    const Resistance cold = at(coldest_copper), hot = at(hottest_copper);
    const Resistance middle = (hot + cold) / 2.0;
    const Resistance warmth = even_deviation((hot - cold) / 2.0);
    const Resistance tape = even_deviation(length_is_off * middle);
    const Resistance maker = maker_is_off * middle;
    return {middle, sqrt(warmth * warmth + tape * tape + maker * maker)};
}

ExpectedResistance of_body(const RunPlan& run, const Tables& tables) {
    const Resistance body = run.taken()->drop->resistance.body->value;
    const auto row = std::find_if(tables.body_returns.begin(), tables.body_returns.end(),
                                  [&](const BodyReturnRow& one) { return one.body == run.task.body_name; });
    return {body, row == tables.body_returns.end() ? given_is_off * body : deviation_of_range(row->low, row->high)};
}

/// Link and holder of the fuse that sits where the element does.
std::optional<ExpectedResistance> of_fuse(const Element& element, const RunPlan& run) {
    for (const FuseFit& fuse : run.taken()->fuses) {
        if (element.at != fuse.at) continue;
        const Resistance link = fuse.link.value, holder = fuse.holder.value;
        const Resistance of_link = even_deviation(link_is_off * link);
        const Resistance of_holder = deviation_of_range(least_of_holder * holder, most_of_holder * holder);
        return ExpectedResistance{link + holder, sqrt(of_link * of_link + of_holder * of_holder)};
    }
    return {};
}

std::optional<ExpectedResistance> of_joint(const Element& element, const RunPlan& run, const Tables& tables) {
    if (element.measured) return ExpectedResistance{*element.measured, given_is_off * *element.measured};
    const Area area = conductor_of(tables, run.taken()->size)->area;
    const JointRow* row = find_joint(tables, element.joint, area);
    if (!row) return {};
    return ExpectedResistance{element.share * row->usual, element.share * deviation_of_range(row->low, row->high)};
}

std::optional<ExpectedResistance> expected_of(const Element& element, const RunPlan& run, const Tables& tables) {
    switch (element.kind) {
        case Element::Kind::cable: return of_cable(element, run, tables);
        case Element::Kind::body: return of_body(run, tables);
        case Element::Kind::fuse: return of_fuse(element, run);
        case Element::Kind::lug:
        case Element::Kind::joint: return of_joint(element, run, tables);
    }
    return {};
}

}  // namespace

std::vector<CircuitElement> elements_with_resistances(const RunPlan& run, std::size_t branch, const Tables& tables) {
    std::vector<CircuitElement> all;
    for (Element& element : elements_of(run.task))
        if (const auto expected = expected_of(element, run, tables))
            all.push_back({std::move(element), branch, expected->value, expected->deviation});
    return all;
}

}  // namespace voltwright
