#!/usr/bin/env python3
# SPDX-License-Identifier: LGPL-2.1-or-later
"""Writes generated/plate-levy.csv: simply supported panes by Levy's series, a solution of another kind than the program's.

w = sum over odd m of Y_m(y) sin(m pi x/a); Y_m solves Y'''' - 2 k2 Y'' + k4 Y = q_m/D, k = m pi/a, with the four edge
conditions at bottom and top (Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., art. 30, 46, 48).
Needs numpy. Edges with clamped sides have no such series and are not here.
"""
import csv
import math
import pathlib

import numpy as np

ASPECTS = [0.15, 0.3, 0.45, 0.7, 0.9, 1.0, 1.3, 1.7, 2.2, 2.8, 3.5, 5.0, 8.0, 15.0]
MATERIALS = {"glass": (70e9, 0.23), "acrylic": (1.4e9, 0.37), "handbook": (70e9, 0.3)}
HEIGHT_M, THICKNESS_M = 0.5, 0.012
DENSITY, PRESSURE, GRAVITY = 1025.0, 2500.0, 9.80665
TERMS = 161  # highest m


def strip(k, b, nu, q_bottom, q_top, free_top, y):
    """Y_m / (1/D) and its derivatives to the second, at y, for a load linear between bottom and top."""
    def basis(t):
        low, high = math.exp(-k * t), math.exp(-k * (b - t))
        u, v = t, b - t
        return np.array([  # rows: derivative 0..3; columns: exp(-kt), t exp(-kt), exp(-k(b-t)), (b-t) exp(-k(b-t))
            [low, u * low, high, v * high],
            [-k * low, (1 - k * u) * low, k * high, (k * v - 1) * high],
            [k**2 * low, (k**2 * u - 2 * k) * low, k**2 * high, (k**2 * v - 2 * k) * high],
            [-k**3 * low, (3 * k**2 - k**3 * u) * low, k**3 * high, (k**3 * v - 3 * k**2) * high]])

    def particular(t):
        q, slope = q_bottom + (q_top - q_bottom) * t / b, (q_top - q_bottom) / b
        return np.array([q / k**4, slope / k**4, 0.0, 0.0])

    def conditions(d, free):
        if free:
            return [d[2] - nu * k**2 * d[0], d[3] - (2 - nu) * k**2 * d[1]]
        return [d[0], d[2]]

    h0, hb, p0, pb = basis(0.0), basis(b), particular(0.0), particular(b)
    matrix = np.array(conditions(h0, False) + conditions(hb, free_top))
    right = -np.array(conditions(p0, False) + conditions(pb, free_top))
    norm = np.abs(matrix).max(axis=1)
    factors = np.linalg.solve(matrix / norm[:, None], right / norm)
    return np.array([basis(t) @ factors + particular(t) for t in y])


def pane(a, b, nu, load, free_top):
    """Largest w D and largest bending moment, for a pressure of 1 at the bottom."""
    x, y = np.linspace(0.0, a, 161), np.linspace(0.0, b, 161)
    w, w_xx, w_yy = (np.zeros((y.size, x.size)) for _ in range(3))
    for m in range(1, TERMS + 1, 2):
        k = m * math.pi / a
        amplitude = 4.0 / (m * math.pi)
        d = strip(k, b, nu, amplitude, amplitude if load == "uniform" else 0.0, free_top, y)
        wave = np.sin(k * x)
        w += np.outer(d[:, 0], wave)
        w_xx -= np.outer(k**2 * d[:, 0], wave)
        w_yy += np.outer(d[:, 2], wave)
    moment = max(np.abs(w_xx + nu * w_yy).max(), np.abs(w_yy + nu * w_xx).max())
    return np.abs(w).max(), moment


def rows():
    for free_top, edges in ((False, "simply_supported_4"), (True, "free_top_3_supported")):
        for load in ("uniform", "hydrostatic"):
            for material, (young, nu) in MATERIALS.items():
                for aspect in ASPECTS:
                    a = round(aspect * HEIGHT_M, 6)
                    deflection, moment = pane(a, HEIGHT_M, nu, load, free_top)
                    pressure = PRESSURE if load == "uniform" else DENSITY * GRAVITY * HEIGHT_M
                    stiffness = young * THICKNESS_M**3 / (12 * (1 - nu**2))
                    key = f"pressure_pa={PRESSURE}" if load == "uniform" else f"density_kg_per_m3={DENSITY}"
                    given = (f"a_m={a};b_m={HEIGHT_M};thickness_m={THICKNESS_M};load={load};edges={edges};{key};"
                             f"e_pa={young};nu={nu}")
                    name = f"{edges}-{load}-{material}-{aspect}".replace("_", "-").replace(".", "p")
                    yield f"w-{name}", "plate_max_deflection", given, deflection * pressure / stiffness, "m", 0.003
                    yield f"stress-{name}", "plate_max_stress", given, 6 * moment * pressure / THICKNESS_M**2, "Pa", 0.006


def main():
    path = pathlib.Path(__file__).parent / "generated" / "plate-levy.csv"
    with path.open("w", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow("case,quantity,given,expected,unit,rel_tol,abs_tol,source,provenance,note".split(","))
        for case, quantity, given, expected, unit, tolerance in rows():
            writer.writerow([case, quantity, given, f"{expected:.8g}", unit, tolerance, 0,
                             "Levy's series, see generate-plate.py", "analytic", ""])


main()
