#include "voltwright/sizing/part_rating.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

constexpr Temperature housing = celsius(105), rated_at = celsius(25);

Ratio root(Ratio share) { return sqrt(std::max<Ratio>(share, 0.0)); }
Ratio root_to_one(Ratio share) { return std::min<Ratio>(root(share), 1.0); }

}  // namespace

PartRating part_rating(std::string part, Current printed, std::optional<Area> rated_area, Area conductor,
                       Temperature around) {
    const Ratio by_size = rated_area ? root_to_one(conductor / *rated_area) : Ratio{1.0};
    const Ratio by_heat = root_to_one((housing - around) / (housing - rated_at));
    return {std::move(part), printed, rated_area, {},      {},
            conductor,       around,  by_size,    by_heat, printed * by_size * by_heat};
}

std::optional<PartRating> part_rating(const JointRow& part, Area conductor, Temperature around) {
    if (!part.rating) return {};
    if (part.charted && part.charted_at) {
        const Ratio by_size = part.rated_area ? root_to_one(conductor / *part.rated_area) : Ratio{1.0};
        const Ratio by_heat = root((housing - around) / (housing - *part.charted_at));
        const Current rating = std::min<Current>(*part.rating, *part.charted * by_size * by_heat);
        return PartRating{std::string(part.name),
                          *part.rating,
                          part.rated_area,
                          part.charted,
                          part.charted_at,
                          conductor,
                          around,
                          by_size,
                          by_heat,
                          rating};
    }
    return part_rating(std::string(part.name), *part.rating, part.rated_area, conductor, around);
}

}  // namespace voltwright
