/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* How long a vessel with upright walls takes to fall from one head to another. Quasi-steady: the water in
 * the pipe has no inertia. Heads are measured from the outlet (orifice, crest, pipe end); @area_m2 is the
 * plan area of the vessel, > 0.
 *
 * All return OK; NO_SOLUTION if the end head is never reached (rising without inflow, a steady level
 * between, the last of a weir's tail); INVALID_ARGUMENT for areas and coefficients not positive, negative
 * or non-finite heads. Equal heads take no time. Areas are m2, heads m, times s.
 * Source: A dh/dt = Q0 - Q(h), integrated in closed form; for the friction of Colebrook-White by quadrature. */

#include "hydraulics/pipe.h"

/* Through an orifice: 2A/(CdA sqrt(2g)) (sqrt h0 - sqrt h1), @cd_area_m2 = Cd x area of the opening. */
HydraulicsStatus emptying_time_orifice (double area_m2, double cd_area_m2, double head_start_m,
                                        double head_end_m, double *ret_time_s);

/**
 * emptying_time_orifice_inflow:
 * @inflow_m3s: steady, 0 or more; the level may rise to @head_end_m instead of falling
 * @ret_time_s: (out): 2A ((sqrt h0 - sqrt h1)/k + (Q0/k^2) ln ((Q0 - k sqrt h0)/(Q0 - k sqrt h1))), k = CdA
 *   sqrt(2g)
 */
HydraulicsStatus emptying_time_orifice_inflow (double area_m2, double cd_area_m2, double inflow_m3s,
                                               double head_start_m, double head_end_m, double *ret_time_s);

/* Over a weir of Q = c L h^1.5, @weir_coefficient c in m^0.5/s: 2A/(c L) (h1^-0.5 - h0^-0.5). It never
 * empties quite: the end head must be positive. */
HydraulicsStatus emptying_time_weir (double area_m2, double crest_length_m, double weir_coefficient,
                                     double head_start_m, double head_end_m, double *ret_time_s);

/* Through a full pipe of constant Darcy friction factor: (2A/a) sqrt((K + f L/D)/2g) (sqrt h0 - sqrt h1);
 * @loss_coefficient holds entrance and exit, heads are counted to the level at the pipe's end. */
HydraulicsStatus emptying_time_pipe (double area_m2, double bore_m, double length_m, double friction_factor,
                                     double loss_coefficient, double head_start_m, double head_end_m,
                                     double *ret_time_s);

/* The same with the friction of pipe_flow_at_loss(): the integral of A dh/Q(h), in the square root of the
 * head by Gauss-Legendre quadrature, to 1e-8 of the time while the flow is turbulent. To an end head of 0
 * the laminar tail is infinite: NO_SOLUTION. */
HydraulicsStatus emptying_time_pipe_colebrook (double area_m2, const PipeRun *pipe, const Fluid *water,
                                               double head_start_m, double head_end_m, double *ret_time_s);

/* Two vessels joined by a drowned orifice; heads are differences of level: 2 A1 A2/((A1 + A2) CdA sqrt(2g))
 * (sqrt h0 - sqrt h1). */
HydraulicsStatus emptying_time_two_tanks (double area1_m2, double area2_m2, double cd_area_m2,
                                          double head_start_m, double head_end_m, double *ret_time_s);
