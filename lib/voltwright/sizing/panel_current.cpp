#include "voltwright/sizing/panel_current.hpp"

#include "voltwright/tables/practice.hpp"

namespace voltwright {

PanelDesignCurrent panel_design_current(Current short_circuit, const Tables& tables) {
    const Ratio bright = practice(tables, PracticeShare::bright_sun).value;
    const Ratio lasting = practice(tables, PracticeShare::lasting_sun).value;
    const Current most = bright * short_circuit;
    return {short_circuit, bright, most, lasting, lasting * most};
}

}  // namespace voltwright
