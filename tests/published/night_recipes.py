"""How a figure of the night is asked of the program: small profiles, and what is read from the answer.

A recipe is a function over plain parameters that answers one number. Temperatures are in degC, charge in Ah, current in A,
time in hours unless the name says otherwise. Nothing here knows what anybody published.
"""

import functools
import json
import subprocess


class Program:
    def __init__(self, path):
        self.path = path

    @functools.lru_cache(maxsize=None)
    def ask(self, verb, profile, *words):
        """The answer of a verb as JSON."""
        answer = subprocess.run([self.path, verb, "-", *words, "--format", "json"], input=profile.encode(), capture_output=True,
                                timeout=60, check=False)
        if answer.returncode not in (0, 1):
            raise ValueError(answer.stderr.decode().strip())
        return json.loads(answer.stdout)


    def explained(self, profile, what, about):
        """The number of the first part by that name in what `explain` answers."""
        def within(tree):
            if tree["about"] == about:
                return float(str(tree["value"]).split()[0])
            return next((found for found in map(within, tree.get("parts", ())) if found is not None), None)
        return within(self.ask("explain", profile, what))

    def shown(self, profile):
        """The lines of the profile with every default filled in."""
        answer = subprocess.run([self.path, "show", "-"], input=profile.encode(), capture_output=True, check=True, timeout=60)
        return answer.stdout.decode().splitlines()


# ---- profiles --------------------------------------------------------------------------------------------------------

class Raw(str):
    """A value that stands in a profile without quotes."""


def section(head, /, **keys):
    """A section of a profile; what is None is left out."""
    lines = [head]
    for key, value in keys.items():
        if isinstance(value, Raw):
            lines.append(f"{key} = {value}")
        elif value is not None:
            lines.append(f"{key} = {json.dumps(value)}")
    return "\n".join(lines) + "\n"


def rig(low, high, *parts, days=1, drives="none", trip=None, battery=None, charger=None):
    """A battery of 100 Ah at 25 degC with short thick cables, unless it is said otherwise."""
    battery = {"chemistry": "agm", "capacity": "100 Ah", "where": "25 degC", **(battery or {})}
    charger = {"output": "20 A", "where": "25 degC", **(charger or {})}
    return "".join((section("[trip]", days=days, low=f"{low} degC", high=f"{high} degC", drives=drives, **(trip or {})),
                    section("[battery]", **battery), section("[charger]", **charger),
                    section("[[run]]", to="charger", length="1 m"), section("[[run]]", to="battery", length="0.3 m"), *parts))


def load(name="load", **keys):
    return section("[[run]]", to=name, length="0.3 m") + section("[[load]]", name=name, hours="00:00-24:00", **keys)


def fridge(around, inside=5, rated=None, litres=None, draw=60, **keys):
    """Points of `rated` are (around, inside, what a day takes)."""
    points = None
    if rated:
        points = Raw("[" + ", ".join(f'{{ around = "{a} degC", inside = "{i} degC", a_day = "{d}" }}' for a, i, d in rated) + "]")
    return section("[[run]]", to="fridge", length="0.3 m") + section(
        "[[fridge]]", draw=f"{draw} W", inside=f"{inside} degC", where=around, rated=points,
        litres=None if litres is None else f"{litres} L", **keys)


# A thing of ten microwatts that is switched on and off every six minutes: it brings points into the timeline.
CLOCK = section("[[load]]", name="clock", draw="0.01 mW", hours=[f"{h:02}:{m:02}-{h:02}:{m + 6:02}" for h in range(24)
                                                           for m in (0, 12, 24, 36, 48)])


# ---- the battery -----------------------------------------------------------------------------------------------------

def discharge(program, chemistry, capacity, current, at=25, reads="hours", depth="100 %", **battery):
    """A constant current until nothing more comes: hours, minutes or ampere-hours."""
    profile = rig(at, at, load(draw=f"{current} A"), days=2,
                  battery={"chemistry": chemistry, "capacity": f"{capacity} Ah", "where": f"{at} degC", "depth_limit": depth,
                           "discharge_limit": "5000 A", **battery})
    hours = program.ask("autonomy", profile)["autonomy"]["hours"]
    return {"hours": hours, "minutes": 60 * hours, "ampere_hours": current * hours}[reads]


