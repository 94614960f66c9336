// Laws of the whole wiring, over several hundred vehicles drawn at random.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/cables.hpp"
#include "voltwright/shopping/cable_cost.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/sizing/least_cost.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <vector>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

/// A vehicle with a fuse block, and what hangs on it.
struct Vehicle {
    struct Load {
        std::string name;
        double watts, metres;
        bool on_block;
        int from, to;  // hours
        double start_amps = 0.0;
    };

    explicit Vehicle(int number) {
        std::mt19937 draw(static_cast<unsigned>(number) + 101);
        const auto whole = [&](int from, int to) {
            return from + static_cast<int>(draw() % static_cast<unsigned>(to - from + 1));
        };
        chemistry = whole(0, 3) == 0 ? "lfp" : "agm";
        capacity = whole(60, 240);
        output = whole(10, 50);
        feed = 0.5 * whole(4, 18);
        trunk = 0.5 * whole(1, 10);
        fridge = whole(35, 70);
        block = whole(0, 3) > 0;
        const int count = whole(0, 4);
        for (int i = 0; i < count; ++i) {
            Load load{"load " + std::to_string(i), 5.0 * whole(1, 30), 0.5 * whole(1, 10), whole(0, 2) > 0, 0, 0};
            load.from = whole(0, 23);
            load.to = (load.from + whole(1, 20)) % 24;
            if (load.from == load.to) load.to = (load.to + 1) % 24;
            if (whole(0, 3) == 0) load.start_amps = load.watts / 12.0 * whole(2, 4);
            loads.push_back(load);
        }
    }

    [[nodiscard]] std::string text() const {
        const auto number = [](double x) {
            std::string text = std::to_string(x);
            return text.substr(0, text.find('.') + 4);
        };
        const auto hour = [](int h) { return (h < 10 ? "0" : "") + std::to_string(h) + ":00"; };
        std::string all =
            "[trip]\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-10:00\"\n[battery]\nchemistry = \"" +
            chemistry + "\"\ncapacity = \"" + number(capacity) + " Ah\"\n[charger]\noutput = \"" + number(output) +
            " A\"\n[[run]]\nto = \"charger\"\nlength = \"" + number(feed) + " m\"\n" +
            "[[run]]\nto = \"battery\"\nlength = \"0.8 m\"\n";
        if (block) all += "[[run]]\nto = \"block\"\nlength = \"" + number(trunk) + " m\"\n";
        const auto run_to = [&](const std::string& name, double metres, bool on_block) {
            all += "[[run]]\nto = \"" + name + "\"\nlength = \"" + number(metres) + " m\"\n";
            if (on_block && block) all += "from = \"block\"\n";
        };
        run_to("fridge", 2.0, true);
        for (const Load& load : loads) run_to(load.name, load.metres, load.on_block);
        all +=
            "[[fridge]]\ndraw = \"" + number(fridge) + " W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n";
        for (const Load& load : loads) {
            all += "[[load]]\nname = \"" + load.name + "\"\ndraw = \"" + number(load.watts) + " W\"\nhours = \"" +
                   hour(load.from) + "-" + hour(load.to) + "\"\n";
            if (load.start_amps > 0.0)
                all += "inrush = { current = \"" + number(load.start_amps) + " A\", time = \"0.3 s\" }\n";
        }
        return all + more;
    }

    std::string chemistry, more;
    double capacity, output, feed, trunk, fridge;
    bool block;
    std::vector<Load> loads;
};

constexpr int vehicles = 300;

std::vector<RunPlan> cables_of(const Vehicle& vehicle, Ladder ladder = Ladder::needed,
                               const PriceList* prices = nullptr) {
    static std::vector<System> kept;
    kept.clear();
    kept.push_back(system_of_text(vehicle.text()));
    if (!prices) return choose_cables(kept.back(), built_in_tables(), ladder);
    const Objective money = least_money(*prices);
    return choose_cables(kept.back(), built_in_tables(), ladder, &money);
}

