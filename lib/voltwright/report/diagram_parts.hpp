#pragma once

#include "voltwright/report/drawing.hpp"
#include "voltwright/report/wiring_tree.hpp"
#include "voltwright/report/wiring_words.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What a wiring diagram is drawn of: boxes, lines with their words, and drawings that go on where one is full.
namespace voltwright {

/// A place as it is drawn: its name in bold, and what it is.
struct DiagramBox {
    std::vector<std::string> names, more;
    double height;
};

/// The words along a horizontal line: those above end above it, those below begin below it.
struct LineWords {
    std::vector<std::string> above, below_near, below_far, body;
    bool near_fuse = false, far_fuse = false;

    [[nodiscard]] double height_above() const;
    [[nodiscard]] double height_below() const;
};

/// What has been drawn so far, from the top downwards.
struct Diagram {
    std::string name;
    double across;    ///< units
    double box;       ///< width of a box
    double step = 0;  ///< from one upright line to the next that hangs from it
    std::vector<Drawing> drawings = {};
    double y = 0.0;                             ///< how far down it is drawn
    std::vector<double> open = {};              ///< where upright lines go on downwards
    std::optional<double> charger_bottom = {};  ///< of the charger's box, where it stands on this drawing
    double below_battery = 0.0;                 ///< how far down the words below the line to the battery come

    Drawing& now() { return drawings.back(); }
    void begin_drawing(const std::string& its_name) { drawings.emplace_back(its_name, across); }
};

inline constexpr double gap = 10.0;           ///< between text and what stands beside it
inline constexpr double tallest = 820.0;      ///< of a drawing: the rest of a sheet of paper is for its heading
inline constexpr double beside_earth = 22.0;  ///< from the left of the sign of earth to its words

/// Begins a new drawing where a row would make this one too tall.
void make_room(Diagram& diagram, double height);

DiagramBox box_of(const Diagram& diagram, const System& system, const Place& place);
void draw_box(Diagram& diagram, const DiagramBox& box, Point corner, Stroke stroke, bool round = false);

/// Batteries stand out.
Stroke stroke_of(const Place& place);

/// The words of a branch in lines that fit into so much room.
LineWords line_words(const WiringBranch& branch, const Place& drawn_first, double room);
void draw_line(Diagram& diagram, const LineWords& words, double left, double right, double y, bool dashed);

/// Lines of text below each other; answers the base line of the next.
double draw_lines(Diagram& diagram, const std::vector<std::string>& lines, Point base, Anchor anchor = Anchor::start,
                  bool bold = false, std::string_view within = {});

}  // namespace voltwright
