"""Completion of the command line, asked of each shell itself, and the manual page, read by three readers of such pages.

    python3 tests/cli/completions.py PROGRAM bash|zsh|fish|manual

What has to be offered is read from `voltwright --help` and `voltwright VERB --help`, the keys of the profile from its
schema, the names of tables from `voltwright tables`. Each trial is made once more with a spoilt script or page, which
has to be noticed. Exit 77 (skipped) when the shell, or a reader, is not installed.
"""

import json
import os
import pathlib
import pty
import re
import select
import shlex
import shutil
import subprocess
import sys
import tempfile
import time

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
SKIPPED = 77
FILES = ("camp.toml", "with blank.toml")


def run(words, **more):
    return subprocess.run(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, timeout=120, check=False,
                          **more)


# ---- what the help says ----------------------------------------------------------------------------------------------


class Option:
    """A row of a verb's help such as `--format text|json   the form of the answer`."""

    def __init__(self, left, text):
        self.spellings = re.findall(r"(?:^|, )(--?[a-z-]+)", left)
        value = re.sub(r"(?:^|, )--?[a-z-]+", "", left, count=0).strip()
        self.takes_value = bool(value)
        self.choices = value.split("|") if "|" in value else []
        self.value, self.text = value, text


class Verb:
    def __init__(self, program, usage, line):
        self.name, self.line = usage.split()[0], line
        self.arguments = re.findall(r"[A-Z]+", usage)
        page = run([program, self.name, "--help"]).stdout
        self.options = []
        rows = []
        for text in page.splitlines()[2:]:
            if row := re.match(r"  (\S.*?)(?:   +(.*))?$", text):
                rows.append([row.group(1), row.group(2) or ""])
            elif text.startswith("   "):
                rows[-1][1] += " " + text.strip()
        self.options = [Option(left, text) for left, text in rows if left.startswith("-")]
        self.argument_texts = [text for left, text in rows if not left.startswith("-")]

    def spellings(self):
        return {spelling for option in self.options for spelling in option.spellings}


def verbs_of(program):
    page = run([program, "--help"]).stdout
    rows = re.findall(r"^  ([a-z]\S*(?: \[?[A-Z]+\]?)*)   +(\S.*)$", page.split("\nExamples\n")[0], re.M)
    verbs = [Verb(program, usage, line) for usage, line in rows]
    if len(verbs) < 5 or not all(verb.options for verb in verbs):
        sys.exit("the help does not list verbs and options as this test reads them")
    return verbs


def settable_keys():
    """Keys of the sections that are no lists, and what each may be where that is a list of words."""
    schema = json.loads((TOP / "shared" / "profile.schema.json").read_text(encoding="utf-8"))
    keys = {}

    def words_of(value):
        return value.get("enum", []) or ([value["const"]] if "const" in value else [])

    for name, section in schema["properties"].items():
        if section.get("type") == "object":
            for key, value in section["properties"].items():
                keys[f"{name}.{key}"] = words_of(value)
        elif section.get("type") != "array":
            keys[name] = words_of(section)
    return keys


# ---- the shells ------------------------------------------------------------------------------------------------------

BASH = r"""
source "$1" || exit 9
COMP_WORDBREAKS=$' \t\n"\'><=;|&(:'
while IFS= read -r line; do
    eval "COMP_WORDS=($line)"
    COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
    _voltwright 2>/dev/null
    ((${#COMPREPLY[@]})) && printf '%s\n' "${COMPREPLY[@]}"
    echo =end=
done
"""


def ask_bash(script, lines, _folder):
    """What the function puts into COMPREPLY, with the words cut as readline cuts them."""
    told = ""
    for line in lines:
        words = line.split(" ")
        cut = [part for word in words for part in (re.findall(r"[=:]+|[^=:]+", word) or [""])]
        told += " ".join(shlex.quote(word) for word in cut) + "\n"
    return answers(run(["bash", "--norc", "-c", BASH, "bash", script], input=told))


FISH = r"""
source $argv[1]; or exit 9
while read -l line
    complete -C $line
    echo =end=
end
"""


