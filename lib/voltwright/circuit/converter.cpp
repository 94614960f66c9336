#include "voltwright/circuit/converter.hpp"

#include <algorithm>

namespace voltwright {

std::optional<ConverterInput> converter_input(Voltage source, Resistance loop, Power power,
                                              std::optional<Current> limit) {
    const auto discriminant = source * source - 4.0 * power * loop;
    if (discriminant >= decltype(discriminant){}) {
        const Voltage voltage = (source + sqrt(discriminant)) / 2.0;
        const Current current = power / voltage;
        if (!limit || current <= *limit) return ConverterInput{source, loop, power, limit, false, voltage, current};
    }
    if (!limit) return {};
    const Voltage voltage = source - *limit * loop;
    if (!(voltage > Voltage{})) return {};
    return ConverterInput{source, loop, voltage * *limit, limit, true, voltage, *limit};
}

ConverterPower converter_power(Current output, Voltage output_voltage, Ratio efficiency) {
    return {output, output_voltage, efficiency, output * output_voltage / efficiency};
}

FeedDesignCurrent feed_design_current(Current output, Voltage highest_output_voltage, Ratio efficiency,
                                      Voltage input_off, std::optional<Current> limit) {
    const Current unlimited = output * highest_output_voltage / (efficiency * input_off);
    return {
        output, highest_output_voltage, efficiency, input_off, limit, limit ? std::min(*limit, unlimited) : unlimited};
}

}  // namespace voltwright
