"""The figures of the independent wiring calculator, typed from the publications named beside each of them.

Nothing here is read from data/ or lib/: where both have the same figure, two people have typed it.
"""

import math

# ---- copper ----------------------------------------------------------------------------------------------------------

ALPHA = 0.00393  # per kelvin at 20 degC, the international annealed copper standard, IEC 60028; from memory
COPPER_OHM_MM2_PER_KM = 17.241  # the same standard; from memory
STRANDING = 1.02  # stranded over solid: geometry times 1.02 meets NEC chapter 9 table 8 within 0.5 % (read in two reprints)

# IEC 60228, class 5, plain copper: greatest ohm/km at 20 degC; read in four reprints.
CLASS_5 = {
    "1 mm2": 19.5, "1.5 mm2": 13.3, "2.5 mm2": 7.98, "4 mm2": 4.95, "6 mm2": 3.30, "10 mm2": 1.91, "16 mm2": 1.21,
    "25 mm2": 0.780, "35 mm2": 0.554, "50 mm2": 0.386, "70 mm2": 0.272, "95 mm2": 0.206, "120 mm2": 0.161,
}

AWG_NUMBERS = {"18": 18, "16": 16, "14": 14, "12": 12, "10": 10, "8": 8, "6": 6, "4": 4, "3": 3, "2": 2, "1": 1,
               "1/0": 0, "2/0": -1, "3/0": -2, "4/0": -3}
AWG_IN_SHOPS = ["18", "16", "14", "12", "10", "8", "6", "4", "2", "1/0", "2/0", "4/0"]  # common practice, no source


def awg_area(name):
    """mm2 by the geometry of ASTM B258: 0.127 mm times 92 to the power (36 - n)/39; formula from memory."""
    diameter = 0.127 * 92.0 ** ((36 - AWG_NUMBERS[name]) / 39.0)
    return math.pi / 4.0 * diameter**2


def area(size):
    name, unit = size.split(" ")
    return float(name) if unit == "mm2" else awg_area(name)


def ohm_per_km(size):
    """At 20 degC."""
    if size in CLASS_5:
        return CLASS_5[size]
    return COPPER_OHM_MM2_PER_KM / awg_area(size.split(" ")[0]) * STRANDING


# ---- ampacity --------------------------------------------------------------------------------------------------------

# 33 CFR 183.425, Table 5, 30 degC around: ampere by the insulation's rating; read, federal text.
RATINGS = (60, 75, 80, 90, 105, 125, 200)
TABLE_5 = {
    "18": (10, 10, 15, 20, 20, 25, 25),
    "16": (15, 15, 20, 25, 25, 30, 35),
    "14": (20, 20, 25, 30, 35, 40, 45),
    "12": (25, 25, 35, 40, 45, 50, 55),
    "10": (40, 40, 50, 55, 60, 70, 70),
    "8": (55, 65, 70, 70, 80, 90, 100),
    "6": (80, 95, 100, 100, 120, 125, 135),
    "4": (105, 125, 130, 135, 160, 170, 180),
    "3": (120, 145, 150, 155, 180, 195, 210),
    "2": (140, 170, 175, 180, 210, 225, 240),
    "1": (165, 195, 210, 210, 245, 265, 280),
    "1/0": (195, 230, 245, 245, 285, 305, 325),
    "2/0": (225, 265, 285, 285, 330, 355, 370),
    "3/0": (260, 310, 330, 330, 385, 410, 430),
    "4/0": (300, 360, 385, 385, 445, 475, 510),
}
TABLE_5_AROUND = 30.0
ENGINE_SPACE = 50.0  # degC that note 1 of Table 5 stands for; read in two makers' reprints
ENGINE_BAY_RISE = 30.0  # over the air outside: 28 and 35 K were met in ordinary traffic; a trade paper, an owner's log
BUNDLES = ((2, 1.0), (3, 0.70), (6, 0.60), (24, 0.50), (10**6, 0.40))  # note 2 of Table 5; read in a reprint


def bundle_factor(loaded):
    return next(factor for most, factor in BUNDLES if loaded <= most)


def table_ampere(size, rating):
    """The row of the size, or of the next AWG with no more copper: by resistance, for "70 mm2" may be 63 mm2 of copper."""
    rows = [name for name in TABLE_5 if ohm_per_km(f"{name} AWG") >= ohm_per_km(size) * (1.0 - 1e-9)]
    if not rows:
        return None
    return TABLE_5[max(rows, key=awg_area)][RATINGS.index(rating)]


# ---- fuses -----------------------------------------------------------------------------------------------------------

# Ratings made, ampere. Blades of 1 to 30 A: JASO D612-97 table 1, read, 35 and 40 A and the others makers' lists, from memory.
MADE = {
    "blade": (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40),
    "SF30": (30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200),
    "SF51": (40, 60, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500),
    "post": (30, 40, 50, 60, 75, 80, 100, 125, 150, 175, 200, 225, 250, 300),
    # UL 248-15 steps of ten of its classes' limits; from memory. In builds 225 and 250 are read.
    "class T": (30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500,
                600),
}

# What they break, ampere, at no more than so many volts: ISO 8820-3 and -5, scopes, read; terminal cubes a private check of a
# maker's sheet, read weak; class T UL 248-15 for d.c., read weak in three places.
BREAKS = {
    "blade": ((32.0, 1000.0),),
    "SF30": ((32.0, 2000.0),),
    "SF51": ((32.0, 2000.0),),
    "post": ((14.0, 10000.0), (32.0, 5000.0)),
    "class T": ((125.0, 20000.0),),
}
FAMILIES = tuple(BREAKS)  # as the shelf is tried

