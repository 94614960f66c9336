// Types the tables: reads data/**/*.toml, checks them, and writes one C++ source of constexpr rows.
//
//     voltwright_entables OUTPUT.cpp TABLE.toml …
//
// A bad table stops the build in the compiler's own form, `data/fuses/ratings.toml:12:14: error: …`. The output is
// written last and whole, so a failing run leaves nothing that looks up to date.
//
// A new kind of table is a new entry of `kinds`; a new unit is a line of `units`. The same stands in
// shared/table.schema.json, for editors.

// Without this, toml++ 3.3 aborts on a lone bracket instead of reporting it.
#define TOML_ASSERT(x) static_cast<void>(0)
#include <toml++/toml.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {

struct BadTable : std::runtime_error {
    using std::runtime_error::runtime_error;
};

[[noreturn]] void bad(const std::string& file, toml::source_position at, const std::string& what) {
    // A file that cannot be opened has no place.
    const auto number = [](toml::source_index n) { return std::to_string(std::max<toml::source_index>(n, 1)); };
    throw BadTable(file + ":" + number(at.line) + ":" + number(at.column) + ": error: " + what);
}

std::string quoted(std::string_view word) { return "'" + std::string(word) + "'"; }

// ---- units: the maker in units/quantities.hpp that each printed unit stands for -------------------------------------

struct Unit {
    std::string_view dimension;  // the C++ type that the maker gives
    std::string_view maker;
};

const std::map<std::string_view, Unit> units = {
    {"A", {"Current", "amperes"}},
    {"V", {"Voltage", "volts"}},
    {"mV", {"Voltage", "millivolts"}},
    {"ohm", {"Resistance", "ohms"}},
    {"mohm", {"Resistance", "milliohms"}},
    {"ohm Ah", {"ResistanceTimesCharge", "ohm_ampere_hours"}},
    {"Ah", {"Charge", "ampere_hours"}},
    {"m", {"Length", "metres"}},
    {"mm", {"Length", "millimetres"}},
    {"in", {"Length", "inches"}},
    {"mm2", {"Area", "square_millimetres"}},
    {"cmil", {"Area", "circular_mils"}},
    {"degC", {"Temperature", "celsius"}},
    {"degF", {"Temperature", "fahrenheit"}},
    {"K", {"TemperatureRise", "kelvins"}},
    {"ohm/km", {"ResistancePerLength", "ohms_per_kilometre"}},
    {"ohm/kft", {"ResistancePerLength", "ohms_per_1000_feet"}},
    {"g/m", {"MassPerLength", "grams_per_metre"}},
    {"lb/kft", {"MassPerLength", "pounds_per_1000_feet"}},
    {"mV/K", {"VoltagePerKelvin", "millivolts_per_kelvin"}},
    {"/K", {"PerKelvin", "per_kelvin"}},
    {"/h", {"ChargeRate", "per_hour"}},
    {"L", {"Volume", "litres"}},
    {"h", {"Duration", "hours"}},
    {"s", {"Duration", "seconds"}},
    {"W", {"Power", "watts"}},
    {"W/K", {"ThermalConductance", "watts_per_kelvin"}},
    {"kJ/(kg K)", {"SpecificHeat", "kilojoules_per_kilogram_kelvin"}},
    {"kJ/kg", {"EnergyPerMass", "kilojoules_per_kilogram"}},
    {"%", {"Ratio", "percent"}},
    {"1", {"Ratio", "ratio"}},
    {"deg", {"Angle", "degrees"}},
};

// ---- kinds: which struct a table's rows become, and where each member comes from ------------------------------------

enum class Holds {
    text,
    gauge,  // a conductor's size
    count,  // a whole number from 1
    yes_no,
    form,  // of a fuse
    quantity,
    source,      // of the row
    its_source,  // of the constant of the same key
    class_,      // the temperature that a class column is named by
    class_cell,  // the figure in that column
};

enum class Where { column, optional_column, constant };
enum class Range {
    positive,
    zero_too,
    negative_too,
    beyond_one,  // positive, and a ratio that is no share: a factor or an exponent
};

/// One member of a row's struct.
struct Member {
    std::string_view name;
    Holds holds = Holds::quantity;
    std::string_view dimension = {};  // of a quantity
    Where where = Where::column;
    Range range = Range::positive;
    std::string_view key = {};  // what the table calls it, where that differs

    [[nodiscard]] std::string_view called() const { return key.empty() ? name : key; }
    [[nodiscard]] bool in_columns() const {
        return where != Where::constant && holds != Holds::source && holds != Holds::class_ &&
               holds != Holds::class_cell;
    }
};

Member column(std::string_view name, std::string_view dimension, Range range = Range::positive) {
    return {name, Holds::quantity, dimension, Where::column, range, {}};
}
Member column(std::string_view name, Holds holds) { return {name, holds, {}, Where::column, Range::positive, {}}; }
Member optional(Member member) {
    member.where = Where::optional_column;
    return member;
}
Member constant(Member member) {
    member.where = Where::constant;
    return member;
}
Member called(std::string_view key, Member member) {
    member.key = key;
    return member;
}
const Member source{"source", Holds::source, {}, Where::column, Range::positive, {}};

using Names = std::vector<std::string_view>;

struct Kind {
    std::string_view row;         // the struct
    std::string_view span;        // the member of Tables
    std::vector<Member> members;  // in the order of the struct
    Names unique;                 // members that together name a row
    Names rising = {};            // from row to row of a table
    Names falling = {};
    std::string_view within = {};                  // rising and falling count among rows that share this member
    std::vector<Names> ordered = {};               // members of one row, each not below the one before
    std::string_view refers = {}, refers_to = {};  // a member that must be a name of another kind's rows
    bool by_class = false;                         // columns named by a temperature: one row a cell
};

