#include "voltwright/profile/formats/joints.hpp"

#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/reading.hpp"

#include <utility>

namespace voltwright {

using namespace formats;

bool Format<std::vector<JointChoice>>::read(const Entry& entry, const std::string& path,
                                            std::vector<JointChoice>& value, Faults& faults) {
    return each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        const std::string* text = text_or_fault(element, place, "a joint's name or its resistance", "0.3 mOhm", faults);
        if (!text) return false;
        if (begins_with_number(*text)) {
            Spread<Resistance> resistance{};
            if (!Format<Spread<Resistance>>::read(element, place, resistance, faults)) return false;
            value.emplace_back(resistance);
            return true;
        }
        std::string name;
        if (!Format<std::string>::read(element, place, name, faults)) return false;
        value.emplace_back(std::move(name));
        return true;
    });
}
std::string Format<std::vector<JointChoice>>::write(const std::vector<JointChoice>& value) {
    std::vector<std::string> written;
    for (const JointChoice& joint : value) {
        const auto* name = std::get_if<std::string>(&joint);
        written.push_back(name ? toml_quoted(*name)
                               : Format<Spread<Resistance>>::write(std::get<Spread<Resistance>>(joint)));
    }
    return list_of(written);
}
Checked Format<std::vector<JointChoice>>::measures(const std::vector<JointChoice>& value) {
    Checked checked;
    for (std::size_t i = 0; i < value.size(); ++i)
        if (const auto* resistance = std::get_if<Spread<Resistance>>(&value[i]))
            checked.push_back({amount(resistance->value), path_to({}, i)});
    return checked;
}
Shape Format<std::vector<JointChoice>>::shape() {
    Shape name = Format<std::string>::shape();
    name.example = "\"lug\"";
    Shape shape = with_parts(Shape::Kind::one_or_list, "joints by name or by resistance",
                             {with_parts(Shape::Kind::any_of, "a joint's name, or a resistance",
                                         {name, quantity_shape(Dimension::resistance)})});
    shape.example = "[\"lug\", \"lug\", \"0.3 mOhm\"]";
    return shape;
}

}  // namespace voltwright
