#include "voltwright/sizing/part_rating.hpp"

#include <algorithm>

namespace voltwright {

namespace {

constexpr Temperature housing = celsius(105), rated_at = celsius(25);

}  // namespace

std::optional<PartRating> part_rating(const JointRow& part, Area conductor, Temperature around) {
    if (!part.rating) return {};
    const auto root = [](Ratio share) { return std::min<Ratio>(sqrt(std::max<Ratio>(share, 0.0)), 1.0); };
    const Ratio by_size = part.rated_area ? root(conductor / *part.rated_area) : Ratio{1.0};
    const Ratio by_heat = root((housing - around) / (housing - rated_at));
    return PartRating{
        std::string(part.name),          *part.rating, part.rated_area, conductor, around, by_size, by_heat,
        *part.rating * by_size * by_heat};
}

}  // namespace voltwright
