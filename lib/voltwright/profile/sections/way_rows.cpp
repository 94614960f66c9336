#include "voltwright/profile/sections/way.hpp"

#include "voltwright/profile/formats/place.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/section_list.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace formats;
using namespace rows;

namespace {

/// A part of a run's way as it is written, before both its keys are known to be there.
struct WaySectionKeys {
    Given<Somewhere> place;
    Given<Spread<Length>> length;
};

std::span<const Key> way_rows() {
    static const Key rows[] = {
        key<&WaySectionKeys::place>("place", Required{R"("engine bay")"}, {surroundings()},
                                    "a named place, or its temperature"),
        key<&WaySectionKeys::length>("length", Required{R"("2 m")"}, {up_to(metres(100.0))}, "length of the run there"),
    };
    return rows;
}

std::vector<WaySectionKeys> keys_of_way(const std::vector<WaySection>& way) {
    std::vector<WaySectionKeys> keys;
    for (const WaySection& section : way) keys.push_back({section.place, section.length});
    return keys;
}

}  // namespace

bool Format<Way>::read(const Entry& entry, const std::string& path, Way& value, Faults& faults) {
    if (!entry.list() && !entry.section()) {
        Somewhere somewhere;
        if (!Format<Somewhere>::read(entry, path, somewhere, faults)) return false;
        value = std::move(somewhere);
        return true;
    }
    std::vector<WaySectionKeys> sections;
    if (!read_sections(entry, path, way_rows(), sections, faults)) return false;
    if (sections.empty())
        return fail(faults, path, "this list of places is empty", "as in [{ place = \"cabin\", length = \"2 m\" }]");
    std::vector<WaySection> way;
    for (WaySectionKeys& section : sections) way.push_back({std::move(section.place.value()), section.length.value()});
    value = std::move(way);
    return true;
}
std::string Format<Way>::write(const Way& value) {
    if (const auto* somewhere = std::get_if<Somewhere>(&value)) return Format<Somewhere>::write(*somewhere);
    return write_sections(way_rows(), keys_of_way(std::get<std::vector<WaySection>>(value)));
}
Checked Format<Way>::measures(const Way& value) {
    if (const auto* somewhere = std::get_if<Somewhere>(&value)) return Format<Somewhere>::measures(*somewhere);
    return {};  // its sections have rows of their own
}
Shape Format<Way>::shape() {
    return with_parts(Shape::Kind::any_of, "a named place, a temperature, or one after the other with their lengths",
                      {place_shape(), quantity_shape(Dimension::temperature),
                       with_parts(Shape::Kind::one_or_list, "places with their lengths",
                                  {section_shape("a place and a length", way_rows())})});
}

void Format<Way>::check(const Way& value, const std::string& path, Faults& faults) {
    if (const auto* sections = std::get_if<std::vector<WaySection>>(&value))
        check_sections(way_rows(), keys_of_way(*sections), path, faults);
}

}  // namespace voltwright
