#include "voltwright/profile/sections/restock.hpp"

#include "voltwright/profile/formats/calendar.hpp"
#include "voltwright/profile/formats/clock.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/section_list.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace formats;
using namespace rows;

namespace {

std::span<const Key> restock_rows() {
    static const Key rows[] = {
        key<&RestockKeys::on>("on", Required{R"("2-3")"}, {}, "days of the trip on which it is put in"),
        key<&RestockKeys::at>("at", Required{R"("17:00")"}, {}, "time of day"),
        key<&RestockKeys::mass>("mass", Required{R"("4 kg")"}, {up_to(kilograms(500.0))}, "mass of what is put in"),
        key<&RestockKeys::from>("from", Required{R"("24 degC")"}, {outside_air()}, "how warm it is then"),
    };
    return rows;
}

}  // namespace

bool Format<std::vector<RestockKeys>>::read(const Entry& entry, const std::string& path,
                                            std::vector<RestockKeys>& value, Faults& faults) {
    return read_sections(entry, path, restock_rows(), value, faults);
}
std::string Format<std::vector<RestockKeys>>::write(const std::vector<RestockKeys>& value) {
    return write_sections(restock_rows(), value);
}
Checked Format<std::vector<RestockKeys>>::measures(const std::vector<RestockKeys>&) { return {}; }
Shape Format<std::vector<RestockKeys>>::shape() {
    return with_parts(Shape::Kind::one_or_list, "warm things put in",
                      {section_shape("what is put in, and when", restock_rows())});
}

void Format<std::vector<RestockKeys>>::check(const std::vector<RestockKeys>& value, const std::string& path,
                                             Faults& faults) {
    check_sections(restock_rows(), value, path, faults);
}

}  // namespace voltwright
