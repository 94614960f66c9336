#include "voltwright/report/sheet_markup.hpp"
#include "voltwright/report/sheet_sections.hpp"

namespace voltwright::sheet {

namespace {

constexpr std::string_view blank = "<span role=\"img\" aria-label=\"blank to fill in\">______</span>";

/// Where the leads go, what is switched on, and what to do where it shows something else.
std::string measure_words(const ReadingWords& reading) {
    std::string html = words(reading.where);
    if (!reading.with.empty()) html += "; " + words(reading.with);
    if (reading.in_doubt) return html + ":";
    if (!reading.otherwise.empty()) html += ". <span class=\"soft\">Otherwise " + words(reading.otherwise) + ".</span>";
    return html;
}

std::string row_of(const ReadingWords& reading) {
    return "<tr><th scope=\"row\"><b>" + words(reading.id) + "</b></th><td>" + measure_words(reading) + "</td><td><b>" +
           words(reading.expected) + "</b></td><td class=\"fill\">" + std::string(blank) + "</td></tr>\n";
}

/// One that is only made where a drop is too large.
std::string item_of(const ReadingWords& reading) {
    return "<li><b>" + words(reading.id) + "</b> " + measure_words(reading) + " <b>" + words(reading.expected) +
           "</b> " + std::string(blank) + "</li>\n";
}

std::string table_of(const ReadingStage& stage) {
    std::string rows, doubtful;
    for (const ReadingWords& reading : stage.readings)
        (reading.in_doubt ? doubtful : rows) += reading.in_doubt ? item_of(reading) : row_of(reading);
    std::string html =
        "<h3>" + words(stage.title) + "</h3>\n<table>\n<caption>" + words(stage.about) +
        "</caption>\n<thead><tr><th scope=\"col\" class=\"w1\">No.</th><th scope=\"col\">Where the leads "
        "go</th><th scope=\"col\" class=\"w2\">It should show</th><th scope=\"col\" class=\"wf fill\">It "
        "shows</th></tr></thead>\n<tbody>\n" +
        rows + "</tbody>\n</table>\n";
    if (!doubtful.empty())
        html +=
            "<p><b>Only where a drop is too large:</b> across one joint after the other. The one that shows more than "
            "it should is made again.</p>\n<ul class=\"joints\">\n" +
            doubtful + "</ul>\n";
    return html;
}

}  // namespace

std::string readings_tables(const std::vector<ReadingStage>& stages) {
    std::string html;
    for (const ReadingStage& stage : stages)
        if (!stage.readings.empty()) html += table_of(stage);
    return html;
}

}  // namespace voltwright::sheet
