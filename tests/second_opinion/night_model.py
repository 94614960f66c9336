"""A night and its days worked out by published formulas, in steps of minutes: batteries, fridges, chargers, sun.

Nothing is shared with the program, neither code nor tables. Sources stand beside the figures. Units: h, Ah, A, V, W, degC.
Two things the program has and this has not: marks of the battery's level, and events within a step.
"""

import math

STEP = 3 / 60  # h
ABSOLUTE = 273.15


def line(points, x):
    """Straight lines between points, held at both ends."""
    if x <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in zip(points, points[1:]):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]


# ---- air and sun -----------------------------------------------------------------------------------------------------

def air(low, high, hour, sunrise=6.0, sunset=18.0):
    """Parton and Logan 1981: a sine to 1.86 h after noon, an exponential with 2.20 by night; here it ends at the low."""
    def by_day(t):
        return low + (high - low) * math.sin(math.pi * (t - sunrise) / (sunset - sunrise + 2 * 1.86))
    if sunrise <= hour <= sunset:
        return by_day(hour)
    night = 24 - (sunset - sunrise)
    share = ((hour - sunset) % 24) / night
    end = math.exp(-2.20)
    return low + (by_day(sunset) - low) * (math.exp(-2.20 * share) - end) / (1 - end)


class Sky:
    """FAO-56, eq. 23 to 29, for a latitude in degrees and a day of the year."""

    def __init__(self, latitude, day):
        self.phi = math.radians(latitude)
        self.distance = 1 + 0.033 * math.cos(2 * math.pi * day / 365)
        self.delta = 0.409 * math.sin(2 * math.pi * day / 365 - 1.39)
        self.dusk = math.acos(max(-1.0, min(1.0, -math.tan(self.phi) * math.tan(self.delta))))
        self.sunrise = 12 - 12 * self.dusk / math.pi
        self.sunset = 24 - self.sunrise

    def height(self, hour):
        """Sine of the sun's height."""
        angle = math.pi * (hour - 12) / 12
        return max(0.0, math.sin(self.phi) * math.sin(self.delta) + math.cos(self.phi) * math.cos(self.delta) * math.cos(angle))

    def outside(self, hour):
        """W/m2 on the horizontal outside the air."""
        return 1366.7 * self.distance * self.height(hour)

    def day(self):
        """MJ/m2 in the day."""
        return 1366.7e-6 * 86400 / math.pi * self.distance * (
            self.dusk * math.sin(self.phi) * math.sin(self.delta)
            + math.cos(self.phi) * math.cos(self.delta) * math.sin(self.dusk))


def panel_watts(rated, sky, hour, index, around, left):
    """A flat panel's power: NOCT 47 degC and 12 K more close to a roof, -0.4 % a kelvin. `left` is what the losses leave."""
    sun = sky.outside(hour) * index
    cell = around + (47 + 12 - 20) * sun / 800
    return rated * sun / 1000 * (1 - 0.004 * (cell - 25)) * left


# A day that one in ten stays below, of the month's mean day: from matrices of days that follow each other (Aguiar,
# Collares-Pereira and Conde 1988, as an open program prints them), by the month's clearness index.
LOW_TENTH = [(0.241, 0.30), (0.334, 0.37), (0.374, 0.39), (0.429, 0.43), (0.477, 0.49), (0.526, 0.57), (0.575, 0.60),
             (0.620, 0.69), (0.668, 0.76), (0.728, 0.89)]


def with_dull_days(trip, first, count=3):
    """The same trip with so many dull days in a row."""
    days = [{**day, "index": day["index"] * line(LOW_TENTH, day["index"])} if first <= number < first + count else day
            for number, day in enumerate(trip["days"])]
    return {**trip, "days": days}


# ---- the fridge ------------------------------------------------------------------------------------------------------

def ideal_work(around, inside):
    """Of a refrigerator between 15 K below the inside and 15 K above the surroundings, for a unit of heat."""
    cold = inside - 15 + ABSOLUTE
    return (max(around - inside, 0.0) + 30) / cold


def strain(around, inside):
    return max(around - inside, 0.0) * ideal_work(around, inside)


