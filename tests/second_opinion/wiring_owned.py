"""What a plan chose is judged again as cable and fuse that are there already.

    python3 tests/second_opinion/wiring_owned.py PROGRAM [--first N] [--vehicles N]

Three hundred vehicles of the independent wiring calculator, whose cables and fuses are all chosen. Judged again as owned, in the
class of insulation that the page names: the same verdict, no stop that was not there, and in less than one plan of a hundred a
warning that was not there: a bolted fuse that the plan put behind its own main fuse is taken to sit at the battery when it is
there already. Judged in the class that the plan's line on another insulation speaks of: whatever becomes unsafe is named in it.
"""

import argparse
import concurrent.futures
import json
import subprocess
import sys

from wiring_vehicles import Vehicle

# In another class of insulation: what may burn, start a fire or cut the current.
UNSAFE = {"ampacity", "fuse-too-large", "fuse-too-small", "too-hot", "withstand", "short-burns-on", "short-never-cleared",
          "no-ampacity", "part-rating", "no-fuse-fits", "no-size-fits", "no-size-carries"}


def bare(number):
    """A vehicle of whose cables nothing is there, all of the usual insulation."""
    vehicle = Vehicle(number)
    for run in vehicle.runs:
        run.size = run.fuse = None
        run.insulation = 105
    return vehicle


def plan_of(program, text, sets=()):
    words = [word for one in sets for word in ("--set", one)]
    answer = subprocess.run([program, "plan", "-", "--format", "json", *words], input=text.encode(), capture_output=True,
                            timeout=60, check=False)
    if answer.returncode not in (0, 1):
        raise ValueError(answer.stderr.decode())
    return json.loads(answer.stdout)


def as_owned(vehicle, plan, insulation):
    """The changes that make of all that fits cable and fuses that are there."""
    described = {run.name for run in vehicle.runs}
    mains = {main["run"]: main for main in plan.get("main_fuses", ()) if main["run"] not in described}
    for run in plan["runs"]:
        if run["name"] in mains:  # laid by the plan itself: its lead is no run of the profile
            main = mains[run["name"]]
            yield f'{main["at"]}.main_fuse="{main["rating_A"]:g} A {main["family"]}"'
            yield f'{main["at"]}.have_main_fuse=true'
            continue
        if not run["fits"] or run["assumed"]:
            continue
        key = f'run.{run["name"]}'
        yield f'{key}.size="{run["size"]}"'
        yield f'{key}.insulation="{insulation:g} degC"'
        if run["fuses"]:
            yield f'{key}.fuse="{run["fuses"][0]["rating_A"]:g} A {run["fuses"][0]["family"]}"'
        yield f'{key}.have="cable{", fuse" if run["fuses"] else ""}"'


WARNED_ANEW = 0.01  # of the plans; to become none


def serious(plan, levels=("stop", "warn")):
    """A finding about several things as one about each of them."""
    return {(finding["code"], one) for finding in plan["findings"] if finding["level"] in levels
            for one in finding["about"].split(", ")}


def judge(program, number):
    """(whether the verdict stayed, new stops, new warnings, unsafe in the other class, of them not said) of one vehicle."""
    vehicle = bare(number)
    text = vehicle.profile()
    plan = plan_of(program, text)
    again = plan_of(program, text, as_owned(vehicle, plan, 105))
    stops = sorted(serious(again, ("stop",)) - serious(plan))
    warns = sorted(serious(again) - serious(plan))
    other = plan["other_insulation"]
    lower = plan_of(program, text, as_owned(vehicle, plan, other["insulation_C"] if other else 75))
    stopped = {about for _, about in serious(plan, ("stop",))}
    unsafe = {about for code, about in serious(lower, ("stop",)) if code in UNSAFE} - stopped
    said = {run["name"] for run in other["runs"]} if other else set()
    return plan["verdict"] == again["verdict"], stops, warns, unsafe, sorted(unsafe - said)


def main():
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("program")
    asked.add_argument("--first", type=int, default=0)
    asked.add_argument("--vehicles", type=int, default=300)
    options = asked.parse_args()
    numbers = range(options.first, options.first + options.vehicles)
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        judged = list(pool.map(lambda number: judge(options.program, number), numbers))
    wrong = unsafe = warned = 0
    for number, (same, stops, warns, burns, silent) in zip(numbers, judged):
        unsafe += bool(burns)
        warned += bool(warns)
        wrong += not same or bool(stops) or bool(silent)
        if not same:
            print(f"vehicle {number}: the verdict turned")
        if warns:
            print(f"vehicle {number}: new when it is there already: {warns}")
        if silent:
            print(f"vehicle {number}: unsafe in the other class of insulation, and not said: {silent}")
    print(f"{len(judged)} plans judged again, {warned} warned anew; {unsafe} are unsafe in the other class of insulation; {wrong} wrong")
    return 1 if wrong or warned > WARNED_ANEW * len(judged) or unsafe < len(judged) // 4 else 0


if __name__ == "__main__":
    sys.exit(main())
