#include "voltwright/planning/remarks.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/profile/words.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace voltwright {

namespace {

using At = Probe::Point::At;

/// Volts: a place with less is dead, one with more alive; and as much across two points of one way is the whole of it.
constexpr double dead = 6.0, alive = 10.0;
/// So much across something through which a clamp shows nothing is no joint any more.
constexpr double without_current = 0.5;
/// A meter's leads the wrong way round, not its last figure.
constexpr double reversed = -1.0;
/// No regulator that has failed gives as much.
constexpr double impossible = 20.0;
/// A 24 V vehicle, flat or charged: twice 11 V and twice 15 V.
constexpr double twice_least = 22.0, twice_most = 30.0;
/// Less than this share of what a sound feed loses is no current; and two steps of a meter's 10 mV are no difference.
constexpr double next_to_none = 0.1, two_steps = 0.02;

using Elements = std::vector<std::size_t>;  // in rising order

Elements both(const Elements& a, const Elements& b) {
    Elements all;
    std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(all));
    return all;
}

Elements common(const Elements& a, const Elements& b) {
    Elements all;
    std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(all));
    return all;
}

Elements without(const Elements& a, const Elements& b) {
    Elements all;
    std::set_difference(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(all));
    return all;
}

bool same_point(const Probe::Point& a, const Probe::Point& b) { return a.at == b.at && a.section == b.section; }

class Sifting {
public:
    Sifting(const Rig& rig, const std::vector<Shown>& readings, const TestLimits& limits, const System& system,
            const Tables& tables)
        : rig_(rig), readings_(readings), system_(system), tables_(tables), test_(limits), limits_(limits.batteries()) {
        for (const RigElement& element : rig.elements) expected_.push_back(element.expected);
        out_.resize(readings.size());
        anchor_.resize(readings.size());
        for (const Shown& reading : readings) {
            const auto known =
                std::find_if(sound_.begin(), sound_.end(), [&](const auto& one) { return one.first == reading.state; });
            if (known == sound_.end()) sound_.emplace_back(reading.state, sound(reading.state));
        }
    }

    Sifted sift() && {
        poles();
        open_ways();
        nothing_flows();
        batteries();
        charger();
        lost_under_load();
        Sifted answer{.remarks = std::move(remarks_), .used = {}, .idle = {}, .anchors = {}, .next = std::move(next_)};
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            if (out_[i] || behind_a_break(readings_[i])) continue;
            Shown reading = readings_[i];
            auto& on = reading.state.with;
            on.erase(std::remove_if(on.begin(), on.end(), [&](const std::string& load) { return switched_off(load); }),
                     on.end());
            answer.used.push_back(std::move(reading));
            answer.idle.push_back(idle(readings_[i].state));
            answer.anchors.push_back(anchor_[i]);
        }
        return answer;
    }

