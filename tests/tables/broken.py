"""Tables that must stop the build, and the words with which they do.

    python3 tests/tables/broken.py GENERATOR

Each case is a sound table with one thing changed. `@` in the new text marks the place that the message is to name;
where there is none, the place is given as line and column. A table that is refused leaves no output behind, and the
sound ones are not refused.
"""

import pathlib
import subprocess
import sys
import tempfile

SOURCE = """
[source]
id      = "a-handbook"
cite    = "A Handbook, table 1"
status  = "memory"
terms   = "figures only, no text taken"
entered = "2026-11-25 from the page, read back the same day"
"""

FUSES = f"""\
kind    = "fuses"
title   = "Ratings of fuses"
applies = "a shelf"
{SOURCE}
[columns]
family = ""
rating = "A"
cold   = "mohm"

[[row]]
family = "blade"
rating = 5
cold   = 17.9

[[row]]
family = "blade"
rating = 10
cold   = 7.7
"""

FAMILIES = f"""\
kind    = "fuse_families"
title   = "Families of fuses"
applies = "a shelf"
{SOURCE}
[columns]
family   = ""
standard = ""
form     = ""
holder   = "mohm"
rerating = "/K"
usual    = ""

[[row]]
family   = "blade"
standard = "a standard"
form     = "blade"
holder   = 2
rerating = 0.0015
usual    = true
"""

WIRES = f"""\
kind    = "conductors"
title   = "Copper conductors"
applies = "stranded copper"
{SOURCE}
[constants]
resistance_at = {{ value = 20, unit = "degC" }}
coefficient   = {{ value = 0.00393, unit = "/K", id = "a-standard", cite = "A Standard", status = "memory" }}

[columns]
gauge  = ""
area   = "mm2"
plain  = "ohm/km"
tinned = "ohm/km"

[[row]]
gauge  = "10 mm2"
area   = 10
plain  = 1.91
tinned = 1.95

[[row]]
gauge  = "16 mm2"
area   = 16
plain  = 1.21
tinned = 1.24
"""

BASES = f"""\
kind    = "ampacity_bases"
title   = "Bases"
applies = "boats"
{SOURCE}
[columns]
basis         = ""
title         = ""
ambient       = "degC"
grouping_from = "V"

[[row]]
basis         = "a-rule"
title         = "A Rule"
ambient       = 30
grouping_from = 0
"""

CURRENTS = f"""\
kind    = "ampacities"
title   = "Currents"
applies = "one conductor in free air"
{SOURCE}
[constants]
basis = "a-rule"

[columns]
gauge = ""
60    = "A"
105   = "A"

[[row]]
gauge = "10 mm2"
60    = 40
105   = 90

[[row]]
gauge = "16 mm2"
60    = 54
105   = 130
"""

BUNDLES = f"""\
kind    = "groupings"
title   = "Bundles"
applies = "loaded conductors lying together"
{SOURCE}
[constants]
basis = "a-rule"

[columns]
from   = ""
to     = ""
factor = "1"

[[row]]
from   = 4
to     = 6
factor = 0.6

[[row]]
from   = 7
factor = 0.5
"""

JOINTS = f"""\
kind    = "joints"
title   = "Joints"
applies = "new and well made"
{SOURCE}
[columns]
name  = ""
from  = "mm2"
to    = "mm2"
low   = "mohm"
usual = "mohm"
high  = "mohm"

[[row]]
name  = "lug"
from  = 1
to    = 50
low   = 0.1
usual = 0.2
high  = 0.5
"""

SOUND = {"fuses": FUSES, "families": FAMILIES, "wires": WIRES, "bases": BASES, "currents": CURRENTS,
         "bundles": BUNDLES, "joints": JOINTS}

