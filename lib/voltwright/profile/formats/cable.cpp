#include "voltwright/profile/formats/cable.hpp"

#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/scan.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace voltwright {

using namespace formats;

namespace {

/// Copper-clad and plain aluminium: no size of it is planned with.
bool mentions_aluminium(std::string_view text) {
    const std::string words = in_lower_case(text);
    for (const std::string_view word : {"alumini", "aluminum", "copper-clad", "copper clad"})
        if (words.find(word) != std::string::npos) return true;
    // "CCA", "Al": as words of their own, for they are short.
    std::string word;
    for (const char c : words + " ") {
        if (c >= 'a' && c <= 'z') {
            word += c;
            continue;
        }
        if (word == "cca" || word == "al" || word == "alu") return true;
        word.clear();
    }
    return false;
}

bool refuse_aluminium(const std::string& path, Faults& faults) {
    return fail(
        faults, path,
        "aluminium and copper-clad aluminium are not planned with: they carry about a third less than copper of the "
        "same size, creep until the lug is loose, and their oxide heats the joint",
        "take a copper cable and write its size: \"8 AWG\", \"10 mm2\"");
}

constexpr std::array<std::string_view, 4> insulations = {"pvc", "xlpe", "rubber", "silicone"};

}  // namespace

bool Format<Gauge>::read(const Entry& entry, const std::string& path, Gauge& value, Faults& faults) {
    const std::string* text = entry.text();
    if (!text) {
        wrong_kind(entry, path, "a cable size", faults);
        faults.back().hint = "write it in quotes with its system, as in \"8 AWG\" or \"8 mm2\"";
        return false;
    }
    if (mentions_aluminium(*text)) return refuse_aluminium(path, faults);
    const auto gauge = parse_gauge(*text);
    if (!gauge) {
        unreadable(path, gauge.wrong(), faults);
        return false;
    }
    value = *gauge;
    return true;
}
std::string Format<Gauge>::write(const Gauge& value) { return toml_quoted(voltwright::show(value)); }
Checked Format<Gauge>::measures(const Gauge&) { return {}; }
Shape Format<Gauge>::shape() { return {Shape::Kind::gauge, "a cable size"}; }

bool Format<Insulation>::read(const Entry& entry, const std::string& path, Insulation& value, Faults& faults) {
    const std::string* text =
        text_or_fault(entry, path, "the temperature that the insulation is rated for", "105 degC", faults);
    if (!text) return false;
    if (mentions_aluminium(*text)) return refuse_aluminium(path, faults);
    if (const InsulationMarkRow* mark = find_insulation_mark(built_in_tables(), *text)) {
        const std::string lasts = voltwright::show(mark->lasts);
        return fail(faults, path, toml_quoted(*text) + " is the mark of a cable; its temperature is wanted",
                    "for long it bears " + lasts + ": \"" + lasts + "\"");
    }
    const auto [rating, words] = split_words<Temperature>(*text);
    if (!rating) {
        unreadable(path, rating.wrong(), faults);
        return false;
    }
    if (rating->half_width > TemperatureRise{})
        return fail(faults, path, "the rating of an insulation has no spread", "as printed on it: \"105 degC\"");
    const std::string material = in_lower_case(words);
    if (!material.empty() && std::find(insulations.begin(), insulations.end(), material) == insulations.end()) {
        const auto near = nearest_word(material, insulations);
        return fail(faults, path, toml_quoted(words) + " is no insulation that is known",
                    near ? "did you mean \"" + std::string(*near) + "\"?"
                         : "one of " + alternatives(insulations) + ", or none");
    }
    value = {rating->value, material};
    return true;
}
std::string Format<Insulation>::write(const Insulation& value) {
    return toml_quoted(voltwright::write(Spread<Temperature>{value.rating}) +
                       (value.material.empty() ? "" : " " + value.material));
}
Checked Format<Insulation>::measures(const Insulation& value) { return {{amount(value.rating)}}; }
Shape Format<Insulation>::shape() {
    Shape shape = quantity_shape(Dimension::temperature);
    shape.says = "a temperature rating, with the material if known";
    shape.words = {insulations.begin(), insulations.end()};
    shape.example = "\"105 degC xlpe\"";
    return shape;
}

bool Format<SizesChoice>::read(const Entry& entry, const std::string& path, SizesChoice& value, Faults& faults) {
    if (!entry.list()) {
        if (entry.text() && begins_with_number(*entry.text())) {
            Gauge gauge{};
            if (!Format<Gauge>::read(entry, path, gauge, faults)) return false;
            value = std::vector<Gauge>{gauge};
            return true;
        }
        const auto series = read_word(entry, path, Words<SizeSeries>::all, faults);
        if (series)
            value = static_cast<SizeSeries>(*series);
        else
            faults.back().hint = "\"awg\", \"metric\", or a list of sizes, as in [\"8 AWG\", \"16 mm2\"]";
        return series.has_value();
    }
    std::vector<Gauge> sizes;
    const bool good = each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        Gauge gauge{};
        if (!Format<Gauge>::read(element, place, gauge, faults)) return false;
        if (std::find(sizes.begin(), sizes.end(), gauge) != sizes.end())
            return fail(faults, place, "this size stands in the list twice");
        sizes.push_back(gauge);
        return true;
    });
    if (good && sizes.empty())
        return fail(faults, path, "this list of sizes is empty", "\"awg\", \"metric\", or [\"8 AWG\", \"16 mm2\"]");
    value = std::move(sizes);
    return good;
}
std::string Format<SizesChoice>::write(const SizesChoice& value) {
    if (const auto* series = std::get_if<SizeSeries>(&value)) return toml_quoted(voltwright::show(*series));
    std::vector<std::string> written;
    for (const Gauge& gauge : std::get<std::vector<Gauge>>(value)) written.push_back(Format<Gauge>::write(gauge));
    return list_of(written);
}
Checked Format<SizesChoice>::measures(const SizesChoice&) { return {}; }
Shape Format<SizesChoice>::shape() {
    return with_parts(
        Shape::Kind::any_of, "a usual series, or the sizes that the shop has",
        {Format<SizeSeries>::shape(), with_parts(Shape::Kind::one_or_list, "sizes", {Format<Gauge>::shape()})});
}

}  // namespace voltwright