const std::map<std::string_view, Kind> kinds = {
    {"conductors",
     {.row = "ConductorRow",
      .span = "conductors",
      .members = {column("gauge", Holds::gauge), column("area", "Area"), column("plain", "ResistancePerLength"),
                  column("tinned", "ResistancePerLength"), constant(column("resistance_at", "Temperature")),
                  optional(column("outside", "Length")), optional(column("copper", "MassPerLength")), source,
                  constant(column("coefficient", "PerKelvin")),
                  constant(called("coefficient", column("coefficient_source", Holds::its_source)))},
      .unique = {"gauge"},
      .rising = {"gauge", "area", "outside", "copper"},
      .falling = {"plain", "tinned"},
      .ordered = {{"plain", "tinned"}}}},
    {"trade_sizes",
     {.row = "TradeSizeRow",
      .span = "trade_sizes",
      .members = {column("gauge", Holds::gauge), column("area", "Area"), source},
      .unique = {"gauge"},
      .rising = {"gauge", "area"}}},
    {"ampacity_bases",
     {.row = "AmpacityBasisRow",
      .span = "ampacity_bases",
      .members = {column("basis", Holds::text), column("title", Holds::text), column("ambient", "Temperature"),
                  optional(column("fuse_within", "Length")), optional(column("fuse_within_enclosed", "Length")),
                  column("grouping_from", "Voltage", Range::zero_too), source},
      .unique = {"basis"}}},
    {"ampacities",
     {.row = "AmpacityRow",
      .span = "ampacities",
      .members = {constant(column("basis", Holds::text)),
                  column("gauge", Holds::gauge),
                  column("insulation", Holds::class_),
                  {"current", Holds::class_cell, "Current"},
                  source},
      .unique = {"basis", "gauge"},
      .rising = {"gauge"},
      .refers = "basis",
      .refers_to = "ampacity_bases",
      .by_class = true}},
    {"groupings",
     {.row = "GroupingRow",
      .span = "groupings",
      .members = {constant(column("basis", Holds::text)), column("from", Holds::count),
                  optional(column("to", Holds::count)), column("factor", "Ratio"), source},
      .unique = {"basis", "from"},
      .rising = {"from", "to"},
      .ordered = {{"from", "to"}},
      .refers = "basis",
      .refers_to = "ampacity_bases"}},
    {"engine_spaces",
     {.row = "EngineSpaceRow",
      .span = "engine_spaces",
      .members = {constant(column("basis", Holds::text)), constant(column("from", "Temperature")),
                  column("insulation", "Temperature"), column("factor", "Ratio"), source},
      .unique = {"basis", "insulation"},
      .rising = {"insulation", "factor"},
      .refers = "basis",
      .refers_to = "ampacity_bases"}},
    {"joints",
     {.row = "JointRow",
      .span = "joints",
      .members = {column("name", Holds::text), column("from", "Area"), column("to", "Area"),
                  column("low", "Resistance"), column("usual", "Resistance"), column("high", "Resistance"),
                  optional(column("rating", "Current")), optional(column("rated_area", "Area")),
                  optional(column("charted", "Current")), optional(column("charted_at", "Temperature")),
                  optional(column("contacts", Holds::count)), optional(column("rating_on_it", Holds::yes_no)),
                  constant(column("heat_limit", "Power")),
                  constant(called("heat_limit", column("heat_limit_source", Holds::its_source))), source},
      .unique = {"name", "from"},
      .ordered = {{"from", "to"}, {"low", "usual", "high"}}}},
    {"body_returns",
     {.row = "BodyReturnRow",
      .span = "body_returns",
      .members = {column("body", Holds::text), column("written", Holds::text), column("low", "Resistance"),
                  column("usual", "Resistance"), column("high", "Resistance"), source},
      .unique = {"body"},
      .ordered = {{"low", "usual", "high"}}}},
    {"fuse_families",
     {.row = "FuseFamilyRow",
      .span = "fuse_families",
      .members = {column("family", Holds::text), column("standard", Holds::text), column("form", Holds::form),
                  optional(column("also", Holds::text)), optional(column("in_shops", Holds::text)),
                  optional(column("in_line_limit", "Current")), optional(column("in_line_area", "Area")),
                  column("holder", "Resistance"), column("rerating", "PerKelvin", Range::zero_too), source,
                  column("usual", Holds::yes_no)},
      .unique = {"family"}}},
    {"breaking_capacities",
     {.row = "BreakingCapacityRow",
      .span = "breaking_capacities",
      .members = {column("family", Holds::text), column("voltage", "Voltage"), column("breaking_capacity", "Current"),
                  source},
      .unique = {"family", "voltage"},
      .rising = {"voltage"},
      .falling = {"breaking_capacity"},
      .within = "family",
      .refers = "family",
      .refers_to = "fuse_families"}},
    {"fuses",
     {.row = "FuseRow",
      .span = "fuses",
      .members = {column("family", Holds::text), column("rating", "Current"), optional(column("cold", "Resistance")),
                  source},
      .unique = {"family", "rating"},
      .rising = {"rating"},
      .falling = {"cold"},
      .within = "family",
      .refers = "family",
      .refers_to = "fuse_families"}},
    {"time_limits",
     {.row = "TimeLimitRow",
      .span = "time_limits",
      .members = {column("family", Holds::text), column("multiple", "Ratio", Range::beyond_one),
                  column("at_least", "Duration"), optional(column("at_most", "Duration")), source},
      .unique = {"family", "multiple"},
      .rising = {"multiple"},
      .falling = {"at_least", "at_most"},
      .within = "family",
      .ordered = {{"at_least", "at_most"}},
      .refers = "family",
      .refers_to = "fuse_families"}},
    {"pulse_shares",
     {.row = "PulseShareRow",
      .span = "pulse_shares",
      .members = {column("pulses", Holds::count), column("share", "Ratio"), source},
      .unique = {"pulses"},
      .rising = {"pulses"},
      .falling = {"share"}}},
    {"short_circuit_limits",
     {.row = "ShortCircuitLimitRow",
      .span = "short_circuit_limits",
      .members = {optional(column("material", Holds::text)), column("rated_to", "Temperature"),
                  column("limit", "Temperature"), source},
      .unique = {"material", "rated_to"},
      .rising = {"rated_to", "limit"},
      .within = "material"}},
    {"surroundings",
     {.row = "SurroundingsRow",
      .span = "surroundings",
      .members = {column("place", Holds::text), column("always", "TemperatureRise", Range::zero_too),
                  column("driving", "TemperatureRise", Range::zero_too),
                  column("sun", "TemperatureRise", Range::zero_too), optional(column("floor", "Temperature")), source},
      .unique = {"place"}}},
    {"chemistries",
     {.row = "ChemistryRow",
      .span = "chemistries",
      .members = {column("chemistry", Holds::text),
                  column("group", Holds::text),
                  column("full", "Voltage"),
                  column("resistance_low", "ResistanceTimesCharge"),
                  column("resistance_high", "ResistanceTimesCharge"),
                  column("fixed_low", "Resistance", Range::zero_too),
                  column("fixed_high", "Resistance", Range::zero_too),
                  column("absorption_low", "Voltage"),
                  column("absorption", "Voltage"),
                  column("absorption_high", "Voltage"),
                  called("float", column("float_", "Voltage")),
                  column("compensation", "VoltagePerKelvin", Range::negative_too),
                  optional(column("compensated_from", "Temperature")),
                  optional(column("compensated_to", "Temperature")),
                  column("depth_limit", "Ratio"),
                  column("charge_limit", "ChargeRate"),
                  column("discharge_limit", "ChargeRate"),
                  optional(column("charge_above", "Temperature")),
                  column("exponent", "Ratio", Range::beyond_one),
                  column("charge_efficiency", "Ratio"),
                  column("self_discharge", "Ratio"),
                  column("acceptance", "ResistanceTimesCharge"),
                  column("acceptance_fall", "Ratio"),
                  optional(column("acceptance_halves", "TemperatureRise")),
                  optional(column("gassing_fall", "Ratio", Range::beyond_one)),
                  source},
      .unique = {"chemistry"},
      .ordered = {{"resistance_low", "resistance_high"},
                  {"fixed_low", "fixed_high"},
                  {"float_", "absorption_low", "absorption", "absorption_high"}}}},
    {"electrolyte_freezing",
     {.row = "ElectrolyteFreezingRow",
      .span = "electrolyte_freezing",
      .members = {column("group", Holds::text), column("soc", "Ratio", Range::zero_too),
                  column("temperature", "Temperature"), source},
      .unique = {"group", "soc"},
      .rising = {"soc"},
      .falling = {"temperature"},
      .within = "group"}},
    {"clearness_indices",
     {.row = "ClearnessIndexRow",
      .span = "clearness_indices",
      .members = {column("from", "Angle", Range::zero_too), column("to", "Angle"), column("month", Holds::count),
                  column("usual", "Ratio"), column("least", "Ratio"), column("most", "Ratio"), source},
      .unique = {"from", "month"},
      .ordered = {{"from", "to"}, {"least", "usual", "most"}}}},
    {"rest_voltages",
     {.row = "RestVoltageRow",
      .span = "rest_voltages",
      .members = {column("chemistry", Holds::text), column("soc", "Ratio", Range::zero_too),
                  column("voltage", "Voltage"), source},
      .unique = {"chemistry", "soc"},
      .rising = {"soc", "voltage"},
      .within = "chemistry",
      .refers = "chemistry",
      .refers_to = "chemistries"}},
    {"cell_size_factors",
     {.row = "CellSizeFactorRow",
      .span = "cell_size_factors",
      .members = {constant(column("group", Holds::text)), column("temperature", "Temperature"),
                  column("factor", "Ratio", Range::beyond_one), source},
      .unique = {"group", "temperature"},
      .rising = {"temperature"},
      .falling = {"factor"}}},
    {"capacity_shares",
     {.row = "CapacityShareRow",
      .span = "capacity_shares",
      .members = {constant(column("group", Holds::text)), column("temperature", "Temperature"),
                  column("capacity", "Ratio"), source},
      .unique = {"group", "temperature"},
      .rising = {"temperature", "capacity"}}},
    {"cranking",
     {.row = "CrankingRow",
      .span = "cranking",
      .members = {column("test", Holds::text), column("open", "Voltage"), column("under_test", "Voltage"),
                  column("warm_low", "Ratio"), column("warm_usual", "Ratio"), column("warm_high", "Ratio"),
                  column("unknown_low", "Current"), column("unknown_high", "Current"), source},
      .unique = {"test"},
      .ordered = {{"under_test", "open"}, {"warm_low", "warm_usual", "warm_high"}, {"unknown_low", "unknown_high"}}}},
    {"starter_uses",
     {.row = "StarterUseRow",
      .span = "starter_uses",
      .members = {column("alternator", Holds::text), column("capacity", "Charge"), column("charged", "Ratio"),
                  column("least", "Ratio"), source},
      .unique = {"alternator"},
      .ordered = {{"least", "charged"}}}},
    {"fridges",
     {.row = "FridgeRow",
      .span = "fridges",
      .members = {column("fridge", Holds::text), column("condenser", "TemperatureRise"),
                  column("evaporator", "TemperatureRise"), column("fixed_share_low", "Ratio", Range::zero_too),
                  column("fixed_share", "Ratio", Range::zero_too), column("fixed_share_high", "Ratio", Range::zero_too),
                  column("share_at", "Temperature"), column("inside", "Temperature"), column("efficiency", "Ratio"),
                  column("volume", "Volume"), column("wall_low", "ThermalConductance"),
                  column("wall_high", "ThermalConductance"), column("water", "SpecificHeat"),
                  column("ice", "SpecificHeat"), column("freezing", "EnergyPerMass"), source},
      .unique = {"fridge"},
      .ordered = {{"fixed_share_low", "fixed_share", "fixed_share_high"},
                  {"wall_low", "wall_high"},
                  {"inside", "share_at"}}}},
    {"fridge_guards",
     {.row = "FridgeGuardRow",
      .span = "fridge_guards",
      .members = {column("setting", Holds::text), column("cut_out", "Voltage"), column("cut_in", "Voltage"), source},
      .unique = {"setting"},
      .rising = {"cut_out", "cut_in"},
      .ordered = {{"cut_out", "cut_in"}}}},
    {"lags",
     {.row = "LagRow",
      .span = "lags",
      .members = {column("thing", Holds::text), column("time_constant", "Duration"), source},
      .unique = {"thing"}}},
    {"panels",
     {.row = "PanelRow",
      .span = "panels",
      .members = {column("panel", Holds::text), column("nominal_rise", "TemperatureRise"),
                  column("close_to_roof", "TemperatureRise", Range::zero_too),
                  column("temperature_coefficient", "PerKelvin", Range::negative_too),
                  column("soiling", "Ratio", Range::zero_too), column("mismatch", "Ratio", Range::zero_too),
                  column("wiring", "Ratio", Range::zero_too), column("connections", "Ratio", Range::zero_too),
                  column("light_induced", "Ratio", Range::zero_too), column("nameplate", "Ratio", Range::zero_too),
                  column("albedo", "Ratio", Range::zero_too), source},
      .unique = {"panel"}}},
    {"regulators",
     {.row = "RegulatorRow",
      .span = "regulators",
      .members = {column("regulator", Holds::text), column("efficiency", "Ratio"),
                  optional(column("at_battery_voltage", "Ratio")), source},
      .unique = {"regulator"}}},
    {"fills",
     {.row = "FillRow",
      .span = "fills",
      .members = {column("from", Holds::count), optional(column("to", Holds::count)), column("most", "Ratio"), source},
      .unique = {"from"},
      .rising = {"from", "to"},
      .ordered = {{"from", "to"}}}},
    {"tubes",
     {.row = "TubeRow",
      .span = "tubes",
      .members = {column("tube", Holds::text), column("bore", "Length"), column("outside", "Length"), source},
      .unique = {"tube"},
      .rising = {"bore", "outside"},
      .ordered = {{"bore", "outside"}}}},
    {"support_spacings",
     {.row = "SupportSpacingRow",
      .span = "support_spacings",
      .members = {column("cable", Holds::text), column("apart", "Length"), optional(column("first_within", "Length")),
                  source},
      .unique = {"cable"},
      .ordered = {{"apart", "first_within"}}}},
    {"studs",
     {.row = "StudRow",
      .span = "studs",
      .members = {column("stud", Holds::text), column("diameter", "Length"), column("hole", "Length"), source},
      .unique = {"stud"},
      .rising = {"diameter", "hole"},
      .ordered = {{"diameter", "hole"}}}},
    {"lugs",
     {.row = "LugRow",
      .span = "lugs",
      .members = {column("lug", Holds::text), column("over", "Area", Range::zero_too), column("to", "Area"),
                  column("smallest", "Length"), column("largest", "Length"), source},
      .unique = {"lug"},
      .rising = {"over", "to"},
      .ordered = {{"over", "to"}, {"smallest", "largest"}}}},
    {"shrink_tubes",
     {.row = "ShrinkTubeRow",
      .span = "shrink_tubes",
      .members = {column("ratio", "Ratio", Range::beyond_one), column("supplied", "Length"), source},
      .unique = {"ratio", "supplied"},
      .rising = {"supplied"},
      .within = "ratio"}},
    {"cable_masses",
     {.row = "CableMassRow",
      .span = "cable_masses",
      .members = {column("cable", Holds::text), column("copper", "MassPerLength"),
                  column("low", "Ratio", Range::beyond_one), column("usual", "Ratio", Range::beyond_one),
                  column("high", "Ratio", Range::beyond_one), source},
      .unique = {"cable"},
      .ordered = {{"low", "usual", "high"}}}},
};

