#include "voltwright/report/plan_json.hpp"

#include "voltwright/messages/plan.hpp"
#include "voltwright/planning/figures_missing.hpp"
#include "voltwright/report/energy_text.hpp"
#include "voltwright/report/finding_json.hpp"
#include "voltwright/report/numbers.hpp"
#include "voltwright/report/topics.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <nlohmann/json.hpp>

#include <stdexcept>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

Json value_of(const Explanation& node) {
    struct {
        std::string_view key;
        Json operator()(std::monostate) const { return nullptr; }
        Json operator()(const Measure& measure) const {
            const auto number = number_for(key, measure);
            if (!number) throw std::logic_error("the key " + std::string(key) + " does not fit its quantity");
            return *number;
        }
        Json operator()(const std::string& text) const { return text; }
        Json operator()(int number) const { return number; }
        Json operator()(bool truth) const { return truth; }
    } of{node.json};
    return std::visit(of, node.value);
}

/// Every described value below that has a key goes into one object.
void gather(const Explanation& node, Json& object) {
    if (!node.json.empty()) object[std::string(node.json)] = value_of(node);
    for (const Explanation& part : node.parts) gather(part, object);
}

double number(std::string_view key, const Measure& measure) { return number_for(key, measure).value(); }

Json fuse_json(const FuseFit& fuse) {
    return {{"at", fuse.at.name},
            {"family", fuse.family},
            {"rating_A", number("rating_A", fuse.rating)},
            {"decided_by", fuse.have    ? "owned"
                           : fuse.given ? "given"
                                        : "plan"},
            {"breaking_capacity_A", number("breaking_capacity_A", fuse.fault.breaking_capacity.value)},
            {"fault_A", number("fault_A", fuse.fault.expected.current)},
            {"fault_highest_A", number("fault_highest_A", fuse.fault.highest.current)},
            {"in_front_A", fuse.fault.in_front > Current{} ? Json(number("in_front_A", fuse.fault.in_front)) : Json()}};
}

/// Main fuses on the posts of batteries, and what hangs on each.
Json main_fuses_json(const Plan& plan) {
    Json list = Json::array();
    for (const RunPlan& run : plan.runs) {
        const Candidate* taken = run.to_lay();
        if (!run.task.run.on_post || !taken || taken->fuses.empty()) continue;
        Json object = {{"run", *run.task.run.name},
                       {"to", run.task.to.name},
                       {"lead_m", number("lead_m", *run.task.run.length)},
                       {"lead", show(taken->size)},
                       {"insulation_C", number("insulation_C", static_cast<Temperature>(run.task.run.insulation))}};
        object.update(fuse_json(taken->fuses.front()));
        object["serves"] = served_by(plan, run);
        list.push_back(std::move(object));
    }
    return list;
}

/// The cables between equal batteries in parallel.
Json bank_json(const Plan& plan) {
    if (!plan.bank) return nullptr;
    const BankLinks& bank = *plan.bank;
    const Candidate* taken = bank.to_lay();
    Json object = {{"batteries", bank.count},
                   {"bus_bars", bank.bus_bars()},
                   {"pairs", bank.pairs()},
                   {"length_m", number("length_m", *bank.link.length)},
                   {"size", taken ? Json(show(taken->size)) : Json(nullptr)},
                   {"insulation_C", number("insulation_C", static_cast<Temperature>(bank.link.insulation))},
                   {"bank_A", number("bank_A", bank.most)},
                   {"design_current_A", number("design_current_A", bank.share)},
                   {"fuse", taken ? fuse_json(taken->fuses.front()) : Json(nullptr)}};
    return object;
}

/// What another class of cable changes.
Json other_class_json(const Plan& plan) {
    if (!plan.other_class) return nullptr;
    Json runs = Json::array();
    for (const OtherCable& run : plan.other_class->runs) {
        Json fuses = Json::array();
        for (const FuseFit& fuse : run.fuses)
            fuses.push_back(
                {{"at", fuse.at.name}, {"family", fuse.family}, {"rating_A", number("rating_A", fuse.rating)}});
        runs.push_back(
            {{"name", run.run}, {"size", run.size ? Json(show(*run.size)) : Json(nullptr)}, {"fuses", fuses}});
    }
    return {{"insulation_C", number("insulation_C", plan.other_class->insulation)}, {"runs", std::move(runs)}};
}

