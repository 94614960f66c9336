#include "voltwright/vehicle/resolve.hpp"

#include "voltwright/energy/house_battery.hpp"
#include "voltwright/units/show.hpp"
#include "voltwright/vehicle/elements.hpp"
#include "voltwright/vehicle/forms.hpp"
#include "voltwright/vehicle/keys.hpp"

#include <algorithm>
#include <functional>
#include <stdexcept>
#include <utility>

namespace voltwright {

Given<Stud> stud_at(const Profile& profile, std::string_view place) {
    if (place == "starter") return profile.starter.stud;
    if (place == "charger") return profile.charger.stud;
    return place == "battery" ? profile.battery.stud : Given<Stud>{};
}

std::string_view show(RunRole role) {
    switch (role) {
        case RunRole::feed: return "feed";
        case RunRole::output: return "charger output";
        case RunRole::appliance: return "appliance";
        case RunRole::trunk: return "trunk";
        case RunRole::inverter: return "inverter";
        case RunRole::solar: return "solar";
    }
    return "";
}

std::string_view source_of(const System& system, std::string_view place) {
    const auto before = [&](std::string_view end) {
        return std::find_if(system.runs.begin(), system.runs.end(),
                            [end](const SystemRun& run) { return run.to == end && run.role != RunRole::solar; });
    };
    auto run = before(place);
    if (run == system.runs.end()) return "battery";
    for (;;) {
        const std::string_view from = run->from;
        if (from == "starter" || from == "battery" || from == "charger") return from;
        run = before(from);
        if (run == system.runs.end()) return from;
    }
}

namespace {

/// Lengths of the runs that people forget to describe. Common practice, no source.
constexpr Length assumed_output_length = metres(1.0);
constexpr Length assumed_fridge_length = metres(4.0);
constexpr Length assumed_inverter_length = metres(1.0);
/// Where an appliance without a cut-out of its own draws most.
constexpr Voltage flat_battery = end_of_rating;
/// The lower of the two usual settings of a fridge's guard.
constexpr Voltage lowest_usual_cut_out = volts(10.4);

Faults missing_keys(const Profile& profile) {
    Faults faults;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(profile); ++i)
            for (const Key& key : section.keys)
                if (std::holds_alternative<Required>(key.fallback) && !key.given(section.look(profile, i)))
                    faults.push_back({std::string(section.name) +
                                          (section.many ? "[" + std::to_string(i) + "]." : ".") + std::string(key.name),
                                      "`" + std::string(key.name) + "` is needed",
                                      {}});
    return faults;
}

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

FuseOfRating fuse_of(const FuseChoice& choice, const Tables& tables) {
    return {choice.rating, std::string(find_fuse_family(tables, choice.family)->family)};
}

/// Builds a system from a complete profile that does not contradict itself.
class Builder {
public:
    Builder(const Profile& given, const Profile& complete, const Tables& tables)
        : given_(given), profile_(complete), tables_(tables) {}

    System system() && {
        System system{.title = profile_.title.value_or(""),
                      .given = given_,
                      .complete = profile_,
                      .rules = rules(),
                      .starter = starter(),
                      .house = house(),
                      .chemistry = &chemistry(),
                      .compensation = compensation(),
                      .runs = {},
                      .unfed = {}};
        house_ = system.house;
        starter_ = system.starter;
        coldest_ = profile_.trip.low->value;
        hottest_ = profile_.trip.high->value;
        for (const DayKeys& day : profile_.days) {
            if (day.low) coldest_ = std::min(coldest_, day.low->value);
            if (day.high) hottest_ = std::max(hottest_, day.high->value);
        }
        gather_runs();
        for (std::size_t i = 0; i < described_.size(); ++i) system.runs.push_back(run_of(i));
        std::stable_sort(system.runs.begin(), system.runs.end(), [](const SystemRun& a, const SystemRun& b) {
            const auto rank = [](const SystemRun& run) {
                return run.role == RunRole::feed ? 0 : run.role == RunRole::output ? 1 : 2;
            };
            return rank(a) < rank(b);
        });
        for (const LoadKeys& load : profile_.loads)
            if (!load.through && !leads_to(*load.name)) system.unfed.push_back(*load.name);
        return system;
    }

private:
    /// A run of the profile, or one that it forgot.
    struct Described {
        RunKeys keys;
        bool assumed;
        std::string path;
    };

    // ---- what all runs share -----------------------------------------------------------------------------------------

