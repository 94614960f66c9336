#pragma once

#include "voltwright/tables/tables.hpp"
#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// What the cable of solar panels is asked to carry.
///
///     I = b·I_sc          I_table ≥ l·I          I_ampacity ≥ I
///
/// I_sc        short-circuit current of all strings together, at standard conditions
/// I           the greatest current: what the ampacity where the cable runs, parts and all, has to be at least
/// I_table     ampacity before any correction
/// b, l        1.25 each: a sun that is brighter than the standard's, and one that lasts for hours
///
/// The second factor is not applied on top of a correction for heat or bundles. A panel gives no more than this into a
/// short either, so that a cable which bears it needs no fuse.
/// Source: NEC 690.8(A)(1) and (B)(1), in a trade journal, read.
struct PanelDesignCurrent {
    Current short_circuit;
    Ratio bright;
    Current most;
    Ratio lasting;
    Current table_least;
};

PanelDesignCurrent panel_design_current(Current short_circuit, const Tables& tables = built_in_tables());

}  // namespace voltwright
