#include "voltwright/files/document.hpp"

#include "voltwright/files/lines.hpp"
#include "voltwright/files/preflight.hpp"
#include "voltwright/files/toml.hpp"
#include "voltwright/units/characters.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <tuple>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace voltwright {

namespace {

constexpr std::size_t largest = 1024 * 1024;
constexpr std::size_t longest_line = 4000;
constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";

constexpr std::string_view too_large = "this is more than 1 MiB; a profile is a page of text";

Diagnostics as_a_whole(std::string name, std::string_view what, std::string hint = {}) {
    return {{std::move(name), {}, {}, std::string(what), std::move(hint), {}}};
}

Diagnostic at_place(const std::string& name, std::string_view text, const TextPlace& place, std::string what,
                    std::string hint) {
    return {name, place, std::string(line_of(text, place.line)), std::move(what), std::move(hint), {}};
}

/// Closes the file that it was given, unless it is standard input.
struct Opened {
    int file;
    explicit Opened(int opened) : file(opened) {}
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;
    ~Opened() {
        if (file > 0) ::close(file);
    }
};

std::string cannot_be_read(int error) {
    switch (error) {
        case ENOENT: return "there is no such file";
        case ENOTDIR: return "there is no such file; a part of its path is no directory";
        case EACCES:
        case EPERM: return "you have no permission to read this file";
        case EISDIR: return "this is a directory; a profile is a text file";
        case ENAMETOOLONG: return "this name is too long for a file";
        case ELOOP: return "this link leads in a circle";
        default: return "this file cannot be read: " + std::string(std::strerror(error));
    }
}

/// Where a byte stands: line and column in characters.
TextPlace place_of(std::string_view text, std::size_t at) {
    const std::string_view before = text.substr(0, at);
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const std::size_t line_begin = before.rfind('\n') + 1;  // npos + 1 is 0
    return {static_cast<int>(line), static_cast<int>(characters_in(before.substr(line_begin))) + 1, 1};
}

/// What no profile's text may have, before anybody reads it as TOML.
std::optional<Diagnostic> unfit(const std::string& name, std::string_view text) {
    if (text.substr(0, 2) == "\xff\xfe" || text.substr(0, 2) == "\xfe\xff")
        return Diagnostic{name, {}, {}, "this is UTF-16 text", "save it as UTF-8", {}};
    if (const std::size_t at = text.find('\0'); at != std::string_view::npos)
        return at_place(name, text, place_of(text, std::min(at, first_that_is_not_utf8(text))),
                        "this is no text file: it has a byte of value 0", {});
    std::size_t begin = 0;
    for (int line = 1; begin < text.size(); ++line) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        if (end - begin > longest_line)
            return at_place(name, text, {line, 1, 1},
                            "this line has more than " + std::to_string(longest_line) + " bytes",
                            "break it: a list may run over several lines");
        begin = end + 1;
    }
    return {};
}

/// The text with a question mark for each character beyond ASCII from a place on that is no TOML: the reader is to report
/// the place, and may not survive such a character outside quotes. Columns stay what they are.
std::string tamed(std::string_view text, std::size_t from) {
    std::string result(text.substr(0, from));
    for (std::size_t at = from; at < text.size();) {
        const std::size_t bytes = std::max<std::size_t>(character_at(text, at).bytes, 1);
        result += bytes == 1 ? text[at] : '?';
        at += bytes;
    }
    return result;
}

/// The text without its comments, which end their lines: all else stands where it stood. The reader takes as long over a
/// comment as over a value. A comment that is no TOML is left for it to report.
std::string without_comments(std::string_view text, const Preflight& look) {
    std::string result;
    result.reserve(text.size());
    std::size_t from = 0;
    for (const auto& [begin, end] : look.comments) {
        const std::string_view comment = text.substr(begin, end - begin);
        const bool fit = std::none_of(comment.begin(), comment.end(), [](char c) {
            return (c >= 0 && c < ' ' && c != '\t' && c != '\r') || c == '\x7f';
        });
        if (!fit) continue;
        result += text.substr(from, begin - from);
        from = end;
    }
    result += text.substr(from);
    return result;
}

void forget_places(Entry& entry) {
    entry.place = entry.key_place = TextPlace{};
    if (Entry::List* list = entry.list())
        for (Entry& element : *list) forget_places(element);
    if (Entry::Section* section = entry.section())
        for (auto& [name, value] : *section) forget_places(value);
}

}  // namespace

