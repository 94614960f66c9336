"""Tables that must stop the build, and the words with which they do.

    python3 tests/tables/broken.py GENERATOR

Each case is a sound table with one thing changed. `@` in the new text marks the place that the message is to name;
where there is none, the place is given as line and column. A table that is refused leaves no output behind, and the
sound ones are not refused.
"""

import pathlib
import subprocess
import sys
import tempfile

SOURCE = """
[source]
id      = "a-handbook"
cite    = "A Handbook, table 1"
status  = "memory"
terms   = "figures only, no text taken"
entered = "2026-11-25 from the page, read back the same day"
"""

FUSES = f"""\
kind    = "fuses"
title   = "Ratings of fuses"
applies = "a shelf"
{SOURCE}
[columns]
family = ""
rating = "A"
cold   = "mohm"

[[row]]
family = "blade"
rating = 5
cold   = 17.9

[[row]]
family = "blade"
rating = 10
cold   = 7.7
"""

FAMILIES = f"""\
kind    = "fuse_families"
title   = "Families of fuses"
applies = "a shelf"
{SOURCE}
[columns]
family   = ""
standard = ""
form     = ""
holder   = "mohm"
rerating = "/K"
usual    = ""
only_to_break = ""

[[row]]
family   = "blade"
standard = "a standard"
form     = "blade"
holder   = 2
rerating = 0.0015
usual    = true
only_to_break = false
"""

WIRES = f"""\
kind    = "conductors"
title   = "Copper conductors"
applies = "stranded copper"
{SOURCE}
[constants]
resistance_at = {{ value = 20, unit = "degC" }}
coefficient   = {{ value = 0.00393, unit = "/K", id = "a-standard", cite = "A Standard", status = "memory" }}

[columns]
gauge  = ""
area   = "mm2"
plain  = "ohm/km"
tinned = "ohm/km"

[[row]]
gauge  = "10 mm2"
area   = 10
plain  = 1.91
tinned = 1.95

[[row]]
gauge  = "16 mm2"
area   = 16
plain  = 1.21
tinned = 1.24
"""

BASES = f"""\
kind    = "ampacity_bases"
title   = "Bases"
applies = "boats"
{SOURCE}
[columns]
basis         = ""
title         = ""
ambient       = "degC"
grouping_from = "V"

[[row]]
basis         = "a-rule"
title         = "A Rule"
ambient       = 30
grouping_from = 0
"""

CURRENTS = f"""\
kind    = "ampacities"
title   = "Currents"
applies = "one conductor in free air"
{SOURCE}
[constants]
basis = "a-rule"

[columns]
gauge = ""
60    = "A"
105   = "A"

[[row]]
gauge = "10 mm2"
60    = 40
105   = 90

[[row]]
gauge = "16 mm2"
60    = 54
105   = 130
"""

BUNDLES = f"""\
kind    = "groupings"
title   = "Bundles"
applies = "loaded conductors lying together"
{SOURCE}
[constants]
basis = "a-rule"

[columns]
from   = ""
to     = ""
factor = "1"

[[row]]
from   = 4
to     = 6
factor = 0.6

[[row]]
from   = 7
factor = 0.5
"""

JOINTS = f"""\
kind    = "joints"
title   = "Joints"
applies = "new and well made"
{SOURCE}
[constants]
heat_limit = {{ value = 5, unit = "W", id = "a-rule", cite = "A Rule", status = "read" }}

[columns]
name  = ""
kind  = ""
from  = "mm2"
to    = "mm2"
low   = "mohm"
usual = "mohm"
high  = "mohm"

[[row]]
name  = "lug"
kind  = "lug"
from  = 1
to    = 50
low   = 0.1
usual = 0.2
high  = 0.5
"""

GUARDS = f"""\
kind    = "fridge_guards"
title   = "Guards"
applies = "12 V fridges"
{SOURCE}
[columns]
setting = ""
cut_out = "V"
cut_in  = "V"

[[row]]
setting = "standard"
cut_out = 10.4
cut_in  = 11.7
"""

