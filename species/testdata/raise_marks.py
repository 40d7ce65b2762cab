"""Raises the marks of the tables from a list of values that were found again in print.

Run it from the root of the project:

    python3 species/testdata/raise_marks.py

confirmed.csv has a row for each value that was found: finds is how many independent
texts of the publication were seen (0: quoted at third hand, 1: one transcription, 2: two,
or the page of the agency itself). contradicted.csv has those that are printed otherwise;
those with the outcome corrected take the printed value, the disputed ones stand in
data/disputed.csv. Nothing is lowered. recall.csv is written anew: how many recalled
values of each source could be checked, and how many of them differed.
"""

import csv
from collections import defaultdict
from pathlib import Path

HERE = Path(__file__).parent
DATA = HERE.parent / "data"
STRONGEST_FIRST = ["read-agreeing", "read", "read-transcript", "read-by-order", "computed", "derived", "secondary",
                   "inferred", "memory"]
MARK_OF_FINDS = {0: "secondary", 1: "read-transcript", 2: "read"}


def rows_of(path):
    with open(path, newline="") as handle:
        return list(csv.DictReader(handle))


def write(path, rows):
    with open(path, "w", newline="") as handle:
        out = csv.DictWriter(handle, list(rows[0]), lineterminator="\n")
        out.writeheader()
        out.writerows(rows)


def columns_about(file, column):
    """The columns of the source and of the mark of a value."""
    if file == "elastic_ratios.csv":
        return ("poisson_source" if column.startswith("nu_") else "ratios_source"), "checked"
    stem = {"sg_green": "sg_green", "sg_12": "sg_12", "moe_mpa": "moe"}.get(column, column.split("_")[0])
    return stem + "_source", stem + "_checked"


def raised(mark, was, finds):
    """The mark after so many finds: one beside a copy out of register makes two."""
    new = MARK_OF_FINDS[min(2, finds + (1 if was == "read-by-order" and finds else 0))]
    return new if STRONGEST_FIRST.index(new) < STRONGEST_FIRST.index(mark) else mark


def main():
    tables = {}
    key = {}
    for file in ("shrinkage.csv", "coefficients.csv", "specific_gravity.csv", "green_moisture.csv", "elastic_ratios.csv"):
        tables[file] = rows_of(DATA / file)
        key[file] = {r.get("wood") or r.get("row"): r for r in tables[file]}
    confirmed, contradicted = rows_of(HERE / "confirmed.csv"), rows_of(HERE / "contradicted.csv")
    for c in contradicted:
        if c["outcome"] == "corrected":
            key[c["file"]][c["row"]][c["column"]] = c["printed"]
    found = defaultdict(set)
    checked, differed = defaultdict(int), defaultdict(list)
    for c in confirmed:
        row = key[c["file"]][c["row"]]
        if float(row[c["column"]]) != float(c["value"]):
            raise SystemExit(f"{c['file']}: {c['row']} {c['column']} is {row[c['column']]}, confirmed was {c['value']}")
        source, mark = columns_about(c["file"], c["column"])
        if c["was"] == "memory":
            checked[row[source]] += 1
        if c["file"] == "elastic_ratios.csv":
            found[c["row"]].add(c["column"])
        else:
            row[mark] = raised(row[mark], c["was"], int(c["finds"]))
    for c in contradicted:
        row = key[c["file"]][c["row"]]
        source, mark = columns_about(c["file"], c["column"])
        if c["was"] == "memory":
            checked[row[source]] += 1
            differed[row[source]].append(abs(float(c["was_value"]) / float(c["printed"]) - 1))
        if c["file"] == "elastic_ratios.csv":
            found[c["row"]].add(c["column"])
        elif c["outcome"] == "corrected":
            row[mark] = "read" if ";" in c["publication"] else "read-transcript"
    ratios = [c for c in tables["elastic_ratios.csv"][0] if not c.endswith("source") and c not in ("row", "checked")]
    for row in tables["elastic_ratios.csv"]:
        if all(row[c] == "" or c in found[row["row"]] for c in ratios):
            row["checked"] = raised(row["checked"], "", 1)
    for file, rows in tables.items():
        write(DATA / file, rows)
    write(DATA / "recall.csv", [{"source": s, "checked_values": n, "differed": len(differed[s]),
                                 "largest_pct": f"{100 * max(differed[s], default=0):.1f}"}
                                for s, n in sorted(checked.items())])


main()
