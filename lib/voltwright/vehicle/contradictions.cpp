#include "voltwright/sizing/ampacity.hpp"
#include "voltwright/units/show.hpp"
#include "voltwright/vehicle/elements.hpp"
#include "voltwright/vehicle/forms.hpp"
#include "voltwright/vehicle/keys.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace voltwright {

namespace {

/// Looks through a profile and gathers what does not fit together.
class Search {
public:
    Search(const Profile& profile, const Profile& completed, const Tables& tables)
        : profile_(profile), complete_(completed), tables_(tables) {}

    Faults all() && {
        trip();
        days();
        starter();
        charger();
        rules();
        loads();
        fridges();
        runs();
        readings();
        return std::move(faults_);
    }

private:
    void fault(std::string path, std::string what, std::string hint = {}) {
        faults_.push_back({std::move(path), std::move(what), std::move(hint), false});
    }

    static std::string at(std::string_view section, std::size_t index, std::string_view key) {
        return std::string(section) + "[" + std::to_string(index) + "]." + std::string(key);
    }

    template <class Words>
    static std::string did_you_mean(std::string_view word, const Words& known, const std::string& or_else = {}) {
        if (const auto near = nearest_word(word, known))
            return "did you mean \"" + std::string(*near) + "\"?" + (or_else.empty() ? "" : " Or " + or_else);
        std::string all;
        for (const std::string_view name : known) all += (all.empty() ? "\"" : ", \"") + std::string(name) + "\"";
        if (all.empty()) return or_else;
        return "one of " + all + (or_else.empty() ? "" : ", or " + or_else);
    }

    // ---- values that must stand in an order --------------------------------------------------------------------------

    template <class Q>
    void not_above(const Given<Spread<Q>>& low, const Given<Spread<Q>>& high, const std::string& path,
                   std::string_view what, std::string_view other, bool equal_is_fine = true) {
        if (!low || !high) return;
        const Q a = low->value, b = high->value;
        if (a < b || (equal_is_fine && a == b)) return;
        fault(path,
              std::string(what) + " is " + show(a) + ", which is not below " + std::string(other) + ", " + show(b),
              "change one of the two");
    }

    void trip() { not_above(profile_.trip.low, profile_.trip.high, "trip.low", "the night's low", "the day's high"); }

    void days() {
        std::set<int> told;
        for (std::size_t i = 0; i < profile_.days.size(); ++i) {
            const DayKeys& day = profile_.days[i];
            const auto& low = day.low ? day.low : profile_.trip.low;
            const auto& high = day.high ? day.high : profile_.trip.high;
            not_above(low, high, at("day", i, day.low ? "low" : "high"), "the night's low of these days", "their high");
            if (!day.on) continue;
            const int last = profile_.trip.days.value_or(1);
            for (const int number : day.on->days) {
                if (number > last)
                    fault(at("day", i, "on"),
                          "day " + std::to_string(number) + " is beyond the trip, which has " + std::to_string(last) +
                              (last == 1 ? " day" : " days"),
                          "make trip.days longer, or take the day out");
                else if (!told.insert(number).second)
                    fault(at("day", i, "on"), "day " + std::to_string(number) + " is described twice");
                else
                    continue;
                break;
            }
        }
    }

    void place(const Given<Somewhere>& where, const std::string& path) {
        if (where) place(*where, path);
    }
    void place(const Somewhere& where, const std::string& path) {
        const auto* name = std::get_if<std::string>(&where);
        if (!name || find_surroundings(tables_, *name)) return;
        std::vector<std::string_view> known;
        for (const SurroundingsRow& row : tables_.surroundings) known.push_back(row.place);
        fault(path, "'" + *name + "' is no place that the tables know",
              did_you_mean(*name, known, "a temperature: \"40 degC\""));
    }

    void starter() {
        place(profile_.starter.where, "starter.where");
        if (profile_.starter.cold_cranking && profile_.starter.internal_resistance)
            fault("starter.internal_resistance", "cold_cranking and internal_resistance are both given",
                  "keep the one that was measured");
        // One of a pair alone is held against the other's default.
        not_above(complete_.starter.lowest_running, complete_.starter.running,
                  profile_.starter.lowest_running ? "starter.lowest_running" : "starter.running",
                  "the lowest running voltage", "the usual one");
    }

