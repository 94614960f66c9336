#include "voltwright/report/diagram.hpp"

#include "voltwright/report/diagram_parts.hpp"
#include "voltwright/report/markup.hpp"
#include "voltwright/report/wiring_tree.hpp"
#include "voltwright/report/wiring_words.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace voltwright {

namespace {

constexpr double usual_step = 48.0;
constexpr double upright = 16.0;  // of the outermost upright line

/// What is drawn, and of what.
struct Sketch {
    const WiringTree& tree;
    const System& system;
    Diagram diagram;
};

/// Steps become smaller where there are so many that the words would have no room.
double step_for(const Diagram& diagram, std::size_t levels) {
    const double room = diagram.across - upright - 2.0 * diagram.box - 30.0;
    return levels == 0 ? usual_step : std::min(usual_step, std::max(room, 8.0) / static_cast<double>(levels));
}

// ---- rows from edge to edge -----------------------------------------------------------------------------------------

void draw_alternator(Diagram& diagram) {
    const DiagramBox box{{"alternator"}, {}, Drawing::leading + 12.0};
    draw_box(diagram, box, {0.0, 2.0}, Stroke::plain, true);
    const double bottom = 2.0 + box.height;
    diagram.now().line({diagram.box / 2.0, bottom}, {diagram.box / 2.0, bottom + 18.0}, Stroke::plain);
    const double room = diagram.across - diagram.box - gap;
    draw_lines(diagram, in_lines("the vehicle's own cable", room / Drawing::size, 2), {diagram.box + gap, 18.0});
    diagram.y = bottom + 18.0;
}

/// A box by itself at the left.
void draw_alone(Sketch& sketch, const Place& place) {
    Diagram& diagram = sketch.diagram;
    const DiagramBox box = box_of(diagram, sketch.system, place);
    draw_box(diagram, box, {0.0, diagram.y}, stroke_of(place));
    diagram.y += box.height;
}

/// [ from ]--------[ to ]; answers how far down the box at the right comes.
double draw_across(Sketch& sketch, const Place& from, const Place& to, const WiringBranch& branch, Stroke stroke) {
    Diagram& diagram = sketch.diagram;
    const DiagramBox left = box_of(diagram, sketch.system, from), right = box_of(diagram, sketch.system, to);
    const double room = diagram.across - 2.0 * diagram.box - 2.0 * gap;
    const LineWords words = line_words(branch, from, room);
    const double up = std::max({words.height_above(), left.height / 2.0, right.height / 2.0});
    const double middle = diagram.y + up, top = middle - left.height / 2.0;
    draw_box(diagram, left, {0.0, top}, stroke);
    draw_box(diagram, right, {diagram.across - diagram.box, middle - right.height / 2.0}, stroke_of(to));
    if (diagram.y < top && from.kind == PlaceKind::starter_battery)
        diagram.now().line({diagram.box / 2.0, diagram.y}, {diagram.box / 2.0, top}, Stroke::plain);
    draw_line(diagram, words, diagram.box, diagram.across - diagram.box, middle, !branch.run);
    diagram.y = middle + std::max({words.height_below(), left.height / 2.0, right.height / 2.0}) + 10.0;
    return middle + right.height / 2.0;
}

/// The words of all runs from the charger to the battery, along one line.
LineWords output_words(const std::vector<const RunPlan*>& output, double room) {
    const auto append = [](std::vector<std::string>& to, const std::vector<std::string>& more) {
        to.insert(to.end(), more.begin(), more.end());
    };
    LineWords words;
    for (auto run = output.rbegin(); run != output.rend(); ++run) {
        const LineWords more = line_words({*run, {}, 0}, the(PlaceKind::house_battery), room);
        append(words.above, more.above);
        append(words.below_near, more.below_near);
        append(words.below_far, more.below_far);
        append(words.body, more.body);
        words.near_fuse = words.near_fuse || more.near_fuse;
        words.far_fuse = words.far_fuse || more.far_fuse;
    }
    return words;
}

/// The house battery at the left; the line that comes down from the charger goes back to it.
void draw_battery(Sketch& sketch) {
    Diagram& diagram = sketch.diagram;
    const DiagramBox box = box_of(diagram, sketch.system, the(PlaceKind::house_battery));
    const double turn = diagram.across - diagram.box / 2.0, left = diagram.box;
    const LineWords words = output_words(sketch.tree.output, turn - left - 2.0 * gap);
    const double up = std::max(words.height_above(), box.height / 2.0);
    if (diagram.y + up + box.height > tallest) make_room(diagram, tallest);
    const double middle = diagram.y + up;
    draw_box(diagram, box, {0.0, middle - box.height / 2.0}, Stroke::heavy);
    if (!sketch.tree.output.empty()) {
        draw_line(diagram, words, left, turn, middle, false);
        const auto& charger = diagram.charger_bottom;
        diagram.now().line({turn, charger && *charger < middle ? *charger : diagram.y}, {turn, middle}, Stroke::plain);
    }
    diagram.y = middle + box.height / 2.0;
    diagram.below_battery = middle + words.height_below();
}

// ---- branches -------------------------------------------------------------------------------------------------------

/// Words below the line to the battery stand to the right of its box: the upright line goes on beside them.
void pass_words_below_battery(Diagram& diagram, double x) {
    if (diagram.below_battery > diagram.y) {
        const double to = std::max(diagram.y, diagram.below_battery - 6.0);
        diagram.now().line({x, diagram.y}, {x, to}, Stroke::plain);
        diagram.y = to;
    }
    diagram.below_battery = 0.0;
}

/// The upright lines that pass a row by.
void pass_by(Diagram& diagram, double to) {
    for (std::size_t i = 0; i + 1 < diagram.open.size(); ++i)
        diagram.now().line({diagram.open[i], diagram.y}, {diagram.open[i], to}, Stroke::plain);
}

/// A place from which nothing goes on, at the right edge.
void draw_leaf(Sketch& sketch, const Place& parent, const WiringBranch& branch, double x, bool last) {
    Diagram& diagram = sketch.diagram;
    const Place& place = sketch.tree.nodes[branch.node].place;
    const DiagramBox box = box_of(diagram, sketch.system, place);
    const double right = diagram.across - diagram.box;
    const LineWords words = line_words(branch, parent, right - x - 2.0 * gap);
    const double up = std::max(words.height_above(), box.height / 2.0) + 6.0;
    const double down = std::max(words.height_below(), box.height / 2.0) + 4.0;
    pass_words_below_battery(diagram, x);
    make_room(diagram, up + down);
    const double middle = diagram.y + up, bottom = middle + down;
    pass_by(diagram, bottom);
    diagram.now().line({x, diagram.y}, {x, last ? middle : bottom}, Stroke::plain);
    draw_line(diagram, words, x, right, middle, !branch.run);
    draw_box(diagram, box, {right, middle - box.height / 2.0}, stroke_of(place), place.kind == PlaceKind::consumer);
    if (place.kind == PlaceKind::charger) diagram.charger_bottom = middle + box.height / 2.0;
    diagram.y = bottom;
    if (last) diagram.open.pop_back();
}

/// What stands to the right of the box of a place from which other runs go on.
struct TrunkWords {
    std::vector<std::string> lines;
    bool fuse = false, body = false;