/// The members of Tables, in the order of the struct.
const Names spans = {"conductors",
                     "trade_sizes",
                     "ampacity_bases",
                     "ampacities",
                     "groupings",
                     "engine_spaces",
                     "joints",
                     "body_returns",
                     "fuse_families",
                     "breaking_capacities",
                     "fuses",
                     "time_limits",
                     "pulse_shares",
                     "short_circuit_limits",
                     "surroundings",
                     "chemistries",
                     "electrolyte_freezing",
                     "clearness_indices",
                     "rest_voltages",
                     "cell_size_factors",
                     "capacity_shares",
                     "cranking",
                     "starter_uses",
                     "fridges",
                     "fridge_guards",
                     "lags",
                     "panels",
                     "regulators",
                     "fills",
                     "tubes",
                     "support_spacings",
                     "studs",
                     "lugs",
                     "shrink_tubes",
                     "cable_masses"};

const std::set<std::string_view> standings = {"read", "read_weak", "memory", "recomputed", "common_practice"};
const std::set<std::string_view> fuse_forms = {"blade", "bolted", "post"};

std::string list_of(const std::set<std::string_view>& words) {
    std::string list;
    for (const std::string_view word : words) list += (list.empty() ? "" : ", ") + std::string(word);
    return list;
}

// ---- C++ ------------------------------------------------------------------------------------------------------------