    void charger() {
        place(profile_.charger.where, "charger.where");
        place(profile_.battery.where, "battery.where");
        // One of a pair alone is held against the other's default.
        const ChargerKeys& keys = complete_.charger;
        const std::string window = profile_.charger.input_off ? "charger.input_off" : "charger.input_on";
        not_above(keys.input_off, keys.input_on, window, "input_off", "input_on", false);
        not_above(keys.float_, keys.absorption, profile_.charger.float_ ? "charger.float" : "charger.absorption",
                  "the float voltage", "the absorption voltage");
        not_above(keys.full_output_to, keys.off_above,
                  profile_.charger.full_output_to ? "charger.full_output_to" : "charger.off_above", "full_output_to",
                  "off_above");
        if (profile_.charger.terminal) size(*profile_.charger.terminal, "charger.terminal");
    }

    // ---- names of the tables -----------------------------------------------------------------------------------------

    void size(Gauge gauge, const std::string& path) {
        if (conductor_of(tables_, gauge)) return;
        std::string known;
        for (const ConductorRow& row : tables_.conductors)
            if (row.gauge.system == gauge.system) known += (known.empty() ? "" : ", ") + show(row.gauge);
        for (const TradeSizeRow& row : tables_.trade_sizes)
            if (row.gauge.system == gauge.system) known += (known.empty() ? "" : ", ") + show(row.gauge);
        fault(path, show(gauge) + " is no size that the tables know", "one of " + known);
    }

    void fuse(const FuseChoice& fuse, const std::string& path) {
        if (find_fuse_family(tables_, fuse.family)) return;
        std::vector<std::string_view> known;
        for (const FuseFamilyRow& row : tables_.fuse_families) known.push_back(row.family);
        fault(path, "'" + fuse.family + "' is no family of fuses that the tables know",
              did_you_mean(fuse.family, known));
    }

    void rules() {
        if (profile_.rules.sizes)
            if (const auto* list = std::get_if<std::vector<Gauge>>(&*profile_.rules.sizes))
                for (std::size_t i = 0; i < list->size(); ++i)
                    size((*list)[i], "rules.sizes[" + std::to_string(i) + "]");
        if (profile_.rules.fuses)
            for (std::size_t i = 0; i < profile_.rules.fuses->size(); ++i)
                fuse((*profile_.rules.fuses)[i], "rules.fuses[" + std::to_string(i) + "]");
    }

    // ---- loads -------------------------------------------------------------------------------------------------------

    static constexpr std::string_view own_places[] = {"starter",  "charger", "battery",
                                                      "inverter", "panel",   "regulator"};

    void name_of_load(const std::string& name, const std::string& path) {
        if (std::find(std::begin(own_places), std::end(own_places), name) != std::end(own_places))
            fault(path, "'" + name + "' is a place of its own", "call the load something else");
        else if (!load_names_.insert(name).second)
            fault(path, "two loads are called '" + name + "'", "give each a name of its own");
    }

    void loads() {
        for (std::size_t i = 0; i < profile_.loads.size(); ++i) {
            const LoadKeys& load = profile_.loads[i];
            if (load.name) name_of_load(*load.name, at("load", i, "name"));
            place(load.where, at("load", i, "where"));
            not_above(load.cut_out, load.cut_in, at("load", i, "cut_out"), "cut_out", "cut_in", false);
            if (!load.through) continue;
            if (*load.through != "inverter")
                fault(at("load", i, "through"),
                      "a load hangs on 12 V or on the inverter, not on '" + *load.through + "'",
                      "write \"inverter\", or leave the key out");
            else if (!profile_.inverter)
                fault(at("load", i, "through"), "the profile has no [inverter]",
                      "describe it: [inverter] with its output");
            else if (load.draw && !std::holds_alternative<Spread<Power>>(*load.draw))
                fault(at("load", i, "draw"), "what runs through the inverter is given in watts",
                      "write what its plate says, as in draw = \"60 W\"");
        }
    }

