#include "voltwright/profile/formats/return_path.hpp"

#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/scan.hpp"

namespace voltwright {

using namespace formats;

bool Format<ReturnPath>::read(const Entry& entry, const std::string& path, ReturnPath& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "\"cable\", \"body\", \"frame\" or a measured resistance",
                                            example_of(Dimension::resistance), faults);
    if (!text) return false;
    if (begins_with_number(*text)) {
        Spread<Resistance> resistance{};
        if (!Format<Spread<Resistance>>::read(entry, path, resistance, faults)) return false;
        value = resistance;
        return true;
    }
    const std::string word = in_lower_case(without_spaces_around(*text));
    if (word == "cable")
        value = ByCable{};
    else if (word == "body" || word == "frame")
        value = ByBody{word == "frame"};
    else
        return fail(
            faults, path, toml_quoted(*text) + " is no way back",
            word == "chassis" || word == "earth" || word == "ground"
                ? "write \"body\" where it is welded in one piece, \"frame\" for a bolted tub or a ladder frame"
                : "\"cable\", \"body\", \"frame\", or the measured resistance of the whole return, as in \"4 mOhm\"");
    return true;
}
std::string Format<ReturnPath>::write(const ReturnPath& value) {
    if (const auto* resistance = std::get_if<Spread<Resistance>>(&value))
        return Format<Spread<Resistance>>::write(*resistance);
    if (const auto* body = std::get_if<ByBody>(&value)) return body->frame ? "\"frame\"" : "\"body\"";
    return "\"cable\"";
}
Checked Format<ReturnPath>::measures(const ReturnPath& value) {
    if (const auto* resistance = std::get_if<Spread<Resistance>>(&value)) return {{amount(resistance->value)}};
    return {};
}
Shape Format<ReturnPath>::shape() {
    return with_parts(Shape::Kind::any_of, "a word, or a resistance",
                      {with_words("a word", {"cable", "body", "frame"}), quantity_shape(Dimension::resistance)});
}

}  // namespace voltwright
