"""Published cases of cables, fuses, melted parts and fires, and sensible vehicles: what the plan says of each.

    python3 tests/published/wiring_cases.py PROGRAM [PART OF A NAME]
    python3 tests/published/wiring_cases.py --self-test

wiring_cases.toml holds the published ones, wiring_sensible.toml what nobody would call wrong. A case has a `name`, its `source` without names of makers, a `standing` (how well its figures are
known), a small `profile`, and what must come of it:

    says    = ["stop|warn ampacity trailer"]        a finding: its level, its code (or some, with |), what it is about
    silent  = ["inverter"]                          no stop and no warning about these runs, but for those in `says`
    spares  = ["breaking-capacity"]                 codes that do not occur
    sizes   = { inverter = "4 AWG to 1/0 AWG" }     the chosen cable, thinnest to thickest
    fuses   = { inverter = "150 to 175 A" }         the chosen fuse
    figures = { "pump.drop_V" = [0.86, 0.95] }      a figure of a run, from and to
    page    = ["put it at the battery"]             a text of the page, read over its line breaks
    holds   = true                                  no stop about a cable, a fuse or a part at all
    sound   = true                                  no stop and no warning at all, but for those in `says`

What a profile leaves out is filled in: a mild day, an AGM battery of 100 Ah, a charger of 20 A with its two cables.
"""

import json
import math
import pathlib
import re
import subprocess
import sys
import tomllib

FOLDER = pathlib.Path(__file__).resolve().parent
CASES = [FOLDER / "wiring_cases.toml", FOLDER / "wiring_sensible.toml"]
KEYS = {"name", "source", "standing", "profile", "says", "silent", "spares", "sizes", "fuses", "figures", "page", "holds", "sound"}
STANDINGS = ("read", "read weak", "memory", "common practice, no source")
# Stops of the night and the trip: another matter than cables, fuses and parts.
OF_THE_NIGHT = {"depth-limit", "cut-out", "without-power", "driving-loses", "never-full", "starter-drained", "fridge-overwhelmed",
                "acid-freezes", "battery-too-cold", "too-cold-to-charge", "discharged-too-hard", "inverter-above-battery", "charged-too-hard"}

LEFT_OUT = (
    (r"^\[trip\]", '[trip]\nlow = "12 degC"\nhigh = "25 degC"\ndrives = "08:00-14:00"\n'),
    (r"^\[battery\]", '[battery]\nchemistry = "agm"\ncapacity = "100 Ah"\nwhere = "25 degC"\n'),
    (r"^\[charger\]", '[charger]\noutput = "20 A"\nwhere = "25 degC"\n'),
    (r'to *= *"charger"', '[[run]]\nto = "charger"\nlength = "4 m"\n'),
    (r'to *= *"battery"', '[[run]]\nto = "battery"\nlength = "1 m"\n'),
)


def filled_in(profile):
    missing = [text for pattern, text in LEFT_OUT if not re.search(pattern, profile, re.MULTILINE)]
    return "".join(missing) + profile


def copper(size):
    """mm2 of a size by its name; AWG by the geometry of ASTM B258."""
    number, unit = size.split()
    if unit == "mm2":
        return float(number)
    n = 1 - int(number.split("/")[0]) if "/" in number else int(number)
    return math.pi / 4.0 * (0.127 * 92.0 ** ((36 - n) / 39.0)) ** 2


def span(text, read):
    """From and to of "A to B" or of "A" alone."""
    parts = text.split(" to ")
    return read(parts[0]), read(parts[-1])


def ampere(text):
    return float(text.replace(" A", ""))


def about(finding):
    """One thing or several: "fridge, fan"."""
    return finding["about"].split(", ")


def is_that(words, finding):
    levels, codes, thing = words.split(" ", 2)
    return finding["level"] in levels.split("|") and finding["code"] in codes.split("|") and thing in about(finding)


def is_said(words, findings):
    return any(is_that(words, finding) for finding in findings)


