"""Makes finite_element.csv and finite_element_convergence.csv, against which
package woodphys/section is tested. Linear finite elements, assembled here with
scipy.sparse: bilinear quadrilaterals, 2 x 2 Gauss points, plane stress, polar
orthotropic (the axes of the material turn with the direction from the pith),
free shrinkage e_R along the radius and e_T along the ring, no load, three nodal
freedoms held. It knows nothing of the closed form.

Not needed to build or to test. To remake both files:

    apt-get install python3-numpy python3-scipy
    /usr/bin/python3 testdata/section/finite_element.py testdata/section

Strains are small here (linear theory). Elastic ratios: Sitka spruce, Wood
Handbook table 5-1 (from memory): ER/EL 0.078, ET/EL 0.043, GRT/EL 0.003,
nu_RT 0.435. The shape must not depend on them, the residual stress of a boxed
heart does.
"""
import csv
import sys

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as spl

EL = 1.0
ER, ET, GRT, NU_RT = 0.078 * EL, 0.043 * EL, 0.003 * EL, 0.435
COMPLIANCE = np.array([[1 / ER, -NU_RT / ER, 0], [-NU_RT / ER, 1 / ET, 0], [0, 0, 1 / GRT]])
STIFFNESS = np.linalg.inv(COMPLIANCE)
E_R, E_T = -0.03, -0.06
FREE = np.array([E_R, E_T, 0.0])

CASES = {  # width, thickness, pith_x, pith_y, all mm, from the middle of the section
    "flatsawn": (200.0, 30.0, 0.0, -115.0),
    "offset": (120.0, 40.0, -45.0, -70.0),
    "quartersawn": (150.0, 25.0, -130.0, 3.0),
    "square": (60.0, 60.0, -70.0, -70.0),
    "boxed heart": (80.0, 80.0, 5.0, -3.0),
}


def turn(c, s):
    """Strain in (x, y) to strain in (r, t), engineering shear."""
    return np.array([[c * c, s * s, c * s], [s * s, c * c, -c * s], [-2 * c * s, 2 * c * s, c * c - s * s]])


def solve(width, thickness, px, py, nx, ny):
    xs = np.linspace(-width / 2, width / 2, nx + 1)
    ys = np.linspace(-thickness / 2, thickness / 2, ny + 1)
    node = lambda i, j: j * (nx + 1) + i
    coords = np.array([(x, y) for y in ys for x in xs])
    g = 1 / np.sqrt(3)
    gauss = [(-g, -g), (g, -g), (g, g), (-g, g)]
    corner = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
    rows, cols, values = [], [], []
    load = np.zeros(2 * len(coords))
    store = []
    hx, hy = width / nx, thickness / ny
    jac = hx * hy / 4
    for j in range(ny):
        for i in range(nx):
            n = [node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)]
            xy = coords[n]
            dof = np.array([[2 * k, 2 * k + 1] for k in n]).ravel()
            k = np.zeros((8, 8))
            for a, b in gauss:
                shape = (1 + corner[:, 0] * a) * (1 + corner[:, 1] * b) / 4
                dx = corner[:, 0] * (1 + corner[:, 1] * b) / 4 * 2 / hx
                dy = corner[:, 1] * (1 + corner[:, 0] * a) / 4 * 2 / hy
                B = np.zeros((3, 8))
                B[0, 0::2], B[1, 1::2], B[2, 0::2], B[2, 1::2] = dx, dy, dy, dx
                x, y = shape @ xy - (px, py)
                r = np.hypot(x, y)
                T = turn(x / r, y / r) @ B
                k += T.T @ STIFFNESS @ T * jac
                load[dof] += T.T @ STIFFNESS @ FREE * jac
                store.append((dof, T))
            rows.append(np.repeat(dof, 8)); cols.append(np.tile(dof, 8)); values.append(k.ravel())
    K = sp.csr_matrix((np.concatenate(values), (np.concatenate(rows), np.concatenate(cols))))
    fixed = [2 * node(0, 0), 2 * node(0, 0) + 1, 2 * node(nx, 0) + 1]
    free = np.setdiff1d(np.arange(2 * len(coords)), fixed)
    u = np.zeros(2 * len(coords))
    u[free] = spl.spsolve(K[free][:, free].tocsc(), load[free])
    stress = max(np.abs(STIFFNESS @ (T @ u[dof] - FREE)).max() for dof, T in store)
    return coords, u.reshape(-1, 2), stress, xs, ys


def main(folder):
    with open(folder + "/finite_element_convergence.csv", "w", newline="") as f, open(folder + "/finite_element.csv", "w", newline="") as g:
        conv, out = csv.writer(f, lineterminator="\n"), csv.writer(g, lineterminator="\n")
        conv.writerow(["case", "elements_across", "elements_through", "largest_stress_over_et_times_strain", "source", "checked"])
        out.writerow(["case", "width_mm", "thickness_mm", "pith_x_mm", "pith_y_mm", "radial", "tangential", "x_mm", "y_mm", "ux_mm", "uy_mm", "source", "checked"])
        source = "linear finite elements, finite_element.py"
        for name, (w, t, px, py) in CASES.items():
            for n in (10, 20, 40, 80):
                ny = max(4, int(round(n * t / w)))
                coords, u, stress, xs, ys = solve(w, t, px, py, 2 * n, 2 * ny)
                conv.writerow([name, 2 * n, 2 * ny, "%.6g" % (stress / (ET * abs(E_T - E_R))), source, "computed"])
            if name == "boxed heart":
                continue
            step_x, step_y = len(xs) // 8, max(1, len(ys) // 4)
            keep = [(x, y) for x in xs[::step_x] for y in (ys[0], ys[-1])] + [(x, y) for x in (xs[0], xs[-1]) for y in ys[step_y:-1:step_y]]
            for x, y in keep:
                k = np.argmin(np.hypot(coords[:, 0] - x, coords[:, 1] - y))
                out.writerow([name, w, t, px, py, E_R, E_T, "%.6f" % x, "%.6f" % y, "%.8f" % u[k, 0], "%.8f" % u[k, 1], source, "computed"])


main(sys.argv[1])