    void fridges() {
        for (std::size_t i = 0; i < profile_.fridges.size(); ++i) {
            const FridgeKeys& fridge = profile_.fridges[i];
            name_of_load(fridge.name.value_or("fridge"), at("fridge", i, "name"));
            place(fridge.where, at("fridge", i, "where"));
            not_above(fridge.cut_out, fridge.cut_in, at("fridge", i, "cut_out"), "cut_out", "cut_in", false);
            if (fridge.cut_out.has_value() != fridge.cut_in.has_value())
                fault(at("fridge", i, fridge.cut_out ? "cut_out" : "cut_in"), "cut_out and cut_in belong together",
                      "give both, or neither");
            if (fridge.rated && (fridge.rated->empty() || fridge.rated->size() > 2))
                fault(at("fridge", i, "rated"),
                      "one or two rated points are wanted; these are " + std::to_string(fridge.rated->size()));
            if (fridge.rated && fridge.rated->size() == 2 && fridge.rated->front().around &&
                fridge.rated->back().around &&
                fridge.rated->front().around->value == fridge.rated->back().around->value)
                fault(at("fridge", i, "rated") + "[1].around", "the two rated points are at the same temperature",
                      "one of them is enough");
            if (fridge.restock)
                for (std::size_t k = 0; k < fridge.restock->size(); ++k)
                    restock((*fridge.restock)[k], at("fridge", i, "restock") + "[" + std::to_string(k) + "].on");
            if (!fridge.rated && !fridge.litres)
                fault(at("fridge", i, "draw"), "nothing says what the fridge takes in a day",
                      "give rated = [{ around = \"25 degC\", a_day = \"22 Ah\" }], or at least litres");
        }
    }

    void restock(const RestockKeys& keys, const std::string& path) {
        if (!keys.on) return;
        const int last = profile_.trip.days.value_or(1);
        for (const int day : keys.on->days)
            if (day > last)
                return fault(path,
                             "day " + std::to_string(day) + " is beyond the trip, which has " + std::to_string(last) +
                                 (last == 1 ? " day" : " days"),
                             "make trip.days longer, or take the day out");
    }

    // ---- runs --------------------------------------------------------------------------------------------------------

    [[nodiscard]] std::string from_of(std::size_t index) const { return *complete_.runs[index].from; }

    void runs() {
        names_of_runs();
        ends_of_runs();
        ways_of_runs();
        for (std::size_t i = 0; i < profile_.runs.size(); ++i) parts_of_run(profile_.runs[i], i);
        if (faulty_ends_.empty() && std::none_of(profile_.runs.begin(), profile_.runs.end(),
                                                 [](const RunKeys& run) { return run.to == "charger"; }))
            fault("run", "no run leads to the charger; the length of its feed cannot be guessed",
                  "[[run]] with to = \"charger\" and length = \"6 m\", one way");
    }

    void names_of_runs() {
        std::set<std::string> names;
        for (std::size_t i = 0; i < profile_.runs.size(); ++i) {
            const auto& name = complete_.runs[i].name;
            const bool same_place =
                !profile_.runs[i].name;  // then two runs lead to one place, and that is said elsewhere
            if (name && !names.insert(*name).second && !same_place)
                fault(at("run", i, "name"), "two runs are called '" + *name + "'", "give each a name of its own");
        }
    }

    [[nodiscard]] std::vector<std::string> places() const {
        std::vector<std::string> known = {"starter", "charger", "battery"};
        if (profile_.inverter) known.emplace_back("inverter");
        if (profile_.solar) known.insert(known.end(), {"panel", "regulator"});
        known.insert(known.end(), load_names_.begin(), load_names_.end());
        return known;
    }

