#pragma once

#include "voltwright/energy/sun.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<DaySun> {
    static constexpr Equation equation{};
    static constexpr auto result = &DaySun::extraterrestrial;
    static constexpr auto fields = std::tuple{
        field(&DaySun::latitude, "φ", "latitude"),
        field(&DaySun::day, "J", "day of the year"),
        field(&DaySun::distance, "dr", "sun's power by its distance, of the year's mean"),
        field(&DaySun::declination, "δ", "declination of the sun"),
        field(&DaySun::sunset, "ωs", "hour angle of sunset"),
        field(&DaySun::daylight, "N", "length of the day"),
        field(&DaySun::extraterrestrial, "Ra", "on the horizontal outside the air, in the day"),
    };
};

template <>
struct Described<PanelPower> {
    static constexpr Equation equation{"P = y·Pm", "Evans 1981, linear in the cells' temperature"};
    static constexpr auto result = &PanelPower::power;
    static constexpr auto fields = std::tuple{
        field(&PanelPower::extraterrestrial, "Ra", "on the horizontal outside the air"),
        field(&PanelPower::clearness, "c", "share that comes through the clouds"),
        field(&PanelPower::horizontal, "H", "on the horizontal"),
        field(&PanelPower::diffuse, "", "share of it from the whole sky"),
        field(&PanelPower::beam, "", "on the panel, straight from the sun"),
        field(&PanelPower::sky, "", "on the panel, from the sky"),
        field(&PanelPower::ground, "", "on the panel, from the ground"),
        field(&PanelPower::plane, "G", "on the panel, after shade"),
        field(&PanelPower::cell, "Tc", "temperature of the cells"),
        field(&PanelPower::panel, "Pm", "power that the panel gives its regulator, before losses"),
        field(&PanelPower::yield, "y", "share that dust, cables and regulator leave"),
        field(&PanelPower::power, "P", "power that the regulator can give"),
    };
};

}  // namespace voltwright
