#include "voltwright/profile/sections/inrush.hpp"

#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/section_list.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace formats;
using namespace rows;

namespace {

std::span<const Key> inrush_rows() {
    static const Key rows[] = {
        key<&InrushKeys::current>("current", Required{R"("20 A")"}, {up_to(amperes(5000.0))}, "current on starting"),
        key<&InrushKeys::time>("time", Required{R"("0.2 s")"}, {up_to(seconds(60.0))}, "how long it lasts"),
    };
    return rows;
}

}  // namespace

bool Format<InrushKeys>::read(const Entry& entry, const std::string& path, InrushKeys& value, Faults& faults) {
    if (!entry.section()) {
        wrong_kind(entry, path, "a current and its time in braces", faults);
        faults.back().hint = "as in { current = \"20 A\", time = \"0.2 s\" }";
        return false;
    }
    const std::size_t before = faults.size();
    read_section(entry, path, inrush_rows(), SectionRef::of(value), faults);
    return faults.size() == before;
}
std::string Format<InrushKeys>::write(const InrushKeys& value) {
    return write_inline(inrush_rows(), SectionView::of(value));
}
Checked Format<InrushKeys>::measures(const InrushKeys&) { return {}; }
Shape Format<InrushKeys>::shape() { return section_shape("a current and its time", inrush_rows()); }

void Format<InrushKeys>::check(const InrushKeys& value, const std::string& path, Faults& faults) {
    check_inner_section(inrush_rows(), SectionView::of(value), path, faults);
}

}  // namespace voltwright