std::string literal(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\n')
            out += "\\n";
        else if (c == '\t')
            out += "\\t";
        else
            out += c;
    }
    return out + '"';
}

/// The shortest digits that read back as the same number, always a double.
std::string digits(double value) {
    char buffer[64];
    std::string text(buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr);
    if (text.find_first_of(".e") == std::string::npos) text += ".0";
    return text;
}

// ---- reading one table ----------------------------------------------------------------------------------------------

/// A cell as C++, and as a number where it has an order.
struct Cell {
    std::string code;
    std::optional<double> order = {};
};

struct Column {
    std::string name, unit;
    const toml::node* node;
    const Member* member;  // nullptr for a temperature class
};

/// A name that has to be found among the rows of another kind.
struct Reference {
    std::string file;
    toml::source_position at;
    std::string_view kind;
    std::string name;
};

/// What has been typed so far.
struct Typed {
    std::map<std::string_view, std::vector<std::string>> rows;  // by span
    std::map<std::string, std::string> seen;                    // kind and identity: where
    std::map<std::string_view, std::set<std::string>> names;    // of rows with a text of their own, by kind
    std::vector<Reference> references;
    std::string printed, printed_list;
};

class TableReader {
public:
    TableReader(const std::string& file, Typed& typed) : file_(file), typed_(typed) {
        std::ifstream in(file, std::ios::binary);
        std::ostringstream text;
        text << in.rdbuf();
        if (!in) bad(file, {}, "this file cannot be read");
        text_ = text.str();
        try {
            table_ = toml::parse(text_, std::string_view(file));
        } catch (const toml::parse_error& error) {
            bad(file, error.source().begin, std::string(error.description()));
        }
        const auto data = file.rfind("data/");
        name_ = file.substr(data == std::string::npos ? 0 : data + 5);
        if (name_.ends_with(".toml")) name_.resize(name_.size() - 5);
    }

