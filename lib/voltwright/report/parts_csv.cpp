#include "voltwright/messages/parts.hpp"
#include "voltwright/report/parts_text.hpp"
#include "voltwright/report/phrases.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace voltwright {

namespace {

/// A quantity with so many digits behind the point; nothing where there is none.
template <class Quantity, class Reader>
std::string number_cell(const std::optional<Quantity>& quantity, Reader reader, int digits) {
    return quantity ? fmt::format("{:.{}f}", reader(*quantity), digits) : std::string();
}

std::string ampere_cell(const std::optional<Current>& current) {
    return current ? fmt::format("{:g}", in_amperes(*current)) : std::string();
}

std::string money_cell(const std::optional<Money>& amount, int decimals) {
    return amount ? show(*amount, decimals) : std::string();
}

/// The cells of a line; texts of others' are made safe.
std::vector<std::string> cells_of(const Part& part, const PartsList& list) {
    return {csv_cell(show(part.kind)),
            csv_cell(part.what),
            csv_cell(part.size ? show(*part.size) : ""),
            number_cell(part.insulation, &in_celsius, 0),
            csv_cell(part.colour),
            ampere_cell(part.rating),
            ampere_cell(part.at_least),
            csv_cell(part.stud ? show(*part.stud) : ""),
            number_cell(part.bore, &in_millimetres, 1),
            number_cell(part.length, &in_metres, 1),
            part.length ? "" : std::to_string(part.count),
            std::to_string(part.spare),
            number_cell(part.mass, &in_kilograms, 3),
            money_cell(part.price, list.decimals),
            csv_cell(sold_in_words(part)),
            money_cell(part.cost, list.decimals),
            csv_cell(list.currency),
            csv_cell(joined(part.runs))};
}

}  // namespace

std::string csv_cell(std::string_view text) {
    std::string cell = printable(text, Style{});
    std::replace(cell.begin(), cell.end(), '\t', ' ');
    const std::size_t first = cell.find_first_not_of(' ');
    if (first != std::string::npos && std::string_view("=+-@").find(cell[first]) != std::string_view::npos)
        cell.insert(0, "'");
    // The wide twins of these signs are taken for them by some.
    for (const std::string_view wide : {"\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"})
        if (first != std::string::npos && std::string_view(cell).substr(first).starts_with(wide)) cell.insert(0, "'");
    if (cell.find_first_of(",;\"\r\n'") == std::string::npos) return cell;
    std::string quoted = "\"";
    for (const char c : cell) quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

std::string parts_csv(const PartsList& list) {
    std::string text =
        "kind,what,size,insulation_C,colour,rating_A,at_least_A,stud,bore_mm,length_m,count,spare,mass_kg,price,sold,"
        "cost,currency,for\n";
    for (const Part& part : list.parts) text += joined(cells_of(part, list), ",") + "\n";
    return text;
}

}  // namespace voltwright
