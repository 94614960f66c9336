"""An independent wiring calculator: three hundred vehicles of its own, planned by the program and worked out here once more.

    python3 tests/second_opinion/wiring_calculator.py PROGRAM [--first N] [--vehicles N] [--show]
    python3 tests/second_opinion/wiring_calculator.py --self-test

The rules are those of the regulation and the handbooks, typed in wiring_figures.py; nothing is shared with the program. What is
an assumption of ours and not of the world (what a joint adds, what a battery's resistance may be) is read from `tables`. On size
and fuse of every cable that a battery or the charger feeds directly the two must agree in 99.5 of 100. Beyond that, of all
fuses: none that was chosen may stand below the short circuit that is expected there; and findings: at most one plan in two
speaks of breaking capacity, at most one finding in twenty asks for nothing.
"""

import argparse
import concurrent.futures
import json
import subprocess
import sys

import wiring_figures as figures
from wiring_assumed import Assumed
from wiring_model import Task, choose, choose_fuse, expected_short, fails, needed, parts_carry, sizes
from wiring_vehicles import Vehicle

AGREE = 0.995
BREAKING_A_PLAN = 0.5
ASK_FOR_NOTHING = 0.05
BRANCH = 2.0  # a branch breaker needs half of what the main one breaks, E-11 table V-A; read in a cable maker's reprint
BELOW_AND_SAID = 0.006  # to become none: a thicker cable would take a fuse that breaks


# ---- held beside the plan --------------------------------------------------------------------------------------------


def owned_fuse(run):
    rating, family = run.fuse.split(" A ")
    return family, float(rating)


def mine(task):
    """(size, fuse) by this calculator; what is owned stays."""
    run = task.run
    if run.size and run.fuse:
        return run.size, owned_fuse(run), "owned"
    if run.size:
        return run.size, choose_fuse(task, run.size, above=True), "owned"
    if run.fuse:
        fuse, decided = owned_fuse(run), None
        for size in sizes(task.vehicle):
            limit = min(task.ampacity(size), parts_carry(task, size)[1], task.fuse_max or float("inf"))
            why = fails(task, size, fuse) or (None if fuse[1] <= limit else "fuse")
            if why is None:
                return size, fuse, decided
            decided = why
        return None, None, decided
    return choose(task)


def theirs(planned):
    fuse = planned["fuses"][0] if planned["fuses"] else None
    return planned["size"], (fuse["family"], fuse["rating_A"]) if fuse else None


def plan_of(program, vehicle):
    answer = subprocess.run([program, "plan", "-", "--format", "json"], input=vehicle.profile().encode(),
                            capture_output=True, timeout=60, check=False)
    if answer.returncode not in (0, 1):
        raise ValueError(f"vehicle {vehicle.number}: exit {answer.returncode}: {answer.stderr.decode()}")
    return json.loads(answer.stdout)


class Tally:
    """What was counted over all vehicles."""

    def __init__(self):
        self.plans = self.runs = self.agreed = self.behind = self.fuses = self.findings = self.breaking = self.idle = 0
        self.disagree, self.below, self.below_said, self.faults = [], [], [], []


def compare_run(tally, task, planned, shown):
    size, fuse, decided = mine(task)
    their_size, their_fuse = theirs(planned)
    if not planned["fits"] and not task.run.size:
        their_size = their_fuse = None
    tally.runs += 1
    if (size, fuse) == (their_size, their_fuse):
        tally.agreed += 1
        return
    tally.disagree.append(
        f"vehicle {task.vehicle.number}, {task.run.name}: here {size} {fuse} ({decided}), there {their_size} {their_fuse} "
        f"({planned['decided_by']})")
    if shown and size and their_size:
        for one in (size, their_size):
            taken = choose_fuse(task, one)
            tally.disagree.append(f"    {one}: {taken}, fails here: {fails(task, one, taken)}, ampacity "
                                  f"{task.ampacity(one):.2f}, needs {needed(task):.2f}, design {task.design:.2f}, "
                                  f"solved {taken and task.solve(one, taken, task.source)} of {task.allowed}")