    [[nodiscard]] Rules rules() const {
        const RulesKeys& keys = profile_.rules;
        Rules rules;
        rules.ampacity_basis = std::string(show(*keys.ampacity));
        rules.sizes = sizes_of(*keys.sizes, tables_);
        if (keys.fuses) {
            rules.shelf.emplace();
            for (const FuseChoice& fuse : *keys.fuses) rules.shelf->push_back(fuse_of(fuse, tables_));
        }
        rules.fuse_use = keys.fuse_use->value;
        rules.smallest = keys.smallest->value;
        return rules;
    }

    [[nodiscard]] const ChemistryRow& chemistry() const {
        return *find_chemistry(tables_, show(*profile_.battery.chemistry));
    }

    [[nodiscard]] InternalResistance house() const {
        const int count = *profile_.battery.count;
        if (!given_.battery.internal_resistance)
            return internal_resistance(chemistry(), profile_.battery.capacity->value, count);
        const Spread<Resistance>& one = *given_.battery.internal_resistance;
        return known_resistance(one.value / static_cast<double>(count), one.half_width / static_cast<double>(count));
    }

    [[nodiscard]] InternalResistance starter() const {
        const CrankingRow& test = tables_.cranking.front();
        if (given_.starter.internal_resistance)
            return known_resistance(given_.starter.internal_resistance->value,
                                    given_.starter.internal_resistance->half_width);
        if (given_.starter.cold_cranking) return internal_resistance(test, given_.starter.cold_cranking->value);
        return usual_starter_resistance(test);
    }

    // ---- which runs there are ----------------------------------------------------------------------------------------

    [[nodiscard]] bool leads_to(std::string_view place) const {
        return std::any_of(described_.begin(), described_.end(),
                           [&](const Described& run) { return run.keys.to == place; });
    }

    void assume(std::string to, Length length) {
        Profile lone;
        lone.runs.push_back({});
        lone.runs.front().to = std::move(to);
        lone.runs.front().length = Spread<Length>{length};
        described_.push_back({complete(lone, tables_).runs.front(), true, {}});
    }

    void gather_runs() {
        for (std::size_t i = 0; i < profile_.runs.size(); ++i)
            described_.push_back({profile_.runs[i], false, "run[" + std::to_string(i) + "]"});
        const bool output_described = std::any_of(described_.begin(), described_.end(), [](const Described& run) {
            return run.keys.to == "battery" && run.keys.from != "regulator";
        });
        if (!output_described) assume("battery", assumed_output_length);
        for (const FridgeKeys& fridge : profile_.fridges)
            if (!leads_to(*fridge.name)) assume(*fridge.name, assumed_fridge_length);
        if (profile_.inverter && !leads_to("inverter")) assume("inverter", assumed_inverter_length);
    }

    [[nodiscard]] const Described* feeding(std::string_view place) const {
        for (const Described& run : described_)
            if (run.keys.to == place) return &run;
        return nullptr;
    }

    /// The source at the beginning of the way to a run.
    [[nodiscard]] std::string source_of(const RunKeys& run) const {
        std::string place = *run.from;
        while (place != "starter" && place != "battery" && place != "charger" && place != "panel" &&
               place != "regulator")
            place = *feeding(place)->keys.from;
        return place;
    }

    // ---- temperatures ------------------------------------------------------------------------------------------------

    /// For wiring alone: what lives in a battery parked there follows the weather.
    [[nodiscard]] WayPart at(const Somewhere& where, Length length, bool driving) const {
        if (const auto* temperature = std::get_if<Spread<Temperature>>(&where))
            return {show(temperature->value), length, temperature->value};
        const SurroundingsRow& row = *find_surroundings(tables_, std::get<std::string>(where));
        const TemperatureRise rise = row.always + (driving ? row.driving : std::max(row.driving, row.sun));
        return {std::string(row.place), length,
                std::max<Temperature>(hottest_ + rise, row.floor.value_or(hottest_ + rise))};
    }

    [[nodiscard]] const Somewhere& where(std::string_view place) const {
        if (place == "starter") return *profile_.starter.where;
        if (place == "charger") return *profile_.charger.where;
        for (const LoadKeys& load : profile_.loads)
            if (load.name == place) return *load.where;
        for (const FridgeKeys& fridge : profile_.fridges)
            if (fridge.name == place) return *fridge.where;
        // A fuse block, or an inverter, stands where the run to it ends; where nobody said that, as its source does.
        const Described* run = place == "battery" ? nullptr : feeding(place);
        if (!run) return *profile_.battery.where;
        if (!run->keys.where) return where(*run->keys.from);
        if (const auto* somewhere = std::get_if<Somewhere>(&*run->keys.where)) return *somewhere;
        return std::get<std::vector<WaySection>>(*run->keys.where).back().place;
    }