    void ends_of_runs() {
        std::vector<std::string> known = places();
        std::set<std::string> begins, reached;
        for (std::size_t i = 0; i < profile_.runs.size(); ++i) {
            if (!profile_.runs[i].to) continue;
            begins.insert(from_of(i));
            reached.insert(*profile_.runs[i].to);
        }
        // A name that runs share is a place of its own: a fuse block.
        for (const std::string& name : reached)
            if (begins.count(name) && std::find(known.begin(), known.end(), name) == known.end()) known.push_back(name);

        const auto is_known = [&](const std::string& name) {
            return std::find(known.begin(), known.end(), name) != known.end();
        };
        std::vector<std::string_view> words(known.begin(), known.end());
        std::set<std::string> seen;
        for (std::size_t i = 0; i < profile_.runs.size(); ++i) {
            const RunKeys& run = profile_.runs[i];
            if (!run.to) continue;
            const std::string from = from_of(i);
            const std::size_t before = faults_.size();
            if (*run.to == "inverter" && !profile_.inverter) {
                fault(at("run", i, "to"), "the profile has no [inverter]", "describe it: [inverter] with its output");
            } else if (!is_known(*run.to)) {
                fault(at("run", i, "to"), "there is no '" + *run.to + "' for this run to lead to",
                      did_you_mean(*run.to, words));
            } else if (*run.to == from) {
                fault(at("run", i, "to"), "this run leads from '" + from + "' to itself");
            } else if (*run.to == "starter") {
                fault(at("run", i, "to"), "the starter battery is where runs begin",
                      "from = \"starter\", and to the other end");
            } else if (const LoadKeys* load = through_inverter(*run.to)) {
                fault(at("run", i, "to"), "'" + *load->name + "' hangs on the inverter: no 12 V run leads to it",
                      "a run to = \"inverter\" feeds it");
            } else if (!seen.insert(*run.to).second && *run.to != "battery") {
                second_run(i, from);
            } else if (*run.to == "battery" && second_of_its_kind(i, from)) {
                second_run(i, from);
            }
            if (run.from && !is_known(*run.from))
                fault(at("run", i, "from"), "there is no '" + *run.from + "' for this run to begin at",
                      did_you_mean(*run.from, words));
            if (faults_.size() == before && (load_names_.count(from) || from == "inverter"))
                fault(at("run", i, "from"), "'" + from + "' takes current; no run begins at it",
                      "runs begin at the starter, the charger, the battery, or a place that runs share");
            if (faults_.size() == before && *run.to == "charger" && source_of(i) != "starter")
                fault(at("run", i, run.from ? "from" : "to"),
                      "the charger is fed from '" + from + "': it would draw on the battery that it charges",
                      "from = \"starter\"");
            if (faults_.size() == before && *run.to == "battery" && source_of(i) == "starter")
                fault(at("run", i, "from"),
                      "this run joins the two batteries without the charger: what they push through it is not known, "
                      "and it is not sized here",
                      "from = \"charger\", and a run from the starter to the charger");
            if (faults_.size() == before && from == "charger" && *run.to != "battery")
                fault(at("run", i, "from"),
                      "'" + *run.to +
                          "' hangs on the charger's output: with the engine off its current comes from the "
                          "battery through the charger's cable",
                      "from = \"battery\"");
            if (faults_.size() != before) faulty_ends_.insert(i);
        }
    }

    /// Where the way to a run begins; a name that leads nowhere is itself.
    [[nodiscard]] std::string source_of(std::size_t index) const {
        std::string place = from_of(index);
        for (std::size_t step = 0; step < profile_.runs.size() && !is_source(place); ++step) {
            const auto feeding = std::find_if(profile_.runs.begin(), profile_.runs.end(),
                                              [&](const RunKeys& run) { return run.to == place; });
            if (feeding == profile_.runs.end()) break;
            place = from_of(static_cast<std::size_t>(feeding - profile_.runs.begin()));
        }
        return place;
    }

    [[nodiscard]] const LoadKeys* through_inverter(const std::string& name) const {
        for (const LoadKeys& load : profile_.loads)
            if (load.name == name && load.through) return &load;
        return nullptr;
    }

    /// The charger and the regulator may both lead to the battery; two runs from one of them may not.
    [[nodiscard]] bool second_of_its_kind(std::size_t index, const std::string& from) const {
        for (std::size_t i = 0; i < index; ++i)
            if (profile_.runs[i].to == "battery" &&
                (from_of(i) == from || (from != "regulator" && from_of(i) != "regulator")))
                return true;
        return false;
    }

