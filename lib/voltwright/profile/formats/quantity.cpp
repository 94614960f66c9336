#include "voltwright/profile/formats/quantity.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/scan.hpp"
#include "voltwright/units/show.hpp"

namespace voltwright {

template <class Q>
bool Format<Spread<Q>>::read(const Entry& entry, const std::string& path, Spread<Q>& value, Faults& faults) {
    const std::string* text =
        formats::text_or_fault(entry, path, name_of(dimension<Q>()), example_of(dimension<Q>()), faults);
    if (!text) return false;
    const auto parsed = parse<Q>(*text);
    if (!parsed) {
        formats::unreadable(path, parsed.wrong(), faults);
        return false;
    }
    value = *parsed;
    return true;
}

template <class Q>
std::string Format<Spread<Q>>::write(const Spread<Q>& value) {
    return formats::toml_quoted(voltwright::write(value));
}

template <class Q>
Checked Format<Spread<Q>>::measures(const Spread<Q>& value) {
    return {{amount(value.value)}};
}

template <class Q>
Shape Format<Spread<Q>>::shape() {
    return formats::quantity_shape(dimension<Q>());
}

template struct Format<Spread<Current>>;
template struct Format<Spread<Voltage>>;
template struct Format<Spread<Resistance>>;
template struct Format<Spread<Power>>;
template struct Format<Spread<Energy>>;
template struct Format<Spread<Charge>>;
template struct Format<Spread<Length>>;
template struct Format<Spread<Area>>;
template struct Format<Spread<Volume>>;
template struct Format<Spread<Duration>>;
template struct Format<Spread<Mass>>;
template struct Format<Spread<Angle>>;
template struct Format<Spread<Ratio>>;
template struct Format<Spread<Temperature>>;

namespace formats {

template <class Q>
WithWords<Q> split_words(std::string_view text) {
    text = without_spaces_around(text);
    WithWords<Q> best{parse<Q>(text), {}};
    if (best.quantity) return best;
    for (std::size_t end = text.size(); end-- > 1;) {
        if (!is_space(text[end])) continue;
        const auto quantity = parse<Q>(text.substr(0, end));
        if (quantity) return {quantity, without_spaces_around(text.substr(end))};
    }
    // The words of a fault are about the first two words at most: "50 V", not "50 V SF30".
    const std::size_t first = text.find_first_of(" \t");
    if (first != std::string_view::npos) {
        const std::size_t next = text.find_first_not_of(" \t", first);
        const std::size_t second = next == std::string_view::npos ? next : text.find_first_of(" \t", next);
        if (second != std::string_view::npos) best.quantity = parse<Q>(text.substr(0, second));
    }
    return best;
}

template WithWords<Current> split_words<Current>(std::string_view text);
template WithWords<Temperature> split_words<Temperature>(std::string_view text);

}  // namespace formats

}  // namespace voltwright
