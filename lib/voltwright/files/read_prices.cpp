#include "voltwright/files/read_prices.hpp"

#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/formats/cable.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/profile/formats/stud.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <array>

namespace voltwright {

namespace {

constexpr std::array<std::string_view, 4> top_keys = {"currency", "decimals", "budget", "price"};
constexpr std::array<std::string_view, 12> row_keys = {"what",   "name", "size", "insulation", "colour", "rating",
                                                       "family", "stud", "bore", "price",      "pack",   "roll"};
constexpr std::size_t most_rows = 2000;

/// What a row may say of its kind of thing, beside price, pack and roll.
struct Says {
    PartKind kind;
    std::vector<std::string_view> keys;
};
const std::vector<Says>& says() {
    static const std::vector<Says> all = {
        {PartKind::cable, {"size", "insulation", "colour"}},
        {PartKind::lug, {"name", "size", "stud"}},
        {PartKind::battery_clamp, {}},
        {PartKind::plug, {"name", "rating"}},
        {PartKind::part, {"name", "rating"}},
        {PartKind::fuse, {"family", "rating"}},
        {PartKind::fuse_holder, {"name", "family"}},
        {PartKind::fuse_block, {"name", "family"}},
        {PartKind::conduit, {"name", "bore"}},
        {PartKind::grommet, {"bore"}},
        {PartKind::heat_shrink, {"bore"}},
        {PartKind::clip, {"bore"}},
        {PartKind::label, {}},
    };
    return all;
}

bool by_length(PartKind kind) {
    return kind == PartKind::cable || kind == PartKind::conduit || kind == PartKind::heat_shrink;
}

template <class Words>
std::string listed(const Words& words) {
    std::string list;
    for (const std::string_view word : words) list += (list.empty() ? "" : ", ") + std::string(word);
    return list;
}

/// Says that a key is not known; answers what was probably meant.
template <class Words>
std::string_view unknown_key(const std::string& path, std::string_view name, std::string_view whose, const Words& known,
                             Faults& faults) {
    const auto near = nearest_word(name, known);
    faults.push_back({path, "`" + std::string(name) + "` is no key of " + std::string(whose),
                      near ? "did you mean `" + std::string(*near) + "`?" : "its keys are " + listed(known), true});
    return near.value_or(std::string_view{});
}

/// A text that is not empty.
std::optional<std::string> text_of(const Entry& entry, const std::string& path, Faults& faults) {
    std::string text;
    if (!Format<std::string>::read(entry, path, text, faults)) return {};
    return text;
}

std::optional<Money> money_of(const Entry& entry, const std::string& path, Faults& faults) {
    const std::string* text = entry.text();
    if (!text) {
        faults.push_back({path, "an amount of money is wanted; this is " + std::string(kind_of(entry)),
                          "write it in quotes, so that it stays exact, such as \"4.20\""});
        return {};
    }
    const auto money = parse_money(*text);
    if (money) return *money;
    faults.push_back({path, money.wrong().why, money.wrong().hint});
    return {};
}

std::optional<int> whole_of(const Entry& entry, const std::string& path, int low, int high, Faults& faults) {
    int number = 0;
    if (!Format<int>::read(entry, path, number, faults)) return {};
    if (number >= low && number <= high) return number;
    faults.push_back({path, std::to_string(number) + " is out of range",
                      "from " + std::to_string(low) + " to " + std::to_string(high)});
    return {};
}

template <class Q>
std::optional<Q> quantity_of(const Entry& entry, const std::string& path, Q most, Faults& faults) {
    Spread<Q> value{};
    if (!Format<Spread<Q>>::read(entry, path, value, faults)) return {};
    if (value.half_width == Difference<Q>{} && value.value > Q{} && value.value <= most) return value.value;
    faults.push_back({path, voltwright::write(value) + " is out of range",
                      "above nothing, at most " + show(most) + ", without a spread"});
    return {};
}

/// One [[price]].
class RowReader {
public:
    RowReader(const Entry& entry, std::string path, const Tables& tables, Faults& faults)
        : entry_(entry), path_(std::move(path)), tables_(tables), faults_(faults) {}

