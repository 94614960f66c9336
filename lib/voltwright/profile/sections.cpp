#include "voltwright/profile/section.hpp"

#include "voltwright/profile/formats/plain.hpp"

#include <algorithm>
#include <array>

namespace voltwright {

namespace {

SectionRow top_section() {
    static const Key rows[] = {
        key<&Profile::title>("title", Absent{"the plan has no title", R"("A week by the lake")"}, {},
                             "what the plan is called on its pages"),
    };
    return {{},
            false,
            false,
            1,
            "the plan as a whole",
            rows,
            [](const Profile&) -> std::size_t { return 1; },
            [](Profile& profile, std::size_t) { return SectionRef::of(profile); },
            [](const Profile& profile, std::size_t) { return SectionView::of(profile); },
            [](Profile&) {}};
}

}  // namespace

std::span<const SectionRow> sections() {
    static const std::array rows = {
        top_section(),     trip_section(),  day_section(),      starter_section(), battery_section(),
        charger_section(), solar_section(), inverter_section(), run_section(),     fridge_section(),
        load_section(),    rules_section(), reading_section(),  meter_section(),
    };
    return rows;
}

const SectionRow* find_section(std::string_view name) {
    if (name.empty()) return nullptr;
    const auto all = sections();
    const auto row = std::find_if(all.begin(), all.end(), [name](const SectionRow& one) { return one.name == name; });
    return row == all.end() ? nullptr : &*row;
}

std::string header_of(const SectionRow& section) {
    const std::string name(section.name);
    return section.many ? "[[" + name + "]]" : "[" + name + "]";
}

std::string entry_name(const Profile& profile, const SectionRow& section, std::size_t index) {
    if (!section.many) return section.name.empty() ? std::to_string(index + 1) : std::string(section.name);
    if (section.name_of)
        if (std::string name = section.name_of(profile, index); !name.empty()) return name;
    return std::to_string(index + 1);
}

std::string path_of(const SectionRow& section, std::size_t index) {
    return section.many ? path_to(std::string(section.name), index) : std::string(section.name);
}

}  // namespace voltwright