def ask_fish(script, lines, folder):
    done = run(["fish", "--no-config", "-c", FISH, script], input="\n".join(lines) + "\n", cwd=folder,
               env=dict(os.environ, HOME=str(folder)))
    # A line is the candidate, a tab, what it means.
    return [{re.sub(r"^--[a-z-]+=(?=.)", "", one.split("\t")[0]) for one in some} for some in answers(done)]


# compadd is what every function of completion ends with: it tells here what it is given, as far as it fits.
ZSH_INSIDE = r"""
fpath=(${1:h} $fpath)
autoload -Uz compinit && compinit -u -D
zmodload zsh/complist 2>/dev/null
compadd() {
    if [[ ${@[1,(i)(-|--)]} == *-(O|A|D)\ * ]]; then
        builtin compadd "$@"
        return
    fi
    local -a told
    builtin compadd -A told "$@"
    (($#told)) && print -rl -- $told >>$OUT
    builtin compadd "$@"
}
ask() {
    local line
    while IFS= read -r line <&3; do
        BUFFER=$line CURSOR=$#line
        zle list-choices
        print '=end=' >>$OUT
    done 3<$LINES_OF
    BUFFER='voltwright pl' CURSOR=13
    zle complete-word
    print -r -- "buffer:$BUFFER" >>$OUT
    print '=done=' >>$OUT
    BUFFER=
}
zle -N ask
bindkey '^X' ask
"""
ZSH = r"""
zmodload zsh/zpty || exit 9
zpty inner "TERM=xterm zsh -f -i"
zpty -w inner "cd ${(q)FOLDER}; OUT=${(q)OUT} LINES_OF=${(q)LINES_OF}"
zpty -w inner "source ${(q)INSIDE} ${(q)SCRIPT}; print ready >>\$OUT"
integer i
wait_for() {
    for ((i = 0; i < 600; ++i)); do
        zpty -r -t inner >/dev/null
        grep -q "^$1\$" $OUT && return 0
        sleep 0.1
    done
    exit 8
}
wait_for ready
zpty -w -n inner $'\C-x'
wait_for '=done='
zpty -d inner
"""


def ask_zsh(script, lines, folder):
    work = pathlib.Path(script).parent
    (work / "lines").write_text("\n".join(lines) + "\n", encoding="utf-8")
    (work / "inside").write_text(ZSH_INSIDE, encoding="utf-8")
    out = work / "out"
    out.write_text("", encoding="utf-8")
    done = run(["zsh", "-f", "-c", ZSH],
               env=dict(os.environ, OUT=str(out), LINES_OF=str(work / "lines"), INSIDE=str(work / "inside"),
                        SCRIPT=script, FOLDER=str(folder), HOME=str(folder)))
    text = out.read_text(encoding="utf-8")
    if done.returncode != 0 or "=done=" not in text:
        sys.exit(f"zsh: {done.returncode} {done.stdout} {done.stderr}\n{text[-2000:]}")
    told, rest = text.split("ready\n", 1)[1].rsplit("=end=\n", 1)
    if "buffer:voltwright plan " not in rest:
        sys.exit("zsh: a tab after `voltwright pl` does not make `voltwright plan ` of it: " + rest)
    return [{one.removesuffix("=") if one.startswith("--") else one for one in some.splitlines() if one}
            for some in (told + "=end=\n").split("=end=\n")[:-1]]


def answers(done):
    if done.returncode != 0 or done.stderr:
        sys.exit(f"the shell failed: {done.returncode} {done.stderr}")
    return [set(some.splitlines()) for some in done.stdout.split("=end=\n")[:-1]]