    std::optional<Price> row() && {
        const Entry::Section* section = entry_.section();
        if (!section) {
            formats::wrong_kind(entry_, path_, "a table of keys", faults_);
            return {};
        }
        const std::size_t before = faults_.size();
        for (const auto& [key, value] : *section)
            if (std::find(row_keys.begin(), row_keys.end(), key) == row_keys.end())
                meant_.push_back(unknown_key(path_ + "." + key, key, "[[price]]", row_keys, faults_));
        const Entry* what = needed("what", "what = \"cable\": what is sold");
        const Entry* price = needed("price", "price = \"4.20\": of one piece, or of a metre");
        if (what) {
            if (const auto index = formats::read_word(*what, path_ + ".what", part_kinds(), faults_))
                row_.kind = static_cast<PartKind>(*index);
            else
                what = nullptr;
        }
        if (price)
            if (const auto money = money_of(*price, path_ + ".price", faults_)) row_.price = *money;
        read_what_it_says();
        if (what) belongs();
        if (faults_.size() != before) return {};
        return std::move(row_);
    }

private:
    const Entry* needed(std::string_view key, std::string_view hint) {
        const Entry* found = entry_.find(key);
        // What is probably meant is not called missing as well.
        if (!found && std::find(meant_.begin(), meant_.end(), key) == meant_.end())
            faults_.push_back(
                {path_, "this [[price]] has no `" + std::string(key) + "`", "write " + std::string(hint)});
        return found;
    }

    template <class Read>
    void read(std::string_view key, Read reader) {
        if (const Entry* entry = entry_.find(key)) reader(*entry, path_ + "." + std::string(key));
    }

    void read_what_it_says() {
        read("name", [&](const Entry& entry, const std::string& path) { row_.name = text_of(entry, path, faults_); });
        read("size", [&](const Entry& entry, const std::string& path) {
            Gauge size{};
            if (Format<Gauge>::read(entry, path, size, faults_)) row_.size = size;
        });
        read("insulation", [&](const Entry& entry, const std::string& path) {
            Insulation insulation{};
            if (Format<Insulation>::read(entry, path, insulation, faults_)) row_.insulation = insulation.rating;
        });
        read("colour", [&](const Entry& entry, const std::string& path) {
            static constexpr std::array<std::string_view, 2> colours = {"red", "black"};
            if (const auto index = formats::read_word(entry, path, colours, faults_))
                row_.colour = std::string(colours[*index]);
        });
        read("rating", [&](const Entry& entry, const std::string& path) {
            row_.rating = quantity_of(entry, path, amperes(1000), faults_);
        });
        read("family", [&](const Entry& entry, const std::string& path) { read_family(entry, path); });
        read("stud", [&](const Entry& entry, const std::string& path) { read_stud(entry, path); });
        read("bore", [&](const Entry& entry, const std::string& path) {
            row_.bore = quantity_of(entry, path, millimetres(200), faults_);
        });
        read("pack", [&](const Entry& entry, const std::string& path) {
            row_.pack = whole_of(entry, path, 1, 10000, faults_);
        });
        read("roll", [&](const Entry& entry, const std::string& path) {
            row_.roll = quantity_of(entry, path, metres(1000), faults_);
            if (row_.roll && *row_.roll < metres(0.1)) {
                faults_.push_back({path, "a roll is 0.1 m long at least", {}});
                row_.roll.reset();
            }
        });
    }

    void read_family(const Entry& entry, const std::string& path) {
        const auto typed = text_of(entry, path, faults_);
        if (!typed) return;
        if (const FuseFamilyRow* family = find_fuse_family(tables_, *typed)) {
            row_.family = std::string(family->family);
            return;
        }
        std::vector<std::string_view> known;
        for (const FuseFamilyRow& family : tables_.fuse_families) known.push_back(family.family);
        const auto near = nearest_word(*typed, known);
        faults_.push_back({path, formats::toml_quoted(*typed) + " is no family of fuses",
                           near ? "did you mean \"" + std::string(*near) + "\"?" : "one of " + listed(known)});
    }

