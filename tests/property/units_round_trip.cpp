// Laws of reading and writing, over many values drawn with a fixed seed. They hold for every dimension.

#include "testing.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"

#include <bit>
#include <cmath>
#include <cstdint>
#include <random>
#include <tuple>

using namespace voltwright;

namespace {

using Readable = std::tuple<Current, Voltage, Resistance, Power, Energy, Charge, Length, Area, Volume, Duration, Mass,
                            Angle, Ratio, Temperature, TemperatureRise>;

template <class Law>
void for_every_dimension(Law law) {
    std::apply([&](const auto&... qs) { (law(qs), ...); }, Readable{});
}

template <class Q>
Q from_si(double x) {
    if constexpr (std::is_same_v<Q, Ratio>)
        return ratio(x);
    else
        return Q::from_value(x);
}

/// Any double, of any size that a page could meet and many that it could not.
double any_size(std::mt19937_64& random) {
    std::uniform_real_distribution<double> power(-9.0, 9.0);
    std::uniform_real_distribution<double> mantissa(1.0, 10.0);
    const double x = mantissa(random) * std::pow(10.0, power(random));
    return random() % 2 == 0 ? x : -x;
}

/// A number that a person would type: up to four digits.
double round_number(std::mt19937_64& random) {
    static constexpr double steps[] = {0.01, 0.1, 1.0, 10.0};
    return static_cast<double>(random() % 10000) * steps[random() % 4];
}

std::uint64_t bits(double x) { return std::bit_cast<std::uint64_t>(x); }

/// One unit in the last place: what a percentage may lose, for there is no other unit to write a ratio in.
bool within_the_last_bit(double a, double b) { return a == b || std::nextafter(a, b) == b; }

template <class Q>
void check_round_trip(const Spread<Q>& spread) {
    const std::string text = write(spread);
    CAPTURE(text);
    const auto read = parse<Q>(text);
    REQUIRE(read);
    const double value = spread.value.value(), half_width = spread.half_width.value();
    if constexpr (std::is_same_v<Q, Ratio>) {
        CHECK(within_the_last_bit(read->value.value(), value));
        CHECK(within_the_last_bit(read->half_width.value(), half_width));
    } else {
        CHECK(bits(read->value.value()) == bits(value));
        CHECK(bits(read->half_width.value()) == bits(half_width));
    }
    CHECK(write(*read) == text);
}

}  // namespace

TEST_CASE("what is written reads back as the same bits, whatever the number") {
    for_every_dimension([]<class Q>(const Q&) {
        std::mt19937_64 random(20260914);
        for (int i = 0; i < 3000; ++i) {
            const double value = any_size(random);
            check_round_trip(Spread<Q>{from_si<Q>(value)});
            check_round_trip(Spread<Q>{from_si<Q>(value), from_si<Difference<Q>>(std::abs(any_size(random)))});
        }
    });
}

TEST_CASE("a unit's round number reads back as it was typed") {
    for_every_dimension([]<class Q>(const Q&) {
        std::mt19937_64 random(41);
        const std::string_view units = units_of(dimension<Q>());
        for (int i = 0; i < 1000; ++i) {
            // Every unit in turn.
            std::size_t at = random() % units.size();
            at = at == 0 ? 0 : units.rfind(", ", at);
            at = at == std::string_view::npos || at == 0 ? 0 : at + 2;
            const std::string unit(units.substr(at, units.find(", ", at) - at));
            char number[32];
            std::snprintf(number, sizeof number, "%.10g", round_number(random));
            const std::string typed = std::string(number) + " " + unit;
            CAPTURE(typed);
            const auto read = parse<Q>(typed);
            REQUIRE(read);
            check_round_trip(*read);
        }
    });
}

TEST_CASE("a page never shows an exponent, a trailing nought behind the point, or minus nought") {
    for_every_dimension([]<class Q>(const Q&) {
        std::mt19937_64 random(7);
        for (int i = 0; i < 3000; ++i) {
            const std::string shown = show(from_si<Q>(any_size(random)));
            CAPTURE(shown);
            const std::string digits = shown.substr(0, shown.find(' '));
            CHECK(digits.find_first_not_of("-0123456789.") == std::string::npos);
            CHECK(digits != "-0");
            if (digits.find('.') != std::string::npos) {
                CHECK(digits.back() != '0');
                CHECK(digits.back() != '.');
            }
            for (const char c : shown) CHECK((c >= ' ' && c <= '~'));
        }
    });
}

TEST_CASE("what a page shows reads back to the rounding shown") {
    for_every_dimension([]<class Q>(const Q&) {
        std::mt19937_64 random(8);
        for (int i = 0; i < 3000; ++i) {
            // From a thousandth to a hundred thousand of the SI unit.
            const double x = std::pow(10.0, std::uniform_real_distribution<double>(-3.0, 5.0)(random));
            const std::string shown = show(from_si<Q>(x));
            CAPTURE(x);
            CAPTURE(shown);
            const auto read = parse<Q>(shown);
            REQUIRE(read);
            CHECK(show(read->value) == shown);
            // Two significant digits are the coarsest: half of the second is 5 %. Temperatures have one decimal; an
            // amount of energy or charge below a millionth of its unit is nothing.
            const double tolerance = std::is_same_v<Q, Temperature> || std::is_same_v<Q, TemperatureRise> ? 0.51 : 0.01;
            CHECK(std::abs(read->value.value() - x) <= 0.0501 * std::abs(x) + tolerance);
        }
    });
}

TEST_CASE("any bytes at all are read or refused with a reason that can be printed") {
    std::mt19937_64 random(1959);
    // Bytes that lead somewhere, among any others.
    const std::string_view pieces[] = {"25",      "6.5",  "-",      "+-", "\u00b1", " ",  "\u00a0", "A",     "mOhm",
                                       "m\u03a9", "degC", "\u00b0", "%",  "AWG",    "mm", "2",      "1e308", "e",
                                       ",",       ".",    "'",      "\"", "/0",     "#",  "auto"};
    const auto printable = [](const std::string& text) {
        for (const char c : text)
            if (static_cast<unsigned char>(c) < ' ' || c == '\x7f') return false;
        return true;
    };
    int read_at_all = 0;
    for (int i = 0; i < 20000; ++i) {
        std::string text;
        for (auto n = random() % 9; n-- > 0;) {
            if (random() % 4 == 0)
                text += static_cast<char>(random() % 256);
            else
                text += pieces[random() % std::size(pieces)];
        }
        CAPTURE(text);
        const auto dimension_found = dimension_of(text);
        for_every_dimension([&]<class Q>(const Q&) {
            const auto read = parse<Q>(text);
            if (read) {
                ++read_at_all;
                CHECK(dimension_found == dimension<Q>());
                CHECK(std::isfinite(read->value.value()));
                CHECK(std::isfinite(read->half_width.value()));
                CHECK(read->half_width.value() >= 0.0);
                return;
            }
            CHECK(!read.wrong().why.empty());
            CHECK(!read.wrong().hint.empty());
            CHECK(read.wrong().at <= text.size());
            CHECK(printable(read.wrong().why));
            CHECK(printable(read.wrong().hint));
        });
        const auto gauge = parse_gauge(text);
        if (gauge)
            CHECK((*parse_gauge(show(*gauge)) == *gauge));
        else
            CHECK(printable(gauge.wrong().why + gauge.wrong().hint));
    }
    // The pieces do lead somewhere.
    CHECK(read_at_all > 100);
}
