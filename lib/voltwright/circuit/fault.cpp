#include "voltwright/circuit/fault.hpp"

namespace voltwright {

FaultCurrent fault_current(Voltage open_circuit, Resistance internal, Resistance loop) {
    return {open_circuit, internal, loop, open_circuit / (internal + loop)};
}

}  // namespace voltwright
