#!/usr/bin/env python3
# SPDX-License-Identifier: LGPL-2.1-or-later
"""Writes generated/edges.csv: unusual sizes and the ends of ranges, of the quantities that a library or a root can give.

Needs Debian's python3-fluids, python3-iapws and python3-scipy. Tolerances are those of the tables beside it. Random values
come from a fixed seed, so that the file is written the same again.
"""
import csv
import math
import pathlib
import random

import fluids
from iapws import IAPWS97
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

G = 9.80665
LIBRARY = "fluids " + fluids.__version__
chance = random.Random(20240607)


def between(low, high):
    """Even in the logarithm."""
    return float(f"{math.exp(chance.uniform(math.log(low), math.log(high))):.6g}")


def given(**keys):
    return ";".join(f"{key}={value}" for key, value in keys.items())


def friction(re, rr):
    return 64.0 / re if re <= 2000 else fluids.friction.Colebrook(re, rr, tol=0)


def loss(q, p):
    area = math.pi / 4 * p["inside_diameter_m"] ** 2
    v = q / area
    re = p["density_kg_per_m3"] * v * p["inside_diameter_m"] / p["dynamic_viscosity_pa_s"]
    f = friction(re, p["roughness_m"] / p["inside_diameter_m"])
    return (f * p["length_m"] / p["inside_diameter_m"] + p["k_sum"]) * v * v / (2 * G)


def pipe():
    return dict(length_m=between(0.2, 60), inside_diameter_m=between(0.012, 0.3), roughness_m=between(1e-6, 3e-4),
                density_kg_per_m3=chance.choice([997.05, 1023.34, 999.7, 992.2]),
                dynamic_viscosity_pa_s=chance.choice([0.00089, 0.00096, 0.001306, 0.000653]), k_sum=between(0.5, 60))


def turbulent(q, p):
    return 4 * q * p["density_kg_per_m3"] / (math.pi * p["inside_diameter_m"] * p["dynamic_viscosity_pa_s"]) > 4500


def friction_rows():
    for re in (1e-3, 1, 640, 2000, 4000, 4001, 1e4, 3.3e5, 1e7, 1e8):
        for rr in (0, 1e-6, 3e-4, 0.02, 0.05):
            yield "friction_factor", given(re=re, relative_roughness=rr), friction(re, rr), "-", 1e-8, f"{LIBRARY} Colebrook"
    for _ in range(20):
        p, q = pipe(), between(1e-4, 2e-2)
        if turbulent(q, p):
            yield "pipe_head_loss", given(flow_m3_per_s=q, **p), loss(q, p), "m", 1e-7, f"{LIBRARY} Colebrook"
            yield "siphon_flow", given(height_m=float(f"{loss(q, p):.12g}"), **p), q, "m3/s", 1e-7, f"{LIBRARY} Colebrook"
            extra = between(0.5, 50)
            area = math.pi / 4 * p["inside_diameter_m"] ** 2
            height = loss(q, p) + extra * (q / area) ** 2 / (2 * G)
            yield ("siphon_valve_k", given(height_m=float(f"{height:.15g}"), flow_m3_per_s=q, **p), extra, "1", 1e-6,
                   f"{LIBRARY} Colebrook")


def size_rows():
    for schedule, series in (("40D1785", "schedule-40"), ("80D1785", "schedule-80")):
        for nps in (0.125, 0.25, 0.375, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12):
            try:
                _, inside, outside, wall = fluids.nearest_pipe(NPS=nps, schedule=schedule)
            except ValueError:
                continue
            keys = given(standard="astm-d1785", series=series, nominal=nps)
            source = f"{LIBRARY} nearest_pipe(NPS, schedule='{schedule}')"
            yield "pipe_outside_diameter", keys, outside, "m", 2e-3, source
            yield "pipe_wall", keys, wall, "m", 1e-2, source
            yield "pipe_inside_diameter", keys, inside, "m", 2e-3, source


