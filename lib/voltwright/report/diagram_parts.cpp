#include "voltwright/report/diagram_parts.hpp"

#include "voltwright/report/markup.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

constexpr std::size_t name_lines = 3;
constexpr double around = 12.0;      // the words of a box, both sides together
constexpr double rounding = 8.0;     // of a load's corners
constexpr double least_full = 60.0;  // a drawing with less on it is not left for another

double height_of(std::size_t lines) { return static_cast<double>(lines) * Drawing::leading; }

}  // namespace

double LineWords::height_above() const { return height_of(above.size()) + 11.0; }
double LineWords::height_below() const { return height_of(below_near.size() + below_far.size() + body.size()) + 8.0; }

void make_room(Diagram& diagram, double height) {
    if (diagram.y + height <= tallest || diagram.y < least_full) return;
    const std::size_t number = diagram.drawings.size();
    diagram.begin_drawing(diagram.name + std::string(1, static_cast<char>('a' + number % 26)) + std::to_string(number));
    diagram.y = 4.0;
    diagram.charger_bottom.reset();
    diagram.now().text({0.0, diagram.y + 12.0}, "continued");
    diagram.y += 22.0;
    for (const double x : diagram.open) diagram.now().line({x, diagram.y - 4.0}, {x, diagram.y}, Stroke::plain);
}

double draw_lines(Diagram& diagram, const std::vector<std::string>& lines, Point base, Anchor anchor, bool bold,
                  std::string_view within) {
    for (const std::string& line : lines) {
        diagram.now().text(base, line, anchor, bold, within);
        base.y += Drawing::leading;
    }
    return base.y;
}

DiagramBox box_of(const Diagram& diagram, const System& system, const Place& place) {
    const double ems = (diagram.box - around) / Drawing::size;
    const std::vector<std::string> words = box_words(system, place);
    DiagramBox box{in_lines(words[0], ems, name_lines, true), {}, 0.0};
    for (std::size_t i = 1; i < words.size(); ++i)
        for (std::string& line : in_lines(words[i], ems, 2)) box.more.push_back(std::move(line));
    box.height = height_of(std::max<std::size_t>(box.names.size() + box.more.size(), 1)) + around;
    return box;
}

void draw_box(Diagram& diagram, const DiagramBox& box, Point corner, Stroke stroke, bool round) {
    const std::string id = diagram.now().frame(corner, diagram.box, box.height, stroke, round ? rounding : 0.0);
    const double middle = corner.x + diagram.box / 2.0;
    const double base =
        draw_lines(diagram, box.names, {middle, corner.y + around / 2.0 + Drawing::size}, Anchor::middle, true, id);
    draw_lines(diagram, box.more, {middle, base}, Anchor::middle, false, id);
}

Stroke stroke_of(const Place& place) { return is_battery(place) ? Stroke::heavy : Stroke::plain; }

LineWords line_words(const WiringBranch& branch, const Place& drawn_first, double room) {
    LineWords words;
    if (!branch.run) {
        words.above = in_lines(branch.note, room / Drawing::size, 3);
        return words;
    }
    const RunWords run = run_words(*branch.run, drawn_first);
    words.above = run.lines(room / Drawing::size);
    words.below_near = in_lines(run.near_fuse, room / Drawing::size, 2);
    words.below_far = in_lines(run.far_fuse, room / Drawing::size, 2);
    words.near_fuse = !run.near_fuse.empty();
    words.far_fuse = !run.far_fuse.empty();
    if (run.body) words.body = in_lines(by_the_body, (room - beside_earth) / Drawing::size, 3);
    return words;
}

void draw_line(Diagram& diagram, const LineWords& words, double left, double right, double y, bool dashed) {
    Drawing& drawing = diagram.now();
    drawing.line({left, y}, {right, y}, dashed ? Stroke::dashed : Stroke::plain);
    const double begin = left + gap, end = right - gap;
    draw_lines(diagram, words.above,
               {begin, y - 10.0 - static_cast<double>(words.above.size() - 1) * Drawing::leading});
    if (words.near_fuse) drawing.fuse({begin + 12.0, y});
    if (words.far_fuse) drawing.fuse({end - 12.0, y});
    double base = draw_lines(diagram, words.below_near, {begin, y + 18.0});
    base = draw_lines(diagram, words.below_far, {end, base}, Anchor::end);
    if (!words.body.empty()) drawing.earth({begin + 8.0, base - 11.0});
    draw_lines(diagram, words.body, {begin + beside_earth, base});
}

}  // namespace voltwright
