"""Every remedy that a plan prints with the keys it would change is typed, and the vehicle is planned again.

    python3 tests/second_opinion/wiring_remedies.py PROGRAM [--first N] [--vehicles N]

Three hundred vehicles of the independent wiring calculator. With the changes of a finding made, it is gone, and nothing stops
the plan that did not stop it before.
"""

import argparse
import concurrent.futures
import json
import subprocess
import sys

from wiring_vehicles import Vehicle


def plan_of(program, text, changes=()):
    words = [word for change in changes for word in ("--set", change)]
    answer = subprocess.run([program, "plan", "-", "--format", "json", *words], input=text.encode(), capture_output=True,
                            timeout=60, check=False)
    if answer.returncode not in (0, 1):
        raise ValueError(answer.stderr.decode())
    return json.loads(answer.stdout)


def written(change):
    """As it is typed behind --set: text in quotes, all else as it is."""
    value = change["value"]
    return f'{change["key"]}={json.dumps(value) if isinstance(value, str) and not value.startswith("{") else value}'


def named(finding):
    return finding["code"], finding["about"]


def each(findings):
    """A finding about several things as one about each of them."""
    return {(finding["code"], one) for finding in findings for one in finding["about"].split(", ")}


def tried(program, number):
    """What is wrong with the remedies of a vehicle, and how many were tried."""
    text = Vehicle(number).profile()
    plan = plan_of(program, text)
    stops = each(finding for finding in plan["findings"] if finding["level"] == "stop")
    faults, count = [], 0
    for finding in plan["findings"]:
        if not finding["changes"]:
            continue
        count += 1
        changes = [written(change) for change in finding["changes"]]
        try:
            again = plan_of(program, text, changes)
        except ValueError as refused:
            faults.append(f"vehicle {number}: {named(finding)}: {changes} is refused: {refused}")
            continue
        if named(finding) in {named(one) for one in again["findings"]}:
            faults.append(f"vehicle {number}: {named(finding)} stands still with {changes}")
        new = sorted(each(one for one in again["findings"] if one["level"] == "stop") - stops)
        if new:
            faults.append(f"vehicle {number}: {changes} for {named(finding)} brings {new}")
    return faults, count


def main():
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("program")
    asked.add_argument("--first", type=int, default=0)
    asked.add_argument("--vehicles", type=int, default=300)
    options = asked.parse_args()
    numbers = range(options.first, options.first + options.vehicles)
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(lambda number: tried(options.program, number), numbers))
    faults = [fault for found, _ in answers for fault in found]
    remedies = sum(count for _, count in answers)
    print("\n".join(faults))
    print(f"{remedies} remedies of {len(answers)} plans typed, {len(faults)} faults")
    return 1 if faults or remedies < len(answers) // 10 else 0


if __name__ == "__main__":
    sys.exit(main())