def fitting_rows():
    for _ in range(12):
        d, c = between(0.02, 0.3), chance.uniform(0.55, 0.99)
        hole = d * chance.uniform(0.15, 0.9)
        b = hole / d
        k = (math.sqrt(1 - b ** 4 * (1 - c * c)) / (c * b * b) - 1) ** 2
        yield ("orifice_k", given(orifice_diameter_m=hole, inside_diameter_m=d, discharge_coefficient=c), k, "-", 1e-6,
               "ISO 5167-2 formula")
    for small, large in ((0.01, 0.3), (0.02, 0.0201), (0.0133, 0.0409)):
        yield ("sudden_expansion_k", given(d1_m=small, d2_m=large), fluids.fittings.diffuser_sharp(small, large), "-", 1e-6,
               f"{LIBRARY} diffuser_sharp")
        yield ("sudden_contraction_k", given(d1_m=large, d2_m=small, method="crane"), 0.5 * (1 - (small / large) ** 2), "-",
               1e-6, "Crane TP-410, theta 180")
        for angle in (10, 30, 44, 60, 100, 170):
            yield ("reducer_k", given(from_m=large, to_m=small, angle_deg=angle),
                   fluids.fittings.contraction_conical_Crane(large, small, angle=angle), "-", 1e-6,
                   f"{LIBRARY} contraction_conical_Crane")
            yield ("reducer_k", given(from_m=small, to_m=large, angle_deg=angle),
                   fluids.fittings.diffuser_conical(small, large, angle=angle, method="Crane"), "-", 1e-6,
                   f"{LIBRARY} diffuser_conical, Crane")
    tees = {"tee_diverging_branch_k": fluids.fittings.K_branch_diverging_Crane,
            "tee_diverging_run_k": fluids.fittings.K_run_diverging_Crane,
            "tee_converging_branch_k": fluids.fittings.K_branch_converging_Crane,
            "tee_converging_run_k": fluids.fittings.K_run_converging_Crane}
    for quantity, function in tees.items():
        for share in (0.02, 0.2, 0.35, 0.5, 0.65, 0.8, 0.98):
            for run, branch, angle in ((0.0266, 0.0266, 90), (0.0525, 0.0209, 90), (0.04, 0.04, 45), (0.04, 0.025, 60)):
                q = 1e-3
                k = function(run, branch, (1 - share) * q, share * q, angle)
                yield (quantity, given(method="crane", run_diameter_m=run, branch_diameter_m=branch,
                                       run_flow_m3_per_s=(1 - share) * q, branch_flow_m3_per_s=share * q, angle_deg=angle),
                       k, "-", 1e-5, f"{LIBRARY} {function.__name__}")


def drain_rows():
    for y in (0.01, 0.07, 0.3, 0.5, 0.81, 0.938, 0.97, 1.0):
        d, slope, n = between(0.02, 0.3), between(0.002, 0.2), 0.009
        theta = 2 * math.acos(1 - 2 * y)
        area, wet = d * d / 8 * (theta - math.sin(theta)), d * theta / 2
        q = area * fluids.open_flow.V_Manning(area / wet, slope, n)
        yield ("partly_full_pipe_flow", given(inside_diameter_m=d, slope=slope, manning_n=n, depth_ratio=y), q, "m3/s", 1e-6,
               f"{LIBRARY} V_Manning")
        if y < 0.9:
            yield ("partly_full_depth", given(inside_diameter_m=d, slope=slope, manning_n=n,
                                              flow_m3_per_s=float(f"{q:.15g}")), y, "1", 1e-6, f"{LIBRARY} V_Manning")
    for start, end, flow in ((0.5, 0.1, 2e-4), (0.1, 0.4, 2e-3), (0.3, 0.001, 0.0), (2.0, 1.9, 1e-5)):
        c, area = 3.1e-4, 0.73
        k = c * math.sqrt(2 * G)
        # u = sqrt(h): dt = 2 A u du / (Q0 - k u), by Simpson's rule with 20,000 steps
        n, a, b = 20000, math.sqrt(start), math.sqrt(end)
        h = (b - a) / n
        rate = lambda u: 2 * area * u / (flow - k * u)
        time = h / 3 * sum((1 if i in (0, n) else 4 if i % 2 else 2) * rate(a + i * h) for i in range(n + 1))
        yield ("emptying_time", given(kind="orifice_inflow", area_m2=area, cd_area_m2=c, inflow_m3_per_s=flow,
                                      head_start_m=start, head_end_m=end), time, "s", 1e-6, "Simpson's rule on the balance")


