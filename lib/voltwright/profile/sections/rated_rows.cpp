#include "voltwright/profile/sections/rated.hpp"

#include "voltwright/profile/formats/draw.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/section_list.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace formats;
using namespace rows;

namespace {

std::span<const Key> rated_rows() {
    static const Key rows[] = {
        asked(key<&RatedKeys::around>("around", Required{R"("25 degC")"}, {outside_air()}, "outside temperature"),
              "degC, outside, at which that was measured"),
        key<&RatedKeys::inside>("inside", usual("5 degC"), {between(celsius(-40.0), celsius(25.0))},
                                "temperature that it was set to"),
        key<&RatedKeys::freezer>("freezer", Absent{"as inside", R"("-12 degC")"},
                                 {between(celsius(-40.0), celsius(25.0))},
                                 "temperature that its second zone was set to"),
        asked(key<&RatedKeys::a_day>("a_day", Required{R"("22 Ah")"},
                                     {up_to(ampere_hours(1000.0)), up_to(watt_hours(12000.0))},
                                     "what it took in 24 hours: ampere-hours at counted_at, or watt-hours"),
              "Ah or Wh in 24 hours, measured or from its manual"),
    };
    return rows;
}

}  // namespace

bool Format<std::vector<RatedKeys>>::read(const Entry& entry, const std::string& path, std::vector<RatedKeys>& value,
                                          Faults& faults) {
    if (!entry.list() && !entry.section()) {
        wrong_kind(entry, path, "one or two ratings in braces", faults);
        faults.back().hint = "as in [{ around = \"25 degC\", a_day = \"22 Ah\" }]";
        return false;
    }
    return read_sections(entry, path, rated_rows(), value, faults);
}
std::string Format<std::vector<RatedKeys>>::write(const std::vector<RatedKeys>& value) {
    return write_sections(rated_rows(), value);
}
Checked Format<std::vector<RatedKeys>>::measures(const std::vector<RatedKeys>&) { return {}; }
Shape Format<std::vector<RatedKeys>>::shape() {
    return with_parts(Shape::Kind::one_or_list, "one or two ratings",
                      {section_shape("what it takes at one outside temperature", rated_rows())});
}

void Format<std::vector<RatedKeys>>::check(const std::vector<RatedKeys>& value, const std::string& path,
                                           Faults& faults) {
    check_sections(rated_rows(), value, path, faults);
}
void Format<std::vector<RatedKeys>>::complete(std::vector<RatedKeys>& value, const Profile& profile,
                                              const Tables& tables) {
    for (RatedKeys& rated : value) complete_section(rated_rows(), SectionRef::of(rated), profile, tables, 0);
}

}  // namespace voltwright
