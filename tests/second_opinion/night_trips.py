"""Draws vehicles and trips for the independent night: a plain description of each, and the profile that says the same."""

import datetime
import json
import random

from night_model import strain

CAPACITIES = (60, 80, 95, 100, 110, 120, 150, 180, 200, 230, 280)
FIRST_OF_YEAR = datetime.date(2025, 12, 31)


def clock(hour):
    return f"{int(hour):02}:{round(hour % 1 * 60):02}"


def windows(hours):
    return [f"{clock(a)}-{clock(b)}" for a, b in hours]


def draw_drives(dice):
    """Up to two drives that do not meet."""
    drives = []
    if dice.random() < 0.8:
        begin = dice.choice((6, 7, 8, 8.5, 9))
        drives.append((begin, begin + dice.choice((0.5, 1, 1.5, 2, 3))))
    if dice.random() < 0.35:
        begin = dice.choice((13, 15, 16.5, 17))
        drives.append((begin, begin + dice.choice((0.5, 0.75, 1, 2))))
    return drives


def draw_fridge(dice, number):
    inside = dice.choice((2, 4, 4, 5, 5, 7, -12))
    at_25 = dice.uniform(14, 34) * (1.8 if inside < 0 else 1.0)
    points = [(25, inside, at_25 / 2)]
    if dice.random() < 0.7:
        fixed = dice.uniform(0.05, 0.45)  # share that heat does not change
        points.append((32, inside, at_25 / 2 * (fixed + (1 - fixed) * strain(32, inside) / strain(25, inside))))
    fridge = {"name": "fridge" if number == 0 else "freezer", "draw": dice.choice((40, 45, 50, 60)), "inside": inside,
              "points": points, "where": dice.choice((None, None, 15, 20, 25, 30, 38))}
    if dice.random() < 0.3:
        fridge["restock"] = {"hour": dice.choice((10, 12, 17)), "mass": dice.choice((1, 2, 4, 6)), "warm": dice.choice((18, 22, 28))}
    return fridge


def draw_load(dice, number):
    begin = dice.choice((0, 5, 17, 18, 19, 20))
    load = {"name": f"load {number}", "hours": [(begin, min(begin + dice.choice((1, 2, 3, 5, 9, 24)), 24))],
            "duty": dice.choice((1, 1, 0.5, 0.3))}
    if dice.random() < 0.5:
        load["amperes"] = dice.choice((0.3, 0.5, 1, 1.5, 2.5, 4, 8))
    else:
        load["watts"] = dice.choice((5, 8, 12, 20, 30, 60))
    return load


def draw_trip(number):
    """A trip by number: always the same one."""
    dice = random.Random(f"night {number}")
    chemistry = dice.choice(("flooded", "agm", "agm", "gel", "lfp", "lfp"))
    low = dice.uniform(-6, 20)
    if chemistry == "lfp":
        low = max(low, 3)
    high = low + dice.uniform(5, 18)
    drives = draw_drives(dice)
    days = [{"low": low, "high": high, "drives": drives} for _ in range(dice.randint(2, 9))]
    if len(days) > 3 and dice.random() < 0.4:  # a camp
        for day in days[1:dice.randint(2, len(days) - 1)]:
            day["drives"] = []
    capacity = dice.choice(CAPACITIES)
    most = capacity * {"flooded": 0.2, "agm": 0.4, "gel": 0.2, "lfp": 0.5}[chemistry]
    trip = {"number": number, "chemistry": chemistry, "capacity": capacity, "days": days,
            "start_soc": dice.choice((1.0, 1.0, 0.9, 0.8)), "health": dice.choice((1.0, 1.0, 0.9, 0.8)),
            "battery_at": dice.choice((None, 10, 20, 25, 30)), "charger": float(min(dice.choice((10, 15, 18, 20, 25, 30, 40)), most)),
            "fridges": [draw_fridge(dice, i) for i in range(dice.choice((0, 1, 1, 1, 1, 2)))],
            "loads": [draw_load(dice, i) for i in range(dice.randint(1, 3))]}
    if dice.random() < 0.35:
        date = datetime.date(2026, dice.randint(1, 12), dice.randint(1, 28))
        trip |= {"latitude": dice.uniform(-48, 58), "date": date.isoformat(), "first": (date - FIRST_OF_YEAR).days,
                 "panel": dice.choice((60, 100, 160, 200, 300)), "left": 0.86}
        clear = dice.uniform(0.35, 1.0)
        for day in days:
            day["index"] = 0.75 * clear
        trip["clearness"] = clear
    return trip


def where(temperature):
    return "shade" if temperature is None else f"{temperature} degC"


def section(head, **keys):
    return head + "\n" + "".join(f"{key} = {value if key in ('rated', 'restock', 'start') else json.dumps(value)}\n"
                                 for key, value in keys.items())


def profile_of(trip):
    usual = trip["days"][0]
    head = {"days": len(trip["days"]), "low": f'{usual["low"]:.3f} degC', "high": f'{usual["high"]:.3f} degC',
            "drives": windows(usual["drives"]) or "none"}
    if "panel" in trip:
        head |= {"start": trip["date"], "latitude": f'{trip["latitude"]:.4f} deg', "clearness": f'{100 * trip["clearness"]:.4f} %'}
    parts = [section("[trip]", **head)]
    camp = [i for i, day in enumerate(trip["days"], 1) if day["drives"] != usual["drives"]]
    if camp:
        parts.append(section("[[day]]", on=camp, drives="none"))
    parts.append(section("[battery]", chemistry=trip["chemistry"], capacity=f'{trip["capacity"]} Ah', where=where(trip["battery_at"]),
                         start_soc=f'{100 * trip["start_soc"]:.0f} %', health=f'{100 * trip["health"]:.0f} %'))
    parts.append(section("[charger]", output=f'{trip["charger"]} A', where="20 degC"))
    for to, length in (("charger", "2 m"), ("battery", "0.4 m")):
        parts.append(section("[[run]]", to=to, length=length))
    if "panel" in trip:
        parts.append(section("[solar]", panel=f'{trip["panel"]} W'))
        parts.append(section("[[run]]", to="regulator", length="2 m"))
        parts.append(section("[[run]]", **{"from": "regulator", "to": "battery", "length": "1 m"}))
    for fridge in trip["fridges"]:
        points = ", ".join(f'{{ around = "{a} degC", inside = "{i} degC", a_day = "{24 * watts:.4f} Wh" }}'
                           for a, i, watts in fridge["points"])
        warm = fridge.get("restock")
        put_in = warm and [f'{{ on = "1-{len(trip["days"])}", at = "{clock(warm["hour"])}", mass = "{warm["mass"]} kg", '
                           f'from = "{warm["warm"]} degC" }}']
        parts.append(section("[[run]]", to=fridge["name"], length="1 m"))
        parts.append(section("[[fridge]]", name=fridge["name"], draw=f'{fridge["draw"]} W', inside=f'{fridge["inside"]} degC',
                             rated=f"[{points}]", where=where(fridge["where"]), cut_out="9.6 V", cut_in="10.9 V",
                             **({"restock": f"[{put_in[0]}]"} if put_in else {})))
    for load in trip["loads"]:
        parts.append(section("[[run]]", to=load["name"], length="1 m"))
        parts.append(section("[[load]]", name=load["name"], hours=windows(load["hours"]), duty=f'{100 * load["duty"]:.0f} %',
                             draw=f'{load["amperes"]} A' if "amperes" in load else f'{load["watts"]} W'))
    return "".join(parts)