LAGS = f"""\
kind    = "lags"
title   = "Lags"
applies = "still air"
{SOURCE}
[columns]
thing         = ""
time_constant = "h"

[[row]]
thing         = "battery"
time_constant = 4
"""

CHEMISTRIES = f"""\
kind    = "chemistries"
title   = "Chemistries"
applies = "12 V batteries"
{SOURCE}
[columns]
chemistry         = ""
group             = ""
cold_capacity     = ""
full              = "V"
resistance_low    = "ohm Ah"
resistance_high   = "ohm Ah"
fixed_low         = "mohm"
fixed_high        = "mohm"
absorption_low    = "V"
absorption        = "V"
absorption_high   = "V"
float             = "V"
compensation      = "mV/K"
depth_limit       = "%"
charge_limit      = "/h"
discharge_limit   = "/h"
vents             = ""
exponent          = "1"
charge_efficiency = "%"
self_discharge    = "%"
acceptance        = "ohm Ah"
acceptance_fall   = "1"

[[row]]
chemistry         = "wet"
group             = "lead"
cold_capacity     = "flooded"
full              = 12.7
resistance_low    = 0.3
resistance_high   = 0.6
fixed_low         = 0
fixed_high        = 0
absorption_low    = 14.1
absorption        = 14.4
absorption_high   = 14.8
float             = 13.5
compensation      = -24
depth_limit       = 50
charge_limit      = 0.2
discharge_limit   = 0.5
vents             = true
exponent          = 1.2
charge_efficiency = 100
self_discharge    = 5
acceptance        = 1.7
acceptance_fall   = 0.8
"""

RESTS = f"""\
kind    = "rest_voltages"
title   = "Rest voltages"
applies = "rested for hours"
{SOURCE}
[columns]
chemistry = ""
soc       = "%"
voltage   = "V"

[[row]]
chemistry = "wet"
soc       = 0
voltage   = 11.9

[[row]]
chemistry = "wet"
soc       = 100
voltage   = 12.7
"""

FACTORS = f"""\
kind    = "cell_size_factors"
title   = "Factors"
applies = "lead-acid"
{SOURCE}
[constants]
group = "lead"

[columns]
temperature = "degF"
factor      = "1"

[[row]]
temperature = 25
factor      = 1.52

[[row]]
temperature = 77
factor      = 1
"""

SHARES = f"""\
kind    = "capacity_shares"
title   = "Shares"
applies = "lithium"
{SOURCE}
[constants]
group = "lithium"

[columns]
temperature = "degC"
capacity    = "%"

[[row]]
temperature = -20
capacity    = 65

[[row]]
temperature = 25
capacity    = 100
"""

COLD_LIMITS = f"""\
kind    = "cold_charge_limits"
title   = "Limits"
applies = "lithium"
{SOURCE}
[columns]
chemistry = ""
below     = "degC"
limit     = "/h"

[[row]]
chemistry = "wet"
below     = 5
limit     = 0.1

[[row]]
chemistry = "wet"
below     = 10
limit     = 0.2
"""

HEATERS = f"""\
kind    = "battery_heaters"
title   = "Heaters"
applies = "lithium"
{SOURCE}
[columns]
chemistry = ""
capacity  = "Ah"
mass      = "kg"
heat      = "kJ/(kg K)"
warms_to  = "degC"

[[row]]
chemistry = "wet"
capacity  = 100
mass      = 12
heat      = 1
warms_to  = 5
"""

PANELS = f"""\
kind    = "panels"
title   = "Panels"
applies = "on a roof"
{SOURCE}
[columns]
panel                   = ""
nominal_rise            = "K"
close_to_roof           = "K"
temperature_coefficient = "/K"
losses                  = "%"
albedo                  = "1"

[[row]]
panel                   = "crystalline"
nominal_rise            = 27
close_to_roof           = 0
temperature_coefficient = -0.004
losses                  = 8
albedo                  = 0.2
"""