const RunPlan* run_named(const std::vector<RunPlan>& runs, std::string_view name) {
    for (const RunPlan& run : runs)
        if (*run.task.run.name == name) return &run;
    return nullptr;
}

double copper_of(const std::vector<RunPlan>& runs, bool shared_alone) {
    double copper = 0.0;
    for (const RunPlan& run : runs)
        if (run.to_lay() && (!shared_alone || run.way))
            copper += in_square_millimetres(run.to_lay()->area) * in_metres(*run.task.run.length);
    return copper;
}

/// Every size that the built-in tables know by its AWG.
std::vector<Gauge> shop_sizes() {
    std::vector<Gauge> sizes;
    for (const ConductorRow& row : built_in_tables().conductors)
        if (row.gauge.system == GaugeSystem::awg) sizes.push_back(row.gauge);
    return sizes;
}

/// What a metre of each size costs in a shop, in ten-thousandths: by the name of the size.
using Shop = std::map<std::string, std::int64_t>;

/// A shop with any prices, where some sizes are not for sale.
Shop any_shop(int number, bool gaps) {
    std::mt19937 draw(static_cast<unsigned>(number) + 7001);
    Shop shop;
    for (const Gauge& size : shop_sizes()) {
        const auto price = static_cast<std::int64_t>(10'000 + draw() % 1'000'000);
        // Every seventh shop has next to nothing.
        if (!gaps || draw() % 5 > (number % 7 == 0 ? 3u : 0u)) shop[show(size)] = price;
    }
    return shop;
}

PriceList list_of(const Shop& shop) {
    PriceList list{.currency = "kr", .decimals = 4, .budget = {}, .prices = {}};
    for (const Gauge& size : shop_sizes()) {
        const auto price = shop.find(show(size));
        if (price == shop.end()) continue;
        Price row{};
        row.size = size;
        row.price = {price->second};
        list.prices.push_back(row);
    }
    return list;
}

/// Of the cable out and back, or nothing where it is not for sale: in ten-thousandths.
std::optional<double> cost_in(const Shop& shop, const RunPlan& run, const Candidate& candidate) {
    const auto price = shop.find(show(candidate.size));
    if (price == shop.end()) return {};
    return static_cast<double>(price->second) * 2.0 * in_metres(*run.task.run.length);
}

bool all_fit(const std::vector<RunPlan>& runs) {
    return std::all_of(runs.begin(), runs.end(), [](const RunPlan& run) { return run.to_lay() != nullptr; });
}

}  // namespace

TEST_CASE(
    "every fuse that is chosen protects the thinnest conductor and every part behind it, and clears a far short") {
    int fuses = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        for (const RunPlan& run : cables_of(Vehicle(number))) {
            if (!run.to_lay()) continue;
            const Candidate& taken = *run.to_lay();
            CAPTURE(*run.task.run.name);
            CHECK(taken.fits());
            CHECK(taken.fuses.size() == run.task.run.fused_at.size());
            for (const FuseFit& fuse : taken.fuses) {
                ++fuses;
                CHECK(fuse.rating <= taken.ampacity->current);
                CHECK(fuse.rating * 0.8 * fuse.window.rerating >= run.choice.design.current * (1.0 - 1e-9));
                for (const PartRating& part : taken.parts) CHECK(fuse.rating <= part.printed);
            }
            for (const Protection& one : taken.protection) {
                if (!one.known) continue;
                // IEC 60364-4-43: what the cable stands, not how long it takes.
                CHECK(one.withstands());
                if (one.lasting) CHECK(one.lasting->reaches <= one.lasting->limit);
                if (!one.lasting) {
                    REQUIRE(one.clears);
                    CHECK(*one.clears <= seconds(5));
                }
            }
            if (!run.way) continue;
            if (run.task.role != RunRole::trunk) CHECK(run.way->lost <= run.way->allowed + volts(1e-9));
            // The whole network, solved: never lower than the estimate that the sizes were chosen by.
            REQUIRE(run.way->far_end);
            CHECK(*run.task.supply.normal - *run.way->far_end <= run.way->lost + volts(1e-9));
        }
    }
    CHECK(fuses > 1000);
}

