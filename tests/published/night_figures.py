"""Figures that somebody else measured or published of the night, and what the program makes of the same case.

    python3 tests/published/night_figures.py PROGRAM [PART OF A NAME]       checks every figure
    python3 tests/published/night_figures.py PROGRAM --table                prints source, published, predicted, ratio, band
    python3 tests/published/night_figures.py PROGRAM --update               writes what is predicted into the file
    python3 tests/published/night_figures.py --self-test

night_figures.toml holds the figures, night_recipes.py how each is asked. Predicted over published must lie within the
figure's band, and within a few per cent of what the file says was predicted: a figure that moves is looked at.
"""

import pathlib
import re
import sys
import tomllib

from night_recipes import RECIPES, Program

FILE = pathlib.Path(__file__).resolve().with_suffix(".toml")
STANDINGS = ("standard", "measured", "weak", "memory")
KEYS = {"name", "source", "standing", "known", "published", "unit", "of", "predicted", "band", "reason"}
USUAL_BAND = [0.8, 1.25]
LEAST = 70       # figures, not counting those that were known
MOVED = 0.03     # of the predicted figure: more is looked at


def published(figure):
    value = figure["published"]
    return sum(value) / len(value) if isinstance(value, list) else value


def predict(program, figure):
    parameters = dict(figure["of"])
    return RECIPES[parameters.pop("recipe")](program, **parameters)


def badly_written(figure):
    if set(figure) - KEYS:
        yield f"unknown: {set(figure) - KEYS}"
    if figure.get("standing") not in STANDINGS or not figure.get("source"):
        yield "no source, or no standing"
    band = figure.get("band", USUAL_BAND)
    if (band[0] < USUAL_BAND[0] or band[1] > USUAL_BAND[1]) and not figure.get("reason"):
        yield "a band beyond the usual one without its reason"


def judge(figure, found):
    """What is wrong with a predicted figure."""
    if found is None:
        yield "is never reached"
        return
    ratio, band = found / published(figure), figure.get("band", USUAL_BAND)
    if not band[0] <= ratio <= band[1]:
        yield f'{found:.4g} {figure["unit"]}, {ratio:.2f} times the published {published(figure):.4g}, not {band[0]} to {band[1]}'
    if "predicted" in figure and abs(found - figure["predicted"]) > MOVED * abs(figure["predicted"]):
        yield f'{found:.4g} {figure["unit"]}, where {figure["predicted"]:.4g} was predicted: look at why, then --update'


def check(program, figures):
    wrong = 0
    for figure in figures:
        faults = list(badly_written(figure))
        try:
            faults += list(judge(figure, predict(program, figure)))
        except (ValueError, KeyError, StopIteration, TypeError) as fault:
            faults.append(f"cannot be asked: {fault!r}")
        wrong += bool(faults)
        for fault in faults:
            print(f'{figure["name"]}: {fault}')
    print(f"{len(figures)} figures, {wrong} wrong")
    return wrong == 0


def print_table(program, figures):
    print(f'{"published":>10} {"predicted":>10} {"ratio":>6}  {"band":<12} {"standing":<9} figure')
    for figure in figures:
        found = predict(program, figure)
        band = figure.get("band", USUAL_BAND)
        ratio = "–" if found is None else f"{found / published(figure):.2f}"
        inside = found is not None and band[0] <= found / published(figure) <= band[1]
        text = "never" if found is None else f"{found:.4g}"
        print(f'{published(figure):>10.4g} {text:>10} {ratio:>6}{" " if inside else "!"} {f"{band[0]}-{band[1]}":<12} '
              f'{figure["standing"] + ("*" if figure.get("known") else ""):<9} {figure["name"]}, {figure["unit"]}')
    print("* known when the model was made")


def update(program, figures):
    """Writes `predicted` into the file, below `of`."""
    parts = re.split(r"(?m)^(?=\[\[figure\]\])", FILE.read_text())
    for i, figure in enumerate(figures, 1):
        found = predict(program, figure)
        part = re.sub(r"(?m)^predicted = .*\n", "", parts[i])
        if found is not None:
            part = re.sub(r"(?m)^(of = .*\n)", lambda line: f"{line[1]}predicted = {found:.4g}\n", part, count=1)
        parts[i] = part
    FILE.write_text("".join(parts))


def self_test():
    """A figure outside its band, one that moved, and a wide band without a reason are noticed."""
    sound = {"name": "a", "source": "b", "standing": "weak", "published": [9, 11], "unit": "h", "of": {}, "predicted": 9.0}
    assert not list(judge(sound, 9.1)) and not list(badly_written(sound))
    assert list(judge(sound, 12.6)) and list(judge(sound, 9.9)) and list(judge(sound, None))
    assert list(badly_written({**sound, "band": [0.5, 1.2]})) and list(badly_written({**sound, "standing": "good"}))
    assert not list(badly_written({**sound, "band": [0.5, 1.2], "reason": "c"}))
    return True


def main(words):
    if words == ["--self-test"]:
        return self_test()
    figures = tomllib.loads(FILE.read_text())["figure"]
    program = Program(words[0])
    if words[1:] == ["--table"]:
        print_table(program, figures)
        return True
    if words[1:] == ["--update"]:
        update(program, figures)
        return True
    some = [figure for figure in figures if not words[1:] or words[1] in figure["name"]]
    enough = len(words) > 1 or sum(not figure.get("known") for figure in figures) >= LEAST
    if not enough:
        print(f"fewer than {LEAST} figures that were not known before")
    return check(program, some) and enough


if __name__ == "__main__":
    sys.exit(0 if main(sys.argv[1:]) else 1)
