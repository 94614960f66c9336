"""Words that stand where they should not, counted file by file: the list beside this script may only shrink.

    python3 tests/words.py               fails when a file has more of them, or fewer, than tests/words_allowed.txt says
    python3 tests/words.py --write       writes that list anew, after words have left a file or a file has got another name
    python3 tests/words.py --self-test   plants wrong and sound lines in a copy and fails when one is misjudged

`sentence`: a text of four or more words in a room that computes. What a person reads is told by the rooms of words; a room
that computes answers with a code and quantities. `place`: a place or a part compared as text above the profile, where
a slip of the pen is no error. There it has a type.
"""

import collections
import pathlib
import re
import sys
import tempfile

TOP = pathlib.Path(__file__).resolve().parent.parent
ALLOWED = pathlib.Path("tests/words_allowed.txt")

# What speaks to a person: whole rooms, and single files by room and name. A description's rows are words of an explanation.
SPEAKING = {"messages", "profile", "files", "report"}
# The readers of what somebody typed tell him what is wrong with it.
SPEAKING_FILES = {("shopping", "articles"), ("units", "parse"), ("units", "gauge"), ("units", "money")}
# What reads a profile: there a place is text still.
READING = {"profile", "files"}
READING_FILES = set()

# An `id`, a citation or an equation of a source, and what tells a programmer of a mistake.
CITED = re.compile(r"\b(Source|Equation)\s*(\w+\s*)?\{[^;{}]*$|\bcite\b[^;]*$")
MISTAKE = re.compile(r"\b((std::)?(logic_error|invalid_argument|out_of_range|domain_error)|require|static_assert)\s*\([^;]*$")

PLACES = (r"starter|starter battery|battery|house battery|house|charger|charger output|inverter|panel|regulator|alternator|body|"
          r"frame|fuse|feed|lug|ring lug|stud|joint|crimp|measured joint|battery clamp|lighter socket|two-pole plug")
AS_TEXT = re.compile(r'[!=]=\s*"(?:%(p)s)"|"(?:%(p)s)"\s*[!=]=|'
                     r'\b(?:begins_with|starts_with|ends_with|contains|find|count|compare)\([^()"]*"(?:%(p)s)"' % {"p": PLACES})

TOKEN = re.compile(r'R"\((?P<raw>.*?)\)"|"(?P<plain>(?:\\.|[^"\\\n])*)"|//[^\n]*|/\*.*?\*/|\'(?:\\.|[^\'\\\n])\'|^[ \t]*#[ \t]*include[^\n]*',
                   re.S | re.M)
BETWEEN = re.compile(r"(\s|//[^\n]*\n)*")
WORD = re.compile(r"[^\W\d_]")


def texts(code):
    """Each text in the code, neighbours joined, as (where it begins, text)."""
    found, end = [], None
    for token in TOKEN.finditer(code):
        text = token["raw"] if token["raw"] is not None else token["plain"]
        if text is None:
            continue
        if end is not None and BETWEEN.fullmatch(code, end, token.start()):
            found[-1] = (found[-1][0], found[-1][1] + text)
        else:
            found.append((token.start(), text))
        end = token.end()
    return found


def without_comments(code):
    """The same, with blanks for comments and #include lines, so that places in it stay where they are."""
    def blank(token):
        is_text = token["raw"] is not None or token["plain"] is not None or token[0].startswith("'")
        return token[0] if is_text else re.sub(r"[^\n]", " ", token[0])
    return TOKEN.sub(blank, code)


def sentences(code):
    for begins, text in texts(code):
        if sum(1 for word in re.split(r"\s+", text) if WORD.search(word)) < 4:
            continue
        before = code[max(0, begins - 600):begins]
        if not CITED.search(before) and not MISTAKE.search(before):
            yield code.count("\n", 0, begins) + 1, text


def places(code):
    code = without_comments(code)
    for found in AS_TEXT.finditer(code):
        yield code.count("\n", 0, found.start()) + 1, found[0]


KINDS = {"sentence": (sentences, SPEAKING, SPEAKING_FILES), "place": (places, READING, READING_FILES)}


def found_in(top):
    """Every one below `top`, as {(kind, path): [(line, text)]}."""
    found = {}
    for path in sorted((top / "lib" / "voltwright").rglob("*.?pp")):
        room, name = path.relative_to(top / "lib" / "voltwright").parts[0], path.stem
        for kind, (look, rooms, files) in KINDS.items():
            if room in rooms or (room, name) in files or name.endswith("_description"):
                continue
            if lines := list(look(path.read_text(encoding="utf-8"))):
                found[kind, path.relative_to(top).as_posix()] = lines
    return found


