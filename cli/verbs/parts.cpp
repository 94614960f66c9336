#include "voltwright/shopping/parts.hpp"
#include "cli/load_and_plan.hpp"
#include "voltwright/report/parts_text.hpp"
#include "voltwright/units/parse.hpp"

namespace voltwright::cli {

namespace {

/// The share of `--allowance`, or nothing: what is wrong then stands on standard error.
std::optional<Ratio> allowance_of(const Call& call) {
    const auto read = parse<Ratio>(call.text("--allowance", "10 %"));
    if (!read) {
        call.complain("--allowance: " + read.wrong().why + (read.wrong().hint.empty() ? "" : "; " + read.wrong().hint));
        return {};
    }
    if (read->half_width == Ratio{} && read->value >= 0.0 && read->value <= 1.0) return read->value;
    call.complain("--allowance: from 0 % to 100 % is wanted");
    return {};
}

int run_parts(const Call& call) {
    const auto allowance = allowance_of(call);
    if (!allowance) return wrong_usage;
    const auto all = planned(call, {.ladders = Ladder::needed});
    if (!all) return unusable;
    const PartsList list = parts_list(all->profile.system, all->plan, all->prices.get(), *allowance);
    return call.answer({.line = [&] { return printable(spelled(parts_line(list), call.style), call.style); },
                        .page = [&] { return parts_page(list, call.style); },
                        .json = [&] { return parts_json(list); },
                        .csv = [&] { return parts_csv(list); }});
}

constexpr Option parts_options[] = {
    prices_option,
    {.name = "--allowance",
     .takes = Takes::text,
     .value = "SHARE",
     .help = "what is added to every length; by itself \"10 %\""},
};

}  // namespace

extern const Verb parts_verb;
constinit const Verb parts_verb =
    profile_verb({"parts", Group::fit, "what to buy: cable, lugs, fuses, tube and the rest, and what it costs",
                  parts_options, text_json_or_csv},
                 run_parts);

}  // namespace voltwright::cli
