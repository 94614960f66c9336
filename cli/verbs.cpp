#include "cli/verbs.hpp"

#include <algorithm>
#include <array>

namespace voltwright::cli {

extern const Verb new_verb, plan_verb, wire_verb, autonomy_verb, trip_verb, replan_verb, parts_verb, readings_verb,
    diagnose_verb, sheet_verb, explain_verb, show_verb, tables_verb, completions_verb, manual_verb;

namespace {

constinit const std::array<const Verb*, 15> all = {&new_verb,      &plan_verb,        &wire_verb,    &autonomy_verb,
                                                   &trip_verb,     &replan_verb,      &parts_verb,   &readings_verb,
                                                   &diagnose_verb, &sheet_verb,       &explain_verb, &show_verb,
                                                   &tables_verb,   &completions_verb, &manual_verb};

constexpr std::string_view colours[] = {"auto", "always", "never"};

constexpr Style page{.colour = false, .unicode = false, .width = 100};

}  // namespace

std::string usage_of(const Option& option) {
    std::string text;
    if (option.letter != '\0') text += std::string("-") + option.letter + (option.name.empty() ? "" : ", ");
    text += option.name;
    if (option.takes == Takes::one_of) {
        text += ' ';
        for (const std::string_view choice : option.choices)
            text.append(choice.data() == option.choices[0].data() ? "" : "|").append(choice);
    } else if (option.takes != Takes::nothing) {
        text += " " + std::string(option.value);
    }
    return text;
}

std::string usage_of(const Verb& verb) {
    std::string text(verb.name);
    for (const Argument& argument : verb.arguments)
        text += argument.required ? " " + std::string(argument.name) : " [" + std::string(argument.name) + "]";
    return text;
}

std::span<const Verb* const> verbs() { return all; }

const Verb* find_verb(std::string_view name) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Verb* verb) { return verb->name == name; });
    return found == all.end() ? nullptr : *found;
}

std::string_view title_of(Group group) {
    switch (group) {
        case Group::plan: return "Plan";
        case Group::change: return "Change";
        case Group::fit: return "Fit";
        case Group::look: return "Look";
    }
    return {};
}

std::vector<Option> common_options(const Verb& verb) {
    std::vector<Option> options;
    if (verb.profile)
        options.push_back(
            {.name = "--set",
             .takes = Takes::text,
             .value = "KEY=VALUE",
             .help = "another value for a key of the profile, such as trip.days=12 or run.feed.length=\"9 m\"; "
                     "may be repeated",
             .many = true});
    if (!verb.formats.empty())
        options.push_back({.name = "--format",
                           .takes = Takes::one_of,
                           .help = "the form of the answer, the first by itself",
                           .choices = verb.formats});
    options.push_back(
        {.name = "", .takes = Takes::text, .value = "FILE", .help = "write the answer to a file", .letter = 'o'});
    options.push_back({.name = "--force", .help = "write over a file that voltwright did not write"});
    if (verb.profile) options.push_back({.name = "", .help = "the verdict alone", .letter = 'q'});
    if (verb.formats.empty()) return options;
    options.push_back({.name = "--width",
                       .takes = Takes::whole_number,
                       .value = "N",
                       .help = "columns of the page, 40 to 400; by itself the terminal's, or 80",
                       .least = 40,
                       .most = 400});
    options.push_back({.name = "--ascii", .help = "plain ASCII only"});
    options.push_back({.name = "--color", .takes = Takes::one_of, .help = "whether to use colour", .choices = colours});
    return options;
}

std::string help() {
    std::string text(purpose);
    text += "\n\nvoltwright VERB ... [OPTIONS]\n";
    std::size_t longest = 0;
    for (const Verb* verb : all) longest = std::max(longest, usage_of(*verb).size());
    for (const Group group : groups) {
        bool begun = false;
        for (const Verb* verb : all) {
            if (verb->group != group) continue;
            if (!begun) text += "\n" + std::string(title_of(group)) + "\n";
            begun = true;
            text += "  " + padded(usage_of(*verb), longest) + "   " + std::string(verb->line) + "\n";
        }
    }
    text += "\nThe options of a verb: voltwright VERB --help. The version: voltwright --version\n\nExamples\n";
    constexpr std::size_t column = 42;
    for (const Example& example : examples) {
        const std::string command = "  " + std::string(example.command);
        const bool fits = command.size() + 3 <= column;
        text +=
            (fits ? padded(command, column) : command + "\n" + std::string(column, ' ')).append(example.what) + "\n";
    }
    return text;
}

std::string help(const Verb& verb) {
    std::string text = "voltwright " + usage_of(verb) + " [OPTIONS]\n" + std::string(verb.line) + "\n";
    struct Row {
        std::string left;
        std::string_view right;
    };
    std::vector<Row> rows;
    for (const Argument& argument : verb.arguments) rows.push_back({std::string(argument.name), argument.help});
    const std::size_t arguments = rows.size();
    for (const Option& option : verb.options) rows.push_back({usage_of(option), option.help});
    const std::vector<Option> common = common_options(verb);
    for (const Option& option : common) rows.push_back({usage_of(option), option.help});
    rows.push_back({"-h, --help", "this page"});
    std::size_t longest = 0;
    for (const Row& row : rows) longest = std::max(longest, row.left.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i == 0 || i == arguments) text += "\n";
        text += wrap(rows[i].right, page, "  " + padded(rows[i].left, longest) + "   ", longest + 5);
    }
    return text;
}

}  // namespace voltwright::cli