/// A vehicle with what was taken for each run written into it: the cable and the class as the page names them.
class Written {
public:
    explicit Written(std::string text) : text_(std::move(text)) {}

    void taken(const RunPlan& run, Gauge size, const std::vector<FuseFit>& fuses, Temperature insulation) {
        if (run.task.main_fuse) {  // a run of the plan's own: only its fuse can be written
            const std::string battery = "[" + run.task.from.name + "]\n";
            const std::size_t at = text_.find(battery);
            REQUIRE(at != std::string::npos);
            text_.insert(at + battery.size(), "main_fuse = \"" + show(fuses.front().rating) + " " +
                                                  fuses.front().family + "\"\nhave_main_fuse = true\n");
            return;
        }
        const std::string named = show_cable(size, insulation);
        const std::size_t comma = named.find(", ");
        REQUIRE(comma != std::string::npos);
        std::string keys =
            "size = \"" + named.substr(0, comma) + "\"\ninsulation = \"" + named.substr(comma + 2) + "\"\nfuse = {";
        for (const FuseFit& fuse : fuses)
            keys += " \"" + told_place(fuse.at) + "\" = \"" + show(fuse.rating) + " " + fuse.family + "\"";
        add(run, keys + " }\nhave = \"cable, fuse\"\n");
    }
    void add(const RunPlan& run, const std::string& keys) {
        if (run.task.main_fuse) return;
        const std::string head = "[[run]]\nto = \"" + run.task.to.name + "\"\n";
        const std::size_t at = text_.find(head);
        REQUIRE(at != std::string::npos);
        text_.insert(at + head.size(), keys);
    }
    [[nodiscard]] Plan plan() const { return make_plan(system_of_text(text_)); }

private:
    /// The fuse block of a main fuse is the plan's own: in the profile its branches begin at the battery.
    [[nodiscard]] static std::string told_place(const Place& place) {
        return place.name == "fuse block" ? "battery" : place.name == "starter fuse block" ? "starter" : place.name;
    }

    std::string text_;
};

std::size_t count_main(const Plan& plan) {
    return static_cast<std::size_t>(
        std::count_if(plan.runs.begin(), plan.runs.end(), [](const RunPlan& run) { return run.task.main_fuse; }));
}

/// What one plan says and the other does not, of the wiring.
std::vector<std::string> new_findings(const Plan& plan, const Plan& before) {
    std::vector<std::string> found;
    for (const Finding& one : plan.findings)
        if (std::none_of(before.findings.begin(), before.findings.end(), [&](const Finding& other) {
                return one.level == other.level && one.code == other.code && one.about == other.about;
            }))
            found.push_back(show(one.about) + ": " + std::string(show(one.code)));
    return found;
}

// 33 CFR 183.425, Table 5 and its note 1: 0.85 for 105 degC cable in engine spaces (read in three reprints).
TEST_CASE("no ampacity is above its table, and no fuse in an engine bay above 0.85 of it, however cold it is outside") {
    int in_engine_bays = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        std::string text = Vehicle(number).text();
        if (number % 2 == 0) {
            const std::string warm = "low = \"10 degC\"\nhigh = \"31 degC\"";
            REQUIRE(text.find(warm) != std::string::npos);
            text.replace(text.find(warm), warm.size(), "low = \"-20 degC\"\nhigh = \"-5 degC\"");
        }
        const System system = system_of_text(text);
        for (const RunPlan& run : choose_cables(system, built_in_tables(), Ladder::needed)) {
            const Candidate* taken = run.to_lay();
            if (!taken || !taken->ampacity) continue;
            CAPTURE(*run.task.run.name);
            const Current table = taken->ampacity->table.value;
            CHECK(taken->ampacity->current <= table);
            const auto& way = run.task.run.way;
            const bool engine_bay =
                std::any_of(way.begin(), way.end(), [](const WayPart& part) { return part.place == "engine bay"; });
            if (!engine_bay) continue;
            ++in_engine_bays;
            CHECK(taken->ampacity->current <= 0.85 * table);
            for (const FuseFit& fuse : taken->fuses) CHECK(fuse.rating <= 0.85 * table);
        }
    }
    CHECK(in_engine_bays > vehicles / 2);
}

