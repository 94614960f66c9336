"""Every header of the library and the program compiles by itself.

    python3 tests/headers.py BUILD            BUILD: a configured build (for its include folders and options)
    python3 tests/headers.py --self-test BUILD
                                              leaves the includes of a header out in a copy and fails when that is not seen

A header that reads one of a few large ones, directly or through others, gets that one precompiled: what it leaves out of its own
includes is missing all the same, only the order within it is not looked at.
"""

import concurrent.futures
import functools
import json
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

TOP = pathlib.Path(__file__).resolve().parent.parent
# The larger first. What reads none of them is compiled from nothing.
PRECOMPILED = ["voltwright/planning/plan.hpp", "voltwright/vehicle/system.hpp", "voltwright/tables/tables.hpp",
               "voltwright/units/quantities.hpp"]
INCLUDE = re.compile(r'^\s*#\s*include\s*["<]([^">]+)[">]', re.M)


def options_of(build):
    """Of the compiler and its include folders, as most sources of the library have them."""
    entries = json.loads((pathlib.Path(build) / "compile_commands.json").read_text(encoding="utf-8"))
    words = next(shlex.split(one["command"]) for one in entries if "voltwright_report.dir" in one["command"] and ".cpp" in one["file"])
    kept, take = [words[0]], False
    for word in words[1:]:
        if take or word.startswith(("-I", "-D", "-std=")) or word == "-isystem":
            kept.append(word)
        take = word == "-isystem"
    return kept + [f"-I{TOP}", "-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Werror"]


class Headers:
    def __init__(self, folders):
        self.folders = folders
        self.reads = functools.lru_cache(None)(self.reads)

    def file_of(self, name):
        return next((folder / name for folder in self.folders if (folder / name).is_file()), None)

    def reads(self, name):
        """All headers that a header reads, directly or through others."""
        found, path = set(), self.file_of(name)
        for other in INCLUDE.findall(path.read_text(encoding="utf-8")) if path else []:
            if self.file_of(other) and other not in found:
                found |= {other} | self.reads(other)
        return found


def compile_all(options, headers, names, folder):
    """Of each header its name and what the compiler says against it."""
    ready = {}
    for number, large in enumerate(PRECOMPILED):
        shell = folder / f"large_{number}.hpp"
        shell.write_text(f'#include "{large}"\n', encoding="utf-8")
        ready[large] = shell

    def precompile(shell):
        subprocess.run([*options, "-x", "c++-header", str(shell), "-o", f"{shell}.gch"], check=True, cwd=TOP)

    def compile_one(name):
        large = next((one for one in PRECOMPILED if one != name and one in headers.reads(name)), None)
        first = ["-include", str(ready[large])] if large else []
        said = subprocess.run([*options, *first, "-fsyntax-only", "-x", "c++", "-"], input=f'#include "{name}"\n',
                              capture_output=True, text=True, cwd=TOP)
        return name, said.stderr if said.returncode else ""

    with concurrent.futures.ThreadPoolExecutor(len(os.sched_getaffinity(0))) as pool:
        list(pool.map(precompile, ready.values()))
        return list(pool.map(compile_one, names))


def headers_of(top):
    library = sorted((top / "lib").glob("voltwright/**/*.hpp"))
    program = sorted((top / "cli").glob("**/*.hpp"))
    return [str(one.relative_to(top / "lib")) for one in library] + [str(one.relative_to(top)) for one in program]


def check(build):
    options, names = options_of(build), headers_of(TOP)
    folders = [pathlib.Path(word[2:]) for word in options if word.startswith("-I")]
    with tempfile.TemporaryDirectory() as scratch:
        answers = compile_all(options, Headers(folders), names, pathlib.Path(scratch))
    wrong = [(name, said) for name, said in answers if said]
    for name, said in wrong:
        print(f"{name} does not compile by itself:\n{said[:1500]}")
    print(f"{len(names)} headers, each compiled by itself: {len(wrong)} wrong")
    return 1 if wrong or not names else 0


def self_test(build):
    """A header robbed of one of its own includes must be told, with and without a precompiled one."""
    options = options_of(build)
    missed = 0
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        for number, (name, robbed) in enumerate([("voltwright/planning/plan.hpp", "planning/energy_plan.hpp"),
                                                 ("voltwright/simulation/result.hpp", "simulation/ledger.hpp"),
                                                 ("voltwright/units/show.hpp", "units/")]):
            text = (TOP / "lib" / name).read_text(encoding="utf-8")
            copy = folder / f"robbed_{number}.hpp"
            copy.write_text(re.sub(rf'^#include "voltwright/{robbed}.*\n', "", text, flags=re.M), encoding="utf-8")
            mine = [*options, f"-I{folder}"]
            folders = [pathlib.Path(word[2:]) for word in mine if word.startswith("-I")]
            answer = compile_all(mine, Headers(folders), [copy.name], folder)
            if not answer[0][1]:
                print(f"{name} without {robbed} was not seen")
                missed += 1
    return 1 if missed else 0


if __name__ == "__main__":
    if len(sys.argv) == 3 and sys.argv[1] == "--self-test":
        sys.exit(self_test(sys.argv[2]))
    if len(sys.argv) == 2:
        sys.exit(check(sys.argv[1]))
    sys.exit(__doc__)