    void type() {
        read_head();
        read_columns();
        read_rows();
        print();
    }

private:
    const std::string& file_;
    Typed& typed_;
    std::string text_, name_;
    toml::table table_;
    std::string_view kind_name_;
    const Kind* kind_ = nullptr;
    const toml::table* source_ = nullptr;
    const toml::table* constants_ = nullptr;
    std::vector<Column> columns_;
    std::map<std::pair<std::string, std::string_view>, double> last_;  // of rising and falling members, by group
    std::map<std::string, double> last_in_class_;

    [[noreturn]] void fail(const toml::node& at, const std::string& what) const { bad(file_, at.source().begin, what); }

    /// A text that is there and not empty.
    std::string text(const toml::table& from, std::string_view key, const std::string& whose) const {
        const toml::node* node = from.get(key);
        if (!node) fail(from, whose + " has no " + quoted(key));
        const auto* value = node->as_string();
        if (!value || value->get().empty()) fail(*node, quoted(key) + " is to be a text");
        return value->get();
    }

    const toml::table& part(std::string_view key) const {
        const toml::node* node = table_.get(key);
        if (!node) bad(file_, {}, "the table has no [" + std::string(key) + "]");
        if (!node->is_table()) fail(*node, quoted(key) + " is to be a table");
        return *node->as_table();
    }

    void only(const toml::table& table, const std::set<std::string_view>& known, const std::string& where) const {
        for (auto&& [key, value] : table)
            if (!known.contains(key.str()))
                bad(file_, key.source().begin, quoted(key.str()) + " has no place in " + where);
    }

    std::string standing(const toml::table& from, const std::string& whose) const {
        const std::string word = text(from, "status", whose);
        if (!standings.contains(word))
            fail(*from.get("status"), quoted(word) + " is no status; one of " + list_of(standings));
        return "Standing::" + word;
    }

    void read_head() {
        kind_name_ = {};
        const std::string kind = text(table_, "kind", "the table");
        const auto found = kinds.find(kind);
        if (found == kinds.end()) fail(*table_.get("kind"), quoted(kind) + " is no kind of table");
        kind_name_ = found->first;
        kind_ = &found->second;
        only(table_, {"kind", "title", "applies", "source", "constants", "columns", "row"}, "a table");
        text(table_, "title", "the table");
        text(table_, "applies", "the table");

        source_ = &part("source");
        only(*source_, {"id", "cite", "status", "terms", "entered", "note"}, "[source]");
        for (const std::string_view key : {"id", "cite", "terms", "entered"}) text(*source_, key, "[source]");
        standing(*source_, "[source]");

        std::set<std::string_view> constants;
        for (const Member& member : kind_->members)
            if (member.where == Where::constant) constants.insert(member.called());
        if (!constants.empty()) constants_ = &part("constants");
        if (const toml::node* given = table_.get("constants"))
            if (given->is_table()) only(*given->as_table(), constants, "the constants of this kind of table");
    }

    static bool is_class(std::string_view name) {
        return !name.empty() && name.size() <= 3 && name.find_first_not_of("0123456789") == std::string_view::npos;
    }

    /// The columns in the order in which they are declared.
    void read_columns() {
        const toml::table& declared = part("columns");
        for (auto&& [key, value] : declared) {
            const auto* unit = value.as_string();
            if (!unit) fail(value, "the unit of a column is to be a text, \"\" for words");
            const std::string_view name = key.str();
            const auto member = std::find_if(kind_->members.begin(), kind_->members.end(),
                                             [&](const Member& m) { return m.in_columns() && m.called() == name; });
            const bool known = member != kind_->members.end();
            if (!known && !(kind_->by_class && is_class(name)))
                bad(file_, key.source().begin, quoted(name) + " is no column of this kind of table");
            columns_.push_back({std::string(name), unit->get(), &value, known ? &*member : nullptr});
        }
        std::sort(columns_.begin(), columns_.end(), [](const Column& a, const Column& b) {
            const auto at = [](const Column& c) { return c.node->source().begin; };
            return at(a) < at(b);
        });
        for (const Member& member : kind_->members)
            if (member.in_columns() && member.where == Where::column && !column_of(member))
                fail(declared, "the table has no column " + quoted(member.called()));
        for (const Column& column : columns_) {
            const bool quantity = !column.member || column.member->holds == Holds::quantity;
            if (quantity)
                check_unit(*column.node, column.unit, column.member ? column.member->dimension : class_dimension(),
                           column.name);
            else if (!column.unit.empty())
                fail(*column.node, quoted(column.name) + " holds no quantity: its unit is to be \"\"");
        }
        for (const Names& names : kind_->ordered)
            for (const Column& column : columns_)
                for (const Column& other : columns_)
                    if (is_among(names, column) && is_among(names, other) && column.unit != other.unit)
                        fail(*column.node,
                             quoted(column.name) + " and " + quoted(other.name) + " are to have the same unit");
        if (!kind_->by_class) return;
        double last = 0;
        for (const Column& column : columns_) {
            if (column.member) continue;
            if (std::stod(column.name) <= last)
                fail(*column.node, "the temperature classes are to rise from column to column");
            last = std::stod(column.name);
        }
        if (last == 0) fail(declared, "the table has no column for a temperature class, such as 105");
    }

