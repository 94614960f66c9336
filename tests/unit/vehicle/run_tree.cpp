#include "testing.hpp"

#include "voltwright/vehicle/run_tree.hpp"

#include <vector>

/// battery ── box ── sub ── lamp
///              └─── fridge        starter ── charger ── battery

namespace voltwright {

namespace {

const Place starter = the(PlaceKind::starter_battery), charger = the(PlaceKind::charger),
            battery = the(PlaceKind::house_battery);
const Place box = place_named("box"), sub = place_named("sub");
const Place lamp{PlaceKind::consumer, "lamp"}, fridge{PlaceKind::consumer, "fridge"};

// A branch may be told before the run that it hangs on.
const std::vector<RunEnds> told = {{starter, charger}, {charger, battery}, {sub, lamp},
                                   {box, fridge},      {battery, box},     {box, sub}};

}  // namespace

TEST_CASE("a run hangs on the one that ends where it begins, and what begins at a source hangs on none") {
    const RunTree tree = run_tree(told);
    CHECK_FALSE(tree.before[0]);
    CHECK_FALSE(tree.before[1]);
    CHECK(tree.before[2] == 5);
    CHECK(tree.before[3] == 4);
    CHECK_FALSE(tree.before[4]);
    CHECK(tree.before[5] == 4);
    CHECK(tree.root == std::vector<std::size_t>{0, 1, 4, 4, 4, 4});
    CHECK(tree.after[4] == std::vector<std::size_t>{3, 5});
}

TEST_CASE("in order each run stands behind the one that it hangs on, and none is left out") {
    const RunTree tree = run_tree(told);
    REQUIRE(tree.order.size() == told.size());
    std::vector<bool> seen(told.size(), false);
    for (const std::size_t run : tree.order) {
        CHECK((!tree.before[run] || seen[*tree.before[run]]));
        CHECK_FALSE(seen[run]);
        seen[run] = true;
    }
}

TEST_CASE("all that hangs on a run, branch after branch; what leads through it; who shares a way") {
    const RunTree tree = run_tree(told);
    CHECK(tree.from(4) == std::vector<std::size_t>{4, 3, 5, 2});
    CHECK(tree.from(0) == std::vector<std::size_t>{0});
    CHECK(tree.leads_through(2, 4));
    CHECK(tree.leads_through(2, 2));
    CHECK_FALSE(tree.leads_through(4, 2));
    CHECK_FALSE(tree.leads_through(3, 5));
    CHECK(tree.shares(4));
    CHECK(tree.shares(2));
    CHECK_FALSE(tree.shares(0));
}

TEST_CASE("no runs are no tree") { CHECK(run_tree({}).order.empty()); }

}  // namespace voltwright
