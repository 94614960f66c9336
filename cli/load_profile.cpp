#include "cli/load_profile.hpp"

#include "voltwright/report/diagnostics.hpp"

#include <utility>

#include <unistd.h>

namespace voltwright::cli {

int refuse(const Call& call, const Diagnostics& diagnostics) {
    const std::string text = show(diagnostics, call.error_style);
    for (std::string_view rest = text; !rest.empty();) {
        const ssize_t written = ::write(STDERR_FILENO, rest.data(), rest.size());
        if (written <= 0) break;
        rest.remove_prefix(static_cast<std::size_t>(written));
    }
    return unusable;
}

std::optional<Document> open_document(const Call& call, const std::string& path) {
    auto read = read_document(path);
    if (read) return *std::move(read);
    refuse(call, read.wrong());
    return {};
}

std::optional<OpenProfile> open_profile(const Call& call) {
    auto document = open_document(call, call.text("PROFILE"));
    if (!document) return {};
    return open_profile(call, *std::move(document), call.all("--set"));
}

std::optional<OpenProfile> open_profile(const Call& call, Document document, std::span<const std::string> sets) {
    auto loaded = load_system(std::move(document), sets);
    if (loaded) return *std::move(loaded);
    refuse(call, loaded.wrong());
    return {};
}

}  // namespace voltwright::cli
