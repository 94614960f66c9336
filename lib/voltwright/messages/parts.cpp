#include "voltwright/messages/parts.hpp"

#include "voltwright/messages/arguments.hpp"
#include "voltwright/shopping/articles.hpp"
#include "voltwright/shopping/lugs.hpp"
#include "voltwright/units/show.hpp"

namespace voltwright {

namespace {

std::string links_of(int batteries) {
    return "the links and fuses between the " + std::to_string(batteries) + " batteries of the bank";
}

std::string owned_cable(const PartsNote& note) {
    const std::string back = note.back ? " and " + show_cable(*note.back, *note.insulation) + " back" : "";
    return note.run + ": its cable, " + show_cable(*note.size, *note.insulation) + back;
}

}  // namespace

std::string in_words(const Part& part) {
    std::string words;
    if (part.kind == PartKind::fuse && part.rating) words += show(*part.rating) + " ";
    words += part.what;
    if (part.size) words += " " + (part.insulation ? show_cable(*part.size, *part.insulation) : show(*part.size));
    if (!part.colour.empty()) words += ", " + part.colour;
    if (part.at_least) words += ", at least " + show(*part.at_least);
    if (part.stud) words += ", hole for " + show(*part.stud);
    if (wants_stud(part)) words += ", for your stud";
    if (!part.bore) return words;
    switch (part.kind) {
        case PartKind::heat_shrink: return words + ", " + show(*part.bore) + " before shrinking";
        case PartKind::conduit: return words + ", " + show(*part.bore) + " inside";
        case PartKind::grommet:
        case PartKind::clip: return words + " for " + show(*part.bore) + " outside";
        default: return words;
    }
}

std::string_view heading_of(PartKind kind) {
    switch (kind) {
        case PartKind::cable: return "Cable";
        case PartKind::lug: return "Lugs";
        case PartKind::battery_clamp: return "Battery clamps";
        case PartKind::plug: return "Plugs, by the half";
        case PartKind::part: return "Other parts";
        case PartKind::fuse: return "Fuses";
        case PartKind::fuse_holder: return "Fuse holders";
        case PartKind::fuse_block: return "Fuse blocks";
        case PartKind::conduit: return "Tube";
        case PartKind::grommet: return "Grommets";
        case PartKind::heat_shrink: return "Heat-shrink";
        case PartKind::clip: return "Clips";
        case PartKind::label: return "Labels";
    }
    return {};
}

std::string sold_in_words(const Part& part) {
    if (part.roll) return "roll of " + show(*part.roll);
    return part.pack ? "pack of " + std::to_string(*part.pack) : "";
}

std::string in_words(const PartsNote& note) {
    switch (note.code) {
        case PartsNoteCode::plan_does_not_hold: return "the plan: it does not hold, and voltwright plan says why";
        case PartsNoteCode::fuses_on_post:
            return "the plus of the " + place_in_words(*note.place) + ": " + std::to_string(note.count) +
                   " fuses sit on it, and a post takes one or two; put a short bus bar there, or holders for two";
        case PartsNoteCode::stud_not_named:
            return "the studs of the " + place_in_words(*note.place) +
                   ": the profile does not name them (stud = \"M8\")";
        case PartsNoteCode::shrink_not_known:
            return "heat-shrink for the lugs of " + show(*note.size) + ": measure the cable";
        case PartsNoteCode::outside_not_known:
            return "tube, clips and grommets of the run " + note.run + ": the outside of " + show(*note.size) +
                   " is not known, measure it";
        case PartsNoteCode::no_tube_wide_enough:
            return "tube, clips and grommets of the run " + note.run + ": no tube is wide enough";
        case PartsNoteCode::leads_too_thin:
            return "the in-line holder's leads are thinner than the cable of the run " + note.run +
                   ": take a bolted holder or a reducing splice";
        case PartsNoteCode::block_partly_there:
            return note.place->name +
                   ": some of its fuses are there already; buy no fuse block if the one they sit in has " +
                   std::to_string(note.count) + " ways";
        case PartsNoteCode::fittings_of_the_owned:
            return "lugs, tube and clips of cables that are there already: leave out what is fitted";
        case PartsNoteCode::owned_cable: return owned_cable(note);
        case PartsNoteCode::owned_fuse:
            return note.run + ": its " + show(*note.current) + " " + article::fuse(note.family) + " at the " +
                   place_in_words(*note.place);
        case PartsNoteCode::no_size_passes:
            return "everything of the run " + note.run + ": no size passes" +
                   (note.size ? "; " + show(*note.size) + " comes nearest" : "");
        case PartsNoteCode::joints_as_resistances:
            return "joints of the run " + note.run + " that the profile gives as resistances";
        case PartsNoteCode::wake_wire_not_known:
            return "the charger's wake wire: its way or a size for it is not known";
        case PartsNoteCode::wake_wire_terminals: return "terminals of the wake wire: the charger's manual names them";
        case PartsNoteCode::bank_not_known: return links_of(note.count);
        case PartsNoteCode::bank_no_size_passes:
            return links_of(note.count) + ": no size passes for " + show(*note.current);
        case PartsNoteCode::splices_of_holders:
            return "splices that join the leads of in-line fuse holders to the cable: one or two for each holder";
        case PartsNoteCode::tools: return "tools, screws, tape and cable ties";
        case PartsNoteCode::battery_tray: return "the battery's tray and straps";
        case PartsNoteCode::appliances: return "charger, batteries and appliances themselves";
        case PartsNoteCode::terminals_of_appliances: return "plugs and terminals that appliances bring";
    }
    return {};
}

std::vector<std::string> in_words(const std::vector<PartsNote>& notes) {
    std::vector<std::string> words;
    words.reserve(notes.size());
    for (const PartsNote& note : notes) words.push_back(in_words(note));
    return words;
}

namespace {

/// "GXL", or "BC-5W2 (75 degC where it gets wet)".
std::string mark_in_words(const InsulationMarkRow& row, Temperature insulation) {
    std::string words(row.mark);
    if (row.wet && *row.wet < insulation) words += " (" + show(*row.wet) + " where it gets wet)";
    if (row.prints && *row.prints >= insulation)
        words += " (prints " + show(*row.prints) + ", bears " + show(row.lasts) + " for long)";
    return words;
}

}  // namespace

std::vector<std::string> marks_in_words(Temperature insulation, const Tables& tables) {
    std::string good, bad;
    for (const InsulationMarkRow& row : tables.insulation_marks) {
        if (row.lasts >= insulation && !row.vehicle) continue;  // it does, and was not made for this
        std::string& list = row.lasts >= insulation ? good : bad;
        list += (list.empty() ? "" : ", ") + mark_in_words(row, insulation);
    }
    std::vector<std::string> lines = {"cable: \"" + show(insulation) + "\" or more in its print" +
                                      (good.empty() ? "" : ", or one of the marks " + good)};
    if (!bad.empty()) lines.push_back("no cable for that: " + bad);
    return lines;
}

std::vector<std::string> unpriced_in_words(const PartsList& list) {
    std::vector<std::string> words;
    words.reserve(list.unpriced.size());
    for (const std::size_t i : list.unpriced) words.push_back(in_words(list.parts[i]));
    return words;
}

}  // namespace voltwright