def wrong_findings(case, plan):
    findings = plan["findings"]
    for words in case.get("says", ()):
        if not is_said(words, findings):
            yield f"does not say: {words}"
    for f in findings:
        if any(is_that(words, f) for words in case.get("says", ())):
            continue
        if f["level"] != "note" and (case.get("sound") or set(about(f)) & set(case.get("silent", ()))):
            yield f'says {f["level"]} {f["code"]} {f["about"]}: {f["text"]}'
        if f["code"] in case.get("spares", ()):
            yield f'says {f["level"]} {f["code"]} {f["about"]}: {f["text"]}'
        if case.get("holds") and f["level"] == "stop" and f["code"] not in OF_THE_NIGHT:
            yield f'stops: {f["code"]} {f["about"]}: {f["text"]}'


def wrong_choices(case, plan):
    runs = {run["name"]: run for run in plan["runs"]}
    for name, wanted in case.get("sizes", {}).items():
        least, most = span(wanted, copper)
        size = runs[name]["size"]
        if size is None or not runs[name]["fits"] or not least * 0.999 <= copper(size) <= most * 1.001:
            yield f'{name}: {size}{"" if runs[name]["fits"] else " (does not fit)"}, not {wanted}'
    for name, wanted in case.get("fuses", {}).items():
        least, most = span(wanted, ampere)
        rating = runs[name]["fuses"][0]["rating_A"] if runs[name]["fuses"] else None
        if rating is None or not least <= rating <= most:
            yield f"{name}: fuse of {rating} A, not {wanted}"
    for name, (least, most) in case.get("figures", {}).items():
        run, key = name.rsplit(".", 1)
        if runs[run][key] is None or not least <= runs[run][key] <= most:
            yield f"{name} is {runs[run][key]}, not {least} to {most}"


def ask(program, case, form):
    answer = subprocess.run([program, "plan", "-", "--format", form], input=filled_in(case["profile"]).encode(),
                            capture_output=True, timeout=60, check=False)
    if answer.returncode not in (0, 1):
        raise ValueError(answer.stderr.decode())
    return answer.stdout.decode()


def wrong(program, case):
    unknown = set(case) - KEYS
    if unknown or case.get("standing") not in STANDINGS or not case.get("source"):
        return [f"the case itself: {unknown or 'no source, or no standing'}"]
    try:
        plan = json.loads(ask(program, case, "json"))
        faults = list(wrong_findings(case, plan)) + list(wrong_choices(case, plan))
        if "page" in case:
            page = re.sub(r"\s+", " ", ask(program, case, "text"))
            faults += [f"the page does not say: {words}" for words in case["page"] if not re.search(words, page)]
    except (ValueError, KeyError) as fault:
        return [f"cannot be planned: {fault}"]
    return faults


def self_test():
    """A wrong answer is noticed."""
    plan = {"findings": [{"level": "stop", "code": "ampacity", "about": "pump", "text": ""}],
            "runs": [{"name": "pump", "size": "8 AWG", "fits": True, "fuses": [{"rating_A": 30.0}], "drop_V": 0.5}]}
    sound = {"says": ["stop|warn ampacity pump"], "sizes": {"pump": "10 AWG to 6 AWG"}, "fuses": {"pump": "30 A"},
             "figures": {"pump.drop_V": [0.4, 0.6]}}
    spoilt = ({"says": ["warn ampacity pump"]}, {"says": ["stop ampacity feed"]}, {"silent": ["pump"]}, {"holds": True},
              {"spares": ["ampacity"]}, {"sizes": {"pump": "6 AWG"}}, {"sizes": {"pump": "10 AWG"}}, {"fuses": {"pump": "40 A"}},
              {"figures": {"pump.drop_V": [0.6, 0.7]}})
    missed = [case for case in spoilt if not [*wrong_findings(case, plan), *wrong_choices(case, plan)]]
    if [*wrong_findings(sound, plan), *wrong_choices(sound, plan)]:
        missed.append(sound)
    print(f"{len(missed)} of {len(spoilt) + 1} judged wrongly {missed or ''}")
    return 1 if missed else 0


def main(words):
    if words == ["--self-test"]:
        return self_test()
    if not words:
        print(__doc__, file=sys.stderr)
        return 2
    cases = []
    for path in CASES:
        with path.open("rb") as file:
            cases += tomllib.load(file)["case"]
    cases = [case for case in cases if len(words) < 2 or words[1] in case["name"]]
    bad = 0
    for case in cases:
        faults = wrong(words[0], case)
        bad += bool(faults)
        for fault in faults:
            print(f'{case["name"]}: {fault}')
    print(f"{len(cases)} cases, {bad} wrong")
    return 1 if bad or not cases else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