Json fails_json(const Candidate& candidate) {
    Json fails = Json::array();
    for (const Criterion criterion : candidate.fails) fails.push_back(show(criterion));
    return fails;
}

Json candidate_json(const Candidate& candidate) {
    const Json fails = fails_json(candidate);
    Json object = {{"size", show(candidate.size)}, {"fits", candidate.fits()}, {"fails", fails}};
    object["drop_V"] = candidate.drop ? Json(number("drop_V", candidate.drop->drop)) : Json(nullptr);
    object["heat_W"] = candidate.drop ? Json(number("heat_W", candidate.drop->heat)) : Json(nullptr);
    return object;
}

/// The keys that are not numbers of a model, and those that some runs have no value for.
Json run_json(const RunPlan& run, int decimals) {
    const SystemRun& task = run.task;
    Json object = {{"name", *task.run.name},
                   {"from", task.from.name},
                   {"to", task.to.name},
                   {"length_m", number("length_m", *task.run.length)}};
    for (const std::string_view key :
         {"size", "area_mm2", "return_size", "current_A", "design_current_A", "resistance_mohm", "drop_V",
          "drop_percent", "drop_limit_percent", "far_end_V", "far_end_lowest_V", "heat_W", "conductor_temperature_C",
          "ampacity_A", "figures_at", "figures_apart"})
        object[std::string(key)] = nullptr;
    if (task.run.body)
        object["return_size"] = "body";
    else if (run.taken())
        object["return_size"] = show(task.run.return_size.value_or(run.taken()->size));
    object["drop_limit_percent"] = number("drop_limit_percent", *task.supply.drop_limit);
    object["insulation_C"] = number("insulation_C", static_cast<Temperature>(task.run.insulation));
    object["decided_by"] = task.run.have_cable     ? Json("owned")
                           : run.choice.given      ? Json("given")
                           : !run.to_lay()         ? Json(nullptr)
                           : run.choice.decided_by ? Json(show(*run.choice.decided_by))
                                                   : Json("thinnest of the shop");
    object["fits"] = run.taken() ? Json(run.taken()->fits()) : Json(nullptr);
    object["fails"] = run.taken() ? fails_json(*run.taken()) : Json::array();
    object["assumed"] = task.assumed;
    object["cable_drop_V"] = nullptr;
    object["way_drop_V"] = run.way && run.figures ? Json(number("way_drop_V", run.figures->way_drop)) : Json(nullptr);
    object["way_drop_at_most_V"] = run.way ? Json(number("way_drop_at_most_V", run.way->lost)) : Json(nullptr);
    object["way_drop_limit_V"] = run.way ? Json(number("way_drop_limit_V", run.way->allowed)) : Json(nullptr);
    gather(explain_run(run), object);
    const auto missing = figures_missing(run);
    object["figures_missing"] = missing ? Json(show(*missing)) : Json(nullptr);
    if (run.taken() && !run.figures)
        object["resistance_mohm"] = number("resistance_mohm", run.taken()->resistance().loop);
    object["fuses"] = Json::array();
    if (const Candidate* taken = run.taken())
        for (const FuseFit& fuse : taken->fuses) object["fuses"].push_back(fuse_json(fuse));
    object["candidates"] = Json::array();
    for (const Candidate& candidate : run.choice.ladder) object["candidates"].push_back(candidate_json(candidate));
    if (run.taken() && run.figures) {
        Json& taken = object["candidates"][*run.choice.taken];
        taken["drop_V"] = number("drop_V", run.figures->drop);
        taken["heat_W"] = number("heat_W", run.figures->heat);
    }
    for (std::size_t k = 0; k < run.costs.size(); ++k)
        object["candidates"][k]["cost"] = run.costs[k] ? Json(show(*run.costs[k], decimals)) : Json(nullptr);
    return object;
}

/// "depth limit": what ended it, in a word.
std::string ended_by(const Autonomy& autonomy) {
    switch (autonomy.ended_by) {
        case EndedBy::trip: return "nothing";
        case EndedBy::depth_limit: return "depth limit";
        case EndedBy::cut_off: return autonomy.ended_name + " cut out";
        case EndedBy::depleted: return "flat battery";
    }
    return {};
}

