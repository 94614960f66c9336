// Any text at all as a price list: no crash, no exception, every fault at a place that exists, and money that adds up.
//
//     clang++ -std=c++20 -O1 -g -fsanitize=fuzzer,address,undefined … tests/fuzz/prices.cpp
//     ./prices_fuzz -max_len=4096 -max_total_time=60 corpus
//
// With VOLTWRIGHT_REPLAY defined it is a plain program that reads the files it is given, once each.

#include "harness.hpp"

#include "voltwright/files/document.hpp"
#include "voltwright/files/read_prices.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/report/parts_text.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

namespace {

using namespace voltwright;
using fuzz::demand;

/// What is bought for a small vehicle, without prices.
const PartsList& things() {
    static const PartsList list = [] {
        const auto read = read_document_text("van.toml",
                                             "[trip]\nlow = \"10 degC\"\nhigh = \"30 degC\"\n"
                                             "[battery]\nchemistry = \"agm\"\ncapacity = \"100 Ah\"\n"
                                             "[charger]\noutput = \"25 A\"\n"
                                             "[[run]]\nto = \"charger\"\nlength = \"5 m\"\n");
        demand(std::holds_alternative<Document>(read), "the vehicle is no TOML");
        Faults faults;
        const auto system = resolve(read_profile(std::get<Document>(read).root, faults), built_in_tables());
        demand(faults.empty() && std::holds_alternative<System>(system), "the vehicle is refused");
        return parts_list(std::get<System>(system), make_plan(std::get<System>(system)));
    }();
    return list;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    std::string text(size, '\0');
    std::copy(data, data + size, text.begin());
    const auto read = read_document_text("fuzz.toml", text);
    if (std::holds_alternative<Diagnostics>(read)) return 0;
    const Document& document = std::get<Document>(read);
    Faults faults;
    const PriceList prices = read_prices(document.root, built_in_tables(), faults);
    const Diagnostics diagnostics = locate(document, faults);
    demand(diagnostics.size() == faults.size(), "a fault was lost");
    const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
    for (const Diagnostic& diagnostic : diagnostics) {
        demand(!diagnostic.what.empty(), "a diagnostic without words");
        demand(diagnostic.place.line >= 0 && diagnostic.place.line <= lines + 1, "a line that is not there");
    }
    if (!faults.empty()) return 0;

    PartsList list = things();
    put_prices(list, prices);
    for (const Part& part : list.parts)
        demand(part.price.has_value() == (find_price(prices, part) != nullptr), "a price out of nowhere");
    if (list.total)
        for (const Part& part : list.parts)
            demand(!part.cost || *part.cost <= *list.total, "a line that costs more than all of them");
    parts_page(list, {});
    parts_csv(list);
    parts_json(list);
    return 0;
}
