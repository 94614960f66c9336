#include "cli/completions/offers.hpp"

#include "cli/verbs.hpp"
#include "voltwright/profile/section.hpp"

#include <algorithm>

namespace voltwright::cli {

namespace {

/// What the help calls a value says what it is. A name that is not here is of something that only the user knows.
Offer offer_named(std::string_view name) {
    constexpr std::string_view files[] = {"PROFILE", "OTHER", "PRICES", "FILE"};
    if (std::find(std::begin(files), std::end(files), name) != std::end(files)) return {Offer::Kind::files};
    if (name == "KEY=VALUE") return {Offer::Kind::keys};
    return {};
}

/// The words that a value may be, as far as it is a word.
void add_words(std::vector<std::string>& words, const Shape& shape) {
    if (shape.kind == Shape::Kind::flag) words.insert(words.end(), {"true", "false"});
    if (shape.kind == Shape::Kind::word) words.insert(words.end(), shape.words.begin(), shape.words.end());
    if (shape.kind == Shape::Kind::any_of)
        for (const Shape& part : shape.parts) add_words(words, part);
}

}  // namespace

Offer offer_for(const Option& option) {
    if (option.takes == Takes::one_of)
        return {Offer::Kind::words, std::vector<std::string>(option.choices.begin(), option.choices.end())};
    return option.takes == Takes::text ? offer_named(option.value) : Offer{};
}

Offer offer_for(const Argument& argument) {
    if (argument.words) return {Offer::Kind::words, argument.words()};
    return offer_named(argument.name);
}

std::vector<Option> options_of(const Verb& verb) {
    std::vector<Option> options(verb.options.begin(), verb.options.end());
    for (const Option& option : common_options(verb)) options.push_back(option);
    options.push_back({.name = "--help", .help = "this page", .letter = 'h'});
    return options;
}

std::vector<std::string> spellings_of(const Option& option) {
    std::vector<std::string> spellings;
    if (!option.name.empty()) spellings.emplace_back(option.name);
    if (option.letter != '\0') spellings.push_back(std::string("-") + option.letter);
    return spellings;
}

std::string place_of(const Verb& verb, std::string_view what) {
    return std::string(verb.name) + " " + std::string(what);
}

std::string quoted(std::string_view text, const Quoting& quoting) {
    std::string result = "'";
    for (const char c : text) {
        if (c == '\'') {
            result += quoting.quote;
            continue;
        }
        if (quoting.escaped.find(c) != std::string_view::npos) result += '\\';
        result += c;
    }
    return result + "'";
}

std::string quoted_list(const std::vector<std::string>& words, const Quoting& quoting) {
    std::string text;
    for (const std::string& word : words) text += " " + quoted(word, quoting);
    return text;
}

std::vector<SettableKey> settable_keys() {
    std::vector<SettableKey> keys;
    for (const SectionRow& section : sections()) {
        if (section.many) continue;
        const std::string before = section.name.empty() ? std::string() : std::string(section.name) + ".";
        for (const Key& key : section.keys) {
            SettableKey settable{before + std::string(key.name), key.sentence, {}};
            add_words(settable.values, key.shape());
            keys.push_back(std::move(settable));
        }
    }
    return keys;
}

}  // namespace voltwright::cli
