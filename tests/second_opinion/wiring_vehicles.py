"""Draws vehicles for the independent wiring calculator: a plain description of each, and the profile that says the same."""

import random

INSULATIONS = (60, 75, 80, 90, 105, 125)
CAPACITIES = (50, 60, 80, 95, 100, 110, 120, 150, 180, 200, 230, 280, 300, 400)
OWNED_AWG = ("16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "2 AWG", "1/0 AWG")
OWNED_METRIC = ("1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2", "25 mm2", "35 mm2", "50 mm2")
OWNED_FUSES = ("10 A blade", "15 A blade", "20 A blade", "30 A SF30", "40 A SF30", "50 A SF30", "60 A SF30", "80 A SF30",
               "100 A SF30", "150 A SF30", "200 A SF51", "300 A SF51")


class Run:
    """A cable as it is drawn: what the profile says of it."""

    def __init__(self, role, start, end, length):
        self.role, self.start, self.end, self.length = role, start, end, length
        self.name = "feed" if role == "feed" else end
        self.back = "cable"  # or "body"
        self.insulation = 105
        self.around = None  # degC all the way, or by its ends
        self.bundle = None
        self.plug = False
        self.size = None  # owned
        self.fuse = None  # owned
        self.load = None  # what hangs at its end


def draw_load(dice, name):
    """Constant current or constant power with the voltage at which it switches itself off."""
    load = {"name": name, "essential": dice.random() < 0.3}
    if dice.random() < 0.5:
        load["ampere"] = dice.choice((0.5, 1, 2, 3, 4.5, 6, 8, 10, 12, 15, 18, 22, 28))
    else:
        load["watt"] = dice.choice((5, 12, 24, 40, 60, 90, 120, 180, 240))
        load["cut_out"] = dice.choice((10.4, 10.5, 10.8, 11.0, 11.3))
    return load


def dress(dice, run, metric):
    """What a fitter may have said of the cable."""
    if dice.random() < 0.4:
        run.insulation = dice.choice(INSULATIONS)
    if dice.random() < 0.5:
        run.around = dice.choice((15, 25, 30, 35, 40, 45, 50, 55, 60, 65))
    if dice.random() < 0.12:
        run.back = "body"
    if dice.random() < 0.1:
        run.bundle = dice.choice((3, 4, 7))
    if run.role in ("feed", "output") and dice.random() < 0.1:
        run.plug = True
    if dice.random() < 0.12:
        run.size = dice.choice(OWNED_METRIC if metric else OWNED_AWG)
    if dice.random() < 0.08:
        run.fuse = dice.choice(OWNED_FUSES)


class Vehicle:
    """A vehicle by number: always the same one."""

    def __init__(self, number):
        dice = random.Random(f"a vehicle for wiring, {number}")
        self.number = number
        self.high = dice.randint(18, 42)
        self.low = self.high - dice.randint(6, 18)
        self.smart = dice.random() < 0.4
        self.cranking = dice.choice((None, None, 450, 540, 680, 760, 900))
        self.chemistry = dice.choice(("flooded", "agm", "gel", "lfp"))
        self.capacity = dice.choice(CAPACITIES)
        self.count = 2 if dice.random() < 0.1 else 1
        self.resistance = dice.choice((2.5, 4, 6, 9)) if dice.random() < 0.15 else None
        self.output = dice.choice((10, 12, 15, 18, 20, 25, 30, 35, 40, 50, 60))
        self.input_limit = round(self.output * dice.choice((1.15, 1.3, 1.5))) if dice.random() < 0.25 else None
        self.fuse_max = dice.choice((30, 40, 50, 60, 80, 100)) if dice.random() < 0.2 else None
        self.metric = dice.random() < 0.4
        self.runs, self.fridge, self.inverter, self.loads = [], None, None, []
        self._lay(dice)

    def _lay(self, dice):
        def add(role, start, end, length, load=None):
            run = Run(role, start, end, length)
            run.load = load
            dress(dice, run, self.metric)
            self.runs.append(run)

        add("feed", "starter", "charger", dice.randint(2, 24) / 2.0)
        add("output", "charger", "battery", dice.randint(2, 10) / 5.0)
        block = dice.random() < 0.35
        if block:
            add("trunk", "battery", "block", dice.randint(1, 8) / 2.0)
        if dice.random() < 0.8:
            self.fridge = dice.randint(35, 70)
            behind = block and dice.random() < 0.5
            add("branch" if behind else "fridge", "block" if behind else "battery", "fridge", dice.randint(2, 14) / 2.0,
                {"name": "fridge", "watt": self.fridge, "cut_out": 10.4, "essential": True})
        if dice.random() < 0.4:
            self.inverter = dice.choice((300, 400, 600, 800, 1000, 1200, 1500, 2000, 2500, 3000))
            add("inverter", "battery", "inverter", dice.choice((0.5, 0.8, 1.0, 1.5, 2.0, 3.0)),
                {"name": "inverter", "watt": self.inverter / 0.88, "cut_out": 10.5, "essential": False})
        for number in range(dice.randint(3, 8) if block else dice.randint(0, 4)):
            load = draw_load(dice, f"load {number}")
            self.loads.append(load)
            behind = block and (number < 3 or dice.random() < 0.7)
            add("branch" if behind else "load", "block" if behind else "battery", load["name"], dice.randint(1, 16) / 2.0,
                load)

    def profile(self):
        lines = ["[trip]", f'low = "{self.low} degC"', f'high = "{self.high} degC"', 'drives = "08:00-18:00"', "[starter]"]
        if self.smart:
            lines.append('alternator = "smart"')
        if self.cranking:
            lines.append(f'cold_cranking = "{self.cranking} A"')
        lines += ["[battery]", f'chemistry = "{self.chemistry}"', f'capacity = "{self.capacity} Ah"']
        if self.count > 1:
            lines.append(f"count = {self.count}")
        if self.resistance:
            lines.append(f'internal_resistance = "{self.resistance} mOhm"')
        lines += ["[charger]", f'output = "{self.output} A"']
        if self.input_limit:
            lines.append(f'input_limit = "{self.input_limit} A"')
        if self.fuse_max:
            lines.append(f'fuse_max = "{self.fuse_max} A"')
        if self.metric:
            lines += ["[rules]", 'sizes = "metric"']
        for run in self.runs:
            lines += self._run(run)
        if self.fridge:
            lines += ["[[fridge]]", f'draw = "{self.fridge} W"', 'rated = [{ around = "25 degC", a_day = "18 Ah" }]']
        if self.inverter:
            lines += ["[inverter]", f'output = "{self.inverter} W"', 'efficiency = "88 %"']
        for load in self.loads:
            drawn = f'{load["ampere"]} A' if "ampere" in load else f'{load["watt"]} W'
            lines += ["[[load]]", f'name = "{load["name"]}"', f'draw = "{drawn}"', 'duty = "5 %"']
            if "cut_out" in load:
                lines.append(f'cut_out = "{load["cut_out"]} V"')
            if load["essential"]:
                lines.append("essential = true")
        return "\n".join(lines) + "\n"

    @staticmethod
    def _run(run):
        lines = ["[[run]]", f'from = "{run.start}"', f'to = "{run.end}"', f'length = "{run.length} m"']
        if run.back != "cable":
            lines.append(f'return = "{run.back}"')
        if run.insulation != 105:
            lines.append(f'insulation = "{run.insulation} degC"')
        if run.around is not None:
            lines.append(f'where = "{run.around} degC"')
        if run.bundle:
            lines.append(f"loaded_in_bundle = {run.bundle}")
        if run.plug:
            ends = '"lug", "lug"' if run.back == "body" else '"lug", "lug", "lug", "lug"'
            lines.append(f'joints = [{ends}, "two-pole plug 50 A"]')
        if run.size:
            lines.append(f'size = "{run.size}"')
        if run.fuse:
            lines.append(f'fuse = "{run.fuse}"')
        if run.size or run.fuse:
            lines.append(f'have = "{", ".join((["cable"] if run.size else []) + (["fuse"] if run.fuse else []))}"')
        return lines
