#pragma once

#include "voltwright/report/drawing.hpp"
#include "voltwright/units/quantities.hpp"

/// Where a chart's field lies in its drawing, and what stands at its margins.
namespace voltwright {

struct ChartFrame {
    double across;  ///< of the whole drawing
    double top, bottom;
    double left = 46.0, right_margin = 8.0;

    [[nodiscard]] double right() const { return across - right_margin; }
    [[nodiscard]] double wide() const { return right() - left; }
    [[nodiscard]] double tall() const { return bottom - top; }

    /// A grid line with what it stands for.
    void level(Drawing& drawing, double y, std::string_view label) const {
        grid(drawing, y);
        drawing.text({left - beside, y + half_a_letter}, label, Anchor::end);
    }
    void grid(Drawing& drawing, double y) const { drawing.line({left, y}, {right(), y}, Stroke::grid); }
    /// A word at the left of a row below the field.
    void row_name(Drawing& drawing, double y, std::string_view name) const {
        drawing.text({left - beside, y}, name, Anchor::end);
    }

    static constexpr double beside = 5.0;         ///< between the field and its labels
    static constexpr double half_a_letter = 4.5;  ///< from the middle of a letter to its base line
};

}  // namespace voltwright
