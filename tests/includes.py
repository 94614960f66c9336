"""The rooms of the house, seen from the #include lines: which may know which, and who alone knows a heavy header.

    python3 tests/includes.py               prints every wrong line as file:line, and every circle of files; fails when there is one
    python3 tests/includes.py --self-test   plants wrong lines in a copy and fails when one is not caught
"""

import pathlib
import re
import shutil
import sys
import tempfile

TOP = pathlib.Path(__file__).resolve().parent.parent

# In the order of dependency: a room uses itself and the rooms before it.
ROOMS = ["units", "provenance", "tables", "circuit", "energy", "sizing", "profile", "vehicle", "simulation", "planning", "shopping", "diagnosis", "files", "messages", "report"]

# Files of a room that still need each other, a header and its source counted as one: types in one header and functions over
# them in others would part them. A circle that is parted is taken off the list.
CIRCLES = set()

# What the library promises, in one header: it stands before the door and may see every room.
UMBRELLA = "lib/voltwright/voltwright.hpp"

# Rooms that do not know each other although one stands before the other: `simulation` introduces them.
STRANGERS = {("energy", "circuit")}

INCLUDE = re.compile(r'\s*#\s*include\s*([<"])([^>"]+)[>"]')
JSON_NAMES = "nlohmann/json_fwd.hpp"
OUTPUT_HEADERS = {"iostream", "print", "syncstream"}
CLOCK_HEADERS = {"ctime", "time.h", "sys/time.h"}
FORBIDDEN_WORDS = [
    (re.compile(r"\b(system_clock|steady_clock|high_resolution_clock|utc_clock|file_clock)\b"), "reads the clock"),
    (re.compile(r"\b(std::|::)?(time|clock|gettimeofday|clock_gettime)\s*\(\s*(NULL|nullptr|0|&\w+|CLOCK_\w+.*)?\s*\)"),
     "reads the clock"),
    (re.compile(r"\bstd::(cout|cerr|clog|cin)\b"), "prints or reads the terminal"),
    (re.compile(r"(?<![\w.:>])(std::)?(v?f?printf|f?puts|putchar|putc|fputc|fwrite)\s*\("), "prints"),
    (re.compile(r"(?<![\w.>])(stdout|stderr|stdin)\b(?!\s*\()"), "prints or reads the terminal"),
    (re.compile(r"\bfmt::v?print(ln)?\s*\("), "prints"),
    (re.compile(r"(?<![\w.>])(std::)?(exit|_Exit|quick_exit|abort)\s*\("), "ends the program"),
]
STRING_OR_COMMENT = re.compile(r'"(?:\\.|[^"\\])*"|//.*|/\*.*?\*/')


def room_of(path):
    """`sizing` for lib/voltwright/sizing/…, `cli` for cli/…."""
    return path.parts[2] if path.parts[0] == "lib" else "cli"


def faults_of_include(path, quote, header):
    room = room_of(path)
    in_lib = room != "cli"
    if quote == '"' or header.startswith("voltwright/"):
        parts = header.split("/")
        if parts[0] == "voltwright" and len(parts) in (3, 4) and parts[1] in ROOMS:
            used = parts[1]
            if in_lib and ROOMS.index(used) > ROOMS.index(room):
                yield f"{room}/ uses {used}/, which stands below it"
            if (room, used) in STRANGERS:
                yield f"{room}/ and {used}/ are not to know each other"
        elif in_lib or parts[0] != "cli":
            yield f'"{header}": ours are written "voltwright/ROOM/FILE", with a folder of the room between where it has some (in cli/ also "cli/FILE")'
        if quote == "<":
            yield f"<{header}>: ours are written in quotes"
        return
    if header.startswith("toml++/") and not (room == "files" and path.suffix == ".cpp"):
        yield "the sources of files/ alone know toml++"
    if header.startswith("nlohmann/") and not (room == "report" and (path.suffix == ".cpp" or header == JSON_NAMES)):
        yield "the sources of report/ alone know JSON; its headers may name it"
    if header.startswith("CLI/") and path.as_posix() != "cli/main.cpp":
        yield "cli/main.cpp alone knows CLI11"
    if header.startswith("fmt/") and in_lib and path.suffix != ".cpp":
        yield "fmt is met in sources, never in a header of the library"
    if in_lib and header in OUTPUT_HEADERS:
        yield f"<{header}>: nothing below cli/ prints"
    if in_lib and header in CLOCK_HEADERS:
        yield f"<{header}>: nothing below cli/ reads the clock"