def compare_behind_main(tally, task, planned):
    """The plan laid a main fuse on the battery's post: the branch has a blade, and its cable is no thinner than without it."""
    task.behind_main = True
    size, _, _ = mine(task)
    their_size, their_fuse = theirs(planned)
    tally.behind += 1
    if not planned["fits"] or task.run.fuse:
        return
    if their_fuse != choose_fuse(task, their_size, above=bool(task.run.size)):
        tally.faults.append(f"vehicle {task.vehicle.number}, {task.run.name}, behind a main fuse: {their_fuse}, here "
                            f"{choose_fuse(task, their_size)}")
    if not task.run.size and figures.area(their_size) < figures.area(size) * 0.999:
        tally.faults.append(f"vehicle {task.vehicle.number}, {task.run.name}, behind a main fuse: {their_size}, here {size}")


def is_said(plan, run):
    return any(finding["code"] == "breaking-capacity" and run in finding["about"].split(", ") for finding in plan["findings"])


def look_at_faults(tally, vehicle, plan, assumed):
    """No fuse that the plan chose stands below the short that is expected where it sits, without its saying so.

    It says so where none that breaks more is made in a rating that the cable takes: thin cables to a charger, and blocks whose
    own fuse is there already.
    """
    drawn = {run.name: run for run in vehicle.runs}
    for planned in plan["runs"]:
        run = drawn.get(planned["name"])  # None: the lead of a main fuse that the plan laid
        from_starter = planned["from"] == "starter"
        volts = Task(vehicle, vehicle.runs[0 if from_starter else 1], assumed).volts_highest
        for fuse in planned["fuses"]:
            if fuse["decided_by"] != "plan" or not planned["fits"]:
                continue
            tally.fuses += 1
            short, at = fuse["fault_A"], f'vehicle {vehicle.number}, {planned["name"]}'
            if run and run.role not in ("trunk", "branch") and planned["from"] == run.start:
                here = expected_short(Task(vehicle, run, assumed), planned["size"], (fuse["family"], fuse["rating_A"]))
                if abs(here / short - 1.0) > 0.05:
                    tally.faults.append(f"{at}: a short of {here:.0f} A here, {short:.0f} A there")
                short = max(short, here)
            breaks = figures.breaks(fuse["family"], volts)
            if short > max(breaks, min(fuse["in_front_A"] or 0.0, BRANCH * breaks)):
                words = f'{at}: {fuse["rating_A"]} A {fuse["family"]} before {short:.0f} A'
                (tally.below_said if is_said(plan, planned["name"]) else tally.below).append(words)


class Known:
    """Of a vehicle and its assumptions only what a published figure needs."""

    def __init__(self, **what):
        self.__dict__.update(what)

    def __getattr__(self, name):
        return None


def bare_task(size_ampere, watt, source, around, bundle, length=5.8, insulation=105):
    """A cable without joints and fuse, as the worked figures have it."""
    task = object.__new__(Task)
    task.run = Known(role="load", back="cable", insulation=insulation, bundle=bundle, length=length)
    task.vehicle = Known()
    task.assumed = Known(lug=lambda square_mm, which: 0.0)
    task.hottest = task.mean = around
    task.design, task.watt, task.source = size_ampere, watt, source
    return task