DULL_DAYS = f"""\
kind    = "dull_days"
title   = "Dull days"
applies = "anywhere"
{SOURCE}
[columns]
clearness = "1"
low_tenth = "1"

[[row]]
clearness = 0.241
low_tenth = 0.30

[[row]]
clearness = 0.334
low_tenth = 0.37
"""

REGULATORS = f"""\
kind    = "regulators"
title   = "Regulators"
applies = "12 V"
{SOURCE}
[columns]
regulator          = ""
efficiency         = "1"
at_battery_voltage = "1"

[[row]]
regulator          = "mppt"
efficiency         = 0.9

[[row]]
regulator          = "pwm"
efficiency         = 1
at_battery_voltage = 0.7
"""

LIMITS = f"""\
kind    = "time_limits"
title   = "Times"
applies = "a shelf"
{SOURCE}
[columns]
family   = ""
multiple = "1"
at_least = "s"
at_most  = "s"

[[row]]
family   = "blade"
multiple = 1.1
at_least = 360000

[[row]]
family   = "blade"
multiple = 2
at_least = 0.15
at_most  = 5

[[row]]
family   = "blade"
multiple = 3.5
at_least = 0.04
at_most  = 0.5
"""

PULSES = f"""\
kind    = "pulse_shares"
title   = "Pulses"
applies = "far apart"
{SOURCE}
[columns]
pulses = ""
share  = "%"

[[row]]
pulses = 100
share  = 48

[[row]]
pulses = 100000
share  = 22
"""

SHORTS = f"""\
kind    = "short_circuit_limits"
title   = "Shorts"
applies = "copper"
{SOURCE}
[columns]
material = ""
rated_to = "degC"
limit    = "degC"
overload = "K"

[[row]]
rated_to = 90
limit    = 160
overload = 50

[[row]]
material = "rubber"
rated_to = 60
limit    = 200
overload = 50

[[row]]
rated_to = 125
limit    = 210
overload = 50
"""

FILLS = f"""\
kind    = "fills"
title   = "How full a tube may be"
applies = "round cables"
{SOURCE}
[columns]
from = ""
to   = ""
most = "%"

[[row]]
from = 1
to   = 1
most = 53

[[row]]
from = 2
most = 31
"""

TUBES = f"""\
kind    = "tubes"
title   = "Tubes"
applies = "corrugated"
{SOURCE}
[columns]
tube    = ""
bore    = "mm"
outside = "mm"

[[row]]
tube    = "NW 10"
bore    = 9.8
outside = 13

[[row]]
tube    = "NW 14"
bore    = 14
outside = 18.5
"""

SUPPORTS = f"""\
kind    = "support_spacings"
title   = "Supports"
applies = "boats"
{SOURCE}
[columns]
cable        = ""
apart        = "mm"
first_within = "mm"

[[row]]
cable        = "battery cable"
apart        = 300
first_within = 1000
"""

STUDS = f"""\
kind    = "studs"
title   = "Holes"
applies = "lugs"
{SOURCE}
[columns]
stud     = ""
diameter = "mm"
hole     = "mm"

[[row]]
stud     = "M6"
diameter = 6
hole     = 6.4

[[row]]
stud     = "M8"
diameter = 8
hole     = 8.4
"""

LUGS = f"""\
kind    = "lugs"
title   = "Lugs"
applies = "copper"
{SOURCE}
[columns]
lug      = ""
over     = "mm2"
to       = "mm2"
smallest = "mm"
largest  = "mm"

[[row]]
lug      = "6 mm2"
over     = 0
to       = 6.6
smallest = 5
largest  = 8
"""

SHRINKS = f"""\
kind    = "shrink_tubes"
title   = "Heat-shrink"
applies = "as supplied"
{SOURCE}
[columns]
ratio    = "1"
supplied = "mm"

[[row]]
ratio    = 3
supplied = 6

[[row]]
ratio    = 3
supplied = 9

[[row]]
ratio    = 2
supplied = 4.8
"""

