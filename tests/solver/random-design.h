/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Random designs by GLib's generator (--seed replays one): whatever a draft admits. */
#pragma once

#include "design/design.h"

/* What a trial begins with: the bare or the sound design, now and then with a second overflow or tank. */
Design *random_base (unsigned trial);

/* Changes a share of all fields, one by one; a value that would break an invariant is taken back. */
Design *random_design (Design *base, double share);
