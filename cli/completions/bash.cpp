#include "cli/completions/completions.hpp"
#include "cli/completions/offers.hpp"
#include "cli/verbs.hpp"

namespace voltwright::cli {

namespace {

std::string word(std::string_view text) { return quoted(text, posix_quoting); }
std::string list(const std::vector<std::string>& words) { return quoted_list(words, posix_quoting); }

/// What is done where this offer is to be made; `$cur` is what has been typed of it.
std::string making(const Offer& offer) {
    switch (offer.kind) {
        case Offer::Kind::nothing: return ":";
        // Readline's own way with files knows quotes, blanks and the tilde.
        case Offer::Kind::files: return "compopt -o default 2>/dev/null";
        case Offer::Kind::keys: return "_voltwright_keys";
        case Offer::Kind::words: return "_voltwright_offer" + list(offer.words);
    }
    return {};
}

/// `'plan --format' | 'wire --format')`, a pattern for each line.
struct Branch {
    std::vector<std::string> patterns;
    std::string body;
};

/// Patterns that lead to the same are one branch.
void add(std::vector<Branch>& branches, const std::string& pattern, const std::string& body) {
    for (Branch& branch : branches)
        if (branch.body == body) {
            branch.patterns.push_back(pattern);
            return;
        }
    branches.push_back({{pattern}, body});
}

std::string written(const std::vector<Branch>& branches) {
    std::string text;
    for (const Branch& branch : branches) {
        std::string patterns;
        for (const std::string& pattern : branch.patterns) patterns += (patterns.empty() ? "" : " | ") + word(pattern);
        text += "    " + patterns + ") " + branch.body + " ;;\n";
    }
    return text;
}

std::string keys() {
    std::vector<Branch> branches;
    std::string names;
    for (const SettableKey& key : settable_keys()) {
        names += " \\\n            " + word(key.name + "=");
        if (!key.values.empty()) add(branches, key.name, "_voltwright_offer" + list(key.values));
    }
    return R"(# What --set takes: a key and its sign of equality, then a value.
_voltwright_keys() {
    if [[ $cur != *=* ]]; then
        compopt -o nospace 2>/dev/null
        _voltwright_offer)" +
           names + R"(
        return
    fi
    local key=${cur%%=*}
    cur=${cur#*=}
    case $key in
)" + written(branches) +
           "    esac\n}\n";
}

}  // namespace

std::string completions_for_bash() {
    std::vector<std::string> first = {"--help", "-h", "--version"};
    std::vector<Branch> values, options, arguments;
    std::string taking;
    for (const Verb* verb : verbs()) {
        const std::string name(verb->name);
        first.push_back(name);
        std::vector<std::string> own;
        for (const Option& option : options_of(*verb))
            for (const std::string& spelling : spellings_of(option)) {
                own.push_back(spelling);
                if (option.takes == Takes::nothing) continue;
                add(values, place_of(*verb, spelling), making(offer_for(option)));
            }
        add(options, name, "_voltwright_offer" + list(own));
        int number = 0;
        for (const Argument& argument : verb->arguments)
            add(arguments, place_of(*verb, std::to_string(++number)), making(offer_for(argument)));
    }
    std::vector<Branch> valued;
    for (const Branch& branch : values)
        for (const std::string& pattern : branch.patterns) add(valued, pattern, "return 0");

    return R"(# Completion of voltwright in bash. Written by: voltwright completions bash
# shellcheck shell=bash

# Offers those of the words that begin with $cur.
_voltwright_offer() {
    local word
    for word in "$@"; do
        printf -v word %q "$word"
        [[ $word == "$cur"* ]] && COMPREPLY+=("$word")
    done
    return 0
}

)" + keys() +
           R"(
# Whether a verb's option takes a value: VERB OPTION.
_voltwright_takes_value() {
    case "$1 $2" in
)" + written(valued) +
           R"(    esac
    return 1
}

# What the value of an option can be: VERB OPTION.
_voltwright_value() {
    case "$1 $2" in
)" + written(values) +
           R"(    esac
}

_voltwright_options() {
    case $1 in
)" + written(options) +
           R"(    esac
}

# What the argument of a verb can be: VERB NUMBER.
_voltwright_argument() {
    case "$1 $2" in
)" + written(arguments) +
           R"(    *) _voltwright_options "$1" ;;
    esac
}

_voltwright() {
    local cur='' verb='' option='' kept='' word='' i
    local -i number=1
    local -a words=()
    COMPREPLY=()
    # Readline cuts at = and :, which stand within a word here.
    for ((i = 1; i <= COMP_CWORD; ++i)); do
        word=${COMP_WORDS[i]}
        if ((i > 1)) && [[ $word == [=:]* || ${COMP_WORDS[i - 1]} == *[=:] ]]; then
            words[${#words[@]} - 1]+=$word
        else
            words+=("$word")
        fi
    done
    cur=${words[${#words[@]} - 1]}
    # It then puts in place of what follows the last of them alone.
    [[ $COMP_WORDBREAKS == *=* ]] || kept=${cur%"${cur##*=}"}

    verb=${words[0]}
    if ((${#words[@]} == 1)); then
        _voltwright_offer)" +
           list(first) +
           R"(
        return
    fi
    for word in "${words[@]:1:${#words[@]}-2}"; do
        if [[ $option ]]; then
            option=''
        elif _voltwright_takes_value "$verb" "$word"; then
            option=$word
        elif [[ $word != -?* ]]; then
            number+=1
        fi
    done
    if [[ ! $option && $cur == --*=* ]]; then
        option=${cur%%=*}
        cur=${cur#*=}
    fi
    if [[ $option ]]; then
        _voltwright_value "$verb" "$option"
    elif [[ $cur == -* ]]; then
        _voltwright_options "$verb"
    else
        _voltwright_argument "$verb" "$number"
    fi
    [[ $kept ]] && COMPREPLY=("${COMPREPLY[@]/#/$kept}")
    return 0
}

complete -F _voltwright voltwright
)";
}

}  // namespace voltwright::cli