def faults(top):
    """Every wrong line below `top`, as (path, line number, what is wrong)."""
    paths = sorted(path for folder in ("lib", "cli") for path in (top / folder).rglob("*") if path.suffix in (".hpp", ".cpp"))
    for path in (path.relative_to(top) for path in paths):
        if path.as_posix() == UMBRELLA:
            continue
        if path.parts[0] == "lib" and (len(path.parts) not in (4, 5) or path.parts[1] != "voltwright" or path.parts[2] not in ROOMS):
            yield path, 1, "stands in no room of lib/voltwright/"
            continue
        for number, line in enumerate((top / path).read_text(encoding="utf-8").splitlines(), 1):
            if include := INCLUDE.match(line):
                for fault in faults_of_include(path, *include.groups()):
                    yield path, number, fault
            elif path.parts[0] == "lib":
                code = STRING_OR_COMMENT.sub('""', line)
                for pattern, what in FORBIDDEN_WORDS:
                    if pattern.search(code):
                        yield path, number, f"{what}: {line.strip()}"


def circles(top):
    """The files of each room that reach each other by their #include lines, as (room, names)."""
    used = {}
    house = top / "lib" / "voltwright"
    for path in sorted(house.rglob("*.?pp")):
        room, *rest = path.relative_to(house).with_suffix("").parts
        name = "/".join(rest)
        names = used.setdefault((room, name), set())
        for line in path.read_text(encoding="utf-8").splitlines():
            include = INCLUDE.match(line)
            parts = pathlib.PurePosixPath(include[2]).with_suffix("").parts if include else ()
            if parts[:2] == ("voltwright", room) and "/".join(parts[2:]) != name:
                names.add("/".join(parts[2:]))

    def reached(room, name):
        seen, waiting = set(), [name]
        while waiting:
            for other in used.get((room, waiting.pop()), ()):
                if other not in seen:
                    seen.add(other)
                    waiting.append(other)
        return seen

    ahead = {key: reached(*key) for key in used}
    return {(room, frozenset(other for other in ahead[room, name] if name in ahead.get((room, other), ())))
            for room, name in used if name in ahead[room, name]}


def faults_of_circles(found):
    for room, names in sorted(found - CIRCLES, key=str):
        yield f"{room}/: {', '.join(sorted(names))} need each other: types in one header, functions over them in others"
    for room, names in sorted(CIRCLES - found, key=str):
        yield f"{room}/: {', '.join(sorted(names))} need each other no more: take them off CIRCLES"


def check():
    found = [f"{path}:{number}: {what}" for path, number, what in faults(TOP)]
    found += faults_of_circles(circles(TOP))
    for line in found:
        print(line)
    return 1 if found else 0