TEST_CASE("what was chosen holds when it is judged as there already, in the class of insulation that the page names") {
    int cables = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle vehicle(number);
        const Plan plan = make_plan(system_of_text(vehicle.text()));
        Written written(vehicle.text());
        for (const RunPlan& run : plan.runs) {
            if (!run.taken()) continue;
            written.taken(run, run.taken()->size, run.taken()->fuses, run.task.run.insulation);
            ++cables;
        }
        const Plan judged = written.plan();
        CHECK(judged.holds() == plan.holds());
        for (const std::string& one : new_findings(judged, plan)) FAIL_CHECK(one);
        CHECK(parts_list(system_of_text(vehicle.text()), judged).owned.size() >=
              2 * judged.runs.size() - count_main(judged) - 2);
    }
    CHECK(cables > 1000);
}

TEST_CASE(
    "with cable of the other class the sizes and fuses that the plan names for it hold, and where it names none the "
    "same do") {
    int others = 0, alike = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle vehicle(number);
        const Plan plan = make_plan(system_of_text(vehicle.text()));
        if (!plan.other_class) {
            CHECK_FALSE(plan.holds());
            continue;
        }
        const OtherClass& other = *plan.other_class;
        CHECK(other.insulation == celsius(75));
        Written open(vehicle.text()), written(vehicle.text());
        for (const RunPlan& run : plan.runs) {
            open.add(run, "insulation = \"75 degC\"\n");
            const auto changed = std::find_if(other.runs.begin(), other.runs.end(),
                                              [&](const OtherCable& one) { return one.run == *run.task.run.name; });
            if (changed == other.runs.end() && run.taken())
                written.taken(run, run.taken()->size, run.taken()->fuses, other.insulation);
            else if (changed != other.runs.end() && changed->size)
                written.taken(run, *changed->size, changed->fuses, other.insulation);
            else
                written.add(run, "insulation = \"75 degC\"\n");
        }
        (other.runs.empty() ? alike : others) += 1;
        const Plan fresh = open.plan(), judged = written.plan();
        CHECK(judged.holds() == fresh.holds());
        for (const std::string& one : new_findings(judged, fresh)) FAIL_CHECK(one);
        if (other.runs.empty()) CHECK(judged.holds() == plan.holds());
        // Of cable of 75 degC nothing is left to be said.
        if (fresh.other_class)
            for (const OtherCable& one : fresh.other_class->runs) CHECK(one.run.find("main") != std::string::npos);
    }
    CHECK(others > 30);
    CHECK(alike > 15);
}

TEST_CASE("more load on a single run never thins its cable, and more load anywhere never lowers the copper of a tree") {
    int compared = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle before(number);
        if (before.loads.empty()) continue;
        const std::size_t which = static_cast<std::size_t>(number) % before.loads.size();
        Vehicle after = before;
        after.loads[which].watts *= 1.4;
        after.loads[which].start_amps *= 1.4;
        const auto then = cables_of(before);
        const auto now = cables_of(after);
        if (!all_fit(then) || !all_fit(now)) continue;
        ++compared;
        const std::string& name = before.loads[which].name;
        if (before.block && before.loads[which].on_block)
            CHECK(copper_of(now, true) >= copper_of(then, true) - 1e-9);
        else
            CHECK(run_named(now, name)->to_lay()->area >= run_named(then, name)->to_lay()->area);
    }
    CHECK(compared > 100);
}

