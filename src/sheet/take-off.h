/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a fitting takes off the axis length of a pipe, by the standards of solvent-cement sockets. A file of its own, as
 * the catalogue and the hydraulics both have a PipeSize. */
#pragma once

#include <stdbool.h>

/* Centre of an elbow (90 degrees, or 45) or of a tee to the bottom of its socket, metres. `key`, `standard`, `nominal_in`
 * and `outside_m` as in the catalogue. False where no standard here has the size: then lengths are those of the axis. */
bool take_off_elbow (const char *key, const char *standard, double nominal_in, double outside_m,
                     bool right_angle, double *ret_length_m);