    [[nodiscard]] std::vector<WayPart> way_of(const RunKeys& run, bool driving) const {
        const Length length = run.length->value;
        if (!run.where) {
            const Somewhere& from = where(*run.from);
            const Somewhere& to = where(*run.to);
            if (from == to) return {at(from, length, driving)};
            return {at(from, length / 2.0, driving), at(to, length / 2.0, driving)};
        }
        if (const auto* place = std::get_if<Somewhere>(&*run.where)) return {at(*place, length, driving)};
        std::vector<WayPart> way;
        for (const WaySection& section : std::get<std::vector<WaySection>>(*run.where))
            way.push_back(at(section.place, section.length.value, driving));
        return way;
    }

    // ---- one run -----------------------------------------------------------------------------------------------------

    [[nodiscard]] static bool is_solar(const RunKeys& run) {
        return run.to == "regulator" || run.to == "panel" || run.from == "panel" || run.from == "regulator";
    }

    [[nodiscard]] bool is_load(std::string_view place) const {
        return std::any_of(profile_.loads.begin(), profile_.loads.end(),
                           [&](const LoadKeys& load) { return load.name == place; }) ||
               std::any_of(profile_.fridges.begin(), profile_.fridges.end(),
                           [&](const FridgeKeys& fridge) { return fridge.name == place; });
    }

    [[nodiscard]] RunRole role_of(const RunKeys& run) const {
        if (is_solar(run)) return RunRole::solar;
        if (run.to == "charger") return RunRole::feed;
        if (run.to == "battery") return RunRole::output;
        if (run.to == "inverter") return RunRole::inverter;
        return is_load(*run.to) ? RunRole::appliance : RunRole::trunk;
    }

    [[nodiscard]] FuseEnd end_at(const std::string& place, const std::string& source, bool driving) const {
        const bool by_starter = source == "starter";
        const ChemistryRow& starter_chemistry = *find_chemistry(tables_, "flooded");
        return {.at = place,
                .around = at(where(place), Length{}, driving).around,
                .open_circuit = by_starter ? starter_chemistry.full : chemistry().full,
                .highest = by_starter ? profile_.starter.running->value : highest_absorption().voltage,
                .internal = by_starter ? starter_ : house_};
    }

    [[nodiscard]] Compensation compensation() const {
        return *profile_.charger.temperature_sensor ? compensation_of(chemistry()) : Compensation{};
    }

    [[nodiscard]] CompensatedVoltage highest_absorption() const {
        return compensated_voltage(profile_.charger.absorption->value, compensation(), coldest_);
    }

    [[nodiscard]] ConverterLoad charger() const {
        const ChargerKeys& keys = profile_.charger;
        ConverterLoad load{.output = keys.output->value};
        load.absorption = keys.absorption->value;
        load.highest_absorption = highest_absorption();
        load.efficiency = keys.efficiency->value;
        load.input_off = keys.input_off->value;
        if (keys.input_limit) load.input_limit = keys.input_limit->value;
        if (keys.fuse_max) load.fuse_max = keys.fuse_max->value;
        return load;
    }

    /// Of a fridge that does not say: on the starter battery the setting that is made for one.
    [[nodiscard]] Voltage usual_cut_out(std::string_view place) const {
        const Described* run = feeding(place);
        return run && source_of(run->keys) == "starter" ? find_fridge_guard(tables_, "high")->cut_out
                                                        : lowest_usual_cut_out;
    }

    [[nodiscard]] RunLoad load_at(const std::string& place) const {
        for (const FridgeKeys& fridge : profile_.fridges)
            if (fridge.name == place)
                return PowerLoad{.power = fridge.draw->value,
                                 .cut_out = fridge.cut_out ? fridge.cut_out->value : usual_cut_out(place),
                                 .fuse_max = fridge.fuse_max->value,
                                 .starts_hard = !fridge.inrush};
        for (const LoadKeys& load : profile_.loads)
            if (load.name == place) return run_load(load);
        throw std::logic_error("no such load: " + place);
    }

    [[nodiscard]] RunLoad inverter() const {
        return PowerLoad{.power = profile_.inverter->output->value / profile_.inverter->efficiency->value,
                         .cut_out = flat_battery};
    }

