#!/usr/bin/env python3
"""Short pieces that dry through faces and ends, in two dimensions, by scipy's BDF, for comparison.

Independent of the project: thickness by length, plain finite volumes on a product grid, with
diffusion across and along the grain each by moisture content and temperature (the published
formulas as slab_oracle.py writes them again; Siau along the grain), scipy.integrate.solve_ivp.

    apt-get install python3-scipy
    OMP_NUM_THREADS=1 /usr/bin/python3 testdata/drying/ends_oracle.py          # writes ends_oracle.csv, some minutes
    OMP_NUM_THREADS=1 /usr/bin/python3 testdata/drying/ends_oracle.py fine     # prints what a finer grid makes of some cases

Last run with Python 3.11, numpy 1.24.2, scipy 1.10.1.
"""
import csv
import os
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.sparse import coo_matrix

import slab_oracle as slab
from slab_oracle import DAY, R, RV, Isotherm, psat, smooth

TIMES = [2, 5, 10, 20, 40, 60, 90, 120, 180, 240, 365]
TARGETS = [0.30, 0.20, 0.14]
HIGH = 1.5


def along(m, c, g, fsp20=0.30):
    """Siau along the grain: open lumens beside cell walls, 2.5 times as easy as across them."""
    c = max(c, 0.0)
    tk = c + 273.15
    fsp = fsp20 - 0.001 * (min(max(c, 0), 100) - 20)
    m = np.clip(m, 0, fsp)
    pct = 100 * m
    iso = Isotherm(c)
    db = 7e-6 * np.exp(-(38500 - 290 * pct) / (R * tk))
    dv = 0.018 * 2.2e-5 * (tk / 273) ** 1.75 * psat(tk) / (1000 * 1.5 / (1 + 0.015 * pct) * R * tk) / iso.slope(iso.inverse(m))
    va = np.clip(1 - g * (0.667 + 0.01 * pct), 0.01, 0.99)
    return (va * dv + (1 - va) * 2.5 * db) / (1 - va)


class Potential:
    """Integral of D over MC, with free water, on a fine grid of m and c; linear between."""

    def __init__(self, g, law):
        self.cs = np.arange(0, 40.01, 1.0)
        self.ms = np.linspace(0, HIGH, 6001)
        self.dm = self.ms[1]
        rows = []
        for c in self.cs:
            fsp = 0.30 - 0.001 * (c - 20)
            d = law(self.ms, c, g) * (1 - 0.9 * smooth((self.ms - fsp) / 0.02))
            rows.append(np.concatenate([[0], np.cumsum(0.5 * (d[1:] + d[:-1]) * self.dm)]))
        self.phi = np.array(rows)

    def row(self, c):
        u = min(max(c, 0.0), 39.99)
        i = int(u)
        return (1 - (u - i)) * self.phi[i] + (u - i) * self.phi[i + 1]

    def at(self, row, m):
        u = np.clip(m, 0, HIGH - 1e-6) / self.dm
        i = u.astype(int)
        return row[i] + (u - i) * (row[i + 1] - row[i])


def nodes(half, cells, ratio):
    q = ratio ** (-1 / (cells - 1))
    x = np.concatenate([[0], np.cumsum(q ** np.arange(cells))])
    x *= half / x[-1]
    gap = np.diff(x)
    return x, gap, np.concatenate([[gap[0] / 2], (gap[1:] + gap[:-1]) / 2, [gap[-1] / 2]])


def average(x, a, b):
    """weights of the mean between a and b of what is linear between nodes"""
    fine = np.linspace(a, b, 401)
    w = np.zeros(len(x))
    share = np.full(401, 1.0)
    share[[0, -1]] = 0.5
    for f, s in zip(fine, share / share.sum()):
        i = min(np.searchsorted(x, f, side="right") - 1, len(x) - 2)
        u = (f - x[i]) / (x[i + 1] - x[i])
        w[i] += s * (1 - u)
        w[i + 1] += s * u
    return w


