#pragma once

#include "voltwright/report/terminal.hpp"

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// The command line: a verb is read, called, and its answer printed.
namespace voltwright::cli {

/// What the program ends with.
enum Exit : int {
    holds = 0,  ///< the plan holds, or a question was answered
    fails = 1,  ///< `plan`, `trip`, `replan`, `autonomy`: it does not hold
    wrong_usage = 2,
    unusable = 3,  ///< the profile or a table cannot be used
    our_fault = 4,
};

/// The heading of the help under which a verb stands.
enum class Group { plan, change, fit, look };

/// What follows an option's name.
enum class Takes { nothing, text, whole_number, one_of };

struct Option {
    std::string_view name;  ///< `--run`
    Takes takes = Takes::nothing;
    std::string_view value = {};  ///< what the help calls it: `NAME`
    std::string_view help = {};
    std::span<const std::string_view> choices = {};  ///< of `one_of`
    long least = 0, most = 0;                        ///< of `whole_number`, both allowed
    bool many = false;                               ///< may be given more than once
    char letter = '\0';                              ///< `o` for `-o`
};

struct Argument {
    std::string_view name;  ///< `PROFILE`
    std::string_view help;
    bool required = true;
    std::vector<std::string> (*words)() = nullptr;  ///< all that it may be, where that can be listed
};

class Call;

/// A verb describes itself; help, manual, completions and the reading of the command line come from it.
struct Verb {
    std::string_view name;
    Group group;
    std::string_view line;                     ///< what it does, in one line
    std::span<const Argument> arguments = {};  ///< the first is PROFILE where `profile` says so
    std::span<const Option> options = {};      ///< its own, before the common ones
    std::span<const std::string_view> formats =
        {};                ///< what `--format` takes, the usual one first; empty: no `--format`
    bool profile = false;  ///< takes a profile: `--set` and `-q` as well
    int (*run)(const Call& call) = nullptr;
    /// Whether a file that begins so is one of this verb's answers, where such a beginning tells.
    bool (*is_own)(std::string_view beginning) = nullptr;
};

inline constexpr std::string_view text_or_json[] = {"text", "json"};
inline constexpr std::string_view text_json_or_csv[] = {"text", "json", "csv"};
inline constexpr Argument profile_argument = {
    "PROFILE", "the file that describes the vehicle and the trip; - reads standard input"};
inline constexpr Argument profile_alone[] = {profile_argument};

/// What a verb that takes a profile has beside its run.
struct ProfileVerb {
    std::string_view name;
    Group group;
    std::string_view line;
    std::span<const Option> options = {};
    std::span<const std::string_view> formats = text_or_json;
    std::span<const Argument> arguments = profile_alone;
};

/// A verb that answers from a profile, on a page unless another form is asked for.
constexpr Verb profile_verb(const ProfileVerb& verb, int (*run)(const Call& call)) {
    return {.name = verb.name,
            .group = verb.group,
            .line = verb.line,
            .arguments = verb.arguments,
            .options = verb.options,
            .formats = verb.formats,
            .profile = true,
            .run = run};
}

/// An answer in each of its forms; each is made only when it is asked for.
struct Forms {
    std::function<std::string()> line = {};  ///< for `-q`; empty: the page all the same
    std::function<std::string()> page;
    std::function<std::string()> json = {}, csv = {};
};

/// What was said on the command line, once it has been found well formed.
class Call {
public:
    const Verb* verb = nullptr;
    std::vector<std::pair<std::string_view, std::vector<std::string>>> said;  ///< options and arguments by their names
    Style style;        ///< of what goes to standard output or a file
    Style error_style;  ///< of what goes to standard error

    /// Whether an option or an argument was given.
    [[nodiscard]] bool given(std::string_view name) const { return !all(name).empty(); }
    /// Its text, or `otherwise`; the last one when it was given more than once.
    [[nodiscard]] std::string text(std::string_view name, std::string_view otherwise = {}) const;
    [[nodiscard]] long number(std::string_view name, long otherwise) const;
    /// All its values in order.
    [[nodiscard]] std::span<const std::string> all(std::string_view name) const;

    [[nodiscard]] bool json() const { return text("--format") == "json"; }
    [[nodiscard]] bool quiet() const { return given("-q"); }

    /// Why no answer may go to the file of `-o`: it is one of those that are read. Empty when it may.
    [[nodiscard]] std::string would_be_lost() const;

    /// Writes the whole answer to standard output, or to the file of `-o`. Answers `code`, or `wrong_usage` when it
    /// cannot be written: not over a file that voltwright did not write, unless `--force` is given.
    [[nodiscard]] int answer(std::string_view page, int code = holds) const;
    /// The same of the form that the call asks for.
    [[nodiscard]] int answer(const Forms& forms, int code = holds) const;
    /// One line on standard output, beside an answer that went to a file. Answers `code`.
    [[nodiscard]] int say(std::string_view words, int code = holds) const;
    /// One line on standard error. Answers `code`.
    int complain(std::string_view words, int code = wrong_usage) const;
};

/// "; did you mean trip?", or nothing where no known word is near; the word between two `quote`.
std::string did_you_mean(std::string_view word, const std::vector<std::string_view>& known,
                         std::string_view quote = {});

}  // namespace voltwright::cli
