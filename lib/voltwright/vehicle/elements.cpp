#include "voltwright/vehicle/elements.hpp"

#include <algorithm>
#include <array>

namespace voltwright {

namespace {

std::optional<JointKind> kind_of(const Joint& joint) { return joint_kind(built_in_tables(), joint.name); }

bool is_clamp(const Joint& joint) { return kind_of(joint) == JointKind::battery_clamp; }

bool is_ferrule(const Joint& joint) { return kind_of(joint) == JointKind::ferrule; }

bool ends_a_conductor(const Joint& joint) {
    return kind_of(joint) == JointKind::lug || is_clamp(joint) || is_ferrule(joint);
}

bool has_two_poles(const Joint& joint) {
    return kind_of(joint) == JointKind::plug || kind_of(joint) == JointKind::socket;
}

/// The joints of one run, each put where it most likely sits.
class Laying {
public:
    explicit Laying(const SystemRun& run)
        : run_(run),
          name_(*run.run.name),
          body_(run.run.body.has_value()),
          near_(near_point(run)),
          far_(far_point(run)) {
        const std::vector<Joint> usual(body_ ? 2 : 4, Joint{"lug", {}});
        joints_ = run.run.joints.value_or(usual);
    }

    std::vector<Element> elements() && {
        take_ends();
        const bool fused_far = std::any_of(run_.run.fused_at.begin(), run_.run.fused_at.end(), [&](const FuseEnd& end) {
            return end.at == run_.to && end.at != run_.from;
        });
        std::vector<Element> all;
        end(all, Side::out, Terminal::near);
        if (!fused_far) fuse(all, run_.from);
        for (const Joint& joint : joints_)
            if (!ends_a_conductor(joint) && !has_two_poles(joint)) put(all, Element::Kind::joint, Side::out, joint, "");
        for (const Joint& joint : spare_ends_) put(all, Element::Kind::lug, Side::out, joint, "");
        cable(all, Side::out);
        for (const Joint& joint : joints_)
            if (has_two_poles(joint)) put(all, Element::Kind::joint, Side::out, joint, " +", body_ ? 1.0 : 0.5);
        if (fused_far) fuse(all, run_.to);
        end(all, Side::out, Terminal::far);
        end(all, Side::back, Terminal::far);
        if (body_) {
            all.push_back({Element::Kind::body, Side::back, name_ + " body", {}});
        } else {
            for (const Joint& joint : joints_)
                if (has_two_poles(joint)) put(all, Element::Kind::joint, Side::back, joint, " -", 0.5);
            cable(all, Side::back);
        }
        end(all, Side::back, Terminal::near);
        return all;
    }

private:
    enum class Terminal { near, far };
    struct End {
        Side side;
        Terminal terminal;
        std::optional<Joint> joint = {};
    };

    [[nodiscard]] const std::string& point(Terminal terminal) const {
        return terminal == Terminal::near ? near_ : far_;
    }

    /// Battery clamps on batteries, ferrules elsewhere, then whatever is left in the order of the profile.
    void take_ends() {
        for (const Side side : {Side::out, Side::back}) {
            if (body_ && side == Side::back) break;
            for (const Terminal terminal : {Terminal::near, Terminal::far}) ends_.push_back({side, terminal});
        }
        std::vector<Joint> rest;
        for (const Joint& joint : joints_) {
            if (!ends_a_conductor(joint)) continue;
            const auto own = std::find_if(ends_.begin(), ends_.end(), [&](const End& end) {
                const Place& place = end.terminal == Terminal::near ? run_.from : run_.to;
                if (end.joint) return false;
                return is_battery(place) ? is_clamp(joint) : is_ferrule(joint) && place.kind != PlaceKind::panel;
            });
            if (own == ends_.end())
                rest.push_back(joint);
            else
                own->joint = joint;
        }
        for (const Joint& joint : rest) {
            const auto free = std::find_if(ends_.begin(), ends_.end(), [](const End& end) { return !end.joint; });
            if (free == ends_.end())
                spare_ends_.push_back(joint);
            else
                free->joint = joint;
        }
    }

    void end(std::vector<Element>& all, Side side, Terminal terminal) const {
        for (const End& end : ends_)
            if (end.side == side && end.terminal == terminal && end.joint)
                put(all, Element::Kind::lug, side, *end.joint,
                    " at " + point(terminal) + (side == Side::out ? " +" : " -"));
    }

    void fuse(std::vector<Element>& all, const Place& at) const {
        if (run_.run.fused_at.empty()) return;
        all.push_back({Element::Kind::fuse, Side::out, name_ + " fuse at " + at.name, {}, 1.0, at});
    }

    void cable(std::vector<Element>& all, Side side) const {
        all.push_back({Element::Kind::cable, side, name_ + (side == Side::out ? " cable +" : " cable -"), {}});
    }

    void put(std::vector<Element>& all, Element::Kind kind, Side side, const Joint& joint, const std::string& where,
             double share = 1.0) const {
        const std::string name = name_ + " " + joint.name;
        // The second switch of a run is `switch 2`.
        std::string whole = name + where;
        for (int number = 2; std::any_of(all.begin(), all.end(), [&](const Element& one) { return one.name == whole; });
             ++number)
            whole = name + " " + std::to_string(number) + where;
        all.push_back(
            {kind, side, std::move(whole), joint.measured ? std::string() : joint.name, share, {}, joint.measured});
    }

    const SystemRun& run_;
    std::string name_;
    bool body_;
    std::string near_, far_;
    std::vector<Joint> joints_, spare_ends_;
    std::vector<End> ends_;
};

}  // namespace

std::vector<Element> elements_of(const SystemRun& run) { return Laying(run).elements(); }

std::string near_point(const SystemRun& run) {
    return run.from.kind == PlaceKind::charger ? run.from.name + " output" : run.from.name;
}

std::string far_point(const SystemRun& run) { return run.to.name; }

std::vector<std::string> probe_points(const std::vector<SystemRun>& runs) {
    std::vector<std::string> points;
    const auto add = [&](std::string point) {
        if (std::find(points.begin(), points.end(), point) == points.end()) points.push_back(std::move(point));
    };
    for (const SystemRun& run : runs)
        for (const std::string& place : {near_point(run), far_point(run)})
            for (const char* pole : {"", " +", " -"}) add(place + pole);
    for (const SystemRun& run : runs)
        for (Element& element : elements_of(run)) add(std::move(element.name));
    return points;
}

}  // namespace voltwright
