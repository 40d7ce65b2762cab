#!/usr/bin/env python3
"""Gathers the inputs of the fit of drying factors from the species tables into
fit_inputs.csv. Run from the top of the repository:

    python3 testdata/drying/fit_inputs.py
"""
import csv

DATA = "species/data/"


def rows(name):
    return list(csv.DictReader(open(DATA + name, newline="")))


gravity = {r["wood"]: r for r in rows("specific_gravity.csv")}
groups = {r["id"]: r["group"] for r in rows("woods.csv")}
genera = {r["id"]: r["botanical_name"].split()[0] for r in rows("woods.csv")}
green = {r["row"]: r for r in rows("green_moisture.csv")}
fsp = {r["wood"]: r["fibre_saturation_pct"] for r in rows("fibre_saturation.csv")}

# Names of the air-drying table that stand for another row of the other tables;
# a wood without green moisture of its own takes that of its nearest relative.
GRAVITY = {
    "pine-sugar-light": "pine-sugar", "pine-sugar-sinker": "pine-sugar",
    "redwood-light": "redwood-young-growth", "redwood-sinker": "redwood-old-growth",
    "sweetgum-heartwood": "sweetgum", "sweetgum-sapwood": "sweetgum",
    "hickory-true": "hickory-shagbark", "oak-northern-white": "oak-white", "oak-southern-white": "oak-swamp-chestnut",
}
GREEN = {
    "alder-red": "alder-red", "ash-green": "ash-green", "aspen-bigtooth": "aspen", "aspen-quaking": "aspen",
    "butternut": "walnut-black", "cottonwood-black": "cottonwood", "cottonwood-eastern": "cottonwood",
    "hickory-true": "hickory-mockernut", "hickory-pecan": "hickory-water", "magnolia-southern": "magnolia",
    "maple-bigleaf": "maple-sugar", "maple-red": "maple-silver", "oak-northern-white": "oak-white",
    "oak-southern-white": "oak-white", "sweetgum-heartwood": "sweetgum", "sweetgum-sapwood": "sweetgum",
    "tanoak": "oak-northern-red", "willow-black": "cottonwood", "douglas-fir-interior-north": "douglas-fir-coast",
    "douglas-fir-interior-south": "douglas-fir-coast", "douglas-fir-interior-west": "douglas-fir-coast",
    "pine-eastern-white": "pine-western-white", "pine-jack": "pine-red", "pine-slash": "pine-longleaf",
    "pine-sugar-light": "pine-sugar", "pine-sugar-sinker": "pine-sugar", "redwood-light": "redwood-old-growth",
    "redwood-sinker": "redwood-old-growth", "spruce-red": "spruce-black", "spruce-white": "spruce-black",
}
# One part of the log only, where the name says so.
PART = {"sweetgum-heartwood": "heartwood_pct", "sweetgum-sapwood": "sapwood_pct",
        "pine-sugar-light": "heartwood_pct", "pine-sugar-sinker": "sapwood_pct",
        "redwood-light": "heartwood_pct", "redwood-sinker": "sapwood_pct"}

out = []
for r in rows("air_drying_times.csv"):
    wood = r["row"]
    sg = GRAVITY.get(wood, wood)
    mc = GREEN.get(wood, wood)
    # The whole stem where it is printed, which weighs heartwood and sapwood by what it has of them.
    values = [float(green[mc][k]) for k in ("heartwood_pct", "sapwood_pct") if green[mc][k]]
    if green[mc]["stem_pct"]:
        values = [float(green[mc]["stem_pct"])]
    if wood in PART:
        values = [float(green[mc][PART[wood]])]
    initial = sum(values) / len(values)
    if len(values) == 2 and (groups.get(sg) or groups.get(wood)) == "softwood":
        initial *= 0.8  # a stem is drier than the mean of heartwood and sapwood: 26 stem averages of softwoods
    initial = min(initial, 150)
    note = []
    if sg != wood:
        note.append("specific gravity of " + sg)
    if mc != wood:
        note.append("green moisture of " + mc)
    group = groups.get(sg) or groups.get(wood)
    place, low, high, checked = "madison-wi", r["min_days"], r["max_days"], r["checked"]
    source, key = "Air Drying of Lumber, AH-402/GTR-117, national span", r["source"]
    if wood == "maple-sugar":
        place, low, high, checked = "sault-ste-marie-mi", "40", "205", "read"
        source, key = "Peck 1957, FPL 2086, Upper Michigan, mean 90 days; national span of AH-402 (memory) is 50-200", "fpl-2086"
    genus = genera.get(wood) or genera[sg]
    out.append([wood, group, genus, gravity[sg]["sg_green"], f"{initial:g}", fsp.get(sg, fsp.get("*", "30")), place, low, high, source, key, checked, "; ".join(note)])

with open("testdata/drying/fit_inputs.csv", "w", newline="") as f:
    w = csv.writer(f, lineterminator="\n")
    w.writerow("wood,group,genus,specific_gravity,initial_mc_pct,fibre_saturation_pct,place,min_days,max_days,source,source_key,checked,note".split(","))
    w.writerows(out)
print(len(out), "woods")
