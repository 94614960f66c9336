#include "cli/verb.hpp"

#include "voltwright/files/document.hpp"
#include "voltwright/files/standing_file.hpp"
#include "voltwright/units/parse.hpp"

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <utility>

#include <unistd.h>

namespace voltwright::cli {

namespace {

/// 0, or the error. A reader who has seen enough is none.
int write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(file, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno == EPIPE ? 0 : errno;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

/// What is read, by the name under which it was said, and what it is.
constexpr std::pair<std::string_view, std::string_view> read_files[] = {
    {"PROFILE", "the profile"}, {"OTHER", "the other profile"}, {"--prices", "the price list"}};

/// Whether somebody else's words would go. Some answers tell by their beginning that they are ours.
bool is_of_others(const std::string& path, std::string_view page, const Verb* verb) {
    constexpr std::size_t enough = 512;
    return holds_other_words(path, page) && !(verb && verb->is_own && verb->is_own(beginning_of(path, enough)));
}

}  // namespace

std::span<const std::string> Call::all(std::string_view name) const {
    for (const auto& [option, values] : said)
        if (option == name) return values;
    return {};
}

std::string Call::text(std::string_view name, std::string_view otherwise) const {
    const std::span<const std::string> values = all(name);
    return values.empty() ? std::string(otherwise) : values.back();
}

long Call::number(std::string_view name, long otherwise) const {
    const std::span<const std::string> values = all(name);
    return values.empty() ? otherwise : std::strtol(values.back().c_str(), nullptr, 10);
}

std::string Call::would_be_lost() const {
    const std::string path = text("-o", "-");
    if (path == "-") return {};
    for (const auto& [name, what] : read_files)
        if (given(name) && leads_to_what_is_read(path, text(name)))
            return path + " is " + std::string(what) + " itself and was left as it is; choose another name";
    return {};
}

int Call::answer(const Forms& forms, int code) const {
    if (quiet() && forms.line) return answer(forms.line() + "\n", code);
    const std::string form = text("--format");
    if (form == "json" && forms.json) return answer(forms.json(), code);
    if (form == "csv" && forms.csv) return answer(forms.csv(), code);
    return answer(forms.page(), code);
}

int Call::answer(std::string_view page, int code) const {
    const std::string path = text("-o", "-");
    if (path != "-") {
        if (!given("--force") && is_of_others(path, page, verb))
            return complain(path +
                            " is there already, is not as voltwright wrote it, and was left as it is; choose another "
                            "name, or say --force");
        const auto trouble = write_whole(path, page);
        return trouble ? complain(path + ": " + *trouble) : code;
    }
    const int error = write_all(STDOUT_FILENO, page);
    return error == 0 ? code : complain(std::string("the answer cannot be written: ") + std::strerror(error));
}

int Call::say(std::string_view words, int code) const {
    const int error = write_all(STDOUT_FILENO, printable(spelled(words, style), style) + "\n");
    return error == 0 ? code : complain(std::string("the answer cannot be written: ") + std::strerror(error));
}

int Call::complain(std::string_view words, int code) const {
    write_all(STDERR_FILENO, "voltwright: " + printable(spelled(words, error_style), error_style) + "\n");
    return code;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string_view>& known, std::string_view quote) {
    const auto nearest = nearest_word(word, known);
    if (!nearest) return {};
    return "; did you mean " + std::string(quote).append(*nearest).append(quote) + "?";
}

}  // namespace voltwright::cli
