"""The independent wiring calculator: one cable, what it must carry, its fuse and the thinnest size that passes."""

import math

import wiring_figures as figures

AGED = 1.5  # resistance of an old battery over that of a new one; common practice, no source


# ---- a run as it has to work -----------------------------------------------------------------------------------------


class Task:
    """One cable with what it must carry: all in ampere, volt, mOhm, mm2, degC."""

    def __init__(self, vehicle, run, assumed):
        self.vehicle, self.run, self.assumed = vehicle, run, assumed
        bay = max(vehicle.high + figures.ENGINE_BAY_RISE, figures.ENGINE_SPACE)
        driving, parked = vehicle.high, vehicle.high + 10.0  # a canopy: full sun adds 10 K; common practice, no source
        from_starter = run.role == "feed"
        self.volts_full = figures.FULL_VOLTS["flooded" if from_starter else vehicle.chemistry]
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

    def _currents(self):
        vehicle, run = self.vehicle, self.run
        absorption = figures.ABSORPTION[vehicle.chemistry]
        self.lowest = None
        if run.role == "feed":
            off = 11.0 if vehicle.smart else 12.7
            highest = absorption + figures.COMPENSATION[vehicle.chemistry] * (25.0 - min(max(vehicle.low, 0.0), 40.0))
            self.watt = vehicle.output * absorption / 0.9
            self.design = vehicle.output * highest / (0.9 * off)
            if vehicle.input_limit:
                self.design = min(self.design, vehicle.input_limit)
            self.source, self.allowed = 14.2, 0.06 * 12.0
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
    """Ampere just behind the fuse: 178 mm of cold cable and one lug before it."""
    lead = 0.178 * figures.ohm_per_km(size) + task.assumed.lug(figures.area(size), "low")
    return task.volts_full * 1000.0 / (task.battery + lead + task.assumed.fuse(*fuse))


def needed(task):
    return task.design / (figures.FUSE_USE * (1.0 - figures.FUSE_RERATING * max(0.0, task.fuse_around - 25.0)))


def parts_carry(task, size):
    """Ampere that the parts behind the fuse carry for long, and what is printed on the least of them."""
    if not task.run.plug:
        return math.inf, math.inf
    return figures.plug_50(figures.area(size), task.hottest), 50.0


def ratings_in(task, size, family):
    """The ratings of a family that would do, the one that is taken first."""
    made = figures.MADE[family]
    ampacity, printed = task.ampacity(size), parts_carry(task, size)[1]
    at_least, at_most = needed(task), min(ampacity, printed, task.fuse_max or math.inf)
    slack = 1.0 + 1e-12
    fitting = [one for one in made if at_least <= one * slack and one <= at_most * slack]
    if task.run.end == "fridge":
        return fitting[::-1]  # what its manual prints
    return fitting


def families_for(task, size):
    """In the order of the shelf: blades in line only where their holder carries the current."""
    return [family for family in figures.FAMILIES if family in task.assumed.holder and
            (family != "blade" or task.design <= task.holder_carries(size))]


def made_for_limit(task, size):
    """Where a manual's limit leaves no room: the largest made rating up to it that is no less than the current."""
    if not task.fuse_max:
        return None
    at_most = min(task.ampacity(size), parts_carry(task, size)[1], task.fuse_max)
    for family in families_for(task, size):
        made = [one for one in figures.MADE[family] if task.design <= one <= at_most]
        if made:
            return family, made[-1]
    return None


def next_above(task, size):
    """Where no rating lies between need and ampacity: the next made one above it, up to 150 %."""
    ampacity = task.ampacity(size)
    at_most = min(figures.NEXT_ABOVE * ampacity, parts_carry(task, size)[1], task.fuse_max or math.inf)
    if needed(task) > ampacity or any(ratings_in(task, size, family) for family in figures.FAMILIES):
        return None
    best = None
    for family in families_for(task, size):
        made = [one for one in figures.MADE[family] if ampacity < one <= at_most]
        if made and (best is None or made[0] < best[1]):
            best = family, made[0]
    return best


def choose_fuse(task, size):
    """(family, rating), or None."""
    taken = None
    for family in families_for(task, size):
        fitting = ratings_in(task, size, family)
        if not fitting:
            continue
        taken = taken or (family, fitting[0])
        if expected_short(task, size, (family, fitting[0])) <= figures.breaks(family, task.volts_full):
            return family, fitting[0]
    return taken


# ---- the cable -------------------------------------------------------------------------------------------------------


def far_short(task, size, fuse):
    """Ampere of the weakest short at the far end: hot copper, an old battery."""
    battery = task.battery_high * (1.0 if task.measured else AGED)
    ohm = battery + task.cable(size, task.run.insulation) + task.rest(size, fuse, body="high")
    return task.volts_full * 1000.0 / ohm


def survives(task, size, fuse):
    """Whether the cable lasts until its fuse opens on a short at its end."""
    short = far_short(task, size, fuse)
    clears = figures.latest_clearing(*fuse, short)
    if clears is None:
        return True
    if clears > 5.0:
        return None
    row = figures.table_ampere(size, task.run.insulation) * figures.bundle_factor(task.loaded())
    start = task.hottest + (task.run.insulation - figures.TABLE_5_AROUND) * (task.design / row) ** 2
    return figures.hottest_after(figures.area(size), start, short, clears) <= figures.short_limit(task.run.insulation)


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
    lasts = survives(task, size, fuse)
    if lasts is None:
        return "slow"
    return None if lasts else "short"


def sizes(vehicle):
    return list(figures.CLASS_5) if vehicle.metric else [f"{name} AWG" for name in figures.AWG_IN_SHOPS]


def choose(task):
    """(size, fuse) of the thinnest cable that passes, and what decided."""
    decided = None
    for size in sizes(task.vehicle):
        fuse = choose_fuse(task, size)
        why = fails(task, size, fuse)
        if why is None:
            return size, fuse, decided
        decided = why
    return None, None, decided
