#include "voltwright/report/tables_text.hpp"

#include <algorithm>
#include <numeric>
#include <vector>

namespace voltwright {

namespace {

bool is_number(std::string_view cell) {
    return !cell.empty() && cell.find_first_not_of("0123456789.+-eE") == std::string_view::npos;
}

/// Each row as a block of "column: value" lines.
std::string in_blocks(const PrintedTable& table, std::size_t rows, const Style& style) {
    std::string text;
    for (std::size_t row = 0; row < rows; ++row) {
        if (row > 0) text += "\n";
        const auto line = [&](std::string_view name, const std::string& words) {
            const std::string label = printable(spelled(name, style), style) + ":";
            text += wrap(printable(spelled(words, style), style), style, bold(label, style) + " ", 4);
        };
        for (std::size_t column = 0; column < table.columns.size(); ++column) {
            const std::string_view words = table.cells[row * table.columns.size() + column];
            const std::string_view unit = table.columns[column].unit;
            if (words.empty()) continue;
            line(table.columns[column].name,
                 std::string(words) + (unit.empty() || unit == "1" ? "" : " " + std::string(unit)));
        }
        if (row < table.notes.size() && !table.notes[row].empty()) line("note", std::string(table.notes[row]));
    }
    return text;
}

/// What stands above the figures.
std::string head_of(const PrintedTable& table, const Style& style) {
    std::string text = wrap(printable(spelled(table.title, style), style), style);
    const auto line = [&](std::string_view label, std::string_view words) {
        if (words.empty()) return;
        text += wrap(printable(spelled(words, style), style), style, padded(std::string(label), 10), 10);
    };
    line("applies", table.applies);
    line("source", table.source.cite);
    line("known", show(table.source.standing));
    line("terms", table.terms);
    line("entered", table.entered);
    line("note", table.source.note);
    return text;
}

/// How wide each column is, and which hold nothing but numbers.
struct Grid {
    std::size_t rows = 0;
    std::vector<std::size_t> widths;
    std::vector<bool> numbers;

    [[nodiscard]] std::size_t width() const {
        return std::accumulate(widths.begin(), widths.end(), 2 * (std::max<std::size_t>(widths.size(), 1) - 1));
    }
};

constexpr std::size_t note_mark = 5;  // "  (1)"

std::string_view cell_of(const PrintedTable& table, std::size_t row, std::size_t column) {
    return table.cells[row * table.columns.size() + column];
}

Grid grid_of(const PrintedTable& table) {
    const std::size_t across = table.columns.size();
    Grid grid{across == 0 ? 0 : table.cells.size() / across, std::vector<std::size_t>(across),
              std::vector<bool>(across, true)};
    for (std::size_t column = 0; column < across; ++column) {
        std::size_t& width = grid.widths[column];
        width = std::max(columns_of(table.columns[column].name), columns_of(table.columns[column].unit));
        for (std::size_t row = 0; row < grid.rows; ++row) {
            const std::string_view words = cell_of(table, row, column);
            width = std::max(width, columns_of(words));
            if (!words.empty() && !is_number(words)) grid.numbers[column] = false;
        }
    }
    return grid;
}

/// Notes are numbered and stand below, so that the figures keep their columns.
class NumberedNotes {
public:
    /// "  (1)", or nothing where the row has no note.
    std::string mark_of(const PrintedTable& table, std::size_t row) {
        if (row >= table.notes.size() || table.notes[row].empty()) return {};
        auto at = std::find(notes_.begin(), notes_.end(), table.notes[row]);
        if (at == notes_.end()) at = notes_.insert(notes_.end(), table.notes[row]);
        return "  (" + std::to_string(at - notes_.begin() + 1) + ")";
    }

    [[nodiscard]] std::string text(const Style& style) const {
        std::string text = notes_.empty() ? "" : "\n";
        for (std::size_t i = 0; i < notes_.size(); ++i) {
            const std::string number = "(" + std::to_string(i + 1) + ") ";
            text += wrap(printable(spelled(notes_[i], style), style), style, number, number.size());
        }
        return text;
    }

private:
    std::vector<std::string_view> notes_;
};

template <class Words>
std::string row_text(const Grid& grid, const Style& style, Words words_in, const std::string& note = {}) {
    std::string row;
    for (std::size_t column = 0; column < grid.widths.size(); ++column) {
        const std::string words = printable(spelled(words_in(column), style), style);
        row += column == 0 ? "" : "  ";
        row += grid.numbers[column] ? padded_left(words, grid.widths[column]) : padded(words, grid.widths[column]);
    }
    row += note;
    row.erase(row.find_last_not_of(' ') + 1);
    return row;
}

std::string in_columns(const PrintedTable& table, const Grid& grid, const Style& style) {
    const auto& columns = table.columns;
    std::string text =
        bold(row_text(grid, style, [&](std::size_t column) { return columns[column].name; }), style) + "\n";
    if (std::any_of(columns.begin(), columns.end(), [](const auto& column) { return !column.unit.empty(); }))
        text += row_text(grid, style, [&](std::size_t column) { return columns[column].unit; }) + "\n";
    NumberedNotes notes;
    for (std::size_t row = 0; row < grid.rows; ++row)
        text += row_text(
                    grid, style, [&](std::size_t column) { return cell_of(table, row, column); },
                    notes.mark_of(table, row)) +
                "\n";
    return text + notes.text(style);
}

}  // namespace

std::string list_tables(const Tables& tables, const Style& style) {
    std::size_t names = 0;
    for (const PrintedTable& table : tables.printed) names = std::max(names, columns_of(table.name));
    std::string text;
    for (const PrintedTable& table : tables.printed) {
        const std::string title = std::string(table.title) + " (" + std::string(show(table.source.standing)) + ")";
        text += wrap(printable(spelled(title, style), style), style, bold(padded(table.name, names), style) + "  ",
                     names + 2);
    }
    text += "\n";
    text += wrap(
        "\"read\": seen in the text of the named source. \"from memory\": recalled from it, not seen. The rest says it "
        "in words. One table with all its figures: voltwright tables NAME. The keys of a profile: voltwright "
        "tables keys",
        style);
    return text;
}

std::string show_table(const PrintedTable& table, const Style& style) {
    const std::string text = head_of(table, style) + "\n";
    const Grid grid = grid_of(table);
    if (grid.width() + (table.notes.empty() ? 0 : note_mark) > static_cast<std::size_t>(std::max(style.width, 1)))
        return text + in_blocks(table, grid.rows, style);
    return text + in_columns(table, grid, style);
}

}  // namespace voltwright