TEST_CASE("one more branch never lowers the current of the trunk") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        Vehicle vehicle(number);
        vehicle.block = true;
        const auto then = cables_of(vehicle);
        Vehicle::Load more{"one more", 30.0, 1.5, true, (number * 7) % 24, 0};
        more.to = (more.from + 5) % 24;
        vehicle.loads.push_back(more);
        const auto now = cables_of(vehicle);
        CHECK(run_named(now, "block")->choice.design.current >=
              run_named(then, "block")->choice.design.current * (1.0 - 1e-12));
    }
}

TEST_CASE("a tree in which nothing fits changes no size in another") {
    int compared = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        Vehicle vehicle(number);
        vehicle.block = true;
        const auto then = cables_of(vehicle);
        vehicle.more =
            "[[run]]\nto = \"bad\"\nlength = \"1 m\"\n[[run]]\nfrom = \"bad\"\nto = \"hopeless\"\nlength = \"2 m\"\n"
            "[[load]]\nname = \"hopeless\"\ndraw = \"9000 W\"\nhours = \"00:00-01:00\"\n";
        const auto now = cables_of(vehicle);
        REQUIRE_FALSE(run_named(now, "hopeless")->to_lay());
        for (const RunPlan& run : then) {
            const RunPlan* same = run_named(now, *run.task.run.name);
            if (!run.to_lay()) continue;
            CAPTURE(*run.task.run.name);
            REQUIRE(same->to_lay());
            CHECK(same->to_lay()->size == run.to_lay()->size);
            ++compared;
        }
    }
    CHECK(compared > 1000);
}

TEST_CASE("a branch that nothing fits takes no other branch beyond its limit") {
    int compared = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        Vehicle vehicle(number);
        vehicle.block = true;
        const std::string heater =
            "[[load]]\nname = \"heater\"\ndraw = \"700 W\"\nhours = \"00:00-23:00\"\n"
            "[[run]]\nfrom = \"block\"\nto = \"heater\"\nlength = \"1 m\"\n";
        vehicle.more = heater;
        const auto sound = cables_of(vehicle);
        vehicle.more = heater + "joints = [\"lug\", \"two-pole plug 50 A\", \"lug\"]\n";
        const auto melting = cables_of(vehicle);
        const bool kept = std::all_of(sound.begin(), sound.end(), [](const RunPlan& run) {
            return run.to_lay() && (!run.way || run.task.role == RunRole::trunk || run.way->lost <= run.way->allowed);
        });
        if (!kept || run_named(melting, "heater")->to_lay()) continue;
        for (const RunPlan& run : melting) {
            if (!run.way || !run.to_lay() || run.task.role == RunRole::trunk) continue;
            CAPTURE(*run.task.run.name);
            CHECK(run.way->lost <= run.way->allowed + volts(1e-9));
            ++compared;
        }
    }
    CHECK(compared > 100);
}

/// A block with the fridge and at most two loads on it, nothing else: small enough to try everything.
Vehicle small_tree(int number) {
    Vehicle vehicle(number);
    vehicle.block = true;
    if (vehicle.loads.size() > 2) vehicle.loads.resize(2);
    for (auto& load : vehicle.loads) load.on_block = true;
    return vehicle;
}

