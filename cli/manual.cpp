#include "cli/manual.hpp"

#include "cli/completions/offers.hpp"
#include "cli/verbs.hpp"
#include "voltwright/units/characters.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace voltwright::cli {

namespace {

/// Plain text as roff wants it: a hyphen that can be copied as one, no character that means something else there.
std::string escaped(std::string_view text) {
    constexpr std::array<std::pair<char, std::string_view>, 7> others = {
        {{'-', "\\-"}, {'\\', "\\e"}, {'\'', "\\(aq"}, {'"', "\\(dq"}, {'`', "\\(ga"}, {'^', "\\(ha"}, {'~', "\\(ti"}}};
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string result;
    for (std::size_t at = 0; at < text.size();) {
        const Character next = character_at(text, at);
        const auto other =
            std::find_if(others.begin(), others.end(), [&](const auto& o) { return text[at] == o.first; });
        if (next.code > 0x7e) {
            std::string hex;
            for (int shift = 20; shift >= 0; shift -= 4)
                if (shift < 16 || next.code >> shift) hex += digits[next.code >> shift & 0xf];
            result += "\\[u" + hex + "]";
        } else if (other != others.end()) {
            result += other->second;
        } else {
            result += text[at];
        }
        at += std::max<std::size_t>(next.bytes, 1);
    }
    return result;
}

/// A paragraph in lines of at most 78 characters. A line that begins with a full stop would be a command.
std::string filled(std::string_view text) {
    const std::string words = escaped(text);
    std::string result, line;
    for (std::size_t at = 0; at < words.size();) {
        const std::size_t end = std::min(words.find(' ', at), words.size());
        const std::string one = words.substr(at, end - at);
        at = end + 1;
        if (!line.empty() && line.size() + 1 + one.size() > 78) result += std::exchange(line, {}) + "\n";
        line += (line.empty() ? (one.starts_with('.') ? "\\&" : "") : " ") + one;
    }
    return line.empty() ? result : result + line + "\n";
}

/// "the whole plan" as a sentence.
std::string sentence(std::string_view text) {
    std::string result(text);
    if (result.empty()) return result;
    if (result[0] >= 'a' && result[0] <= 'z') result[0] = static_cast<char>(result[0] - 'a' + 'A');
    if (result.back() != '.') result += '.';
    return result;
}

std::string heading(std::string_view name) { return ".SH " + std::string(name) + "\n"; }

/// A tagged paragraph; what is typed as it stands is bold, what is put in its place is not.
std::string item(const std::string& tag, std::string_view text) { return ".TP\n" + tag + "\n" + filled(text); }
std::string bold(std::string_view text) { return "\\fB" + escaped(text) + "\\fR"; }
std::string italic(std::string_view text) { return "\\fI" + escaped(text) + "\\fR"; }

std::string tag_of(const Option& option) {
    std::string tag;
    for (const std::string& spelling : spellings_of(option)) tag += (tag.empty() ? "" : ", ") + bold(spelling);
    if (option.takes == Takes::one_of) {
        std::string choices;
        for (const std::string_view choice : option.choices) choices += (choices.empty() ? "" : "|") + bold(choice);
        tag += " " + choices;
    } else if (option.takes != Takes::nothing) {
        tag += " " + italic(option.value);
    }
    return tag;
}

std::string tag_of(const Verb& verb) {
    std::string tag = bold(verb.name);
    for (const Argument& argument : verb.arguments)
        tag += argument.required ? " " + italic(argument.name) : " [" + italic(argument.name) + "]";
    return tag;
}

/// A verb with its own arguments and options below it.
std::string item(const Verb& verb) {
    std::string text = item(tag_of(verb), sentence(verb.line));
    std::string below;
    for (const Argument& argument : verb.arguments)
        if (argument.name != profile_argument.name) below += item(italic(argument.name), sentence(argument.help));
    for (const Option& option : verb.options) below += item(tag_of(option), sentence(option.help));
    return below.empty() ? text : text + ".RS\n" + below + ".RE\n";
}

/// A command on lines of its own, cut before an option where it would be too wide for a terminal.
std::string item(const Example& example, bool first) {
    constexpr std::size_t widest = 64;
    std::string lines;
    std::string_view rest = example.command;
    while (rest.size() > widest) {
        const std::size_t cut = rest.rfind(" --", widest);
        if (cut == std::string_view::npos || cut == 0) break;
        lines += bold(rest.substr(0, cut)) + " \\e\n    ";
        rest.remove_prefix(cut + 1);
    }
    return (first ? "" : ".PP\n") + filled(sentence(example.what)) + ".PP\n.RS 4\n.nf\n" + lines + bold(rest) +
           "\n.fi\n.RE\n";
}

/// An option that verbs share, and the verbs that do not have it.
struct Shared {
    Option option;
    std::vector<std::string_view> choices;  ///< of all verbs
    std::vector<std::string_view> without;
};

std::vector<Shared> shared_options() {
    std::vector<Shared> all;
    const auto find = [&](const Option& option) {
        return std::find_if(all.begin(), all.end(), [&](const Shared& shared) {
            return shared.option.name == option.name && shared.option.letter == option.letter;
        });
    };
    for (const Verb* verb : verbs())
        for (const Option& option : common_options(*verb)) {
            if (find(option) == all.end()) all.push_back({option, {}, {}});
            std::vector<std::string_view>& known = find(option)->choices;
            for (const std::string_view choice : option.choices)
                if (std::find(known.begin(), known.end(), choice) == known.end()) known.push_back(choice);
        }
    for (Shared& shared : all)
        for (const Verb* verb : verbs()) {
            const std::vector<Option> its = common_options(*verb);
            if (std::none_of(its.begin(), its.end(), [&](const Option& option) {
                    return option.name == shared.option.name && option.letter == shared.option.letter;
                }))
                shared.without.push_back(verb->name);
        }
    return all;
}

std::string joined(const std::vector<std::string_view>& words) {
    std::string text;
    for (const std::string_view word : words) text += (text.empty() ? "" : ", ") + std::string(word);
    return text;
}

std::string verbs_by_group() {
    std::string text = heading("VERBS");
    for (const Group group : groups) {
        bool begun = false;
        for (const Verb* verb : verbs()) {
            if (verb->group != group) continue;
            if (!begun) text += ".SS " + escaped(title_of(group)) + "\n";
            begun = true;
            text += item(*verb);
            if (verb->formats.size() > 1)
                text += ".IP\n" + filled("Forms: " + joined({verb->formats.begin(), verb->formats.end()}) + ".");
        }
    }
    return text;
}

std::string options() {
    std::string text = heading("OPTIONS") +
                       filled(
                           "What many verbs take. The options of one verb alone stand with it; voltwright VERB "
                           "--help shows them together.") +
                       item(italic(profile_argument.name), sentence(profile_argument.help));
    for (Shared& shared : shared_options()) {
        shared.option.choices = shared.choices;
        std::string words = sentence(shared.option.help);
        if (!shared.without.empty()) words += " Not for " + joined(shared.without) + ".";
        text += item(tag_of(shared.option), words);
    }
    return text + item(bold("-h") + ", " + bold("--help"), "The verbs, or the options of a verb.") +
           item(bold("--version"), "The version.");
}

}  // namespace

