#include "cli/terminal.hpp"
#include "cli/verbs.hpp"
#include "voltwright/units/scan.hpp"

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>

#include <algorithm>
#include <charconv>
#include <deque>
#include <exception>

#include <unistd.h>

namespace voltwright::cli {

namespace {

/// The name under which an option's values are kept: its long one, or `-o`.
std::string_view kept_name(const Option& option) {
    if (!option.name.empty()) return option.name;
    return option.letter == 'o' ? "-o" : "-q";
}

std::string trouble_with_choice(const Option& option, const std::string& value) {
    if (std::find(option.choices.begin(), option.choices.end(), value) != option.choices.end()) return {};
    std::string known;
    for (const std::string_view choice : option.choices) known += (known.empty() ? "" : ", ") + std::string(choice);
    return std::string(kept_name(option)) + " takes one of " + known + "; this is " + in_quotes(value);
}

std::string trouble_with_number(const Option& option, const std::string& value) {
    long number = 0;
    const char* last = value.data() + value.size();
    const auto [end, error] = std::from_chars(value.data(), last, number);
    if (error == std::errc() && end == last && number >= option.least && number <= option.most) return {};
    return std::string(kept_name(option)) + " takes a whole number from " + std::to_string(option.least) + " to " +
           std::to_string(option.most) + "; this is " + in_quotes(value);
}

/// What is wrong with the values of an option, or nothing.
std::string trouble_with(const Option& option, const std::vector<std::string>& values) {
    if (values.size() > 1 && !option.many) return std::string(kept_name(option)) + " is given more than once";
    for (const std::string& value : values) {
        std::string trouble;
        if (option.takes == Takes::one_of) trouble = trouble_with_choice(option, value);
        if (option.takes == Takes::whole_number) trouble = trouble_with_number(option, value);
        if (!trouble.empty()) return trouble;
    }
    return {};
}

/// What a word too many was probably meant as.
std::string way_on(const Verb& verb, const std::string& extra) {
    if (verb.arguments.empty()) return "; for a file: voltwright " + std::string(verb.name) + " -o " + extra;
    return verb.profile ? "; a file name with blanks stands in quotes" : "";
}

/// A command line that cannot be read, and why.
struct Misuse {
    std::string what;
};

/// The command line of one verb: what it may hold, and what was said of it.
struct CommandLine {
    explicit CommandLine(const Verb& its_verb);
    CommandLine(const CommandLine&) = delete;  // the reader of words points into it
    CommandLine& operator=(const CommandLine&) = delete;

