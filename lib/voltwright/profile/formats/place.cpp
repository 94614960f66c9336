#include "voltwright/profile/formats/place.hpp"

#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/reading.hpp"

#include <utility>

namespace voltwright {

using namespace formats;

bool Format<Somewhere>::read(const Entry& entry, const std::string& path, Somewhere& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a place or a temperature", "40 degC", faults);
    if (!text) return false;
    if (begins_with_number(*text)) {
        Spread<Temperature> temperature{celsius(0.0)};
        if (!Format<Spread<Temperature>>::read(entry, path, temperature, faults)) return false;
        value = temperature;
        return true;
    }
    std::string place;
    if (!Format<std::string>::read(entry, path, place, faults)) return false;
    value = std::move(place);
    return true;
}
std::string Format<Somewhere>::write(const Somewhere& value) {
    if (const auto* place = std::get_if<std::string>(&value)) return toml_quoted(*place);
    return Format<Spread<Temperature>>::write(std::get<Spread<Temperature>>(value));
}
Checked Format<Somewhere>::measures(const Somewhere& value) {
    if (const auto* temperature = std::get_if<Spread<Temperature>>(&value)) return {{amount(temperature->value)}};
    return {};
}
Shape formats::place_shape() {
    Shape shape = Format<std::string>::shape();
    shape.says = "a named place";
    shape.example = "\"engine bay\"";
    return shape;
}

Shape Format<Somewhere>::shape() {
    return with_parts(Shape::Kind::any_of, "a named place, or a temperature",
                      {place_shape(), quantity_shape(Dimension::temperature)});
}

}  // namespace voltwright
