#include "testing.hpp"

#include "voltwright/circuit/fuse_time_description.hpp"
#include "voltwright/energy/sun_description.hpp"
#include "voltwright/planning/network_figures_description.hpp"
#include "voltwright/simulation/autonomy_description.hpp"
#include "voltwright/sizing/choice_description.hpp"
#include "voltwright/sizing/fitting_description.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

/// What a page explains is what was computed: no member is forgotten, and an equation speaks of nothing unexplained.

namespace voltwright {

namespace {

// ---- how many members a struct has ----------------------------------------------------------------------------------

/// Turns into whatever a member wants, in what is never run.
struct Anything {
    template <class T>
    operator T() const {
        std::abort();
    }
};
/// An optional would take Anything in two ways at once.
struct AnyOptional {
    template <class T>
    operator std::optional<T>() const {
        std::abort();
    }
};

template <class T, class... Values>
concept TakesInBraces = requires {
    T{Values()...};
};

template <class T, class... Values>
consteval std::size_t members() {
    if constexpr (TakesInBraces<T, Values..., Anything>)
        return members<T, Values..., Anything>();
    else if constexpr (TakesInBraces<T, Values..., AnyOptional>)
        return members<T, Values..., AnyOptional>();
    else
        return sizeof...(Values);
}

struct Three {
    int first;
    std::optional<Current> second;
    std::vector<std::string> third = {};
};
static_assert(members<Three>() == 3);

// ---- what an equation speaks of -------------------------------------------------------------------------------------

/// The symbols of an equation's form, such as R'out and Trated: what is left without operators, numbers and words.
std::vector<std::string> symbols_of(std::string_view form) {
    constexpr std::array<std::string_view, 5> signs = {"°C", "·", "−", "²", "^"};
    constexpr std::string_view operators = "=()/+-*,; ";
    constexpr std::array<std::string_view, 11> words = {"min",   "sqrt", "ln",     "at",   "most", "the",
                                                        "input", "or",   "beyond", "last", "limit"};

    std::string spaced(form);
    for (const std::string_view sign : signs)
        for (std::size_t at = spaced.find(sign); at != std::string::npos; at = spaced.find(sign))
            spaced.replace(at, sign.size(), " ");
    std::vector<std::string> symbols;
    for (std::size_t at = 0; at < spaced.size();) {
        const std::size_t start = spaced.find_first_not_of(operators, at);
        if (start == std::string::npos) break;
        at = std::min(spaced.find_first_of(operators, start), spaced.size());
        std::string symbol = spaced.substr(start, at - start);
        const bool number = symbol.front() >= '0' && symbol.front() <= '9';
        const bool word = std::find(words.begin(), words.end(), symbol) != words.end();
        if (!number && !word) symbols.push_back(std::move(symbol));
    }
    return symbols;
}

template <class T>
std::vector<std::string> symbols_of_fields() {
    return std::apply([](const auto&... rows) { return std::vector<std::string>{std::string(rows.symbol)...}; },
                      Described<T>::fields);
}

template <class T>
std::string symbol_of_result() {
    std::string symbol;
    std::apply(
        [&](const auto&... rows) {
            const auto look = [&](const auto& row) {
                if constexpr (std::is_same_v<decltype(row.member), std::remove_const_t<decltype(Described<T>::result)>>)
                    if (row.member == Described<T>::result) symbol = row.symbol;
            };
            (look(rows), ...);
        },
        Described<T>::fields);
    return symbol;
}

// ---- the structs ----------------------------------------------------------------------------------------------------

/// A described struct, and how many of its members its rows leave out on purpose.
template <class T, std::size_t LeftOut>
struct Of {
    using type = T;
    static constexpr std::size_t left_out = LeftOut;
    std::string_view name;
};

constexpr std::tuple described = {
    Of<ConductorResistance, 0>{"ConductorResistance"},
    Of<ConductorTemperature, 0>{"ConductorTemperature"},
    Of<ConverterInput, 0>{"ConverterInput"},
    Of<ConverterPower, 0>{"ConverterPower"},
    Of<FeedDesignCurrent, 0>{"FeedDesignCurrent"},
    Of<JointResistance, 0>{"JointResistance"},
    Of<RunResistance, 0>{"RunResistance"},
    Of<FaultCurrent, 0>{"FaultCurrent"},
    Of<CompensatedVoltage, 0>{"CompensatedVoltage"},
    Of<InternalResistance, 1>{"InternalResistance"},  // its source is the explanation's own
    Of<KineticParameters, 0>{"KineticParameters"},
    // Marks of levels and of frost, a bare exponent, a step of cold, a bare factor.
    Of<HouseBattery, 7>{"HouseBattery"},
    Of<Fridge, 0>{"Fridge"},
    Of<FridgeDuty, 0>{"FridgeDuty"},
    Of<Restocking, 0>{"Restocking"},
    Of<LidOpenings, 0>{"LidOpenings"},
    Of<ChargerPoint, 0>{"ChargerPoint"},
    Of<Ledger, 0>{"Ledger"},
    Of<Autonomy, 1>{"Autonomy"},
    Of<DaySun, 0>{"DaySun"},
    Of<PanelPower, 0>{"PanelPower"},
    Of<Ampacity, 0>{"Ampacity"},
    Of<FuseWindow, 0>{"FuseWindow"},
    Of<FaultAtFuse, 0>{"FaultAtFuse"},
    Of<FuseFit, 1>{"FuseFit"},  // its form, which pages do not print
    Of<DropCheck, 0>{"DropCheck"},
    Of<LowestInput, 0>{"LowestInput"},
    Of<ShortTimeCurrent, 0>{"ShortTimeCurrent"},
    Of<DesignCurrent, 0>{"DesignCurrent"},
    Of<PartRating, 0>{"PartRating"},
    Of<TubeFill, 0>{"TubeFill"},
    Of<ShrinkWindow, 0>{"ShrinkWindow"},
    Of<CableMass, 0>{"CableMass"},
    Of<FuseTime, 1>{"FuseTime"},  // its source is the explanation's own
    Of<PulseEndurance, 0>{"PulseEndurance"},
    Of<Withstand, 0>{"Withstand"},
    Of<LastingShort, 0>{"LastingShort"},
    Of<Protection, 0>{"Protection"},
    Of<Candidate, 5>{"Candidate"},  // what it fails, its loops, and the windows that its fuses repeat
    Of<NetworkShare, 0>{"NetworkShare"},
    Of<NetworkFigures, 0>{"NetworkFigures"},
};

template <class Check>
void for_each_described(Check check) {
    std::apply([&](const auto&... each) { (check(each), ...); }, described);
}

}  // namespace

TEST_CASE("every member of a described struct has a row, but for those that are left out on purpose") {
    for_each_described([](const auto& each) {
        using T = typename std::remove_cvref_t<decltype(each)>::type;
        CAPTURE(each.name);
        CHECK(std::tuple_size_v<std::remove_cvref_t<decltype(Described<T>::fields)>> + each.left_out == members<T>());
    });
}

TEST_CASE("every row of a described struct has words, and no symbol stands for two fields") {
    for_each_described([](const auto& each) {
        using T = typename std::remove_cvref_t<decltype(each)>::type;
        CAPTURE(each.name);
        const auto check = [](const auto& row) { CHECK_FALSE(row.words.empty()); };
        std::apply([&](const auto&... rows) { (check(rows), ...); }, Described<T>::fields);
        std::vector<std::string> symbols = symbols_of_fields<T>();
        std::erase(symbols, "");
        std::sort(symbols.begin(), symbols.end());
        CHECK(std::adjacent_find(symbols.begin(), symbols.end()) == symbols.end());
    });
}

TEST_CASE("every symbol of an equation is the symbol of one of its fields") {
    for_each_described([](const auto& each) {
        using T = typename std::remove_cvref_t<decltype(each)>::type;
        const std::vector<std::string> known = symbols_of_fields<T>();
        for (const std::string& symbol : symbols_of(Described<T>::equation.form)) {
            CAPTURE(each.name);
            CAPTURE(symbol);
            CHECK(std::find(known.begin(), known.end(), symbol) != known.end());
        }
    });
}

TEST_CASE("an equation begins with the symbol of what it gives, and names its source") {
    for_each_described([](const auto& each) {
        using T = typename std::remove_cvref_t<decltype(each)>::type;
        const auto symbols = symbols_of(Described<T>::equation.form);
        CAPTURE(each.name);
        CHECK(symbols.empty() == Described<T>::equation.source.empty());
        if (!symbols.empty()) CHECK(symbols.front() == symbol_of_result<T>());
    });
}

}  // namespace voltwright
