#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/messages/findings.hpp"
#include "voltwright/messages/parts.hpp"
#include "voltwright/report/parts_text.hpp"
#include "voltwright/shopping/cable_cost.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What is counted for a vehicle, and what becomes of the list when one thing in it changes.

namespace voltwright {

using namespace literals;

namespace {

struct Vehicle {
    std::string trip = "low = \"14 degC\"\nhigh = \"31 degC\"\ndrives = \"08:30-10:00\"\n";
    std::string starter = {}, battery = {}, charger = {}, feed = {}, more = {};

    [[nodiscard]] std::string text() const {
        return "[trip]\n" + trip + "[starter]\n" + starter + "[battery]\nchemistry = \"agm\"\ncapacity = \"120 Ah\"\nmain_fuse = \"none\"\n" +
               battery + "[charger]\noutput = \"25 A\"\n" + charger + "[[run]]\nto = \"charger\"\nlength = \"6 m\"\n" +
               feed + "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n[[run]]\nto = \"fridge\"\nlength = \"3 m\"\n" +
               "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n" + more;
    }
};

struct Listed {
    Plan plan;
    PartsList list;
};

Listed listed(const Vehicle& vehicle, const PriceList* prices = nullptr, Ratio allowance = percent(10)) {
    const System system = testing::system_of_text(vehicle.text());
    Listed both{make_plan(system), {}};
    both.list = parts_list(system, both.plan, prices, allowance);
    return both;
}

std::vector<Part> of(const PartsList& list, PartKind kind, std::string_view run = {}) {
    std::vector<Part> found;
    for (const Part& part : list.parts) {
        const bool for_run = run.empty() || std::find(part.runs.begin(), part.runs.end(), run) != part.runs.end();
        if (part.kind == kind && for_run) found.push_back(part);
    }
    return found;
}

Length cable_of(const PartsList& list, std::string_view colour, std::string_view run) {
    Length sum{};
    for (const Part& part : of(list, PartKind::cable, run))
        if (part.colour == colour) sum += *part.length;
    return sum;
}

int count_of(const std::vector<Part>& parts) {
    int sum = 0;
    for (const Part& part : parts) sum += part.count;
    return sum;
}

bool says(const std::vector<std::string>& lines, std::string_view words) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const std::string& line) { return line.find(words) != std::string::npos; });
}

bool says(const std::vector<PartsNote>& notes, std::string_view words) { return says(in_words(notes), words); }

Price price(PartKind kind, std::int64_t ten_thousandths) {
    Price row{};
    row.kind = kind;
    row.price = {ten_thousandths};
    return row;
}

}  // namespace

TEST_CASE("cable is bought out and back, a tenth longer, up to the next 0.1 m") {
    const auto [plan, list] = listed({});
    // 6 m to the charger and 1 m from it, both of 6 AWG.
    CHECK(cable_of(list, "red", "feed") == near(7.7_m, 1e-9_m));
    CHECK(cable_of(list, "black", "feed") == near(7.7_m, 1e-9_m));
    CHECK(cable_of(list, "red", "fridge") == near(3.3_m, 1e-9_m));
    CHECK(cable_of(listed({}, nullptr, percent(0)).list, "red", "feed") == near(7_m, 1e-9_m));
    CHECK(cable_of(listed({}, nullptr, percent(15)).list, "red", "fridge") == near(3.5_m, 1e-9_m));
    for (const Part& part : of(list, PartKind::cable)) {
        REQUIRE(part.mass);
        CHECK(*part.mass > Mass{});
    }
}

TEST_CASE("with the body as return there is no black cable but for the tail to the earth point") {
    const auto [plan, list] = listed({.feed = "return = \"4 mOhm\"\n"});
    CHECK(cable_of(list, "red", "feed") == near(6.6_m, 1e-9_m));
    CHECK(cable_of(list, "black", "feed") == near(0.6_m, 1e-9_m));  // 0.5 m and a tenth
    int earth = 0;
    for (const Part& part : of(list, PartKind::lug, "feed"))
        earth += part.what == "ring lug for an earth point" ? part.count : 0;
    CHECK(earth == 1);
}

