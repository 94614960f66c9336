"""Holds what is written in this project, and what the program answers, against the JSON Schemas of shared/.

    python3 tests/schema.py tables             every data/**/*.toml against table.schema.json
    python3 tests/schema.py profiles           every examples/profiles/*.toml against profile.schema.json
    python3 tests/schema.py prices             every examples/prices/*.toml against prices.schema.json
    python3 tests/schema.py readings PROGRAM   what readings and diagnose answer for each of those profiles
    python3 tests/schema.py parts PROGRAM      what parts answers for each of those profiles against parts.schema.json
    python3 tests/schema.py plans PROGRAM      what the verbs answer in JSON for each of those against plan.schema.json

Prints every fault as file: place: what. A schema that is not there is a fault.
"""

import datetime
import json
import pathlib
import subprocess
import sys
import tomllib

import jsonschema

TOP = pathlib.Path(__file__).resolve().parent.parent


def as_json(value):
    """TOML's dates and times as JSON has them: text."""
    if isinstance(value, dict):
        return {key: as_json(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [as_json(inner) for inner in value]
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return value


def read_toml(path):
    with path.open("rb") as file:
        return as_json(tomllib.load(file))


def refuse_constant(word):
    raise ValueError(f"{word} is no JSON")


def answer_of(program, verb, pick, *more):
    def ask(path):
        answer = subprocess.run([program, verb, path, "--format", "json", *more], stdin=subprocess.DEVNULL,
                                capture_output=True, timeout=60, check=False)
        if answer.returncode not in (0, 1):
            raise ValueError(f"exit {answer.returncode}: {answer.stderr.decode(errors='replace').strip()}")
        return pick(json.loads(answer.stdout, parse_constant=refuse_constant))

    return ask


def held(program, profiles):
    """The plan, both plans of a replan, and the parts of a plan that other verbs answer alone."""
    prices = str(TOP / "examples" / "prices" / "seed-collector.toml")
    longer = ["--set", "trip.days=15", "--set", "battery.health=80 %"]
    return max(
        check("plan.schema.json", profiles, answer_of(program, "plan", lambda plan: plan)),
        check("plan.schema.json", profiles, answer_of(program, "plan", lambda plan: plan, "--prices", prices)),
        check("plan.schema.json", profiles, answer_of(program, "replan", lambda both: both["before"], *longer)),
        check("plan.schema.json", profiles, answer_of(program, "replan", lambda both: both["after"], *longer)),
        check("plan.schema.json", profiles, answer_of(program, "trip", lambda answer: answer["trip"]), "trip"),
        check("plan.schema.json", profiles, answer_of(program, "autonomy", lambda answer: answer["autonomy"]), "autonomy"),
    )


def check(schema_name, paths, read, part=None):
    schema_path = TOP / "shared" / schema_name
    if not schema_path.exists():
        print(f"shared/{schema_name} is not there")
        return 1
    schema = json.loads(schema_path.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    if part:
        schema = {"$schema": schema["$schema"], "$ref": f"#/$defs/{part}", "$defs": schema["$defs"]}
    validator = jsonschema.Draft202012Validator(schema)
    if not paths:
        print("there is nothing to hold against the schema")
        return 1
    faults = 0
    for path in paths:
        name = path.relative_to(TOP)
        try:
            value = read(path)
        except (ValueError, subprocess.TimeoutExpired) as fault:  # the readers' own errors are ValueErrors
            print(f"{name}: {fault}")
            faults += 1
            continue
        for error in sorted(validator.iter_errors(value), key=lambda error: [str(step) for step in error.absolute_path]):
            place = ".".join(str(step) for step in error.absolute_path) or "top"
            print(f"{name}: {place}: {error.message}")
            faults += 1
    print(f"{len(paths)} held against shared/{schema_name}, {faults} faults")
    return 1 if faults else 0


def main(words):
    profiles = sorted((TOP / "examples/profiles").glob("*.toml"))
    prices = sorted((TOP / "examples/prices").glob("*.toml"))
    match words:
        case ["tables"]:
            return check("table.schema.json", sorted((TOP / "data").rglob("*.toml")), read_toml)
        case ["profiles"]:
            return check("profile.schema.json", profiles, read_toml)
        case ["prices"]:
            return check("prices.schema.json", prices, read_toml)
        case ["parts", program]:
            return max(check("parts.schema.json", profiles, answer_of(program, "parts", lambda answer: answer, *more))
                       for more in [(), *(("--prices", path) for path in prices)])
        case ["readings", program]:
            return max(check(f"{schema}.schema.json", profiles, answer_of(program, verb, lambda answer: answer))
                       for verb, schema in [("readings", "readings"), ("diagnose", "diagnosis")])
        case ["plans", program]:
            return held(program, profiles)
    print(__doc__, file=sys.stderr)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
