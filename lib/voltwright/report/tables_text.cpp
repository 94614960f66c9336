#include "voltwright/report/tables_text.hpp"

#include <algorithm>
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
    const std::size_t across = table.columns.size();
    const std::size_t rows = across == 0 ? 0 : table.cells.size() / across;
    const auto cell = [&](std::size_t row, std::size_t column) { return table.cells[row * across + column]; };

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
    text += "\n";

    std::vector<std::size_t> widths(across);
    std::vector<bool> numbers(across, true);
    for (std::size_t column = 0; column < across; ++column) {
        widths[column] = std::max(columns_of(table.columns[column].name), columns_of(table.columns[column].unit));
        for (std::size_t row = 0; row < rows; ++row) {
            const std::string_view words = cell(row, column);
            widths[column] = std::max(widths[column], columns_of(words));
            if (!words.empty() && !is_number(words)) numbers[column] = false;
        }
    }
    std::size_t width = 2 * (std::max<std::size_t>(across, 1) - 1);
    for (const std::size_t column : widths) width += column;
    if (!table.notes.empty()) width += 5;  // "  (1)"
    if (width > static_cast<std::size_t>(std::max(style.width, 1))) return text + in_blocks(table, rows, style);
    // Notes are numbered and stand below, so that the figures keep their columns.
    std::vector<std::string_view> notes;
    const auto note_of = [&](std::size_t row) -> std::string {
        if (row >= table.notes.size() || table.notes[row].empty()) return {};
        auto at = std::find(notes.begin(), notes.end(), table.notes[row]);
        if (at == notes.end()) at = notes.insert(notes.end(), table.notes[row]);
        return "  (" + std::to_string(at - notes.begin() + 1) + ")";
    };
    const auto add_row = [&](auto&& words_in, const std::string& note) {
        std::string row;
        for (std::size_t column = 0; column < across; ++column) {
            const std::string words = printable(spelled(words_in(column), style), style);
            row += column == 0 ? "" : "  ";
            row += numbers[column] ? padded_left(words, widths[column]) : padded(words, widths[column]);
        }
        row += note;
        row.erase(row.find_last_not_of(' ') + 1);
        return row + "\n";
    };
    std::string heads = add_row([&](std::size_t column) { return table.columns[column].name; }, {});
    heads.pop_back();
    text += bold(heads, style) + "\n";
    if (std::any_of(table.columns.begin(), table.columns.end(),
                    [](const auto& column) { return !column.unit.empty(); }))
        text += add_row([&](std::size_t column) { return table.columns[column].unit; }, {});
    for (std::size_t row = 0; row < rows; ++row)
        text += add_row([&](std::size_t column) { return cell(row, column); }, note_of(row));
    if (!notes.empty()) text += "\n";
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const std::string number = "(" + std::to_string(i + 1) + ") ";
        text += wrap(printable(spelled(notes[i], style), style), style, number, number.size());
    }
    return text;
}

}  // namespace voltwright