def cold_share(program, chemistry, hours, at):
    """What a battery gives at a temperature, of what it gives at 25 degC with the same current, in per cent."""
    current = 100 / hours
    return 100 * discharge(program, chemistry, 100, current, at) / discharge(program, chemistry, 100, current)


def rested(program, chemistry, volts):
    """The charge in per cent that a rested voltage stands for."""
    profile = rig(25, 25, load(draw="0.1 A"), battery={"chemistry": chemistry, "depth_limit": "100 %"})
    return program.ask("autonomy", profile, "--volts", f"{volts} V")["autonomy"]["from_soc_percent"]


def freezes(program, soc):
    """degC at which the acid is said to freeze: a battery that rests at this charge, in a cold far below."""
    profile = rig(-60, -60, load(draw="1 mW"), battery={"chemistry": "flooded", "where": "-60 degC", "start_soc": f"{soc} %",
                                                        "depth_limit": "100 %"})
    for finding in program.ask("trip", profile)["findings"]:
        if finding["code"] == "acid-freezes":
            return finding["allowed_C"]
    raise ValueError("nothing is said to freeze")


# ---- charging --------------------------------------------------------------------------------------------------------

def charged(program, chemistry, capacity, current, start=50, at=25, volts=14.4, days=2, health=None):
    """The timeline of a charge that holds its voltage to the end: (hours, state of charge in per cent, volts, amperes)."""
    profile = rig(at, at, CLOCK, days=days, drives="00:00-24:00",
                  battery={"chemistry": chemistry, "capacity": f"{capacity} Ah", "start_soc": f"{start} %", "where": f"{at} degC",
                           "charge_limit": "5000 A", "health": health},
                  charger={"output": f"{current} A", "absorption": f"{volts} V", "float": f"{volts} V", "input_limit": "300 A"})
    points = []
    for point in program.ask("trip", profile)["timeline"]:
        clock = point["clock"].split(":")
        points.append((24 * (point["day"] - 1) + int(clock[0]) + int(clock[1]) / 60, point["soc_percent"], point["battery_V"],
                       point["battery_A"]))
    return points


def between(points, x, column, target):
    """Where a column first reaches a value, in straight lines between the points; None when it never does."""
    for before, after in zip(points, points[1:]):
        if before[column] < target <= after[column]:
            share = (target - before[column]) / (after[column] - before[column])
            return before[x] + share * (after[x] - before[x])
    return None


def charging_current(program, **charge):
    """Amperes into a half full battery, at first."""
    return charged(program, **charge)[1][3]


def charge_hours(program, to, **charge):
    return between(charged(program, days=4, **charge), 0, 1, to)


def charge_slower(program, to, cold, **charge):
    """How many times as long at a temperature as at 25 degC."""
    return charge_hours(program, to, at=cold, **charge) / charge_hours(program, to, **charge)


def charge_faster(program, to, current, than, **charge):
    """Time with a current over the time with another."""
    return charge_hours(program, to, current=current, **charge) / charge_hours(program, to, current=than, **charge)


def charged_after(program, hours, **charge):
    """State of charge in per cent after a time."""
    return between(charged(program, **charge), 1, 0, hours)


def until_held(program, capacity, current, reads, **charge):
    """Until the charger no longer gives all it can: hours, ampere-hours or the state of charge in per cent."""
    points = charged(program, capacity=capacity, current=current, **charge)
    held = next((a, b) for a, b in zip(points, points[1:]) if b[3] < 0.999 * points[1][3])
    # In the last step the current fell from the start's to its end's at an unknown moment: from the charge that went in.
    step = held[1][0] - held[0][0]
    hours = held[0][0] + min(max(held[1][3] / points[1][3], 0), 1) * step
    return {"hours": hours, "minutes": 60 * hours, "ampere_hours": hours * points[1][3],
            "soc": points[0][1] + (hours / held[1][0]) * (held[1][1] - points[0][1])}[reads]