    /// What draws behind a place.
    struct Draws {
        Current usual, most;
    };

    /// Everything behind a place that can be on together: at the minute of the day at which that is most. Duty never
    /// lowers it.
    [[nodiscard]] SteadyLoad together(const std::string& place) const {
        Draws most{};
        for (const int minute : minutes_of_change()) {
            const Draws now = draws_behind(place, minute);
            most.usual = std::max(most.usual, now.usual);
            most.most = std::max(most.most, now.most);
        }
        return {.current = most.usual, .most = std::max(most.usual, most.most)};
    }

    [[nodiscard]] Draws draws_behind(const std::string& place, int minute) const {
        Draws sum{};
        for (const Described& run : described_) {
            if (run.keys.from != place) continue;
            if (role_of(run.keys) == RunRole::trunk) {
                const Draws more = draws_behind(*run.keys.to, minute);
                sum.usual += more.usual;
                sum.most += more.most;
            } else if (is_on(*run.keys.to, minute)) {
                const RunLoad load = load_of(run.keys);
                sum.usual += drawn_at(load, normal_of(run.keys) - drop_limit(run.keys) * nominal_voltage);
                sum.most += design_current(load).current;
            }
        }
        return sum;
    }

    /// Minutes of the day at which something may be switched on.
    [[nodiscard]] std::vector<int> minutes_of_change() const {
        std::vector<int> minutes = {0};
        for (const LoadKeys& load : profile_.loads)
            for (const ClockWindow& window : *load.hours) minutes.push_back(window.from.minutes % (24 * 60));
        return minutes;
    }

    /// A fridge, an inverter and a charger may be on at any time.
    [[nodiscard]] bool is_on(const std::string& place, int minute) const {
        for (const LoadKeys& load : profile_.loads)
            if (load.name == place)
                return std::any_of(load.hours->begin(), load.hours->end(),
                                   [minute](const ClockWindow& window) { return window.holds(minute); });
        return true;
    }

    [[nodiscard]] RunLoad load_of(const RunKeys& run) const {
        switch (role_of(run)) {
            case RunRole::feed: return charger();
            case RunRole::output: return SteadyLoad{.current = profile_.charger.output->value};
            case RunRole::appliance: return load_at(*run.to);
            case RunRole::inverter: return inverter();
            case RunRole::trunk: return together(*run.to);
            case RunRole::solar: break;
        }
        return SteadyLoad{.current = Current{}};
    }

    [[nodiscard]] std::vector<ClockWindow> hours_of(std::string_view place) const {
        for (const LoadKeys& load : profile_.loads)
            if (load.name == place) return *load.hours;
        return {};
    }

    [[nodiscard]] std::vector<ShortCurrent> starting_of(std::string_view place) const {
        const Given<InrushKeys>* inrush = nullptr;
        for (const LoadKeys& load : profile_.loads)
            if (load.name == place) inrush = &load.inrush;
        for (const FridgeKeys& fridge : profile_.fridges)
            if (fridge.name == place) inrush = &fridge.inrush;
        if (!inrush || !*inrush) return {};
        return {{(*inrush)->current->value, (*inrush)->time->value}};
    }

    /// Through a trunk: what one thing behind it draws on starting, and what all else draws that can be on then.
    [[nodiscard]] std::vector<ShortCurrent> starting_behind(const std::string& trunk) const {
        std::vector<ShortCurrent> all;
        for (const std::string& place : behind(trunk)) {
            if (!is_load(place)) continue;
            for (ShortCurrent start : starting_of(place)) {
                Current others{};
                for (const int minute : minutes_of_change())
                    if (is_on(place, minute)) others = std::max(others, draws_behind(trunk, minute).most);
                start.current += std::max(others - design_current(load_at(place)).current, Current{});
                all.push_back(start);
            }
        }
        return all;
    }

    /// The largest fuse of those motors behind a trunk whose start is not known: each gets the largest that it allows.
    [[nodiscard]] std::optional<Current> motor_fuse_behind(const std::string& trunk) const {
        std::optional<Current> largest;
        const std::vector<std::string> places = behind(trunk);
        for (const FridgeKeys& fridge : profile_.fridges)
            if (!fridge.inrush && std::find(places.begin(), places.end(), *fridge.name) != places.end())
                largest = std::max(largest.value_or(Current{}), fridge.fuse_max->value);
        return largest;
    }