/// The same as a code, `cut-out` with the name of what it is that cut out.
std::string_view ended_by_code(EndedBy ended_by) {
    switch (ended_by) {
        case EndedBy::trip: return "nothing";
        case EndedBy::depth_limit: return "depth-limit";
        case EndedBy::cut_off: return "cut-out";
        case EndedBy::depleted: return "flat-battery";
    }
    return {};
}

Json autonomy_object(const Autonomy& autonomy, bool idle = false) {
    const bool cut_out = !idle && autonomy.ended_by == EndedBy::cut_off;
    return {{"hours", number("hours", autonomy.lasts)},
            {"ended_by", idle ? "no load" : ended_by(autonomy)},
            {"ended_by_code", idle ? "no-load" : ended_by_code(autonomy.ended_by)},
            {"ended_by_name", cut_out ? Json(autonomy.ended_name) : Json(nullptr)},
            {"from_soc_percent", number("from_soc_percent", autonomy.from)},
            {"day", show(autonomy.day)},
            {"starts_at", clock_of(autonomy.starts_at)},
            {"end_soc_percent", number("end_soc_percent", autonomy.end)},
            {"limit_soc_percent", number("limit_soc_percent", autonomy.limit)},
            {"limit_at_C", number("limit_at_C", autonomy.limit_at)},
            {"used_Ah", number("used_Ah", autonomy.used)}};
}

/// How long one drive has to be; null where driving does not fill it.
Json recharge_object(const std::optional<DrivingWorth>& driving) {
    if (!driving || (!(driving->first_hour > Charge{}) && !driving->filled.back())) return nullptr;
    Json object = {{"from_soc_percent", number("from_soc_percent", driving->from)}};
    constexpr std::array keys = {"to_80_percent_hours", "to_90_percent_hours", "to_95_percent_hours"};
    static_assert(keys.size() == told_fillings.size());
    for (std::size_t i = 0; i < keys.size(); ++i)
        object[keys[i]] = driving->filled[i] ? Json(number(keys[i], *driving->filled[i])) : Json(nullptr);
    return object;
}

Json dull_days_object(const EnergyPlan& energy) {
    if (!energy.dull) return nullptr;
    const TripResult& usual = energy.dull->usual;
    return {{"first", energy.dull->run.first},
            {"count", energy.dull->run.count},
            {"sun_percent", number("sun_percent", energy.dull->first.share.value)},
            {"usual_sun",
             {{"holds", energy.holds_in_usual_sun()},
              {"lowest_soc_percent", number("lowest_soc_percent", usual.lowest)},
              {"lowest_at", {{"day", usual.lowest_at.day}, {"clock", clock_of(usual.lowest_at.clock)}}},
              {"end_soc_percent", number("end_soc_percent", usual.end)},
              {"essential_off_hours", number("essential_off_hours", usual.essential_off())},
              {"from_sun_Ah", number("from_sun_Ah", usual.ledger.from_sun)}}}};
}

/// When it fails for the first time, and which event that is; null when it holds.
Json first_failure(const TripResult& trip) {
    const auto first = trip.first_failure();
    if (!first) return nullptr;
    return {{"by_code", ended_by_code(first->by)},
            {"name", first->name.empty() ? Json(nullptr) : Json(first->name)},
            {"day", first->at.day},
            {"clock", clock_of(first->at.clock)}};
}