MASSES = f"""\
kind    = "cable_masses"
title   = "Mass"
applies = "single core"
{SOURCE}
[columns]
cable  = ""
copper = "g/m"
low    = "1"
usual  = "1"
high   = "1"

[[row]]
cable  = "single core"
copper = 8.89
low    = 1.25
usual  = 1.33
high   = 1.4
"""

PRACTICE = f"""\
kind    = "practice_voltages"
title   = "Practice"
applies = "12 V"
{SOURCE}
[columns]
what  = ""
value = "V"

[[row]]
what  = "starter_least"
value = 12.4
"""

MARKS = f"""\
kind    = "insulation_marks"
title   = "Marks"
applies = "cable"
{SOURCE}
[columns]
mark    = ""
lasts   = "degC"
prints  = "degC"
vehicle = ""

[[row]]
mark    = "XY"
lasts   = 90
prints  = 105
vehicle = true
"""

SOUND = {"practice": PRACTICE, "marks": MARKS, "fuses": FUSES, "limits": LIMITS, "pulses": PULSES, "shorts": SHORTS, "families": FAMILIES, "wires": WIRES, "bases": BASES, "currents": CURRENTS,
         "bundles": BUNDLES, "joints": JOINTS, "guards": GUARDS, "lags": LAGS, "chemistries": CHEMISTRIES,
         "rests": RESTS, "factors": FACTORS, "shares": SHARES, "cold limits": COLD_LIMITS,
         "heaters": HEATERS, "panels": PANELS, "dull days": DULL_DAYS, "regulators": REGULATORS,
         "fills": FILLS, "tubes": TUBES, "supports": SUPPORTS, "studs": STUDS, "lugs": LUGS, "shrinks": SHRINKS,
         "masses": MASSES}

