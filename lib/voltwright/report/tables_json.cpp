#include "voltwright/report/tables_json.hpp"

#include <nlohmann/json.hpp>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

Json text_or_null(std::string_view text) { return text.empty() ? Json(nullptr) : Json(text); }

Json head(const PrintedTable& table) {
    return {
        {"name", table.name},
        {"title", table.title},
        {"applies", table.applies},
        {"source", {{"id", table.source.id}, {"cite", table.source.cite}, {"standing", show(table.source.standing)}}}};
}

std::string page(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

}  // namespace

std::string list_tables_json(const Tables& tables) {
    Json list = Json::array();
    for (const PrintedTable& table : tables.printed) list.push_back(head(table));
    return page({{"tables", std::move(list)}});
}

std::string show_table_json(const PrintedTable& table) {
    Json json = head(table);
    json["terms"] = text_or_null(table.terms);
    json["entered"] = text_or_null(table.entered);
    Json columns = Json::array();
    for (const auto& column : table.columns)
        columns.push_back({{"name", column.name}, {"unit", text_or_null(column.unit)}});
    json["columns"] = std::move(columns);
    Json rows = Json::array(), notes = Json::array();
    const std::size_t across = table.columns.size();
    for (std::size_t row = 0; across > 0 && row < table.cells.size() / across; ++row) {
        Json cells = Json::array();
        for (std::size_t column = 0; column < across; ++column)
            cells.push_back(text_or_null(table.cells[row * across + column]));
        rows.push_back(std::move(cells));
        notes.push_back(row < table.notes.size() ? text_or_null(table.notes[row]) : Json(nullptr));
    }
    json["rows"] = std::move(rows);
    json["notes"] = std::move(notes);
    return page(json);
}

}  // namespace voltwright
