#include "testing.hpp"

#include "voltwright/files/document.hpp"
#include "voltwright/files/standing_file.hpp"

#include <filesystem>
#include <fstream>
#include <string>

#include <unistd.h>

/// What stands where an answer is to be written, and whose it is.

namespace voltwright {

namespace {

namespace fs = std::filesystem;

/// A folder of its own, gone afterwards.
struct Folder {
    Folder() : path(fs::temp_directory_path() / ("voltwright-standing-" + std::to_string(::getpid()))) {
        fs::create_directories(path);
    }
    ~Folder() { fs::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    [[nodiscard]] std::string file(const std::string& name, const std::string& text) const {
        std::ofstream(path / name) << text;
        return path / name;
    }

    fs::path path;
};

}  // namespace

TEST_CASE("words of others are lost by other words alone") {
    const Folder folder;
    const std::string letter = folder.file("letter", "Dear reader");
    CHECK(holds_other_words(letter, "A page"));
    CHECK(holds_other_words(letter, "Dear"));
    CHECK(holds_other_words(letter, "Dear reader,"));
    CHECK_FALSE(holds_other_words(letter, "Dear reader"));
    CHECK_FALSE(holds_other_words(folder.file("empty", ""), "A page"));
    CHECK_FALSE(holds_other_words(folder.path / "nothing", "A page"));
    CHECK_FALSE(holds_other_words("/dev/null", "A page"));
    CHECK_FALSE(holds_other_words(folder.path, "A page"));
}

TEST_CASE("what was written whole may be written over until somebody changes it") {
    const Folder folder;
    const std::string page = folder.path / "page";
    REQUIRE_FALSE(write_whole(page, "one"));
    if (!stands_as_written(page)) {
        MESSAGE("this file system keeps no attributes");
        return;
    }
    CHECK_FALSE(holds_other_words(page, "two"));
    std::ofstream(page, std::ios::app) << " and more";
    CHECK(holds_other_words(page, "two"));
}

TEST_CASE("a file is known under each of its names, a device under none") {
    const Folder folder;
    const std::string profile = folder.file("profile", "days = 3"), other = folder.file("other", "days = 3");
    fs::create_hard_link(profile, folder.path / "second name");
    fs::create_symlink(profile, folder.path / "link");
    CHECK(leads_to_what_is_read(profile, profile));
    CHECK(leads_to_what_is_read(folder.path / "second name", profile));
    CHECK(leads_to_what_is_read(folder.path / "link", profile));
    CHECK_FALSE(leads_to_what_is_read(other, profile));
    CHECK_FALSE(leads_to_what_is_read(folder.path / "nothing", profile));
    CHECK_FALSE(leads_to_what_is_read("/dev/null", "/dev/null"));
}

TEST_CASE("of a file the beginning is read, or all of it") {
    const Folder folder;
    const std::string letter = folder.file("letter", "Dear reader");
    CHECK(beginning_of(letter, 4) == "Dear");
    CHECK(beginning_of(letter, 100) == "Dear reader");
    CHECK(beginning_of(folder.path / "nothing", 4).empty());
}

}  // namespace voltwright