    [[nodiscard]] double height() const {
        return static_cast<double>(lines.size() + (body ? 1u : 0u)) * Drawing::leading;
    }
};

TrunkWords trunk_words(const WiringBranch& branch, const Place& parent, double room) {
    if (!branch.run) return {in_lines(branch.note, room / Drawing::size, 4)};
    const RunWords run = run_words(*branch.run, parent);
    TrunkWords words{run.lines(room / Drawing::size), false, run.body};
    const std::string fuse = run.near_fuse + (run.near_fuse.empty() || run.far_fuse.empty() ? "" : ", ") + run.far_fuse;
    for (std::string& line : in_lines(fuse, room / Drawing::size, 2)) words.lines.push_back(std::move(line));
    words.fuse = !fuse.empty();
    return words;
}

void draw_branches(Sketch& sketch, std::size_t node, double x);

void draw_trunk(Sketch& sketch, const Place& parent, const WiringBranch& branch, double x, bool last) {
    Diagram& diagram = sketch.diagram;
    const Place& place = sketch.tree.nodes[branch.node].place;
    const DiagramBox box = box_of(diagram, sketch.system, place);
    const double left = x + std::max(diagram.step - 14.0, 1.0), words_at = left + diagram.box + gap;
    const TrunkWords words = trunk_words(branch, parent, diagram.across - words_at);
    const double row = std::max(box.height, words.height()) + 12.0;
    pass_words_below_battery(diagram, x);
    make_room(diagram, row + 8.0);
    const double top = diagram.y + 10.0, middle = top + box.height / 2.0, bottom = diagram.y + row;
    pass_by(diagram, bottom);
    diagram.now().line({x, diagram.y}, {x, last ? middle : bottom}, Stroke::plain);
    diagram.now().line({x, middle}, {left, middle}, branch.run ? Stroke::plain : Stroke::dashed);
    const bool room_for_fuse = diagram.step > 40.0;
    if (room_for_fuse && words.fuse) diagram.now().fuse({(x + left) / 2.0, middle});
    draw_box(diagram, box, {left, top}, stroke_of(place));
    const double base = draw_lines(diagram, words.lines, {words_at, top + 12.0});
    if (words.body) {
        diagram.now().earth({words_at + 8.0, base - 11.0});
        diagram.now().text({words_at + beside_earth, base}, by_the_body);
    }
    const double from = top + box.height, inner = left + 14.0;
    if (bottom > from) diagram.now().line({inner, from}, {inner, bottom}, Stroke::plain);
    diagram.y = bottom;
    if (last) diagram.open.pop_back();
    draw_branches(sketch, branch.node, inner);
}

void draw_branches(Sketch& sketch, std::size_t node, double x) {
    const WiringNode& here = sketch.tree.nodes[node];
    if (here.branches.empty()) return;
    sketch.diagram.open.push_back(x);
    for (std::size_t i = 0; i < here.branches.size(); ++i) {
        const WiringBranch& branch = here.branches[i];
        const bool last = i + 1 == here.branches.size();
        if (sketch.tree.nodes[branch.node].branches.empty())
            draw_leaf(sketch, here.place, branch, x, last);
        else
            draw_trunk(sketch, here.place, branch, x, last);
    }
}

/// The starter battery with all that hangs from it; with nothing but the charger, both in one row.
void draw_starter(Sketch& sketch) {
    const std::vector<WiringBranch>& branches = sketch.tree.nodes[sketch.tree.starter].branches;
    const auto is_bare_charger = [&](const WiringNode& node) {
        return node.place.kind == PlaceKind::charger && node.branches.empty();
    };
    if (branches.size() == 1 && is_bare_charger(sketch.tree.nodes[branches[0].node])) {
        sketch.diagram.charger_bottom =
            draw_across(sketch, the(PlaceKind::starter_battery), sketch.tree.nodes[branches[0].node].place, branches[0],
                        Stroke::heavy);
        return;
    }
    draw_alone(sketch, the(PlaceKind::starter_battery));
    draw_branches(sketch, sketch.tree.starter, upright);
}

}  // namespace

double units_across(Room room) { return room == Room::page ? 760.0 : 340.0; }

std::vector<Drawing> wiring_diagram(const Plan& plan, const System& system, Room room, const std::string& name) {
    const WiringTree tree = wiring_tree(plan, system);
    Sketch sketch{
        tree, system, {.name = name, .across = units_across(room), .box = room == Room::page ? 170.0 : 116.0}};
    sketch.diagram.begin_drawing(name);
    sketch.diagram.step =
        step_for(sketch.diagram, std::max(depth_of(tree, tree.starter), depth_of(tree, tree.battery)));

    // Where nothing of ours hangs on the vehicle's own system, that is not drawn.
    if (!tree.nodes[tree.starter].branches.empty()) {
        draw_alternator(sketch.diagram);
        draw_starter(sketch);
    } else {
        sketch.diagram.y = 4.0;
    }
    draw_battery(sketch);
    draw_branches(sketch, tree.battery, upright);
    for (const RunPlan* run : tree.apart) {
        make_room(sketch.diagram, 90.0);
        draw_across(sketch, run->task.from, run->task.to, {run, {}, 0}, Stroke::plain);
    }
    return std::move(sketch.diagram.drawings);
}

}  // namespace voltwright