def allowed_by(top):
    allowed = collections.Counter()
    for line in (top / ALLOWED).read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            kind, path, count = line.split()
            allowed[kind, path] = int(count)
    return allowed


def faults(top):
    found, allowed = found_in(top), allowed_by(top)
    for kind, path in sorted(found.keys() | allowed.keys()):
        lines, most = found.get((kind, path), []), allowed[kind, path]
        if len(lines) > most:
            yield f"{path}: {len(lines)} of the kind `{kind}`, {most} allowed:"
            yield from (f"    {path}:{line}: {text[:90]}" for line, text in lines)
        elif len(lines) < most:
            yield f"{path}: {len(lines)} of the kind `{kind}`, {most} listed: run tests/words.py --write"


def write():
    head = [line for line in (TOP / ALLOWED).read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    rows = [f"{kind} {path} {len(lines)}" for (kind, path), lines in sorted(found_in(TOP).items())]
    (TOP / ALLOWED).write_text("\n".join(head + rows) + "\n", encoding="utf-8")
    return 0


def check():
    found = list(faults(TOP))
    for line in found:
        print(line)
    return 1 if found else 0


def self_test():
    sound = 0
    cases = [
        ("planning/one.cpp", 'const char* x = "take a thicker cable instead";', {"sentence": 1}),
        ("planning/one.cpp", 'const char* x = "take a "\n    // why\n    "thicker cable";', {"sentence": 1}),
        ("planning/one.cpp", 'const char* x = R"(take a thicker "cable")";', {"sentence": 1}),
        ("planning/one.cpp", 'f("take a thicker", "cable at once");', {}),
        ("planning/one.cpp", 'const char* x = "12.8 V · 3 A / 4";', {}),
        ("planning/one.cpp", "// they said \"take a thicker cable\" and went", {}),
        ("planning/one.cpp", 'constexpr Source source{"iec", "a standard of four words"};', {}),
        ("planning/one.cpp", 'throw std::logic_error("a run comes back twice here");', {}),
        ("planning/one.cpp", 'throw std::logic_error(x); }\nauto y = "a run comes back twice";', {"sentence": 1}),
        ("planning/one_description.hpp", 'field(&A::b, "", "what a meter shows there");', {}),
        ("report/one.cpp", 'const char* x = "take a thicker cable instead";', {}),
        ("profile/keys.cpp", 'const char* x = "take a thicker cable instead";', {}),
        ("vehicle/resolve.cpp", 'const char* x = "take a thicker cable instead";', {"sentence": 1}),
        ("vehicle/resolve.cpp", 'if (run.from == "starter") return;', {"place": 1}),
        ("vehicle/resolve.cpp", 'if ("battery clamp" != joint.name) return;', {"place": 1}),
        ("report/one.cpp", 'if (begins_with(joint.name, "two-pole plug")) return;', {"place": 1}),
        ("report/one.cpp", 'if (a == "battery" || a == "starter") return;', {"place": 2}),
        ("report/one.cpp", 'if (format == "json") return;  // not "lug" == x', {}),
        ("report/one.cpp", 'return Place{"starter"};', {}),
        ("profile/contradictions.cpp", 'if (run.from == "starter") return;', {}),
        ("files/one.cpp", 'if (run.from == "starter") return;', {}),
    ]
    for name, code, expected in cases:
        with tempfile.TemporaryDirectory() as folder:
            copy = pathlib.Path(folder)
            path = copy / "lib" / "voltwright" / name
            path.parent.mkdir(parents=True)
            path.write_text(f"{code}\n", encoding="utf-8")
            counts = {kind: len(lines) for (kind, _), lines in found_in(copy).items()}
            (copy / "tests").mkdir()
            # As many as there are pass; one more and one fewer do not.
            judged = []
            for off in (0, -1, 1):
                (copy / ALLOWED).write_text("".join(f"{kind} lib/voltwright/{name} {count + off}\n" for kind, count in counts.items()))
                judged.append(bool(list(faults(copy))))
            if counts != expected or judged != [False, bool(counts), bool(counts)]:
                print(f"{name}: {code}: expected {expected}, found {counts}; judged {judged}")
            else:
                sound += 1
    print(f"{len(cases)} planted lines, {len(cases) - sound} misjudged")
    return 0 if sound == len(cases) else 1


if __name__ == "__main__":
    sys.exit({(): check, ("--write",): write, ("--self-test",): self_test}[tuple(sys.argv[1:])]())
