#include "voltwright/report/diagram.hpp"

#include "voltwright/report/markup.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace voltwright {

namespace {

constexpr double em = Drawing::size, leading = Drawing::leading;
constexpr double gap = 10.0;         ///< between text and what stands beside it
constexpr double usual_step = 48.0;  ///< from one upright line to the next that hangs from it
constexpr double upright = 16.0;     ///< of the outermost upright line
constexpr double tallest = 820.0;    ///< of a drawing across a page: the rest of a sheet of paper is for its heading
constexpr std::size_t deepest = 60;  ///< of runs behind each other; beyond it they are drawn one by one
constexpr std::size_t name_lines = 3;
constexpr std::string_view by_the_body = "back by the body";
constexpr double beside_earth = 22.0;  ///< from the left of the sign of earth to its words

/// What leads on from a place, whichever way its current flows.
struct Branch {
    const RunPlan* run;  ///< nullptr: not a run, see `note`
    std::string note;
    std::size_t node;  ///< the place that it leads to
};
struct Node {
    std::string place;  ///< as the profile calls it
    std::vector<Branch> branches;
};

/// The words that stand along a run.
struct RunWords {
    std::string name;                 ///< "feed", or nothing where the run is called by its end
    std::string way;                  ///< "6 AWG, 6.2 m"
    std::string near_fuse, far_fuse;  ///< at the end that is drawn first, and at the other
    bool body;                        ///< the return is the body

    /// Name and size in lines: however long the name, the size is there.
    [[nodiscard]] std::vector<std::string> lines(double ems) const {
        if (name.empty()) return in_lines(way, ems, 4);
        std::vector<std::string> one = in_lines(name + ": " + way, ems, 2);
        if (one.size() == 1) return one;
        std::vector<std::string> all = in_lines(name + ":", ems, 2);
        for (std::string& line : in_lines(way, ems, 4)) all.push_back(std::move(line));
        return all;
    }
};

/// No line ends between a figure and its unit.
std::string unbroken(std::string text) {
    for (std::size_t at = 0; (at = text.find(' ', at)) != std::string::npos;) text.replace(at, 1, "\u00a0");
    return text;
}

RunWords words_of(const RunPlan& run, std::string_view drawn_first) {
    const CableRun& cable = run.task.run;
    const Candidate* taken = run.taken();
    RunWords words{{}, {}, {}, {}, cable.body.has_value()};
    const auto figure = [](const std::string& text) { return unbroken(in_signs(text)); };
    words.way = run.to_lay() ? figure(show_cable(taken->size, cable.insulation)) : size_words(run);
    if (taken && cable.return_size)
        words.way += " out, " + figure(show_cable(*cable.return_size, cable.insulation)) + " back";
    words.way += ", " + figure(show(static_cast<const Length&>(cable.length)));
    if (*cable.name != run.task.to.name) words.name = *cable.name;
    if (run.task.assumed) words.way += " (assumed)";
    if (taken)
        for (const FuseFit& fuse : taken->fuses) {
            std::string& end = fuse.at.name == drawn_first ? words.near_fuse : words.far_fuse;
            end += (end.empty() ? "" : ", ") + unbroken(show(fuse.rating) + " " + fuse.family);
        }
    return words;
}

/// What stands in the box of a place: its name, and what it is.
std::vector<std::string> box_words(const System& system, std::string_view place) {
    const Profile& profile = system.complete;
    std::vector<std::string> words{place_in_words(place_named(place))};
    if (place == "battery") {
        const int count = *profile.battery.count;
        words.push_back((count > 1 ? std::to_string(count) + " × " : "") + show(profile.battery.capacity->value) + " " +
                        std::string(system.house.chemistry->chemistry));
    } else if (place == "charger") {
        words.push_back("gives " + show(profile.charger.output->value));
    } else if (place == "inverter" && profile.inverter) {
        words.push_back(show(profile.inverter->output->value));
    } else if (place == "panel" && profile.solar) {
        words.push_back(show(profile.solar->panel->value));
    }
    return words;
}

class Layout {
public:
    Layout(const Plan& plan, const System& system, Room room, std::string name)
        : plan_(plan),
          system_(system),
          name_(std::move(name)),
          across_(units_across(room)),
          box_(room == Room::page ? 170.0 : 116.0),
          used_(plan.runs.size(), false) {
        drawings_.emplace_back(name_, across_);
    }

