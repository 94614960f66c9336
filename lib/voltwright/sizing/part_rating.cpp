#include "voltwright/sizing/part_rating.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

constexpr Temperature housing = celsius(105), rated_at = celsius(25);

}  // namespace

PartRating part_rating(std::string part, Current printed, std::optional<Area> rated_area, Area conductor,
                       Temperature around) {
    const auto root = [](Ratio share) { return std::min<Ratio>(sqrt(std::max<Ratio>(share, 0.0)), 1.0); };
    const Ratio by_size = rated_area ? root(conductor / *rated_area) : Ratio{1.0};
    const Ratio by_heat = root((housing - around) / (housing - rated_at));
    return {std::move(part), printed, rated_area, conductor, around, by_size, by_heat, printed * by_size * by_heat};
}

std::optional<PartRating> part_rating(const JointRow& part, Area conductor, Temperature around) {
    if (!part.rating) return {};
    return part_rating(std::string(part.name), *part.rating, part.rated_area, conductor, around);
}

}  // namespace voltwright
