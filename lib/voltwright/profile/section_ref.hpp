#pragma once

#include <stdexcept>

namespace voltwright {

namespace detail {

/// One address a type.
template <class Section>
inline constexpr char section_type = 0;

}  // namespace detail

/// A section of the profile, to be read only, whose type the key table need not know. Its rows ask for it by its type again;
/// another type than its own throws std::logic_error.
class SectionView {
public:
    SectionView() = default;
    template <class Section>
    static SectionView of(const Section& section) {
        return {&section, &detail::section_type<Section>};
    }

    /// Whether there is one.
    explicit operator bool() const { return section_ != nullptr; }

    template <class Section>
    [[nodiscard]] const Section& as() const {
        if (type_ != &detail::section_type<Section>) throw std::logic_error("a row of another section");
        return *static_cast<const Section*>(section_);
    }

private:
    SectionView(const void* section, const char* type) : section_(section), type_(type) {}

    const void* section_ = nullptr;
    const char* type_ = nullptr;
};

/// The same of a section that may be written to.
class SectionRef {
public:
    template <class Section>
    static SectionRef of(Section& section) {
        return SectionRef(SectionView::of(section));
    }
    operator SectionView() const { return view_; }

private:
    explicit SectionRef(SectionView view) : view_(view) {}

    SectionView view_;
};

}  // namespace voltwright