    void second_run(std::size_t index, const std::string& from) {
        const std::string& to = *profile_.runs[index].to;
        const bool parallel = [&] {
            for (std::size_t i = 0; i < index; ++i)
                if (profile_.runs[i].to == to && from_of(i) == from) return true;
            return false;
        }();
        if (parallel)
            fault(at("run", index, "to"),
                  "parallel cables to '" + to + "' are not planned: when one joint goes bad the other carries it all",
                  "take this run out; one thicker cable does it");
        else
            fault(at("run", index, "to"), "two runs lead to '" + to + "': that is a loop",
                  "each place is fed by one run");
    }

    /// Every run must go back to a source.
    void ways_of_runs() {
        for (std::size_t i = 0; i < profile_.runs.size(); ++i) {
            if (!profile_.runs[i].to || faulty_ends_.count(i)) continue;
            std::string place = from_of(i);
            std::size_t steps = 0;
            while (!is_source(place) && steps <= profile_.runs.size()) {
                const auto feeding = std::find_if(profile_.runs.begin(), profile_.runs.end(),
                                                  [&](const RunKeys& run) { return run.to == place; });
                if (feeding == profile_.runs.end()) break;
                place = from_of(static_cast<std::size_t>(feeding - profile_.runs.begin()));
                ++steps;
            }
            if (is_source(place)) continue;
            const std::string hint = "runs begin at the starter, the charger or the battery";
            if (steps > profile_.runs.size())
                return fault(at("run", i, "to"),
                             "the way back from '" + *profile_.runs[i].to + "' goes in a circle: that is a loop", hint);
            if (!load_names_.count(place))
                fault(at("run", i, "from"), "no run leads to '" + place + "', so nothing feeds this one", hint);
            else
                fault(at("run", i, "from"), "'" + place + "' is a load, and nothing is fed from it", hint);
        }
    }

    static bool is_source(const std::string& place) {
        return place == "starter" || place == "charger" || place == "battery" || place == "panel" ||
               place == "regulator";
    }

    void parts_of_run(const RunKeys& run, std::size_t index) {
        if (run.size) size(*run.size, at("run", index, "size"));
        if (run.return_size) size(*run.return_size, at("run", index, "return_size"));
        if (run.return_size && run.return_ && !std::holds_alternative<ByCable>(*run.return_))
            fault(at("run", index, "return_size"), "this run does not come back by a cable",
                  "take return or return_size out");
        way_of_run(run, index);
        joints_of_run(run, index);
        fuses_of_run(run, index);
        what_is_there(run, index);
    }

    /// What is there already has to be told, or nothing could be judged.
    void what_is_there(const RunKeys& run, std::size_t index) {
        if (!run.have) return;
        const std::string path = at("run", index, "have");
        if (*run.have != Have::fuse && !run.size)
            fault(path, "the cable is there already, and nobody says its size", "write size, as in size = \"6 AWG\"");
        const bool fuse = run.fuse && std::any_of(run.fuse->at.begin(), run.fuse->at.end(),
                                                  [](const auto& end) { return end.second.has_value(); });
        if (*run.have != Have::cable && !fuse)
            fault(path, "the fuse is there already, and nobody says which", "write fuse, as in fuse = \"50 A SF30\"");
    }

    void way_of_run(const RunKeys& run, std::size_t index) {
        if (!run.where) return;
        const std::string path = at("run", index, "where");
        if (const auto* somewhere = std::get_if<Somewhere>(&*run.where)) return place(*somewhere, path);
        Length whole{};
        const auto& sections = std::get<std::vector<WaySection>>(*run.where);
        for (std::size_t i = 0; i < sections.size(); ++i) {
            place(sections[i].place, path + "[" + std::to_string(i) + "].place");
            whole += sections[i].length.value;
        }
        if (run.length && abs(whole - run.length->value) > 0.01 * run.length->value)
            fault(path,
                  "the places add up to " + show(whole) + ", and the run is " + show(run.length->value) + " long");
    }