    const Verb& verb;
    std::vector<Option> options;
    std::deque<std::vector<std::string>> arguments, values;  ///< by argument, and by option
    std::deque<bool> flags;                                  ///< by option
    CLI::App app;
};

CommandLine::CommandLine(const Verb& its_verb)
    : verb(its_verb), options(its_verb.options.begin(), its_verb.options.end()) {
    for (const Option& option : common_options(verb)) options.push_back(option);
    for (const Argument& argument : verb.arguments)
        app.add_option(std::string(argument.name), arguments.emplace_back())->expected(1)->allow_extra_args(false);
    for (const Option& option : options) {
        std::string names = option.letter != '\0' ? std::string("-") + option.letter : std::string();
        if (!option.name.empty()) names += (names.empty() ? "" : ",") + std::string(option.name);
        values.emplace_back();
        flags.push_back(false);
        if (option.takes == Takes::nothing)
            app.add_flag(names, flags.back());
        else
            app.add_option(names, values.back())->allow_extra_args(false);
    }
}

/// Of words that have no place in the line.
std::string trouble_with_extras(const CommandLine& line) {
    const std::vector<std::string> extras = line.app.remaining();
    const std::string extra = extras.empty() ? std::string() : extras.front();
    if (extra.size() < 2 || extra[0] != '-')
        return in_quotes(extra) + " is one word too many" + way_on(line.verb, extra);
    std::vector<std::string_view> known;
    for (const Option& option : line.options)
        if (!option.name.empty()) known.push_back(option.name);
    const std::string bare = extra.substr(0, extra.find('='));
    return bare + " is no option of this verb" + did_you_mean(bare, known);
}

/// Reads the words into it. False where help was asked for.
bool read_words(CommandLine& line, int count, const char* const* words) {
    try {
        line.app.parse(count, words);
    } catch (const CLI::CallForHelp&) {
        return false;
    } catch (const CLI::ExtrasError&) {
        throw Misuse{trouble_with_extras(line)};
    } catch (const CLI::ArgumentMismatch& error) {
        const std::string what = error.what();
        throw Misuse{what.substr(0, what.find(':')) + " wants a value"};
    } catch (const CLI::ParseError& error) {
        throw Misuse{error.what()};
    }
    return true;
}

/// Puts what was said into the call, once it is found well formed.
void take_words(CommandLine& line, Call& call) {
    for (std::size_t i = 0; i < line.arguments.size(); ++i) {
        const Argument& argument = line.verb.arguments[i];
        std::vector<std::string>& given = line.arguments[i];
        if (argument.required && given.empty()) throw Misuse{std::string(argument.name) + " is missing"};
        if (!given.empty()) call.said.emplace_back(argument.name, std::move(given));
    }
    for (std::size_t i = 0; i < line.options.size(); ++i) {
        const Option& option = line.options[i];
        std::vector<std::string>& given = line.values[i];
        if (line.flags[i]) given.emplace_back("yes");
        if (std::string trouble = trouble_with(option, given); !trouble.empty()) throw Misuse{std::move(trouble)};
        if (!given.empty()) call.said.emplace_back(kept_name(option), std::move(given));
    }
    if (call.given("-o") && call.text("-o").empty()) throw Misuse{"-o wants the name of a file; - is standard output"};
}

void take_styles(Call& call) {
    const bool to_a_file = call.text("-o", "-") != "-";
    const bool ascii = call.given("--ascii");
    const std::string colour = call.text("--color", "auto");
    call.style = style_of(to_a_file ? -1 : STDOUT_FILENO, static_cast<int>(call.number("--width", 0)), ascii, colour);
    call.error_style = style_of(STDERR_FILENO, 0, ascii, colour);
}

/// Reads the command line of one verb and runs it; answers what the program ends with.
int run(const Verb& verb, int count, const char* const* words) {
    Call call;
    call.verb = &verb;
    call.error_style = style_of(STDERR_FILENO, 0, false, "auto");
    CommandLine line(verb);
    try {
        if (!read_words(line, count, words)) return call.answer(help(verb));
        take_words(line, call);
    } catch (const Misuse& misuse) {
        const std::string name(verb.name);
        return call.complain(name + ": " + misuse.what + " (voltwright " + name + " --help tells more)");
    }
    take_styles(call);
    if (const std::string lost = call.would_be_lost(); !lost.empty()) return call.complain(lost);
    return verb.run(call);
}

int run(int count, const char* const* words) {
    Call call;
    call.error_style = style_of(STDERR_FILENO, 0, false, "auto");
    const std::string_view first = count > 1 ? words[1] : "";
    if (first == "--help" || first == "-h" || first == "help") return call.answer(help());
    if (first == "--version") return call.answer("voltwright " VOLTWRIGHT_VERSION "\n");
    if (count < 2)
        return call.complain("a verb is missing, such as: voltwright plan camp.toml (voltwright --help lists them)");
    if (first.substr(0, 1) == "-") return call.complain("the verb comes first, such as: voltwright plan camp.toml");
    if (const Verb* verb = find_verb(first)) return run(*verb, count - 1, words + 1);
    std::vector<std::string_view> known;
    for (const Verb* verb : verbs()) known.push_back(verb->name);
    return call.complain(in_quotes(first) + " is no verb of voltwright" + did_you_mean(first, known) +
                         " (voltwright --help lists them)");
}

}  // namespace

}  // namespace voltwright::cli

int main(int count, char** words) {
    using namespace voltwright::cli;
    const auto our_own = [](const char* what) {
        return Call().complain(std::string("this is a fault of voltwright's own, please report it: ") + what,
                               our_fault);
    };
    try {
        return run(count, words);
    } catch (const std::exception& fault) {
        return our_own(fault.what());
    } catch (...) {
        return our_own("unknown");
    }
}