def share_of_timed_chest():
    """The part that heat does not change, so that a chest at 4.5 degC takes 30 Ah at 30 degC where it takes 19.1 at 20.

    A technician's timed runs, read.
    """
    low, high = 0.0, 0.9
    for _ in range(50):
        share = (low + high) / 2
        fixed, wall = fridge_of([(20, 4.5, 19.1)], share)
        low, high = (share, high) if fixed + wall * strain(30, 4.5) > 30 else (low, share)
    return low


def fridge_of(points, share):
    """(fixed W, W per unit of strain) of one or two measured points (around, inside, mean W)."""
    (a, i, p), *more = points
    if more:
        b, j, q = more[0]
        wall = (q - p) / (strain(b, j) - strain(a, i))
        return p - wall * strain(a, i), wall
    at_25 = strain(25, i)
    wall = p / (strain(a, i) + share / (1 - share) * at_25)
    return wall * at_25 * share / (1 - share), wall


# ---- the battery -----------------------------------------------------------------------------------------------------

# Rest voltage: BCI for flooded; sealed and lithium by charts in common use (recalled).
REST = {
    "flooded": [(0, 11.89), (25, 12.06), (50, 12.24), (75, 12.45), (100, 12.65)],
    "agm": [(0, 11.80), (25, 12.00), (50, 12.30), (75, 12.60), (100, 12.85)],
    "gel": [(0, 11.80), (25, 12.00), (50, 12.35), (75, 12.65), (100, 12.90)],
    "lfp": [(0, 10.0), (9, 12.0), (14, 12.5), (17, 12.8), (20, 12.9), (30, 13.0), (40, 13.1), (70, 13.2), (90, 13.3), (98, 13.4),
            (100, 13.6)],
}
EXPONENT = {"flooded": 1.25, "agm": 1.10, "gel": 1.15}  # 1.2 to 1.6, 1.05 to 1.15, 1.1 to 1.25 are printed
DEPTH = {"flooded": 0.5, "agm": 0.5, "gel": 0.5, "lfp": 0.8}
SELF_DISCHARGE = {"flooded": 0.08, "agm": 0.04, "gel": 0.04, "lfp": 0.03}  # a month
# Share of the capacity: IEEE 485 cell size factors and a winter multiplier, colder a maker's 1.65 and an army manual's 40 %;
# two makers of sealed batteries at slow rates, colder a data sheet and a trade page; lithium by a maker's page.
COLD = {
    "flooded": [(-17.8, 0.40), (-10, 1 / 1.65), (-6.7, 1 / 1.59), (-3.9, 1 / 1.52), (-1.1, 1 / 1.43), (1.7, 1 / 1.35), (4.4, 1 / 1.30), (7.2, 1 / 1.25),
                (10, 1 / 1.19), (12.8, 1 / 1.15), (15.6, 1 / 1.11), (18.3, 1 / 1.08), (21.1, 1 / 1.04), (25, 1.0)],
    "sealed": [(-18, 0.45), (-10, 0.74), (0, 0.84), (5, 0.88), (10, 0.90), (15, 0.94), (20, 0.99), (25, 1.0)],
    "lfp": [(-20, 0.65), (0, 0.80), (25, 1.0)],
}
LAG = 4.0  # h, of one battery in still air: common practice


def cold_share(chemistry, temperature):
    return line(COLD.get(chemistry, COLD["sealed"]), temperature)


def kinetic_charge(c, k, whole, hours):
    """What a full kinetic battery gives at the constant current that empties it in `hours`. Manwell and McGowan 1993."""
    return whole * k * c * hours / (1 - math.exp(-k * hours) + c * (k * hours - 1 + math.exp(-k * hours)))


def kinetic_of(exponent):
    """(c, k, whole) of a battery of one ampere-hour whose charges at 20, 5 and 1 h follow Peukert's law."""
    wanted = {hours: (hours / 20) ** (1 - 1 / exponent) for hours in (20, 5, 1)}

    def fault(c, k, hours):
        return kinetic_charge(c, k, 1, hours) / kinetic_charge(c, k, 1, 20) - wanted[hours]

    def share(k):
        """c that meets the 1 h charge."""
        low, high = 0.01, 0.999
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if fault(middle, k, 1) < 0 else (low, middle)
        return low

    low, high = 0.1, 2.0
    for _ in range(60):
        middle = (low + high) / 2
        # A quicker exchange gives more in five hours.
        low, high = (middle, high) if fault(share(middle), middle, 5) < 0 else (low, middle)
    c = share(low)
    return c, low, 1 / kinetic_charge(c, low, 1, 20)


