#!/usr/bin/env python3
"""Moisture profiles of drying boards by scipy's BDF, for comparison.

Independent of the project: the same published equations written again (Siau,
free water and the wet-stage pace, Hailwood-Horrobin, Hyland-Wexler, frost, monthly means as the derivative of a
periodic cubic spline), plain finite volumes, scipy.integrate.solve_ivp.

    apt-get install python3-scipy
    /usr/bin/python3 testdata/drying/slab_oracle.py          # writes slab_oracle.csv, two minutes
    OMP_NUM_THREADS=1 /usr/bin/python3 testdata/drying/slab_oracle.py timing   # prints processor times of one case

Last run with Python 3.11, numpy 1.24.2, scipy 1.10.1.
"""
import csv
import os
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq
from scipy.sparse import diags

R, RV = 8.314, 461.5
DAY = 86400.0
DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31], float)
MADISON_C = [-7.3, -4.9, 1.1, 8.1, 14.1, 19.4, 21.8, 20.7, 16.1, 9.4, 2.3, -5.0]
MADISON_RH = [.74, .73, .71, .665, .67, .69, .705, .74, .74, .715, .74, .765]


def psat(tk):  # Hyland and Wexler over water, continued below 0 C
    return np.exp(-5800.2206 / tk + 1.3914993 - 0.048640239 * tk + 4.1764768e-5 * tk**2
                  - 1.4452093e-8 * tk**3 + 6.5459673 * np.log(tk))


def power_law(c, h):  # FPL-GTR-282 eq. 4-6
    tk = c + 273.15
    return (-0.000612 * tk * (1 - tk / 647.1) ** 2.43 * np.log1p(-h)) ** (0.0577 * tk ** 0.430)


COLDEST = -10 / 9  # 30 degF, where table 4-2 ends; below it the curve rises as eq. 4-6 does


class Isotherm:
    def __init__(self, c, factor=1.0):
        if c < COLDEST:
            factor *= power_law(c, 0.65) / power_law(COLDEST, 0.65)
            c = COLDEST
        w = 349 + 1.29 * c + 0.0135 * c * c
        self.k = 0.805 + 0.000736 * c - 0.00000273 * c * c
        self.k1 = 6.27 - 0.00938 * c - 0.000303 * c * c
        self.k2 = 1.91 + 0.0407 * c - 0.000293 * c * c
        self.s = 18 / w * factor

    def m(self, h):
        x = self.k * h
        k12 = self.k1 * self.k2
        return self.s * (x / (1 - x) + (self.k1 * x + 2 * k12 * x * x) / (1 + self.k1 * x + k12 * x * x))

    def slope(self, h, d=1e-6):
        return (self.m(h + d) - self.m(h - d)) / (2 * d)

    def inverse(self, m):
        """vectorised bisection"""
        m = np.asarray(m, float)
        lo, hi = np.zeros_like(m), np.ones_like(m)
        for _ in range(45):
            mid = 0.5 * (lo + hi)
            up = self.m(mid) > m
            hi = np.where(up, mid, hi)
            lo = np.where(up, lo, mid)
        return np.where(m >= self.m(1.0), 1.0, 0.5 * (lo + hi))


def frost(c):
    s = np.clip((c + 2) / 2, 0, 1)
    return 0.3 + 0.7 * s * s * (3 - 2 * s)


def smooth(u):
    u = np.clip(u, 0, 1)
    return u * u * (3 - 2 * u)


def diffusivity(m, c, g, fsp20=0.30, factor=1.0, p=101325.0):
    c = max(c, 0.0)
    tk = c + 273.15
    fsp = fsp20 - 0.001 * (min(max(c, 0), 100) - 20)
    m = np.clip(m, 0, fsp)
    pct = 100 * m
    iso = Isotherm(c, factor)
    db = 7e-6 * np.exp(-(38500 - 290 * pct) / (R * tk))
    da = 2.2e-5 * (101325 / p) * (tk / 273) ** 1.75
    gw = 1.5 / (1 + 0.015 * pct)
    dv = 0.018 * da * psat(tk) / (1000 * gw * R * tk) / iso.slope(iso.inverse(m))
    va = 1 - g * (0.667 + 0.01 * pct)
    va = np.clip(va, 0.01, 0.99)
    return db * dv / ((1 - va) * (db + dv * (1 - np.sqrt(va))))


class Table:
    """D on a fine grid of m and c, linear between: the formula is slow in Python."""

    def __init__(self, g, **kw):
        self.cs = np.arange(0, 60.01, 0.5)
        self.ms = np.linspace(0, 0.40, 3201)
        self.d = np.array([diffusivity(self.ms, c, g, **kw) for c in self.cs])
        for i, c in enumerate(self.cs):  # free water: over 2 %MC above fibre saturation to a tenth
            over = self.ms - (0.30 - 0.001 * (c - 20))
            self.d[i] *= 1 - 0.9 * smooth(over / 0.02)

    def row(self, c):
        u = min(max(c, 0.0), 59.9) / 0.5
        i = int(u)
        f = u - i
        return (1 - f) * self.d[i] + f * self.d[i + 1]


def seasons(means, start):
    edges = np.concatenate([[0], np.cumsum(DAYS)])
    mean = np.dot(means, DAYS) / 365
    total = np.concatenate([[0], np.cumsum((np.array(means) - mean) * DAYS)])
    total[-1] = total[0]
    curve = CubicSpline(edges, total, bc_type="periodic").derivative()
    return lambda t: float(curve((t / DAY + start) % 365)) + mean