def type_into_bash(script, typed, folder):
    """What a real bash at a terminal makes of a line when the tab key is pressed after it."""
    child, terminal = pty.fork()
    if child == 0:
        os.chdir(folder)
        os.environ.update(PS1="$ ", TERM="dumb", HOME=str(folder), INPUTRC="/dev/null")
        os.execvp("bash", ["bash", "--norc", "--noprofile", "-i"])
    try:
        begin = f"bind 'set enable-bracketed-paste off'; source {shlex.quote(script)}; stty -echo\n"
        os.write(terminal, begin.encode())
        os.write(terminal, b"voltwright() { printf '<%s>' \"$@\"; echo =end=; }; echo =ready'='\n")
        seen = b""
        sent = False
        end = time.monotonic() + 20
        while time.monotonic() < end:
            if select.select([terminal], [], [], 0.2)[0]:
                seen += os.read(terminal, 65536)
            if not sent and b"=ready=" in seen:
                sent = True
                os.write(terminal, typed.encode() + b"\t\n")
            if sent and (answer := re.search(rb"<([^\r\n]*)>=end=", seen.split(b"=ready=")[-1])):
                return answer.group(1).decode().split("><")
        return [f"nothing came of it: {seen!r}"]
    finally:
        os.close(terminal)
        os.kill(child, 9)
        os.waitpid(child, 0)


# ---- what is asked ---------------------------------------------------------------------------------------------------


def questions(shell, program, verbs):
    """Lines with what has to be offered after each: exactly these, or at least (`…` among them)."""
    keys = settable_keys()
    tables = {table["name"] for table in json.loads(run([program, "tables", "--format", "json"]).stdout)["tables"]}
    names = {verb.name for verb in verbs}
    asked = [("voltwright ", names | {"…"}), ("voltwright pl", {name for name in names if name.startswith("pl")}),
             ("voltwright --v", {"--version"}), ("voltwright --h", {"--help"}),
             ("voltwright tables ", tables | {"keys", "…"}),
             ("voltwright tables surr", {name for name in tables if name.startswith("surr")}),
             ("voltwright completions ", {"bash", "zsh", "fish", "…"})]
    # The shell puts what stands before the sign of equality back by itself, or wants the whole word.
    whole = shell == "fish"
    with_equals = {key if shell == "zsh" else key + "=" for key in keys}
    for verb in verbs:
        asked.append((f"voltwright {verb.name} -", verb.spellings()))
        if shell != "bash":
            asked.append((f"voltwright {verb.name} --", {one for one in verb.spellings() if one.startswith("--")}))
        for option in verb.options:
            for spelling in option.spellings:
                at = f"voltwright {verb.name} {spelling}"
                if option.choices:
                    asked.append((at + " ", set(option.choices)))
                    asked.append((f"{at} {option.choices[-1][:2]}", {option.choices[-1]}))
                    if spelling.startswith("--"):
                        asked.append((at + "=", set(option.choices)))
                elif option.value == "KEY=VALUE":
                    asked.append((at + " ", with_equals))
                    asked.append((at + " trip.d", {key for key in with_equals if key.startswith("trip.d")}))
                    asked.append((at + "=trip.d", {key for key in with_equals if key.startswith("trip.d")}))
                    for key, words in keys.items():
                        if words:
                            before = key + "=" if whole else ""
                            asked.append((f"{at} {key}=", {before + word for word in words}))
                            asked.append((f"{at} {key}={words[0][:2]}",
                                          {before + word for word in words if word.startswith(words[0][:2])}))
                            asked.append((f"{at}={key}=", {before + word for word in words}))
                elif option.value in ("FILE", "PRICES"):
                    if shell != "bash":
                        asked.append((at + " ", {*FILES, "…"}))
                elif option.takes_value:
                    asked.append((at + " ", set()))
        if verb.arguments[:1] == ["PROFILE"]:
            at = f"voltwright {verb.name} "
            if shell != "bash":
                asked += [(at, {*FILES, "…"}), (at + "--set trip.days=3 -q ", {*FILES, "…"}),
                          (at + "-o page.txt --set trip.drives=08:30-10:00 ", {*FILES, "…"})]
            if len(verb.arguments) == 2 and verb.arguments[1] != "OTHER":
                asked.append((at + "camp.toml ", set() if shell != "zsh" else {"…"}))
    return asked


def compare(shell, asked, found):
    wrong = 0
    if len(asked) != len(found):
        sys.exit(f"{len(asked)} questions have {len(found)} answers")
    for (line, expected), told in zip(asked, found):
        # Quoted as the shell would have to read them.
        told = {one.replace("\\ ", " ") for one in told}
        least = expected - {"…"}
        if not least <= told or ("…" not in expected and told != least):
            wrong += 1
            print(f"{shell}: {line!r} offers {sorted(told)}, not {sorted(expected)}")
    return wrong


