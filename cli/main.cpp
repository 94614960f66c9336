#include "cli/terminal.hpp"
#include "cli/verbs.hpp"
#include "voltwright/units/parse.hpp"

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

std::string did_you_mean(std::string_view word, const std::vector<std::string_view>& known) {
    const auto nearest = nearest_word(word, known);
    return nearest ? "; did you mean " + std::string(*nearest) + "?" : std::string();
}

std::string in_quotes(std::string_view word) { return "\"" + std::string(word) + "\""; }

/// What is wrong with a value, or nothing.
std::string trouble_with(const Option& option, const std::string& value) {
    const std::string name(kept_name(option));
    if (option.takes == Takes::one_of &&
        std::find(option.choices.begin(), option.choices.end(), value) == option.choices.end()) {
        std::string known;
        for (const std::string_view choice : option.choices) known += (known.empty() ? "" : ", ") + std::string(choice);
        return name + " takes one of " + known + "; this is " + in_quotes(value);
    }
    if (option.takes == Takes::whole_number) {
        long number = 0;
        const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), number);
        if (error != std::errc() || end != value.data() + value.size() || number < option.least || number > option.most)
            return name + " takes a whole number from " + std::to_string(option.least) + " to " +
                   std::to_string(option.most) + "; this is " + in_quotes(value);
    }
    return {};
}

/// What a word too many was probably meant as.
std::string way_on(const Verb& verb, const std::string& extra) {
    if (verb.arguments.empty()) return "; for a file: voltwright " + std::string(verb.name) + " -o " + extra;
    return verb.profile ? "; a file name with blanks stands in quotes" : "";
}

/// The command line of one verb, read: either the call, or what the program ends with.
int run(const Verb& verb, int count, const char* const* words) {
    std::vector<Option> options(verb.options.begin(), verb.options.end());
    for (const Option& option : common_options(verb)) options.push_back(option);

    Call call;
    call.verb = &verb;
    call.error_style = style_of(STDERR_FILENO, 0, false, "auto");
    const std::string name(verb.name);
    const auto misused = [&](const std::string& what) {
        return call.complain(name + ": " + what + " (voltwright " + name + " --help tells more)");
    };

    CLI::App app;
    std::deque<std::vector<std::string>> values(verb.arguments.size());
    for (std::size_t i = 0; i < verb.arguments.size(); ++i)
        app.add_option(std::string(verb.arguments[i].name), values[i])->expected(1)->allow_extra_args(false);
    std::deque<bool> flags;
    for (const Option& option : options) {
        std::string names = option.letter != '\0' ? std::string("-") + option.letter : std::string();
        if (!option.name.empty()) names += (names.empty() ? "" : ",") + std::string(option.name);
        values.emplace_back();
        flags.push_back(false);
        if (option.takes == Takes::nothing) {
            app.add_flag(names, flags.back());
            continue;
        }
        app.add_option(names, values.back())->allow_extra_args(false);
    }
    try {
        app.parse(count, words);
    } catch (const CLI::CallForHelp&) {
        return call.answer(help(verb));
    } catch (const CLI::ExtrasError&) {
        const std::vector<std::string> extras = app.remaining();
        const std::string extra = extras.empty() ? std::string() : extras.front();
        if (extra.size() < 2 || extra[0] != '-')
            return misused(in_quotes(extra) + " is one word too many" + way_on(verb, extra));
        std::vector<std::string_view> known;
        for (const Option& option : options)
            if (!option.name.empty()) known.push_back(option.name);
        const std::string bare = extra.substr(0, extra.find('='));
        return misused(bare + " is no option of this verb" + did_you_mean(bare, known));
    } catch (const CLI::ArgumentMismatch& error) {
        const std::string what = error.what();
        return misused(what.substr(0, what.find(':')) + " wants a value");
    } catch (const CLI::ParseError& error) {
        return misused(error.what());
    }

    for (std::size_t i = 0; i < verb.arguments.size(); ++i) {
        const Argument& argument = verb.arguments[i];
        if (argument.required && values[i].empty()) return misused(std::string(argument.name) + " is missing");
        if (!values[i].empty()) call.said.emplace_back(argument.name, std::move(values[i]));
    }
    for (std::size_t i = 0; i < options.size(); ++i) {
        std::vector<std::string>& given = values[verb.arguments.size() + i];
        if (flags[i]) given.emplace_back("yes");
        if (given.size() > 1 && !options[i].many)
            return misused(std::string(kept_name(options[i])) + " is given more than once");
        for (const std::string& value : given)
            if (const std::string trouble = trouble_with(options[i], value); !trouble.empty()) return misused(trouble);
        if (!given.empty()) call.said.emplace_back(kept_name(options[i]), std::move(given));
    }
    if (call.given("-o") && call.text("-o").empty())
        return misused("-o wants the name of a file; - is standard output");
    const bool to_a_file = call.text("-o", "-") != "-";
    const bool ascii = call.given("--ascii");
    const std::string colour = call.text("--color", "auto");
    call.style = style_of(to_a_file ? -1 : STDOUT_FILENO, static_cast<int>(call.number("--width", 0)), ascii, colour);
    call.error_style = style_of(STDERR_FILENO, 0, ascii, colour);
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