def pump_rows():
    for _ in range(12):
        a, c, p = between(0.8, 12), chance.uniform(1.2, 2.6), pipe()
        end = between(3e-4, 2e-2)
        b = a / end ** c
        static = a * chance.uniform(-0.2, 0.8)
        curve = f"{a},{b:.12g},{c:.12g}"
        head = lambda q: a - float(f"{b:.12g}") * q ** float(f"{c:.12g}")
        if head(1e-9) <= static:
            continue
        q = brentq(lambda x: head(x) - static - loss(x, p), 1e-9, 3 * end, xtol=1e-16)
        if turbulent(q, p):
            yield "operating_point_flow", given(curve=curve, static_head_m=static, **p), q, "m3/s", 1e-6, "brentq, " + LIBRARY
            yield ("series_pumps_flow", given(curves=f"{curve}|{curve}", static_head_m=2 * static,
                                              **{**p, "length_m": 2 * p["length_m"], "k_sum": 2 * p["k_sum"]}), q, "m3/s",
                   1e-6, "twice the pump on twice the loop")
            r = chance.uniform(0.4, 1.1)
            want = q * chance.uniform(0.5, 0.95)
            f = lambda s: s * s * head(want / s) - static - loss(want, p)
            if turbulent(want, p) and f(0.31) < 0 < f(1.19):
                yield ("speed_for_flow", given(curve=curve, flow_m3_per_s=float(f"{want:.15g}"), static_head_m=static, **p),
                       brentq(f, 0.3, 1.2, xtol=1e-15), "-", 1e-6, "brentq, " + LIBRARY)
    for _ in range(8):
        n = chance.randint(2, 16)
        flows = sorted(between(1e-5, 5e-3) for _ in range(n - 1))
        heads = sorted((between(0.2, 6) for _ in range(n)), reverse=True)
        points, p = list(zip([0.0] + flows, heads)), pipe()
        curve = PchipInterpolator(*zip(*points))
        f = lambda x: float(curve(x)) - loss(x, p)
        if f(flows[-1]) > 0:
            continue
        q = brentq(f, 1e-9, flows[-1], xtol=1e-16)
        if turbulent(q, p):
            yield ("operating_point_flow", given(points="|".join(f"{x}:{y}" for x, y in points), static_head_m=0, **p), q,
                   "m3/s", 1e-6, "scipy PchipInterpolator, brentq, " + LIBRARY)


def other_rows():
    for t in (0.01, 1, 7.5, 24, 30, 33.3, 39.9, 45, 50, 60):
        yield "saturation_pressure", given(t_c=t), IAPWS97(T=t + 273.15, x=0).P * 1e6, "Pa", 1e-3, "iapws IAPWS97(T, x=0).P"
    for _ in range(8):
        d, rho = between(2e-5, 4e-3), chance.choice([1050.0, 1400.0, 2650.0, 2850.0])
        yield ("settling_velocity", given(diameter_m=d, particle_density_kg_per_m3=rho, density_kg_per_m3=1023.3,
                                          dynamic_viscosity_pa_s=0.00096),
               fluids.v_terminal(D=d, rhop=rho, rho=1023.3, mu=0.00096), "m/s", 0.06, f"{LIBRARY} v_terminal")
    for angle, head in ((25, 0.06), (60, 0.1), (90, 0.2), (100, 0.38)):
        ft = 0.3048
        ce = 0.607165052 - 8.74466963e-4 * angle + 6.10393334e-6 * angle ** 2
        kh = (0.0144902648 - 3.3955535e-4 * angle + 3.29819003e-6 * angle ** 2 - 1.06215442e-8 * angle ** 3) * ft
        yield ("vnotch_discharge", given(formula="kindsvater_shen", angle_deg=angle, head_m=head),
               8 / 15 * ce * math.sqrt(2 * G) * math.tan(math.radians(angle / 2)) * (head + kh) ** 2.5, "m3/s", 1e-3,
               "the printed fits")


def main():
    path = pathlib.Path(__file__).parent / "generated" / "edges.csv"
    count = {}
    with path.open("w", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow("case,quantity,given,expected,unit,rel_tol,abs_tol,source,provenance,note".split(","))
        for rows in (friction_rows, size_rows, fitting_rows, drain_rows, pump_rows, other_rows):
            for quantity, keys, expected, unit, tolerance, source in rows():
                number = count[quantity] = count.get(quantity, 0) + 1
                library = any(word in source for word in ("fluids", "iapws", "scipy"))
                writer.writerow([f"edge-{quantity.replace('_', '-')}-{number:02}", quantity, keys, f"{float(expected):.12g}",
                                 unit, tolerance, 1e-9 if "tee" in quantity or "reducer" in quantity else 0, source,
                                 "library" if library else "analytic", ""])


main()
