#include "voltwright/profile/amount.hpp"

#include "voltwright/units/show.hpp"
#include "voltwright/units/spread.hpp"

#include <stdexcept>

namespace voltwright {

namespace {

template <class Visit>
std::string visit_quantity(Dimension dimension, double value, Visit visit) {
    switch (dimension) {
        case Dimension::current: return visit(Current::from_value(value));
        case Dimension::voltage: return visit(Voltage::from_value(value));
        case Dimension::resistance: return visit(Resistance::from_value(value));
        case Dimension::power: return visit(Power::from_value(value));
        case Dimension::energy: return visit(Energy::from_value(value));
        case Dimension::charge: return visit(Charge::from_value(value));
        case Dimension::length: return visit(Length::from_value(value));
        case Dimension::area: return visit(Area::from_value(value));
        case Dimension::volume: return visit(Volume::from_value(value));
        case Dimension::duration: return visit(Duration::from_value(value));
        case Dimension::mass: return visit(Mass::from_value(value));
        case Dimension::angle: return visit(Angle::from_value(value));
        case Dimension::ratio: return visit(Ratio::from_value(value));
        case Dimension::temperature: return visit(Temperature::from_value(value));
    }
    throw std::logic_error("a dimension without a quantity");
}

std::string as_count(double value) { return std::to_string(static_cast<int>(value)); }

}  // namespace

std::string show(const Amount& amount) {
    if (!amount.dimension) return as_count(amount.value);
    return visit_quantity(*amount.dimension, amount.value, [](auto quantity) { return show(quantity); });
}

std::string write(const Amount& amount) {
    if (!amount.dimension) return as_count(amount.value);
    return visit_quantity(*amount.dimension, amount.value,
                          [](auto quantity) { return write(Spread<decltype(quantity)>{quantity}); });
}

}  // namespace voltwright
