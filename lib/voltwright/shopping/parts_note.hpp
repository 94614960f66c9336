#pragma once

#include "voltwright/circuit/place.hpp"
#include "voltwright/units/gauge.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// Something that is said beside the lines of a parts list. Behind each code stands what it needs to be said.
enum class PartsNoteCode {
    // to be looked at before buying
    plan_does_not_hold,
    fuses_on_post,          ///< `place`, `count` of fuses that sit on its plus
    stud_not_named,         ///< `place`
    shrink_not_known,       ///< `size`: the outside of such a cable is not known, or no sleeve is wide enough
    outside_not_known,      ///< `run`, `size`
    no_tube_wide_enough,    ///< `run`
    leads_too_thin,         ///< `run`: those of its in-line fuse holder
    block_partly_there,     ///< `place`, `count` of ways
    fittings_of_the_owned,  ///< of cables that are there already
    // there already, not to be bought
    owned_cable,  ///< `run`, `size`, `insulation`; `back` where the way back has another size
    owned_fuse,   ///< `run`, `current` (its rating), `family`, `place`
    // what no list can know
    no_size_passes,         ///< `run`; `size` that comes nearest
    joints_as_resistances,  ///< `run`
    wake_wire_not_known,    ///< its way or a size for it
    wake_wire_terminals,    ///< named by the charger's manual
    bank_not_known,         ///< `count` of batteries: their links and fuses
    bank_no_size_passes,    ///< `count` of batteries, `current`
    splices_of_holders,     ///< one or two for each in-line fuse holder
    tools,
    battery_tray,
    appliances,
    terminals_of_appliances,
};

struct PartsNote {
    PartsNoteCode code;
    std::string run = {}, family = {};
    std::optional<Place> place = {};
    std::optional<Gauge> size = {}, back = {};
    std::optional<Temperature> insulation = {};
    std::optional<Current> current = {};
    int count = 0;

    friend bool operator==(const PartsNote&, const PartsNote&) = default;
};

/// Notes it, unless it stands there already.
void note_once(std::vector<PartsNote>& notes, PartsNote note);

}  // namespace voltwright
