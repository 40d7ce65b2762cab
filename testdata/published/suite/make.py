"""Gathers cases.csv from the published tables of this project and from the files beside it.

python3 testdata/published/suite/make.py from the top of the repository. The figures are
published ones; how an implementation is asked for them stands in questions.csv, and nowhere
in the cases. What cannot be asked is in left_out.csv.
"""
import csv

DATA, HERE = "species/data/", "testdata/published/"
READ = {"read", "read-agreeing", "read-transcript"}


def table(path):
    with open(path, encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


sources = {r["id"]: r["citation"] for r in table(DATA + "sources.csv")}
WOODS = {r["id"] for r in table(DATA + "woods.csv")}
cases, numbers = [], {}


def add(topic, inputs, expected, tolerance, unit, source, checked, warnings=""):
    numbers[topic] = numbers.get(topic, 0) + 1
    cases.append(["%s-%03d" % (topic.upper(), numbers[topic]), topic, ";".join("%s=%s" % i for i in inputs.items()),
                  expected, tolerance, unit, source, checked, warnings])


def spread(rows, most):
    """most rows, evenly over all"""
    return rows if len(rows) <= most else [rows[i * len(rows) // most] for i in range(most)]


# equilibrium: sixty cells of table 4-2, rules of the trade, movement tables
cells = [r for r in table(HERE + "emc_table_wh4_2.csv") if r["checked"] == "read"]
for r in spread(cells, 60):
    add("emc", {"t": r["temperature_f"], "rh": r["rh_pct"]}, r["emc_pct"], "0.06", "%MC", r["source"], r["checked"])
for rh, mc in ((30, 6), (50, 9), (65, 12), (80, 16)):
    add("emc", {"t": 70, "rh": rh}, mc, "0.5", "%MC", "Wengert, rules of the lumber trade", "read")
for wood, damp, usual in (("teak", 15, 10), ("iroko", 15, 11), ("afrormosia", 15, 11), ("cedar-western-redcedar", 14, 9.5)):
    for rh, mc in ((90, damp), (60, usual)):
        add("emc_band", {"wood": wood, "rh": rh}, mc, "band", "%MC", "British Building Research Establishment, movement of timbers", "memory")
for wood, moved in (("cedar-western-redcedar", 0.9), ("afrormosia", 1.3), ("iroko", 1.0)):
    add("season_band", {"wood": wood}, moved, "band", "mm of 100", "British Building Research Establishment, movement of timbers, tangential, 60 to 90 % RH", "memory")
for r in table(DATA + "fibre_saturation.csv"):
    if r["wood"] != "*" and r["checked"] in READ:
        add("saturation", {"wood": r["wood"]}, r["fibre_saturation_pct"], "0.05", "%MC", sources[r["source"]], r["checked"])

# movement: each published figure as its form tells it
for direction, short in (("radial", "radial"), ("tangential", "tangential")):
    rows = [r for r in table(DATA + "coefficients.csv") if r[short + "_checked"] in READ]
    for r in spread(rows, 40):
        add("coefficient", {"wood": r["wood"], "direction": direction}, "%.6g" % (-100 * float(r[short + "_per_pct"])), "0.0001", "mm of 100",
            sources[r[short + "_source"]], r[short + "_checked"])
    rows = [r for r in table(DATA + "shrinkage.csv") if r[short + "_checked"] in READ and r[short + "_pct"]]
    for r in spread(rows, 60):
        add("total", {"wood": r["wood"], "direction": direction}, "-" + r[short + "_pct"], "0.001", "mm of 100",
            sources[r[short + "_source"]], r[short + "_checked"])
    for r in table(DATA + "swelling.csv"):
        if r[short + "_pct_per_pct"]:
            add("differential", {"wood": r["wood"], "direction": direction}, "-" + r[short + "_pct_per_pct"], "0.0001", "mm of 100",
                sources[r[short + "_source"]], r[short + "_checked"])
    for r in table(DATA + "partial_shrinkage.csv"):
        if r[short + "_pct"] and r[short + "_source"] == "din-68100":
            add("partial", {"wood": r["wood"], "direction": direction, "to": r["to_mc_pct"]}, "-" + r[short + "_pct"], "band 0.25", "mm of 100",
                sources[r[short + "_source"]], r[short + "_checked"])
for r in table(HERE + "differential_shrinkage.csv"):
    add("differential_band", {"wood": r["wood"], "direction": r["direction"]}, "-" + r["pct_per_point"], "band", "mm of 100", r["source"], r["checked"])

# air, by a library that was written apart from this one
air = [r for r in table(HERE + "psychrometrics.csv") if 0 <= float(r["temperature_c"]) <= 60 and float(r["rh_pct"]) >= 15]
for r in spread(air, 40):
    given = {"t": r["temperature_c"], "rh": r["rh_pct"], "pressure": r["pressure_pa"]}
    add("vapour", given, r["vapour_pressure_pa"], "0.1%", "Pa", r["source"], r["checked"])
    if float(r["dew_or_frost_point_c"]) > 0:
        add("dew_point", given, r["dew_or_frost_point_c"], "0.05", "C", r["source"], r["checked"])
for r in table(HERE + "worked_examples.csv"):
    inputs = dict(i.split("=", 1) for i in r["inputs"].split(";"))
    if r["topic"] == "wetbulb" and "dry_c" in inputs and inputs.get("want") is None:
        add("wet_bulb", {"t": inputs["dry_c"], "wet": inputs["wet_c"], "pressure": inputs["pressure_pa"]}, r["expected"], r["tolerance"], "%RH", r["source"], r["checked"], "assumption")

# worked examples of the other routes
for expected, unit, source in (("1.705", "mm", "Wood Handbook ch. 13, flat-grained white fir, 232 mm from 8 to 11 %"),):
    add("own_coefficient", {"size": 232, "c": 0.00245, "from": 8, "to": 11}, expected, "0.0005", unit, source, "memory", "default_used")
add("own_coefficient", {"size": 336.55, "c": 0.002, "from": 19, "to": 10}, "-6.0579", "0.001", "mm", "Missouri S&T timber design problem 4.34, 13.25 in to 13.01 in", "read", "outside_fitted_range")
add("own_total", {"size": 100, "s": 8.6, "from": 12, "to": 6}, "-1.8136", "0.0001", "mm", "Wood Handbook ch. 13, equation for larger changes", "memory")
add("own_total", {"size": 100, "s": 8.6, "from": 100, "to": 12}, "-5.16", "0.0005", "mm", "Wood Handbook ch. 4, S_x = S_0 (1 - x/30)", "memory")
add("cup", {"width": 200, "pith": 100, "r": 3, "t": 6}, "2.356", "0.06", "mm", "polar compatible field, (e_T - e_R) h theta tan(theta), to first order", "derived")
add("strip", {"ratio": 1}, "1.5", "0.0005", "mm", "Timoshenko 1925, equal layers", "derived")
add("strip", {"ratio": 2}, "1.45455", "0.0005", "mm", "Timoshenko 1925, stiffness ratio 2", "derived")
for r in table(HERE + "resaw_problems.csv"):
    inputs = dict(i.split("=", 1) for i in r["inputs"].split(";"))
    wanted = dict(i.split("=", 1) for i in r["expected"].split(";"))
    if r["calc"] == "leaves" and set(inputs) <= {"thickness", "facing", "leaf", "kerf", "far"} and inputs.get("far") == "1" and "leaves" in wanted:
        add("leaves", {"facing": "0", **inputs}, wanted["leaves"], "0", "leaves", r["source"], r["checked"])

# The same published figures asked of the other questions, so that each answers for itself.
def figures(direction, share):
    """every third total shrinkage that was read, from another start in each question"""
    rows = [r for r in table(DATA + "shrinkage.csv") if r[direction + "_checked"] in READ and r[direction + "_pct"]]
    return [(r["wood"], r[direction + "_pct"], sources[r[direction + "_source"]], r[direction + "_checked"]) for r in spread(rows[share::3], 20)]


for direction in ("radial", "tangential"):
    for wood, pct, source, checked in figures(direction, 0):
        add("section_" + direction, {"wood": wood}, "-" + pct, "0.001", "%", source, checked)
    for wood, pct, source, checked in figures(direction, 1):
        add("laminate_total", {"wood": wood, "angle": {"radial": 90, "tangential": 0}[direction]}, "-" + pct, "0.001", "mm of 100", source, checked)
for topic in ("section_differential", "laminate_differential", "assembly_differential", "readiness_differential"):
    for r in table(HERE + "differential_shrinkage.csv"):
        add(topic, {"wood": r["wood"], "direction": r["direction"], "angle": {"radial": 90, "tangential": 0}[r["direction"]]},
            "-" + r["pct_per_point"], "band", "mm of 100", r["source"], r["checked"])
BRE = "British Building Research Establishment, movement of timbers"
for wood, moved in (("cedar-western-redcedar", 0.9), ("afrormosia", 1.3), ("iroko", 1.0)):
    add("assembly_season", {"wood": wood}, moved, "band", "mm of 100", BRE + ", tangential, 60 to 90 % RH", "memory")
    add("year_season", {"wood": wood}, moved, "band", "mm of 100", BRE + ", tangential, 60 to 90 % RH", "memory")
for wood, damp, usual in (("teak", 15, 10), ("iroko", 15, 11), ("afrormosia", 15, 11), ("cedar-western-redcedar", 14, 9.5)):
    for rh, mc in ((90, damp), (60, usual)):
        add("year_mc", {"wood": wood, "rh": rh}, mc, "band", "%MC", BRE, "memory")
        add("readiness_target", {"wood": wood, "rh": rh}, mc, "band", "%MC", BRE, "memory")
for rh, mc in ((30, 6), (50, 9), (65, 12), (80, 16)):
    add("year_rule", {"rh": rh}, mc, "0.5", "%MC", "Wengert, rules of the lumber trade", "read")
for r in table(HERE + "movement_classes.csv"):
    for topic in ("movement_class", "year_class"):
        add(topic, {"wood": r["wood"]}, {"small": "0..3", "medium": "3..4.5", "large": "4.5..9"}[r["class"]], "span band", "%", r["source"], r["checked"])

# moisture: scales, meters, and printed densities
for r in table(HERE + "worked_examples.csv"):
    inputs = dict(i.split("=", 1) for i in r["inputs"].split(";"))
    if r["topic"] == "ovendry" and inputs.get("basis", "dry") == "dry":
        unit = "g" if "green_g" in inputs else "oz"
        for topic in ("ovendry", "readiness_ovendry"):
            add(topic, {"wet": inputs["green_" + unit], "dry": inputs["ovendry_" + unit], "unit": unit}, r["expected"], r["tolerance"], "%MC", r["source"], r["checked"])
    if r["topic"] == "running":
        add("running", {"start": inputs["weight0"], "mc": inputs["mc0"], "now": inputs["weight"]}, r["expected"], r["tolerance"], "%MC", r["source"], r["checked"])
    if r["topic"] == "weight":
        lost = float(inputs["weight_loss_green_to_20pct"])
        add("running", {"start": "%g" % (1000 - 10 * lost), "mc": 20, "now": 1000}, r["expected"], r["tolerance"], "%MC", r["source"], r["checked"])
    if r["topic"] == "meter" and "wood_c" in inputs:
        add("meter", {"reading": inputs["reading"], "t": inputs["wood_c"]}, r["expected"], r["tolerance"], "%MC", r["source"], r["checked"])
rows = [r for r in table(DATA + "specific_gravity.csv") if r["sg_12"] and r["sg_12_checked"] in READ and r["sg_green_checked"] in READ]
for r in spread(rows, 40):
    add("weight_at_12", {"wood": r["wood"], "g": "%g" % (1120 * float(r["sg_12"]))}, 12, "8", "%MC",
        sources[r["sg_12_source"]] + ": a litre of the specific gravity at 12 %MC", r["sg_12_checked"])
for r in table(HERE + "density_12.csv"):
    add("weight_at_12_band", {"wood": r["wood"], "g": "%g" % (1000 * float(r["density_12_g_cm3"]))}, 12, "band", "%MC", r["source"], r["checked"])

# drying: spans of a whole country, one place and day of it; printed dates
rows = [r for r in table(DATA + "air_drying_times.csv") if r["row"] in WOODS]
for r in spread(rows, 30):
    add("air_drying", {"wood": r["row"], "day": "2025-04-01"}, r["min_days"] + ".." + r["max_days"], "span band", "days", sources[r["source"]], r["checked"])
for day, days in (("2025-04-01", 82), ("2025-09-01", 154), ("2025-10-01", 184)):
    add("air_drying_band", {"wood": "oak-northern-red", "day": day}, days, "band", "days",
        "air-drying estimates of the Forest Products Laboratory, red oak, 1 in, Madison, as quoted in a trade article of 2025; end at 20 %MC taken", "secondary")

# look-ups: air outdoors by city and month; figures of woods
MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split()
for i, r in enumerate(table(DATA + "handbook_emc.csv")):
    for month in (1 + i % 6, 7 + i % 6):
        add("outdoors", {"station": r["station"], "month": month}, r[MONTHS[month - 1]], "1.0", "%MC", sources[r["source"]], r["checked"])
for r in spread(table(HERE + "specific_gravity.csv"), 40):
    add("figure", {"wood": r["wood"], "name": "specific_gravity"}, r["sg_green"], "0.0005", "1", r["source"], r["checked"])
for r in spread([r for r in table(HERE + "elastic_ratios.csv") if r["et_el"] and r["wood"] in WOODS], 20):
    add("figure", {"wood": r["wood"], "name": "et_el"}, r["et_el"], "0.0005", "1", r["source"], r["checked"])

# strips of two layers, by the printed equations
TIMOSHENKO = "Timoshenko 1925, Analysis of bi-metal thermostats, J. Opt. Soc. Am. 11, 233, "
for n in (0.2, 0.25, 0.5, 0.75, 1.5, 3, 4, 5, 8, 10):
    cup = 24 * 0.002 / (10 * (14 + n + 1 / n)) * 200**2 / 8
    add("strip", {"ratio": n}, "%.5f" % cup, "0.0005", "mm", TIMOSHENKO + "equal thickness, 24 e/(h (14 + n + 1/n))", "derived")
for one, two, n in ((2, 8, 1), (8, 2, 1), (3, 7, 1), (7, 3, 1), (4, 6, 2), (6, 4, 2), (4, 6, 0.5), (6, 4, 0.5), (1, 9, 1), (9, 1, 3)):
    m = one / two
    cup = 6 * 0.002 * (1 + m)**2 / (10 * (3 * (1 + m)**2 + (1 + m * n) * (m * m + 1 / (m * n)))) * 200**2 / 8
    add("strip_of_two", {"one": one, "two": two, "ratio": n}, "%.5f" % cup, "0.0005", "mm", TIMOSHENKO + "eq. (4)", "derived")

# sawing and matching
for r in table(HERE + "resaw_problems.csv"):
    inputs = dict(i.split("=", 1) for i in r["inputs"].split(";"))
    wanted = dict(i.split("=", 1) for i in r["expected"].split(";"))
    if r["calc"] == "billet_for_in":
        add("leaves_in", {"thickness": wanted["billet"], "leaf": inputs["leaf"], "kerf": inputs["kerf"]}, inputs["leaves"], "0", "leaves", r["source"], r["checked"])
    if r["calc"] == "ring_shift" and inputs["d"] == "2.3":
        add("ring_shift", {"angle": inputs["angle"]}, wanted["shift"], "0.00006", "mm", r["source"], r["checked"])
    if r["calc"] == "seam":
        add("seam", {"opening": inputs["opening"], "leaf": inputs["leaf"], "kerf": inputs["kerf"], "angle": inputs["angle"]},
            wanted["shift"], "0.00006", "mm", r["source"], r["checked"])

for r in table(HERE + "sawing_worked.csv"):
    inputs = dict(i.split("=", 1) for i in r["inputs"].split(";"))
    add(r["topic"], inputs, r["expected"], r["tolerance"], r["unit"], "worked by hand: " + r["working"], "derived")

# logs: printed board feet of two rules, over all diameters and lengths
for r in spread([r for r in table(HERE + "log_rules.csv") if int(r["small_end_diameter_in"]) >= 6], 12):
    given = {"diameter": r["small_end_diameter_in"], "length": r["length_ft"]}
    source = "Briggs, Forest Products Measurements and Conversion Factors, Univ. of Washington 1994, app. 3 table 1 (a public transcription)"
    add("doyle", given, r["doyle_bf_printed"], "0.51", "board feet", source, "read-transcript")
    add("international", given, r["international_quarter_bf_printed"], "3", "board feet", source, "read-transcript")

with open(HERE + "suite/cases.csv", "w", encoding="utf-8", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["id", "topic", "inputs", "expected", "tolerance", "unit", "source", "checked", "warnings"])
    out.writerows(cases)
print(len(cases), numbers)
