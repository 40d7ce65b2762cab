"""Makes lamination.csv, against which package woodphys/laminate is tested. An
independent way to the same theory: the compliance of each layer as a fourth-order
tensor, turned by the ring angle about the grain and by the grain direction about the
normal of the panel with plain rotation matrices (einsum), condensed to plane stress
numerically, integrated through the thickness by Gauss points, and solved by numpy.

Not needed to build or to test. To remake the file:

    apt-get install python3-numpy
    /usr/bin/python3 testdata/laminate/lamination.py > testdata/laminate/lamination.csv

Layers from the bottom: thickness mm; EL MPa; et er glr glt grt over EL; nu_lr nu_lt
nu_rt; grain and ring angle in degrees; radial, tangential, longitudinal strain.
"""
import csv
import sys

import numpy as np

rng = np.random.default_rng(7)


def tensor(el, et, er, glr, glt, grt, nlr, nlt, nrt):
    """Compliance S_ijkl, axes 0 = L, 1 = T, 2 = R."""
    et, er, glr, glt, grt = et * el, er * el, glr * el, glt * el, grt * el
    S = np.zeros((3, 3, 3, 3))
    normal = np.array([[1 / el, -nlt / el, -nlr / el], [-nlt / el, 1 / et, -nrt / er], [-nlr / el, -nrt / er, 1 / er]])
    for i in range(3):
        for j in range(3):
            S[i, i, j, j] = normal[i, j]
    for (i, j), g in {(0, 1): glt, (0, 2): glr, (1, 2): grt}.items():
        for a, b in ((i, j), (j, i)):
            for c, d in ((i, j), (j, i)):
                S[a, b, c, d] = 1 / (4 * g)
    return S


def turned(T, R):
    if T.ndim == 4:
        return np.einsum("ai,bj,ck,dl,ijkl->abcd", R, R, R, R, T)
    return R @ T @ R.T


def layer(el, et, er, glr, glt, grt, nlr, nlt, nrt, grain, ring, rad, tan, lon):
    a, p = np.radians(ring), np.radians(grain)
    # layer axes L, w, n from L, T, R: w = T cos a + R sin a, n = -T sin a + R cos a
    first = np.array([[1, 0, 0], [0, np.cos(a), np.sin(a)], [0, -np.sin(a), np.cos(a)]])
    # panel axes x, y, z from L, w, n
    second = np.array([[np.cos(p), -np.sin(p), 0], [np.sin(p), np.cos(p), 0], [0, 0, 1]])
    R = second @ first
    S = turned(tensor(el, et, er, glr, glt, grt, nlr, nlt, nrt), R)
    e = turned(np.diag([lon, tan, rad]), R)
    idx = [(0, 0), (1, 1), (0, 1)]
    m = np.array([[S[i, j, k, l] * (2 if k != l else 1) * (2 if i != j else 1) for k, l in idx] for i, j in idx])
    return np.linalg.inv(m), np.array([e[0, 0], e[1, 1], 2 * e[0, 1]])


def solve(layers):
    h = sum(l[0] for l in layers)
    K, F = np.zeros((6, 6)), np.zeros(6)
    made, z = [], -h / 2
    for l in layers:
        Q, e = layer(*l[1:])
        made.append((Q, e, z, z + l[0]))
        points, weights = np.polynomial.legendre.leggauss(4)
        for g, w in zip(points, weights):
            at, dz = z + l[0] * (g + 1) / 2, w * l[0] / 2
            N = np.vstack([np.eye(3), at * np.eye(3)])
            K += N @ Q @ N.T * dz
            F += N @ Q @ e * dz
        z += l[0]
    x = np.linalg.solve(K, F)
    stress = []
    for (Q, e, z0, z1), l in zip(made, layers):
        p = np.radians(l[10])
        c, s = np.cos(p), np.sin(p)
        for at in (z0, z1):
            sx, sy, t = Q @ (x[:3] + at * x[3:] - e)
            stress += [sx * c * c + sy * s * s + 2 * t * c * s, sx * s * s + sy * c * c - 2 * t * c * s]
    return x, stress


out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow(["id", "layers", "strain_x", "strain_y", "shear_xy", "kappa_x_per_mm", "kappa_y_per_mm", "kappa_xy_per_mm", "stress_mpa_along_across_lower_upper", "source", "checked"])
for number in range(24):
    n = int(rng.integers(1, 9))
    layers = []
    for _ in range(n):
        layers.append([
            round(rng.uniform(0.6, 12), 2), round(rng.uniform(6000, 16000), 0),
            round(rng.uniform(0.03, 0.09), 3), round(rng.uniform(0.07, 0.19), 3), round(rng.uniform(0.05, 0.15), 3), round(rng.uniform(0.04, 0.12), 3), round(rng.uniform(0.004, 0.02), 4),
            round(rng.uniform(0.3, 0.48), 3), round(rng.uniform(0.3, 0.6), 3), round(rng.uniform(0.38, 0.8), 3),
            float(rng.choice([0, 90, 45, -45, 30, round(rng.uniform(-90, 90), 1)])), float(rng.choice([0, 90, 45, round(rng.uniform(0, 90), 1)])),
            round(-rng.uniform(0.0005, 0.02), 5), round(-rng.uniform(0.0005, 0.04), 5), round(-rng.uniform(0.00002, 0.001), 6),
        ])
    x, stress = solve(layers)
    out.writerow(["LAM-%02d" % number, "|".join(" ".join("%g" % v for v in l) for l in layers)] + ["%.10g" % v for v in x] + [" ".join("%.9g" % v for v in stress), "numpy, lamination.py", "computed"])