# table, old text, new text, place where there is no mark, message
CASES = [
    ("fuses", 'kind    = "fuses"\n', "", "1:1", "the table has no 'kind'"),
    ("fuses", '"fuses"', '@"fuzes"', None, "'fuzes' is no kind of table"),
    ("fuses", 'title   = "Ratings of fuses"\n', "", "1:1", "the table has no 'title'"),
    ("fuses", 'applies = "a shelf"', 'applies = @""', None, "'applies' is to be a text"),
    ("fuses", 'applies = "a shelf"', 'applies = "a shelf"\n@colour = "red"', None, "'colour' has no place in a table"),
    ("fuses", "[source]", "[sauce]", "5:2", "'sauce' has no place in a table"),
    ("fuses", 'cite    = "A Handbook, table 1"\n', "", "5:1", "[source] has no 'cite'"),
    ("fuses", 'status  = "memory"', 'status  = @"hearsay"', None,
     "'hearsay' is no status; one of common_practice, memory, read, read_weak, recomputed"),
    ("fuses", 'rating = "A"', 'rating = @"amps"', None, "'amps' is no unit that the tables know"),
    ("fuses", 'rating = "A"', 'rating = @"V"', None,
     "'rating' is of the kind Current; 'V' is a unit of the kind Voltage"),
    ("fuses", 'rating = "A"', 'rating = @""', None, "'rating' needs a unit"),
    ("fuses", 'family = ""', 'family = @"A"', None, "'family' holds no quantity: its unit is to be \"\""),
    ("fuses", 'cold   = "mohm"', 'cold   = "mohm"\n@warm   = "mohm"', None,
     "'warm' is no column of this kind of table"),
    ("fuses", 'rating = "A"\n', "", "12:1", "the table has no column 'rating'"),
    ("fuses", "rating = 10\n", "", "22:1", "this row has no 'rating'"),
    ("fuses", "rating = 10", 'rating = @"10 A"', None, "'rating' is to be a number"),
    ("fuses", "rating = 10", "rating = @-10", None, "'rating' is to be more than nothing"),
    ("fuses", "rating = 10", "rating = @nan", None, "'rating' is to be a finite number"),
    ("fuses", "rating = 10", "rating = @4", None, "'rating' is to rise from row to row"),
    ("fuses", "cold   = 7.7", "cold   = @77", None, "'cold' is to fall from row to row"),
    ("fuses", "cold   = 7.7", "cold   = 7.7\n@price  = 2", None, "'price' is not among the table's columns"),
    ("fuses", '"blade"\nrating = 10', '"glass"\nrating = 10', "22:1",
     "\"glass\" is no name in a table of the kind 'fuse_families'"),
    ("fuses", "cold   = 7.7", "cold   = 7.7@.1", None,
     "Error while parsing floating-point: expected decimal digit or exponent, saw '.'"),
    ("limits", "multiple = 3.5", "multiple = @1.9", None, "'multiple' is to rise from row to row"),
    ("limits", "at_least = 0.04", "at_least = @0.15", None, "'at_least' is to fall from row to row"),
    ("limits", "at_most  = 0.5", "at_most  = @5", None, "'at_most' is to fall from row to row"),
    ("limits", "at_most  = 0.5", "at_most  = 0.03", "29:1", "'at_least' is not to be more than 'at_most'"),
    ("limits", "at_least = 0.04", "at_least = @0", None, "'at_least' is to be more than nothing"),
    ("limits", "at_least = 0.04\n", "", "29:1", "this row has no 'at_least'"),
    ("limits", 'at_most  = "s"', 'at_most  = "h"', "15:12", "'at_least' and 'at_most' are to have the same unit"),
    ("limits", '"blade"\nmultiple = 3.5', '"glass"\nmultiple = 3.5', "29:1",
     "\"glass\" is no name in a table of the kind 'fuse_families'"),
    ("pulses", "pulses = 100000", "pulses = @50", None, "'pulses' is to rise from row to row"),
    ("pulses", "share  = 22", "share  = @48.5", None, "'share' is to fall from row to row"),
    ("shorts", "limit    = 210", "limit    = @150", None, "'limit' is to rise from row to row"),
    ("shorts", "rated_to = 125", "rated_to = @80", None, "'rated_to' is to rise from row to row"),
    ("shorts", "rated_to = 125", "rated_to = 90", "29:1", "this row is there already, at data/shorts.toml:18"),
    ("families", 'form     = "blade"', 'form     = @"bayonet"', None, "'form' is to be one of blade, bolted, breaker, post"),
    ("families", 'holder   = "mohm"', 'holder   = "mohm"\nin_line_area = @"A"', None,
     "'in_line_area' is of the kind Area; 'A' is a unit of the kind Current"),
    ("families", "usual    = true", 'usual    = @"yes"', None, "'usual' is to be true or false"),
    ("wires", '"16 mm2"', '@"16"', None,
     "'16' is no conductor size; one of the forms \"8 AWG\", \"2/0 AWG\", \"10 mm2\", \"6 mm auto\""),
    ("wires", '"16 mm2"', '@"6 mm2"', None, "'gauge' is to rise from row to row"),
    ("wires", '"16 mm2"', '"10 mm2"', "28:1", "this row is there already, at data/wires.toml:22"),
    ("wires", "plain  = 1.21", "plain  = @12.1", None, "'plain' is to fall from row to row"),
    ("wires", "tinned = 1.24", "tinned = 1.20", "28:1", "'plain' is not to be more than 'tinned'"),
    ("wires", 'resistance_at = { value = 20, unit = "degC" }', 'resistance_at = @{ value = 20, unit = "V" }', None,
     "'resistance_at' is of the kind Temperature; 'V' is a unit of the kind Voltage"),
    ("wires", 'resistance_at = { value = 20, unit = "degC" }\n', "", "12:1", "[constants] has no 'resistance_at'"),
    ("wires", 'cite = "A Standard", ', "", "14:17", "'coefficient' has no 'cite'"),
    ("currents", 'basis = "a-rule"', 'basis = "no-rule"', "20:1",
     "\"no-rule\" is no name in a table of the kind 'ampacity_bases'"),
    ("bases", "ambient       = 30", "ambient       = @3000", None, "'ambient' is no temperature to be met"),
    ("currents", "105   = 90", "105   = @30", None, "a higher temperature class is not to carry less"),
    ("currents", "105   = 130", "105   = @80", None, "a thicker conductor is not to carry less"),
    ("bundles", "from   = 7", "from   = @7.5", None, "'from' is to be a whole number from 1"),
    ("bundles", "factor = 0.5", "factor = @1.5", None, "'factor' is a share of a whole, not more than 1"),
    ("joints", "usual = 0.2", "usual = 0.6", "24:1", "'usual' is not to be more than 'high'"),
    ("joints", 'kind  = "lug"', 'kind  = @"rivet"', None,
     "'kind' is to be one of battery_clamp, ferrule, lug, other, plug, socket"),
    ("marks", "prints  = 105", "prints  = 80", "18:1", "'lasts' is not to be more than 'prints'"),
    ("chemistries", "exponent          = 1.2", "exponent          = @0", None, "'exponent' is to be more than nothing"),
    ("rests", 'chemistry = "wet"\nsoc       = 100', 'chemistry = "dry"\nsoc       = 100', "22:1",
     "\"dry\" is no name in a table of the kind 'chemistries'"),
    ("rests", "voltage   = 12.7", "voltage   = @11.8", None, "'voltage' is to rise from row to row"),
    ("factors", "factor      = 1\n", "factor      = @1.6\n", None, "'factor' is to fall from row to row"),
    ("factors", "factor      = 1\n", "factor      = @-1\n", None, "'factor' is to be more than nothing"),
    ("factors", 'group = "lead"\n', "", "12:1", "[constants] has no 'group'"),
    ("cold limits", "limit     = 0.2", "limit     = @0.05", None, "'limit' is to rise from row to row"),
    ("heaters", "mass      = 12", "mass      = @0", None, "'mass' is to be more than nothing"),
    ("heaters", 'mass      = "kg"', 'mass      = @"g/m"', None, "'mass' is of the kind Mass; 'g/m' is a unit of the kind MassPerLength"),
    ("shares", "capacity    = 100", "capacity    = @101", None, "'capacity' is a share of a whole, not more than 100 %"),
    ("guards", "cut_in  = 11.7", "cut_in  = 10.3", "17:1", "'cut_out' is not to be more than 'cut_in'"),
    ("lags", "time_constant = 4", "time_constant = @0", None, "'time_constant' is to be more than nothing"),
    ("lags", 'time_constant = "h"', 'time_constant = @"/h"', None,
     "'time_constant' is of the kind Duration; '/h' is a unit of the kind ChargeRate"),
    ("panels", "nominal_rise            = 27", "nominal_rise            = @-27", None,
     "'nominal_rise' is to be more than nothing"),
    ("panels", "losses                  = 8\n", "losses                  = @-8\n", None,
     "'losses' is not to be negative"),
    ("dull days", "low_tenth = 0.37", "low_tenth = @0.29", None,
     "'low_tenth' is to rise from row to row"),
    ("panels", 'temperature_coefficient = "/K"', 'temperature_coefficient = @"mV/K"', None,
     "'temperature_coefficient' is of the kind PerKelvin; 'mV/K' is a unit of the kind VoltagePerKelvin"),
    ("regulators", "voltage = 0.7", "voltage = @1.7", None,
     "'at_battery_voltage' is a share of a whole, not more than 1"),
    ("fills", "most = 53", "most = @153", None, "'most' is a share of a whole, not more than 100 %"),
    ("fills", "[[row]]\nfrom = 1\nto   = 1", "@[[row]]\nfrom = 2\nto   = 1", None,
     "'from' is not to be more than 'to'"),
    ("tubes", "bore    = 14", "bore    = @9", None, "'bore' is to rise from row to row"),
    ("tubes", "[[row]]\ntube    = \"NW 10\"\nbore    = 9.8", "@[[row]]\ntube    = \"NW 10\"\nbore    = 13.8", None,
     "'bore' is not to be more than 'outside'"),
    ("supports", "apart        = 300", "apart        = @0", None, "'apart' is to be more than nothing"),
    ("supports", 'apart        = "mm"', 'apart        = @"mm2"', None,
     "'apart' is of the kind Length; 'mm2' is a unit of the kind Area"),
    ("practice", "value = 12.4", "value = @0", None, "'value' is to be more than nothing"),
    ("studs", "hole     = 8.4", "hole     = @6.3", None, "'hole' is to rise from row to row"),
    ("studs", "[[row]]\nstud     = \"M6\"\ndiameter = 6", "@[[row]]\nstud     = \"M6\"\ndiameter = 6.5", None,
     "'diameter' is not to be more than 'hole'"),
    ("lugs", "over     = 0", "over     = @-1", None, "'over' is not to be negative"),
    ("lugs", "[[row]]\nlug      = \"6 mm2\"\nover     = 0\nto       = 6.6\nsmallest = 5",
     "@[[row]]\nlug      = \"6 mm2\"\nover     = 0\nto       = 6.6\nsmallest = 10", None,
     "'smallest' is not to be more than 'largest'"),
    ("shrinks", "supplied = 9", "supplied = @5", None, "'supplied' is to rise from row to row"),
    ("shrinks", "ratio    = 2", "ratio    = @0", None, "'ratio' is to be more than nothing"),
    ("masses", "[[row]]\ncable  = \"single core\"\ncopper = 8.89\nlow    = 1.25",
     "@[[row]]\ncable  = \"single core\"\ncopper = 8.89\nlow    = 1.35", None,
     "'low' is not to be more than 'usual'"),
]