Json trip_object(const EnergyPlan& energy) {
    const TripResult& trip = energy.trip;
    Json object = {{"holds", energy.holds()},
                   {"lowest_soc_percent", number("lowest_soc_percent", trip.lowest)},
                   {"lowest_at", {{"day", trip.lowest_at.day}, {"clock", clock_of(trip.lowest_at.clock)}}},
                   {"end_soc_percent", number("end_soc_percent", trip.end)},
                   {"limit_soc_percent", number("limit_soc_percent", trip.deepest_allowed)},
                   {"limit_at_C", number("limit_at_C", trip.limit_at)},
                   {"first_failure", first_failure(trip)},
                   {"wiring_holds", energy.wiring_stops == 0},
                   {"essential_off_hours", number("essential_off_hours", trip.essential_off())},
                   {"charge_per_drive_hour_Ah", nullptr},
                   {"charge_first_hour_Ah", nullptr},
                   {"recharge", recharge_object(energy.driving)},
                   {"night_Ah", number("night_Ah", energy.a_night)},
                   {"guard", energy.guard_known                        ? "given"
                             : energy.guard == CutOffSetting::standard ? "standard"
                                                                       : "high"},
                   {"dull_days", dull_days_object(energy)},
                   {"days", Json::array()},
                   {"loads", Json::array()}};
    if (energy.driving) {
        object["charge_per_drive_hour_Ah"] = number("charge_per_drive_hour_Ah", energy.driving->an_hour);
        object["charge_first_hour_Ah"] = number("charge_first_hour_Ah", energy.driving->first_hour);
    }
    for (const DayTotals& day : trip.days)
        object["days"].push_back({{"day", day.day},
                                  {"used_Ah", number("used_Ah", day.used)},
                                  {"charged_Ah", number("charged_Ah", day.charged)},
                                  {"lowest_soc_percent", number("lowest_soc_percent", day.lowest)},
                                  {"end_soc_percent", number("end_soc_percent", day.end)}});
    for (const ConsumerResult& served : trip.served)
        object["loads"].push_back({{"name", served.name},
                                   {"essential", served.essential},
                                   {"used_Ah", number("used_Ah", served.used)},
                                   {"off_hours", number("off_hours", served.off)},
                                   {"missed_Wh", number("missed_Wh", served.unserved)},
                                   {"cut_outs", served.cut_offs}});
    const Ledger& ledger = trip.ledger;
    object["ledger"] = {{"from_charger_Ah", number("from_charger_Ah", ledger.from_charger)},
                        {"from_sun_Ah", number("from_sun_Ah", ledger.from_sun)},
                        {"used_Ah", number("used_Ah", ledger.used)},
                        {"lost_Ah", number("lost_Ah", ledger.lost())},
                        {"stored_Ah", number("stored_Ah", ledger.now - ledger.at_start)}};
    return object;
}

/// What hangs on the starter battery.
Json starter_object(const StarterLoads& starter) {
    Json object = {{"holds", starter.holds()},
                   {"hours", starter.lasts ? Json(number("hours", *starter.lasts)) : Json(nullptr)},
                   {"least_soc_percent", number("least_soc_percent", starter.least)},
                   {"allowed_Ah", number("allowed_Ah", starter.allowed)},
                   {"used_Ah", number("used_Ah", starter.taken)},
                   {"without_engine_hours", number("without_engine_hours", starter.stand)},
                   {"capacity_Ah", number("capacity_Ah", starter.capacity)},
                   {"capacity_assumed", starter.capacity_assumed},
                   {"loads", Json::array()}};
    for (const StarterLoad& load : starter.loads)
        object["loads"].push_back(
            {{"name", load.name}, {"essential", load.essential}, {"used_Ah", number("used_Ah", load.taken)}});
    return object;
}

Json settings_json(const EnergyPlan& energy) {
    Json list = Json::array();
    for (const SettingWords& setting : settings_in_words(energy)) {
        Json object = {{"code", setting.code}};
        put_arguments(object, setting.figures);
        object.update({{"what", setting.what}, {"value", setting.value}, {"why", setting.why}});
        list.push_back(std::move(object));
    }
    return list;
}

Json plan_object(const Plan& plan) {
    Json answer = {{"title", plan.title}, {"verdict", plan.holds() ? "holds" : "fails"}, {"runs", Json::array()}};
    for (const RunPlan& run : plan.runs) answer["runs"].push_back(run_json(run, plan.decimals));
    answer["main_fuses"] = main_fuses_json(plan);
    answer["bank"] = bank_json(plan);
    if (!plan.currency.empty()) answer["currency"] = plan.currency;
    answer["autonomy"] = autonomy_object(plan.energy.autonomy, plan.energy.house_idle());
    answer["trip"] = trip_object(plan.energy);
    if (plan.energy.starter) answer["starter_loads"] = starter_object(*plan.energy.starter);
    answer["settings"] = settings_json(plan.energy);
    answer["findings"] = Json::array();
    for (const Finding& finding : plan.findings) answer["findings"].push_back(finding_json(finding));
    answer["assumed"] = Json::array();
    for (const Assumption& one : plan.assumptions) answer["assumed"].push_back(assumption_json(one));
    answer["other_insulation"] = other_class_json(plan);
    answer["not_judged"] = each_shown(plan.not_judged);
    answer["not_judged_codes"] = Json::array();
    for (const NotJudged what : plan.not_judged) answer["not_judged_codes"].push_back(code_of(what));
    return answer;
}

