#include "voltwright/profile/formats/accuracy.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/scan.hpp"
#include "voltwright/units/show.hpp"

#include <utility>

namespace voltwright {

using namespace formats;

namespace {

/// "0.5 % + 20 mV", "2 %", "20 mV".
template <class Q>
bool read_accuracy(const Entry& entry, const std::string& path, std::string_view example, Accuracy<Q>& value,
                   Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a meter's accuracy", example, faults);
    if (!text) return false;
    std::string_view rest = without_spaces_around(*text);
    for (const std::string_view sign : {"\u00b1", "+-", "+/-"})  // "± 2 %" is how makers print it
        if (rest.substr(0, sign.size()) == sign) rest = without_spaces_around(rest.substr(sign.size()));
    value = {ratio(0.0), Q{}};
    bool share = false, fixed = false;
    while (!rest.empty()) {
        const std::size_t plus = rest.find('+', 1);
        const std::string_view part = without_spaces_around(rest.substr(0, plus));
        rest = plus == std::string_view::npos ? std::string_view{} : rest.substr(plus + 1);
        const auto as_share = parse<Ratio>(part);
        if (as_share && !share) {
            value.share = as_share->value;
            share = true;
            continue;
        }
        const auto as_fixed = parse<Q>(part);
        if (!as_fixed || fixed) {
            std::string hint = "a share of the reading and a fixed part, as in " + toml_quoted(example);
            if (share && !as_fixed)
                unreadable(path, as_fixed.wrong(), faults);
            else
                faults.push_back({path, toml_quoted(*text) + " is no accuracy", {}});
            faults.back().hint = std::move(hint);
            return false;
        }
        value.fixed = as_fixed->value;
        fixed = true;
    }
    if (!share && !fixed) return fail(faults, path, "this text is empty", "as in " + toml_quoted(example));
    return true;
}

template <class Q>
std::string accuracy_text(const Accuracy<Q>& value) {
    const std::string share = write(Spread<Ratio>{value.share}), fixed = write(Spread<Q>{value.fixed});
    if (!(value.fixed > Q{})) return toml_quoted(share);
    return toml_quoted(value.share > ratio(0.0) ? share + " + " + fixed : fixed);
}

template <class Q>
Shape accuracy_shape() {
    return {Shape::Kind::quantity,
            "a share of the reading, a fixed part, or both with + between",
            {Dimension::ratio, dimension<Q>()}};
}

}  // namespace

bool Format<Accuracy<Voltage>>::read(const Entry& entry, const std::string& path, Accuracy<Voltage>& value,
                                     Faults& faults) {
    return read_accuracy(entry, path, "0.5 % + 20 mV", value, faults);
}
std::string Format<Accuracy<Voltage>>::write(const Accuracy<Voltage>& value) { return accuracy_text(value); }
Checked Format<Accuracy<Voltage>>::measures(const Accuracy<Voltage>& value) {
    return {{amount(value.share)}, {amount(value.fixed)}};
}
Shape Format<Accuracy<Voltage>>::shape() { return accuracy_shape<Voltage>(); }

bool Format<Accuracy<Current>>::read(const Entry& entry, const std::string& path, Accuracy<Current>& value,
                                     Faults& faults) {
    return read_accuracy(entry, path, "2 %", value, faults);
}
std::string Format<Accuracy<Current>>::write(const Accuracy<Current>& value) { return accuracy_text(value); }
Checked Format<Accuracy<Current>>::measures(const Accuracy<Current>& value) {
    return {{amount(value.share)}, {amount(value.fixed)}};
}
Shape Format<Accuracy<Current>>::shape() { return accuracy_shape<Current>(); }

}  // namespace voltwright
