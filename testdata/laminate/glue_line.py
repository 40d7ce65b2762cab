"""Makes glue_line.csv, against which the order of the edge stresses of package
woodphys/laminate is tested. Plane-stress linear finite elements of half a strip of two
wooden layers with a glue line between them, free but for the symmetry plane; bilinear
quadrilaterals, 2 x 2 Gauss points with shear taken at the middle, mesh refined towards the glue and the free edge,
assembled here with scipy.sparse.

Reported: the largest shear and normal stress at the middle of the glue thickness,
as means over one glue thickness along the glue (the edge itself is singular), and the
force that goes through it, from the shear.

Not needed to build or to test. To remake the file:

    apt-get install python3-numpy python3-scipy
    /usr/bin/python3 testdata/laminate/glue_line.py > testdata/laminate/glue_line.csv
"""
import csv
import sys

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as spl


def graded(a, b, n, first):
    """n steps from a to b, the first of about the given size, growing evenly."""
    low, high = 1.0, 3.0
    for _ in range(80):
        q = (low + high) / 2
        total = first * (q ** n - 1) / (q - 1) if q > 1 else first * n
        low, high = (q, high) if total < b - a else (low, q)
    s = np.concatenate([[0], np.cumsum(q ** np.arange(n))])
    return a + (b - a) * s / s[-1]


def stiff(ex, ey, g, nu):
    return np.linalg.inv(np.array([[1 / ex, -nu / ex, 0], [-nu / ex, 1 / ey, 0], [0, 0, 1 / g]]))


def solve(half, upper, lower, glue, gglue):
    """upper, lower: (thickness, ex, ey, gxy, free strain); mm, MPa."""
    xs = np.sort(half - graded(0, half, 120, glue / 4))
    ys = np.concatenate([
        lower[0] - graded(0, lower[0], 22, glue / 4)[::-1], lower[0] + glue * np.arange(1, 5) / 4,
        lower[0] + glue + graded(0, upper[0], 22, glue / 4)[1:]])
    nx, ny = len(xs) - 1, len(ys) - 1
    node = lambda i, j: j * (nx + 1) + i
    g = 1 / np.sqrt(3)
    corner = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
    rows, cols, vals = [], [], []
    load = np.zeros(2 * (nx + 1) * (ny + 1))
    eglue = 2 * gglue * 1.35
    keep = {}
    for j in range(ny):
        mid = (ys[j] + ys[j + 1]) / 2
        if mid < lower[0]:
            D, free = stiff(lower[1], lower[2], lower[3], 0.0), np.array([lower[4], 0, 0])
        elif mid < lower[0] + glue:
            D, free = stiff(eglue, eglue, gglue, 0.35), np.zeros(3)
        else:
            D, free = stiff(upper[1], upper[2], upper[3], 0.0), np.array([upper[4], 0, 0])
        for i in range(nx):
            hx, hy = xs[i + 1] - xs[i], ys[j + 1] - ys[j]
            n = [node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)]
            dof = np.array([[2 * k, 2 * k + 1] for k in n]).ravel()
            k = np.zeros((8, 8))
            def strain(a, b):
                dx = corner[:, 0] * (1 + corner[:, 1] * b) / 4 * 2 / hx
                dy = corner[:, 1] * (1 + corner[:, 0] * a) / 4 * 2 / hy
                B = np.zeros((3, 8))
                B[0, 0::2], B[1, 1::2], B[2, 0::2], B[2, 1::2] = dx, dy, dy, dx
                return B
            for a in (-g, g):
                for b in (-g, g):
                    B = strain(a, b)
                    B[2] = strain(0, 0)[2]  # shear at the middle: long elements bend without locking
                    k += B.T @ D @ B * hx * hy / 4
                    load[dof] += B.T @ D @ free * hx * hy / 4
            rows.append(np.repeat(dof, 8)); cols.append(np.tile(dof, 8)); vals.append(k.ravel())
            if lower[0] < mid < lower[0] + glue:
                keep.setdefault(i, []).append((dof, D @ strain(0, 0)))
    K = sp.csr_matrix((np.concatenate(vals), (np.concatenate(rows), np.concatenate(cols))))
    fixed = [2 * node(0, j) for j in range(ny + 1)] + [1]
    free = np.setdiff1d(np.arange(len(load)), fixed)
    u = np.zeros(len(load))
    u[free] = spl.spsolve(K[free][:, free].tocsc(), load[free])
    mids, widths = (xs[1:] + xs[:-1]) / 2, np.diff(xs)
    stress = np.array([np.mean([m @ u[dof] for dof, m in keep[i]], axis=0) for i in range(nx)])
    force = abs((stress[:, 2] * widths).sum())
    most_shear = most_peel = 0.0
    for x in mids[mids > half / 2]:
        near = np.abs(mids - x) <= glue / 2
        w = widths[near]
        most_shear = max(most_shear, abs((stress[near, 2] * w).sum() / w.sum()))
        most_peel = max(most_peel, abs((stress[near, 1] * w).sum() / w.sum()))
    return force, most_shear, most_peel


out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow(["half_mm", "upper_mm", "upper_ex", "upper_ey", "upper_g", "upper_strain", "lower_mm", "lower_ex", "lower_ey", "lower_g", "lower_strain", "glue_mm", "glue_g", "force_n_per_mm", "shear_mpa", "peel_mpa", "source", "checked"])
for half, up, lo, glue, gg in [
    (40, (2, 600, 900, 100, -0.03), (4, 600, 900, 100, 0.0), 0.1, 300),
    (90, (6, 900, 600, 80, -0.01), (38, 500, 900, 60, -0.004), 0.1, 300),
    (40, (3, 600, 900, 100, -0.01), (3, 600, 900, 100, 0.0), 0.1, 300),
    (40, (1, 10000, 600, 700, 0.0), (5, 600, 900, 60, -0.01), 0.1, 300),
    (40, (3, 800, 800, 60, -0.01), (3, 10000, 600, 600, 0.0), 0.3, 100),
    (40, (0.7, 600, 900, 80, -0.02), (20, 700, 700, 80, 0.0), 0.1, 1000),
]:
    f, s, p = solve(half, up, lo, glue, gg)
    out.writerow([half, *up, *lo, glue, gg, "%.5g" % f, "%.5g" % s, "%.5g" % p, "linear finite elements, glue_line.py", "computed"])
