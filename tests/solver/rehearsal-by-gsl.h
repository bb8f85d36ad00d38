/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A rehearsal played by the GNU Scientific Library: the equations and the events are those of the rehearser, but the
 * integration is GSL's (variable-order backward differences, gsl_odeiv2 msbdf), and events are found by halving the time
 * and integrating again. */
#pragma once

#include "solver/rehearsal.h"

/* @tolerance: as a share of what the rehearser allows; @longest_s: the longest step. True where it came to rest or to the
 * horizon. */
bool rehearse_by_gsl (Rehearser *rehearser, const RehearsalPlan *plan, double tolerance, double longest_s,
                      Rehearsal *ret_rehearsal);
