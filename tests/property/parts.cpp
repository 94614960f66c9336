// Laws of the parts list, over several hundred vehicles and price lists drawn at random.

#include "dice.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/messages/parts.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/sizing/fitting.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

using namespace voltwright;
using testing::Dice;

namespace {

constexpr int vehicles = 250;

/// A vehicle with all that changes a list: body returns, owned things, plugs, banks, studs, wake wires, metric sizes.
std::string vehicle(int number) {
    Dice dice(static_cast<unsigned>(number) + 977);
    const auto metres_text = [&](int from, int to) {
        const int tenths = dice.whole(from, to);
        return "\"" + std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " m\"\n";
    };
    const std::vector<std::string> feeds = {
        "",
        "return = \"body\"\n",
        "return = \"6 mOhm\"\n",
        "size = \"4 AWG\"\nhave = \"cable\"\n",
        "size = \"4 AWG\"\n",
        "joints = [\"battery clamp\", \"lug\", \"lug\", \"lug\", \"two-pole plug 120 A\"]\n",
        "fuse = \"60 A SF30\"\nhave = \"fuse\"\n",
        "fuse = \"60 A SF30\"\n",
        "return_size = \"1/0 AWG\"\n"};
    const std::vector<std::string> studs = {"", "", "stud = \"M6\"\n", "stud = \"M8\"\n", "stud = \"3/8 in\"\n"};
    std::string text = "[trip]\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-10:00\"\n[starter]\n" +
                       dice.one_of(studs) + (dice.whole(0, 3) == 0 ? "alternator = \"smart\"\n" : "") +
                       "[battery]\nchemistry = \"agm\"\ncapacity = \"" + std::to_string(dice.whole(60, 240)) +
                       " Ah\"\ncount = " + std::to_string(dice.whole(0, 2) == 0 ? dice.whole(2, 3) : 1) + "\n" +
                       dice.one_of(studs) + "[charger]\noutput = \"" + std::to_string(dice.whole(10, 40)) + " A\"\n" +
                       dice.one_of(studs);
    if (dice.whole(0, 2) == 0) text += "[rules]\nsizes = \"metric\"\n";
    text += "[[run]]\nto = \"charger\"\nlength = " + metres_text(15, 80) + dice.one_of(feeds);
    if (dice.whole(0, 3) > 0) text += "[[run]]\nto = \"battery\"\nlength = " + metres_text(4, 15);
    const bool block = dice.whole(0, 1) == 0;
    if (block) text += "[[run]]\nto = \"block\"\nlength = " + metres_text(5, 40);
    std::string loads;
    for (int i = dice.whole(0, 4); i > 0; --i) {
        const std::string name = "load " + std::to_string(i);
        text += "[[run]]\nto = \"" + name + "\"\nlength = " + metres_text(5, 60);
        if (block && dice.whole(0, 1) == 0) text += "from = \"block\"\n";
        loads += "[[load]]\nname = \"" + name + "\"\ndraw = \"" + std::to_string(dice.whole(3, 90)) + " W\"\n";
    }
    if (block) {
        text += "[[run]]\nfrom = \"block\"\nto = \"lamp\"\nlength = \"2 m\"\n";
        loads += "[[load]]\nname = \"lamp\"\ndraw = \"5 W\"\n";
    }
    return text + "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n" + loads;
}

PriceList price_list(int number) {
    Dice dice(static_cast<unsigned>(number) + 5977);
    PriceList list{.currency = "kr", .decimals = dice.whole(0, 4), .budget = {}, .prices = {}};
    for (std::size_t kind = 0; kind < part_kinds().size(); ++kind) {
        if (dice.whole(0, 5) == 0) continue;
        Price row{};
        row.kind = static_cast<PartKind>(kind);
        row.price = {dice.whole(1, 5'000'000)};
        if (dice.whole(0, 2) == 0) row.pack = dice.whole(1, 12);
        if (dice.whole(0, 2) == 0) row.roll = metres(dice.whole(1, 100) / 10.0);
        list.prices.push_back(row);
    }
    return list;
}

struct Drawn {
    explicit Drawn(int number) : system(testing::system_of_text(vehicle(number))), plan(make_plan(system)) {}
    System system;
    Plan plan;
};

Length length_of(const PartsList& list, PartKind kind) {
    Length sum{};
    for (const Part& part : list.parts)
        if (part.kind == kind) sum += *part.length;
    return sum;
}

}  // namespace

TEST_CASE("no cable is too short: of each size and colour at least what its runs are long, and never much more") {
    int compared = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Drawn drawn(number);
        std::map<std::pair<std::string, std::string>, Length> laid;
        for (const RunPlan& run : drawn.plan.runs) {
            if (!run.to_lay() || run.task.run.have_cable) continue;
            const std::string out = show(run.to_lay()->size);
            laid[{out, "red"}] += *run.task.run.length;
            const auto& back = run.task.run.return_size;
            if (!run.task.run.body) laid[{back ? show(*back) : out, "black"}] += *run.task.run.length;
        }
        const PartsList list = parts_list(drawn.system, drawn.plan);
        for (const auto& [kind_of_cable, length] : laid) {
            const auto& line = kind_of_cable;  // a lambda catches no structured binding in clang++ 14
            CAPTURE(line.first);
            CAPTURE(line.second);
            const auto part = std::find_if(list.parts.begin(), list.parts.end(), [&](const Part& one) {
                return one.kind == PartKind::cable && show(*one.size) == line.first && one.colour == line.second;
            });
            REQUIRE(part != list.parts.end());
            ++compared;
            CHECK(*part->length >= 1.1 * length - millimetres(0.01));
            const bool alone = std::none_of(part->runs.begin(), part->runs.end(), [](const std::string& run) {
                return run == "battery bank" || run == "wake wire";
            });
            // A body's tail is half a metre.
            if (alone)
                CHECK(*part->length <=
                      1.1 * (length + metres(0.5) * static_cast<double>(part->runs.size())) + metres(0.1));
        }
    }
    CHECK(compared > 1000);
}