TEST_CASE("a cable and a fuse that are there already are not bought, and the list says so") {
    const auto [plan, list] = listed({.feed = "size = \"4 AWG\"\nfuse = \"60 A SF30\"\nhave = \"cable, fuse\"\n"});
    CHECK(of(list, PartKind::cable, "feed").empty());
    CHECK(of(list, PartKind::fuse, "feed").empty());
    CHECK(of(list, PartKind::fuse_holder, "feed").empty());
    CHECK(says(list.owned, "feed: its cable, 4 AWG, 105 degC"));
    CHECK(says(list.owned, "feed: its 60 A SF30 fuse at the starter battery"));
    CHECK_FALSE(of(list, PartKind::lug, "feed").empty());
}

TEST_CASE("every fuse has a holder and as many spares, two of a kind at most") {
    const auto [plan, list] = listed({});
    for (const Part& part : of(list, PartKind::fuse)) {
        const int fitted = part.count - part.spare;
        CHECK(fitted >= 1);
        CHECK(part.spare == std::min(fitted, 2));
    }
    int fitted = 0;
    for (const Part& part : of(list, PartKind::fuse)) fitted += part.count - part.spare;
    CHECK(fitted == count_of(of(list, PartKind::fuse_holder)));
}

TEST_CASE("a bank of two has a fuse on each battery and a link of each colour; of one it has none") {
    CHECK(of(listed({}).list, PartKind::fuse, "battery bank").empty());
    const auto [plan, list] = listed({.battery = "count = 2\n"});
    const auto holders = [](const PartsList& of_list) { return count_of(of(of_list, PartKind::fuse_holder)); };
    CHECK_FALSE(of(list, PartKind::fuse, "battery bank").empty());
    CHECK(holders(list) == holders(listed({}).list) + 2);
    CHECK(of(list, PartKind::cable, "battery bank").size() == 2);
    CHECK(holders(listed({.battery = "count = 4\n"}).list) == holders(listed({}).list) + 4);
}

TEST_CASE("a charger that the ignition wakes has a wire with a small fuse of its own") {
    CHECK(of(listed({}).list, PartKind::cable, "wake wire").empty());
    const auto [plan, list] = listed({.charger = "wake = \"ignition\"\n"});
    CHECK(of(list, PartKind::cable, "wake wire").size() == 1);
    const auto fuses = of(list, PartKind::fuse, "wake wire");
    REQUIRE(fuses.size() == 1);
    CHECK(*fuses.front().rating <= 5_A);
}

TEST_CASE("a lug is for the stud that the profile names; where it names none the list asks to look") {
    CHECK(says(listed({}).list.to_look, "studs of the starter battery"));
    const auto [plan, list] =
        listed({.starter = "stud = \"M8\"\n", .battery = "stud = \"5/16 in\"\n", .charger = "stud = \"6 mm\"\n"});
    CHECK_FALSE(says(list.to_look, "studs of"));
    std::vector<std::optional<Length>> studs;
    for (const Part& part : of(list, PartKind::lug, "feed")) studs.push_back(part.stud);
    CHECK(std::find(studs.begin(), studs.end(), 8_mm) != studs.end());
    CHECK(std::find(studs.begin(), studs.end(), 6_mm) != studs.end());
}

TEST_CASE("a size for whose lugs the stud is too small is passed over, and an owned one is a stop") {
    // By the lug table, 6 AWG has no hole for M5 and 8 AWG has; M16 wants 50 mm2.
    const auto plan_with = [](const std::string& stud, const std::string& feed) {
        return make_plan(testing::system_of_text(Vehicle{.charger = "stud = \"" + stud + "\"\n", .feed = feed}.text()));
    };
    const auto feed_of = [](const Plan& plan) -> const RunPlan& { return plan.runs.front(); };
    const Plan thick = plan_with("M16", "");
    REQUIRE(feed_of(thick).taken());
    CHECK(feed_of(thick).taken()->area >= 50_mm2);
    CHECK(feed_of(thick).choice.decided_by == Criterion::lug);
    const Plan owned = plan_with("M5", "size = \"6 AWG\"\n");
    const auto finding = std::find_if(owned.findings.begin(), owned.findings.end(),
                                      [](const Finding& one) { return show(one.code) == "lug-stud"; });
    REQUIRE(finding != owned.findings.end());
    CHECK(finding->level == Level::stop);
    CHECK(remedy_in_words(*finding).find("M6") != std::string::npos);
    // A run that ends in something else than lugs asks for none.
    const Plan clamped = plan_with("M5", "size = \"6 AWG\"\njoints = [\"battery clamp\", \"battery clamp\"]\n");
    CHECK(std::none_of(clamped.findings.begin(), clamped.findings.end(),
                       [](const Finding& one) { return show(one.code) == "lug-stud" && show(one.about) == "feed"; }));
}

