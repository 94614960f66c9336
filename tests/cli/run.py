"""Runs the cases of the command line: command, exit code, output, all compared exactly.

    python3 tests/cli/run.py PROGRAM [CASE…]        the given cases, or every tests/cli/**/*.case
    python3 tests/cli/run.py PROGRAM --readme       every ```console block of README.md, and every ```cpp block against its file
    python3 tests/cli/run.py --self-test            sees to it that a wrong answer is noticed
    … --update                                      writes what the program answers into the cases, for reading over

A case is a text file. What its lines begin with says what they are:

    # A failing plan exits with 1.
    $ voltwright plan - --format text               a command, in words as a shell would split them
    < [trip]                                        its standard input (none: it is empty)
    < days = 3
    exit: 1                                         the exit code
    > THE PLAN FAILS.                               its standard output (none: nothing may be printed)
    ! trip: a note                                  its standard error (none: nothing may be printed)

A case may hold several commands. They run one after another in one fresh folder that holds a copy of examples/, so what
one writes the next can read; `$ cat FILE` shows a file. Words such as NO_COLOR=1 before the command set its environment,
which is otherwise empty but for PATH, HOME and LC_ALL=C.UTF-8. Output that does not end with a new line ends, in the
case, with a line `>\\` or `!\\`.

In README.md a line `$ voltwright …` (or `$ build/release/voltwright …`) in a ```console block is a command, and the lines
until the next `$` are all that it prints, errors among it. Other commands are not run. A backslash at the end of a
command joins the next line to it.

Exit 77 (skipped) when there is no case at all.
"""

import difflib
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
CASES = pathlib.Path(__file__).resolve().parent
TIMEOUT_SECONDS = 60
SKIPPED = 77


class Answer:
    """What a command printed and how it ended."""

    def __init__(self, code, out, err=""):
        self.code, self.out, self.err = code, out, err


def run(program, words, folder, stdin="", merged=False):
    """Runs `voltwright …` or `cat …`, given in words, in `folder`."""
    environment = {"PATH": os.environ.get("PATH", "/usr/bin:/bin"), "HOME": str(folder), "LC_ALL": "C.UTF-8"}
    for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS", "TSAN_OPTIONS", "LLVM_PROFILE_FILE"):
        if name in os.environ:
            environment[name] = os.environ[name]
    words = list(words)
    while words and re.fullmatch(r"[A-Z_]+=.*", words[0]):
        name, value = words.pop(0).split("=", 1)
        environment[name] = value
    command = words[0].rsplit("/", 1)[-1] if words else ""
    if command not in ("voltwright", "cat"):
        raise ValueError(f"only voltwright and cat can be run, not '{command}'")
    words[0] = program if command == "voltwright" else "cat"
    try:
        done = subprocess.run(words, cwd=folder, env=environment, input=stdin.encode(), stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT if merged else subprocess.PIPE, timeout=TIMEOUT_SECONDS,
                              check=False)
    except subprocess.TimeoutExpired:
        return Answer("none, it was stopped after a minute", "")
    decoded = [stream.decode(errors="backslashreplace") for stream in (done.stdout, done.stderr or b"")]
    return Answer(done.returncode, *decoded)


def fresh_folder():
    """A folder with a copy of examples/, to be used with `with`."""
    folder = tempfile.TemporaryDirectory()
    examples = TOP / "examples"
    if examples.exists():
        shutil.copytree(examples, pathlib.Path(folder.name) / "examples")
    return folder


def difference(name, expected, found):
    """The lines that differ, `-` what was expected and `+` what was found; empty when nothing differs."""
    if expected == found:
        return ""
    lines = difflib.unified_diff(expected, found, f"{name}: expected", f"{name}: found", lineterm="", n=2)
    return "\n".join(lines) + "\n"


# ---- cases -----------------------------------------------------------------------------------------------------------


def marked(mark, text):
    """The lines of a text as a case holds them."""
    if not text:
        return []
    lines = text.split("\n")
    last = lines.pop()
    result = [f"{mark} {line}" if line else mark for line in lines]
    if last:
        result += [f"{mark} {last}", f"{mark}\\"]
    return result


def answered(program, lines):
    """The lines of a case with what the program answers in place of what was expected."""
    result = []
    with fresh_folder() as folder:
        at = 0
        while at < len(lines):
            line = lines[at]
            at += 1
            if not line.startswith("$ "):
                if line and not line.startswith("#"):
                    raise ValueError(f"'{line}' stands after no command")
                result.append(line)
                continue
            result.append(line)
            stdin = ""
            while at < len(lines) and lines[at][:1] in ("<", ">", "!", "e"):
                if lines[at].startswith("<"):
                    stdin += lines[at][2:] + "\n"
                    result.append(lines[at])
                elif lines[at].startswith("e") and not re.fullmatch(r"exit: -?\d+", lines[at]):
                    raise ValueError(f"'{lines[at]}' is to be 'exit: NUMBER'")
                at += 1
            answer = run(program, shlex.split(line[2:]), folder, stdin)
            result += [f"exit: {answer.code}", *marked(">", answer.out), *marked("!", answer.err)]
    return result


def run_case(program, path, update):
    """What is wrong with the case, in words; empty when nothing is."""
    lines = path.read_text(encoding="utf-8").splitlines()
    try:
        if not any(line.startswith("$ ") for line in lines):
            raise ValueError("there is no command in it")
        found = answered(program, lines)
    except ValueError as fault:
        return f"{path.name}: {fault}\n"
    if update and found != lines:
        path.write_text("\n".join(found) + "\n", encoding="utf-8")
        print(f"{path.name}: rewritten")
        return ""
    return difference(path.name, lines, found)


