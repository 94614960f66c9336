#include "voltwright/energy/sky.hpp"

#include <stdexcept>

namespace voltwright {

namespace {

Cited<Ratio> low_tenth(Ratio clearness_index, const Tables& tables) {
    if (tables.dull_days.empty()) throw std::logic_error("no table of dull days");
    const DullDayRow* before = &tables.dull_days.front();
    for (const DullDayRow& row : tables.dull_days) {
        if (clearness_index <= row.clearness) {
            if (!(row.clearness > before->clearness)) return {row.low_tenth, row.source};
            const Ratio way = (clearness_index - before->clearness) / (row.clearness - before->clearness);
            return {before->low_tenth + way * (row.low_tenth - before->low_tenth), row.source};
        }
        before = &row;
    }
    return {before->low_tenth, before->source};
}

}  // namespace

DullDay dull_day(Ratio clearness_index, const Tables& tables) {
    const Cited<Ratio> share = low_tenth(clearness_index, tables);
    return {clearness_index, share, clearness_index * share.value};
}

}  // namespace voltwright
