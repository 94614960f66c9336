"""Holds sound and broken profiles against shared/profile.schema.json: the sound pass, each broken one is refused where it
is broken.

    python3 tests/profile_schema.py
"""

import copy
import json
import pathlib
import sys
import tomllib

import jsonschema

TOP = pathlib.Path(__file__).resolve().parent.parent

SIMPLEST = (TOP / "examples/profiles/simplest.toml").read_text(encoding="utf-8")

# A path, the value put there (GONE: taken away), where the schema complains (a beginning of the path).
GONE = object()
BROKEN = [
    (["run", 0, "length"], "6", ["run", 0, "length"]),
    (["run", 0, "length"], 6, ["run", 0, "length"]),
    (["run", 0, "length"], "6 V", ["run", 0, "length"]),
    (["run", 0, "length"], "6,5 m", ["run", 0, "length"]),
    (["run", 0, "length"], GONE, ["run", 0]),
    (["run", 0, "lenght"], "6 m", ["run", 0]),
    (["run", 0, "size"], "8", ["run", 0, "size"]),
    (["run", 0, "size"], "16 mm", ["run", 0, "size"]),
    (["run", 0, "insulation"], "105 degC bakelite", ["run", 0, "insulation"]),
    (["run", 0, "fuse"], 50, ["run", 0, "fuse"]),
    (["run"], {"to": "charger"}, ["run"]),
    (["trip", "days"], 0, ["trip", "days"]),
    (["trip", "days"], 367, ["trip", "days"]),
    (["trip", "days"], "3", ["trip", "days"]),
    (["trip", "drives"], "08:30", ["trip", "drives"]),
    (["trip", "drives"], ["08:30-10:60"], ["trip", "drives"]),
    (["trip", "start"], "14.9.2026", ["trip", "start"]),
    (["trip", "high"], "31", ["trip", "high"]),
    (["battery"], GONE, []),
    (["battery", "chemistry"], "lithium", ["battery", "chemistry"]),
    (["batery"], {}, []),
    (["fridge", 0, "draw"], "45 Ah", ["fridge", 0, "draw"]),
    (["fridge", 0, "rated", 0, "around"], GONE, ["fridge", 0, "rated"]),
    (["fridge", 0, "essential"], "yes", ["fridge", 0, "essential"]),
    (["fridge"], [{"draw": "45 W"}] * 11, ["fridge"]),
    (["day"], [{"on": 0}], ["day", 0, "on"]),
    (["meter"], {"voltage": "20 m"}, ["meter", "voltage"]),
    # The blanks of a new profile: an editor marks each of them until it is filled in.
    *((path, "", path) for path in (
        ["trip", "days"], ["trip", "low"], ["trip", "high"], ["trip", "drives"], ["battery", "chemistry"],
        ["battery", "capacity"], ["charger", "output"], ["run", 0, "length"], ["run", 1, "length"], ["run", 2, "length"],
        ["fridge", 0, "draw"])),
    (["fridge", 0, "rated", 0, "around"], "", ["fridge", 0, "rated"]),
    (["fridge", 0, "rated", 0, "a_day"], "", ["fridge", 0, "rated"]),
]

SOUND = [
    (["run", 0, "length"], "19 ft"),
    (["run", 0, "length"], " 6.5m "),
    (["run", 0, "where"], [{"place": "engine bay", "length": "2 m"}, {"place": "35 °C", "length": "4 m"}]),
    (["run", 0, "where"], "40 degC"),
    (["run", 0, "return"], "4 ± 1 mOhm"),
    (["run", 0, "return"], "body"),
    (["run", 0, "size"], "8 B&S"),
    (["run", 0, "size"], "4/0 AWG"),
    (["run", 0, "size"], "16 mm²"),
    (["run", 0, "size"], "6 mm auto"),
    (["run", 0, "insulation"], "105 degC xlpe"),
    (["run", 0, "joints"], ["lug", "two-pole plug 50 A", "0.3 mOhm"]),
    (["run", 0, "fuse"], {"starter": "50 A SF30", "battery": "none"}),
    (["run", 0, "fuse"], "none"),
    (["trip", "high"], "31 ± 3 degC"),
    (["trip", "high"], "31 degC +- 3 degC"),
    (["trip", "high"], "88 degF"),
    (["trip", "low"], "-5 °C"),
    (["trip", "start"], "2026-09-14"),
    (["trip", "drives"], ["8:30–10:00", "16:00 - 17:30"]),
    (["trip", "drives"], "none"),
    (["day"], [{"on": "2-4"}, {"on": [1, 6]}, {"on": 9}, {"on": ["11-12", 14]}]),
    (["load"], [{"name": "lamp", "draw": "1.5 A"}, {"name": "heater", "draw": "2.2 ohm", "hours": "22:00-06:00"}]),
    (["fridge", 0, "rated"], {"around": "25 degC", "a_day": "264 Wh"}),
    (["fridge", 0, "restock"], [{"on": "2-3", "at": "17:00", "mass": "4 kg", "from": "24 degC"}]),
    (["fridge", 0, "inrush"], {"current": "15 A", "time": "0.5 s"}),
    (["rules"], {"sizes": ["8 AWG", "16 mm2"], "fuses": ["40 A SF30"], "feed_drop": "5 %", "smallest": "1.5 mm2"}),
    (["reading"], [{"across": ["starter", "charger"], "engine": "idling", "voltage": "650 ± 10 mV"}]),
    (["meter"], {"voltage": "0.5 % + 20 mV", "current": "2 %"}),
]


def changed(profile, path, value):
    result = copy.deepcopy(profile)
    place = result
    for step in path[:-1]:
        place = place[step]
    if value is GONE:
        del place[path[-1]]
    else:
        place[path[-1]] = value
    return result


def main():
    schema = json.loads((TOP / "shared/profile.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    simplest = tomllib.loads(SIMPLEST)
    wrong = 0
    for path, value in [([], None), *SOUND]:
        profile = changed(simplest, path, value) if path else simplest
        for error in validator.iter_errors(profile):
            print(f"sound, yet refused: {path} = {value!r}: {error.message}")
            wrong += 1
    for path, value, place in BROKEN:
        errors = [list(error.absolute_path) for error in validator.iter_errors(changed(simplest, path, value))]
        if not any(error[: len(place)] == place for error in errors):
            print(f"broken, yet not refused there: {path} = {'(gone)' if value is GONE else repr(value)}: {errors}")
            wrong += 1
    print(f"{1 + len(SOUND)} sound and {len(BROKEN)} broken profiles held against the schema, {wrong} wrongly judged")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
