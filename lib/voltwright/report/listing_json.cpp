#include "voltwright/report/listing_json.hpp"

#include <nlohmann/json.hpp>

#include <array>
#include <cstdio>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

struct AsJson {
    Json operator()(const Entry::List& list) const {
        Json json = Json::array();
        for (const Entry& element : list) json.push_back(std::visit(*this, element.content));
        return json;
    }
    Json operator()(const Entry::Section& section) const {
        Json json = Json::object();
        for (const auto& [name, value] : section) json[name] = std::visit(*this, value.content);
        return json;
    }
    Json operator()(const CalendarDate& date) const {
        std::array<char, 40> text{};
        std::snprintf(text.data(), text.size(), "%04d-%02d-%02d", date.year, date.month, date.day);
        return text.data();
    }
    template <class T>
    Json operator()(const T& plain) const {
        return plain;
    }
};

}  // namespace

std::string list_profile_json(const Entry& completed, const std::vector<std::string>& defaulted) {
    const Json json = {{"profile", std::visit(AsJson(), completed.content)}, {"defaulted", defaulted}};
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace voltwright