TEST_CASE("a list for a plan that does not hold says so first") {
    CHECK_FALSE(says(listed({}).list.to_look, "it does not hold"));
    const auto [plan, list] = listed({.feed = "size = \"14 AWG\"\n"});
    REQUIRE_FALSE(plan.holds());
    CHECK(list.to_look.front().code == PartsNoteCode::plan_does_not_hold);
}

TEST_CASE("a plug is two halves, and a clamp takes the place of a lug") {
    const auto [plan, list] =
        listed({.feed = "joints = [\"battery clamp\", \"lug\", \"lug\", \"lug\", \"two-pole plug 50 A\"]\n"});
    CHECK(count_of(of(list, PartKind::plug, "feed")) == 2);
    CHECK(count_of(of(list, PartKind::battery_clamp, "feed")) == 1);
    int lugs = 0;
    for (const Part& part : of(list, PartKind::lug, "feed")) lugs += part.what == "ring lug" ? part.count : 0;
    int usual = 0;
    for (const Part& part : of(listed({}).list, PartKind::lug, "feed"))
        usual += part.what == "ring lug" ? part.count : 0;
    CHECK(lugs == usual - 1);
}

TEST_CASE("runs that the profile forgot are counted, and named as assumed") {
    const System system = testing::system_of_text(
        "[trip]\nlow = \"14 degC\"\nhigh = \"31 degC\"\n[battery]\nchemistry = \"agm\"\ncapacity = \"120 "
        "Ah\"\n[charger]\n"
        "output = \"25 A\"\n[[run]]\nto = \"charger\"\nlength = \"6 m\"\n[[fridge]]\ndraw = \"45 W\"\n"
        "rated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n");
    const PartsList list = parts_list(system, make_plan(system));
    CHECK(list.assumed.size() == 2);
    CHECK(cable_of(list, "red", "fridge") == near(4.8_m, 1e-9_m));  // 4 m, and 0.3 m from its main fuse to the fuse block
}