def self_test():
    planted = [
        ("lib/voltwright/units/planted.hpp", '#include "voltwright/report/text.hpp"'),
        ("lib/voltwright/circuit/planted.cpp", '#include "voltwright/energy/charger.hpp"'),
        ("lib/voltwright/energy/planted.cpp", '#include "voltwright/circuit/run.hpp"'),
        ("lib/voltwright/planning/planted.cpp", "#include <toml++/toml.h>"),
        ("lib/voltwright/files/planted.hpp", "#include <toml++/toml.h>"),
        ("lib/voltwright/files/planted.cpp", "#include <nlohmann/json.hpp>"),
        ("lib/voltwright/report/planted.hpp", "#include <nlohmann/json.hpp>"),
        ("lib/voltwright/planning/planted.hpp", "#include <nlohmann/json_fwd.hpp>"),
        ("lib/voltwright/planning/findings/planted.cpp", '#include "voltwright/messages/findings.hpp"'),
        ("lib/voltwright/report/planted.cpp", "#include <CLI/CLI.hpp>"),
        ("lib/voltwright/report/planted.hpp", "#include <fmt/format.h>"),
        ("lib/voltwright/simulation/planted.cpp", "#  include  <iostream>"),
        ("lib/voltwright/simulation/planted.cpp", "    write_whole(stderr, text);"),
        ("lib/voltwright/simulation/planted.cpp", "#include <ctime>"),
        ("lib/voltwright/simulation/planted.cpp", "const auto now = std::chrono::system_clock::now();"),
        ("lib/voltwright/simulation/planted.cpp", "const auto now = steady_clock::now();"),
        ("lib/voltwright/simulation/planted.cpp", "const auto now = std::time(nullptr);"),
        ("lib/voltwright/simulation/planted.cpp", '    printf("%d", 1);'),
        ("lib/voltwright/simulation/planted.cpp", '    fmt::print("{}", 1);'),
        ("lib/voltwright/simulation/planted.cpp", "    std::exit(1);"),
        ("lib/voltwright/simulation/planted.cpp", '#include "planted.hpp"'),
        ("lib/voltwright/simulation/planted.cpp", '#include "cli/output.hpp"'),
        ("lib/voltwright/shed/planted.cpp", "// a room that is none"),
        ("cli/verbs/planted.cpp", "#include <CLI/CLI.hpp>"),
        ("cli/verbs/planted.cpp", "#include <nlohmann/json.hpp>"),
    ]
    harmless = [
        ("lib/voltwright/simulation/planted.cpp", '    std::snprintf(text, sizeof text, "%02d", hour);'),
        ("lib/voltwright/simulation/planted.cpp", "// what std::cout or printf() would say"),
        ("lib/voltwright/simulation/planted.cpp", 'const auto words = "std::cout, printf(1), exit(0)";'),
        ("lib/voltwright/simulation/planted.cpp", "const Duration t = ledger.time(day);"),
        ("lib/voltwright/simulation/planted.cpp", '#include "voltwright/circuit/run.hpp"'),
        ("lib/voltwright/files/planted.cpp", "#include <toml++/toml.h>"),
        ("lib/voltwright/report/planted.cpp", "#include <nlohmann/json.hpp>"),
        ("lib/voltwright/report/planted.hpp", "#include <nlohmann/json_fwd.hpp>"),
        ("lib/voltwright/planning/findings/planted.cpp", '#include "voltwright/planning/findings/finding.hpp"'),
        ("cli/verbs/planted.cpp", "#include <iostream>"),
        ("cli/verbs/planted.cpp", '#include "voltwright/report/text.hpp"'),
    ]
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        copy = pathlib.Path(folder)
        for part in ("lib", "cli"):
            shutil.copytree(TOP / part, copy / part)
        before = set(faults(copy))
        for name, line in planted + harmless:
            path = copy / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(f"\n{line}\n", encoding="utf-8")
            places = {(str(place), number) for place, number, _ in set(faults(copy)) - before}
            path.unlink()
            if name.startswith("lib/voltwright/shed"):
                path.parent.rmdir()
                expected = {(name, 1)}
            else:
                expected = {(name, 2)} if (name, line) in planted else set()
            if places != expected:
                print(f"{name}: {line}: expected a fault at {expected or 'no place'}, found {places or 'none'}")
                wrong += 1
    with tempfile.TemporaryDirectory() as folder:
        copy = pathlib.Path(folder)
        room = copy / "lib" / "voltwright" / "units"
        room.mkdir(parents=True)
        for name, other in (("one", "two"), ("two", "three"), ("three", "one"), ("four", "one")):
            (room / f"{name}.hpp").write_text(f'#include "voltwright/units/{other}.hpp"\n', encoding="utf-8")
        if circles(copy) != {("units", frozenset({"one", "two", "three"}))}:
            print(f"a circle of three files: found {circles(copy)}")
            wrong += 1
    print(f"{len(planted)} wrong lines, a circle and {len(harmless)} sound ones, {wrong} misjudged")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(self_test() if sys.argv[1:] == ["--self-test"] else check())
