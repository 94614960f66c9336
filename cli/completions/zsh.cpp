#include "cli/completions/completions.hpp"
#include "cli/completions/offers.hpp"
#include "cli/verbs.hpp"

namespace voltwright::cli {

namespace {

std::string word(std::string_view text) { return quoted(text, posix_quoting); }
/// One entry of `_describe`: the word, a colon, what it means.
std::string described(std::string_view name, std::string_view what) {
    std::string text;
    for (const char c : name) text += c == ':' ? std::string("\\:") : std::string(1, c);
    return word(text + ":" + std::string(what));
}

/// `FILE:_files`, the end of a specification of `_arguments`.
std::string specified(std::string_view name, const Offer& offer) {
    const std::string message = quoted(name, {":", posix_quoting.quote});
    const std::string begin = message.substr(1, message.size() - 2) + ":";
    switch (offer.kind) {
        case Offer::Kind::nothing: return begin + " ";
        case Offer::Kind::files: return begin + "_files";
        case Offer::Kind::keys: return begin + "_voltwright_keys";
        case Offer::Kind::words: break;
    }
    std::string words;
    for (const std::string& one : offer.words) words += (words.empty() ? "" : " ") + one;
    return begin + "(" + words + ")";
}

/// `'*--set=[another value]:KEY=VALUE:_voltwright_keys'`
std::string specified(const Option& option, const std::string& spelling) {
    const std::string help = quoted(option.help, {"[]:\\", posix_quoting.quote});
    std::string text = option.many ? "*" : "";
    text += spelling;
    if (option.takes != Takes::nothing) text += spelling.starts_with("--") ? "=" : "+";
    text += "[" + help.substr(1, help.size() - 2) + "]";
    if (option.takes != Takes::nothing)
        text += ":" + specified(option.takes == Takes::one_of ? option.name : option.value, offer_for(option));
    return "'" + text + "'";
}

std::string keys() {
    std::string names, values;
    for (const SettableKey& key : settable_keys()) {
        names += "            " + described(key.name, key.sentence) + "\n";
        if (key.values.empty()) continue;
        values += "        " + key.name + ") compadd --";
        for (const std::string& value : key.values) values += " " + word(value);
        values += " ;;\n";
    }
    return R"(# What --set takes: a key and its sign of equality, then a value.
_voltwright_keys() {
    local -a keys
    if compset -P '*='; then
        case ${${IPREFIX%=}##*=} in
)" + values +
           R"(        *) _message 'value of the key' ;;
        esac
    else
        keys=(
)" + names +
           R"(        )
        _describe -t keys 'key of the profile' keys -q -S =
    fi
}
)";
}

}  // namespace

std::string completions_for_zsh() {
    std::string names, branches;
    for (const Verb* verb : verbs()) {
        names += "            " + described(verb->name, verb->line) + "\n";
        branches += "        " + std::string(verb->name) + ")\n            _arguments";
        for (const Option& option : options_of(*verb)) {
            const bool help = option.letter == 'h';
            for (const std::string& spelling : spellings_of(option))
                branches += " \\\n                " + std::string(help ? "'(- *)'" : "") + specified(option, spelling);
        }
        int number = 0;
        for (const Argument& argument : verb->arguments)
            branches += " \\\n                '" + std::to_string(++number) + (argument.required ? ":" : "::") +
                        specified(argument.name, offer_for(argument)) + "'";
        branches += "\n            ;;\n";
    }
    return R"(#compdef voltwright
# Completion of voltwright in zsh. Written by: voltwright completions zsh

)" + keys() +
           R"(
_voltwright() {
    local curcontext=$curcontext state line ret=1
    local -a verbs
    typeset -A opt_args
    _arguments -C \
        '(- *)'{-h,--help}'[the verbs]' \
        '(- *)--version[the version]' \
        '1:verb:->verb' \
        '*::argument:->argument' && ret=0
    case $state in
    verb)
        verbs=(
)" + names +
           R"(        )
        _describe -t verbs verb verbs && ret=0
        ;;
    argument)
        case $words[1] in
)" + branches +
           R"(        esac && ret=0
        ;;
    esac
    return ret
}

# Read from the function path it is the function's body; read by `source` it has to be made known.
if [[ $funcstack[1] == _voltwright ]]; then
    _voltwright "$@"
else
    compdef _voltwright voltwright
fi
)";
}

}  // namespace voltwright::cli