    void joints_of_run(const RunKeys& run, std::size_t index) {
        if (!run.joints) return;
        for (std::size_t i = 0; i < run.joints->size(); ++i) {
            const auto* name = std::get_if<std::string>(&(*run.joints)[i]);
            if (!name || find_joint(tables_, *name, square_millimetres(10))) continue;
            std::vector<std::string_view> known;
            for (const JointRow& row : tables_.joints)
                if (known.empty() || known.back() != row.name) known.push_back(row.name);
            fault(at("run", index, "joints") + "[" + std::to_string(i) + "]",
                  "'" + *name + "' is no joint that the tables know",
                  did_you_mean(*name, known, "its resistance: \"0.4 mOhm\""));
        }
    }

    void fuses_of_run(const RunKeys& run, std::size_t index) {
        if (!run.fuse) return;
        for (const auto& [end, choice] : run.fuse->at) {
            const std::string path = at("run", index, "fuse") + (end.empty() ? "" : "." + end);
            if (choice) fuse(*choice, path);
            if (!end.empty() && run.to && end != *run.to && end != from_of(index))
                fault(path, "'" + end + "' is no end of this run",
                      "its ends are \"" + from_of(index) + "\" and \"" + *run.to + "\"");
        }
    }

    // ---- readings ----------------------------------------------------------------------------------------------------

    void readings() {
        std::vector<std::string> known = places();
        std::set<std::string> names;
        for (std::size_t i = 0; i < profile_.runs.size(); ++i) {
            const auto row =
                std::find_if(sections().begin(), sections().end(), [](const SectionRow& s) { return s.name == "run"; });
            names.insert(entry_name(profile_, *row, i));
            const auto& to = profile_.runs[i].to;
            if (to && std::find(known.begin(), known.end(), *to) == known.end()) known.push_back(*to);
        }
        // A run that is assumed is called after where it leads.
        names.insert("battery");
        if (profile_.inverter) names.insert("inverter");
        names.insert(load_names_.begin(), load_names_.end());
        const std::vector<std::string_view> place_words(known.begin(), known.end());
        const std::vector<std::string_view> run_words(names.begin(), names.end());
        const std::vector<std::string_view> load_words(load_names_.begin(), load_names_.end());
        for (std::size_t i = 0; i < profile_.readings.size(); ++i) {
            const ReadingKeys& reading = profile_.readings[i];
            if (reading.across && reading.through)
                fault(at("reading", i, "through"), "a meter is put across two places or through a run, not both");
            if (!reading.across && !reading.through && (reading.voltage || reading.current))
                fault(at("reading", i, reading.voltage ? "voltage" : "current"),
                      "it is not said where this was measured",
                      reading.voltage ? "say across = which two points, or one place" : "say through = which run");
            // What is no place may still be a pole or a joint: those are known once the runs are.
            const auto of_a_run = [&](const std::string& name) {
                const std::string_view place = without_pole(name);
                return std::find(known.begin(), known.end(), place) != known.end() || place == "charger output" ||
                       std::any_of(names.begin(), names.end(),
                                   [&](const std::string& run) { return name.rfind(run + " ", 0) == 0; });
            };
            if (reading.across)
                for (const std::string& name : *reading.across)
                    if (!of_a_run(name))
                        fault(at("reading", i, "across"), "there is no '" + name + "' to measure at",
                              did_you_mean(name, place_words));
            if (reading.through && !names.count(*reading.through) && !load_names_.count(*reading.through))
                fault(at("reading", i, "through"), "there is no run '" + *reading.through + "'",
                      did_you_mean(*reading.through, run_words));
            if (reading.with)
                for (const std::string& name : *reading.with)
                    if (!load_names_.count(name))
                        fault(at("reading", i, "with"), "there is no load '" + name + "'",
                              did_you_mean(name, load_words));
        }
    }

    const Profile& profile_;
    const Profile& complete_;  ///< with every default: nothing here is wrong that nobody wrote
    const Tables& tables_;
    std::set<std::string> load_names_;
    Faults faults_;
    std::set<std::size_t> faulty_ends_;
};

}  // namespace

Faults find_contradictions(const Profile& profile, const Profile& completed, const Tables& tables) {
    return Search(profile, completed, tables).all();
}

Faults find_contradictions(const Profile& profile, const Tables& tables) {
    return find_contradictions(profile, complete(profile, tables), tables);
}

}  // namespace voltwright
