#include "voltwright/messages/plan.hpp"

#include <algorithm>
#include <array>

namespace voltwright {

namespace {

/// What a page says, and what stands in its place for a program.
template <class What>
struct Row {
    What what;
    std::string_view code, words;
};

constexpr std::array not_judged_rows = {
    Row<NotJudged>{NotJudged::starts_not_given, "starts-not-given", "motors whose starting current is not given"},
    Row<NotJudged>{NotJudged::post_fuse_times, "post-fuse-times",
                   "how soon post and ANL fuses and breakers clear: their times are not known"},
};

constexpr std::array aspect_rows = {
    Row<Aspect>{Aspect::length, "length", "length"},
    Row<Aspect>{Aspect::size, "size", "size"},
    Row<Aspect>{Aspect::fuse, "fuse", "fuse"},
    Row<Aspect>{Aspect::drop, "drop", "drop"},
    Row<Aspect>{Aspect::resistance, "resistance", "resistance of the loop"},
    Row<Aspect>{Aspect::worst_current, "worst-current", "worst current"},
    Row<Aspect>{Aspect::hours_from_full, "hours-from-full", "hours from full"},
    Row<Aspect>{Aspect::used_between_drives, "used-between-drives", "used between two drives"},
    Row<Aspect>{Aspect::used_in_a_day_and_a_night, "used-in-a-day-and-a-night", "used in a day and a night"},
    Row<Aspect>{Aspect::days, "days", "days"},
    Row<Aspect>{Aspect::used_a_day, "used-a-day", "used a day"},
    Row<Aspect>{Aspect::charged_a_day, "charged-a-day", "charged a day"},
    Row<Aspect>{Aspect::lowest_soc, "lowest-soc", "lowest state of charge"},
    Row<Aspect>{Aspect::soc_at_the_end, "soc-at-the-end", "state of charge at the end"},
    Row<Aspect>{Aspect::essential_off, "essential-off", "essential loads off"},
    Row<Aspect>{Aspect::an_hour_puts_back, "an-hour-puts-back", "an hour puts back"},
    Row<Aspect>{Aspect::most_a_day, "most-a-day", "takes a day, at most"},
};

/// Every one has a row.
template <class Rows, class What>
const Row<What>& row_of(const Rows& rows, What what) {
    return *std::find_if(rows.begin(), rows.end(), [what](const Row<What>& row) { return row.what == what; });
}

}  // namespace

std::string_view show(NotJudged what) { return row_of(not_judged_rows, what).words; }
std::string_view code_of(NotJudged what) { return row_of(not_judged_rows, what).code; }

std::string_view show(Aspect what) { return row_of(aspect_rows, what).words; }
std::string_view code_of(Aspect what) { return row_of(aspect_rows, what).code; }

std::vector<std::string> each_shown(const std::vector<NotJudged>& list) {
    std::vector<std::string> lines;
    for (const NotJudged what : list) lines.emplace_back(show(what));
    return lines;
}

}  // namespace voltwright