FITTED = {chemistry: kinetic_of(exponent) for chemistry, exponent in EXPONENT.items()}


class Battery:
    def __init__(self, chemistry, capacity, soc):
        self.chemistry, self.capacity = chemistry, capacity
        self.c, self.k, whole = FITTED.get(chemistry, (1.0, 0.0, 1.0))
        self.whole = whole * capacity
        total = self.whole - (1 - soc) * capacity
        self.available, self.bound = self.c * total, (1 - self.c) * total

    def soc(self):
        return 1 - (self.whole - self.available - self.bound) / self.capacity

    def level(self):
        return self.available / (self.c * self.whole)

    def take(self, current, hours):
        """A current out of it; the two wells by small steps."""
        flow = self.k * ((1 - self.c) * self.available - self.c * self.bound) if self.c < 1 else 0.0
        self.available += (-current - flow) * hours
        self.bound += flow * hours
        if self.soc() > 1:
            self.available, self.bound = self.c * self.whole, (1 - self.c) * self.whole

    def volts(self):
        """At rest, at the charge that can be had at once; below a fifth lead falls towards 10.5 V."""
        reachable = 1 - (1 - self.level()) * self.whole / self.capacity
        volts = line(REST[self.chemistry], 100 * reachable)
        if self.chemistry != "lfp" and self.level() < 0.2:
            volts -= (volts - 10.5) * (1 - self.level() / 0.2) ** 2
        return volts

    def acceptance(self, temperature):
        """The most it takes at its charging voltage.

        Lead: an instrumented series reached the voltage at 77.4 % with 0.2 C and at 63.3 % with 0.4 C; a straight line
        between them, and full after 5.5 h. So the current that it takes falls with what is missing. In the cold half for
        each 15 K (common practice). Lithium takes all until nearly full, and none below 0 or above 45 degC; a cell maker's
        manual and a guideline have 0.1 C below 5 and 0.2 C below 10 degC.
        """
        if self.chemistry == "lfp":
            if not 0 <= temperature <= 45 or self.soc() >= 0.9999:
                return 0.0
            return self.capacity * (0.1 if temperature < 5 else 0.2 if temperature < 10 else 1.0)
        missing = max(1 - self.soc(), 0.0)
        at_once = 0.2 + (0.774 - self.soc()) / (0.774 - 0.633) * 0.2
        tail = 0.2 * missing / (1 - 0.774)
        return max(min(max(at_once, tail) if self.soc() < 0.774 else tail, 1.0), 0.0) * self.capacity * min(
            1.0, 0.5 ** ((25 - temperature) / 15))

    def kept(self, current):
        """Share of a charging current that stays: 1.15 to 1.30 is to be put back of flooded, 1.04 to 1.12 of sealed."""
        if self.chemistry == "lfp":
            return 0.99
        if self.chemistry == "flooded":
            ten = kinetic_charge(self.c, self.k, self.whole, 10) / 10
            return 1 - math.exp(20.73 * (self.soc() - 1) / (current / ten + 0.55))  # Copetti and others 1993
        return 0.96


# ---- the trip --------------------------------------------------------------------------------------------------------

SHARE = share_of_timed_chest()


class Fridge:
    def __init__(self, description):
        self.watts, self.inside = description["draw"], description["inside"]
        self.fixed, self.wall = fridge_of(description["points"], SHARE)
        self.owed = 0.0  # Wh of the compressor
        self.short = False

    def put_in(self, mass, warm, around):
        """Things like water: 4.186 kJ/(kg K), 334 kJ/kg to freeze, 2.05 kJ/(kg K) as ice; 0.35 of the ideal."""
        heat = mass * 4.186 * max(warm - max(self.inside, 0), 0)
        if self.inside < 0 < warm:
            heat += mass * (334 - 2.05 * self.inside)
        self.owed += heat / 3.6 * ideal_work(around, self.inside) / 0.35

    def run(self, around, hours):
        """Mean watts over a step; what it could not take out it owes."""
        need = self.fixed + self.wall * strain(around, self.inside)
        if need > self.watts * 1.0001:
            self.short = True
        asked = need + self.owed / max(hours, 1.0)
        ran = min(asked, self.watts)
        self.owed = max(self.owed + (need - ran) * hours, 0.0)
        return ran


