"""The independent wiring calculator: one cable, what it must carry, its fuse and the thinnest size that passes."""

import math

import wiring_figures as figures

RUNNING = 14.2  # volts of a plain alternator at the starter battery; common practice, no source
AGED = 1.5  # resistance of an old battery over that of a new one; common practice, no source


# ---- a run as it has to work -----------------------------------------------------------------------------------------


class Task:
    """One cable with what it must carry: all in ampere, volt, mOhm, mm2, degC."""

    def __init__(self, vehicle, run, assumed):
        self.vehicle, self.run, self.assumed = vehicle, run, assumed
        self.behind_main = False
        bay = max(vehicle.high + figures.ENGINE_BAY_RISE, figures.ENGINE_SPACE)
        driving, parked = vehicle.high, vehicle.high + 10.0  # a canopy: full sun adds 10 K; common practice, no source
        from_starter = run.role == "feed"
        self.volts_full = figures.FULL_VOLTS["flooded" if from_starter else vehicle.chemistry]
        self.volts_highest = max(self.volts_full, RUNNING if from_starter else self.highest_absorption())
        self.battery, self.battery_high, self.measured = assumed.starter(vehicle) if from_starter else assumed.house(vehicle)
        if run.around is not None:
            self.hottest = self.mean = float(run.around)
        elif from_starter:
            self.hottest, self.mean = bay, (bay + driving) / 2.0
        else:
            self.hottest = self.mean = driving if run.role == "output" else parked
        self.fuse_around = bay if from_starter else driving if run.role == "output" else parked
        self.fuse_max = vehicle.fuse_max if from_starter else 15.0 if run.end == "fridge" else None
        self._currents()

    def highest_absorption(self):
        """At the coldest of the trip, compensated between 0 and 40 degC."""
        chemistry = self.vehicle.chemistry
        cold = min(max(self.vehicle.low, 0.0), 40.0)
        return figures.ABSORPTION[chemistry] + figures.COMPENSATION[chemistry] * (25.0 - cold)

    def _currents(self):
        vehicle, run = self.vehicle, self.run
        absorption = figures.ABSORPTION[vehicle.chemistry]
        self.lowest = None
        if run.role == "feed":
            off = 11.0 if vehicle.smart else 12.7
            self.watt = vehicle.output * absorption / 0.9
            self.design = vehicle.output * self.highest_absorption() / (0.9 * off)
            if vehicle.input_limit:
                self.design = min(self.design, vehicle.input_limit)
            self.source, self.allowed = RUNNING, 0.06 * 12.0
            self.lowest = (12.3 if vehicle.smart else 13.8, off + 0.2)
        elif run.role == "output":
            self.watt, self.design = None, float(vehicle.output)
            self.source, self.allowed = absorption, 0.015 * 12.0
        else:
            load = run.load
            self.watt = load.get("watt")
            self.design = load["ampere"] if self.watt is None else self.watt / load["cut_out"]
            self.source, self.allowed = 12.0, (0.03 if load["essential"] else 0.10) * 12.0

    def ways(self):
        return 1 if self.run.back == "body" else 2

    def loaded(self):
        return self.run.bundle or self.ways()

    def cable(self, size, degrees):
        """mOhm of all the cable at a temperature."""
        warm = 1.0 + figures.ALPHA * (degrees - 20.0)
        return self.ways() * self.run.length * figures.ohm_per_km(size) * warm

    def rest(self, size, fuse, which="usual", body="usual"):
        """mOhm of joints, fuse and body."""
        total = self.ways() * 2 * self.assumed.lug(figures.area(size), which)
        if self.run.plug:
            total += float(self.assumed.plug[which])
        if self.run.back == "body":
            total += float(self.assumed.body[body])
        return total + (self.assumed.fuse(*fuse, unknown="most") if fuse else 0.0)

    def solve(self, size, fuse, source):
        """(ampere, volts lost), or None where the power cannot come through."""
        row = figures.table_ampere(size, self.run.insulation)
        factor = figures.bundle_factor(self.loaded())
        ampere = self.design
        for _ in range(200):
            rise = (self.run.insulation - figures.TABLE_5_AROUND) * (ampere / (row * factor)) ** 2
            ohm = (self.cable(size, self.mean + rise) + self.rest(size, fuse)) / 1000.0
            wanted = self.design
            if self.watt is not None:
                root = source**2 - 4.0 * self.watt * ohm
                if root < 0.0:
                    return None
                wanted = self.watt / ((source + math.sqrt(root)) / 2.0)
                if self.run.role == "feed" and self.vehicle.input_limit:
                    wanted = min(wanted, self.vehicle.input_limit)
            if abs(wanted - ampere) < 1e-10:
                return wanted, wanted * ohm
            ampere = wanted
        return None

    def ampacity(self, size):
        row = figures.table_ampere(size, self.run.insulation)
        if row is None or self.hottest >= self.run.insulation:
            return 0.0
        over = (self.run.insulation - self.hottest) / (self.run.insulation - figures.TABLE_5_AROUND)
        return row * min(1.0, math.sqrt(over)) * figures.bundle_factor(self.loaded())

    def holder_carries(self, size):
        """What an in-line blade holder on this cable carries for long."""
        thin = math.sqrt(min(1.0, figures.area(size) / figures.HOLDER_AREA))
        room = (figures.HOLDER_LIMIT - self.fuse_around) / (figures.HOLDER_LIMIT - figures.HOLDER_AROUND)
        return min(figures.HOLDER_AMPERE, figures.HOLDER_AMPERE * thin * math.sqrt(max(0.0, room)))


