#pragma once

#include "voltwright/circuit/place.hpp"
#include "voltwright/planning/findings/finding_code.hpp"
#include "voltwright/provenance/source.hpp"
#include "voltwright/units/clock.hpp"
#include "voltwright/units/gauge.hpp"
#include "voltwright/units/measure.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

/// What physics or a rule has to say of a plan, as data: codes and quantities. The sentences are in messages/.
namespace voltwright {

/// A stop: the plan does not hold. A warn: it holds, and somebody should look. A note: good to know.
enum class Level { stop, warn, note };

constexpr std::string_view show(Level level) {
    return level == Level::stop ? "stop" : level == Level::warn ? "warn" : "note";
}

/// What a finding bears on beside the plan as a whole: a stop of the trip stops the trip too, and one that stands with the
/// engine off as well the hours that everything runs then.
enum class Concern { wiring, trip, engine_off };

/// The thing that a finding is about.
struct FindingSubject {
    enum class Kind {
        run,
        load,
        starter_battery,
        house_battery,
        charger,
        relay,
        inverter,
        panel,
        regulator,  ///< of the panel
        sun,
        fuses,  ///< all of them
        rule,
    };
    Kind kind;
    std::vector<std::string> names = {};  ///< of runs, loads and rules, as the profile has them

    friend bool operator==(const FindingSubject&, const FindingSubject&) = default;
};

/// As the profile names it: "feed", "fridge, pump", "charger", "rules.ampacity".
std::string show(const FindingSubject& subject);
std::string_view show(FindingSubject::Kind kind);

// ---- what a sentence needs to say -----------------------------------------------------------------------------------

/// A cable of a run, with the temperature that its insulation is rated for.
struct NamedCable {
    Gauge size;
    Temperature insulation;
    bool is_return = false;  ///< the way back, where that is the thinner conductor
};

/// A fuse, and where it sits.
struct NamedFuse {
    Current rating;
    std::string family;
    std::optional<Place> at = {};  ///< the end of the run; empty where that does not matter
};

/// A size that a table does not print, and the row of the table that counts for it.
struct RowTaken {
    Gauge size, row;

    friend bool operator==(const RowTaken&, const RowTaken&) = default;
};

/// What brings more charge back, from what the profile has.
enum class MoreCharge {
    panel,
    larger_panel,
    drive_or_panel,
    longer_drives_or_larger_panel,
    longer_drives_or_panel,
    larger_panel_or_charger,
    charger_or_panel,
    larger_charger_or_larger_panel,
    larger_charger_or_panel
};
std::string_view show(MoreCharge more);

/// One thing that a sentence needs. Its name stands in the sentence's words, and in an answer with its unit behind it.
struct Argument {
    using Value = std::variant<Measure, bool, int, Gauge, NamedCable, NamedFuse, std::vector<NamedFuse>,
                               std::vector<RowTaken>, Place, Moment, MoreCharge, std::string, std::vector<std::string>>;
    std::string_view name;
    Value value;
};
using Arguments = std::vector<Argument>;

/// nullptr when there is none of that name.
const Argument* find_argument(const Arguments& arguments, std::string_view name);

// ---- what to do ------------------------------------------------------------------------------------------------------

/// A key of the profile and the text of its value, as `--set` takes them: `run.feed.size` and `4 AWG`.
struct Change {
    std::string key, value;
};

/// A next step in a word, and what it needs.
struct RemedyStep {
    RemedyCode code;
    Arguments arguments = {};
};

/// What to do: the steps in their order, and the changes of the profile that they come to. Without steps it is what the
/// finding's code always asks for; without changes there is no key whose value is known.
struct Remedy {
    std::vector<RemedyStep> steps = {};
    std::vector<Change> changes = {};
};

/// Both, one after the other.
Remedy operator+(Remedy first, Remedy second);

struct Finding {
    Level level;
    FindingCode code;
    FindingSubject about;
    std::optional<Measure> found = {};    ///< what there is
    std::optional<Measure> allowed = {};  ///< what the rule or the part allows
    Arguments arguments = {};             ///< what its sentence and its remedy need beside these
    Remedy remedy = {};
    Source source;
    Concern concern = Concern::wiring;

    [[nodiscard]] bool stops() const { return level == Level::stop; }
};

using Findings = std::vector<Finding>;

inline bool any_stops(const Findings& findings) {
    return std::any_of(findings.begin(), findings.end(), [](const Finding& finding) { return finding.stops(); });
}

}  // namespace voltwright
