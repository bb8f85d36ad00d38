/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Standard acceleration of free fall, m/s2: exact by convention (3rd CGPM 1901; BIPM SI Brochure). */
#define GRAVITY_M_S2 9.80665

/* Ice point on the Celsius scale, K: exact by definition (BIPM SI Brochure). */
#define CELSIUS_ZERO_K 273.15