def simulate(trip, days=None, parked=False, start_hour=0.0, start_soc=None, day=None):
    """Marches through the trip, or through its `day` again and again with the engine and the sun off."""
    battery = Battery(trip["chemistry"], trip["capacity"] * trip.get("health", 1.0),
                      trip["start_soc"] if start_soc is None else start_soc)
    fridges = [Fridge(f) for f in trip["fridges"]]
    depth = trip.get("depth", DEPTH[trip["chemistry"]])
    result = {"lowest": battery.soc(), "failed": None, "used": 0.0, "charged": 0.0, "short": False, "why": None}
    temperature, hour = None, start_hour
    steps = round((24 * (days or len(trip["days"])) - start_hour) / STEP)
    for _ in range(steps):
        clock, number = (hour + STEP / 2) % 24, int((hour + STEP / 2) // 24)
        today = day or trip["days"][number]
        sky = Sky(trip["latitude"], trip["first"] + (0 if parked else number)) if "latitude" in trip else None
        times = {}
        if sky:
            half = min(max(sky.sunset - sky.sunrise, 4.0), 20.0) / 2
            times = {"sunrise": 12 - half, "sunset": 12 + half}
        outside = air(today["low"], today["high"], clock, **times)
        around = outside if trip["battery_at"] is None else trip["battery_at"]
        temperature = around if temperature is None else temperature + (around - temperature) * (1 - math.exp(-STEP / LAG))
        share = cold_share(trip["chemistry"], temperature)

        # What is asked of it.
        volts = battery.volts()
        watts = 0.0
        for fridge, told in zip(fridges, trip["fridges"]):
            beside = outside if told["where"] is None else told["where"]
            if "restock" in told and not parked and abs(clock - STEP / 2 - told["restock"]["hour"]) < STEP / 2:
                fridge.put_in(told["restock"]["mass"], told["restock"]["warm"], beside)
            watts += fridge.run(beside, STEP)
        amperes = 0.0
        for load in trip["loads"]:
            if any(a <= clock < b for a, b in load["hours"]):
                watts += load.get("watts", 0.0) * load["duty"]
                amperes += load.get("amperes", 0.0) * load["duty"]

        # What comes.
        comes = 0.0
        if not parked:
            if any(a <= clock < b for a, b in today["drives"]):
                comes += trip["charger"]
            if "panel" in trip and sky:
                comes += panel_watts(trip["panel"], sky, clock, today["index"], outside, trip["left"]) / max(volts, 12.0)
        if comes > 0:
            volts = min(volts + 0.8, 14.4)
        wanted = watts / volts + amperes
        net = comes - wanted
        if net > 0:
            net = min(net, battery.acceptance(temperature))
            battery.take(-net * battery.kept(net), STEP)
            result["charged"] += net * STEP
        else:
            resistance = {"lfp": 0.33, "flooded": 0.5, "agm": 0.4, "gel": 0.5}[battery.chemistry] / battery.capacity
            volts -= -net * resistance
            battery.take(-net, STEP)
        battery.take(SELF_DISCHARGE[battery.chemistry] * battery.capacity / 730.5, STEP)
        result["used"] += wanted * STEP

        hour += STEP
        soc = battery.soc()
        result["lowest"] = min(result["lowest"], soc)
        limit = 1 - depth * share
        result["margin"] = min(result.get("margin", 1.0), soc - limit)
        if result["failed"] is None and (soc < limit or battery.available <= 0):
            result["failed"], result["why"] = hour - start_hour, "depth" if soc < limit else "empty"
            if parked:
                break
        if battery.available <= 0:
            break
    result["short"] = any(f.short for f in fridges)
    result["end"] = battery.soc()
    result["hours"] = result["failed"] if result["failed"] is not None else hour - start_hour
    return result