# ---- the fuse --------------------------------------------------------------------------------------------------------


def expected_short(task, size, fuse):
    """Ampere just behind the fuse: 178 mm of cold cable and one lug before it, or none where it sits on the post itself."""
    lead = 0.178 * figures.ohm_per_km(size) + task.assumed.lug(figures.area(size), "low") if fuse[0] != "post" else 0.0
    return task.volts_full * 1000.0 / (task.battery + lead + task.assumed.fuse(*fuse))


def needed(task):
    return task.design / (figures.FUSE_USE * (1.0 - figures.FUSE_RERATING * max(0.0, task.fuse_around - 25.0)))


def parts_carry(task, size):
    """Ampere that the parts behind the fuse carry for long, and what is printed on the least of them."""
    if not task.run.plug:
        return math.inf, math.inf
    return figures.plug_50(figures.area(size), task.hottest), 50.0


def most_behind(task, size):
    """What the parts and the appliance behind a fuse allow."""
    return min(parts_carry(task, size)[1], task.fuse_max or math.inf)


def between(task, family, at_least, at_most):
    """The made ratings of a family, the one that is taken first."""
    slack = 1.0 + 1e-12
    made = [one for one in figures.MADE[family] if at_least <= one * slack and one <= at_most * slack]
    return made[::-1] if task.run.end == "fridge" else made  # a fridge has what its manual prints


def families_for(task, size):
    """In the order of the shelf: blades in line only where their holder carries the current."""
    return [family for family in figures.FAMILIES if family in task.assumed.holder and
            (family != "blade" or task.design <= task.holder_carries(size))]


def next_larger(rating):
    return min(one for family, made in figures.MADE.items() if family != "class T" for one in made if one > rating)


def first_that_breaks(task, size, ratings):
    """(family, rating): the first that breaks the expected short, else the one that breaks most; `ratings` of a family.

    Class T is made to break, not to begin with. A load's blade gives way only to a fuse of its rating or the next larger. Behind
    a main fuse that breaks enough the first will do.
    """
    first = most = None
    for family in families_for(task, size):
        fitting = ratings(family)
        if not fitting or (family == "class T" and not first):
            continue
        if first and task.run.role in ("load", "fridge") and fitting[0] > next_larger(first[1]):
            continue
        taken = family, fitting[0]
        if task.behind_main or expected_short(task, size, taken) <= figures.breaks(family, task.volts_highest):
            return taken
        first = first or taken
        if most is None or figures.breaks(family, task.volts_highest) > figures.breaks(most[0], task.volts_highest):
            most = taken
    return most


