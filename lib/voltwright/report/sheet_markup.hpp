#pragma once

#include <string>
#include <string_view>
#include <vector>

/// What every section of the sheet is made of. Text goes through `words`, always.
namespace voltwright::sheet {

/// A text of the plan's, safe and with its signs.
std::string words(std::string_view text);

std::string paragraph(std::string_view text);

/// A section with its heading; nothing around nothing. A `whole` one stays on one sheet of paper.
std::string section(std::string_view id, std::string_view heading, const std::string& body, bool whole = false);

/// Two short sections that stand side by side on paper.
std::string side_by_side(const std::string& one, const std::string& other);

/// A box to tick that works on a phone as well, and its words.
std::string check(const std::string& safe_words);

/// A list of lines, of a class where one is named; nothing of none.
std::string list_of(const std::vector<std::string>& lines, std::string_view kind = {});

}  // namespace voltwright::sheet