    [[nodiscard]] bool essential(std::string_view place) const {
        for (const LoadKeys& load : profile_.loads)
            if (load.name == place) return *load.essential;
        for (const FridgeKeys& fridge : profile_.fridges)
            if (fridge.name == place) return *fridge.essential;
        return false;
    }

    /// The names of all loads behind a place.
    [[nodiscard]] std::vector<std::string> behind(const std::string& place) const {
        std::vector<std::string> names;
        if (is_load(place) || place == "inverter" || place == "charger") names.push_back(place);
        for (const Described& run : described_)
            if (run.keys.from == place && place != "charger" && place != "battery") {
                const auto more = behind(*run.keys.to);
                names.insert(names.end(), more.begin(), more.end());
            }
        return names;
    }

    /// What may be lost from the source to a place.
    [[nodiscard]] Ratio allowance(const std::string& place) const {
        const RulesKeys& keys = profile_.rules;
        return place == "charger" ? keys.feed_drop->value
               : essential(place) ? keys.essential_drop->value
                                  : keys.other_drop->value;
    }

    /// What may be lost from the source to the places behind a run, the least of them: more than that is too much in
    /// any one run of the way.
    [[nodiscard]] Ratio drop_limit(const RunKeys& run) const {
        if (role_of(run) == RunRole::output) return profile_.rules.output_drop->value;
        std::optional<Ratio> least;
        for (const std::string& place : behind(*run.to)) {
            const Ratio limit = allowance(place);
            least = least ? std::min(*least, limit) : limit;
        }
        return least.value_or(profile_.rules.other_drop->value);
    }

    /// Whether the way that a run hangs on leads to the charger: then it is judged with the engine running. What else hangs
    /// on the starter battery is on at rest too.
    [[nodiscard]] bool on_the_way_to_the_charger(const RunKeys& run) const {
        if (source_of(run) != "starter") return false;
        const RunKeys* first = &run;
        while (*first->from != "starter") first = &feeding(*first->from)->keys;
        const std::vector<std::string> places = behind(*first->to);
        return std::find(places.begin(), places.end(), "charger") != places.end();
    }

    /// The voltage at the source at which a drop is judged.
    [[nodiscard]] Voltage normal_of(const RunKeys& run) const {
        return on_the_way_to_the_charger(run) ? profile_.starter.running->value : nominal_voltage;
    }

    [[nodiscard]] Supply supply_of(const RunKeys& run, RunRole role) const {
        const Ratio limit = drop_limit(run);
        if (role == RunRole::output) {
            const Voltage absorption = profile_.charger.absorption->value;
            return {absorption, absorption, limit};
        }
        if (on_the_way_to_the_charger(run))
            return {profile_.starter.running->value, profile_.starter.lowest_running->value, limit};
        return {nominal_voltage, nominal_voltage, limit};
    }

    [[nodiscard]] SystemRun run_of(std::size_t index) const {
        const Described& described = described_[index];
        const RunKeys& keys = described.keys;
        const RunRole role = role_of(keys);
        const std::string source = source_of(keys);
        const bool driving = role == RunRole::feed || role == RunRole::output;

        CableRun run{.name = *keys.name, .length = keys.length->value};
        run.way = way_of(keys, driving);
        run.insulation = keys.insulation->rating;
        run.insulation_material = keys.insulation->material;
        run.loaded_in_bundle = *keys.loaded_in_bundle;
        run.return_size = keys.return_size;
        run.given = keys.size;
        run.have_cable = keys.have && *keys.have != Have::fuse;
        run.have_fuse = keys.have && *keys.have != Have::cable;
        std::string body_name = take_return(run, *keys.return_);
        take_joints(run, keys);
        take_fuses(run, keys, role, source, driving);
        if (role == RunRole::feed && profile_.charger.terminal)
            run.terminal = conductor_of(tables_, *profile_.charger.terminal)->area;
        if (role != RunRole::solar)
            for (const std::string& end : {*keys.from, *keys.to})
                if (const auto stud = stud_at(profile_, end)) run.studs.push_back(stud->diameter);
        run.starting = role == RunRole::trunk ? starting_behind(*keys.to) : starting_of(*keys.to);
        if (role == RunRole::trunk) run.motor_fuse = motor_fuse_behind(*keys.to);

        std::vector<std::string> feeds = behind(*keys.to);
        const bool matters =
            std::any_of(feeds.begin(), feeds.end(), [&](const std::string& name) { return essential(name); });
        return {.role = role,
                .assumed = described.assumed,
                .path = described.path,
                .from = *keys.from,
                .to = *keys.to,
                .run = std::move(run),
                .load = load_of(keys),
                .supply = supply_of(keys, role),
                .essential = driving || matters,
                .feeds = std::move(feeds),
                .body_name = std::move(body_name),
                .hours = hours_of(*keys.to)};
    }