Result<Document, Diagnostics> read_document(const std::string& path) {
    const bool standard_input = path == "-";
    const std::string name = standard_input ? "standard input" : path.empty() ? "\"\"" : path;
    // Not to wait for the other end of a named pipe.
    const Opened opened(standard_input ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    if (opened.file < 0) return as_a_whole(name, cannot_be_read(errno));
    if (!standard_input) {
        struct stat about = {};
        if (::fstat(opened.file, &about) != 0) return as_a_whole(name, cannot_be_read(errno));
        if (S_ISDIR(about.st_mode)) return as_a_whole(name, cannot_be_read(EISDIR));
        if (!S_ISREG(about.st_mode))
            return as_a_whole(name, "this is no plain file", "to read from a pipe, give - instead of a file");
        if (about.st_size > static_cast<off_t>(largest)) return as_a_whole(name, too_large);
    }

    // Piece by piece: most profiles are a page, and a megabyte of zeros takes longer than all the rest.
    std::array<char, 4096> piece;
    std::string text;
    while (text.size() <= largest) {
        const ssize_t got = ::read(opened.file, piece.data(), piece.size());
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return as_a_whole(name, cannot_be_read(errno));
        if (got == 0) break;
        text.append(piece.data(), static_cast<std::size_t>(got));
    }
    if (text.size() > largest) return as_a_whole(name, too_large);
    return read_document_text(name, std::move(text));
}

Result<Document, Diagnostics> read_document_text(std::string name, std::string text) {
    if (text.size() > largest) return as_a_whole(std::move(name), too_large);
    if (text.compare(0, byte_order_mark.size(), byte_order_mark) == 0) text.erase(0, byte_order_mark.size());
    if (auto diagnostic = unfit(name, text)) return Diagnostics{std::move(*diagnostic)};
    if (const std::size_t at = first_that_is_not_utf8(text); at < text.size())
        return Diagnostics{
            at_place(name, text, place_of(text, at), "this is not UTF-8 text", "save the file as UTF-8")};

    Diagnostics diagnostics;
    Preflight look = preflight(text);
    for (Slip& slip : look.slips)
        diagnostics.push_back(at_place(name, text, slip.place, std::move(slip.what), std::move(slip.hint)));
    if (!diagnostics.empty()) return diagnostics;

    auto read =
        look.sound_to < text.size() ? read_toml(tamed(text, look.sound_to)) : read_toml(without_comments(text, look));
    if (auto* errors = std::get_if<std::vector<TomlError>>(&read)) {
        for (TomlError& error : *errors)
            diagnostics.push_back(at_place(name, text, error.place, std::move(error.what), std::move(error.hint)));
        std::stable_sort(diagnostics.begin(), diagnostics.end(), [](const Diagnostic& a, const Diagnostic& b) {
            return std::tuple(a.place.line, a.place.column) < std::tuple(b.place.line, b.place.column);
        });
        return diagnostics;
    }
    return Document{std::move(name), std::move(text), std::move(std::get<Entry>(read))};
}

Entry read_override_value(std::string_view text) {
    Entry as_it_stands{std::string(text), {}, {}, {}};
    const std::string line = "value = " + std::string(text);
    if (line.size() > longest_line || line.find_first_of("\n\r") != std::string::npos) return as_it_stands;
    if (unfit({}, line) || first_that_is_not_utf8(line) < line.size()) return as_it_stands;
    const Preflight look = preflight(line);
    if (!look.slips.empty() || look.sound_to < line.size()) return as_it_stands;
    auto read = read_toml(line);
    Entry* root = std::get_if<Entry>(&read);
    Entry* value = root && root->section() && root->section()->size() == 1 ? root->find("value") : nullptr;
    if (!value) return as_it_stands;
    // A comment behind the value: then it was meant as a text.
    const std::size_t end = static_cast<std::size_t>(value->place.column - 1 + value->place.length);
    if (end < characters_in(line.substr(0, line.find_last_not_of(" \t") + 1))) return as_it_stands;
    Entry result = std::move(*value);
    forget_places(result);
    return result;
}

Diagnostics locate(const Document& document, const Faults& faults) {
    Diagnostics diagnostics;
    diagnostics.reserve(faults.size());
    for (const Fault& fault : faults) {
        const Entry& entry = nearest(document.root, fault.path);
        const bool at_key = fault.at_key && entry.key_place.line > 0;
        Diagnostic diagnostic =
            at_place(document.name, document.text, at_key ? entry.key_place : entry.place, fault.what, fault.hint);
        diagnostic.said = entry.said;
        diagnostics.push_back(std::move(diagnostic));
    }
    // First what stands in the file, then what the file lacks, then what was said on the command line.
    const auto order = [](const Diagnostic& d) {
        return std::tuple(!d.said.empty(), d.place.line == 0, d.place.line, d.place.column);
    };
    std::stable_sort(diagnostics.begin(), diagnostics.end(),
                     [&](const Diagnostic& a, const Diagnostic& b) { return order(a) < order(b); });
    return diagnostics;
}

}  // namespace voltwright
