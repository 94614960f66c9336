"""What the independent wiring calculator takes from the program: assumptions of ours that no publication settles."""

import json
import math
import subprocess

import wiring_figures as figures


class Assumed:
    """Resistances that no publication settles: joints, links of fuses, batteries."""

    def __init__(self, program):
        self.program = program
        self.lugs = [row for row in self._rows("joints") if row["name"] == "lug"]
        self.plug = next(row for row in self._rows("joints") if row["name"] == "two-pole plug 50 A")
        self.holder = {row["family"]: float(row["holder"]) for row in self._rows("fuses/families")}
        self.links = {}
        for row in self._rows("fuses/ratings"):
            if row["cold"]:
                self.links.setdefault(row["family"], []).append((float(row["rating"]), float(row["cold"])))
        self.body = next(row for row in self._rows("body") if row["written"] == "body")
        self.chemistries = {row["chemistry"]: row for row in self._rows("chemistries")}
        self.cranking = self._rows("cranking")[0]

    def _rows(self, name):
        answer = subprocess.run([self.program, "tables", name, "--format", "json"], capture_output=True, check=True)
        table = json.loads(answer.stdout)
        names = [column["name"] for column in table["columns"]]
        return [dict(zip(names, row)) for row in table["rows"]]

    def lug(self, square_mm, which):
        row = next(row for row in self.lugs if float(row["from"]) <= square_mm < float(row["to"]))
        return float(row[which])

    def fuse(self, family, rating, unknown="none"):
        """mOhm of the link and its holder, log-log between the ratings that are known; where none is, nothing or the most."""
        known = self.links.get(family)
        if not known and unknown == "most":
            return self.holder[family] + max(self.fuse(one, rating) - self.holder[one] for one in self.links)
        if not known:
            return self.holder[family]
        if rating <= known[0][0] or rating >= known[-1][0]:
            nearest = known[0] if rating <= known[0][0] else known[-1]
            return self.holder[family] + nearest[1] * nearest[0] / rating
        for (r0, m0), (r1, m1) in zip(known, known[1:]):
            if rating <= r1:
                return self.holder[family] + m0 * (rating / r0) ** (math.log(m1 / m0) / math.log(r1 / r0))
        raise AssertionError

    def starter(self, vehicle):
        """(usual, highest) mOhm, and whether it was measured."""
        row = self.cranking
        least = vehicle.cranking or float(row["unknown_high"])
        most = vehicle.cranking or float(row["unknown_low"])
        low = figures.CRANKING_DROP / least * 1000.0 * float(row["warm_low"])
        high = figures.CRANKING_DROP / most * 1000.0 * float(row["warm_high"])
        return (low + high) / 2.0, high, False

    def house(self, vehicle):
        if vehicle.resistance:
            return vehicle.resistance / vehicle.count, vehicle.resistance / vehicle.count, True
        row = self.chemistries[vehicle.chemistry]

        def one(which):
            return float(row[f"resistance_{which}"]) / vehicle.capacity * 1000.0 + float(row[f"fixed_{which}"])

        expected = (one("low") + one("high")) / 2.0
        if row.get("resistance"):
            expected = float(row["resistance"]) / vehicle.capacity * 1000.0 + float(row["fixed"])
        return expected / vehicle.count, one("high") / vehicle.count, False