    void read_stud(const Entry& entry, const std::string& path) {
        Stud stud{};
        if (!Format<Stud>::read(entry, path, stud, faults_)) return;
        if (const StudRow* row = find_stud(tables_, stud.diameter); row && stud.diameter > millimetres(2.9))
            row_.stud = row->diameter;
        else
            faults_.push_back({path, "no lug has a hole for such a stud", "studs from M3 to M16, such as \"M8\""});
    }

    /// A key that says nothing of this kind of thing would never match.
    void belongs() {
        const auto kind =
            std::find_if(says().begin(), says().end(), [&](const Says& one) { return one.kind == row_.kind; });
        for (const std::string_view key :
             {"name", "size", "insulation", "colour", "rating", "family", "stud", "bore"}) {
            const bool known = std::find(kind->keys.begin(), kind->keys.end(), key) != kind->keys.end();
            if (known || !entry_.find(key)) continue;
            faults_.push_back({path_ + "." + std::string(key),
                               "`" + std::string(key) + "` says nothing of a " + std::string(show(row_.kind)),
                               kind->keys.empty() ? "leave it out" : "what may be said of it is " + listed(kind->keys),
                               true});
        }
        const char* wrong = by_length(row_.kind) ? "pack" : "roll";
        if (entry_.find(wrong))
            faults_.push_back(
                {path_ + "." + wrong,
                 std::string(show(row_.kind)) + (by_length(row_.kind) ? " is sold by length" : " is sold by the piece"),
                 by_length(row_.kind) ? "write roll = \"10 m\", or leave it out" : "write pack = 10, or leave it out",
                 true});
    }

    const Entry& entry_;
    std::string path_;
    const Tables& tables_;
    Faults& faults_;
    std::vector<std::string_view> meant_;
    Price row_{};
};

void read_rows(const Entry& entry, const Tables& tables, PriceList& list, Faults& faults) {
    const Entry::List* rows = entry.list();
    if (!rows) return faults.push_back({"price", "prices are a list", "write [[price]] above each"});
    if (rows->size() > most_rows)
        return faults.push_back(
            {"price", std::to_string(rows->size()) + " prices are too many", "at most " + std::to_string(most_rows)});
    for (std::size_t i = 0; i < rows->size(); ++i) {
        const std::string path = "price[" + std::to_string(i) + "]";
        auto row = RowReader((*rows)[i], path, tables, faults).row();
        if (!row) continue;
        const auto twin = std::find_if(list.prices.begin(), list.prices.end(),
                                       [&](const Price& other) { return same_thing(other, *row); });
        if (twin != list.prices.end())
            faults.push_back({path, "this thing has a price already, further up", "leave one of the two"});
        list.prices.push_back(*std::move(row));
    }
}

}  // namespace

PriceList read_prices(const Entry& root, const Tables& tables, Faults& faults) {
    PriceList list;
    const Entry::Section* section = root.section();
    if (!section) return list;
    std::vector<std::string_view> met;
    for (const auto& [key, value] : *section) {
        met.push_back(key);
        if (key == "currency") {
            if (const auto text = text_of(value, key, faults)) list.currency = *text;
        } else if (key == "decimals") {
            if (const auto number = whole_of(value, key, 0, 4, faults)) list.decimals = *number;
        } else if (key == "budget") {
            list.budget = money_of(value, key, faults);
        } else if (key == "price") {
            read_rows(value, tables, list, faults);
        } else {
            met.back() = unknown_key(key, key, "a price list", top_keys, faults);
        }
    }
    const auto missing = [&](std::string_view key) { return std::find(met.begin(), met.end(), key) == met.end(); };
    if (missing("currency"))
        faults.push_back({"currency", "a price list names its currency", "write currency = \"N$\", or whatever it is"});
    if (missing("price"))
        faults.push_back({"price", "there is no price in this list", "write [[price]], and what it is for, below it"});
    return list;
}

Result<PriceList, Diagnostics> read_prices(const std::string& path, const Tables& tables) {
    const auto document = read_document(path);
    if (!document) return document.wrong();
    Faults faults;
    PriceList list = read_prices(document->root, tables, faults);
    if (!faults.empty()) return locate(*document, faults);
    return list;
}

}  // namespace voltwright