private:
    /// A way that is open.
    struct Break {
        Elements among;
        std::size_t reading;  ///< the first that tells of it
        std::size_t place;    ///< the section at whose end nothing arrives
        bool only_dead;       ///< nothing is known but that a place is dead
    };

    // ---- what a probe spans ------------------------------------------------------------------------------------------

    void add_side(std::size_t section, bool plus, Elements& all) const {
        for (const std::size_t element : rig_.sections[section].elements)
            if ((rig_.elements[element].element.side == Side::out) == plus) all.push_back(element);
    }

    /// From the battery's post to a point.
    [[nodiscard]] Elements way_to(const Probe::Point& point) const {
        Elements all;
        if (point.at == At::output) add_side(*rig_.output, point.plus, all);
        if (point.at == At::section)
            for (std::optional<std::size_t> at = point.section; at; at = rig_.sections[*at].from)
                add_side(*at, point.plus, all);
        std::sort(all.begin(), all.end());
        return all;
    }

    /// What has to be whole for both leads to see the battery; of a drop, what lies between them.
    [[nodiscard]] Elements span(const Probe& probe) const {
        if (const auto* over = std::get_if<Probe::Over>(&probe.what)) return {over->element};
        const auto* between = std::get_if<Probe::Between>(&probe.what);
        if (!between) return {};
        const Elements red = way_to(between->red), black = way_to(between->black);
        const Elements all = both(red, black);
        return probe.drop() ? without(all, common(red, black)) : all;
    }

    /// The section at the end of what a probe spans, or around which the clamp is.
    [[nodiscard]] std::optional<std::size_t> section_of(const Probe& probe) const { return test_.section_of(probe); }

    /// Volts from plus to minus, whichever lead was named first; empty for a drop and a clamp.
    [[nodiscard]] static std::optional<double> polar(const Shown& reading) {
        const auto* between = std::get_if<Probe::Between>(&reading.probe.what);
        if (!between || between->red.plus == between->black.plus) return {};
        return between->red.plus ? reading.value : -reading.value;
    }

    [[nodiscard]] static bool at_post(const Shown& reading, At post) {
        const auto* between = std::get_if<Probe::Between>(&reading.probe.what);
        return between && between->red.at == post && between->black.at == post && polar(reading);
    }

    [[nodiscard]] std::string place_of(const Probe& probe) const {
        const auto name = [&](const Probe::Point& point) -> std::string {
            switch (point.at) {
                case At::starter: return "starter";
                case At::house: return "battery";
                case At::output: return "charger output";
                case At::section: return rig_.sections[point.section].far;
            }
            return {};
        };
        const auto& between = std::get<Probe::Between>(probe.what);
        const std::string red = name(between.red), black = name(between.black);
        return same_point(between.red, between.black) ? red : red + " or " + black;
    }

    [[nodiscard]] bool by_starter(const Shown& reading) const {
        if (at_post(reading, At::starter)) return true;
        const auto section = section_of(reading.probe);
        return section && rig_.sections[*section].by_starter;
    }

    [[nodiscard]] bool leads_through(std::size_t section, std::size_t place) const {
        for (std::optional<std::size_t> at = place; at; at = rig_.sections[*at].from)
            if (*at == section) return true;
        return false;
    }

    // ---- what a sound vehicle would have -----------------------------------------------------------------------------

    [[nodiscard]] std::optional<RigFlow> sound(const RigState& state) const {
        return flow(rig_, state, usual_supply(rig_, state, system_, tables_), expected_);
    }

    [[nodiscard]] const std::optional<RigFlow>& sound_at(const Shown& reading) const {
        return std::find_if(sound_.begin(), sound_.end(), [&](const auto& one) { return one.first == reading.state; })
            ->second;
    }

    [[nodiscard]] double amperes_through(std::size_t section, const Shown& reading) const {
        const auto& flows = sound_at(reading);
        return flows ? in_amperes(flows->current[section]) : 0.0;
    }

    /// Next to nothing, as far as a clamp can tell.
    [[nodiscard]] bool nothing(const Shown& clamp) const {
        return std::abs(clamp.value) <= std::max(3.0 * clamp.uncertainty, in_amperes(most_asleep(test_.meter())));
    }

    /// Does another reading of the same state show that current flows there?
    [[nodiscard]] bool flows_through(std::size_t section, const Shown& told) const {
        return std::any_of(readings_.begin(), readings_.end(), [&](const Shown& other) {
            if (&other == &told || !(other.state == told.state)) return false;
            const auto there = section_of(other.probe);
            if (!there || !leads_through(section, *there)) return false;
            if (other.probe.clamp()) return !nothing(other) && other.value > 0.2 * amperes_through(*there, other);
            if (!other.probe.drop()) return false;
            const auto& flows = sound_at(other);
            if (!flows) return false;
            const double usual = std::abs(shown(rig_, other.probe, *flows, expected_));
            return other.value > 3.0 * other.uncertainty && other.value > 0.3 * usual && other.value < 3.0 * usual;
        });
    }

    /// Does a place at or behind the end of a section have its voltage?
    [[nodiscard]] bool arrives(std::size_t section, const Shown& told) const {
        if (section == rig_.output) return false;  // the battery has its own
        return std::any_of(readings_.begin(), readings_.end(), [&](const Shown& other) {
            if (&other == &told || !(other.state == told.state) || polar(other).value_or(0.0) < alive) return false;
            const auto& between = std::get<Probe::Between>(other.probe.what);
            return same_point(between.red, between.black) && between.red.at == At::section &&
                   leads_through(section, between.red.section);
        });
    }

    [[nodiscard]] bool clamped_at_nothing(std::size_t section, const Shown& told) const {
        return std::any_of(readings_.begin(), readings_.end(), [&](const Shown& other) {
            const auto* through = std::get_if<Probe::Through>(&other.probe.what);
            return through && through->section == section && other.state == told.state && nothing(other);
        });
    }

    // ---- polarity ----------------------------------------------------------------------------------------------------

    void poles() {
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const auto volts_there = polar(readings_[i]);
            // A drop has no poles, but no more than its battery either.
            const double most = std::abs(volts_there.value_or(readings_[i].probe.clamp() ? 0.0 : readings_[i].value));
            const bool is_reversed = volts_there && *volts_there < reversed;
            if (!is_reversed && most < impossible) continue;
            const Remark::Kind kind = most < impossible                ? Remark::Kind::poles_swapped
                                      : of_other_vehicle(readings_[i]) ? Remark::Kind::other_voltage
                                                                       : Remark::Kind::impossible;
            remarks_.push_back({kind, readings_[i].number, volts_there ? place_of(readings_[i].probe) : std::string(),
                                Measure{volts(volts_there.value_or(readings_[i].value))}});
            out_[i] = true;
        }
    }

    /// 24 V: not where another reading on the same battery shows what a 12 V one has.
    [[nodiscard]] bool of_other_vehicle(const Shown& told) const {
        const double there = polar(told).value_or(0.0);
        return there >= twice_least && there <= twice_most &&
               std::none_of(readings_.begin(), readings_.end(), [&](const Shown& other) {
                   const double volts_there = polar(other).value_or(0.0);
                   return by_starter(other) == by_starter(told) && volts_there >= alive && volts_there < impossible;
               });
    }

    // ---- where the way is open ---------------------------------------------------------------------------------------

    void open_ways() {
        const Elements whole = sound_elements();
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const Shown& reading = readings_[i];
            if (out_[i] || reading.probe.clamp()) continue;
            const auto there = polar(reading);
            const auto place = section_of(reading.probe);
            if (there && *there >= dead) continue;
            if (!place) {
                // A battery's own posts: no way leads there, so the leads touched nothing or it is disconnected.
                if (there && !alive_elsewhere(reading)) {
                    remarks_.push_back({Remark::Kind::nothing_arrives, reading.number, place_of(reading.probe),
                                        Measure{volts(*there)}});
                    out_[i] = true;
                }
                continue;
            }
            if (!there && !is_open(reading, *place)) continue;
            if (there && flows_through(*place, reading)) continue;
            const Elements all = span(reading.probe);
            Elements left = without(all, whole);
            // What contradicts itself is left as it was found.
            if (left.empty()) {
                if (!there) continue;
                left = all;
            }
            out_[i] = true;
            const bool only_dead = there && left.size() == all.size();
            note(i, std::move(left), *place, only_dead);
        }
        for (const Break& one : breaks_) tell(one);
    }

    [[nodiscard]] bool is_open(const Shown& reading, std::size_t section) const {
        if (flows_through(section, reading) || arrives(section, reading)) return false;
        if (reading.value >= alive) return true;
        return reading.value >= without_current && clamped_at_nothing(section, reading) &&
               amperes_through(section, reading) > 0.5;
    }

    [[nodiscard]] bool alive_elsewhere(const Shown& told) const {
        const bool starter = at_post(told, At::starter);
        return std::any_of(readings_.begin(), readings_.end(), [&](const Shown& other) {
            if (&other == &told || !(other.state == told.state) || by_starter(other) != starter) return false;
            return other.probe.clamp() ? !nothing(other) : polar(other).value_or(0.0) >= alive;
        });
    }

    /// What is surely whole: it brings a voltage somewhere, or has none across it while a current should flow.
    [[nodiscard]] Elements sound_elements() const {
        Elements whole;
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const Shown& reading = readings_[i];
            if (out_[i] || reading.probe.clamp()) continue;
            const auto there = polar(reading);
            const auto section = section_of(reading.probe);
            if (!section) continue;
            // The charger brings its own voltage to the beginning of its run.
            if (there ? *there >= alive && section != rig_.output
                      : reading.value < without_current && amperes_through(*section, reading) > 0.0)
                whole = both(whole, span(reading.probe));
        }
        return whole;
    }

    void note(std::size_t reading, Elements among, std::size_t place, bool only_dead) {
        for (Break& one : breaks_) {
            Elements narrower = common(one.among, among);
            if (narrower.empty()) continue;
            // The reading that says most is the one to name.
            if (among.size() < one.among.size() || (one.only_dead && !only_dead)) one.reading = reading;
            one.only_dead = one.only_dead && only_dead && narrower.size() == one.among.size();
            one.among = std::move(narrower);
            one.place = std::min(one.place, place);
            return;
        }
        breaks_.push_back({std::move(among), reading, place, only_dead});
    }

    /// Common practice, no source: fuses first, then plugs, switches and other joints, then lugs, then the cable.
    [[nodiscard]] int rank(std::size_t element) const {
        switch (rig_.elements[element].element.kind) {
            case Element::Kind::fuse: return 0;
            case Element::Kind::joint: return 1;
            case Element::Kind::lug: return 2;
            case Element::Kind::body: return 3;
            case Element::Kind::cable: return 4;
        }
        return 5;
    }

    void tell(const Break& one) {
        const Shown& reading = readings_[one.reading];
        Elements likeliest = one.among;
        std::stable_sort(likeliest.begin(), likeliest.end(),
                         [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
        Remark remark{Remark::Kind::open, reading.number, {}, Measure{volts(polar(reading).value_or(reading.value))}};
        for (const std::size_t element : likeliest) remark.among.push_back(rig_.elements[element].element.name);
        remark.fuse = rank(likeliest.front()) == 0;
        const bool out = side_has(one.among, Side::out), back = side_has(one.among, Side::back);
        if (one.only_dead && out && back) {
            remark.kind = Remark::Kind::nothing_arrives;
            remark.about = place_of(reading.probe);
        } else {
            const std::size_t first = rig_.elements[one.among.front()].section;
            const std::size_t last = rig_.elements[one.among.back()].section;
            remark.about =
                std::string(out && back ? "the way"
                            : out       ? "the way out"
                                        : "the way back") +
                (first == last ? " of the run " + rig_.sections[last].run
                               : " between " + rig_.sections[first].near + " and " + rig_.sections[last].far);
        }
        remarks_.push_back(std::move(remark));
        if (!next_ && likeliest.size() > 1) ask(one, reading, likeliest, out && back);
    }

    [[nodiscard]] bool side_has(const Elements& all, Side side) const {
        return std::any_of(all.begin(), all.end(),
                           [&](std::size_t element) { return rig_.elements[element].element.side == side; });
    }

    /// First which run, then which side of it, then which of its parts, the likeliest first.
    void ask(const Break& one, const Shown& told, const Elements& likeliest, bool both_sides) {
        const std::size_t first = rig_.elements[one.among.front()].section;
        const std::size_t last = rig_.elements[one.among.back()].section;
        const RigSection& run = rig_.sections[first];
        Ask next{.probe = {}, .state = told.state, .across = {}, .through = {}, .run = run.run, .proves = Proves::load};
        if (first != last) {
            next.across = {run.far};
        } else if (both_sides) {
            next.proves = Proves::plus_side;
            next.across = {run.near + " +", run.far + " +"};
        } else {
            next.proves = Proves::joint;
            next.across = {rig_.elements[likeliest.front()].element.name};
        }
        const auto probe = probe_across(rig_, next.across);
        if (!probe) return;
        next.probe = *probe;
        next_ = std::move(next);
    }

    /// Told of a part that is not connected: it was taken for what it tells of the break, and tells nothing else.
    [[nodiscard]] bool behind_a_break(const Shown& reading) const {
        const auto section = section_of(reading.probe);
        return section && std::any_of(breaks_.begin(), breaks_.end(),
                                      [&](const Break& one) { return leads_through(one.place, *section); });
    }

    [[nodiscard]] bool switched_off(const std::string& load) const {
        return std::any_of(rig_.loads.begin(), rig_.loads.end(), [&](const RigLoad& one) {
            return one.name == load && (std::find(idle_loads_.begin(), idle_loads_.end(), load) != idle_loads_.end() ||
                                        std::any_of(breaks_.begin(), breaks_.end(), [&](const Break& way) {
                                            return leads_through(way.place, one.section);
                                        }));
        });
    }

    // ---- what is on and takes nothing --------------------------------------------------------------------------------

    void nothing_flows() {
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const Shown& reading = readings_[i];
            const auto* through = std::get_if<Probe::Through>(&reading.probe.what);
            if (!through || through->section == rig_.feed || through->section == rig_.output) continue;
            const double usual = amperes_through(through->section, reading);
            if (!(usual > 1.0) || !nothing(reading) || reading.value > 0.05 * usual) continue;
            if (flows_through(through->section, reading) || behind_a_break(reading)) continue;
            const RigSection& run = rig_.sections[through->section];
            remarks_.push_back({Remark::Kind::nothing_flows, reading.number, run.run, Measure{amperes(reading.value)}});
            out_[i] = true;
            for (const RigLoad& load : rig_.loads)
                if (leads_through(through->section, load.section)) idle_loads_.push_back(load.name);
            const auto probe = probe_across(rig_, {run.far});
            const bool measured = std::any_of(readings_.begin(), readings_.end(), [&](const Shown& other) {
                return polar(other) && section_of(other.probe) == through->section && other.state == reading.state;
            });
            if (!next_ && probe && !measured) next_ = Ask{*probe, reading.state, {run.far}, {}, run.run, Proves::load};
        }
    }

    // ---- the batteries' own voltages ---------------------------------------------------------------------------------

    void batteries() {
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const Shown& reading = readings_[i];
            const bool starter = at_post(reading, At::starter), house = at_post(reading, At::house);
            if (out_[i] || !(starter || house)) continue;
            const Voltage there = volts(*polar(reading));
            const bool charging = reading.state.charging();
            const auto remark = [&](Remark::Kind kind) {
                remarks_.push_back({kind, reading.number, starter ? "starter" : "battery", Measure{there}});
                anchor_[i] = true;
            };
            const Voltage rested = starter ? limits_.starter_rested : limits_.house_rested;
            const Voltage highest = starter ? limits_.starter_highest : limits_.house_highest;
            if (charging && there > highest && !lower_elsewhere(reading)) remark(Remark::Kind::overcharged);
            if (higher_elsewhere(reading)) continue;
            if (charging && starter && there < limits_.starter_charged)
                remark(Remark::Kind::not_charged);
            else if (charging && starter && there < limits_.starter_running)
                remarks_.push_back({Remark::Kind::low_charging, reading.number, "starter", Measure{there}});
            if (!charging && reading.state.with.empty() && there < rested) remark(Remark::Kind::low_battery);
        }
    }

    /// No place has more than its battery, but for what meters are off.
    [[nodiscard]] bool higher_elsewhere(const Shown& post) const {
        return std::any_of(readings_.begin(), readings_.end(), [&](const Shown& other) {
            const auto there = polar(other);
            return there && &other != &post && by_starter(other) == by_starter(post) &&
                   other.state.charging() == post.state.charging() && section_of(other.probe) != rig_.output &&
                   *there > *polar(post) + 3.0 * (other.uncertainty + post.uncertainty);
        });
    }

    /// And none so much less that the way to it would have to be as good as open.
    [[nodiscard]] bool lower_elsewhere(const Shown& post) const {
        return std::any_of(readings_.begin(), readings_.end(), [&](const Shown& other) {
            const auto there = polar(other);
            return there && &other != &post && by_starter(other) == by_starter(post) && other.state == post.state &&
                   *there < *polar(post) - 1.5;
        });
    }

    // ---- the charger -------------------------------------------------------------------------------------------------

    void charger() {
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const Shown& reading = readings_[i];
            const auto* through = std::get_if<Probe::Through>(&reading.probe.what);
            if (!through || (through->section != rig_.feed && through->section != rig_.output)) continue;
            const std::string& run = rig_.sections[through->section].run;
            const Measure found{amperes(reading.value)};
            if (reading.state.charger_off) continue;
            if (does_nothing(reading)) {
                // It cannot where the way to it is open, and need not be told to look.
                if (!behind_a_break(reading)) charger_idle(reading, run, found);
            } else if (!reading.state.charging() && amperes(reading.value) > most_asleep(test_.meter())) {
                remarks_.push_back({Remark::Kind::charger_awake, reading.number, run, found});
                out_[i] = true;
            }
        }
        idle_by_voltage();
    }

    void charger_idle(const Shown& reading, const std::string& run, std::optional<Measure> found) {
        Remark remark{Remark::Kind::charger_idle, reading.number, run, found};
        // To a lamp at its end a sound feed loses in proportion.
        if (rig_.feed)
            if (const auto loop = test_.loop(*rig_.feed, {Engine::driving, {}}); loop && loop->at) {
                remark.at = lamp_test / rested_starter;
                const Voltage lost = *loop->most * in_ratio(*remark.at / *loop->at) * volts(1.0);
                remark.limit = Measure{lost + volts(two_steps)};
            }
        remarks_.push_back(std::move(remark));
    }

    /// Without a clamp two of these tell that the charger does nothing: next to nothing is lost in the feed, the charger
    /// has the starter battery's volts, and the house battery stands no higher than at rest.
    void idle_by_voltage() {
        if (!rig_.feed) return;
        std::vector<RigState> seen;
        for (const Shown& first : readings_) {
            const RigState& state = first.state;
            if (!state.charger_runs() || clamped(state) || idle(state) ||
                std::find(seen.begin(), seen.end(), state) != seen.end())
                continue;
            seen.push_back(state);
            const auto loop = test_.loop(*rig_.feed, state);
            if (!loop) continue;
            const double little = std::max(next_to_none * loop->expected, two_steps);
            const Shown* tells = nullptr;
            int signs = 0;
            bool lossless = false, loses = false;
            std::optional<double> starter, charger;
            for (const Shown& one : readings_) {
                if (!(one.state == state)) continue;
                const auto there = polar(one);
                if (!there && section_of(one.probe) == rig_.feed) {
                    const auto limits = test_.of(one.probe, state);
                    const auto* over = std::get_if<Probe::Over>(&one.probe.what);
                    if (!limits || (over && limits->expected < 20.0 * one.uncertainty)) continue;
                    (one.value < next_to_none * limits->expected ? lossless : loses) = true;
                    if (lossless) tells = &one;
                }
                if (at_post(one, At::starter)) starter = *there;
                if (there && section_of(one.probe) == rig_.feed) charger = *there;
                if (at_post(one, At::house) && volts(*there) <= at_rest()) {
                    ++signs;
                    tells = &one;
                }
            }
            if (loses) continue;
            if (lossless) ++signs;
            if (starter && charger && std::abs(*starter - *charger) < little) ++signs;
            if (signs < 2 || !tells) continue;
            idle_states_.push_back(state);
            charger_idle(*tells, rig_.sections[*rig_.feed].run, {});
        }
    }

    /// The most that the house battery shows while nothing charges it: as it was read at rest, or four fifths full (common
    /// practice, no source).
    [[nodiscard]] Voltage at_rest() const {
        for (const Shown& one : readings_)
            if (at_post(one, At::house) && !one.state.charging() && one.state.with.empty())
                return volts(*polar(one) + two_steps);
        return rest_voltage(tables_, show(*system_.complete.battery.chemistry), percent(80));
    }

    // ---- what is lost under load -------------------------------------------------------------------------------------

    /// The volts at the far end of a run while it carries, against those without its load: at its beginning at the same
    /// time, or at either end while nothing flows.
    void lost_under_load() {
        for (const Shown& loaded : readings_) {
            const auto there = polar(loaded);
            const auto* between = std::get_if<Probe::Between>(&loaded.probe.what);
            if (!there || *there < dead || !same_point(between->red, between->black) ||
                between->red.at != At::section || idle(loaded.state))
                continue;
            const std::size_t section = between->red.section;
            const auto loop = test_.loop(section, loaded.state);
            const auto limits = test_.of(loaded.probe, loaded.state);
            if (!loop || !limits || behind_a_break(loaded)) continue;
            double most_lost = 0.0, reference_error = 0.0;
            for (const Shown& other : readings_) {
                const auto stands = polar(other);
                if (!stands || &other == &loaded || *stands >= impossible || !unloaded(other, loaded, section))
                    continue;
                if (*stands - *there > most_lost) {
                    most_lost = *stands - *there;
                    reference_error = other.uncertainty;
                }
            }
            const double unsure = nineteen_in_twenty * std::hypot(reference_error, loaded.uncertainty);
            if (most_lost < *loop->most + unsure) continue;
            Remark remark{Remark::Kind::cannot_carry, loaded.number, rig_.sections[section].run,
                          Measure{volts(most_lost)}};
            remark.limit = Measure{volts(*loop->most)};
            remark.at = loop->at;
            remark.gives_up = *there < runs_down_to(section).value_or(*limits->least);
            for (const Shown& other : readings_) {
                const auto* through = std::get_if<Probe::Through>(&other.probe.what);
                if (through && through->section == section && other.state == loaded.state && !nothing(other))
                    remark.flows = amperes(other.value);
            }
            remarks_.push_back(std::move(remark));
        }
    }

    static constexpr double nineteen_in_twenty = 1.96;

    /// The voltage below which what hangs at the end of a run switches itself off; empty where it does not.
    [[nodiscard]] std::optional<double> runs_down_to(std::size_t section) const {
        for (const SystemRun& run : system_.runs) {
            if (*run.run.name != rig_.sections[section].run) continue;
            if (const auto* charger = std::get_if<ConverterLoad>(&run.load)) return in_volts(charger->input_off);
            if (const auto* appliance = std::get_if<PowerLoad>(&run.load)) return in_volts(appliance->cut_out);
        }
        return {};
    }

    /// Does a reading show what stands before a run's load, with the same source at work?
    [[nodiscard]] bool unloaded(const Shown& other, const Shown& loaded, std::size_t section) const {
        const RigSection& run = rig_.sections[section];
        const auto& points = std::get<Probe::Between>(other.probe.what);
        if (!same_point(points.red, points.black)) return false;
        const bool post = run.from ? points.red.at == At::section && points.red.section == *run.from
                                   : at_post(other, run.by_starter ? At::starter : At::house);
        if (other.state == loaded.state) return post;
        const bool same_source = run.by_starter ? other.state.engine == loaded.state.engine
                                                : other.state.charger_runs() == loaded.state.charger_runs();
        const bool end = points.red.at == At::section && points.red.section == section;
        return same_source && end && !test_.loop(section, other.state);
    }

    [[nodiscard]] bool does_nothing(const Shown& reading) const {
        const auto* through = std::get_if<Probe::Through>(&reading.probe.what);
        return through && reading.state.charger_runs() &&
               (through->section == rig_.feed || through->section == rig_.output) &&
               reading.value < 0.05 * in_amperes(rig_.charger_output);
    }

    [[nodiscard]] bool clamped(const RigState& state) const {
        return std::any_of(readings_.begin(), readings_.end(), [&](const Shown& reading) {
            const auto* through = std::get_if<Probe::Through>(&reading.probe.what);
            return through && reading.state == state &&
                   (through->section == rig_.feed || through->section == rig_.output);
        });
    }

    /// Does the charger do nothing then?
    [[nodiscard]] bool idle(const RigState& state) const {
        if (!state.charger_runs()) return false;
        if (std::find(idle_states_.begin(), idle_states_.end(), state) != idle_states_.end()) return true;
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            if (!(readings_[i].state == state)) continue;
            if (does_nothing(readings_[i])) return true;
            // It waits for an alternator that charges, unless a clamp says otherwise.
            if (anchor_[i] && at_post(readings_[i], At::starter) &&
                *polar(readings_[i]) < in_volts(system_.complete.starter.running->value) && !clamped(state))
                return true;
        }
        return std::any_of(breaks_.begin(), breaks_.end(), [&](const Break& one) {
            return (rig_.feed && leads_through(one.place, *rig_.feed)) || one.place == rig_.output;
        });
    }

    const Rig& rig_;
    const std::vector<Shown>& readings_;
    const System& system_;
    const Tables& tables_;
    const TestLimits& test_;
    const BatteryLimits& limits_;
    std::vector<Resistance> expected_;
    std::vector<std::pair<RigState, std::optional<RigFlow>>> sound_;  ///< by state
    std::vector<bool> out_;                                           ///< of each reading: told all that it can
    std::vector<bool> anchor_;
    std::vector<Break> breaks_;
    std::vector<std::string> idle_loads_;
    std::vector<RigState> idle_states_;  ///< in which voltages tell that the charger does nothing
    std::vector<Remark> remarks_;
    std::optional<Ask> next_;
};

}  // namespace