ASK = {"bash": ask_bash, "zsh": ask_zsh, "fish": ask_fish}
NAMES = {"bash": "voltwright", "zsh": "_voltwright", "fish": "voltwright.fish"}


def try_shell(program, shell):
    verbs = verbs_of(program)
    script = run([program, "completions", shell]).stdout
    wrong = 0
    with tempfile.TemporaryDirectory() as name:
        work = pathlib.Path(name) / "script"
        folder = pathlib.Path(name) / "folder"
        work.mkdir()
        folder.mkdir()
        for file in FILES:
            (folder / file).write_text("", encoding="utf-8")
        path = work / NAMES[shell]
        path.write_text(script, encoding="utf-8")
        done = run([shell, "-n", str(path)])
        if done.returncode or done.stderr:
            print(f"{shell}: the script does not parse: {done.stderr}")
            wrong += 1
        if shell == "bash" and shutil.which("shellcheck"):
            done = run(["shellcheck", "-s", "bash", str(path)])
            if done.returncode:
                print(done.stdout)
                wrong += 1
        asked = questions(shell, program, verbs)
        lines = [line for line, _ in asked]
        wrong += compare(shell, asked, ASK[shell](str(path), lines, folder))
        if shell == "bash":
            no_equals = "COMP_WORDBREAKS=${COMP_WORDBREAKS//=}; "
            for typed, expected in [("voltwright pl", ["plan"]), ("voltwright plan ca", ["plan", "camp.toml"]),
                                    ("voltwright plan with", ["plan", "with blank.toml"]),
                                    ("voltwright plan -o ca", ["plan", "-o", "camp.toml"]),
                                    ("voltwright plan --set trip.day", ["plan", "--set", "trip.days="]),
                                    ("voltwright plan --set battery.chemistry=fl",
                                     ["plan", "--set", "battery.chemistry=flooded"]),
                                    ("voltwright plan --format=js", ["plan", "--format=json"]),
                                    ("voltwright plan --set trip.drives=08:30-10:00 ca",
                                     ["plan", "--set", "trip.drives=08:30-10:00", "camp.toml"]),
                                    (no_equals + "voltwright plan --set=battery.chemistry=fl",
                                     ["plan", "--set=battery.chemistry=flooded"]),
                                    ("voltwright wire --run ca", ["wire", "--run", "ca"])]:
                found = type_into_bash(str(path), typed, folder)
                if found != expected:
                    print(f"bash at a terminal: {typed!r} and a tab make {found}, not {expected}")
                    wrong += 1
        if shell == "zsh":
            made_known = "autoload -Uz compinit; compinit -u -D; source $1; print -r - $_comps[voltwright]"
            done = run(["zsh", "-f", "-c", made_known, "zsh", str(path)], env=dict(os.environ, HOME=str(folder)))
            if done.stdout != "_voltwright\n" or done.stderr:
                print(f"zsh: read by source the script is not made known: {done.stdout}{done.stderr}")
                wrong += 1
        # A script that has lost an option, a verb and a key has to be noticed.
        for spoilt in ("--ascii", "ascii", "replan", "trip.days"):
            if shell == "fish" and spoilt == "--ascii":
                continue
            path.write_text(re.sub(rf"(?<![a-z]){spoilt}(?![a-z])", spoilt[:-1], script), encoding="utf-8")
            some = [pair for pair in asked if any(spoilt in word for word in pair[1])][:3]
            with open(os.devnull, "w", encoding="utf-8") as nowhere:
                kept, sys.stdout = sys.stdout, nowhere
                missed = compare(shell, some, ASK[shell](str(path), [line for line, _ in some], folder))
                sys.stdout = kept
            if some and not missed:
                print(f"{shell}: a script without {spoilt} was taken for sound")
                wrong += 1
    print(f"{shell}: {len(asked)} questions, {wrong} faults")
    return 1 if wrong else 0


# ---- the manual page -------------------------------------------------------------------------------------------------