# Multiple of the rating: the latest that it clears, seconds. ISO 8820-3 type C (0.75 s and 600 s consistent with a page that was
# read), ISO 8820-5 (makers differ); from memory.
LATEST = {
    "blade": ((1.35, 600.0), (1.6, 50.0), (2.0, 5.0), (3.5, 0.5), (6.0, 0.1)),
    "SF30": ((1.5, 3600.0), (2.0, 100.0), (3.0, 3.0), (5.0, 1.0)),
    "SF51": ((1.35, 1800.0), (2.0, 15.0), (3.5, 5.0), (6.0, 1.0)),
    # UL 248-15: 135 % within 120 min, 200 % within 14 min (600 A), then its largest let-through, 1,000,000 A2s at 600 A.
    "class T": ((1.35, 7200.0), (2.0, 840.0), (12.5, 0.0267)),
}

FUSE_USE = 0.80  # share of its rating that a fuse carries for long: 60 to 80 % in a module maker's manual, read
FUSE_RERATING = 0.0015  # per kelvin over 25 degC, zinc links; makers' curves, from memory
NEXT_ABOVE = 1.5  # 33 CFR 183.455(c)(1): up to 150 % of Table 5 under 50 V; read

# An in-line blade holder carries 20 A on 12 AWG at 25 degC, 105 degC its own limit; common practice, no source.
HOLDER_AMPERE, HOLDER_AREA, HOLDER_AROUND, HOLDER_LIMIT = 20.0, 3.31, 25.0, 105.0


def breaks(family, volts):
    """At or below a printed voltage what is printed there, between two of them on a line."""
    below = None
    for most, ampere in BREAKS[family]:
        if volts <= most:
            if below is None:
                return ampere
            return below[1] + (volts - below[0]) / (most - below[0]) * (ampere - below[1])
        below = most, ampere
    return 0.0


def latest_clearing(family, rating, ampere):
    """Seconds by the printed points, log-log between them and constant I2t beyond; None: it may never clear, or is not known."""
    points = LATEST.get(family)
    if not points:
        return None
    multiple = ampere / rating
    if multiple < points[0][0]:
        return math.inf
    for (x0, t0), (x1, t1) in zip(points, points[1:]):
        if multiple <= x1:
            return t0 * (multiple / x0) ** (math.log(t1 / t0) / math.log(x1 / x0))
    x, t = points[-1]
    return t * (x / multiple) ** 2


# ---- parts -----------------------------------------------------------------------------------------------------------

# Two-pole plug of the 50 A size at 75 degC around it, its housing at 105 degC: a plug maker's data book, read. Ampere by mm2.
PLUG_50 = ((8.3656, 46.0), (13.302, 58.0), (5.2612, 37.0), (3.3088, 31.0))
PLUG_50_AROUND, PLUG_50_LIMIT = 75.0, 105.0


def plug_50(square_mm, around):
    """Ampere: the lesser of what is printed on it and its chart, which is moved by the square root of the heat it may gain."""
    rows = [row for row in PLUG_50 if row[0] <= square_mm * 1.01]
    charted = max(rows)[1] if rows else min(row[1] for row in PLUG_50)
    if around >= PLUG_50_LIMIT:
        return 0.0
    return min(50.0, charted * math.sqrt((PLUG_50_LIMIT - around) / (PLUG_50_LIMIT - PLUG_50_AROUND)))


# ---- a short ---------------------------------------------------------------------------------------------------------

# Copper: 226 A s^0.5/mm2 and 234.5 degC, IEC 60364-5-54, as printed in a cable-engineering page; read.
WITHSTAND, INFERRED_ZERO = 226.0, 234.5


def short_limit(rating):
    """degC that insulation of a class stands for seconds; PVC 160, cross-linked 250 (read), between them common practice."""
    return 160.0 if rating <= 90 else 200.0 if rating <= 125 else 250.0


OVERLOAD = 50.0  # above its class for hours: vehicle cable of ISO 6722-1 stands it for 6 h; from memory


def hottest_after(square_mm, start, ampere, second):
    """degC of a conductor that keeps all the heat, IEC 60364-4-43 the other way round."""
    heat = (ampere / (WITHSTAND * square_mm)) ** 2 * second
    return (INFERRED_ZERO + start) * math.exp(heat) - INFERRED_ZERO if heat < 10.0 else math.inf


def warmed(square_mm, start, ampere, second, rated, reference, rating_ampere, around):
    """degC of one body that gives off heat so that it settles at its class with the current that its table prints.

    dT/dt = g (T + 234.5) - h (T - around), g = (I/(226 S))^2, h from the rating: linear, so an exponential.
    """
    g = (ampere / (WITHSTAND * square_mm)) ** 2
    h = (rating_ampere / (WITHSTAND * square_mm)) ** 2 * (rated + INFERRED_ZERO) / (rated - reference)
    a, b = g - h, g * INFERRED_ZERO + h * around
    if second == math.inf:
        return b / (h - g) if h > g else math.inf
    if abs(a * second) < 1e-9:
        return start + b * second
    return (start + b / a) * math.exp(min(a * second, 50.0)) - b / a


# ---- batteries -------------------------------------------------------------------------------------------------------

FULL_VOLTS = {"flooded": 12.65, "agm": 12.85, "gel": 12.9, "lfp": 13.6}  # rested and full; charts in common use
ABSORPTION = {"flooded": 14.4, "agm": 14.4, "gel": 14.1, "lfp": 14.4}  # usual settings of chargers
COMPENSATION = {"flooded": 0.024, "agm": 0.024, "gel": 0.024, "lfp": 0.0}  # V/K from 25 degC, between 0 and 40
CRANKING_DROP = 12.6 - 7.2  # SAE J537: 7.2 V after 30 s at -18 degC; read in a service manual
