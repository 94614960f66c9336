#include "testing.hpp"

#include "voltwright/files/document.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace voltwright {

namespace {

Document sound(std::string text) {
    auto read = read_document_text("camp.toml", std::move(text));
    if (const auto* diagnostics = std::get_if<Diagnostics>(&read)) {
        const std::string what = diagnostics->front().what;
        FAIL(what);
    }
    return std::get<Document>(std::move(read));
}

Diagnostics refused(std::string text) {
    auto read = read_document_text("camp.toml", std::move(text));
    REQUIRE(std::holds_alternative<Diagnostics>(read));
    return std::get<Diagnostics>(std::move(read));
}

/// A folder that is gone when the test ends.
struct Folder {
    std::filesystem::path path;
    Folder() {
        std::string name = (std::filesystem::temp_directory_path() / "voltwright-test-XXXXXX").string();
        path = ::mkdtemp(name.data());
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() { std::filesystem::remove_all(path); }
    [[nodiscard]] std::string file(const std::string& name, std::string_view text) const {
        std::ofstream(path / name, std::ios::binary) << text;
        return (path / name).string();
    }
};

std::string what_is_wrong_with(const std::string& path) {
    const auto read = read_document(path);
    const auto* diagnostics = std::get_if<Diagnostics>(&read);
    if (!diagnostics) return "nothing";
    CHECK(diagnostics->size() == 1);
    CHECK(diagnostics->front().place.line == 0);
    return diagnostics->front().what;
}

}  // namespace

TEST_CASE("a document is a tree in the order of its file, each value with its place") {
    const Document document = sound(
        "title = \"camp\"\n[trip]\nlow = \"14 °C\"\ndays = 3\n[[run]]\nto = \"charger\"\n[[run]]\n"
        "  fuse = { starter = \"50 A SF30\", b = true }\n[battery]\nhealth = 0.5\n");
    const Entry::Section& top = *document.root.section();
    REQUIRE(top.size() == 4);
    CHECK(top[0].first == "title");
    CHECK(top[1].first == "trip");
    CHECK(top[2].first == "run");
    CHECK(top[3].first == "battery");
    const Entry& trip = top[1].second;
    CHECK(trip.place.line == 2);
    CHECK(trip.place.column == 1);
    CHECK(trip.place.length == 6);
    CHECK(trip.section()->at(0).first == "low");
    const Entry& low = trip.section()->at(0).second;
    CHECK(*low.text() == "14 °C");
    CHECK(low.place.line == 3);
    CHECK(low.place.column == 7);
    CHECK(low.place.length == 7);  // characters, not bytes
    CHECK(low.key_place.column == 1);
    CHECK(low.key_place.length == 3);
    CHECK(std::get<std::int64_t>(trip.section()->at(1).second.content) == 3);
    const Entry::List& runs = *top[2].second.list();
    REQUIRE(runs.size() == 2);
    CHECK(runs[0].place.line == 5);
    CHECK(runs[1].place.line == 7);
    const Entry& fuse = runs[1].section()->at(0).second;
    CHECK(fuse.key_place.column == 3);
    CHECK(fuse.section()->at(0).first == "starter");
    CHECK(std::get<bool>(fuse.section()->at(1).second.content));
    CHECK(std::get<double>(top[3].second.section()->at(0).second.content) == 0.5);
}

TEST_CASE("a date is a date; a time, or a date with one, is asked for as text") {
    const Document document = sound("start = 2026-09-14");
    CHECK(std::get<CalendarDate>(document.root.section()->at(0).second.content) == CalendarDate{2026, 9, 14});
    const Diagnostics wrong = refused("start = 2026-09-14T08:30:00\nat = 08:30:00\n");
    REQUIRE(wrong.size() == 2);
    CHECK(wrong[0].place.line == 1);
    CHECK(wrong[0].what == "a date stands without a time of day");
    CHECK(wrong[1].place.line == 2);
    CHECK(wrong[1].what == "a time of day is written in quotes, as hours and minutes");
}

TEST_CASE("a byte-order mark and line ends of two bytes change no column") {
    const Document document = sound(
        "\xef\xbb\xbf"
        "title = \"camp\"\r\n[trip]\r\ndays = 3\r\n");
    CHECK(document.root.section()->at(0).second.place.column == 9);
    CHECK(document.root.section()->at(1).second.place.line == 2);
    const Diagnostics wrong = refused(
        "\xef\xbb\xbf"
        "title = \"camp\"\r\nlength = 6 m\r\n");
    CHECK(wrong[0].line == "length = 6 m");
    CHECK(wrong[0].place.column == 10);
}

TEST_CASE("an empty file is an empty profile") {
    CHECK(sound("").root.section()->empty());
    CHECK(sound("\n\n# nothing\n").root.section()->empty());
}

TEST_CASE("what is no profile's text is refused with its place") {
    struct Case {
        std::string text;
        int line, column;
        std::string what;
    };
    const Case cases[] = {
        {std::string("a = 1\nb = \"x\0y\"", 15), 2, 7, "this is no text file: it has a byte of value 0"},
        {"a = 1\nb = \"\xe9\"", 2, 6, "this is not UTF-8 text"},
        {"a = \"\xed\xa0\x80\"", 1, 6, "this is not UTF-8 text"},  // a surrogate
        {"a = \"\xc0\xaf\"", 1, 6, "this is not UTF-8 text"},      // overlong
        {std::string("\xff\xfe") + "a", 0, 0, "this is UTF-16 text"},
        {"a = \"" + std::string(4000, 'x') + "\"", 1, 1, "this line has more than 4000 bytes"},
        {std::string(1024 * 1024 + 1, '\n'), 0, 0, "this is more than 1 MiB; a profile is a page of text"},
    };
    for (const Case& one : cases) {
        CAPTURE(one.what);
        const Diagnostics wrong = refused(one.text);
        REQUIRE(wrong.size() == 1);
        CHECK(wrong[0].what == one.what);
        CHECK(wrong[0].place.line == one.line);
        CHECK(wrong[0].place.column == one.column);
    }
}

// toml++ 3.3 asserts on these in a build without NDEBUG.
TEST_CASE("a lone bracket is one clear error") {
    for (const char* text : {"[", "[[", "[[[a]]]", "[.a]", "[=]", "x = 1\n[\n"}) {
        CAPTURE(text);
        const Diagnostics wrong = refused(text);
        REQUIRE(wrong.size() == 1);
        CHECK(wrong[0].what.find("this is not TOML: ") == 0);
        CHECK(wrong[0].place.line >= 1);
    }
}

// toml++ 3.3 is undefined on a character beyond ASCII outside quotes, and after a backslash, even where TOML allows one.
TEST_CASE("a character beyond ASCII where the reader would not survive it is refused before") {
    for (const std::string text :
         {"a = \"\"\"x\\\n ° \"\"\"", "a = \"\\°\"", "a = \"\"\"\\°", "°", "a = \"x\" °", "[°]", "a°"}) {
        CAPTURE(text);
        const Diagnostics wrong = refused(text);
        REQUIRE(wrong.size() == 1);
        CHECK(wrong[0].place.line >= 1);
        CHECK(wrong[0].what.find("this is not TOML") == std::string::npos);
    }
}

TEST_CASE("a syntax error stands where it is, and a key given twice too") {
    const Diagnostics twice = refused("[trip]\ndays = 3\ndays = 4\n");
    CHECK(twice[0].place.line == 3);
    CHECK(twice[0].line == "days = 4");
    const Diagnostics open = refused("a = 1\nb = \"camp\nc = 2\n");
    CHECK(open[0].place.line == 2);
}

TEST_CASE("a file that cannot be read is one line of words") {
    const Folder folder;
    CHECK(what_is_wrong_with((folder.path / "none.toml").string()) == "there is no such file");
    CHECK(what_is_wrong_with("") == "there is no such file");
    CHECK(what_is_wrong_with(folder.path.string()) == "this is a directory; a profile is a text file");
    CHECK(what_is_wrong_with("/dev/null") == "this is no plain file");
    CHECK(what_is_wrong_with("/dev/zero") == "this is no plain file");
    const std::string pipe = (folder.path / "pipe").string();
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    CHECK(what_is_wrong_with(pipe) == "this is no plain file");  // and nobody waits for a writer
    const std::string huge = folder.file("huge.toml", "");
    std::filesystem::resize_file(huge, std::uintmax_t{2} << 30);
    CHECK(what_is_wrong_with(huge) == "this is more than 1 MiB; a profile is a page of text");
    CHECK(what_is_wrong_with(folder.file("camp.toml", "title = \"camp\"\n")) == "nothing");
}

TEST_CASE("an endless standard input is read no further than 1 MiB") {
    const int kept = ::dup(STDIN_FILENO);
    const int endless = ::open("/dev/zero", O_RDONLY);
    REQUIRE(endless >= 0);
    ::dup2(endless, STDIN_FILENO);
    const auto read = read_document("-");
    ::dup2(kept, STDIN_FILENO);
    ::close(kept);
    ::close(endless);
    REQUIRE(std::holds_alternative<Diagnostics>(read));
    CHECK(std::get<Diagnostics>(read)[0].file == "standard input");
    CHECK(std::get<Diagnostics>(read)[0].what == "this is more than 1 MiB; a profile is a page of text");
}

TEST_CASE("a value of --set is TOML where it is that, and else the text as it stands") {
    CHECK(std::get<std::int64_t>(read_override_value("12").content) == 12);
    CHECK(std::get<bool>(read_override_value("true").content));
    CHECK(std::get<CalendarDate>(read_override_value("2026-09-14").content) == CalendarDate{2026, 9, 14});
    CHECK(*read_override_value("\"6 m\"").text() == "6 m");
    CHECK(read_override_value("[\"a\", \"b\"]").list()->size() == 2);
    CHECK(*read_override_value("{ around = \"25 degC\" }").section()->at(0).second.text() == "25 degC");
    CHECK(read_override_value("[\"a\"]").list()->at(0).place.line == 0);
    for (const std::string text : {"9 m", "31 ± 3 degC", "", " ", "agm", "08:30-10:00", "08:30:00", "1\nb = 2",
                                   "1 # one", "\"a", "[1, 2", "\"a\" b", "6 m\"", "2-4", "\xff"}) {
        CAPTURE(text);
        REQUIRE(read_override_value(text).text());
        CHECK(*read_override_value(text).text() == text);
    }
}

TEST_CASE("faults stand at their place, in the order of the file, and what the file lacks comes after") {
    const Document document = sound("[trip]\ndays = 0\n[[run]]\nto = \"charger\"\nlenght = \"6 m\"\n");
    const Diagnostics found = locate(document, {{"battery", "[battery] is missing", "", false},
                                                {"run[0].lenght", "no such key", "length", true},
                                                {"run[0].length", "a length is missing", "", false},
                                                {"trip.days", "at least 1 day", "", false}});
    REQUIRE(found.size() == 4);
    CHECK(found[0].place.line == 2);
    CHECK(found[0].place.column == 8);
    CHECK(found[0].line == "days = 0");
    CHECK(found[1].line == "[[run]]");  // a key that is not there: its section's header
    CHECK(found[2].line == "lenght = \"6 m\"");
    CHECK(found[2].place.column == 1);
    CHECK(found[2].place.length == 6);
    CHECK(found[3].place.line == 0);
    CHECK(found[3].line.empty());
}

TEST_CASE("a file is replaced as a whole and keeps its mode") {
    const Folder folder;
    const std::string path = folder.file("plan.json", "old");
    ::chmod(path.c_str(), 0640);
    CHECK(!write_whole(path, "new\n"));
    std::string text;
    std::getline(std::ifstream(path), text, '\0');
    CHECK(text == "new\n");
    struct stat about = {};
    REQUIRE(::stat(path.c_str(), &about) == 0);
    CHECK((about.st_mode & 07777) == 0640);
    const auto entries = std::distance(std::filesystem::directory_iterator(folder.path), {});
    CHECK(entries == 1);  // nothing stays beside it
}

TEST_CASE("a file is known as written until anybody changes it") {
    const Folder folder;
    const std::string path = folder.file("plan.txt", "notes");
    CHECK(!stands_as_written(path));
    CHECK(!write_whole(path, "page\n"));
    if (!stands_as_written(path)) {
        MESSAGE("this file system keeps no marks");
        return;
    }
    std::ofstream(path, std::ios::app) << "a note of my own\n";
    CHECK(!stands_as_written(path));
    CHECK(!stands_as_written((folder.path / "none").string()));
}

TEST_CASE("a link keeps pointing where it did, and its target is replaced") {
    const Folder folder;
    const std::string path = folder.file("plan.json", "old");
    const std::string link = (folder.path / "link.json").string();
    std::filesystem::create_symlink("plan.json", link);
    CHECK(!write_whole(link, "new"));
    CHECK(std::filesystem::is_symlink(link));
    std::string text;
    std::getline(std::ifstream(path), text, '\0');
    CHECK(text == "new");
}

TEST_CASE("what cannot be written says so and leaves the old file") {
    const Folder folder;
    CHECK(write_whole((folder.path / "none" / "plan.json").string(), "x") == "there is no such directory");
    CHECK(write_whole(folder.path.string(), "x") == "this is a directory");
    CHECK(write_whole("", "x") == "this is a directory");
    const std::string path = folder.file("plan.json", "old");
    CHECK(write_whole(path + "/x", "x") == "a part of this path is no directory");
    CHECK(write_whole("/dev/full", "x") == "there is no room left on the disk");
    CHECK(!write_whole("/dev/null", "x"));
    CHECK(std::filesystem::is_character_file("/dev/null"));
    std::string text;
    std::getline(std::ifstream(path), text, '\0');
    CHECK(text == "old");
}

}  // namespace voltwright