def self_test():
    """The calculator against figures that were printed or worked out elsewhere, and a spoilt plan against the calculator."""
    figured = []

    def held(name, found, expected, share):
        figured.append((name, found, expected, abs(found - expected) <= share * abs(expected)))

    # NEC chapter 9 table 8, stranded uncoated copper at 75 degC, ohm per 1000 ft; read in two reprints.
    for size, printed in (("14", 3.14), ("12", 1.98), ("10", 1.24), ("8", 0.778), ("6", 0.491), ("4", 0.308), ("2", 0.194),
                          ("1/0", 0.122), ("2/0", 0.0967), ("4/0", 0.0608)):
        held(f"{size} AWG", figures.ohm_per_km(f"{size} AWG") * 0.3048 * (1 + figures.ALPHA * 55), printed, 0.006)
    # 105 degC boat cable inside engine spaces, a chandler's reprint of 33 CFR 183.425 (its factor is rounded to 0.85); read.
    for size, printed in (("10", 51), ("8", 68), ("6", 102), ("4", 136), ("2", 178), ("1/0", 242), ("4/0", 378)):
        held(f"{size} AWG at 50 degC", bare_task(1, None, 12, 50.0, None).ampacity(f"{size} AWG"), printed, 0.012)
    # Three loaded conductors, a cable maker's page for UL 1426; read.
    for size, printed in (("10", 42), ("6", 84), ("2", 147)):
        held(f"{size} AWG, three", bare_task(1, None, 12, 30.0, 3).ampacity(f"{size} AWG"), printed, 1e-9)
    # A converter of 400 W behind 5.8 m of 8 and 6 AWG with heating: worked out by fixed point in another program.
    for size, around, bundle, ampere in (("8 AWG", 60.0, None, 35.563362360), ("6 AWG", 60.0, None, 34.252012669),
                                         ("8 AWG", 60.0, 3, 35.752408140)):
        held(f"{size} with 400 W", bare_task(36, 400.0, 12.3, around, bundle).solve(size, None, 12.3)[0], ampere, 0.002)
    # ISO 8820-3 type C: 2.5 and 5 times the rating, log-log between its points; worked out elsewhere.
    held("type C at 2.5", figures.latest_clearing("blade", 10, 25), 1.9963, 1e-4)
    held("type C at 5", figures.latest_clearing("blade", 10, 50), 0.17236, 1e-4)
    # 2.5 mm2 of PVC from 70 degC, 500 A: 0.330625 s by k = 115 until 160 degC; read, BS 7671.
    held("withstand", figures.hottest_after(2.5, 70.0, 500.0, 0.330625), 160.0, 0.002)
    held("plug on 10 AWG at 75 degC", figures.plug_50(5.2612, 75.0), 37.0, 1e-9)

    task = bare_task(20, None, 12.0, 30.0, None)
    task.run.size, task.run.name, task.run.fuse, task.vehicle.number = "8 AWG", "pump", "30 A SF30", 0
    plan = {"size": "8 AWG", "fuses": [{"family": "SF30", "rating_A": 30.0}], "fits": True, "decided_by": None}
    for spoilt, disagreements in ((plan, 0), ({**plan, "size": "10 AWG"}, 1), ({**plan, "fuses": []}, 1)):
        tally = Tally()
        compare_run(tally, task, spoilt, False)
        figured.append(("a spoilt plan", len(tally.disagree), disagreements, len(tally.disagree) == disagreements))
    wrong = [line for line in figured if not line[3]]
    print("\n".join(f"{name}: {found}, not {expected}" for name, found, expected, _ in wrong))
    print(f"{len(figured)} figures, {len(wrong)} wrong")
    return 1 if wrong else 0


def main():
    if sys.argv[1:] == ["--self-test"]:
        return self_test()
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("program")
    asked.add_argument("--first", type=int, default=0)
    asked.add_argument("--vehicles", type=int, default=300)
    asked.add_argument("--show", action="store_true", help="of each disagreement what was worked out here")
    options = asked.parse_args()
    assumed, tally = Assumed(options.program), Tally()
    vehicles = [Vehicle(number) for number in range(options.first, options.first + options.vehicles)]
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        plans = list(pool.map(lambda vehicle: plan_of(options.program, vehicle), vehicles))
    for vehicle, plan in zip(vehicles, plans):
        tally.plans += 1
        planned = {run["name"]: run for run in plan["runs"]}
        for run in vehicle.runs:
            if run.role in ("trunk", "branch"):
                continue
            task = Task(vehicle, run, assumed)
            if planned[run.name]["from"] == run.start:
                compare_run(tally, task, planned[run.name], options.show)
            else:
                compare_behind_main(tally, task, planned[run.name])
        look_at_faults(tally, vehicle, plan, assumed)
        for finding in plan["findings"]:
            tally.findings += 1
            tally.breaking += finding["code"] == "breaking-capacity"
            tally.idle += not finding["remedy"] or finding["remedy"].startswith("Nothing to do")
    return report(tally)


def report(tally):
    for line in tally.disagree + tally.below + tally.below_said + tally.faults:
        print(line)
    wrong = [line for line, bad in (
        (f"size and fuse agree in {tally.agreed} of {tally.runs} cables that are fed directly",
         tally.agreed < AGREE * tally.runs),
        (f"{len(tally.below)} of {tally.fuses} chosen fuses stand below the expected short unsaid, {len(tally.below_said)} said",
         tally.below or len(tally.below_said) > BELOW_AND_SAID * tally.fuses),
        (f"{len(tally.faults)} expected shorts, or branches of {tally.behind} behind a main fuse, are others here", tally.faults),
        (f"{tally.breaking} findings speak of breaking capacity in {tally.plans} plans",
         tally.breaking > BREAKING_A_PLAN * tally.plans),
        (f"{tally.idle} of {tally.findings} findings ask for nothing", tally.idle > ASK_FOR_NOTHING * tally.findings),
    ) if print(line + (" <-- WRONG" if bad else "")) or bad]
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