    std::vector<Drawing> all() {
        const std::vector<std::size_t> out = path("charger", "battery");
        for (const std::size_t run : out) used_[run] = true;
        const std::size_t starter = tree("starter", 0);
        const std::size_t battery = tree("battery", 0);
        add_without_runs(battery);
        measure(std::max(depth(starter), depth(battery)));

        above_starter();
        const std::vector<Branch> from_starter = nodes_[starter].branches;
        const bool alone = from_starter.size() == 1 && nodes_[from_starter[0].node].place == "charger" &&
                           nodes_[from_starter[0].node].branches.empty();
        if (alone) {
            charger_bottom_ = across_row("starter", "charger", from_starter[0], Stroke::heavy);
        } else {
            alone_row("starter");
            branches(starter, upright);
        }
        battery_row(out);
        branches(battery, upright);
        for (std::size_t i = 0; i < used_.size(); ++i) {
            if (used_[i]) continue;
            const SystemRun& task = plan_.runs[i].task;
            make_room(90.0);
            across_row(task.from.name, task.to.name, {&plan_.runs[i], {}, 0}, Stroke::plain);
        }
        return std::move(drawings_);
    }

private:
    Drawing& now() { return drawings_.back(); }

    /// The runs that lead from one place to another, or none.
    std::vector<std::size_t> path(const std::string& from, const std::string& to) const {
        std::vector<std::size_t> way;
        std::string place = to;
        while (place != from && way.size() <= deepest) {
            const auto found = std::find_if(plan_.runs.begin(), plan_.runs.end(), [&](const RunPlan& run) {
                return run.task.to.name == place && run.task.from.name != "regulator";
            });
            if (found == plan_.runs.end()) return {};
            way.insert(way.begin(), static_cast<std::size_t>(found - plan_.runs.begin()));
            place = found->task.from.name;
        }
        return place == from ? way : std::vector<std::size_t>{};
    }

    /// Everything that hangs from a place; what leads to the charger stands last, beside the line that goes on from it.
    std::size_t tree(const std::string& place, std::size_t level) {
        const std::size_t node = nodes_.size();
        nodes_.push_back({place, {}});
        if (level >= deepest || place == "charger") return node;
        std::vector<Branch> found;
        for (std::size_t i = 0; i < used_.size(); ++i) {
            const SystemRun& task = plan_.runs[i].task;
            if (used_[i] || (task.from.name != place && task.to.name != place)) continue;
            used_[i] = true;
            found.push_back({&plan_.runs[i], {}, 0});
        }
        for (Branch& branch : found) {
            const SystemRun& task = branch.run->task;
            branch.node = tree(task.from.name == place ? task.to.name : task.from.name, level + 1);
        }
        std::stable_partition(found.begin(), found.end(),
                              [&](const Branch& branch) { return !leads_to_charger(branch.node); });
        nodes_[node].branches = std::move(found);
        return node;
    }

    [[nodiscard]] bool leads_to_charger(std::size_t node) const {
        return nodes_[node].place == "charger" ||
               std::any_of(nodes_[node].branches.begin(), nodes_[node].branches.end(),
                           [&](const Branch& branch) { return leads_to_charger(branch.node); });
    }

    /// What has no run of its own: loads at the battery or behind the inverter, and a panel's regulator.
    void add_without_runs(std::size_t battery) {
        const auto add = [&](std::size_t to, const std::string& name, const std::string& note) {
            nodes_.push_back({name, {}});
            nodes_[to].branches.push_back({nullptr, note, nodes_.size() - 1});
        };
        for (const std::string& load : system_.unfed) add(battery, load, "no run is given");
        const auto from_regulator = [](const RunPlan& run) {
            return run.task.from.name == "regulator" && run.task.to.name == "battery";
        };
        if (system_.complete.solar && std::none_of(plan_.runs.begin(), plan_.runs.end(), from_regulator))
            add(battery, "regulator", "not sized: it wants a fuse here");
        const auto inverter =
            std::find_if(nodes_.begin(), nodes_.end(), [](const Node& node) { return node.place == "inverter"; });
        if (inverter == nodes_.end()) return;
        const auto at = static_cast<std::size_t>(inverter - nodes_.begin());
        for (const LoadKeys& load : system_.complete.loads)
            if (load.through == "inverter") add(at, *load.name, "mains, from the inverter");
    }

    [[nodiscard]] std::size_t depth(std::size_t node) const {
        std::size_t most = 0;
        for (const Branch& branch : nodes_[node].branches)
            if (!nodes_[branch.node].branches.empty()) most = std::max(most, 1 + depth(branch.node));
        return most;
    }

