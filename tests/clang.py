"""What clang++ and clang-tidy say of the sources, in the time that a run of all tests has for it.

    python3 tests/clang.py build/release         clang++ over every source of that build, warnings as errors; clang-tidy over a few
    python3 tests/clang.py build/release FILE…   clang-tidy over these files instead

Where a build compiles the files of a room together, so does this. The preset `tidy` has both look at every file, tests too.
"""

import concurrent.futures
import json
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys

TOP = pathlib.Path(__file__).resolve().parent.parent
# One for each way of writing that there is: physics, a choice, reading text, words, a verb.
A_FEW = ["lib/voltwright/circuit/network.cpp", "lib/voltwright/sizing/least_cost.cpp", "lib/voltwright/units/parse.cpp",
         "cli/verbs/plan.cpp"]
OF_GCC = re.compile(r"-W(no-)?(maybe-uninitialized|restrict|stringop-overflow|array-bounds|invalid-pch)$|-fno-sanitize=unreachable$")


def arguments(command):
    """What the source is compiled with, without g++'s own options, its precompiled header and the output."""
    words, kept, skip = shlex.split(command), [], 0
    for word, behind in zip(words[1:], words[2:] + [""]):
        if skip:
            skip -= 1
        elif word in ("-o", "-c") or (word == "-include" and "cmake_pch" in behind):
            skip = 1
        elif not OF_GCC.match(word) and not word.startswith("-o"):
            kept.append(word)
    return kept[next((i for i, word in enumerate(kept) if word.startswith("-")), 0):]


def run(command):
    answer = subprocess.run(command, capture_output=True, text=True, cwd=TOP)
    said = [line for line in (answer.stdout + answer.stderr).splitlines() if not line.endswith("generated.")]
    return [word for word in command if word != "--"][-1], answer.returncode, "\n".join(said)


def main(build, *files):
    missing = [tool for tool in ("clang++", "clang-tidy") if not shutil.which(tool)]
    if missing:
        print(f"{', '.join(missing)}: not installed (sh tests/setup.sh clang clang-tidy)")
        return 77
    commands = {}
    for entry in json.loads((pathlib.Path(build) / "compile_commands.json").read_text(encoding="utf-8")):
        source = pathlib.Path(entry["file"])
        if "cmake_pch" not in source.name and source.exists():
            commands[str(source)] = arguments(entry["command"])
    syntax = [["clang++", *words, "-fsyntax-only", source] for source, words in commands.items()]
    of_library = next((words for source, words in commands.items() if "lib/voltwright/" in source or "Unity" in source), [])
    tidy = [["clang-tidy", "--quiet", f"--extra-arg-before=-I{TOP}", *(f"--extra-arg={word}" for word in of_library), name, "--"]
            for name in files or A_FEW]
    wrong = 0
    with concurrent.futures.ThreadPoolExecutor(len(os.sched_getaffinity(0))) as pool:
        for name, code, said in pool.map(run, tidy + ([] if files else syntax)):
            if code:
                wrong += 1
                print(f"{name}:\n{said}")
    print(f"clang++: {0 if files else len(syntax)} sources, clang-tidy: {len(tidy)} files, {wrong} wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