def plain(text):
    return re.sub(r"\s+", " ", text.replace("‐", "-").replace("−", "-")).lower()


def faults_of_page(path, verbs):
    faults = []
    for words in (["groff", "-man", "-ww", "-Tutf8", path], ["man", "--warnings", "-E", "UTF-8", "-l", path],
                  ["mandoc", "-T", "lint", path]):
        done = run(words, env=dict(os.environ, MANWIDTH="80", LC_ALL="C.UTF-8"))
        if words[0] == "mandoc":
            # The page bears no date on purpose: it would grow stale.
            said = "\n".join(line for line in done.stdout.splitlines() if "missing date" not in line)
            if said or done.stderr:
                faults.append(f"mandoc: {done.returncode} {done.stderr} {said[:500]}")
        elif done.returncode or done.stderr:
            faults.append(f"{words[0]}: {done.returncode} {done.stderr}")
        if words[0] == "man":
            faults += [f"wider than 80 columns: {line}" for line in done.stdout.splitlines() if len(line) > 80]
    faults += [f"the page has a line of more than 80 characters: {line}"
               for line in pathlib.Path(path).read_text(encoding="utf-8").splitlines() if len(line) > 80]
    wide = run(["groff", "-man", "-Tascii", "-P-cbou", "-rLL=900n", "-rHY=0", path]).stdout
    page = plain(wide)
    for heading in ("NAME", "SYNOPSIS", "DESCRIPTION", "VERBS", "OPTIONS", "EXIT STATUS", "ENVIRONMENT", "FILES",
                    "EXAMPLES", "CAUTION"):
        if not re.search(rf"^{heading}$", wide, re.M):
            faults.append(f"there is no section {heading}")
    for verb in verbs:
        usage = " ".join([verb.name, *verb.arguments]).lower()
        if plain(usage) not in page.replace("[", "").replace("]", "") or plain(verb.line) not in page:
            faults.append(f"the verb {verb.name} is not told as its help does")
        for text in verb.argument_texts:
            if plain(text) not in page:
                faults.append(f"{verb.name}: the page does not say '{text}'")
        for option in verb.options:
            told = [spelling for spelling in option.spellings if not re.search(rf"(?<![\w-]){spelling}(?![\w-])", page)]
            if told or (plain(option.text) not in page and option.text != "this page"):
                faults.append(f"{verb.name}: the page does not tell of {option.spellings} '{option.text}'")
    return faults


def try_manual(program):
    if not all(shutil.which(reader) for reader in ("groff", "man", "mandoc")):
        return SKIPPED
    verbs = verbs_of(program)
    page = run([program, "manual"]).stdout
    with tempfile.TemporaryDirectory() as name:
        path = pathlib.Path(name) / "voltwright.1"
        path.write_text(page, encoding="utf-8")
        faults = faults_of_page(str(path), verbs)
        for fault in faults:
            print(fault)
        for what, spoilt in (("a lost option", page.replace("\\-\\-ascii", "\\-\\-asci")),
                             ("an unknown macro", page.replace(".SH NAME", ".SH NAME\n.XX 1")),
                             ("a lost verb", page.replace("replan", "plan")),
                             ("a long line", page.replace(".SH CAUTION\n", ".SH CAUTION\n" + "word " * 20))):
            path.write_text(spoilt, encoding="utf-8")
            if len(faults_of_page(str(path), verbs)) <= len(faults):
                faults.append(f"{what} was not noticed")
                print(faults[-1])
    print(f"the manual page: {len(faults)} faults")
    return 1 if faults else 0


def has_terminals():
    """Not where /dev/pts is not mounted, as in a bare root."""
    try:
        for end in os.openpty():
            os.close(end)
    except OSError:
        return False
    return True


def main(words):
    match words:
        case [program, "manual"]:
            return try_manual(os.path.abspath(program))
        case [program, shell] if shell in ASK:
            if not shutil.which(shell):
                print(f"{shell} is not installed")
                return SKIPPED
            if not has_terminals():
                print(f"no pseudo terminal is to be had here, so completion in {shell} is not tried")
                return SKIPPED
            return try_shell(os.path.abspath(program), shell)
    print(__doc__, file=sys.stderr)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
