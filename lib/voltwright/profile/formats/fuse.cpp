#include "voltwright/profile/formats/fuse.hpp"

#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/scan.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace voltwright {

using namespace formats;

namespace {

constexpr std::string_view fuse_example = "50 A SF30";

bool read_fuse(const Entry& entry, const std::string& path, FuseChoice& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a fuse", fuse_example, faults);
    if (!text) return false;
    const auto [rating, family] = split_words<Current>(*text);
    if (!rating) {
        unreadable(path, rating.wrong(), faults);
        faults.back().hint = "rating and family, as in " + toml_quoted(fuse_example);
        return false;
    }
    if (family.empty())
        return fail(faults, path, "a fuse is written with its family; this is a rating alone",
                    "as in " + toml_quoted(fuse_example) + " or \"15 A blade\"");
    if (rating->half_width > Current{})
        return fail(faults, path, "the rating of a fuse has no spread", toml_quoted(fuse_example));
    Entry alone;
    alone.content = std::string(family);
    std::string name;
    if (!Format<std::string>::read(alone, path, name, faults)) return false;
    value = {*rating, std::move(name)};
    return true;
}

/// Nothing for "none".
bool read_fuse_or_none(const Entry& entry, const std::string& path, std::optional<FuseChoice>& value, Faults& faults) {
    if (entry.text() && in_lower_case(without_spaces_around(*entry.text())) == "none") return true;
    FuseChoice choice{};
    if (!read_fuse(entry, path, choice, faults)) return false;
    value = std::move(choice);
    return true;
}

std::string fuse_text(const FuseChoice& fuse) { return toml_quoted(write(fuse.rating) + " " + fuse.family); }
std::string fuse_text(const std::optional<FuseChoice>& fuse) {
    return fuse ? fuse_text(*fuse) : std::string("\"none\"");
}

Shape fuse_shape() {
    Shape shape{Shape::Kind::text, "a fuse: its rating and its family"};
    shape.example = "\"50 A SF30\"";
    return shape;
}

Shape fuse_or_none() {
    return with_parts(Shape::Kind::any_of, "a fuse, or \"none\"", {fuse_shape(), with_words("no fuse", {"none"})});
}

}  // namespace

bool Format<PostFuse>::read(const Entry& entry, const std::string& path, PostFuse& value, Faults& faults) {
    return read_fuse_or_none(entry, path, value.fuse, faults);
}
std::string Format<PostFuse>::write(const PostFuse& value) { return fuse_text(value.fuse); }
Checked Format<PostFuse>::measures(const PostFuse& value) {
    return value.fuse ? Checked{{amount(value.fuse->rating.value), {}}} : Checked{};
}
Shape Format<PostFuse>::shape() { return fuse_or_none(); }

bool Format<std::vector<FuseChoice>>::read(const Entry& entry, const std::string& path, std::vector<FuseChoice>& value,
                                           Faults& faults) {
    const bool good = each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        FuseChoice fuse{};
        if (!read_fuse(element, place, fuse, faults)) return false;
        value.push_back(std::move(fuse));
        return true;
    });
    if (good && value.empty())
        return fail(faults, path, "this list of fuses is empty", "leave the key out to take every usual rating");
    return good;
}
std::string Format<std::vector<FuseChoice>>::write(const std::vector<FuseChoice>& value) {
    std::vector<std::string> written;
    for (const FuseChoice& fuse : value) written.push_back(fuse_text(fuse));
    return list_of(written);
}
Checked Format<std::vector<FuseChoice>>::measures(const std::vector<FuseChoice>& value) {
    Checked checked;
    for (std::size_t i = 0; i < value.size(); ++i) checked.push_back({amount(value[i].rating.value), path_to({}, i)});
    return checked;
}
Shape Format<std::vector<FuseChoice>>::shape() { return with_parts(Shape::Kind::one_or_list, "fuses", {fuse_shape()}); }

bool Format<GivenFuses>::read(const Entry& entry, const std::string& path, GivenFuses& value, Faults& faults) {
    const auto read_one = [&](const Entry& one, const std::string& place, std::string end) {
        std::optional<FuseChoice> fuse;
        if (!read_fuse_or_none(one, place, fuse, faults)) return false;
        value.at.emplace_back(std::move(end), std::move(fuse));
        return true;
    };
    if (const Entry::Section* ends = entry.section()) {
        if (ends->empty())
            return fail(faults, path, "this names no end of the run", "as in { starter = \"50 A SF30\" }");
        bool good = true;
        for (const auto& [end, fuse] : *ends) {
            const std::string place = path + "." + end;
            Entry alone;
            alone.content = end;
            std::string name;
            good = Format<std::string>::read(alone, place, name, faults) && read_one(fuse, place, name) && good;
        }
        return good;
    }
    if (entry.list())
        return fail(faults, path, "a fuse, or fuses by the end of the run where they sit, are wanted; this is a list",
                    "as in { starter = \"50 A SF30\", battery = \"none\" }");
    return read_one(entry, path, {});
}
std::string Format<GivenFuses>::write(const GivenFuses& value) {
    if (value.at.size() == 1 && value.at[0].first.empty()) return fuse_text(value.at[0].second);
    std::string result = "{";
    for (std::size_t i = 0; i < value.at.size(); ++i) {
        const auto& [end, fuse] = value.at[i];
        const bool bare = std::all_of(end.begin(), end.end(), [](char c) {
            return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '-';
        });
        result += (i ? ", " : " ") + (bare ? end : toml_quoted(end)) + " = " + fuse_text(fuse);
    }
    return result + " }";
}
Checked Format<GivenFuses>::measures(const GivenFuses& value) {
    Checked checked;
    for (const auto& [end, fuse] : value.at)
        if (fuse) checked.push_back({amount(fuse->rating.value), end.empty() ? std::string() : "." + end});
    return checked;
}
Shape Format<GivenFuses>::shape() {
    const Shape one = fuse_or_none();
    return with_parts(Shape::Kind::any_of, "a fuse, or fuses by the end of the run where they sit",
                      {one, with_parts(Shape::Kind::named, "fuses by the end of the run", {one})});
}

}  // namespace voltwright