    /// Steps become smaller where there are so many that the words would have no room.
    void measure(std::size_t levels) {
        const double room = across_ - upright - 2.0 * box_ - 30.0;
        step_ = levels == 0 ? usual_step : std::min(usual_step, std::max(room, 8.0) / static_cast<double>(levels));
    }

    /// Begins a new drawing where a row would make this one too tall.
    void make_room(double height) {
        if (y_ + height <= tallest || y_ < 60.0) return;
        drawings_.emplace_back(
            name_ + std::string(1, static_cast<char>('a' + drawings_.size() % 26)) + std::to_string(drawings_.size()),
            across_);
        y_ = 4.0;
        charger_bottom_ = 0.0;
        now().text({0.0, y_ + 12.0}, "continued");
        y_ += 22.0;
        for (const double x : open_) now().line({x, y_ - 4.0}, {x, y_}, Stroke::plain);
    }

    struct Box {
        std::vector<std::string> names, more;
        double height;
    };
    [[nodiscard]] Box box_of(const std::string& place) const {
        const std::vector<std::string> words = box_words(system_, place);
        Box box{in_lines(words[0], (box_ - 12.0) / em, name_lines, true), {}, 0.0};
        for (std::size_t i = 1; i < words.size(); ++i)
            for (std::string& line : in_lines(words[i], (box_ - 12.0) / em, 2)) box.more.push_back(std::move(line));
        box.height = static_cast<double>(std::max<std::size_t>(box.names.size() + box.more.size(), 1)) * leading + 12.0;
        return box;
    }

    void draw(const Box& box, Point corner, Stroke stroke, bool round = false) {
        const std::string id = now().frame(corner, box_, box.height, stroke, round ? 8.0 : 0.0);
        double base = corner.y + 6.0 + 12.5;
        for (const std::string& line : box.names) {
            now().text({corner.x + box_ / 2.0, base}, line, Anchor::middle, true, id);
            base += leading;
        }
        for (const std::string& line : box.more) {
            now().text({corner.x + box_ / 2.0, base}, line, Anchor::middle, false, id);
            base += leading;
        }
    }

    static Stroke stroke_of(std::string_view place) {
        return place == "starter" || place == "battery" ? Stroke::heavy : Stroke::plain;
    }
    [[nodiscard]] bool is_load(std::string_view place) const {
        const auto named = [&](const auto& list) {
            return std::any_of(list.begin(), list.end(), [&](const auto& one) { return one.name == place; });
        };
        return named(system_.complete.loads) || named(system_.complete.fridges);
    }

    void above_starter() {
        Box box{{"alternator"}, {}, leading + 12.0};
        draw(box, {0.0, 2.0}, Stroke::plain, true);
        now().line({box_ / 2.0, 2.0 + box.height}, {box_ / 2.0, 2.0 + box.height + 18.0}, Stroke::plain);
        const double room = across_ - box_ - gap;
        double base = 18.0;
        for (const std::string& line : in_lines("the vehicle's own cable", room / em, 2)) {
            now().text({box_ + gap, base}, line);
            base += leading;
        }
        y_ = 2.0 + box.height + 18.0;
    }

    void alone_row(const std::string& place) {
        const Box box = box_of(place);
        draw(box, {0.0, y_}, stroke_of(place));
        y_ += box.height;
    }

    /// The words along a horizontal line: those above end above it, those below begin below it.
    struct Along {
        std::vector<std::string> above, below_near, below_far, body;
        bool near_fuse = false, far_fuse = false;
    };
    static Along along(const Branch& branch, std::string_view drawn_first, double room) {
        Along words;
        if (!branch.run) {
            words.above = in_lines(branch.note, room / em, 3);
            return words;
        }
        const RunWords run = words_of(*branch.run, drawn_first);
        words.above = run.lines(room / em);
        words.below_near = in_lines(run.near_fuse, room / em, 2);
        words.below_far = in_lines(run.far_fuse, room / em, 2);
        words.near_fuse = !run.near_fuse.empty();
        words.far_fuse = !run.far_fuse.empty();
        if (run.body) words.body = in_lines(by_the_body, (room - beside_earth) / em, 3);
        return words;
    }
    static double above(const Along& words) { return static_cast<double>(words.above.size()) * leading + 11.0; }
    static double below(const Along& words) {
        return static_cast<double>(words.below_near.size() + words.below_far.size() + words.body.size()) * leading +
               8.0;
    }
    void draw(const Along& words, double left, double right, double y, bool dashed) {
        now().line({left, y}, {right, y}, dashed ? Stroke::dashed : Stroke::plain);
        double base = y - 10.0 - static_cast<double>(words.above.size() - 1) * leading;
        for (const std::string& line : words.above) {
            now().text({left + gap, base}, line);
            base += leading;
        }
        if (words.near_fuse) now().fuse({left + gap + 12.0, y});
        if (words.far_fuse) now().fuse({right - gap - 12.0, y});
        base = y + 18.0;
        for (const std::string& line : words.below_near) {
            now().text({left + gap, base}, line);
            base += leading;
        }
        for (const std::string& line : words.below_far) {
            now().text({right - gap, base}, line, Anchor::end);
            base += leading;
        }
        if (!words.body.empty()) now().earth({left + gap + 8.0, base - 11.0});
        for (const std::string& line : words.body) {
            now().text({left + gap + beside_earth, base}, line);
            base += leading;
        }
    }

