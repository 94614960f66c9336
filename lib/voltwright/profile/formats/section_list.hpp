#pragma once

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/profile/key.hpp"
#include "voltwright/profile/read_section.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Sections of keys that stand inside a value: `rated = [{ around = "25 degC", a_day = "22 Ah" }]`.
namespace voltwright::formats {

template <class Section>
bool read_sections(const Entry& entry, const std::string& path, std::span<const Key> keys,
                   std::vector<Section>& sections, Faults& faults) {
    return each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        if (!element.section()) {
            wrong_kind(element, place, "a table of keys in braces", faults);
            return false;
        }
        const std::size_t before = faults.size();
        read_section(element, place, keys, SectionRef::of(sections.emplace_back()), faults);
        return faults.size() == before;
    });
}

template <class Section>
std::string write_sections(std::span<const Key> keys, const std::vector<Section>& sections) {
    std::vector<std::string> written;
    for (const Section& section : sections) written.push_back(write_inline(keys, SectionView::of(section)));
    return list_of(written);
}

/// Holds each against its rows; what is needed has to be there.
template <class Section>
void check_sections(std::span<const Key> keys, const std::vector<Section>& sections, const std::string& path,
                    Faults& faults) {
    for (std::size_t i = 0; i < sections.size(); ++i)
        check_inner_section(keys, SectionView::of(sections[i]), path_to(path, i), faults);
}

inline Shape section_shape(std::string_view says, std::span<const Key> keys) {
    Shape shape{Shape::Kind::section, says};
    shape.keys = keys;
    return shape;
}

}  // namespace voltwright::formats