/// What a small tree costs as it was chosen, and the least that it could: each size of the trunk, and behind it for each
/// branch the cheapest that keeps its limit, which is all there is to try. `cost` is empty for what cannot be had.
struct Tried {
    double chosen, least;
};
template <class Cost>
Tried try_all(const std::vector<RunPlan>& runs, const Vehicle& vehicle, const Cost& cost) {
    constexpr double none = 1e15;
    const RunPlan& trunk = *run_named(runs, "block");
    std::vector<const RunPlan*> branches = {run_named(runs, "fridge")};
    for (const auto& load : vehicle.loads) branches.push_back(run_named(runs, load.name));
    const auto loop = [](const Candidate& candidate) { return candidate.drop->resistance.loop; };
    const Current through_trunk = trunk.way->lost / loop(*trunk.to_lay());
    Tried tried{*cost(trunk, *trunk.to_lay()), none};
    for (const RunPlan* branch : branches) tried.chosen += *cost(*branch, *branch->to_lay());
    for (const Candidate& before : trunk.choice.ladder) {
        const std::optional<double> first = cost(trunk, before);
        if (!before.fits() || !first) continue;
        double all = *first;
        for (const RunPlan* branch : branches) {
            const Current through = (branch->way->lost - trunk.way->lost) / loop(*branch->to_lay());
            double cheapest = none;
            for (const Candidate& one : branch->choice.ladder) {
                const std::optional<double> own = cost(*branch, one);
                if (!one.fits() || !own) continue;
                const Voltage lost = through_trunk * loop(before) + through * loop(one);
                if (lost <= branch->way->allowed + volts(1e-9)) cheapest = std::min(cheapest, *own);
            }
            all += cheapest;
        }
        tried.least = std::min(tried.least, all);
    }
    return tried;
}

TEST_CASE("no choice with less copper keeps every limit, by trying all sizes of small trees") {
    int tried = 0;
    for (int number = 0; number < vehicles && tried < 60; ++number) {
        CAPTURE(number);
        const Vehicle vehicle = small_tree(number);
        const auto runs = cables_of(vehicle);
        if (!all_fit(runs)) continue;
        ++tried;
        const Tried copper = try_all(runs, vehicle, [](const RunPlan& run, const Candidate& candidate) {
            return std::optional(in_square_millimetres(candidate.area) * in_metres(*run.task.run.length));
        });
        CHECK(copper.chosen == near(copper.least, 1e-9));
    }
    CHECK(tried > 20);
}

TEST_CASE("with prices no run alone has a size that passes and costs less, and the thicker is taken for equal money") {
    int cheaper_than_copper = 0, none_for_sale = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle vehicle(number);
        const Shop shop = any_shop(number, true);
        const PriceList list = list_of(shop);
        for (const RunPlan& run : cables_of(vehicle, Ladder::needed, &list)) {
            if (run.way || !run.to_lay()) continue;
            CAPTURE(*run.task.run.name);
            REQUIRE_FALSE(run.task.run.body);
            CHECK(run.to_lay()->fits());
            const auto chosen = cost_in(shop, run, *run.to_lay());
            if (!chosen) {
                // Then none that passes has a price, and the thinnest of them is taken.
                ++none_for_sale;
                for (const Candidate& one : run.choice.ladder) CHECK_FALSE((one.fits() && cost_in(shop, run, one)));
                CHECK(run.to_lay() == run.choice.least_that_fits());
                continue;
            }
            for (const Candidate& one : run.choice.ladder) {
                const auto cost = cost_in(shop, run, one);
                if (!one.fits() || !cost) continue;
                CHECK(*chosen <= *cost + 2.0);  // each way rounded to a ten-thousandth
                if (*cost == *chosen) CHECK(one.area <= run.to_lay()->area);
            }
            if (run.to_lay() != run.choice.least_that_fits()) {
                ++cheaper_than_copper;
                CHECK(run.choice.decided_by == Criterion::price);
            }
        }
    }
    CHECK(cheaper_than_copper > 300);
    CHECK(none_for_sale > 0);
}

TEST_CASE("with prices no choice that keeps every limit costs less, by trying all sizes of small trees") {
    int tried = 0;
    for (int number = 0; number < vehicles && tried < 60; ++number) {
        CAPTURE(number);
        const Vehicle vehicle = small_tree(number);
        const Shop shop = any_shop(number, number % 2 == 0);
        const PriceList list = list_of(shop);
        const auto runs = cables_of(vehicle, Ladder::needed, &list);
        if (!all_fit(runs) || !run_named(runs, "block")->for_money) continue;
        ++tried;
        const Tried money = try_all(runs, vehicle, [&](const RunPlan& run, const Candidate& candidate) {
            return cost_in(shop, run, candidate);
        });
        CHECK(money.chosen == near(money.least, 8.0));
    }
    CHECK(tried > 20);
}