def choose_fuse(task, size, above=False):
    """(family, rating), or None; `above`: where no other size does, the next rating over the ampacity may."""
    ampacity, behind, need = task.ampacity(size), most_behind(task, size), needed(task)
    chosen = first_that_breaks(task, size, lambda family: between(task, family, need, min(ampacity, behind)))
    if chosen:
        return chosen
    if task.fuse_max and task.fuse_max < need and behind <= ampacity:
        # The manual wins: the largest that is made up to it and no less than the current.
        chosen = first_that_breaks(task, size, lambda family: between(task, family, task.design, behind)[::-1])
        if chosen:
            return chosen
    usual = [family for family in families_for(task, size) if family != "class T"]
    if not above or any(between(task, family, need, ampacity) for family in usual):
        return None
    # 33 CFR 183.455(c)(1), and only where no rating is made in between.
    at_most = min(figures.NEXT_ABOVE * ampacity, behind)
    return first_that_breaks(task, size, lambda family: between(task, family, max(need, ampacity), at_most))


# ---- the cable -------------------------------------------------------------------------------------------------------


def far_short(task, size, fuse):
    """Ampere of the weakest short at the far end: hot copper, an old battery."""
    battery = task.battery_high * (1.0 if task.measured else AGED)
    ohm = battery + task.cable(size, task.run.insulation) + task.rest(size, fuse, body="high")
    return task.volts_full * 1000.0 / ohm


def survives(task, size, fuse):
    """Whether the cable lasts until its fuse opens, on a short at its end or anywhere before it."""
    first = figures.LATEST.get(fuse[0])
    if not first:
        return True
    far = far_short(task, size, fuse)
    rated, copper = task.run.insulation, figures.area(size)
    rating = figures.table_ampere(size, rated) * figures.bundle_factor(task.loaded())
    around = max(task.hottest, figures.TABLE_5_AROUND)
    start = around + (rated - figures.TABLE_5_AROUND) * (task.design / rating) ** 2
    near = max(far, expected_short(task, size, fuse))
    for step in range(60):
        short = far * (near / far) ** (step / 59.0)
        clears = figures.latest_clearing(*fuse, short)
        if clears <= 5.0:
            if figures.hottest_after(copper, start, short, clears) > figures.short_limit(rated):
                return False
            continue
        limit = rated if clears == math.inf else rated + figures.OVERLOAD
        if figures.warmed(copper, start, short, clears, rated, figures.TABLE_5_AROUND, rating, around) > limit + 1e-6:
            return False
    return True


def fails(task, size, fuse):
    """What is wrong with a size, first things first; None when nothing is."""
    if figures.area(size) < 1.0 - 1e-9:
        return "thin"
    if task.ampacity(size) < task.design:
        return "ampacity"
    if parts_carry(task, size)[0] < task.design:
        return "part"
    if fuse is None:
        return "fuse"
    solved = task.solve(size, fuse, task.source)
    if solved is None or solved[1] > task.allowed:
        return "drop"
    if task.lowest:
        least, keep = task.lowest
        low = task.solve(size, fuse, least)
        if low is None or least - low[1] < keep:
            return "input"
    return None if survives(task, size, fuse) else "short"


def sizes(vehicle):
    return list(figures.CLASS_5) if vehicle.metric else [f"{name} AWG" for name in figures.AWG_IN_SHOPS]


def breaks_enough(task, size, fuse):
    return expected_short(task, size, fuse) <= figures.breaks(fuse[0], task.volts_highest)


def passing(task, above):
    """(size, fuse, what the next thinner fails), thinnest first."""
    decided = None
    for size in sizes(task.vehicle):
        fuse = choose_fuse(task, size, above)
        why = fails(task, size, fuse)
        if why is None:
            yield size, fuse, decided
        decided = why


def choose(task):
    """(size, fuse) of the thinnest cable that passes, and what decided.

    A way to a battery or a charger takes the thinnest whose fuse breaks the expected short, where one does: thicker cable makes
    room for a fuse of a stronger family. Where the fuse has to be above what any cable may carry, the thickest is the least below.
    """
    fitting = list(passing(task, False))
    if fitting:
        if task.run.role in ("load", "fridge"):
            return fitting[0]
        strong = [one for one in fitting if task.behind_main or breaks_enough(task, one[0], one[1])]
        return (strong or fitting)[0]
    above = list(passing(task, True))
    return above[-1] if above else (None, None, "none")