TEST_CASE("every fuse of the plan is on the list with its family and rating, unless it is there already") {
    int fuses = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Drawn drawn(number);
        const PartsList list = parts_list(drawn.system, drawn.plan);
        std::map<std::pair<std::string, double>, int> due;
        for (const RunPlan& run : drawn.plan.runs) {
            if (!run.to_lay()) continue;
            for (const FuseFit& fuse : run.to_lay()->fuses)
                if (!fuse.have) ++due[{fuse.family, in_amperes(fuse.rating)}];
        }
        for (const auto& [kind_of_fuse, count] : due) {
            const auto& fuse = kind_of_fuse;
            const auto part = std::find_if(list.parts.begin(), list.parts.end(), [&](const Part& one) {
                return one.kind == PartKind::fuse && one.family == fuse.first && in_amperes(*one.rating) == fuse.second;
            });
            REQUIRE(part != list.parts.end());
            CHECK(part->count - part->spare >= count);
            CHECK(part->spare >= 1);
            fuses += count;
        }
    }
    CHECK(fuses > 1000);
}

TEST_CASE("every lug that the list names is kept with a hole for its stud") {
    int lugs = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Drawn drawn(number);
        for (const Part& part : parts_list(drawn.system, drawn.plan).parts) {
            if (part.kind != PartKind::lug || !part.stud) continue;
            const bool owned = std::any_of(drawn.plan.runs.begin(), drawn.plan.runs.end(),
                                           [](const RunPlan& run) { return run.choice.given; });
            if (owned) continue;  // told as a finding
            ++lugs;
            CHECK(lug_takes(conductor_of(built_in_tables(), *part.size)->area, *part.stud, built_in_tables()));
        }
    }
    CHECK(lugs > 300);
}

TEST_CASE("the total is the exact sum of the lines, and no line costs less than its share of the price") {
    int lines = 0, whole = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Drawn drawn(number);
        const PriceList prices = price_list(number);
        const PartsList list = parts_list(drawn.system, drawn.plan, &prices);
        REQUIRE(list.total);
        std::int64_t sum = 0, unpriced = 0;
        for (const Part& part : list.parts) {
            if (!part.cost) {
                ++unpriced;
                continue;
            }
            ++lines;
            sum += part.cost->ten_thousandths;
            // Half of the currency's last digit either way, and no more.
            const double exact = static_cast<double>(part.price->ten_thousandths) *
                                 (part.length ? in_metres(*part.length) : static_cast<double>(part.count));
            double half = 5000.0;
            for (int digit = 0; digit < prices.decimals; ++digit) half /= 10.0;
            if (part.pack || part.roll) {
                // So many whole packs or rolls: enough, and one less would not be.
                const auto price = static_cast<double>(part.price->ten_thousandths);
                if (price < 4.0 * half) continue;
                const double packs = std::round(static_cast<double>(part.cost->ten_thousandths) / price);
                CHECK(std::abs(static_cast<double>(part.cost->ten_thousandths) - packs * price) <= half + 0.01);
                const Price& row = *std::find_if(prices.prices.begin(), prices.prices.end(),
                                                 [&](const Price& one) { return one.kind == part.kind; });
                const double much = part.length ? in_metres(*part.length) : static_cast<double>(part.count);
                const double pack = part.length ? in_metres(*row.roll) : static_cast<double>(*row.pack);
                CHECK(packs * pack >= much - 1e-6);
                CHECK((packs - 1.0) * pack < much - 1e-6);
                ++whole;
                continue;
            }
            CHECK(static_cast<double>(part.cost->ten_thousandths) >= exact - half - 0.01);
            CHECK(static_cast<double>(part.cost->ten_thousandths) <= exact + half + 0.01);
        }
        CHECK(sum == list.total->ten_thousandths);
        CHECK(unpriced == static_cast<std::int64_t>(list.unpriced.size()));
    }
    CHECK(lines > 2000);
    CHECK(whole > 200);
}

TEST_CASE("more allowance never buys less, and prices change nothing of what is bought") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Drawn drawn(number);
        const PriceList prices = price_list(number);
        Length last{};
        for (const double share : {0.0, 5.0, 10.0, 30.0, 100.0}) {
            const PartsList list = parts_list(drawn.system, drawn.plan, nullptr, percent(share));
            const Length length = length_of(list, PartKind::cable);
            CHECK(length >= last);
            last = length;
            const PartsList priced = parts_list(drawn.system, drawn.plan, &prices, percent(share));
            REQUIRE(priced.parts.size() == list.parts.size());
            for (std::size_t i = 0; i < list.parts.size(); ++i) {
                CHECK(in_words(priced.parts[i]) == in_words(list.parts[i]));
                CHECK(priced.parts[i].count == list.parts[i].count);
                CHECK(priced.parts[i].length == list.parts[i].length);
            }
        }
    }
}
