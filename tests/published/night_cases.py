"""What a careful traveller would have said of these nights, and whether the program says it.

    python3 tests/published/night_cases.py PROGRAM [PART OF A NAME]
    python3 tests/published/night_cases.py --self-test

night_cases.toml holds the cases: each a `name`, its `source` and `standing`, a `profile` (or `like`, the name of the case
whose profile it shares), changes of it in `set`, and what must come of it. `ask` is the verb, trip unless it is said; what stands in `holds` and `says` is asked of trip, autonomy and plan alike
where `everywhere` is true.

    holds   = false                                whether nothing stops it; the exit code must agree
    says    = ["stop acid-freezes"]                a finding or an assumption: its level (or some, with |) and code (or some)
    spares  = ["fridge-overwhelmed"]               codes that do not occur
    page    = ["warm the battery"]                 a text of the page, read over its line breaks
    never   = ["larger charger"]                   a text that the page does not hold
    figures = { "trip.lowest_soc_percent" = [20, 30] }     from and to
    against = { set = {…}, figure = "…", is = "below" }     the figure is below (above, within 1 % of) that of the changed one;
              by = 1.5                             as many times at least
"""

import json
import pathlib
import re
import subprocess
import sys
import tomllib

FILE = pathlib.Path(__file__).resolve().with_suffix(".toml")
KEYS = {"name", "like", "source", "standing", "profile", "set", "ask", "words", "everywhere", "holds", "says", "spares", "page", "never",
        "figures", "against"}
STANDINGS = ("standard", "measured", "weak", "memory", "common practice, no source")


def ask(program, case, verb, form, also=None):
    words = [program, verb, "-", *case.get("words", ()), "--format", form, "--width", "400"]
    for key, value in {**case.get("set", {}), **(also or {})}.items():
        words += ["--set", f"{key}={value}"]
    answer = subprocess.run(words, input=case["profile"].encode(), capture_output=True, timeout=60, check=False)
    if answer.returncode not in (0, 1):
        raise ValueError(answer.stderr.decode().strip())
    return answer.returncode, answer.stdout.decode()


def figure_of(answer, path):
    for key in path.split("."):
        answer = answer[int(key)] if key.lstrip("-").isdigit() else answer[key]
    return answer


def told(answer):
    """(level, code) of findings and of what is assumed."""
    return [(f["level"], f["code"]) for f in answer["findings"]] + [("assumed", a["code"]) for a in answer.get("assumed", ())]


def is_said(words, said):
    levels, codes = words.split(" ")
    return any(level in levels.split("|") and code in codes.split("|") for level, code in said)


def wrong_words(case, answer):
    said = told(answer)
    for words in case.get("says", ()):
        if not is_said(words, said):
            yield f"does not say {words}, but {sorted(set(said))}"
    for code in case.get("spares", ()):
        if code in {c for _, c in said}:
            yield f"says {code}"


def wrong_verdict(case, code, answer):
    if "holds" in case and (code == 0) != case["holds"]:
        yield f"exit code {code}"
    if "holds" in case and any(level == "stop" for level, _ in told(answer)) == case["holds"]:
        yield f"stops: {[c for level, c in told(answer) if level == 'stop']}"


def wrong_figures(case, answer):
    for path, (least, most) in case.get("figures", {}).items():
        value = figure_of(answer, path)
        if value is None or not least <= value <= most:
            yield f"{path} is {value}, not {least} to {most}"


def wrong_page(case, page):
    page = re.sub(r"\s+", " ", page)
    yield from (f"the page does not say: {words}" for words in case.get("page", ()) if not re.search(words, page))
    yield from (f"the page says: {words}" for words in case.get("never", ()) if re.search(words, page))


def wrong_against(against, mine, other):
    by = against.get("by", 1.0)
    agrees = {"below": mine * by <= other, "above": mine >= other * by, "same": abs(mine - other) <= 0.01 * abs(other)}
    if not agrees[against["is"]]:
        yield f'{against["figure"]} is {mine:.4g}, and {other:.4g} with {against["set"]}: not {against["is"]}'


def wrong(program, case):
    if set(case) - KEYS or case.get("standing") not in STANDINGS or not case.get("source") or not case.get("profile"):
        return [f"the case itself: {set(case) - KEYS or 'no source, no standing, or no profile'}"]
    faults = []
    try:
        for verb in ("trip", "autonomy", "plan") if case.get("everywhere") else (case.get("ask", "trip"),):
            code, text = ask(program, case, verb, "json")
            answer = json.loads(text)
            found = [*wrong_words(case, answer), *wrong_verdict(case, code, answer)]
            found += [*wrong_figures(case, answer)] if verb == case.get("ask", "trip") else []
            faults += [f"{verb}: {fault}" for fault in found]
        verb = case.get("ask", "trip")
        if "page" in case or "never" in case:
            faults += wrong_page(case, ask(program, case, verb, "text")[1])
        for against in case.get("against", ()):
            mine, other = (figure_of(json.loads(ask(program, case, verb, "json", also)[1]), against["figure"])
                           for also in ({}, against["set"]))
            faults += wrong_against(against, mine, other)
    except (ValueError, KeyError, IndexError, TypeError) as fault:
        faults.append(f"cannot be asked: {fault}")
    return faults


def self_test():
    """A wrong answer is noticed."""
    answer = {"findings": [{"level": "stop", "code": "acid-freezes"}], "assumed": [{"code": "age"}], "trip": {"lowest": 30}}
    assert not list(wrong_words({"says": ["stop|warn acid-freezes", "assumed age"], "spares": ["cut-out"]}, answer))
    assert list(wrong_words({"says": ["warn acid-freezes"]}, answer)) and list(wrong_words({"spares": ["age"]}, answer))
    assert not list(wrong_verdict({"holds": False}, 1, answer)) and list(wrong_verdict({"holds": False}, 0, answer))
    assert list(wrong_verdict({"holds": True}, 0, answer))
    assert not list(wrong_figures({"figures": {"trip.lowest": [29, 31]}}, answer))
    assert list(wrong_figures({"figures": {"trip.lowest": [20, 29]}}, answer))
    assert list(wrong_page({"page": ["warm it"]}, "cool\nit")) and list(wrong_page({"never": ["cool it"]}, "cool\nit"))
    below = {"figure": "a", "set": {}, "is": "below"}
    assert list(wrong_against(below, 3, 2)) and not list(wrong_against(below, 2, 3))
    assert list(wrong_against({**below, "by": 1.6}, 2, 3)) and list(wrong_against({**below, "is": "above", "by": 1.6}, 3, 2))
    return True


def main(words):
    if words == ["--self-test"]:
        return self_test()
    cases = tomllib.loads(FILE.read_text())["case"]
    profiles = {case["name"]: case.get("profile") for case in cases}
    for case in cases:
        case.setdefault("profile", profiles.get(case.get("like")))
    cases = [case for case in cases if not words[1:] or words[1] in case["name"]]
    bad = 0
    for case in cases:
        faults = wrong(words[0], case)
        bad += bool(faults)
        for fault in faults:
            print(f'{case["name"]}: {fault}')
    print(f"{len(cases)} cases, {bad} wrong")
    return bad == 0


if __name__ == "__main__":
    sys.exit(0 if main(sys.argv[1:]) else 1)