    /// [ from ]--------[ to ], and how far down the box at the right comes.
    double across_row(const std::string& from, const std::string& to, const Branch& branch, Stroke stroke) {
        const Box left = box_of(from), right = box_of(to);
        const double room = across_ - 2.0 * box_ - 2.0 * gap;
        const Along words = along(branch, from, room);
        const double up = std::max({above(words), left.height / 2.0, right.height / 2.0});
        const double middle = y_ + up;
        draw(left, {0.0, middle - left.height / 2.0}, stroke);
        draw(right, {across_ - box_, middle - right.height / 2.0}, stroke_of(to));
        if (y_ < middle - left.height / 2.0 && from == "starter")
            now().line({box_ / 2.0, y_}, {box_ / 2.0, middle - left.height / 2.0}, Stroke::plain);
        draw(words, box_, across_ - box_, middle, !branch.run);
        const double bottom = middle + right.height / 2.0;
        y_ = middle + std::max({below(words), left.height / 2.0, right.height / 2.0}) + 10.0;
        return bottom;
    }

    /// The house battery at the left; the line that comes down from the charger goes back to it.
    void battery_row(const std::vector<std::size_t>& out) {
        const Box box = box_of("battery");
        const double turn = across_ - box_ / 2.0, left = box_;
        const double room = turn - left - 2.0 * gap;
        Along words;
        for (auto run = out.rbegin(); run != out.rend(); ++run) {
            const Along more = along({&plan_.runs[*run], {}, 0}, "battery", room);
            words.above.insert(words.above.end(), more.above.begin(), more.above.end());
            words.below_near.insert(words.below_near.end(), more.below_near.begin(), more.below_near.end());
            words.below_far.insert(words.below_far.end(), more.below_far.begin(), more.below_far.end());
            words.near_fuse = words.near_fuse || more.near_fuse;
            words.far_fuse = words.far_fuse || more.far_fuse;
            words.body.insert(words.body.end(), more.body.begin(), more.body.end());
        }
        const double up = std::max(above(words), box.height / 2.0);
        if (y_ + up + box.height > tallest) make_room(tallest);
        const double middle = y_ + up;
        draw(box, {0.0, middle - box.height / 2.0}, Stroke::heavy);
        if (!out.empty()) {
            draw(words, left, turn, middle, false);
            now().line({turn, charger_bottom_ > 0.0 && charger_bottom_ < middle ? charger_bottom_ : y_}, {turn, middle},
                       Stroke::plain);
        }
        y_ = middle + box.height / 2.0;
        below_battery_ = middle + below(words);
    }

    void branches(std::size_t node, double x) {
        const std::vector<Branch> list = nodes_[node].branches;
        open_.push_back(x);
        for (std::size_t i = 0; i < list.size(); ++i) {
            const bool last = i + 1 == list.size();
            if (nodes_[list[i].node].branches.empty())
                leaf(node, list[i], x, last);
            else
                trunk(node, list[i], x, last);
        }
        if (list.empty()) open_.pop_back();
    }

    /// The upright lines that pass a row by.
    void pass_by(double from, double to) {
        for (std::size_t i = 0; i + 1 < open_.size(); ++i) now().line({open_[i], from}, {open_[i], to}, Stroke::plain);
    }