    static bool is_among(const Names& names, const Column& column) {
        return column.member && std::find(names.begin(), names.end(), column.member->name) != names.end();
    }

    [[nodiscard]] const Column* column_of(const Member& member) const {
        const auto found =
            std::find_if(columns_.begin(), columns_.end(), [&](const Column& c) { return c.member == &member; });
        return found == columns_.end() ? nullptr : &*found;
    }

    [[nodiscard]] std::string_view class_dimension() const {
        for (const Member& member : kind_->members)
            if (member.holds == Holds::class_cell) return member.dimension;
        return {};
    }

    const Unit& check_unit(const toml::node& at, const std::string& unit, std::string_view dimension,
                           std::string_view column) const {
        if (unit.empty()) fail(at, quoted(column) + " needs a unit");
        const auto found = units.find(unit);
        if (found == units.end()) fail(at, quoted(unit) + " is no unit that the tables know");
        if (found->second.dimension != dimension)
            fail(at, quoted(column) + " is of the kind " + std::string(dimension) + "; " + quoted(unit) +
                         " is a unit of the kind " + std::string(found->second.dimension));
        return found->second;
    }

    // ---- cells ----

    /// A number in the column's unit, or `{ value = 200, unit = "mm" }` where the source prints another.
    Cell quantity(const toml::node& given, std::string unit, const Member& member) const {
        const toml::node* node = &given;
        if (const toml::table* own = given.as_table()) {
            unit = text(*own, "unit", quoted(member.called()));
            node = own->get("value");
            if (!node) fail(given, quoted(member.called()) + " has no 'value'");
        }
        const Unit& known = check_unit(given, unit, member.dimension, member.called());
        if (!node->is_number()) fail(*node, quoted(member.called()) + " is to be a number");
        const double value = *node->value<double>();
        if (!std::isfinite(value)) fail(*node, quoted(member.called()) + " is to be a finite number");
        if (known.dimension == "Temperature") {
            if (!(value > -273.15 && value < 1000))
                fail(*node, quoted(member.called()) + " is no temperature to be met");
        } else if ((member.range == Range::positive || member.range == Range::beyond_one) && !(value > 0)) {
            fail(*node, quoted(member.called()) + " is to be more than nothing");
        } else if (member.range == Range::zero_too && !(value >= 0)) {
            fail(*node, quoted(member.called()) + " is not to be negative");
        }
        if (known.dimension == "Ratio" && member.range != Range::beyond_one && value > (unit == "%" ? 100 : 1))
            fail(*node,
                 quoted(member.called()) + " is a share of a whole, not more than " + (unit == "%" ? "100 %" : "1"));
        // A cell in a unit of its own takes no part in the order of its column.
        return {std::string(known.maker) + "(" + digits(value) + ")",
                node == &given ? std::optional(value) : std::nullopt};
    }

    Cell gauge(const toml::node& node) const {
        const auto* value = node.as_string();
        if (!value) fail(node, "'gauge' is to be a text such as \"8 AWG\"");
        const std::string& text = value->get();
        const auto number_before = [&](std::string_view end) -> std::optional<double> {
            if (!std::string_view(text).ends_with(end)) return {};
            double number = 0;
            const char* last = text.data() + (text.size() - end.size());
            const auto [stop, error] = std::from_chars(text.data(), last, number);
            return error == std::errc{} && stop == last && number > 0 && std::isfinite(number) ? std::optional(number)
                                                                                               : std::nullopt;
        };
        const auto whole = [](const std::optional<double>& n, double most) {
            return n && *n == std::floor(*n) && *n <= most;
        };
        const auto awg = [](double number) {
            return Cell{"awg(" + std::to_string(static_cast<int>(number)) + ")", -number};
        };
        if (const auto n = number_before("/0 AWG"); whole(n, 4)) return awg(1 - *n);
        if (const auto n = number_before(" AWG"); whole(n, 40)) return awg(*n);
        if (const auto n = number_before(" mm2")) return {"metric(" + digits(*n) + ")", *n};
        if (const auto n = number_before(" mm auto")) return {"trade(" + digits(*n) + ")", *n};
        fail(node, quoted(text) +
                       " is no conductor size; one of the forms \"8 AWG\", \"2/0 AWG\", \"10 mm2\", \"6 mm auto\"");
    }

    Cell cell(const Member& member, const std::string& unit, const toml::node& node) const {
        const std::string name = quoted(member.called());
        switch (member.holds) {
            case Holds::gauge: return gauge(node);
            case Holds::quantity: return quantity(node, unit, member);
            case Holds::count: {
                const auto* value = node.as_integer();
                if (!value || value->get() < 1 || value->get() > 1000000)
                    fail(node, name + " is to be a whole number from 1");
                return {std::to_string(value->get()), static_cast<double>(value->get())};
            }
            case Holds::yes_no: {
                const auto* value = node.as_boolean();
                if (!value) fail(node, name + " is to be true or false");
                return {value->get() ? "true" : "false"};
            }
            case Holds::text:
            case Holds::form: {
                const auto* value = node.as_string();
                if (!value || value->get().empty()) fail(node, name + " is to be a text");
                if (member.holds == Holds::text) return {literal(value->get())};
                if (!fuse_forms.contains(value->get())) fail(node, name + " is to be one of " + list_of(fuse_forms));
                return {"FuseForm::" + value->get()};
            }
            case Holds::source:
            case Holds::its_source:
            case Holds::class_:
            case Holds::class_cell: break;
        }
        throw std::logic_error("no such cell");
    }