def run(case, across, length, fine=1):
    """Nodes 0 in the middle to n at the face or end, half volumes at both ends. Rows: thickness."""
    T, L = case["mm"] / 2000, case["length_mm"] / 2000
    z, dz, vz = nodes(T, 24 * fine, 12)
    x, dx, vx = nodes(L, 28 * fine, 12 * max(1, L / T / 8))
    nz, nx = len(z), len(x)
    if case["climate"] == "madison":
        tc, rh = slab.seasons(slab.MADISON_C, case["start"]), slab.seasons(slab.MADISON_RH, case["start"])
    else:
        tc, rh = (lambda t: case["c"]), (lambda t: case["rh"])
    rho = 1000 * case["g"]
    core, shell = average(z, 0, 0.2 * T), average(z, 0.8 * T, T)
    hs = np.concatenate([np.linspace(0, 0.9, 400), np.linspace(0.9, 1, 401)[1:]])

    def rhs(t, flat):
        m = flat.reshape(nz, nx)
        c, h = tc(t), min(rh(t), 0.98)
        tk = c + 273.15
        pace = case["pace"] ** smooth((core @ m[:, 0] / 0.30 - 0.40) / 0.65)
        k = case["k"] * pace * slab.frost(c)
        p = k * across.at(across.row(c), m)
        q = k * length.at(length.row(c), m)
        iso = Isotherm(c)
        ms = iso.m(hs)
        drive = psat(tk) / (RV * tk * rho)
        f = np.zeros((nz + 1, nx))
        f[1:-1] = -np.diff(p, axis=0) / dz[:, None]
        f[-1] = case["beta"] * drive * (np.interp(m[-1], ms, hs) - h)
        e = np.zeros((nz, nx + 1))
        e[:, 1:-1] = -np.diff(q, axis=1) / dx
        e[:, -1] = case["end_beta"] * drive * (np.interp(m[:, -1], ms, hs) - h)
        return (-np.diff(f, axis=0) / vz[:, None] - np.diff(e, axis=1) / vx).ravel()

    at = np.arange(nz * nx).reshape(nz, nx)
    pairs = [(at, at), (at[1:], at[:-1]), (at[:-1], at[1:]), (at[:, 1:], at[:, :-1]), (at[:, :-1], at[:, 1:])]
    i = np.concatenate([a.ravel() for a, _ in pairs])
    j = np.concatenate([b.ravel() for _, b in pairs])
    pattern = coo_matrix((np.ones(len(i)), (i, j)), shape=(nz * nx, nz * nx)).tocsc()
    every = np.concatenate([np.arange(0, 40, 0.25), np.arange(40, TIMES[-1] + 0.1, 1.0)])
    sol = solve_ivp(rhs, (0, TIMES[-1] * DAY), np.full(nz * nx, case["m0"]), method="BDF", rtol=1e-4, atol=1e-6,
                    t_eval=every * DAY, jac_sparsity=pattern, first_step=10.0, max_step=10 * DAY)
    assert sol.success, sol.message
    y = sol.y.reshape(nz, nx, -1)
    whole = np.einsum("i,ijt,j->t", vz / T, y, vx / L)
    middle = y[:, 0, :]
    return every, whole, vz @ middle / T, shell @ middle, core @ middle


# The film of sealed ends: 1/(1/0.004 + 6e3 s/m), about a coat that divides the loss by some ten.
SEALED = 1 / (1 / 0.004 + 6e3)


def cases():
    for g, mm, m0, k, pace in [(0.56, 50, 0.72, 1.3, 0.5), (0.37, 25.4, 0.20, 1.2, 0.4)]:
        for climate in ["madison", "room"]:
            for ratio in [1, 2, 4, 8, 16, 40]:
                for ends, film in [("bare", 0.004), ("sealed", SEALED)]:
                    if ends == "sealed" and ratio > 4:
                        continue
                    case = dict(g=g, mm=mm, length_mm=mm * ratio, m0=m0, k=k, pace=pace, beta=0.004, climate=climate, ends=ends, end_beta=film)
                    case.update(dict(start=120) if climate == "madison" else dict(c=20.0, rh=0.45))
                    yield case


def reached(days, mean, target):
    below = np.nonzero(mean <= target)[0]
    if len(below) == 0 or mean[0] <= target + 1e-6:
        return ""
    i = below[0]
    return f"{days[i - 1] + (days[i] - days[i - 1]) * (mean[i - 1] - target) / (mean[i - 1] - mean[i]):.3f}"


def main(fine):
    made = {}
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "ends_oracle.csv")
    out = csv.writer(open(os.devnull if fine else path, "w", newline=""), lineterminator="\n")
    out.writerow(("specific_gravity,thickness_mm,length_mm,initial_mc,factor,pace,film_m_s,end_film_m_s,climate,day_of_year,temp_c,rh,"
                  "day,mean_mc,middle_mc,shell_mc,core_mc," + ",".join(f"{of}_to_{100 * t:.0f}" for of in ("mean", "core") for t in TARGETS)).split(","))
    for n, case in enumerate(cases()):
        if fine and n % 7:
            continue
        began = time.time()
        if case["g"] not in made:
            made[case["g"]] = Potential(case["g"], slab.diffusivity), Potential(case["g"], along)
        days, mean, middle, shell, core = run(case, *made[case["g"]])
        to = [reached(days, of, t) for of in (mean, core) for t in TARGETS]
        if fine:
            _, better, middle2, *_ = run(case, *made[case["g"]], fine=2)
            print(f"{n}: mean {100 * abs(mean - better).max():.3f}, middle {100 * abs(middle - middle2).max():.3f} %MC", flush=True)
        for d in TIMES:
            i = np.searchsorted(days, d)
            out.writerow([case["g"], case["mm"], case["length_mm"], case["m0"], case["k"], case["pace"], case["beta"], f"{case['end_beta']:.6g}",
                          case["climate"], case.get("start", ""), case.get("c", ""), case.get("rh", ""), d]
                         + [f"{v[i]:.6f}" for v in (mean, middle, shell, core)] + to)
        print({k: case[k] for k in ("g", "length_mm", "climate", "ends")}, to, f"{time.time() - began:.1f} s", flush=True)


if __name__ == "__main__":
    main("fine" in sys.argv[1:])
