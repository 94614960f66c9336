#include "cli/completions/completions.hpp"
#include "cli/completions/offers.hpp"
#include "cli/verbs.hpp"

namespace voltwright::cli {

namespace {

std::string word(std::string_view text) { return quoted(text, fish_quoting); }
std::string list(const std::vector<std::string>& words) { return quoted_list(words, fish_quoting); }

/// What follows `complete …` where this offer is to be made.
std::string making(const Offer& offer) {
    switch (offer.kind) {
        case Offer::Kind::nothing: return "";
        case Offer::Kind::files: return " -F";
        case Offer::Kind::keys: return " -f -a '(__voltwright_keys)'";
        case Offer::Kind::words: break;
    }
    std::string words;
    for (const std::string& one : offer.words) words += (words.empty() ? "" : " ") + one;
    return " -f -a " + word(words);
}

std::string keys() {
    std::string names, values;
    for (const SettableKey& key : settable_keys()) {
        names += " \\\n                " + word(key.name) + " " + word(key.sentence);
        if (key.values.empty()) continue;
        values += "        case " + word(key.name + "=*") + "\n            printf " + word(key.name + "=%s\\n") +
                  list(key.values) + "\n";
    }
    return R"(# What --set takes: a key and its sign of equality, then a value.
function __voltwright_keys
    switch (string replace -r -- '^--set=' '' (commandline -ct))
)" + values +
           R"(        case '*=*'
        case '*'
            printf '%s=\t%s\n')" +
           names + R"(
    end
end
)";
}

}  // namespace

std::string completions_for_fish() {
    std::string valued, lines;
    for (const Verb* verb : verbs()) {
        const std::string name(verb->name);
        lines += "\ncomplete -c voltwright -n __voltwright_begins -a " + name + " -d " + word(verb->line) + "\n";
        for (const Option& option : options_of(*verb)) {
            const bool takes = option.takes != Takes::nothing;
            lines += "complete -c voltwright -n '__voltwright_verb " + name + "'";
            for (const std::string& spelling : spellings_of(option)) {
                lines += spelling.starts_with("--") ? " -l " + spelling.substr(2) : " -s " + spelling.substr(1);
                if (takes) valued += " " + word(place_of(*verb, spelling));
            }
            const std::string offered = takes ? making(offer_for(option)) : "";
            lines +=
                (takes ? " -r" : "") + (takes && offered.empty() ? " -f" : offered) + " -d " + word(option.help) + "\n";
        }
        int number = 0;
        for (const Argument& argument : verb->arguments) {
            const std::string offered = making(offer_for(argument));
            ++number;
            if (offered.empty()) continue;
            lines.append("complete -c voltwright -n '__voltwright_argument ")
                .append(place_of(*verb, std::to_string(number)))
                .append("'" + offered + " -d " + word(argument.help) + "\n");
        }
    }
    return R"(# Completion of voltwright in fish. Written by: voltwright completions fish

# The words before the cursor's: none but the program yet, or a verb.
function __voltwright_begins
    test (count (commandline -opc)) -eq 1
end
function __voltwright_verb
    set -l words (commandline -opc)
    test (count $words) -gt 1; and test "$words[2]" = $argv[1]
end

# Whether a verb's option takes a value: VERB OPTION.
function __voltwright_takes_value
    contains -- "$argv")" +
           valued +
           R"(
end

# Whether the cursor stands at this argument of this verb: VERB NUMBER.
function __voltwright_argument
    __voltwright_verb $argv[1]; or return
    set -l words (commandline -opc)
    set -l number 1
    set -l value no
    for word in $words[3..-1]
        if test $value = yes
            set value no
        else if __voltwright_takes_value $argv[1] "$word"
            set value yes
        else if not string match -q -- '-?*' "$word"
            set number (math $number + 1)
        end
    end
    test $number -eq $argv[2]
end

)" + keys() +
           R"(
complete -c voltwright -f
complete -c voltwright -n __voltwright_begins -s h -l help -d 'the verbs'
complete -c voltwright -n __voltwright_begins -l version -d 'the version'
)" + lines;
}

}  // namespace voltwright::cli
