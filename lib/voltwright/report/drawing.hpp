#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// A drawing for a page: SVG that takes its colours from the page it stands in.
namespace voltwright {

enum class Anchor { start, middle, end };

/// How a stroke looks: told apart by dashes and weight, never by colour alone.
enum class Stroke { thin, plain, heavy, dashed, dotted, grid };

struct Point {
    double x, y;
};

class Drawing {
public:
    /// `name` begins every id of the drawing; `units` is its width.
    Drawing(std::string name, double units) : name_(std::move(name)), units_(units) {}

    [[nodiscard]] double units() const { return units_; }
    void grow_to(double height) { height_ = height > height_ ? height : height_; }

    void line(Point from, Point to, Stroke stroke);
    void path(const std::vector<Point>& points, Stroke stroke);
    /// A field of grey behind everything that is drawn later.
    void band(Point corner, double width, double height);
    void block(Point corner, double width, double height);
    void dot(Point centre);
    /// An empty frame. Answers its id, for the text that has to stay in it.
    std::string frame(Point corner, double width, double height, Stroke stroke, double round = 0.0);
    /// A line of text on its base line; of somebody else's too. `within` is the id of the frame that holds it.
    void text(Point base, std::string_view words, Anchor anchor = Anchor::start, bool bold = false,
              std::string_view within = {});
    /// The same, moved up or down until it covers no text set before.
    void free_text(Point base, std::string_view words, Anchor anchor, double top, double bottom);
    /// The sign of an electric fuse by IEC 60617, on a horizontal line, centred.
    void fuse(Point centre);
    /// The sign of a connection to the frame or body by IEC 60617, hanging below a point.
    void earth(Point top);

    /// The whole, with what a screen reader says of it. `kind` is the class of the element.
    [[nodiscard]] std::string svg(std::string_view kind, std::string_view title, std::string_view description) const;

    static constexpr double size = 12.5;  ///< of text, in units
    static constexpr double leading = 16.0;

private:
    struct Extent {
        double left, right, top, bottom;
    };
    [[nodiscard]] static Extent extent_of(Point base, std::string_view words, Anchor anchor, bool bold);

    std::string name_;
    double units_;
    double height_ = 0.0;
    std::size_t frames_ = 0;
    std::string body_;
    std::vector<Extent> texts_;
};

}  // namespace voltwright