TEST_CASE("with prices for lugs no run alone has a size that passes and costs less with its lugs") {
    int compared = 0, for_its_lugs = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle vehicle(number);
        const Shop shop = any_shop(number, true), lugs = any_shop(number + 900, true);
        PriceList list = list_of(shop);
        for (Price row : list_of(lugs).prices) {
            row.kind = PartKind::lug;
            list.prices.push_back(row);
        }
        const auto all_in = [&](const RunPlan& run, const Candidate& candidate) -> std::optional<double> {
            const auto cable = cost_in(shop, run, candidate);
            const auto lug = lugs.find(show(candidate.size));
            if (!cable || lug == lugs.end()) return cable;
            // Two at each end, and two more on the studs of a bolted fuse.
            double count = 4.0;
            for (const FuseFit& fuse : candidate.fuses) count += fuse.form == FuseForm::bolted ? 2.0 : 0.0;
            return *cable + count * static_cast<double>(lug->second);
        };
        for (const RunPlan& run : cables_of(vehicle, Ladder::needed, &list)) {
            if (run.way || !run.to_lay() || run.task.run.joints) continue;
            CAPTURE(*run.task.run.name);
            const auto chosen = all_in(run, *run.to_lay());
            if (!chosen) continue;
            ++compared;
            bool bare_is_less = false;
            for (const Candidate& one : run.choice.ladder) {
                const auto cost = all_in(run, one);
                if (!one.fits() || !cost) continue;
                CHECK(*chosen <= *cost + 2.0);
                bare_is_less = bare_is_less || *cost_in(shop, run, one) < *cost_in(shop, run, *run.to_lay()) - 2.0;
            }
            if (bare_is_less) ++for_its_lugs;
        }
    }
    CHECK(compared > 300);
    CHECK(for_its_lugs > 30);
}

TEST_CASE("where a metre costs in proportion to its copper, the least money is the least copper") {
    int compared = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle vehicle(number);
        const auto by_copper = cables_of(vehicle);
        Shop shop;
        for (const Gauge& size : shop_sizes())
            shop[show(size)] = std::llround(1e8 * in_square_millimetres(conductor_of(built_in_tables(), size)->area));
        const PriceList list = list_of(shop);
        const auto by_money = cables_of(vehicle, Ladder::needed, &list);
        REQUIRE(by_money.size() == by_copper.size());
        for (std::size_t i = 0; i < by_money.size(); ++i) {
            REQUIRE((by_money[i].to_lay() == nullptr) == (by_copper[i].to_lay() == nullptr));
            if (!by_money[i].to_lay()) continue;
            ++compared;
            CHECK(by_money[i].to_lay()->size == by_copper[i].to_lay()->size);
        }
    }
    CHECK(compared > 1000);
}

TEST_CASE("one price that rises never lowers what all cables cost together") {
    int dearer = 0;
    const auto sizes = shop_sizes();
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle vehicle(number);
        Shop shop = any_shop(number, false);
        const auto total = [&] {
            const PriceList list = list_of(shop);
            double sum = 0.0;
            for (const RunPlan& run : cables_of(vehicle, Ladder::needed, &list))
                if (run.to_lay()) sum += *cost_in(shop, run, *run.to_lay());
            return sum;
        };
        const double before = total();
        shop[show(sizes[static_cast<std::size_t>(number) % sizes.size()])] *= 3;
        const double after = total();
        CHECK(after >= before - 20.0);
        if (after > before + 20.0) ++dearer;
    }
    CHECK(dearer > 20);
}
