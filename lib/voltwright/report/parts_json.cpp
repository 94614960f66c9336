#include "voltwright/messages/parts.hpp"
#include "voltwright/report/parts_text.hpp"
#include "voltwright/units/show.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

Json money(const std::optional<Money>& amount, int decimals) {
    return amount ? Json(show(*amount, decimals)) : Json(nullptr);
}

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

/// To the digits that mean something: what was rounded is not printed as 7.7000000000000002.
Json rounded(double number, double steps) { return std::round(number * steps) / steps; }

Json item(const Part& part, int decimals) {
    Json json = {{"kind", show(part.kind)}, {"what", part.what}};
    json["size"] = part.size ? Json(show(*part.size)) : Json(nullptr);
    json["insulation_C"] = part.insulation ? rounded(in_celsius(*part.insulation), 1000) : Json(nullptr);
    json["colour"] = text_or_null(part.colour);
    json["length_m"] = part.length ? rounded(in_metres(*part.length), 10) : Json(nullptr);
    json["count"] = part.length ? Json(nullptr) : Json(part.count);
    json["spare"] = part.spare;
    json["rating_A"] = part.rating ? Json(in_amperes(*part.rating)) : Json(nullptr);
    json["at_least_A"] = part.at_least ? Json(in_amperes(*part.at_least)) : Json(nullptr);
    json["family"] = text_or_null(part.family);
    json["stud"] = part.stud ? Json(show(*part.stud)) : Json(nullptr);
    json["bore_mm"] = part.bore ? rounded(in_millimetres(*part.bore), 1000) : Json(nullptr);
    json["mass_kg"] = part.mass ? rounded(in_kilograms(*part.mass), 1000) : Json(nullptr);
    json["price"] = money(part.price, decimals);
    json["sold"] = text_or_null(sold_in_words(part));
    json["cost"] = money(part.cost, decimals);
    json["runs"] = part.runs;
    return json;
}

}  // namespace

std::string parts_json(const PartsList& list) {
    Json items = Json::array();
    for (const Part& part : list.parts) items.push_back(item(part, list.decimals));
    const bool priced = !list.currency.empty();
    const std::optional<bool> within = list.within_budget();
    Json json = {{"title", text_or_null(list.title)},
                 {"currency", text_or_null(list.currency)},
                 {"allowance_percent", rounded(in_percent(list.allowance), 1e6)},
                 {"items", std::move(items)},
                 {"total", priced ? money(list.total, list.decimals) : Json(nullptr)},
                 {"budget", money(list.budget, list.decimals)},
                 {"within_budget", within ? Json(*within) : Json(nullptr)},
                 {"assumed", list.assumed},
                 {"owned", in_words(list.owned)},
                 {"to_look", in_words(list.to_look)},
                 {"unpriced", unpriced_in_words(list)},
                 {"not_listed", in_words(list.not_listed)}};
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace voltwright
