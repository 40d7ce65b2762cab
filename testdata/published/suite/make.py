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

with open(HERE + "suite/cases.csv", "w", encoding="utf-8", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["id", "topic", "inputs", "expected", "tolerance", "unit", "source", "checked", "warnings"])
    out.writerows(cases)
print(len(cases), numbers)