Json difference_value(const Changed::Value& value) {
    struct {
        Json operator()(std::monostate) const { return nullptr; }
        Json operator()(const std::string& word) const { return word; }
        Json operator()(const Measure& measure) const { return show(measure); }
    } of;
    return std::visit(of, value);
}

/// In words as the page has it, and each quantity as a number too.
Json difference_json(const Changed& difference) {
    Json object = {{"about", difference.about},
                   {"code", code_of(difference.what)},
                   {"what", show(difference.what)},
                   {"before", difference_value(difference.before)},
                   {"after", difference_value(difference.after)}};
    if (const auto* before = std::get_if<Measure>(&difference.before)) put_measure(object, "before", *before);
    if (const auto* after = std::get_if<Measure>(&difference.after)) put_measure(object, "after", *after);
    return object;
}

}  // namespace

std::string plan_json(const Plan& plan) { return written(plan_object(plan)); }

std::string trip_json(const Plan& plan) {
    Json answer = {{"title", plan.title}, {"trip", trip_object(plan.energy)}, {"findings", Json::array()}};
    if (plan.energy.starter) answer["starter_loads"] = starter_object(*plan.energy.starter);
    for (const Finding& finding : plan.energy.findings) answer["findings"].push_back(finding_json(finding));
    answer["assumed"] = Json::array();
    for (const Assumption& one : plan.energy.assumptions) answer["assumed"].push_back(assumption_json(one));
    answer["timeline"] = Json::array();
    for (const TimelinePoint& point : plan.energy.trip.points)
        answer["timeline"].push_back({{"day", moment(point.at).day},
                                      {"clock", clock_of(moment(point.at).clock)},
                                      {"soc_percent", number("soc_percent", point.soc)},
                                      {"battery_V", number("battery_V", point.terminals)},
                                      {"battery_A", number("battery_A", point.battery)}});
    return written(answer);
}

std::string autonomy_json(const AutonomyAnswer& answer) {
    const Autonomy& worst = answer.high && answer.high->lasts < answer.standard.lasts ? *answer.high : answer.standard;
    Json object = {{"holds", answer.holds()},
                   {"wiring_holds", answer.wiring_stops == 0},
                   {"autonomy", autonomy_object(worst, answer.house_idle)},
                   {"by_guard", nullptr}};
    if (answer.high)
        object["by_guard"] = {{"standard", autonomy_object(answer.standard)}, {"high", autonomy_object(*answer.high)}};
    object["recharge"] = recharge_object(answer.driving);
    if (answer.starter) object["starter_loads"] = starter_object(*answer.starter);
    object["findings"] = Json::array();
    for (const Finding& finding : answer.stops) object["findings"].push_back(finding_json(finding));
    object["not_charged"] = Json::array();
    for (const Finding& finding : answer.not_charged) object["not_charged"].push_back(finding_json(finding));
    if (!answer.untimed.off.empty()) object["counted_as_off"] = answer.untimed.off;
    object["assumed"] = Json::array();
    for (const Assumption& one : answer.assumptions) object["assumed"].push_back(assumption_json(one));
    return written(object);
}

std::string replan_json(const Replan& replan) {
    Json answer = {
        {"before", plan_object(replan.before)}, {"after", plan_object(replan.after)}, {"changed", Json::array()}};
    for (const Changed& difference : replan.changed) answer["changed"].push_back(difference_json(difference));
    return written(answer);
}

std::string wire_json(const Plan& plan, std::string_view name) {
    Json answer = {{"runs", Json::array()}};
    for (const RunPlan& run : plan.runs)
        if (name.empty() || *run.task.run.name == name) answer["runs"].push_back(run_json(run, plan.decimals));
    if (!plan.currency.empty()) answer["currency"] = plan.currency;
    return written(answer);
}

}  // namespace voltwright
