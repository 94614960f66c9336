"""Text that means harm, in titles, names and notes: every verb and every form of its answer shows it as text.

    python3 tests/cli/hostile.py PROGRAM             all texts
    python3 tests/cli/hostile.py PROGRAM --every N   every Nth of them, for a program that is slow to start

Verbs, arguments, options and forms are read from the program's help, so that a new verb is among them by itself. Titles
and names of each profile hold one hostile text; what no reader could see is refused at once, all else is accepted and
shown. The checks are tried on spoilt answers as well, which they have to notice.
"""

import csv
import html.parser
import io
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib
import unicodedata

import completions

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
SIMPLEST = (TOP / "examples/profiles/simplest.toml").read_text(encoding="utf-8")

# What has to be taken as it is.
SHOWN = {
    "plain": "plain words",
    "script": "<script>alert(1)</script>",
    "image": "<img src=x onerror=alert(1)>",
    "entities": "&amp; &lt;b&gt; &#x3C;i&#x3E; &copy",
    "out of an attribute": "\" onload=\"x\" '><svg onload=1>",
    "out of a comment": "--> ]]> </title></style></svg> <!--",
    "backslashes": "C:\\new\\table \\u0041 \\",
    "quotes": "6\" 'single' “double” `tick`",
    "command formula": "=cmd|' /C calc'!A1",
    "sum formula": "@SUM(1)",
    "plus formula": "+1+cmd",
    "minus formula": "-2+3+cmd|' /C x'",
    "commas": 'a,b;c\t,"d"'.replace("\t", " "),
    "percent": "%s %n %d {} {0} {x:>99999} $HOME `id` $(id)",
    "combining": "e" + "\u0301" * 60,
    "wide": "漢字かな交じり文の名前",
    "right to left": "עברית ו-عربي",
    "emoji": "🚐🔋🔌",
    "option": "--help",
    "path": "../../etc/passwd",
    "javascript": "javascript:alert(1)",
}
# What has to be refused: it cannot be seen, or cannot be text.
REFUSED = {
    "escape sequence": "a\x1b[31mred\x1b]0;title\x07",
    "lines": "one\ntwo",
    "carriage return": "THE PLAN FAILS\rTHE PLAN HOLDS",
    "tab": "a\tb",
    "backspaces": "fails\b\b\b\b\bholds",
    "zero": "a\0b",
    "second controls": "a\x9b31mb\x85",
    "overrides": "a\u202eb\u202dc\u202c",
    "isolates": "a\u2066b\u2067c\u2069",
    "marks of direction": "a\u200eb\u200fc\u061cd",
    "unseen": "a\u200bb\u2060c\ufeffd\u00ade",
    "tags": "a\U000e0041\U000e0042",
    "line separators": "a\u2028b\u2029c",
    "too long": "n" * 10_000,
}


def in_toml(text):
    """A TOML text with an escape for all that is no ASCII; a long one over several lines, as the file asks for."""
    words = "".join(c if " " <= c <= "~" and c not in '"\\' else f"\\U{ord(c):08X}" for c in text)
    if len(words) < 3000:
        return f'"{words}"'
    return '"""' + "\\\n".join(words[at:at + 1000] for at in range(0, len(words), 1000)) + '"""'


def profile(text):
    """One of every kind of thing that has a name."""
    def named(what):
        return in_toml(text + what)
    assert SIMPLEST.count("to     = \"fridge\"") == SIMPLEST.count("[[fridge]]") == 1
    vehicle = SIMPLEST.replace('to     = "fridge"', f'name = {named(" run")}\nto = {named("")}')
    vehicle = vehicle.replace("[[fridge]]", f'[[fridge]]\nname = {named(" fridge")}')
    return f"""title = {in_toml(text)}
{vehicle}
[[load]]
name = {named("")}
draw = "20 W"
hours = "18:00-22:00"
[[load]]
name = {named(" two")}
draw = "150 W"
essential = true
[[reading]]
through = {named(" run")}
engine = "off"
current = "1.2 A"
when = {named(" when")}
"""


# ---- what an answer may hold -----------------------------------------------------------------------------------------