def put_back(program, hours, chemistry, capacity, current, start=50):
    """Ampere-hours from the charger over those that the battery holds more."""
    profile = rig(25, 25, days=1, drives=f"00:00-{hours:02}:00",
                  battery={"chemistry": chemistry, "capacity": f"{capacity} Ah", "start_soc": f"{start} %", "charge_limit": "5000 A"},
                  charger={"output": f"{current} A", "float": "14.4 V", "absorption": "14.4 V"})
    answer = program.ask("trip", profile)
    end = next(point["soc_percent"] for point in answer["timeline"] if point["clock"] == f"{hours:02}:00")
    return answer["trip"]["ledger"]["from_charger_Ah"] / ((end - start) / 100 * capacity)


def lost_at_rest(program, chemistry, days):
    """Per cent of a full battery's charge that is gone after a time with nothing on, at 20 degC."""
    profile = rig(20, 20, CLOCK, days=days, battery={"chemistry": chemistry, "where": "20 degC"})
    return 100 - program.ask("trip", profile)["trip"]["end_soc_percent"]


def held_volts(program, at, chemistry="flooded", **charger):
    """What stands at a nearly full battery while it is charged, warm or cold."""
    profile = rig(at, at, CLOCK, drives="00:00-24:00", battery={"chemistry": chemistry, "where": f"{at} degC"},
                  charger={"output": "20 A", "float": "14.4 V", "absorption": "14.4 V", **charger})
    return max(point["battery_V"] for point in program.ask("trip", profile)["timeline"])


# ---- the fridge ------------------------------------------------------------------------------------------------------

def fridge_day(program, at, reads="Ah", battery=None, hottest=None, **unit):
    """What a fridge takes on the second day at one temperature all day, or between two: Ah at 12 V, Wh, or Ah as counted."""
    unit.setdefault("around", "shade")
    if "rated" in unit:
        unit["rated"] = tuple(tuple(point) for point in unit["rated"])
    profile = rig(at, at if hottest is None else hottest, fridge(**unit), days=2,
                  battery={"chemistry": "lfp", "capacity": "1000 Ah", "depth_limit": "100 %", **(battery or {})})
    answer = program.ask("trip", profile)
    counted = answer["trip"]["days"][1]["used_Ah"]
    volts = [point["battery_V"] for point in answer["timeline"] if point["day"] == 2]
    watt_hours = counted * sum(volts) / len(volts)
    return {"counted": counted, "Wh": watt_hours, "Ah": watt_hours / 12, "A": watt_hours / 12 / 24}[reads]


def fridge_ratio(program, at, to, **unit):
    """How many times as much at another temperature."""
    return fridge_day(program, to, **unit) / fridge_day(program, at, **unit)


def fridge_more(program, at, more, **unit):
    """How many times as much with something beside the usual: warm things (kg a day, degC), or so many openings a day."""
    plain, more = fridge_day(program, at, **unit), dict(more)
    if "restock" in more:
        mass, warm = more.pop("restock")
        more["restock"] = Raw(f'[{{ on = "1-2", at = "09:00", mass = "{mass} kg", from = "{warm} degC" }}]')
    return fridge_day(program, at, **unit, **more) / plain


def put_in_warm(program, mass, from_, at, reads="Ah", **unit):
    """What warm things put in on the second day cost beside the usual."""
    plain = fridge_day(program, at, reads, **unit)
    warm = fridge_day(program, at, reads, restock=Raw(f'[{{ on = "2", at = "01:00", mass = "{mass} kg", from = "{from_} degC" }}]'), **unit)
    return warm - plain


# ---- sun and places --------------------------------------------------------------------------------------------------

MIDDLES = ("01-15", "02-15", "03-15", "04-15", "05-15", "06-15", "07-15", "08-15", "09-15", "10-15", "11-15", "12-15")


