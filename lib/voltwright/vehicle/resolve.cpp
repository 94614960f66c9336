#include "voltwright/vehicle/resolve.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/energy/house_battery.hpp"
#include "voltwright/profile/check.hpp"
#include "voltwright/profile/complete.hpp"
#include "voltwright/profile/contradictions.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/words.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"
#include "voltwright/units/spellings.hpp"
#include "voltwright/vehicle/elements.hpp"
#include "voltwright/vehicle/equip.hpp"
#include "voltwright/vehicle/layout.hpp"
#include "voltwright/vehicle/main_fuse.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace voltwright {

namespace {

// ---- rules -------------------------------------------------------------------------------------------------------------

std::vector<Gauge> sizes_of(const SizesChoice& choice, const Tables& tables) {
    if (const auto* list = std::get_if<std::vector<Gauge>>(&choice)) return *list;
    const bool by_awg = std::get<SizeSeries>(choice) == SizeSeries::awg;
    // Sizes that few shops keep.
    const auto rare = [](Gauge gauge) { return gauge == awg(3) || gauge == awg(1) || gauge == awg(-2); };
    std::vector<Gauge> sizes;
    for (const ConductorRow& row : tables.conductors)
        if (row.gauge.system == (by_awg ? GaugeSystem::awg : GaugeSystem::metric) && !rare(row.gauge) &&
            row.area <= square_millimetres(125))
            sizes.push_back(row.gauge);
    return sizes;
}

Rules rules_of(const RulesKeys& keys, const Tables& tables) {
    Rules rules;
    rules.ampacity_basis = std::string(show(*keys.ampacity));
    rules.sizes = sizes_of(*keys.sizes, tables);
    if (keys.fuses) {
        rules.shelf.emplace();
        for (const FuseChoice& fuse : *keys.fuses) rules.shelf->push_back(fuse_of(fuse, tables));
    }
    rules.fuse_use = keys.fuse_use->value;
    rules.smallest = keys.smallest->value;
    return rules;
}

DropLimits drop_limits_of(const RulesKeys& keys) {
    return {keys.feed_drop->value, keys.output_drop->value, keys.panel_drop->value, keys.essential_drop->value,
            keys.other_drop->value};
}

// ---- one run -----------------------------------------------------------------------------------------------------------

/// What the body is called that a run returns through; empty with a cable back or a measured way.
std::string take_return(CableRun& run, const ReturnPath& path, const Tables& tables) {
    if (const auto* measured = std::get_if<Spread<Resistance>>(&path)) {
        run.body = BodyReturn{{measured->value, {"profile", "given in the profile"}}, true};
    } else if (const auto* body = std::get_if<ByBody>(&path)) {
        const std::string_view written = body->frame ? "frame" : "body";
        const auto row = std::find_if(tables.body_returns.begin(), tables.body_returns.end(),
                                      [&](const BodyReturnRow& one) { return one.written == written; });
        if (row == tables.body_returns.end()) throw std::logic_error("no such way back: " + std::string(written));
        run.body = BodyReturn{{row->usual, row->source}, false, row->high};
        return std::string(row->body);
    }
    return {};
}

std::optional<std::vector<Joint>> joints_of(const Given<std::vector<JointChoice>>& choices) {
    if (!choices) return {};
    std::vector<Joint> joints;
    for (const JointChoice& joint : *choices)
        if (const auto* measured = std::get_if<Spread<Resistance>>(&joint))
            joints.push_back({"measured joint", measured->value});
        else
            joints.push_back({std::get<std::string>(joint), {}});
    return joints;
}

/// What sits in a run of the sun beside cable and fuse: the connectors of panels, screwed terminals at the regulator.
std::vector<Joint> sun_joints(RunRole role, bool body) {
    const Joint ferrule{"ferrule", {}}, lug{"lug", {}};
    std::vector<Joint> joints = role == RunRole::panel ? std::vector{Joint{"panel connector", {}}} : std::vector{lug};
    joints.push_back(ferrule);
    if (body) return joints;
    if (role == RunRole::solar) joints.push_back(lug);
    joints.push_back(ferrule);
    return joints;
}

/// The relay's contacts stand in its feed, unless somebody put them somewhere.
void add_relay(const Layout& layout, CableRun& run) {
    const auto is_relay = [](const JointChoice& joint) {
        const auto* name = std::get_if<std::string>(&joint);
        return name && *name == "relay";
    };
    for (const ToldRun& told : layout.runs)
        if ((told.role == RunRole::feed || told.role == RunRole::output) && told.keys.joints &&
            std::any_of(told.keys.joints->begin(), told.keys.joints->end(), is_relay))
            return;
    if (!run.joints) run.joints.emplace(run.body ? 2 : 4, Joint{"lug", {}});
    run.joints->push_back({"relay", {}});
}

/// What is printed on the relay goes for its contacts.
void rate_relay(const RelayCoupling& relay, CableRun& run) {
    if (!run.joints) return;
    for (Joint& joint : *run.joints)
        if (joint.name == "relay") joint.rating = relay.rating;
}

/// What the house battery and the way may have if a load of constant power that it is made for is to get its design current
/// for as long as the battery is not discharged to its limit.
std::optional<Resistance> most_that_feeds(const Layout& layout, const FuseEnd& end, const ToldRun& run,
                                          const RunLoad& load) {
    const auto* asks = std::get_if<PowerLoad>(&load);
    const bool by_house = end.at.kind == PlaceKind::house_battery && run.role != RunRole::output;
    const BatteryBank& house = layout.has.house;
    const Voltage rests = rest_voltage(layout.tables, house.chemistry->chemistry, 1.0 - house.depth_limit);
    if (!asks || !by_house || !(rests > asks->cut_out)) return {};
    const Current design = peak_current(design_current(load));
    if (!(design > Current{}) || design > house.discharge_limit) return {};
    return (rests - asks->cut_out) / design;
}

std::vector<GivenFuse> given_fuses_of(const ToldRun& run, const Tables& tables) {
    std::vector<GivenFuse> fuses;
    if (!run.keys.fuse) return fuses;
    for (const auto& [name, choice] : run.keys.fuse->at) {
        GivenFuse fuse;
        if (!name.empty())
            fuse.at = name == run.from.name ? run.from : name == run.to.name ? run.to : place_named(name);
        if (choice) fuse.fuse = fuse_of(*choice, tables);
        if (fuse.fuse && run.keys.breaking) fuse.fuse->breaking = run.keys.breaking->value;
        fuses.push_back(std::move(fuse));
    }
    return fuses;
}

/// The largest conductor that the charger's or the regulator's terminals take.
std::optional<Area> terminal_of(const Layout& layout, const ToldRun& told) {
    const auto area = [&](const std::optional<Gauge>& size) {
        return size ? std::optional<Area>(conductor_of(layout.tables, *size)->area) : std::nullopt;
    };
    switch (told.role) {
        case RunRole::feed: return area(layout.has.charger.terminal);
        case RunRole::output: return layout.has.relay ? area(layout.has.charger.terminal) : std::nullopt;
        case RunRole::panel:
        case RunRole::solar: return area(layout.has.solar->terminal);
        default: return {};
    }
}

SystemRun run_of(const Layout& layout, std::size_t index) {
    const ToldRun& told = layout.runs[index];
    const RunKeys& keys = told.keys;
    const bool driving = told.role == RunRole::feed || told.role == RunRole::output;
    const bool by_panel = source_of(layout, index).kind == PlaceKind::panel;

    CableRun run{.name = *keys.name, .length = keys.length->value};
    run.way = way_of(layout, index, driving);
    run.insulation = keys.insulation->rating;
    run.insulation_material = keys.insulation->material;
    run.loaded_in_bundle = *keys.loaded_in_bundle;
    run.return_size = keys.return_size;
    run.given = keys.size;
    run.have_cable = keys.have && has_cable(*keys.have);
    run.have_fuse = keys.have && has_fuse(*keys.have);
    std::string body_name = take_return(run, *keys.return_, layout.tables);
    run.joints = joints_of(keys.joints);
    if (!run.joints && (told.role == RunRole::panel || told.role == RunRole::solar))
        run.joints = sun_joints(told.role, run.body.has_value());
    if (layout.has.relay && told.role == RunRole::feed) add_relay(layout, run);
    if (layout.has.relay && driving) rate_relay(*layout.has.relay, run);
    run.given_fuses = given_fuses_of(told, layout.tables);
    if (by_panel)
        run.source_limit = panel_design_current(layout.has.solar->all_short_circuit(), layout.tables).most;
    else
        run.fused_at = {fused_end(layout, index, driving)};
    for (const Place& end : {told.from, told.to})
        if (const auto stud = stud_at(layout.has, end)) run.studs.push_back(stud->diameter);
    run.terminal = terminal_of(layout, told);
    run.starting = starting_of(layout, index);
    RunLoad asked = load_of(layout, index);
    run.short_time = design_current(asked).short_time.has_value();
    for (FuseEnd& end : run.fused_at) end.feeds = most_that_feeds(layout, end, told, asked);
    run.to_one_appliance = told.role == RunRole::appliance;
    if (told.role == RunRole::trunk) run.motor_fuse = motor_fuse_behind(layout, index);
    run.on_post = told.on_post;
    if (told.largest_behind) run.motor_fuse = std::max(run.motor_fuse.value_or(Current{}), *told.largest_behind);

    const LoadUnit* load = find_load(layout.has, told.to.name);
    return {.role = told.role,
            .assumed = told.assumed,
            .path = told.path,
            .from = told.from,
            .to = told.to,
            .run = std::move(run),
            .load = std::move(asked),
            .supply = supply_of(layout, index),
            .essential = essential(layout, index),
            .body_name = std::move(body_name),
            .hours = load ? load->hours : std::vector<ClockWindow>{},
            .main_fuse = told.main_fuse};
}

RunTree tree_of(const std::vector<ToldRun>& runs) {
    std::vector<RunEnds> ends;
    for (const ToldRun& run : runs) ends.push_back({run.from, run.to});
    return run_tree(ends);
}

System system_of(const Profile& given, const Profile& complete, const Tables& tables) {
    System system{equipment_of(given, complete, tables)};
    system.title = complete.title.value_or("");
    system.rules = rules_of(complete.rules, tables);
    const std::vector<ToldRun> told = told_runs(complete, tables);
    const DropLimits limits = drop_limits_of(complete.rules);
    const std::vector<ToldRun> laid =
        with_main_fuses({system, limits, told, tree_of(told), tables}, complete, system.rules);
    const Layout layout{system, limits, laid, tree_of(laid), tables};
    for (std::size_t i = 0; i < laid.size(); ++i) system.runs.push_back(run_of(layout, i));
    for (const LoadUnit& load : system.loads)
        if (!load.through_inverter && !run_to(layout, {PlaceKind::consumer, load.name}))
            system.unfed.push_back(load.name);
    system.tree = layout.tree;
    return system;
}

/// Readings across what the runs do not have, and through runs that are not there.
Faults readings_at_nowhere(const System& system) {
    Faults faults;
    if (system.readings.empty()) return faults;
    const std::vector<std::string> points = probe_points(system.runs);
    const auto nowhere = [&](std::size_t reading, const std::string& key, const std::string& name) {
        const auto near = nearest_word(name, points);
        faults.push_back({"reading[" + std::to_string(reading) + "]." + key, "there is no '" + name + "' to measure at",
                          near ? "did you mean \"" + std::string(*near) + "\"?"
                               : "voltwright readings shows what the parts are called"});
    };
    for (std::size_t i = 0; i < system.readings.size(); ++i) {
        const NotedReading& reading = system.readings[i];
        if (reading.through && std::none_of(system.runs.begin(), system.runs.end(),
                                            [&](const SystemRun& run) { return *run.run.name == *reading.through; }))
            nowhere(i, "through", *reading.through);
        for (const std::string& name : reading.across.value_or(std::vector<std::string>{}))
            if (std::find(points.begin(), points.end(), name) == points.end()) nowhere(i, "across", name);
    }
    return faults;
}

}  // namespace

Result<System, Faults> resolve(const Profile& profile, const Tables& tables) {
    Faults faults = missing_keys(profile);
    const Faults beyond = out_of_range(profile);
    faults.insert(faults.end(), beyond.begin(), beyond.end());
    // No default can be worked out from what is no amount.
    if (!beyond.empty()) return faults;
    const Profile completed = complete(profile, tables);
    const Faults contradictions = find_contradictions(profile, completed, tables);
    faults.insert(faults.end(), contradictions.begin(), contradictions.end());
    if (!faults.empty()) return faults;
    System system = system_of(profile, completed, tables);
    faults = readings_at_nowhere(system);
    if (!faults.empty()) return faults;
    return system;
}

}  // namespace voltwright
