#!/usr/bin/env python3
# SPDX-License-Identifier: LGPL-2.1-or-later
"""Writes generated/water-grid.csv: water properties over the whole range by general-purpose libraries.

Needs Debian's python3-gsw (TEOS-10) and python3-iapws (IAPWS-95). The tolerances are the ones of tables/water.csv.
"""
import csv
import math
import pathlib

import gsw
from iapws import IAPWS95
from iapws._iapws import _Tension

TEMPERATURES = [0.5, 3, 8, 13, 17, 21, 23, 25.5, 27, 29, 33, 37, 40]
SALINITIES = [0, 1, 8, 16, 25, 32, 34.5, 36.5, 42, 45]
WATER_GAS_CONSTANT = 461.51805  # J/(kg K), IAPWS-95


def activity(t, s):
    """Vapour pressure of sea water over that of fresh water; gsw gives chemical potentials in kJ/kg."""
    difference = gsw.chem_potential_water_t_exact(s, t, 0) - gsw.chem_potential_water_t_exact(0, t, 0)
    return math.exp(1000.0 * difference / (WATER_GAS_CONSTANT * (t + 273.15)))


def sea_viscosity(t, s):
    share = s / 1000.0
    fresh = 4.2844e-5 + 1.0 / (0.157 * (t + 64.993) ** 2 - 91.296)
    a = 1.541 + 1.998e-2 * t - 9.52e-5 * t * t
    b = 7.974 - 7.561e-2 * t + 4.724e-4 * t * t
    return fresh * (1.0 + a * share + b * share * share)


def rows():
    for t in TEMPERATURES:
        liquid = IAPWS95(T=t + 273.15, P=0.101325)
        boiling, steam = IAPWS95(T=t + 273.15, x=0), IAPWS95(T=t + 273.15, x=1)
        for s in SALINITIES:
            given = f"t_c={t};s_g_per_kg={s}"
            name = f"{t}c-{s}g".replace(".", "p")
            yield (f"rho-{name}", "water_density", given, gsw.rho_t_exact(s, t, 0), "kg/m3", 1e-4 if s == 0 else 2.5e-4,
                   "gsw.rho_t_exact(SA, t, 0)", "library")
            yield (f"cp-{name}", "water_specific_heat", given, gsw.cp_t_exact(s, t, 0), "J/(kg K)", 3e-3,
                   "gsw.cp_t_exact(SA, t, 0)", "library")
            yield (f"pv-{name}", "water_vapour_pressure", given, 1e6 * boiling.P * activity(t, s), "Pa",
                   5e-3 if s == 0 else 6e-3, "IAPWS95(T, x=0).P times the water activity by gsw", "library")
            if s == 0:
                yield (f"mu-{name}", "water_dynamic_viscosity", given, liquid.mu, "Pa s", 1e-2, "IAPWS95(T, P).mu",
                       "library")
                yield (f"hfg-{name}", "water_latent_heat", given, 1e3 * (steam.h - boiling.h), "J/kg", 3e-3,
                       "IAPWS95 h'' - h'", "library")
            else:
                yield (f"mu-{name}", "water_dynamic_viscosity", given, sea_viscosity(t, s), "Pa s", 2e-2,
                       "Sharqawy, Lienhard & Zubair 2010, Eqs. 22-23", "published")
                yield (f"hfg-{name}", "water_latent_heat", given, gsw.latentheat_evap_t(s, t), "J/kg", 3e-3,
                       "gsw.latentheat_evap_t(SA, t)", "library")
        yield (f"sigma-{str(t).replace('.', 'p')}c", "water_surface_tension", f"t_c={t};s_g_per_kg=0",
               _Tension(t + 273.15), "N/m", 1e-4, "iapws _Tension (IAPWS R1-76)", "library")


def main():
    path = pathlib.Path(__file__).parent / "generated" / "water-grid.csv"
    with path.open("w", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow("case,quantity,given,expected,unit,rel_tol,abs_tol,source,provenance,note".split(","))
        for case, quantity, given, expected, unit, tolerance, source, provenance in rows():
            writer.writerow([case, quantity, given, f"{float(expected):.10g}", unit, tolerance, 0, source, provenance, ""])


main()