    void leaf(std::size_t parent, const Branch& branch, double x, bool last) {
        const std::string& place = nodes_[branch.node].place;
        const Box box = box_of(place);
        const double right = across_ - box_;
        const Along words = along(branch, nodes_[parent].place, right - x - 2.0 * gap);
        const double up = std::max(above(words), box.height / 2.0) + 6.0;
        const double down = std::max(below(words), box.height / 2.0) + 4.0;
        if (below_battery_ > y_) {  // words below the line to the battery stand to the right of its box
            now().line({x, y_}, {x, std::max(y_, below_battery_ - 6.0)}, Stroke::plain);
            y_ = std::max(y_, below_battery_ - 6.0);
        }
        below_battery_ = 0.0;
        make_room(up + down);
        const double middle = y_ + up, bottom = middle + down;
        pass_by(y_, bottom);
        now().line({x, y_}, {x, last ? middle : bottom}, Stroke::plain);
        draw(words, x, right, middle, !branch.run);
        draw(box, {right, middle - box.height / 2.0}, stroke_of(place), is_load(place));
        if (place == "charger") charger_bottom_ = middle + box.height / 2.0;
        y_ = bottom;
        if (last) open_.pop_back();
    }

    /// A place from which other runs go on: its words stand to the right of its box.
    void trunk(std::size_t parent, const Branch& branch, double x, bool last) {
        const std::string& place = nodes_[branch.node].place;
        const Box box = box_of(place);
        const bool room_for_fuse = step_ > 40.0;
        const double left = x + std::max(step_ - 14.0, 1.0), words_at = left + box_ + gap;
        const double room = across_ - words_at;
        std::vector<std::string> lines;
        bool body = false;
        std::string fuse;
        if (branch.run) {
            const RunWords words = words_of(*branch.run, nodes_[parent].place);
            lines = words.lines(room / em);
            fuse = words.near_fuse + (words.near_fuse.empty() || words.far_fuse.empty() ? "" : ", ") + words.far_fuse;
            for (std::string& line : in_lines(fuse, room / em, 2)) lines.push_back(std::move(line));
            body = words.body;
        } else {
            lines = in_lines(branch.note, room / em, 4);
        }
        const double tall = static_cast<double>(lines.size() + (body ? 1u : 0u)) * leading;
        const double row = std::max(box.height, tall) + 12.0;
        if (below_battery_ > y_) {
            now().line({x, y_}, {x, std::max(y_, below_battery_ - 6.0)}, Stroke::plain);
            y_ = std::max(y_, below_battery_ - 6.0);
        }
        below_battery_ = 0.0;
        make_room(row + 8.0);
        const double top = y_ + 10.0, middle = top + box.height / 2.0, bottom = y_ + row;
        pass_by(y_, bottom);
        now().line({x, y_}, {x, last ? middle : bottom}, Stroke::plain);
        now().line({x, middle}, {left, middle}, branch.run ? Stroke::plain : Stroke::dashed);
        if (room_for_fuse && !fuse.empty()) now().fuse({(x + left) / 2.0, middle});
        draw(box, {left, top}, stroke_of(place));
        double base = top + 12.0;
        for (const std::string& line : lines) {
            now().text({words_at, base}, line);
            base += leading;
        }
        if (body) {
            now().earth({words_at + 8.0, base - 11.0});
            now().text({words_at + beside_earth, base}, by_the_body);
        }
        const double from = top + box.height;
        const double inner = left + 14.0;
        if (bottom > from) now().line({inner, from}, {inner, bottom}, Stroke::plain);
        y_ = bottom;
        if (last) open_.pop_back();
        branches(branch.node, inner);
    }

    const Plan& plan_;
    const System& system_;
    std::string name_;
    double across_, box_;
    double step_ = usual_step;
    double y_ = 0.0;
    double charger_bottom_ = 0.0;
    double below_battery_ = 0.0;
    std::vector<bool> used_;
    std::vector<Node> nodes_;
    std::vector<double> open_;  ///< where upright lines go on downwards
    std::vector<Drawing> drawings_;
};

}  // namespace

double units_across(Room room) { return room == Room::page ? 760.0 : 340.0; }

std::vector<Drawing> wiring_diagram(const Plan& plan, const System& system, Room room, const std::string& name) {
    return Layout(plan, system, room, name).all();
}

std::string wiring_in_words(const Plan& plan) {
    std::string text = "The alternator charges the starter battery.";
    for (const RunPlan& run : plan.runs) {
        const RunWords words = words_of(run, run.task.from.name);
        text += " From " + cut(place_in_words(run.task.from), 60) + " to " + cut(place_in_words(run.task.to), 60) +
                ": " + words.way;
        if (run.taken())
            for (const FuseFit& fuse : run.taken()->fuses) text += ", " + show(fuse);
        if (words.body) text += ", back by the body";
        text += ".";
    }
    return text;
}

}  // namespace voltwright