    Cell constant_of(const Member& member) const {
        const toml::node* node = constants_->get(member.called());
        if (!node) fail(*constants_, "[constants] has no " + quoted(member.called()));
        if (member.holds == Holds::text) return cell(member, {}, *node);
        const toml::table* own = node->as_table();
        if (!own) fail(*node, quoted(member.called()) + " is to be a table with 'value' and 'unit'");
        only(*own, {"value", "unit", "id", "cite", "status"}, "a constant");
        if (member.holds == Holds::quantity) return quantity(*node, {}, member);
        const std::string whose = quoted(member.called());
        return {"Source{" + literal(text(*own, "id", whose)) + ", " + literal(text(*own, "cite", whose)) + ", " +
                standing(*own, whose) + ", " + literal(name_) + ", " + std::to_string(own->source().begin.line) +
                ", \"\"}"};
    }

    // ---- rows ----

    /// The table's source, unless the row has its own.
    std::string source_of(const toml::table& row) const {
        const auto own = [&](std::string_view key) {
            return row.contains(key) ? text(row, key, "this row") : text(*source_, key, "[source]");
        };
        return "Source{" + literal(own("id")) + ", " + literal(own("cite")) + ", " +
               (row.contains("status") ? standing(row, "this row") : standing(*source_, "[source]")) + ", " +
               literal(name_) + ", " + std::to_string(row.source().begin.line) + ", " +
               literal(row.contains("note") ? text(row, "note", "this row") : "") + "}";
    }

    void read_rows() {
        const toml::node* node = table_.get("row");
        if (!node) bad(file_, {}, "the table has no [[row]]");
        if (!node->is_array()) fail(*node, "'row' is to be a list of rows");
        if (node->as_array()->empty()) fail(*node, "the table has no rows");
        for (const toml::node& row : *node->as_array()) {
            if (!row.is_table()) fail(row, "a row is to be a table");
            read_row(*row.as_table());
        }
    }

    void read_row(const toml::table& row) {
        for (auto&& [key, value] : row) {
            const std::string_view name = key.str();
            const bool extra = name == "id" || name == "status" || name == "cite" || name == "note";
            if (!extra &&
                std::none_of(columns_.begin(), columns_.end(), [&](const Column& c) { return c.name == name; }))
                bad(file_, key.source().begin, quoted(name) + " is not among the table's columns");
        }

        std::map<std::string_view, Cell> cells;  // by member
        for (const Member& member : kind_->members) {
            if (member.where == Where::constant) {
                cells[member.name] = constant_of(member);
            } else if (member.holds == Holds::source) {
                cells[member.name] = {source_of(row)};
            } else if (member.in_columns()) {
                const Column* column = column_of(member);
                const toml::node* value = column ? row.get(column->name) : nullptr;
                if (!value && member.where == Where::column) fail(row, "this row has no " + quoted(member.called()));
                cells[member.name] = value ? cell(member, column->unit, *value) : Cell{"{}"};
            }
        }
        check_identity(row, cells);
        check_order(row, cells);

        std::vector<std::string>& rows = typed_.rows[kind_->span];
        if (!kind_->by_class) {
            rows.push_back(row_text(cells));
            return;
        }
        std::optional<double> last;
        for (const Column& column : columns_) {
            const toml::node* value = column.member ? nullptr : row.get(column.name);
            if (!value) continue;
            for (const Member& member : kind_->members) {
                if (member.holds == Holds::class_) cells[member.name] = {"celsius(" + column.name + ".0)"};
                if (member.holds != Holds::class_cell) continue;
                const Member named{column.name, Holds::quantity, member.dimension};
                const Cell figure = quantity(*value, column.unit, named);
                if (last && *figure.order < *last) fail(*value, "a higher temperature class is not to carry less");
                double& above = last_in_class_[column.name];
                if (*figure.order < above) fail(*value, "a thicker conductor is not to carry less");
                last = above = *figure.order;
                cells[member.name] = figure;
            }
            rows.push_back(row_text(cells));
        }
        if (!last) fail(row, "this row has no figures");
    }

    [[nodiscard]] std::string row_text(const std::map<std::string_view, Cell>& cells) const {
        std::string out = std::string(kind_->row) + "{";
        for (const Member& member : kind_->members) {
            if (out.back() != '{') out += ", ";
            out += "." + std::string(member.name) + " = " + cells.at(member.name).code;
        }
        return out + "}";
    }

    void check_identity(const toml::table& row, const std::map<std::string_view, Cell>& cells) const {
        std::string identity(kind_name_);
        for (const std::string_view member : kind_->unique) identity += " " + cells.at(member).code;
        const std::string here = file_ + ":" + std::to_string(row.source().begin.line);
        const auto [first, fresh] = typed_.seen.emplace(identity, here);
        if (!fresh) fail(row, "this row is there already, at " + first->second);
        if (kind_->unique.size() == 1) typed_.names[kind_name_].insert(cells.at(kind_->unique.front()).code);
        if (!kind_->refers.empty())
            typed_.references.push_back({file_, row.source().begin, kind_->refers_to, cells.at(kind_->refers).code});
    }

    void check_order(const toml::table& row, const std::map<std::string_view, Cell>& cells) {
        // Rows of one group need not stand together to be in order.
        const std::string group = kind_->within.empty() ? "" : cells.at(kind_->within).code;
        const auto step = [&](std::string_view member, bool rises) {
            const auto& order = cells.at(member).order;
            if (!order) return;
            const auto before = last_.find({group, member});
            if (before != last_.end() && !(rises ? *order > before->second : *order < before->second))
                fail(*row.get(member), quoted(member) + " is to " + (rises ? "rise" : "fall") + " from row to row");
            last_[{group, member}] = *order;
        };
        for (const std::string_view member : kind_->rising) step(member, true);
        for (const std::string_view member : kind_->falling) step(member, false);
        for (const Names& names : kind_->ordered)
            for (std::size_t i = 1; i < names.size(); ++i) {
                const auto &low = cells.at(names[i - 1]).order, &high = cells.at(names[i]).order;
                if (low && high && *low > *high)
                    fail(row, quoted(names[i - 1]) + " is not to be more than " + quoted(names[i]));
            }
    }