def unseen(text, allowed="\n"):
    """Characters that steer a terminal or cannot be seen. Joiners belong to some scripts."""
    return sorted({f"U+{ord(c):04X}" for c in text
                   if unicodedata.category(c) in ("Cc", "Cf", "Zl", "Zp", "Cs") and c not in allowed + "\u200c\u200d"})


def faults_of_csv(text):
    faults = []
    rows = list(csv.reader(io.StringIO(text), strict=True))
    if len({len(row) for row in rows}) > 1:
        faults.append(f"rows of {sorted({len(row) for row in rows})} cells")
    for row in rows:
        for cell in row:
            if cell[:1] in ("=", "+", "-", "@", "\t", "\r") and not re.fullmatch(r"-\d+(\.\d+)?(e-?\d+)?", cell):
                faults.append(f"a spreadsheet would run {cell[:40]!r}")
    return faults


class Page(html.parser.HTMLParser):
    """The tags of a page with the names of their attributes, and its text."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.tags, self.text, self.harm = set(), "", []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.add((tag, tuple(sorted(name for name, _ in attrs))))
        if tag in ("script", "iframe", "object", "embed", "base", "link", "form", "foreignobject"):
            self.harm.append(f"<{tag}>")
        for name, value in attrs:
            if name.startswith("on") or not name.startswith("xmlns") and re.match(r"\s*(javascript|data|https?):", value or "", re.I):
                self.harm.append(f"{name}={value}")

    def handle_data(self, data):
        self.text += data


def faults_of_html(text, plain):
    """What the page has that it may not have, and what the page of the same profile with plain words has not."""
    page, other = Page(text), Page(plain)
    # Long words are broken or pressed together; nothing else may be new.
    extra = {tag for tag, _ in page.tags} - {tag for tag, _ in other.tags} - {"tspan", "wbr"}
    names = {name for _, its in page.tags for name in its} - {name for _, its in other.tags for name in its}
    names -= {"textlength", "lengthadjust", "x", "y", "dx", "dy"}
    return [*page.harm, *(f"a tag of its own: <{tag}>" for tag in extra),
            *(f"an attribute of its own: {name}" for name in names),
            *(f"{code} in the page" for code in unseen(text))]


def faults_of(kind, text, plain=""):
    try:
        if kind == "json":
            json.loads(text)
            return [f"{code} in it" for code in unseen(text)]
        if kind == "csv":
            return faults_of_csv(text) + [f"{code} in it" for code in unseen(text, "\r\n")]
        if kind == "html":
            return faults_of_html(text, plain)
        if kind == "colour":
            text = re.sub(r"\x1b\[[0-9;]*m", "", text)
        return [f"{code} in it" for code in unseen(text)]
    except (ValueError, csv.Error) as fault:
        return [f"it cannot be read as {kind}: {fault}"]


# ---- the calls -------------------------------------------------------------------------------------------------------


class Trial:
    def __init__(self, program):
        self.program, self.wrong, self.calls = program, 0, 0

    def blame(self, what):
        self.wrong += 1
        if self.wrong <= 40:
            print(what[:600].encode("unicode_escape").decode())

    def call(self, words, folder, what, codes, kind="text"):
        """Runs the program, and checks its code and what goes to a terminal. Answers the code and both outputs."""
        environment = {name: value for name, value in os.environ.items() if name.endswith("SAN_OPTIONS")}
        done = subprocess.run([self.program, *words], cwd=folder, stdin=subprocess.DEVNULL, capture_output=True,
                              env={"PATH": "/usr/bin:/bin", "HOME": str(folder), "LC_ALL": "C.UTF-8"} | environment,
                              timeout=60, check=False)
        self.calls += 1
        at = f"{what}: {' '.join(str(word)[:60] for word in words)}"
        if done.returncode not in codes:
            self.blame(f"{at}: ended with {done.returncode}, not {codes}: {done.stderr[-300:]!r}")
        try:
            out, err = done.stdout.decode(), done.stderr.decode()
        except UnicodeDecodeError as fault:
            self.blame(f"{at}: {fault}")
            return done.returncode, "", ""
        # A tab of the file stays in a line that is shown, so that the mark below stands right.
        for fault in faults_of("colour" if kind == "colour" else "text", err.replace("\t", " ")):
            self.blame(f"{at}: standard error has {fault}")
        if done.returncode in (0, 1):
            for fault in faults_of(kind, out):
                self.blame(f"{at}: {fault}")
        return done.returncode, out, err


def forms_of(verb):
    return next((option.choices for option in verb.options if "--format" in option.spellings), []) or ["text"]


def answers_of(trial, verb, text, what, folder, refused):
    """Asks a verb in every form, and answers what the file of `-o` holds in each."""
    codes = (3,) if refused else (0, 1, 2)
    bare_codes = (2, *codes)  # a verb may want `-o`
    files = {}
    has_forms = any("--format" in option.spellings for option in verb.options)
    change = ["--set", "trip.days=2"] if refused or "OTHER" in verb.arguments else []
    usual = [verb.name, "hostile.toml", *change]
    for form in forms_of(verb):
        words = usual + (["--format", form] if has_forms else [])
        _, out, _ = trial.call(words, folder, what, bare_codes, form)
        out_file = folder / f"{verb.name}.{form}"
        out_file.unlink(missing_ok=True)
        trial.call([*words, "-o", out_file.name], folder, what, codes)
        if out_file.exists():
            files[form] = out_file.read_text(encoding="utf-8")
            if out and out != files[form]:
                trial.blame(f"{what}: {words} says another thing to a file")
    if has_forms:
        _, plain, _ = trial.call([*usual, "--ascii", "--width", "40"], folder, what, bare_codes)
        if not plain.isascii():
            trial.blame(f"{what}: {usual} --ascii is not")
        trial.call([*usual, "--color", "always"], folder, what, bare_codes, "colour")
    # The text as the value of each option that takes one, and as each further argument: it may be refused.
    for option in verb.options:
        if option.takes_value and "-o" not in option.spellings:
            trial.call([*usual, f"{option.spellings[0]}={text}".replace("\0", "")], folder, what, (0, 1, 2, 3))
    for name in verb.arguments[1:]:
        trial.call([verb.name, "hostile.toml", text.replace("\0", "")], folder, f"{what} as {name}", (0, 1, 2, 3))
    return files


def texts_in(value):
    """All texts of an answer in JSON."""
    if isinstance(value, dict):
        return {text for part in value.values() for text in texts_in(part)}
    if isinstance(value, list):
        return {text for part in value for text in texts_in(part)}
    return {value} if isinstance(value, str) else set()


def names_shown(trial, verb, text, what, files):
    """Where an answer tells the names at all, they are the hostile text whole."""
    if "json" in files and verb.name in ("plan", "show"):
        texts = texts_in(json.loads(files["json"]))
        for name in (text, text + " run", text + " fridge"):
            if name not in texts and not (verb.name == "plan" and name == text + " fridge"):
                trial.blame(f"{what}: the JSON of {verb.name} does not tell {name!r}")
    if "text" in files and verb.name == "show":
        if tomllib.loads(files["text"]).get("title") != text:
            trial.blame(f"{what}: what show writes does not read back")


def sample(texts, every):
    """The first text and every Nth."""
    return {what: text for number, (what, text) in enumerate(texts.items()) if number % every == 0}


def try_all(program, every):
    trial = Trial(program)
    verbs = completions.verbs_of(program)
    with_profile = [verb for verb in verbs if verb.arguments[:1] == ["PROFILE"]]
    plain = {}
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for refused, texts in ((False, sample(SHOWN, every)), (True, sample(REFUSED, every))):
            for what, text in texts.items():
                (folder / "hostile.toml").write_text(profile(text), encoding="utf-8")
                code, _, said = trial.call(["plan", "hostile.toml", "-q"], folder, what, (3,) if refused else (0, 1))
                if refused and "hostile.toml:" not in said:
                    trial.blame(f"{what}: the refusal names no place: {said}")
                for verb in with_profile:
                    files = answers_of(trial, verb, text, what, folder, refused)
                    if not refused:
                        names_shown(trial, verb, text, what, files)
                    for form, page in files.items():
                        if what == "plain":
                            plain[verb.name, form] = page
                        kind = "html" if page.lstrip().lower().startswith(("<!doctype", "<html")) else form
                        for fault in faults_of(kind, page, plain.get((verb.name, form), "")):
                            trial.blame(f"{what}: the file of {verb.name}: {fault}")
                        if kind == "html" and " ".join(text.split()) not in " ".join(Page(page).text.split()):
                            trial.blame(f"{what}: the file of {verb.name} does not show the title")
                # Each single place by itself, since a refusal tells of them all.
                if refused:
                    base = profile("plain words")
                    for at, words in (("title", f"title = {in_toml(text)}\n"),
                                      ("load", f"[[load]]\nname = {in_toml(text)}\n")):
                        one = words + base.split("\n", 1)[1] if at == "title" else base + words + 'draw = "2 W"\n'
                        (folder / "hostile.toml").write_text(one, encoding="utf-8")
                        trial.call(["plan", "hostile.toml"], folder, f"{what} as {at}", (3,))
                # As the name of a verb, of a table, of an option, of a file that is not there, and of one that is.
                bare = text.replace("\0", "")
                for words in ([bare], ["tables", bare], ["plan", "hostile.toml", "--" + bare], ["plan", "no " + bare],
                              ["completions", bare]):
                    trial.call(words, folder, what, (0, 2, 3))
                if len(bare) < 200 and "/" not in bare:
                    (folder / bare).write_text("[trip]\ndays = nonsense\n", encoding="utf-8")
                    trial.call(["plan", "./" + bare], folder, what, (3,))
                    (folder / bare).unlink()
        # What is no text at all.
        for what, words in (("a lone surrogate", b'title = "\\uD800"\n'), ("a raw escape", b'title = "\x1b[2J"\n'),
                            ("a raw zero", b'title = "a\0b"\n'), ("no UTF-8", b'title = "\xff\xfe"\n'),
                            ("beyond Unicode", b'title = "\\U00110000"\n'), ("escape in a key", b'"\\u001b[2J" = 1\n'),
                            ("an override in a key", b'"\\u202e" = 1\n'), ("an escape in a comment", b"# \x1b[2J\n")):
            (folder / "hostile.toml").write_bytes(words + profile("plain").split("\n", 1)[1].encode())
            for verb in with_profile:
                trial.call([verb.name, "hostile.toml", "--set", "trip.days=2", "-o", "out"], folder, what, (3,))
    return trial


# Answers as a careless program would give them; each has to be noticed.
SPOILT = (("text", "\x1b[2J", ""), ("text", "a\rb", ""), ("text", "a\u202eb", ""), ("text", "\x9b", ""),
          ("colour", "\x1b[31;1mx\x1b[2K", ""), ("json", '{"a": "\n"}', ""), ("json", '{"a": "\u202e"}', ""),
          ("json", "{", ""), ("csv", "a,b\n=1+1,2\n", ""), ("csv", 'a\n"+cmd"\n', ""), ("csv", "a\n@SUM(1)\n", ""),
          ("csv", "a\n-cmd\n", ""), ("csv", "a,b\n1\n", ""), ("csv", 'a\n"b"c\n', ""),
          ("html", "<p><script>x</script></p>", "<p>x</p>"), ("html", '<p onload="x">y</p>', "<p>y</p>"),
          ("html", '<a href="javascript:x">y</a>', '<a href="#x">y</a>'), ("html", "<p><b>x</b></p>", "<p>x</p>"),
          ("html", '<p id="a" class="b">x</p>', '<p id="a">x</p>'), ("html", "<p>a\u202eb</p>", "<p>x</p>"))
SOUND = (("text", "words\n", ""), ("json", '{"a": "\\u001b \\u202e"}', ""), ("csv", "a,b\n-1.5,'=1\n", ""),
         ("html", "<p>&lt;script&gt;</p>", "<p>x</p>"))


def main(words):
    match words:
        case [program] | [program, "--every", _]:
            every = int(words[2]) if len(words) == 3 else 1
            trial = try_all(os.path.abspath(program), every)
            for kind, text, plain in SPOILT:
                if not faults_of(kind, text, plain):
                    trial.blame(f"{text!r} was taken for sound {kind}")
            for kind, text, plain in SOUND:
                for fault in faults_of(kind, text, plain):
                    trial.blame(f"sound {kind} {text!r} was blamed: {fault}")
            texts = len(sample(SHOWN, every)) + len(sample(REFUSED, every))
            print(f"{texts} hostile texts, {trial.calls} calls, {trial.wrong} faults")
            return 1 if trial.wrong or trial.calls < 2000 / every else 0
    print(__doc__, file=sys.stderr)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