def run_cases(program, paths, update):
    if not paths:
        print("there is no case")
        return SKIPPED
    wrong = 0
    for path in paths:
        fault = run_case(program, path, update)
        print(fault, end="")
        wrong += bool(fault)
    print(f"{len(paths)} cases, {wrong} wrong")
    return 1 if wrong else 0


# ---- the README ------------------------------------------------------------------------------------------------------

IS_OURS = re.compile(r"\$ (?:[A-Z_]+=\S* )*(?:\S*/)?voltwright\b")


def answered_page(program, lines):
    """The lines of a page with what the program answers, and how many commands were run."""
    result = []
    count = 0
    with fresh_folder() as folder:
        in_block, ours, at = False, False, 0
        while at < len(lines):
            line = lines[at]
            at += 1
            if not in_block or line.strip() == "```":
                in_block, ours = line.strip() == "```console", False
                result.append(line)
            elif line.startswith("$ "):
                result.append(line)
                command = line[2:]
                while command.endswith("\\") and at < len(lines):
                    result.append(lines[at])
                    command = command[:-1] + lines[at]
                    at += 1
                ours = IS_OURS.match(line) is not None or line.startswith("$ cat ")
                if ours:
                    count += 1
                    result += run(program, shlex.split(command), folder, merged=True).out.splitlines()
            elif not ours:
                result.append(line)
    return result, count


def with_programs(lines):
    """The lines of a page with each ```cpp block as the program under examples/ that was named last before it."""
    result, named, within = [], None, False
    for line in lines:
        if found := re.search(r"`(examples/programs/\w+\.cpp)`", line):
            named = TOP / found[1]
        if line.strip() == "```":
            within = False
        if not within:
            result.append(line)
        if line.strip() == "```cpp" and named:
            result += named.read_text(encoding="utf-8").splitlines()
            within = True
    return result


def run_page(program, path, update):
    if not path.exists():
        print(f"{path.name} is not there: skipped")
        return SKIPPED
    lines = path.read_text(encoding="utf-8").splitlines()
    found, count = answered_page(program, lines)
    found = with_programs(found)
    if update and found != lines:
        path.write_text("\n".join(found) + "\n", encoding="utf-8")
        print(f"{path.name}: rewritten")
        return 0
    fault = difference(path.name, lines, found)
    print(fault, end="")
    print(f"{path.name}: {count} commands, {'differences' if fault else 'no difference'}")
    return 1 if fault or count == 0 else 0


# ---- the harness itself ----------------------------------------------------------------------------------------------

STAND_IN = """#!/bin/sh
# Answers like a program: its words, its input, a complaint.
case $1 in
    write) echo kept >kept.txt ;;
    *) printf 'words: %s\\n\\n' "$*"; cat; printf '%s' "$TAIL"; echo 'a complaint' >&2; exit 3 ;;
esac
"""
RIGHT_CASE = """# Everything that a case can hold.
$ TAIL=end voltwright one "two words"
< first
<
< third
exit: 3
> words: one two words
>
> first
>
> third
> end
>\\
! a complaint

$ voltwright write
exit: 0
$ cat kept.txt
exit: 0
> kept
"""
RIGHT_PAGE = """# A page
```console
$ build/release/voltwright one \\
    two
words: one two

a complaint
$ make tea
not run
$ voltwright write
$ cat kept.txt
kept
```
```console
$ voltwright
words:

a complaint
```
voltwright outside of a block
"""


def self_test():
    wrong = 0
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        program = folder / "stand-in"
        program.write_text(STAND_IN, encoding="utf-8")
        program.chmod(0o755)
        page_lines = RIGHT_PAGE.replace("words:\n", "words: \n").splitlines()
        trials = [("case", RIGHT_CASE.splitlines(), lambda lines: answered(str(program), lines)),
                  ("page", page_lines, lambda lines: answered_page(str(program), lines)[0])]
        for kind, right, answer in trials:
            if fault := difference(f"the sound {kind}", right, answer(right)):
                print(fault, end="")
                wrong += 1
            # Each expected line in turn is changed, left out or doubled, which the harness must put right again.
            for at, line in enumerate(right):
                expected_line = line[:1] in (">", "!", "e") if kind == "case" else line in (
                    "words: one two", "words: ", "a complaint", "kept")
                if not expected_line:
                    continue
                changed_line = "exit: 4" if line.startswith("exit") else line + "x"
                for changed in (right[:at] + [changed_line] + right[at + 1:], right[:at] + right[at + 1:],
                                right[:at] + [line] + right[at:]):
                    if answer(changed) != right:
                        print(f"the {kind} with line {at + 1} changed was not put right: {line}")
                        wrong += 1
                    if not difference(kind, changed, answer(changed)):
                        print(f"the {kind} with line {at + 1} changed was taken for sound: {line}")
                        wrong += 1
    print(f"the harness: {wrong} faults")
    return 1 if wrong else 0


def main(words):
    update = "--update" in words
    words = [word for word in words if word != "--update"]
    match words:
        case ["--self-test"]:
            return self_test()
        case [program, "--readme"]:
            return run_page(os.path.abspath(program), TOP / "README.md", update)
        case [program, *names] if not program.startswith("-"):
            paths = [pathlib.Path(name) for name in names] or sorted(CASES.rglob("*.case"))
            return run_cases(os.path.abspath(program), paths, update)
    print(__doc__, file=sys.stderr)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
