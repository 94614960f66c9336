#include "voltwright/profile/formats/stud.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/scan.hpp"
#include "voltwright/units/show.hpp"

#include <charconv>
#include <optional>

namespace voltwright {

using namespace formats;

namespace {

/// "5/16 in" as a length; nothing when it is no such fraction.
std::optional<Length> fraction_of_an_inch(std::string_view text) {
    const std::size_t bar = text.find('/');
    if (bar == std::string_view::npos) return {};
    int over = 0, under = 0;
    const auto first = std::from_chars(text.data(), text.data() + bar, over);
    const auto second = std::from_chars(text.data() + bar + 1, text.data() + text.size(), under);
    if (first.ec != std::errc() || first.ptr != text.data() + bar || second.ec != std::errc() || under < 1) return {};
    const std::string unit =
        in_lower_case(without_spaces_around(text.substr(static_cast<std::size_t>(second.ptr - text.data()))));
    if (unit != "in" && unit != "inch") return {};
    return millimetres(254.0 * over / under / 10.0);
}

/// The diameter of "M8"; nothing when it is no such thread.
std::optional<Length> metric_thread(std::string_view text) {
    if (text.size() < 2 || (text[0] != 'M' && text[0] != 'm') || !is_digit(text[1])) return {};
    double number = 0;
    const auto [end, error] = std::from_chars(text.data() + 1, text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    return millimetres(number);
}

}  // namespace

bool Format<Stud>::read(const Entry& entry, const std::string& path, Stud& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a stud", "M8", faults);
    if (!text) return false;
    const std::string_view said = without_spaces_around(*text);
    if (const auto thread = metric_thread(said)) {
        value = {*thread};
    } else if (const auto fraction = fraction_of_an_inch(said)) {
        value = {*fraction};
    } else if (const auto length = parse<Length>(said); length && length->half_width == Length{}) {
        value = {length->value};
    } else {
        return fail(faults, path, toml_quoted(*text) + " is no stud",
                    "its thread or its diameter, as in \"M8\", \"8 mm\" or \"5/16 in\"");
    }
    return true;
}
std::string Format<Stud>::write(const Stud& value) {
    return toml_quoted(voltwright::write(Spread<Length>{value.diameter}));
}
Checked Format<Stud>::measures(const Stud& value) { return {{amount(value.diameter)}}; }
Shape Format<Stud>::shape() { return {Shape::Kind::stud, "the thread of a stud"}; }

}  // namespace voltwright