std::string manual() {
    std::string text =
        ".\\\" Written by: voltwright manual\n.TH VOLTWRIGHT 1 \"\" \"voltwright " VOLTWRIGHT_VERSION "\"\n";
    std::string plain(purpose.substr(0, purpose.size() - 1));
    plain[0] = 'p';
    text += heading("NAME") + filled("voltwright - " + plain);
    // In NAME the dash is a separator, and its form is fixed.
    text += heading("SYNOPSIS") + bold("voltwright") + " " + italic("VERB") + " ... [" + italic("OPTIONS") + "]\n";
    text += heading("DESCRIPTION") +
            filled(
                "One text file, the profile, describes a vehicle, its second battery, its loads and a trip. From it "
                "voltwright tells which cable and which fuse each run needs, how long everything runs with the "
                "engine off, whether the trip holds, and what is dangerous about the plan.") +
            ".PP\n" +
            filled(
                "Answers go to standard output, everything else to standard error. A page begins with its verdict. "
                "Every number of a plan can be asked for its formula, its inputs and the source of each.");
    text += verbs_by_group() + options();
    text += heading("EXIT STATUS") + item(bold("0"), "The plan holds, or a question was answered.") +
            item(bold("1"), "It does not hold.") + item(bold("2"), "The command line was wrong.") +
            item(bold("3"), "The profile or a table cannot be used; what is wrong stands on standard error.") +
            item(bold("4"), "A fault of the program's own.");
    text += heading("ENVIRONMENT") + item(bold("NO_COLOR"), "If set and not empty, no colour unless --color asks.") +
            item(bold("TERM"), "If dumb, the same.") +
            item(bold("COLUMNS"), "The width of a terminal that does not tell its own.") +
            item(bold("LC_ALL") + ", " + bold("LC_CTYPE") + ", " + bold("LANG"),
                 "The first that is set says whether a page may hold characters beyond ASCII: it may when the "
                 "character set is UTF-8.");
    text += heading("FILES") +
            item(italic("PROFILE"),
                 "TOML. voltwright new writes one with every key as a comment, voltwright tables keys tells what each "
                 "key means. Every quantity is text with its unit, such as \"6 m\" or \"31 +- 3 degC\".");
    text += heading("EXAMPLES");
    for (const Example& example : examples) text += item(example, example.command == examples[0].command);
    text += heading("CAUTION") +
            filled(
                "Wrong wiring starts fires. The figures hold for what the profile says and for nothing else. Pull "
                "every fuse before work and put it in last. This is for the 12 V system alone, not for mains. "
                "Local codes and a licensed person decide.");
    return text;
}

}  // namespace voltwright::cli
