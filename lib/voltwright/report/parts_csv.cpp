#include "voltwright/report/part_words.hpp"
#include "voltwright/report/parts_text.hpp"
#include "voltwright/report/phrases.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace voltwright {

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
        "cost,"
        "currency,for\n";
    for (const Part& part : list.parts) {
        const auto number = [](auto quantity, auto reader, int digits) {
            return quantity ? fmt::format("{:.{}f}", reader(*quantity), digits) : std::string();
        };
        const auto money = [&](const std::optional<Money>& amount) {
            return amount ? show(*amount, list.decimals) : std::string();
        };
        text += csv_cell(show(part.kind)) + "," + csv_cell(part.what) + "," +
                csv_cell(part.size ? show(*part.size) : "") + "," + number(part.insulation, &in_celsius, 0) + "," +
                csv_cell(part.colour) + "," + (part.rating ? fmt::format("{:g}", in_amperes(*part.rating)) : "") + "," +
                (part.at_least ? fmt::format("{:g}", in_amperes(*part.at_least)) : "") + "," +
                csv_cell(part.stud ? show(*part.stud) : "") + "," + number(part.bore, &in_millimetres, 1) + "," +
                number(part.length, &in_metres, 1) + "," + (part.length ? "" : std::to_string(part.count)) + "," +
                std::to_string(part.spare) + "," + number(part.mass, &in_kilograms, 3) + "," + money(part.price) + "," +
                csv_cell(sold_in_words(part)) + "," + money(part.cost) + "," + csv_cell(list.currency) + "," +
                csv_cell(joined(part.runs)) + "\n";
    }
    return text;
}

}  // namespace voltwright
