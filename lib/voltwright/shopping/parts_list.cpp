#include "voltwright/shopping/parts_list.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

void note_once(std::vector<PartsNote>& notes, PartsNote note) {
    if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(std::move(note));
}

void name_once(std::vector<std::string>& names, const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

std::optional<bool> PartsList::within_budget() const {
    if (!budget || !total) return {};
    if (*total > *budget) return false;
    return unpriced.empty() ? std::optional(true) : std::nullopt;
}

Part& add(PartsList& list, Part part, const std::string& run) {
    const auto line =
        std::find_if(list.parts.begin(), list.parts.end(), [&](const Part& other) { return same_line(other, part); });
    if (line == list.parts.end()) {
        part.runs = {run};
        return list.parts.emplace_back(std::move(part));
    }
    if (part.length)
        *line->length += *part.length;
    else
        line->count += part.count;
    name_once(line->runs, run);
    return *line;
}

}  // namespace voltwright
