#include "voltwright/planning/parts.hpp"

#include "voltwright/planning/prices.hpp"
#include "voltwright/sizing/fitting.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace voltwright {

namespace {

constexpr std::array<std::string_view, 13> kinds = {"cable",       "lug",         "battery clamp", "plug",    "part",
                                                    "fuse",        "fuse holder", "fuse block",    "conduit", "grommet",
                                                    "heat-shrink", "clip",        "label"};

// Common practice, no source.
constexpr Length body_tail = metres(0.5);
constexpr Length bank_link = metres(0.5);
constexpr Current wake_fuse = amperes(3);
constexpr int most_spares = 2;
constexpr Ratio lug_shrink = ratio(3);
/// Heat-shrink on one lug, as it lies there: four times the cable, a thumb's width at least.
constexpr double shrink_diameters = 4.0;
constexpr Length least_shrink = millimetres(30);
/// It shortens by 5 to 15 % on shrinking: two sellers' pages, read.
constexpr Ratio shortening = percent(15);
/// What may be lost between two batteries of a bank, so that they share alike.
constexpr Ratio bank_drop = percent(1);

/// Up to the next tenth of a metre.
Length in_tenths(Length length) { return metres(std::ceil(10.0 * in_metres(length) - 1e-6) / 10.0); }

bool same_line(const Part& a, const Part& b) {
    return a.kind == b.kind && a.what == b.what && a.colour == b.colour && a.size == b.size &&
           a.insulation == b.insulation && a.rating == b.rating && a.at_least == b.at_least && a.family == b.family &&
           a.stud == b.stud && a.bore == b.bore && a.length.has_value() == b.length.has_value();
}

void name_once(std::vector<std::string>& names, const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

bool is_battery_or_charger(const Place& place) { return is_battery(place) || place.kind == PlaceKind::charger; }

std::string end_in_words(const Place& place) {
    return is_battery(place) ? place.kind == PlaceKind::starter_battery ? "starter battery" : "house battery"
                             : place.name;
}

/// The size of the way back; empty with a body return.
std::optional<Gauge> back_of(const SystemRun& run, Gauge size) {
    if (run.run.body) return {};
    return run.run.return_size.value_or(size);
}

Part cable_of(std::string_view colour, Gauge size, Temperature insulation, Length length) {
    return {.kind = PartKind::cable,
            .what = "cable",
            .colour = std::string(colour),
            .size = size,
            .insulation = insulation,
            .length = length,
            .runs = {}};
}

/// Counts what each run is made of.
class Counter {
public:
    Counter(const System& system, const Tables& tables, Ratio allowance) : system_(system), tables_(tables) {
        list_.title = system.title;
        list_.allowance = allowance;
    }

    PartsList list(const Plan& plan) && {
        if (!plan.holds()) list_.to_look.emplace_back("the plan: it does not hold, and voltwright plan says why");
        for (const RunPlan& run : plan.runs) find_blocks(run);
        for (const RunPlan& run : plan.runs) count(run);
        fuse_blocks();
        wake_wire(plan);
        bank(plan);
        finish();
        return std::move(list_);
    }

private:
    // ---- lines -------------------------------------------------------------------------------------------------------

    /// Adds to the line of the same thing, or begins one. Lengths as laid: the allowance comes last.
    void add(Part part, const std::string& run) {
        part.runs.clear();
        const auto line = std::find_if(list_.parts.begin(), list_.parts.end(),
                                       [&](const Part& other) { return same_line(other, part); });
        if (line == list_.parts.end()) {
            part.runs.push_back(run);
            list_.parts.push_back(std::move(part));
            return;
        }
        if (part.length)
            *line->length += *part.length;
        else
            line->count += part.count;
        name_once(line->runs, run);
    }

    void add_cable(const Part& cable, const std::string& run) {
        add(cable, run);
        add({.kind = PartKind::label, .what = "cable label", .count = 2, .runs = {}}, run);
    }

    /// Lugs with their heat-shrink.
    void add_lugs(const PlacedLugs& lugs, const std::string& run) {
        Part part = lug_for(system_, lugs, tables_);
        if (part.stud.empty() && lugs.end && is_battery_or_charger(*lugs.end))
            name_once(list_.to_look, "the studs of the " + end_in_words(*lugs.end) +
                                         ": the profile does not name them (stud = \"M8\")");
        add(std::move(part), run);
        add_shrink(lugs.size, run, lugs.count);
    }

    void add_shrink(Gauge size, const std::string& run, int count) {
        const auto conductor = conductor_of(tables_, size);
        const auto outside = conductor ? outside_of(*conductor) : std::nullopt;
        const ShrinkTubeRow* tube = outside ? shrink_for(*outside, lug_shrink, tables_) : nullptr;
        if (!tube) {
            name_once(list_.to_look, "heat-shrink for the lugs of " + show(size) + ": measure the cable");
            return;
        }
        const Length shrunk = std::max<Length>(least_shrink, shrink_diameters * *outside);
        add({.kind = PartKind::heat_shrink,
             .what = "heat-shrink 3:1 with adhesive",
             .bore = tube->supplied,
             .length = static_cast<double>(count) * shrunk / (Ratio{1.0} - shortening),
             .runs = {}},
            run);
    }

    // ---- one run -----------------------------------------------------------------------------------------------------

    void count(const RunPlan& run) {
        const std::string& name = *run.task.run.name;
        if (!run.sized()) return name_once(list_.not_listed, "everything of the run " + name + ": it is not sized yet");
        if (run.task.assumed) list_.assumed.push_back(name);
        const Candidate* taken = run.to_lay();
        if (!taken)
            return name_once(list_.not_listed,
                             "everything of the run " + name + ": no size passes" +
                                 (run.taken() ? "; " + show(run.taken()->size) + " comes nearest" : ""));
        cables(run, *taken);
        joints(run, *taken);
        for (const FuseFit& fuse : taken->fuses) add_fuse(fuse, *taken, run);
        laid(run, *taken);
    }

    /// The size of the way back; empty with a body return.
    [[nodiscard]] static std::optional<Gauge> back_of(const RunPlan& run, const Candidate& taken) {
        return voltwright::back_of(run.task, taken.size);
    }

    void cables(const RunPlan& run, const Candidate& taken) {
        const std::string& name = *run.task.run.name;
        const auto back = back_of(run, taken);
        if (run.task.run.have_cable) {
            const Temperature insulation = run.task.run.insulation;
            list_.owned.push_back(
                name + ": its cable, " + show_cable(taken.size, insulation) +
                (back && *back != taken.size ? " and " + show_cable(*back, insulation) + " back" : ""));
            add({.kind = PartKind::label, .what = "cable label", .count = back ? 4 : 2, .runs = {}}, name);
            return;
        }
        for (const Part& cable : cables_of(run.task, taken.size)) add_cable(cable, name);
    }

    void joints(const RunPlan& run, const Candidate& taken) {
        const SystemRun& task = run.task;
        const std::string& name = *task.run.name;
        int clamps = 0;
        for (const JointResistance& joint : joints_of(task.run, taken.area, tables_)) {
            if (joint.name == "battery clamp")
                clamps += joint.count;
            else if (joint.name != "lug")
                add_part(joint.name, joint.count, run, taken);
        }
        if (clamps > 0)
            add({.kind = PartKind::battery_clamp, .what = "battery clamp", .count = clamps, .runs = {}}, name);
        for (const PlacedLugs& lugs : lugs_of(task, taken, tables_)) add_lugs(lugs, name);
    }

    void add_part(const std::string& joint, int count, const RunPlan& plan, const Candidate& taken) {
        const std::string& run = *plan.task.run.name;
        if (joint == "measured joint")
            return name_once(list_.not_listed, "joints of the run " + run + " that the profile gives as resistances");
        const bool plug = joint.find("plug") != std::string::npos;
        Part part{.kind = plug ? PartKind::plug : PartKind::part, .what = joint, .runs = {}};
        const auto row = std::find_if(tables_.joints.begin(), tables_.joints.end(),
                                      [&](const JointRow& one) { return one.name == joint; });
        if (row != tables_.joints.end()) part.rating = row->rating;
        for (const UnratedPart& unrated : unrated_parts(plan.task.run, taken, plan.choice.design.current, tables_))
            if (unrated.part == joint) part.at_least = unrated.at_least;
        // A plug is two halves of one kind that mate.
        part.count = plug ? 2 * count : count;
        add(std::move(part), run);
    }

    // ---- fuses -------------------------------------------------------------------------------------------------------

    void add_fuse(const FuseFit& fuse, const Candidate& taken, const RunPlan& run) {
        const std::string& name = *run.task.run.name;
        if (fuse.have) {
            list_.owned.push_back(name + ": its " + show(fuse.rating) + " " + fuse.family + " fuse at the " +
                                  end_in_words(fuse.at));
            return;
        }
        add_fuse(fuse.family, fuse.rating, name);
        const bool in_a_block =
            fuse.form == FuseForm::blade &&
            std::any_of(blocks_.begin(), blocks_.end(), [&](const FuseBlock& block) { return block.holds(fuse); });
        if (!in_a_block) add_holder(fuse.family, fuse.form, holder_carries(fuse, run.choice), taken.area, name);
    }

    /// Whether a holder in the cable may carry what the run is held against.
    static bool holder_carries(const FuseFit& fuse, const Choice& choice) {
        return !fuse.in_line || choice.design.current <= fuse.in_line->rating;
    }

    void add_fuse(const std::string& family, Current rating, const std::string& run, int count = 1) {
        add({.kind = PartKind::fuse,
             .what = family + " fuse",
             .rating = rating,
             .family = family,
             .count = count,
             .runs = {}},
            run);
    }

    /// With a look at the leads of one that sits in the cable.
    void add_holder(const std::string& family, FuseForm form, bool in_line, Area cable, const std::string& run,
                    int count = 1) {
        std::string what = "in-line " + family + " fuse holder";
        if (form == FuseForm::bolted)
            what = "bolt-down holder with cover for " + family + " fuses";
        else if (form == FuseForm::post)
            what = "holder on the battery post";
        else if (!in_line)
            what = family + " fuse holder with screwed terminals";
        add({.kind = PartKind::fuse_holder, .what = what, .family = family, .count = count, .runs = {}}, run);
        if (form != FuseForm::blade || !in_line) return;
        in_line_holders_ = true;
        const FuseFamilyRow* row = find_fuse_family(tables_, family);
        if (row && row->in_line_area && cable > 1.01 * *row->in_line_area)
            name_once(list_.to_look, "the in-line holder's leads are thinner than the cable of the run " + run +
                                         ": take a bolted holder or a reducing splice");
    }

    // ---- fuse blocks -------------------------------------------------------------------------------------------------

    /// A place where several runs get a blade fuse of one family.
    struct FuseBlock {
        Place at;
        std::string family;
        int ways = 0, owned = 0;
        std::vector<std::string> runs = {};

        [[nodiscard]] bool holds(const FuseFit& fuse) const {
            return at == fuse.at && family == fuse.family && ways > 1;
        }
    };

    void find_blocks(const RunPlan& run) {
        if (!run.sized() || !run.to_lay()) return;
        for (const FuseFit& fuse : run.to_lay()->fuses) {
            if (fuse.form != FuseForm::blade || is_battery_or_charger(fuse.at)) continue;
            auto block = std::find_if(blocks_.begin(), blocks_.end(), [&](const FuseBlock& one) {
                return one.at == fuse.at && one.family == fuse.family;
            });
            if (block == blocks_.end()) block = blocks_.insert(block, FuseBlock{fuse.at, fuse.family});
            ++block->ways;
            block->owned += fuse.have ? 1 : 0;
            name_once(block->runs, *run.task.run.name);
        }
    }

    void fuse_blocks() {
        for (const FuseBlock& block : blocks_) {
            if (block.ways < 2 || block.owned == block.ways) continue;
            const std::string ways = std::to_string(block.ways) + " ways";
            Part part{.kind = PartKind::fuse_block,
                      .what = (block.family == "blade" ? "" : block.family + " ") + "fuse block, " + ways,
                      .family = block.family,
                      .runs = {}};
            add(part, block.runs.front());
            Part& line = *std::find_if(list_.parts.begin(), list_.parts.end(),
                                       [&](const Part& one) { return same_line(one, part); });
            for (const std::string& run : block.runs) name_once(line.runs, run);
            if (block.owned > 0)
                name_once(list_.to_look,
                          block.at.name +
                              ": some of its fuses are there already; buy no fuse block if the one they sit in has " +
                              ways);
        }
    }

    // ---- tube, grommets, clips ---------------------------------------------------------------------------------------

    void laid(const RunPlan& run, const Candidate& taken) {
        const SystemRun& task = run.task;
        const std::string& name = *task.run.name;
        std::vector<Length> outsides;
        for (const std::optional<Gauge>& size : {std::optional(taken.size), back_of(run, taken)}) {
            if (!size) continue;
            const auto conductor = conductor_of(tables_, *size);
            const auto outside = conductor ? outside_of(*conductor) : std::nullopt;
            if (!outside)
                return name_once(list_.to_look, "tube, clips and grommets of the run " + name + ": the outside of " +
                                                    show(*size) + " is not known, measure it");
            outsides.push_back(*outside);
        }
        // The wake wire goes the feed's way, in its tube.
        if (const auto wire = task.role == RunRole::feed && has_wake_wire() ? thinnest() : std::nullopt) {
            const auto conductor = conductor_of(tables_, *wire);
            if (const auto outside = conductor ? outside_of(*conductor) : std::nullopt) outsides.push_back(*outside);
        }
        const TubeRow* tube = tube_for(outsides, tables_);
        if (!tube)
            return name_once(list_.to_look, "tube, clips and grommets of the run " + name + ": no tube is wide enough");
        add({.kind = PartKind::conduit,
             .what = "corrugated tube " + std::string(tube->tube),
             .bore = tube->bore,
             .length = task.run.length,
             .runs = {}},
            name);
        const bool holes = task.run.way.size() > 1;
        if (holes)
            add({.kind = PartKind::grommet, .what = "grommet", .bore = tube->outside, .count = 2, .runs = {}}, name);
        const SupportSpacingRow* spacing =
            find_support_spacing(tables_, is_battery_cable(task) ? "battery cable" : "cable");
        add({.kind = PartKind::clip,
             .what = "clip",
             .bore = tube->outside,
             .count = supports(task.run.length, spacing->apart),
             .runs = {}},
            name);
    }

    /// What brings a battery's main current: by ISO 10133, 7.4, supported closer.
    static bool is_battery_cable(const SystemRun& task) {
        return task.role == RunRole::feed || task.role == RunRole::output || task.role == RunRole::inverter ||
               (task.role == RunRole::trunk && task.from.kind == PlaceKind::house_battery);
    }

    // ---- what the plan's runs do not say -----------------------------------------------------------------------------

    [[nodiscard]] std::optional<Gauge> thinnest() const {
        std::optional<Gauge> thinnest;
        std::optional<Area> least;
        for (const Gauge& size : system_.rules.sizes) {
            const auto conductor = conductor_of(tables_, size);
            if (!conductor || conductor->area < system_.rules.smallest || (least && conductor->area >= *least))
                continue;
            least = conductor->area;
            thinnest = size;
        }
        return thinnest;
    }

    [[nodiscard]] bool has_wake_wire() const { return *system_.complete.charger.wake == Wake::ignition; }

    /// The wire that tells the charger that the ignition is on, with a small fuse where it begins.
    void wake_wire(const Plan& plan) {
        if (!has_wake_wire()) return;
        const auto feed = std::find_if(plan.runs.begin(), plan.runs.end(),
                                       [](const RunPlan& run) { return run.task.role == RunRole::feed; });
        const auto size = thinnest();
        if (feed == plan.runs.end() || !size)
            return name_once(list_.not_listed, "the charger's wake wire: its way or a size for it is not known");
        const std::string name = "wake wire";
        add_cable(cable_of("red", *size, feed->task.run.insulation, feed->task.run.length), name);
        add_fuse("blade", wake_fuse, name);
        add_holder("blade", FuseForm::blade, true, conductor_of(tables_, *size)->area, name);
        name_once(list_.not_listed, "terminals of the wake wire: the charger's manual names them");
    }

    /// Batteries in parallel feed a short in one of them: a fuse on each, and links that are sized like any run, for all
    /// that may flow in or out of the bank.
    void bank(const Plan& plan) {
        const int count = system_.house.count;
        if (count < 2) return;
        const RunPlan* output = nullptr;
        Current in{}, out{};
        for (const RunPlan& run : plan.runs) {
            if (!run.sized()) continue;
            if (run.task.to.kind == PlaceKind::house_battery) {
                in += run.choice.design.current;
                output = &run;
            }
            if (run.task.from.kind == PlaceKind::house_battery) out += run.choice.design.current;
        }
        const std::string name = "battery bank";
        const std::string nothing =
            "the links and fuses between the " + std::to_string(count) + " batteries of the bank";
        if (!output || output->task.run.fused_at.empty()) return name_once(list_.not_listed, nothing);
        CableRun link{.name = name, .length = bank_link};
        link.way = {output->task.run.way.back()};
        link.insulation = output->task.run.insulation;
        link.fused_at = {output->task.run.fused_at.front()};
        link.studs = system_.house.stud ? std::vector{system_.house.stud->diameter} : std::vector<Length>{};
        const Choice choice =
            choose_cable(link, SteadyLoad{.current = std::max(in, out)},
                         Supply{nominal_voltage, nominal_voltage, bank_drop}, system_.rules, tables_, Ladder::needed);
        const Candidate* taken = choice.chosen();
        if (!taken || taken->fuses.empty())
            return name_once(list_.not_listed, nothing + ": no size passes for " + show(std::max(in, out)));
        for (int i = 1; i < count; ++i) {
            for (const std::string_view colour : {"red", "black"})
                add_cable(cable_of(colour, taken->size, link.insulation, bank_link), name);
            add_lugs({LugsAt::end, the(PlaceKind::house_battery), taken->size, 4}, name);
        }
        const FuseFit& fuse = taken->fuses.front();
        add_fuse(fuse.family, fuse.rating, name, count);
        add_holder(fuse.family, fuse.form, holder_carries(fuse, choice), taken->area, name, count);
        if (fuse.form == FuseForm::bolted) add_lugs({LugsAt::fuse, {}, taken->size, 2 * count}, name);
    }

    // ---- at the end --------------------------------------------------------------------------------------------------

    void finish() {
        for (Part& part : list_.parts) {
            if (part.length) part.length = in_tenths(*part.length * (Ratio{1.0} + list_.allowance));
            if (part.kind == PartKind::fuse) {
                part.spare = std::min(part.count, most_spares);
                part.count += part.spare;
            }
            if (part.kind != PartKind::cable) continue;
            if (const auto conductor = conductor_of(tables_, *part.size))
                part.mass = cable_mass(*conductor, *part.length, tables_).mass;
        }
        const auto area = [&](const Part& part) {
            const auto conductor = part.size ? conductor_of(tables_, *part.size) : std::nullopt;
            return conductor ? conductor->area : Area{};
        };
        std::stable_sort(list_.parts.begin(), list_.parts.end(), [&](const Part& a, const Part& b) {
            return a.kind != b.kind ? a.kind < b.kind : area(a) > area(b);
        });
        if (!list_.owned.empty())
            list_.to_look.push_back("lugs, tube and clips of cables that are there already: leave out what is fitted");
        if (in_line_holders_)
            list_.not_listed.emplace_back(
                "splices that join the leads of in-line fuse holders to the cable: one or two for each holder");
        for (const std::string_view what :
             {"tools, screws, tape and cable ties", "the battery's tray and straps",
              "charger, batteries and appliances themselves", "plugs and terminals that appliances bring"})
            list_.not_listed.emplace_back(what);
    }

    const System& system_;
    const Tables& tables_;
    PartsList list_;
    std::vector<FuseBlock> blocks_ = {};
    bool in_line_holders_ = false;
};

}  // namespace

std::string_view show(PartKind kind) { return kinds[static_cast<std::size_t>(kind)]; }

std::span<const std::string_view> part_kinds() { return kinds; }

std::string in_words(const Part& part) {
    std::string words;
    if (part.kind == PartKind::fuse && part.rating) words += show(*part.rating) + " ";
    words += part.what;
    if (part.size) words += " " + (part.insulation ? show_cable(*part.size, *part.insulation) : show(*part.size));
    if (!part.colour.empty()) words += ", " + part.colour;
    if (part.at_least) words += ", at least " + show(*part.at_least);
    if (part.kind == PartKind::lug) {
        if (!part.stud.empty())
            words += ", hole for " + part.stud;
        else if (part.what == "ring lug")
            words += ", for your stud";
    }
    if (part.bore && part.kind == PartKind::heat_shrink) words += ", " + show(*part.bore) + " before shrinking";
    if (part.bore && part.kind == PartKind::conduit) words += ", " + show(*part.bore) + " inside";
    if (part.bore && (part.kind == PartKind::grommet || part.kind == PartKind::clip))
        words += " for " + show(*part.bore) + " outside";
    return words;
}

std::vector<Part> cables_of(const SystemRun& run, Gauge size) {
    const bool body = run.run.body.has_value();
    const Temperature insulation = run.run.insulation;
    return {cable_of("red", size, insulation, run.run.length),
            cable_of("black", body ? size : run.run.return_size.value_or(size), insulation,
                     body ? body_tail : *run.run.length)};
}

std::vector<PlacedLugs> lugs_of(const SystemRun& run, const Candidate& candidate, const Tables& tables) {
    const auto back = back_of(run, candidate.size);
    int lugs = 0, clamps = 0;
    for (const JointResistance& joint : joints_of(run.run, candidate.area, tables)) {
        if (joint.name == "lug") lugs += joint.count;
        if (joint.name == "battery clamp") clamps += joint.count;
    }
    std::vector<PlacedLugs> all;
    // Of both conductors in turn.
    const auto place = [&](const std::optional<Place>& end, int count) {
        const LugsAt at = end ? LugsAt::end : LugsAt::between;
        const int of_back = back ? count / 2 : 0;
        if (count - of_back > 0) all.push_back({at, end, candidate.size, count - of_back});
        if (of_back > 0) all.push_back({at, end, *back, of_back});
    };
    // The ends: one connection a conductor each, clamps on the battery's. A lug more sits somewhere between.
    const int each = back ? 2 : 1;
    const bool battery_last = !is_battery(run.from) && run.to.kind == PlaceKind::house_battery;
    const int first = std::clamp(lugs, 0, std::max(each - (battery_last ? 0 : clamps), 0));
    const int last = std::clamp(lugs - first, 0, std::max(each - (battery_last ? clamps : 0), 0));
    place(run.from, first);
    place(run.to, last);
    place({}, lugs - first - last);
    if (!back) {
        all.push_back({LugsAt::end, run.to, candidate.size, 1});
        all.push_back({LugsAt::earth_point, {}, candidate.size, 1});
    }
    for (const FuseFit& fuse : candidate.fuses)
        if (fuse.form == FuseForm::bolted && !fuse.have) all.push_back({LugsAt::fuse, {}, candidate.size, 2});
    return all;
}

Part lug_for(const System& system, const PlacedLugs& lugs, const Tables& tables) {
    Part lug{.kind = PartKind::lug, .what = "ring lug", .size = lugs.size, .count = lugs.count, .runs = {}};
    if (lugs.at == LugsAt::fuse) {
        lug.what = "ring lug for a fuse's stud";
    } else if (lugs.at == LugsAt::earth_point) {
        lug.what = "ring lug for an earth point";
    } else if (const auto stud = lugs.end ? stud_at(system, *lugs.end) : std::nullopt) {
        const StudRow* hole = find_stud(tables, stud->diameter);
        lug.stud = show(hole ? hole->diameter : stud->diameter);
    }
    return lug;
}

PartsList parts_list(const System& system, const Plan& plan, const PriceList* prices, Ratio allowance,
                     const Tables& tables) {
    PartsList list = Counter(system, tables, allowance).list(plan);
    if (prices) put_prices(list, *prices);
    return list;
}

}  // namespace voltwright
