/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The invariants of a design, checked on every commit. */
#pragma once

#include "design/draft.h"

/* True when the invariants hold; else the first problem. */
bool design_is_well_formed (const Design *design, Problem *ret_problem);