TEST_CASE("the row that says most of a part has its price, whole packs and rolls are bought, and gaps are named") {
    PriceList prices{.currency = "kr", .decimals = 2, .budget = Money{1'000'000}, .prices = {}};
    prices.prices.push_back(price(PartKind::cable, 100'000));
    prices.prices.push_back(price(PartKind::cable, 205'000));
    prices.prices.back().colour = "black";
    prices.prices.push_back(price(PartKind::label, 50'000));
    prices.prices.back().pack = 5;
    prices.prices.push_back(price(PartKind::conduit, 300'000));
    prices.prices.back().roll = 5_m;
    const auto [plan, list] = listed({}, &prices);
    for (const Part& part : of(list, PartKind::cable))
        CHECK(part.price->ten_thousandths == (part.colour == "black" ? 205'000 : 100'000));
    const Part label = of(list, PartKind::label).front();
    CHECK(label.count == 12);  // two ends of three runs, out and back
    CHECK(label.cost->ten_thousandths == 3 * 50'000);
    CHECK(label.pack == 5);
    CHECK(sold_in_words(label) == "pack of 5");
    // 7.7 m of the wide tube are two rolls of 5 m, 3.3 m of the narrow one are one.
    const std::vector<Part> tubes = of(list, PartKind::conduit);
    REQUIRE(tubes.size() == 2);
    CHECK(tubes[0].length == near(7.7_m, 1e-9_m));
    CHECK(tubes[0].cost == Money{600'000});
    CHECK(tubes[1].length == near(3.3_m, 1e-9_m));
    CHECK(tubes[1].cost == Money{300'000});
    CHECK(says(unpriced_in_words(list), "SF30 fuse"));
    CHECK_FALSE(says(unpriced_in_words(list), "cable label"));
    CHECK(list.within_budget() == false);
    CHECK(parts_line(list).find("ABOVE THE BUDGET ALREADY, WHICH IS 100.00 kr") != std::string::npos);
}

TEST_CASE("a budget is not kept before everything has a price, and may be passed long before") {
    PriceList prices{.currency = "kr", .decimals = 2, .budget = Money{10'000'000}, .prices = {}};
    prices.prices.push_back(price(PartKind::label, 50'000));
    // Twelve labels at 5.00 are 60.00, of 1000.00; the cable has no price.
    const PartsList open = listed({}, &prices).list;
    CHECK(open.total == Money{600'000});
    CHECK_FALSE(open.within_budget().has_value());
    CHECK(parts_line(open).find("60.00 kr so far; ") != std::string::npos);
    CHECK(parts_line(open).find("among them the cable: the budget of 1000.00 kr cannot be judged") !=
          std::string::npos);
    CHECK(parts_line(open).find("WITHIN") == std::string::npos);
    CHECK(parts_json(open).find("\"within_budget\": null") != std::string::npos);
    // The same with 50.00 to spend is over already, whatever the rest costs.
    prices.budget = Money{500'000};
    CHECK(listed({}, &prices).list.within_budget() == false);
    // With a price for everything it is kept.
    prices.budget = Money{10'000'000'000};
    for (std::size_t kind = 0; kind < part_kinds().size(); ++kind)
        if (static_cast<PartKind>(kind) != PartKind::label)
            prices.prices.push_back(price(static_cast<PartKind>(kind), 10'000));
    CHECK(listed({}, &prices).list.within_budget() == true);
}

TEST_CASE("rolls and packs are bought whole, and what they cost is rounded to the currency") {
    Price roll = price(PartKind::cable, 420'505);
    roll.roll = 5_m;
    Part cable{.kind = PartKind::cable, .what = "cable", .length = 7.7_m, .runs = {}};
    // 42.0505 a roll: two are 84.101.
    CHECK(cost_of(roll, cable, 2) == Money{841'000});
    CHECK(cost_of(roll, cable, 0) == Money{840'000});
    cable.length = 5.0_m;
    CHECK(cost_of(roll, cable, 4) == Money{420'505});
    cable.length = 5.1_m;
    CHECK(cost_of(roll, cable, 4) == Money{841'010});
    // A roll of 25 ft is 7.62 m.
    roll.roll = inches(300);
    cable.length = 7.6_m;
    CHECK(cost_of(roll, cable, 4) == Money{420'505});
    cable.length = 7.7_m;
    CHECK(cost_of(roll, cable, 4) == Money{841'010});
    Price pack = price(PartKind::lug, 10'050);
    pack.pack = 5;
    // 1.005 a pack of five: six lugs are two packs, 2.01.
    CHECK(cost_of(pack, Part{.kind = PartKind::lug, .what = "ring lug", .count = 6, .runs = {}}, 2) == Money{20'100});
    CHECK(cost_of(pack, Part{.kind = PartKind::lug, .what = "ring lug", .count = 6, .runs = {}}, 1) == Money{20'000});
}

namespace {

/// Two loads and the fridge behind a place of any name.
Vehicle with_block(const std::string& more = {}) {
    return {.more =
                "[[run]]\nto = \"fuse box\"\nlength = \"1 m\"\n[[load]]\nname = \"lamp\"\ndraw = \"9 W\"\n"
                "[[run]]\nfrom = \"fuse box\"\nto = \"lamp\"\nlength = \"3 m\"\n[[load]]\nname = \"pump\"\n"
                "draw = \"5 A\"\n[[run]]\nfrom = \"fuse box\"\nto = \"pump\"\nlength = \"2.5 m\"\n" +
                more};
}

}  // namespace

TEST_CASE("where several runs get their blade fuses at one place, that is a fuse block and no holders in the cable") {
    const auto [plan, list] = listed(with_block());
    int blades = 0;
    for (const RunPlan& run : plan.runs)
        if (run.task.from.name == "fuse box")
            for (const FuseFit& fuse : run.taken()->fuses) blades += fuse.form == FuseForm::blade ? 1 : 0;
    REQUIRE(blades == 2);
    const std::vector<Part> blocks = of(list, PartKind::fuse_block);
    REQUIRE(blocks.size() == 1);
    CHECK(in_words(blocks.front()) == "fuse block, 2 ways");
    CHECK(blocks.front().count == 1);
    CHECK(blocks.front().runs == std::vector<std::string>{"lamp", "pump"});
    CHECK(of(list, PartKind::fuse_holder, "lamp").empty());
    CHECK(of(list, PartKind::fuse_holder, "pump").empty());
    CHECK_FALSE(of(list, PartKind::fuse, "lamp").empty());
    // The fridge sits at the battery, with a fuse in its cable.
    CHECK(of(list, PartKind::fuse_holder, "fridge").size() == 1);
    CHECK(of(listed({}).list, PartKind::fuse_block).empty());

    SUBCASE("one run alone makes no block") {
        const PartsList one = listed({.more = "[[run]]\nto = \"fuse box\"\nlength = \"1 m\"\n[[load]]\nname = "
                                              "\"lamp\"\ndraw = \"9 W\"\n[[run]]\nfrom = \"fuse box\"\nto = "
                                              "\"lamp\"\nlength = \"3 m\"\n"})
                                  .list;
        CHECK(of(one, PartKind::fuse_block).empty());
        CHECK(of(one, PartKind::fuse_holder, "lamp").size() == 1);
    }
    SUBCASE("two blocks alike are two of one line") {
        std::string other;
        for (const std::string name : {"radio", "fan"})
            other += "[[load]]\nname = \"" + name + "\"\ndraw = \"9 W\"\n[[run]]\nfrom = \"roof box\"\nto = \"" + name +
                     "\"\nlength = \"2 m\"\n";
        const PartsList two = listed(with_block("[[run]]\nto = \"roof box\"\nlength = \"2 m\"\n" + other)).list;
        REQUIRE(of(two, PartKind::fuse_block).size() == 1);
        CHECK(of(two, PartKind::fuse_block).front().count == 2);
        CHECK(of(two, PartKind::fuse_block).front().runs == std::vector<std::string>{"lamp", "pump", "radio", "fan"});
    }
    SUBCASE("a block whose fuses are all there is not bought, one with some of them is looked at first") {
        const auto with_owned = [](int owned) {
            std::string text = with_block().more;
            for (const std::string name : {"lamp", "pump"}) {
                if (owned-- <= 0) break;
                const std::string run = "to = \"" + name + "\"\n";
                text.insert(text.find(run) + run.size(), "fuse = \"10 A blade\"\nhave = \"fuse\"\n");
            }
            return listed({.more = text}).list;
        };
        CHECK(of(with_owned(2), PartKind::fuse_block).empty());
        CHECK(of(with_owned(2), PartKind::fuse_holder, "lamp").empty());
        CHECK(of(with_owned(1), PartKind::fuse_block).size() == 1);
        CHECK(says(with_owned(1).to_look, "fuse box: some of its fuses are there already"));
    }
    SUBCASE("a block has a price of its own") {
        PriceList prices{.currency = "kr", .decimals = 2, .budget = {}, .prices = {}};
        prices.prices.push_back(price(PartKind::fuse_block, 180'000));
        CHECK(of(listed(with_block(), &prices).list, PartKind::fuse_block).front().cost == Money{180'000});
    }
}

TEST_CASE("an in-line holder is told from its cable, and its splices are not counted") {
    const PartsList thin = listed({}).list;
    REQUIRE(of(thin, PartKind::fuse_holder, "fridge").size() == 1);
    CHECK_FALSE(says(thin.to_look, "leads are thinner"));
    CHECK(says(thin.not_listed, "splices"));
    // The leads are 12 AWG, from memory; 10 AWG is thicker.
    const PartsList thick = listed({.more = "[[load]]\nname = \"lamp\"\ndraw = \"9 W\"\n[[run]]\nto = \"lamp\"\n"
                                            "length = \"3 m\"\nsize = \"10 AWG\"\n"})
                                .list;
    CHECK(says(thick.to_look, "the in-line holder's leads are thinner than the cable of the run lamp"));
    const PartsList same = listed({.more = "[[load]]\nname = \"lamp\"\ndraw = \"9 W\"\n[[run]]\nto = \"lamp\"\n"
                                           "length = \"3 m\"\nsize = \"12 AWG\"\n"})
                               .list;
    CHECK_FALSE(says(same.to_look, "leads are thinner"));
}

TEST_CASE("a sum that cannot be counted is no sum") {
    PriceList prices{.currency = "kr", .decimals = 2, .budget = {}, .prices = {}};
    prices.prices.push_back(price(PartKind::label, std::numeric_limits<std::int64_t>::max()));
    const auto [plan, list] = listed({}, &prices);
    CHECK_FALSE(list.total);
    CHECK(parts_line(list).find("more than can be counted") != std::string::npos);
}

TEST_CASE("a cell that a spreadsheet would run as a formula is a text, and quotes are doubled") {
    CHECK(csv_cell("feed") == "feed");
    CHECK(csv_cell("=1+2") == "\"'=1+2\"");
    CHECK(csv_cell("+1") == "\"'+1\"");
    CHECK(csv_cell("-1") == "\"'-1\"");
    CHECK(csv_cell("@x") == "\"'@x\"");
    CHECK(csv_cell("  =1") == "\"'  =1\"");
    CHECK(csv_cell("\t=1") == "\"' =1\"");
    CHECK(csv_cell("\r=1").find("\r") == std::string::npos);
    CHECK(csv_cell("a\nb").find('\n') == std::string::npos);
    CHECK(csv_cell("\uFF1D1") == "\"'\uFF1D1\"");
    CHECK(csv_cell("a,b") == "\"a,b\"");
    CHECK(csv_cell("say \"so\"") == "\"say \"\"so\"\"\"");
    CHECK(csv_cell("") == "");
}

TEST_CASE("hostile names are text in every form of the list") {
    const std::string load = "<b>=2+5\\\"|;,</b>";
    Vehicle vehicle;
    vehicle.more =
        "[[load]]\nname = \"" + load + "\"\ndraw = \"6 W\"\n[[run]]\nto = \"" + load + "\"\nlength = \"2 m\"\n";
    auto [plan, list] = listed(vehicle);
    CHECK(parts_csv(list).find("<b>=2+5\"\"|;,</b>") != std::string::npos);
    // Nothing of this kind gets past the reader of profiles; a list made by a program may hold it all the same.
    list.title = "a\u202Eb\ac\x1b[31m";
    list.parts.front().runs = {"=1+1\n=2", "\t@x\r", std::string(10000, 'x'), "\x1b]0;y\a"};
    list.parts.back().runs = {"=cmd|' /C calc'!A0"};
    list.currency = "=k\nr";
    for (const std::string& text : {parts_page(list, {}), parts_csv(list), parts_json(list)}) {
        CHECK(text.find('\a') == std::string::npos);
        CHECK(text.find('\x1b') == std::string::npos);
        CHECK(text.find('\r') == std::string::npos);
    }
    CHECK(parts_page(list, {}).find("\u202E") == std::string::npos);
    const std::string csv = parts_csv(list);
    CHECK(std::count(csv.begin(), csv.end(), '\n') == static_cast<std::ptrdiff_t>(list.parts.size()) + 1);
    CHECK(csv.find(",=") == std::string::npos);
    CHECK(csv.find("\"=") == std::string::npos);
    CHECK(csv.find("'=cmd") != std::string::npos);
    CHECK(csv.find("'=k") != std::string::npos);
}

/// Prices of a metre by size; where no size is said, of any.
PriceList cable_prices(const std::vector<std::pair<std::optional<Gauge>, std::int64_t>>& metres) {
    PriceList prices{.currency = "kr", .decimals = 2, .budget = {}, .prices = {}};
    for (const auto& [size, price] : metres) {
        Price row{};
        row.size = size;
        row.price = Money{10'000 * price};
        prices.prices.push_back(row);
    }
    return prices;
}

TEST_CASE("a shop that sells a thicker cable for less gets the thicker bought, and the parts list has it") {
    const System system = testing::system_of_text(Vehicle{}.text());
    const auto output_by = [&](const PriceList* prices) {
        PlanDetail detail{.ladders = Ladder::needed};
        if (prices) detail.objective = least_money(*prices);
        const Plan plan = make_plan(system, built_in_tables(), detail);
        for (const RunPlan& run : plan.runs)
            if (*run.task.run.name == "battery") return std::pair{run, plan};
        throw std::logic_error("no run to the battery");
    };
    // One metre each way: what costs 60 a metre costs 120, out and back.
    const auto [by_copper, plain] = output_by(nullptr);
    REQUIRE(by_copper.taken());
    REQUIRE(by_copper.taken()->size == awg(6));
    CHECK(by_copper.costs.empty());
    CHECK(plain.currency.empty());
    const PriceList odd = cable_prices({{awg(8), 40}, {awg(6), 68}, {awg(4), 60}, {awg(2), 90}});
    const auto [run, plan] = output_by(&odd);
    REQUIRE(run.taken());
    CHECK(run.taken()->size == awg(4));
    CHECK(run.choice.decided_by == Criterion::price);
    CHECK(run.costs[*run.choice.taken] == Money{1'200'000});
    CHECK(plan.currency == "kr");
    const PartsList list = parts_list(system, plan, &odd);
    CHECK(of(list, PartKind::cable, "battery").front().size == awg(4));
    CHECK(of(list, PartKind::lug, "battery").front().size == awg(4));

    SUBCASE("for equal money the thicker is taken") {
        const PriceList even = cable_prices({{awg(6), 60}, {awg(4), 60}, {awg(2), 61}});
        CHECK(output_by(&even).first.taken()->size == awg(4));
    }
    SUBCASE("what has no price is not for sale there") {
        const PriceList thick = cable_prices({{awg(18), 5}, {awg(2), 90}});
        CHECK(output_by(&thick).first.taken()->size == awg(2));
        CHECK(output_by(&thick).first.choice.decided_by == Criterion::price);
    }
    SUBCASE("where nothing that would do has a price, the least copper is taken") {
        const PriceList thin = cable_prices({{awg(18), 5}, {awg(16), 6}});
        CHECK(output_by(&thin).first.taken()->size == awg(6));
        CHECK_FALSE(output_by(&thin).first.for_money);
    }
    SUBCASE("a price for any size does not tell a thick cable from a thin one: the least copper") {
        const PriceList any = cable_prices({{std::nullopt, 60}, {awg(2), 10}});
        CHECK(output_by(&any).first.taken()->size == awg(6));
    }
    SUBCASE("cheap thick cable whose lugs are dear is not cheap") {
        // A lug at each end of both, as the fuse sits on the post: 120 and 36 of 4 AWG are more than 136 and 4 of 6 AWG.
        PriceList lugs = odd;
        for (const auto& [size, each] : {std::pair{awg(4), 9}, {awg(6), 1}}) {
            lugs.prices.push_back(price(PartKind::lug, 10'000 * each));
            lugs.prices.back().size = size;
        }
        const RunPlan by_lugs = output_by(&lugs).first;
        CHECK(by_lugs.taken()->size == awg(6));
        CHECK(by_lugs.costs[*by_lugs.choice.taken] == Money{1'400'000});
    }
    SUBCASE("an owned cable stays, whatever another would cost") {
        const System owned = testing::system_of_text(Vehicle{.feed = "size = \"2 AWG\"\n"}.text());
        const Plan stays = make_plan(owned, built_in_tables(), {.objective = least_money(odd)});
        CHECK(stays.runs.front().taken()->size == awg(2));
        CHECK(stays.runs.front().costs.empty());
    }
}

/// One price of a metre, in ten-thousandths.
PriceList cable_prices_exact(Gauge size, std::int64_t ten_thousandths) {
    PriceList prices{.currency = "kr", .decimals = 2, .budget = {}, .prices = {}};
    prices.prices.push_back(price(PartKind::cable, ten_thousandths));
    prices.prices.back().size = size;
    return prices;
}

System system_with_output(const std::string& length) {
    std::string text = Vehicle{}.text();
    const std::string usual = "to = \"battery\"\nlength = \"1 m\"";
    return testing::system_of_text(
        text.replace(text.find(usual), usual.size(), "to = \"battery\"\nlength = \"" + length + "\""));
}

TEST_CASE("cable is priced as it is laid: half a metre from an appliance to the body, of a roll what is used") {
    PriceList prices = cable_prices({{awg(6), 50}});
    prices.prices.front().roll = metres(5);
    const System system = testing::system_of_text(Vehicle{.feed = "return = \"body\"\n"}.text());
    const auto feed = std::find_if(system.runs.begin(), system.runs.end(),
                                   [](const SystemRun& run) { return *run.run.name == "feed"; });
    REQUIRE(feed != system.runs.end());
    REQUIRE(feed->run.body);
    const auto of_size = [](Gauge size) {
        return Candidate{.size = size, .area = conductor_of(built_in_tables(), size)->area};
    };
    // 6 m and 0.5 m at 10 a metre.
    CHECK(cable_cost(prices, system, *feed, of_size(awg(6))) == Money{650'000});
    CHECK_FALSE(cable_cost(prices, system, *feed, of_size(awg(8))));
    // 0.7 m at 0.55 is 0.385, that is 0.39, out and back.
    const System short_way = system_with_output("0.7 m");
    const PriceList cheap = cable_prices_exact(awg(14), 5'500);
    CHECK(cable_cost(cheap, short_way, short_way.runs[1], of_size(awg(14))) == Money{7'800});
}

}  // namespace voltwright
