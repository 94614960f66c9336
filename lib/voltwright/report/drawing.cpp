#include "voltwright/report/drawing.hpp"

#include "voltwright/units/characters.hpp"
#include "voltwright/report/markup.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace voltwright {

namespace {

std::string_view class_of(Stroke stroke) {
    switch (stroke) {
        case Stroke::thin: return "thin";
        case Stroke::plain: return "plain";
        case Stroke::heavy: return "heavy";
        case Stroke::dashed: return "dashed";
        case Stroke::dotted: return "dotted";
        case Stroke::grid: return "grid";
    }
    return {};
}

/// A tenth of a unit is finer than any printer's dot here.
std::string number(double x) {
    std::string text = fmt::format("{:.1f}", x);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text == "-0" ? "0" : text;
}

/// Whether it can be told how wide a text is at most. Not of writing whose letters join or stand on each other, nor of
/// single signs that are whole words.
bool of_known_width(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const Character next = character_at(text, at);
        if (next.bytes == 0 || (next.code >= 0x600 && next.code < 0x2000) ||
            (next.code >= 0xfb00 && next.code < 0xfe70) || next.code >= 0x10000)
            return false;
        at += next.bytes;
    }
    return true;
}

}  // namespace

void Drawing::line(Point from, Point to, Stroke stroke) {
    body_ += fmt::format("<line class=\"{}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", class_of(stroke),
                         number(from.x), number(from.y), number(to.x), number(to.y));
}

void Drawing::path(const std::vector<Point>& points, Stroke stroke) {
    body_ += fmt::format("<polyline class=\"{}\" points=\"", class_of(stroke));
    for (const Point& point : points) body_ += number(point.x) + "," + number(point.y) + " ";
    if (!points.empty()) body_.pop_back();
    body_ += "\"/>\n";
}

void Drawing::band(Point corner, double width, double height) {
    body_ += fmt::format("<rect class=\"band\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n", number(corner.x),
                         number(corner.y), number(width), number(height));
}

void Drawing::block(Point corner, double width, double height) {
    body_ += fmt::format("<rect class=\"block\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n", number(corner.x),
                         number(corner.y), number(width), number(height));
}

void Drawing::dot(Point centre) {
    body_ += fmt::format("<circle class=\"block\" cx=\"{}\" cy=\"{}\" r=\"4\"/>\n", number(centre.x), number(centre.y));
}

std::string Drawing::frame(Point corner, double width, double height, Stroke stroke, double round) {
    std::string id = name_ + "-" + std::to_string(++frames_);
    body_ +=
        fmt::format("<rect id=\"{}\" class=\"{} frame\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" rx=\"{}\"/>\n", id,
                    class_of(stroke), number(corner.x), number(corner.y), number(width), number(height), number(round));
    grow_to(corner.y + height + 2.0);
    return id;
}

Drawing::Extent Drawing::extent_of(Point base, std::string_view words, Anchor anchor, bool bold) {
    const double wide = ems_of(words, bold) * size;
    const double left = anchor == Anchor::start ? base.x : anchor == Anchor::end ? base.x - wide : base.x - wide / 2.0;
    return {left, left + wide, base.y - 12.0, base.y + 4.0};
}

void Drawing::text(Point base, std::string_view words, Anchor anchor, bool bold, std::string_view within) {
    if (words.empty()) return;
    body_ += fmt::format("<text x=\"{}\" y=\"{}\"", number(base.x), number(base.y));
    if (anchor != Anchor::start) body_ += anchor == Anchor::end ? " text-anchor=\"end\"" : " text-anchor=\"middle\"";
    if (bold) body_ += " font-weight=\"bold\"";
    if (!within.empty()) body_ += fmt::format(" data-in=\"{}\"", within);
    // Letters whose width nobody can foretell are set to the width that is kept for them.
    if (!of_known_width(words))
        body_ +=
            fmt::format(" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"", number(ems_of(words, bold) * size));
    body_ += ">" + escaped(words) + "</text>\n";
    texts_.push_back(extent_of(base, words, anchor, bold));
    grow_to(base.y + 6.0);
}

void Drawing::free_text(Point base, std::string_view words, Anchor anchor, double top, double bottom) {
    const auto covers = [&](double y) {
        const Extent here = extent_of({base.x, y}, words, anchor, false);
        return std::any_of(texts_.begin(), texts_.end(), [&](const Extent& other) {
            return here.left < other.right + 2.0 && other.left < here.right + 2.0 && here.top < other.bottom &&
                   other.top < here.bottom;
        });
    };
    for (double away = 0.0; away < bottom - top; away += 4.0)
        for (const double y : {base.y + away, base.y - away})
            if (y - 12.0 >= top && y + 4.0 <= bottom && !covers(y)) return text({base.x, y}, words, anchor);
}

void Drawing::fuse(Point centre) {
    body_ += fmt::format("<rect class=\"plain frame\" x=\"{}\" y=\"{}\" width=\"20\" height=\"9\"/>\n",
                         number(centre.x - 10.0), number(centre.y - 4.5));
    line({centre.x - 10.0, centre.y}, {centre.x + 10.0, centre.y}, Stroke::thin);
}

void Drawing::earth(Point top) {
    line(top, {top.x, top.y + 6.0}, Stroke::plain);
    line({top.x - 8.0, top.y + 6.0}, {top.x + 8.0, top.y + 6.0}, Stroke::plain);
    for (const double x : {-7.0, 0.0, 7.0})
        line({top.x + x, top.y + 6.0}, {top.x + x - 4.0, top.y + 12.0}, Stroke::thin);
}

std::string Drawing::svg(std::string_view kind, std::string_view title, std::string_view description) const {
    return fmt::format(
        "<svg class=\"{0}\" viewBox=\"-2 0 {1} {2}\" role=\"img\" aria-labelledby=\"{3}-title\" "
        "aria-describedby=\"{3}-about\">\n<title id=\"{3}-title\">{4}</title>\n<desc id=\"{3}-about\">{5}</desc>\n"
        "{6}</svg>\n",
        kind, number(units_ + 4.0), number(height_ + 2.0), name_, escaped(title), escaped(description), body_);
}

}  // namespace voltwright
