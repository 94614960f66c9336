#include "kinds.hpp"

namespace voltwright::generate_tables {

/// Figures of common practice: each row is an enumerator, so that none is asked for which is not there.
Kinds practice_kinds() {
    return {
        {"practice_voltages",
         {.row = "PracticeVoltageRow",
          .span = "practice_voltages",
          .members = {one_of("PracticeVoltage", "what"), column("value", "Voltage"), source()},
          .unique = {"what"}}},
        {"practice_shares",
         {.row = "PracticeShareRow",
          .span = "practice_shares",
          .members = {one_of("PracticeShare", "what"), column("value", "Ratio", Range::beyond_one), source()},
          .unique = {"what"}}},
        {"practice_lengths",
         {.row = "PracticeLengthRow",
          .span = "practice_lengths",
          .members = {one_of("PracticeLength", "what"), column("value", "Length"), source()},
          .unique = {"what"}}},
    };
}

}  // namespace voltwright::generate_tables