    // ---- the table as printed ----

    /// The figure with the very digits that the table has: 0.780, not 0.78.
    std::string as_printed(const toml::node& node) const {
        if (const auto* words = node.as_string()) return words->get();
        if (const auto* answer = node.as_boolean()) return answer->get() ? "yes" : "no";
        if (const auto* own = node.as_table())
            return as_printed(*own->get("value")) + " " + own->at("unit").value_or(std::string());
        const auto [begin, end] = std::pair(node.source().begin, node.source().end);
        std::size_t at = 0;
        for (toml::source_index line = 1; line < begin.line; ++line) at = text_.find('\n', at) + 1;
        const auto in_bytes = [&](toml::source_index column) {  // columns count code points
            std::size_t byte = at;
            for (toml::source_index i = 1; i < column; ++i) {
                ++byte;
                while (byte < text_.size() && (static_cast<unsigned char>(text_[byte]) & 0xC0) == 0x80) ++byte;
            }
            return byte;
        };
        const std::size_t first = in_bytes(begin.column);
        return text_.substr(first, in_bytes(end.column) - first);
    }

    std::string remark_of(const toml::table& row) const {
        std::string remark;
        if (row.contains("status")) {
            remark = text(row, "status", "this row");
            std::replace(remark.begin(), remark.end(), '_', ' ');
        }
        for (const std::string_view key : {"cite", "note"})
            if (row.contains(key)) remark += (remark.empty() ? "" : "; ") + text(row, key, "this row");
        return remark;
    }

    void print() const {
        std::string identifier = name_;
        std::replace_if(
            identifier.begin(), identifier.end(), [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); },
            '_');
        // Other spellings are for reading what somebody typed; no page prints them.
        std::vector<Column> shown;
        std::copy_if(columns_.begin(), columns_.end(), std::back_inserter(shown),
                     [](const Column& column) { return column.name != "also"; });
        std::string columns, cells, notes;
        for (const Column& column : shown) columns += "{" + literal(column.name) + ", " + literal(column.unit) + "}, ";
        for (const toml::node& node : *table_.get("row")->as_array()) {
            const toml::table& row = *node.as_table();
            cells += "    ";
            for (const Column& column : shown) {
                const toml::node* value = row.get(column.name);
                cells += literal(value ? as_printed(*value) : "") + ", ";
            }
            cells += "\n";
            notes += "    " + literal(remark_of(row)) + ",\n";
        }
        const auto head = [&](std::string_view key) { return literal(text(table_, key, "the table")); };
        const auto of_source = [&](std::string_view key) { return literal(text(*source_, key, "[source]")); };
        typed_.printed += "constexpr PrintedTable::Column columns_" + identifier + "[] = {" + columns + "};\n" +
                          "constexpr std::string_view cells_" + identifier + "[] = {\n" + cells + "};\n" +
                          "constexpr std::string_view notes_" + identifier + "[] = {\n" + notes + "};\n\n";
        typed_.printed_list += "    {" + literal(name_) + ", " + head("title") + ", " + head("applies") +
                               ",\n     Source{" + of_source("id") + ", " + of_source("cite") + ", " +
                               standing(*source_, "[source]") + ", " + literal(name_) + ", 0, " +
                               (source_->contains("note") ? of_source("note") : "\"\"") + "},\n     " +
                               of_source("terms") + ", " + of_source("entered") + ",\n     columns_" + identifier +
                               ", cells_" + identifier + ", notes_" + identifier + "},\n";
    }
};

// ---- all tables -----------------------------------------------------------------------------------------------------

std::string compose(const std::vector<std::string>& files) {
    Typed typed;
    for (const std::string& file : files) TableReader(file, typed).type();
    for (const Reference& reference : typed.references)
        if (!typed.names[reference.kind].contains(reference.name))
            bad(reference.file, reference.at,
                reference.name + " is no name in a table of the kind " + quoted(reference.kind));

    std::string out =
        "// Written by voltwright_entables from data/. Do not edit: edit the tables.\n"
        "#include \"voltwright/tables/tables.hpp\"\n\nnamespace voltwright {\n\nnamespace {\n\n";
    for (const auto& [name, kind] : kinds) {
        const std::vector<std::string>& rows = typed.rows[kind.span];
        if (rows.empty()) continue;
        out += "constexpr " + std::string(kind.row) + " " + std::string(kind.span) + "[] = {\n";
        for (const std::string& row : rows) out += "    " + row + ",\n";
        out += "};\n\n";
    }
    out += typed.printed + "constexpr PrintedTable printed[] = {\n" + typed.printed_list + "};\n\n}  // namespace\n\n" +
           "const Tables& built_in_tables() {\n    static constexpr Tables tables{\n";
    for (const std::string_view span : spans)
        out += "        ." + std::string(span) + " = " + (typed.rows[span].empty() ? "{}" : std::string(span)) + ",\n";
    return out + "        .printed = printed,\n    };\n    return tables;\n}\n\n}  // namespace voltwright\n";
}

void write_whole(const std::string& file, const std::string& text) {
    std::ofstream out(file, std::ios::binary);
    out << text;
    if (!out.flush()) throw BadTable(file + ": error: this file cannot be written");
}

}  // namespace

int main(int count, char** words) {
    if (count < 3) {
        std::fputs("usage: voltwright_entables OUTPUT.cpp TABLE.toml ...\n", stderr);
        return 2;
    }
    try {
        std::vector<std::string> files(words + 2, words + count);
        std::sort(files.begin(), files.end());
        write_whole(words[1], compose(files));
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
    return 0;
}
