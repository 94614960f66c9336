#include "voltwright/report/autonomy_text.hpp"

#include "voltwright/messages/findings.hpp"
#include "voltwright/report/energy_words.hpp"
#include "voltwright/report/findings_text.hpp"
#include "voltwright/report/phrases.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

namespace voltwright {

std::string autonomy_line(const AutonomyAnswer& answer) {
    const std::string stops =
        (answer.stops.empty() ? "" : "  " + counted(answer.stops.size(), "thing stops it.", "things stop it.")) +
        wiring_words(answer.wiring_stops);
    if (answer.house_idle)
        return "FROM THE STARTER BATTERY: " + starter_words(*answer.starter) + ". The house battery feeds no load." +
               stops;
    const Autonomy& worst = answer.high && answer.high->lasts < answer.standard.lasts ? *answer.high : answer.standard;
    return "FROM " + show(worst.from) + ": " + autonomy_words(worst, answer.depth_limit, "ABOUT") + "." + stops;
}

std::string autonomy_page(const AutonomyAnswer& answer, const Style& style) {
    const std::string verdict = headline(printable(spelled(autonomy_line(answer), style), style), style);
    std::string page = answer.holds() ? bold(verdict, style) : red(verdict, style);
    if (answer.house_idle) return page + findings_section(answer.stops, Level::stop, "What stops it", style);
    page += "\n";
    const Autonomy& standard = answer.standard;
    if (answer.starter) page += labelled("from the starter battery", starter_words(*answer.starter), style);
    page += labelled("from",
                     show(standard.from) + " at " + clock_of(standard.starts_at) + on_day_words(standard.day) +
                         ", engine and sun off",
                     style);
    if (answer.high) {
        page += labelled("guard at its standard setting", autonomy_words(standard, answer.depth_limit), style);
        page += labelled("guard at its high setting", autonomy_words(*answer.high, answer.depth_limit), style);
    }
    if (standard.lasts > Duration{}) {
        page += labelled("taken from the battery", amount(standard.used), style);
        if (standard.ended_by != EndedBy::trip)
            page += labelled("it ends", when(moment(standard.starts_at + standard.lasts)), style);
    }
    if (!answer.untimed.off.empty())
        page += labelled(
            "counted as off",
            joined(answer.untimed.off) + ", without hours or duty; an hour takes " + amount(answer.untimed.off_an_hour),
            style);
    for (const Finding& finding : answer.not_charged) page += labelled("to put it back", show(finding), style);
    if (answer.driving && answer.not_charged.empty()) {
        page += labelled("to put it back", driving_words(*answer.driving), style);
        if (const std::string filling = filling_words(*answer.driving); !filling.empty())
            page += labelled("", filling, style);
    }
    page += findings_section(answer.stops, Level::stop, "What stops it", style);
    return page + assumed_section(answer.assumptions, style);
}

}  // namespace voltwright