def run(generator, folder, tables):
    data = folder / "data"
    data.mkdir()
    for name, text in tables.items():
        (data / f"{name}.toml").write_text(text, encoding="utf-8")
    files = sorted(f"data/{name}.toml" for name in tables)
    answer = subprocess.run([generator, "out.cpp", *files], cwd=folder, capture_output=True, timeout=60, check=False)
    return answer.returncode, answer.stderr.decode("utf-8").strip(), (folder / "out.cpp").exists()


def marked(text):
    """The text without its mark, and where the mark stood."""
    if "@" not in text:
        return text, None
    before = text[: text.index("@")]
    return text.replace("@", "", 1), f"{before.count(chr(10)) + 1}:{len(before) - before.rfind(chr(10))}"


def main(words):
    if len(words) != 1:
        print(__doc__, file=sys.stderr)
        return 2
    generator = str(pathlib.Path(words[0]).resolve())
    faults = 0

    def check(tables, expected):
        nonlocal faults
        with tempfile.TemporaryDirectory() as folder:
            code, said, written = run(generator, pathlib.Path(folder), tables)
        if expected is None:
            good = code == 0 and written and not said
        else:
            good = code == 1 and not written and said == expected
        if not good:
            faults += 1
            output = ", output written" if written else ""
            print(f"expected: {expected or 'no message'}\nfound:    {said} (exit {code}{output})\n")

    check(SOUND, None)
    for name, old, new, place, message in CASES:
        if SOUND[name].count(old) != 1:
            print(f"{name}: {old!r} is there {SOUND[name].count(old)} times: this case changes nothing")
            faults += 1
            continue
        text, mark = marked(SOUND[name].replace(old, new))
        check(SOUND | {name: text}, f"data/{name}.toml:{mark or place}: error: {message}")
    print(f"{len(CASES)} broken tables, {faults} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