def sunny(latitude, date, panel=1000, low=15, high=15, tilt=0, **trip):
    return rig(low, high, load(draw="0.5 A"), days=5, trip={"start": Raw(f"2026-{date}"), "latitude": f"{latitude} deg", "dull_days": Raw("0"), **trip},
               battery={"chemistry": "lfp", "capacity": "4000 Ah", "start_soc": "10 %", "depth_limit": "100 %"}) + section(
                   "[solar]", panel=f"{panel} W", tilt=f"{tilt} deg") + section("[[run]]", to="regulator", length="1 m",
                                                                               size="35 mm2") + section(
                   "[[run]]", **{"from": "regulator", "to": "battery", "length": "1 m", "size": "70 mm2"})


def yield_day(program, latitude, month, **site):
    """kWh that a kW of panels gives on a usual day of a month (1 to 12): the best of five."""
    answer = program.ask("trip", sunny(latitude, MIDDLES[month - 1], **site))
    volts = [point["battery_V"] for point in answer["timeline"]]
    return max(day["charged_Ah"] for day in answer["trip"]["days"]) * sum(volts) / len(volts) / 1000


def yield_mean(program, latitude, **site):
    return sum(yield_day(program, latitude, month, **site) for month in range(1, 13)) / 12


def outside_air(program, latitude, date):
    """MJ on a horizontal square metre outside the air in a day."""
    return program.explained(sunny(latitude, date), "trip.sun", "sun outside the air")


def horizontal_day(program, latitude, month, **site):
    """kWh on a horizontal square metre on the usual day of a month."""
    profile = sunny(latitude, MIDDLES[month - 1], **site)
    outside = program.explained(profile, "trip.sun", "sun outside the air") / 3.6
    if outside < 0.01:
        return 0.0  # the polar night
    best = program.explained(profile, "solar.best", "on the horizontal outside the air")
    return outside * program.explained(profile, "solar.best", "on the horizontal") / best


def horizontal_year(program, latitude, **site):
    """kWh on a horizontal square metre in a year of usual days."""
    return 365 / 12 * sum(horizontal_day(program, latitude, month, **site) for month in range(1, 13))


def hottest_around(program, where, low, high, reads="degC", **trip):
    """How hot it gets where a fridge stands on the hottest hour of the trip, or how far above the day's high."""
    profile = rig(low, high, fridge(where, rated=((25, 5, "22 Ah"),)), trip=trip)
    hottest = program.explained(profile, "fridge.hottest", "temperature around it")
    return {"degC": hottest, "rise": hottest - high}[reads]


def mean_rise(program, where, hour, air=30):
    """K above the air around a fridge in an hour after a drive that ends at noon, read from what its compressor takes."""
    def watts(where):
        profile = rig(air, air, fridge(where, rated=((25, 5, "22 Ah"),)), drives="11:00-12:00")
        return next(-point["battery_A"] * point["battery_V"] for point in program.ask("trip", profile)["timeline"]
                    if point["clock"] == f"{12 + hour}:00")
    there, low, high = watts(where), float(air), air + 80.0
    for _ in range(12):
        middle = (low + high) / 2
        low, high = (middle, high) if watts(f"{middle:.3f} degC") < there else (low, middle)
    return low - air


def rise_after_an_hour(program, where):
    """At the end of the first hour: between what it is in the mean of that hour and of the next."""
    return (mean_rise(program, where, 1) + mean_rise(program, where, 2)) / 2


def default_of(program, key):
    """What the program takes where nothing is said, as a number."""
    head, name = key.split(".")
    within = False
    for line in program.shown(rig(10, 20)):
        if line.startswith("["):
            within = line.strip() == f"[{head}]"
        elif within and line.split("=")[0].strip() == name:
            return float(line.split('"')[1].split()[0])
    raise ValueError(f"{key} is not shown")


RECIPES = {recipe.__name__: recipe for recipe in (
    discharge, cold_share, rested, freezes, charging_current, charge_hours, charge_slower, charge_faster,
    charged_after, until_held, put_back, lost_at_rest, held_volts,
    fridge_day, fridge_ratio, fridge_more, put_in_warm, yield_day, yield_mean, outside_air,
    horizontal_day, horizontal_year, hottest_around, mean_rise, rise_after_an_hour,
    default_of)}
