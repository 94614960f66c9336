#pragma once

#include <utility>
#include <variant>

namespace voltwright {

/// What was asked for, or what is wrong with the input.
///
/// The one way in which the library says that an input cannot be used:
///
/// - a function with something to give answers a Result. `Wrong` is `Unreadable` for a text, `Faults` for a profile that was
///   not read from a file, `Diagnostics` for a file: all that is wrong, each at its place;
/// - a function that only changes something answers a std::optional of what is wrong, empty when nothing is;
/// - an empty std::optional that is no error says that there is nothing to tell, and the comment says when;
/// - std::invalid_argument and std::logic_error say that the calling program is at fault: a precondition was not kept.
///
/// Nothing in it is shared or kept elsewhere: a Result may be copied, moved and dropped like its value.
///
///     const auto profile = load_system("bus.toml");
///     if (!profile) return tell(profile.wrong());
///     const Plan plan = make_plan(profile->system);
template <class T, class Wrong>
class [[nodiscard]] Result : public std::variant<T, Wrong> {
public:
    using std::variant<T, Wrong>::variant;

    /// Whether it is there.
    [[nodiscard]] explicit operator bool() const { return this->index() == 0; }

    /// What was asked for. Throws std::bad_variant_access when it is not there.
    [[nodiscard]] const T& operator*() const& { return std::get<0>(variant()); }
    [[nodiscard]] T operator*() && { return std::get<0>(std::move(variant())); }
    [[nodiscard]] const T* operator->() const { return &std::get<0>(variant()); }

    /// What is wrong. Throws std::bad_variant_access when nothing is.
    [[nodiscard]] const Wrong& wrong() const { return std::get<1>(variant()); }

private:
    [[nodiscard]] const std::variant<T, Wrong>& variant() const { return *this; }
    [[nodiscard]] std::variant<T, Wrong>& variant() { return *this; }
};

}  // namespace voltwright
