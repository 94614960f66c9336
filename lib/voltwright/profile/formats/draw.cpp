#include "voltwright/profile/formats/draw.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"

#include <type_traits>

namespace voltwright {

using namespace formats;

namespace {

template <class... Qs>
std::string names_of() {
    std::string text;
    ((text += (text.empty() ? "" : " or ") + std::string(name_of(dimension<Qs>()))), ...);
    return text;
}

template <class First, class... Rest>
bool read_either(const Entry& entry, const std::string& path, std::variant<Spread<First>, Spread<Rest>...>& value,
                 Faults& faults) {
    const std::string wanted = names_of<First, Rest...>();
    const std::string* text = text_or_fault(entry, path, wanted, example_of(dimension<First>()), faults);
    if (!text) return false;
    const auto found = dimension_of(*text);
    const auto take = [&]<class Q>(const Q*) {
        const auto read = parse<Q>(*text);
        if (!read) {
            unreadable(path, read.wrong(), faults);
            return false;
        }
        value = *read;
        return true;
    };
    bool done = false, good = false;
    const auto attempt = [&]<class Q>(const Q* kind) {
        if (!done && found == dimension<Q>()) {
            done = true;
            good = take(kind);
        }
    };
    attempt(static_cast<const First*>(nullptr));
    (attempt(static_cast<const Rest*>(nullptr)), ...);
    if (done) return good;
    if (found)
        return fail(faults, path, "this is " + std::string(name_of(*found)) + "; " + wanted + " is wanted",
                    toml_quoted(example_of(dimension<First>())));
    return take(static_cast<const First*>(nullptr));
}

template <class Variant>
std::string write_either(const Variant& value) {
    return std::visit([](const auto& spread) { return toml_quoted(write(spread)); }, value);
}

template <class Variant>
Amount amount_of(const Variant& value) {
    return std::visit([](const auto& spread) { return amount(spread.value); }, value);
}

}  // namespace

bool Format<Draw>::read(const Entry& entry, const std::string& path, Draw& value, Faults& faults) {
    return read_either<Power, Current, Resistance>(entry, path, value, faults);
}
std::string Format<Draw>::write(const Draw& value) { return write_either(value); }
Checked Format<Draw>::measures(const Draw& value) { return {{amount_of(value)}}; }
Shape Format<Draw>::shape() {
    return {Shape::Kind::quantity,
            "a power, a current or a resistance",
            {Dimension::power, Dimension::current, Dimension::resistance}};
}

bool Format<DailyUse>::read(const Entry& entry, const std::string& path, DailyUse& value, Faults& faults) {
    return read_either<Charge, Energy>(entry, path, value, faults);
}
std::string Format<DailyUse>::write(const DailyUse& value) { return write_either(value); }
Checked Format<DailyUse>::measures(const DailyUse& value) { return {{amount_of(value)}}; }
Shape Format<DailyUse>::shape() {
    return {Shape::Kind::quantity, "ampere-hours at 12 V, or watt-hours", {Dimension::charge, Dimension::energy}};
}

}  // namespace voltwright