Sifted sift(const Rig& rig, const std::vector<Shown>& readings, const TestLimits& limits, const System& system,
            const Tables& tables) {
    return Sifting(rig, readings, limits, system, tables).sift();
}

namespace {

/// Does a remark already tell of this reading, or of what makes it pass its limit?
bool accounts_for(const Remark& remark, const Shown& told_by, const Shown& reading, bool above) {
    if (!remark.grave()) return false;
    if (remark.reading == reading.number) return true;
    if (above || !(told_by.state == reading.state)) return false;
    // A battery that is not charged, or a charger that does nothing, leaves all behind it low.
    return remark.kind == Remark::Kind::not_charged || remark.kind == Remark::Kind::charger_idle ||
           remark.kind == Remark::Kind::low_battery;
}

}  // namespace

std::vector<Remark> beyond_limits(const Rig& rig, const std::vector<Shown>& readings, const Sifted& sifted,
                                  const TestLimits& limits) {
    const bool told_of_a_break = std::any_of(sifted.remarks.begin(), sifted.remarks.end(), [](const Remark& one) {
        return one.kind == Remark::Kind::open || one.kind == Remark::Kind::nothing_arrives ||
               one.kind == Remark::Kind::nothing_flows;
    });
    std::vector<std::pair<double, Remark>> found;
    for (const Shown& reading : readings) {
        const auto right = limits.of(reading.probe, reading.state);
        if (!right) continue;
        const double value = std::abs(reading.value);
        const auto limit = right->passed_by(value);
        if (!limit) continue;
        const bool above = value > *limit;
        const bool used = std::any_of(sifted.used.begin(), sifted.used.end(),
                                      [&](const Shown& one) { return one.number == reading.number; });
        if (told_of_a_break && !used) continue;
        const bool known = std::any_of(sifted.remarks.begin(), sifted.remarks.end(), [&](const Remark& remark) {
            const auto told_by = std::find_if(readings.begin(), readings.end(),
                                              [&](const Shown& one) { return one.number == remark.reading; });
            return told_by != readings.end() && accounts_for(remark, *told_by, reading, above);
        });
        if (known) continue;
        const bool clamp = reading.probe.clamp();
        const auto measure = [&](double x) { return clamp ? Measure{amperes(x)} : Measure{volts(x)}; };
        const auto section = limits.section_of(reading.probe);
        Remark remark{Remark::Kind::beyond, reading.number, section ? rig.sections[*section].run : std::string(),
                      measure(value), names_of(rig, reading.probe)};
        remark.limit = measure(*limit);
        remark.at = right->at;
        remark.above = above;
        remark.in_way = reading.probe.drop();
        remark.nothing_on = clamp && !(right->expected > 0.0);
        remark.charging = reading.state.charger_runs();
        for (const Shown& other : readings) {
            const auto* through = std::get_if<Probe::Through>(&other.probe.what);
            if (through && other.state == reading.state && remark.in_way && section == through->section)
                remark.flows = amperes(other.value);
            if (!remark.in_way && section && other.state == reading.state && limits.feeds(other.probe, *section))
                remark.source_known = true;
        }
        found.emplace_back(above ? value / *limit : *limit / std::max(value, 1e-3), std::move(remark));
    }
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<Remark> remarks;
    for (auto& [ratio, remark] : found) remarks.push_back(std::move(remark));
    return remarks;
}

}  // namespace voltwright