def run(case, cells, rtol, atol, times, table=None):
    """Nodes 0 (middle) to cells (face), half volumes at both ends."""
    half = case["mm"] / 2000
    q = 12 ** (-1 / (cells - 1))  # spacing shrinks towards the face
    x = np.concatenate([[0], np.cumsum(q ** np.arange(cells))])
    x *= half / x[-1]
    gap = np.diff(x)
    volume = np.concatenate([[gap[0] / 2], (gap[1:] + gap[:-1]) / 2, [gap[-1] / 2]])
    table = table or Table(case["g"])
    if case["climate"] == "madison":
        tc, rh = seasons(MADISON_C, case["start"]), seasons(MADISON_RH, case["start"])
    else:
        tc, rh = (lambda t: case["c"]), (lambda t: case["rh"])
    rho = 1000 * case["g"]
    ms, dm = table.ms, table.ms[1] - table.ms[0]

    middle = np.linspace(0, 0.2 * half, 101)

    def rhs(t, m):
        c, h = tc(t), min(rh(t), 0.98)
        core = np.trapezoid(np.interp(middle, x, m), middle) / middle[-1] if hasattr(np, "trapezoid") else np.trapz(np.interp(middle, x, m), middle) / middle[-1]
        pace = case["pace"] ** smooth((core / 0.30 - 0.40) / 0.65)
        d = table.row(c) * (case["k"] * pace * frost(c))
        phi = np.concatenate([[0], np.cumsum(0.5 * (d[1:] + d[:-1]) * dm)])
        inside = np.clip(m, 0, ms[-1])
        i = np.minimum((inside / dm).astype(int), len(d) - 2)
        s = inside - i * dm
        p = phi[i] + s * (d[i] + 0.5 * s * (d[i + 1] - d[i]) / dm) + (m - inside) * np.where(m > inside, d[-1], d[0])
        iso, tk = Isotherm(c), c + 273.15
        face = m[-1]
        if face >= iso.m(1.0):
            a = 1.0
        elif face <= 0:
            a = face / iso.slope(1e-6)
        else:
            a = brentq(lambda hh: iso.m(hh) - face, 0.0, 1.0, xtol=1e-13)
        flux = np.zeros(cells + 2)
        flux[1:-1] = -np.diff(p) / gap
        flux[-1] = case["beta"] * psat(tk) / (RV * tk * rho) * (a - h)
        return -np.diff(flux) / volume

    pattern = diags([1, 1, 1], [-1, 0, 1], shape=(cells + 1, cells + 1))
    sol = solve_ivp(rhs, (0, times[-1] * DAY), np.full(cells + 1, case["m0"]), method="BDF", rtol=rtol, atol=atol,
                    t_eval=np.array(times) * DAY, jac_sparsity=pattern, first_step=10.0, max_step=15 * DAY)
    assert sol.success, sol.message
    return volume @ sol.y / half, sol.y[0], sol


def cases():
    out = []
    for g, mm, m0, k, pace in [(0.56, 25.4, 0.72, 0.95, 0.5), (0.37, 52, 1.10, 1.6, 0.3), (0.66, 25.4, 0.80, 0.9, 1), (0.45, 12, 0.20, 0.6, 0.4)]:
        for climate in ["madison", "warm", "damp"]:
            case = dict(g=g, mm=mm, m0=m0, k=k, pace=pace, beta=0.004, climate=climate)
            if climate == "madison":
                case["start"] = 120
            elif climate == "warm":
                case.update(c=35.0, rh=0.35)
            else:
                case.update(c=12.0, rh=0.80, beta=0.002)
            out.append(case)
    return out


TIMES = [5, 20, 60, 120, 240, 365, 540, 730]


def main():
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "slab_oracle.csv")
    with open(path, "w", newline="") as f:
        out = csv.writer(f, lineterminator="\n")
        out.writerow("specific_gravity,thickness_mm,initial_mc,factor,pace,film_m_s,climate,day_of_year,temp_c,rh,day,mean_mc,middle_mc".split(","))
        for case in cases():
            began = time.time()
            mean, middle, _ = run(case, 240, 1e-7, 1e-9, TIMES)
            for d, a, b in zip(TIMES, mean, middle):
                out.writerow([case["g"], case["mm"], case["m0"], case["k"], case["pace"], case["beta"], case["climate"], case.get("start", ""),
                              case.get("c", ""), case.get("rh", ""), d, f"{a:.7f}", f"{b:.7f}"])
            print(case, f"{time.time() - began:.1f} s", flush=True)


def timing():
    """Time and error of BDF over three years of seasons, 25.4 mm, G 0.56, k 0.5."""
    case = dict(g=0.56, mm=25.4, m0=0.72, k=0.95, pace=0.5, beta=0.004, climate="madison", start=120)
    table = Table(case["g"])
    times = list(range(5, 1096, 5))
    fine, _, _ = run(case, 160, 1e-8, 1e-10, times, table)
    for cells in [14, 30, 60]:
        for tol in [1e-3, 1e-4, 1e-5]:
            began = time.process_time()
            mean, _, sol = run(case, cells, tol, tol * 0.1, times, table)
            took = time.process_time() - began
            print(f"{cells} cells rtol {tol:g}: {1000 * took:.1f} ms, {sol.nfev} evaluations, worst mean {100 * np.abs(mean - fine).max():.4f} %MC", flush=True)


if __name__ == "__main__":
    timing() if "timing" in sys.argv[1:] else main()
