#include "voltwright/report/chart.hpp"
#include "voltwright/report/diagram.hpp"
#include "voltwright/report/markup.hpp"
#include "voltwright/report/sheet_markup.hpp"
#include "voltwright/report/sheet_sections.hpp"
#include "voltwright/report/wiring_words.hpp"

namespace voltwright::sheet {

namespace {

/// A drawing as it is named for a room.
std::string name_in(Room room, const std::string& name) { return room == Room::page ? name : name + "-phone"; }

/// The chart for each room with the words below it.
template <class Make>
std::string chart(const Plan& plan, Make make, const std::string& name, std::string_view title) {
    std::string html;
    std::string says;
    for (const Room room : {Room::page, Room::phone}) {
        const bool page = room == Room::page;
        const std::optional<Chart> drawn = make(plan, room, name_in(room, name));
        if (!drawn) return {};
        html += "<div class=\"" + std::string(page ? "page wide" : "phone small") + "\">\n" +
                drawn->drawing.svg("chart", title, in_signs(drawn->words)) + "</div>\n";
        says = drawn->words;
    }
    return "<figure>\n" + html + "<figcaption>" + words(says) + "</figcaption>\n</figure>\n";
}

}  // namespace

std::string wiring(const Plan& plan, const System& system) {
    std::string html;
    for (const Room room : {Room::page, Room::phone}) {
        const bool page = room == Room::page;
        const std::vector<Drawing> drawings = wiring_diagram(plan, system, room, name_in(room, "wiring"));
        for (std::size_t i = 0; i < drawings.size(); ++i) {
            const std::string title = drawings.size() == 1 ? "Wiring on one line"
                                                           : "Wiring on one line, part " + std::to_string(i + 1) +
                                                                 " of " + std::to_string(drawings.size());
            html +=
                "<figure class=\"" + std::string(page ? "page" : "phone") + "\">\n" +
                drawings[i].svg("wiring", title, i == 0 ? wiring_in_words(plan) : "Continued from the part before.") +
                "</figure>\n";
        }
    }
    return html +
           "<p class=\"soft\">One line stands for a cable out and its return, which is as thick unless another size is "
           "given. The small box on a line is a fuse, at that end of the cable. Lengths are one way.</p>\n";
}

std::string charge_chart(const Plan& plan) { return chart(plan, soc_line, "charge", "State of charge over the trip"); }

std::string feed_chart(const Plan& plan) {
    return chart(plan, feed_line, "feed", "Voltage from the starter battery to the house battery");
}

}  // namespace voltwright::sheet
