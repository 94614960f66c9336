"""Profiles that cannot be used: each is refused in exactly the words beside it.

    python3 tests/cli/broken.py PROGRAM [NAME…]     the given ones, or every tests/cli/broken/*.toml
    … --update                                      writes what the program says beside them, for reading over

NAME.expected is what `voltwright plan NAME.toml`, run in that folder, prints on standard error. The exit code is 3, unless
the first line of NAME.expected is `exit: N`. Nothing may be printed on standard output.

Exit 77 (skipped) when there is no profile at all.
"""

import os
import pathlib
import re
import sys

import run

PROFILES = pathlib.Path(__file__).resolve().parent / "broken"
USUAL_EXIT = 3


def refusal(program, name):
    """What the program says to the profile, as NAME.expected holds it."""
    answer = run.run(program, ["voltwright", "plan", f"{name}.toml"], PROFILES)
    lines = [] if answer.code == USUAL_EXIT else [f"exit: {answer.code}"]
    lines += [f"on standard output: {line}" for line in answer.out.splitlines()]
    return lines + answer.err.splitlines()


def check(program, name, update):
    """What is wrong with the refusal, in words; empty when nothing is."""
    path = PROFILES / f"{name}.expected"
    if not (PROFILES / f"{name}.toml").exists():
        return f"{path.name} stands beside no {name}.toml\n"
    found = refusal(program, name)
    if not found or (len(found) == 1 and re.match("exit: ", found[0])):
        return f"{name}.toml: nothing was said about it\n"
    if update:
        path.write_text("\n".join(found) + "\n", encoding="utf-8")
        return ""
    if not path.exists():
        return f"{name}.toml: {path.name} is not there\n"
    return run.difference(name, path.read_text(encoding="utf-8").splitlines(), found)


def main(words):
    update = "--update" in words
    words = [word for word in words if word != "--update"]
    if not words:
        print(__doc__, file=sys.stderr)
        return 2
    program = os.path.abspath(words[0])
    names = words[1:] or sorted({path.stem for path in PROFILES.glob("*") if path.suffix in (".toml", ".expected")})
    if not names:
        print("there is no broken profile")
        return run.SKIPPED
    wrong = 0
    for name in names:
        fault = check(program, name, update)
        print(fault, end="")
        wrong += bool(fault)
    print(f"{len(names)} broken profiles, {wrong} wrongly refused")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
