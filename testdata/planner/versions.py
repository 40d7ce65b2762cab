#!/usr/bin/env python3
"""Holds the plans of two versions of the planner against each other.

Needs Python 3.9 or later. Each file is written by

    LATEWOOD_WORTHS=FILE go test ./woodphys/resaw/plan -run TestWorthsOfPlans

on the same machine; then

    python3 testdata/planner/versions.py OLD NEW
"""
import json
import statistics
import sys

old, new = (json.load(open(name)) for name in sys.argv[1:3])
groups = {}
names = {b['Name'] for b in new}
for a, b in zip((a for a in old if a['Name'] in names), new):
    assert a['Name'] == b['Name']
    groups.setdefault(b['Name'], []).append((a, b))
for name, pairs in groups.items():
    gain = sorted(100 * (b['Worth'] - a['Worth']) / max(1, a['Worth']) for a, b in pairs)
    gap = sorted(100 * (b['Bound'] - b['Worth']) / max(1, b['Bound']) for _, b in pairs)
    time = sorted(1000 * b['Seconds'] for _, b in pairs)
    before = sorted(1000 * a['Seconds'] for a, _ in pairs)
    print(f"{name}: {len(pairs)} requests; worth {statistics.mean(gain):+.1f} % in the mean, "
          f"{statistics.median(gain):+.1f} in the median, {gain[0]:+.1f} to {gain[-1]:+.1f}; "
          f"missing {sum(a['Missing'] for a, _ in pairs)} before, {sum(b['Missing'] for _, b in pairs)} now; "
          f"proven {sum(b['Optimal'] for _, b in pairs)}; gap {statistics.median(gap):.1f} % in the median, {gap[-1]:.1f} at most; "
          f"time {statistics.median(time):.0f} ms in the median, {time[int(0.99 * (len(time) - 1))]:.0f} at 99 %, "
          f"{time[-1]:.0f} at most (before {statistics.median(before):.0f}, {before[-1]:.0f})")