    std::string take_return(CableRun& run, const ReturnPath& path) const {
        if (const auto* measured = std::get_if<Spread<Resistance>>(&path)) {
            run.body = BodyReturn{{measured->value, {"profile", "given in the profile"}}, true};
        } else if (const auto* body = std::get_if<ByBody>(&path)) {
            const std::string_view written = body->frame ? "frame" : "body";
            const auto row = std::find_if(tables_.body_returns.begin(), tables_.body_returns.end(),
                                          [&](const BodyReturnRow& one) { return one.written == written; });
            if (row == tables_.body_returns.end()) throw std::logic_error("no such way back: " + std::string(written));
            run.body = BodyReturn{{row->usual, row->source}, false, row->high};
            return std::string(row->body);
        }
        return {};
    }

    void take_joints(CableRun& run, const RunKeys& keys) const {
        if (!keys.joints) return;
        run.joints.emplace();
        for (const JointChoice& joint : *keys.joints) {
            if (const auto* measured = std::get_if<Spread<Resistance>>(&joint)) {
                run.joints->push_back({"measured joint", measured->value});
                continue;
            }
            const std::string& name = std::get<std::string>(joint);
            run.joints->push_back({name, {}});
        }
    }

    /// A fuse is due at every end from which a source can feed the run. A charger works one way, so the run from it to
    /// the battery is fed, in a fault, by the battery alone.
    void take_fuses(CableRun& run, const RunKeys& keys, RunRole role, const std::string& source, bool driving) const {
        if (role == RunRole::solar) return;
        const std::string& end = role == RunRole::output ? *keys.to : *keys.from;
        run.fused_at.push_back(end_at(end, role == RunRole::output ? "battery" : source, driving));
        if (!keys.fuse) return;
        for (const auto& [name, choice] : keys.fuse->at)
            run.given_fuses.emplace_back(name, choice ? std::optional(fuse_of(*choice, tables_)) : std::nullopt);
    }

    const Profile& given_;
    const Profile& profile_;
    const Tables& tables_;
    std::vector<Described> described_;
    InternalResistance house_{}, starter_{};
    Temperature coldest_ = celsius(0), hottest_ = celsius(0);
};

/// Readings across what the runs do not have.
Faults readings_at_nowhere(const System& system) {
    Faults faults;
    if (system.complete.readings.empty()) return faults;
    const std::vector<std::string> points = probe_points(system.runs);
    for (std::size_t i = 0; i < system.complete.readings.size(); ++i)
        for (const std::string& name : system.complete.readings[i].across.value_or(std::vector<std::string>{})) {
            if (std::find(points.begin(), points.end(), name) != points.end()) continue;
            const auto near = nearest_word(name, points);
            faults.push_back({"reading[" + std::to_string(i) + "].across", "there is no '" + name + "' to measure at",
                              near ? "did you mean \"" + std::string(*near) + "\"?"
                                   : "voltwright readings shows what the parts are called"});
        }
    return faults;
}

}  // namespace

RunLoad run_load(const LoadKeys& load) {
    const Voltage cut_out = load.cut_out ? load.cut_out->value : flat_battery;
    if (const auto* power = std::get_if<Spread<Power>>(&*load.draw))
        return PowerLoad{.power = power->value, .cut_out = cut_out};
    if (const auto* current = std::get_if<Spread<Current>>(&*load.draw)) return SteadyLoad{.current = current->value};
    return ResistiveLoad{.resistance = std::get<Spread<Resistance>>(*load.draw).value, .fuse_max = {}};
}

std::variant<System, Faults> resolve(const Profile& profile, const Tables& tables) {
    Faults faults = missing_keys(profile);
    const Faults beyond = out_of_range(profile);
    faults.insert(faults.end(), beyond.begin(), beyond.end());
    // No default can be worked out from what is no amount.
    if (!beyond.empty()) return faults;
    const Profile completed = complete(profile, tables);
    const Faults contradictions = find_contradictions(profile, completed, tables);
    faults.insert(faults.end(), contradictions.begin(), contradictions.end());
    if (!faults.empty()) return faults;
    System system = Builder(profile, completed, tables).system();
    faults = readings_at_nowhere(system);
    if (!faults.empty()) return faults;
    return system;
}

}  // namespace voltwright