# table, old text, new text, place where there is no mark, message
CASES = [
    ("fuses", 'kind    = "fuses"\n', "", "1:1", "the table has no 'kind'"),
    ("fuses", '"fuses"', '@"fuzes"', None, "'fuzes' is no kind of table"),
    ("fuses", 'title   = "Ratings of fuses"\n', "", "1:1", "the table has no 'title'"),
    ("fuses", 'applies = "a shelf"', 'applies = @""', None, "'applies' is to be a text"),
    ("fuses", 'applies = "a shelf"', 'applies = "a shelf"\n@colour = "red"', None, "'colour' has no place in a table"),
    ("fuses", "[source]", "[sauce]", "5:2", "'sauce' has no place in a table"),
    ("fuses", 'cite    = "A Handbook, table 1"\n', "", "5:1", "[source] has no 'cite'"),
    ("fuses", 'status  = "memory"', 'status  = @"hearsay"', None,
     "'hearsay' is no status; one of common_practice, memory, read, read_weak, recomputed"),
    ("fuses", 'rating = "A"', 'rating = @"amps"', None, "'amps' is no unit that the tables know"),
    ("fuses", 'rating = "A"', 'rating = @"V"', None,
     "'rating' is of the kind Current; 'V' is a unit of the kind Voltage"),
    ("fuses", 'rating = "A"', 'rating = @""', None, "'rating' needs a unit"),
    ("fuses", 'family = ""', 'family = @"A"', None, "'family' holds no quantity: its unit is to be \"\""),
    ("fuses", 'cold   = "mohm"', 'cold   = "mohm"\n@warm   = "mohm"', None,
     "'warm' is no column of this kind of table"),
    ("fuses", 'rating = "A"\n', "", "12:1", "the table has no column 'rating'"),
    ("fuses", "rating = 10\n", "", "22:1", "this row has no 'rating'"),
    ("fuses", "rating = 10", 'rating = @"10 A"', None, "'rating' is to be a number"),
    ("fuses", "rating = 10", "rating = @-10", None, "'rating' is to be more than nothing"),
    ("fuses", "rating = 10", "rating = @nan", None, "'rating' is to be a finite number"),
    ("fuses", "rating = 10", "rating = @4", None, "'rating' is to rise from row to row"),
    ("fuses", "cold   = 7.7", "cold   = @77", None, "'cold' is to fall from row to row"),
    ("fuses", "cold   = 7.7", "cold   = 7.7\n@price  = 2", None, "'price' is not among the table's columns"),
    ("fuses", '"blade"\nrating = 10', '"glass"\nrating = 10', "22:1",
     "\"glass\" is no name in a table of the kind 'fuse_families'"),
    ("fuses", "cold   = 7.7", "cold   = 7.7@.1", None,
     "Error while parsing floating-point: expected decimal digit or exponent, saw '.'"),
    ("families", 'form     = "blade"', 'form     = @"bayonet"', None, "'form' is to be one of blade, bolted, post"),
    ("families", "usual    = true", 'usual    = @"yes"', None, "'usual' is to be true or false"),
    ("wires", '"16 mm2"', '@"16"', None,
     "'16' is no conductor size; one of the forms \"8 AWG\", \"2/0 AWG\", \"10 mm2\", \"6 mm auto\""),
    ("wires", '"16 mm2"', '@"6 mm2"', None, "'gauge' is to rise from row to row"),
    ("wires", '"16 mm2"', '"10 mm2"', "28:1", "this row is there already, at data/wires.toml:22"),
    ("wires", "plain  = 1.21", "plain  = @12.1", None, "'plain' is to fall from row to row"),
    ("wires", "tinned = 1.24", "tinned = 1.20", "28:1", "'plain' is not to be more than 'tinned'"),
    ("wires", 'resistance_at = { value = 20, unit = "degC" }', 'resistance_at = @{ value = 20, unit = "V" }', None,
     "'resistance_at' is of the kind Temperature; 'V' is a unit of the kind Voltage"),
    ("wires", 'resistance_at = { value = 20, unit = "degC" }\n', "", "12:1", "[constants] has no 'resistance_at'"),
    ("wires", 'cite = "A Standard", ', "", "14:17", "'coefficient' has no 'cite'"),
    ("currents", 'basis = "a-rule"', 'basis = "no-rule"', "20:1",
     "\"no-rule\" is no name in a table of the kind 'ampacity_bases'"),
    ("bases", "ambient       = 30", "ambient       = @3000", None, "'ambient' is no temperature to be met"),
    ("currents", "105   = 90", "105   = @30", None, "a higher temperature class is not to carry less"),
    ("currents", "105   = 130", "105   = @80", None, "a thicker conductor is not to carry less"),
    ("bundles", "from   = 7", "from   = @7.5", None, "'from' is to be a whole number from 1"),
    ("bundles", "factor = 0.5", "factor = @1.5", None, "'factor' is a share of a whole, not more than 1"),
    ("joints", "usual = 0.2", "usual = 0.6", "20:1", "'usual' is not to be more than 'high'"),
]


def run(generator, folder, tables):
    data = folder / "data"
    data.mkdir()
    for name, text in tables.items():
        (data / f"{name}.toml").write_text(text, encoding="utf-8")
    files = sorted(f"data/{name}.toml" for name in tables)
    answer = subprocess.run([generator, "out.cpp", *files], cwd=folder, capture_output=True, timeout=60, check=False)
    return answer.returncode, answer.stderr.decode("utf-8").strip(), (folder / "out.cpp").exists()


def marked(text):
    """The text without its mark, and where the mark stood."""
    if "@" not in text:
        return text, None
    before = text[: text.index("@")]
    return text.replace("@", "", 1), f"{before.count(chr(10)) + 1}:{len(before) - before.rfind(chr(10))}"


def main(words):
    if len(words) != 1:
        print(__doc__, file=sys.stderr)
        return 2
    generator = str(pathlib.Path(words[0]).resolve())
    faults = 0

    def check(tables, expected):
        nonlocal faults
        with tempfile.TemporaryDirectory() as folder:
            code, said, written = run(generator, pathlib.Path(folder), tables)
        if expected is None:
            good = code == 0 and written and not said
        else:
            good = code == 1 and not written and said == expected
        if not good:
            faults += 1
            output = ", output written" if written else ""
            print(f"expected: {expected or 'no message'}\nfound:    {said} (exit {code}{output})\n")

    check(SOUND, None)
    for name, old, new, place, message in CASES:
        if SOUND[name].count(old) != 1:
            print(f"{name}: {old!r} is there {SOUND[name].count(old)} times: this case changes nothing")
            faults += 1
            continue
        text, mark = marked(SOUND[name].replace(old, new))
        check(SOUND | {name: text}, f"data/{name}.toml:{mark or place}: error: {message}")
    print(f"{len(CASES)} broken tables, {faults} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
