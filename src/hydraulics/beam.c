/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/beam.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"

#include <glib.h>

typedef struct {
  double deflection; /* of P L3/(E I), or of w L4/(E I) */
  double moment;     /* of P L, or of w L2 */
} BeamCase;

/* The triangular deflection lines, with s = x/L from the unloaded end, in w L4/(E I):
 *   simple      s (7 - 10 s2 + 3 s4)/360, largest at s2 = 1 - sqrt (8/15);   moment w L2/(9 sqrt 3)
 *   fixed       s2 (1 - s)2 (2 + s)/120, largest at s = (sqrt 105 - 5)/10;   moment w L2/20 at the peak
 *   cantilever  1/30 at the tip;                                             moment w L2/6 at the wall */
static const BeamCase cases[N_BEAM_SUPPORTS][N_BEAM_LOADS] = {
    [BEAM_SIMPLE] =
        {
            [BEAM_POINT] = {1.0 / 48.0, 1.0 / 4.0},
            [BEAM_UNIFORM] = {5.0 / 384.0, 1.0 / 8.0},
            [BEAM_TRIANGULAR] = {6.522184232e-3, 6.415002991e-2},
        },
    [BEAM_FIXED] =
        {
            [BEAM_POINT] = {1.0 / 192.0, 1.0 / 8.0},
            [BEAM_UNIFORM] = {1.0 / 384.0, 1.0 / 12.0},
            [BEAM_TRIANGULAR] = {1.308537855e-3, 1.0 / 20.0},
        },
    [BEAM_CANTILEVER] =
        {
            [BEAM_POINT] = {1.0 / 3.0, 1.0},
            [BEAM_UNIFORM] = {1.0 / 8.0, 1.0 / 2.0},
            [BEAM_TRIANGULAR] = {1.0 / 30.0, 1.0 / 6.0},
        },
};

static bool
beam_is_known (const Beam *beam)
{
  return (guint) beam->support < N_BEAM_SUPPORTS && (guint) beam->load < N_BEAM_LOADS &&
         argument_is_not_negative (beam->load_value) && argument_is_positive (beam->length_m);
}

/* The whole load in N, whatever its kind: a line load is multiplied by the span. */
static double
span_load (const Beam *beam)
{
  return beam->load == BEAM_POINT ? beam->load_value : beam->load_value * beam->length_m;
}

HydraulicsStatus
beam_max_deflection (const Beam *beam, double *ret_deflection_m)
{
  if (!beam_is_known (beam) || !argument_is_positive (beam->young_pa) ||
      !argument_is_positive (beam->second_moment_m4))
    return HYDRAULICS_INVALID_ARGUMENT;
  double flexibility = pow (beam->length_m, 3.0) / (beam->young_pa * beam->second_moment_m4);
  return answer_if_finite (cases[beam->support][beam->load].deflection * span_load (beam) * flexibility,
                           ret_deflection_m);
}

HydraulicsStatus
beam_max_moment (const Beam *beam, double *ret_moment_nm)
{
  if (!beam_is_known (beam))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (cases[beam->support][beam->load].moment * span_load (beam) * beam->length_m,
                           ret_moment_nm);
}

static double
rectangle (double width_m, double height_m)
{
  return width_m * pow (height_m, 3.0) / 12.0;
}

HydraulicsStatus
section_second_moment (const Section *section, double *ret_second_moment_m4)
{
  double inside_height_m = section->height_m - 2.0 * section->wall_m;
  double inside_width_m = section->width_m - 2.0 * section->wall_m;

  if (!argument_is_positive (section->height_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (section->shape != SECTION_ROUND_TUBE && !argument_is_positive (section->width_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (section->shape != SECTION_RECTANGLE &&
      (!argument_is_positive (section->wall_m) || !argument_is_not_negative (inside_height_m)))
    return HYDRAULICS_INVALID_ARGUMENT;

  switch (section->shape) {
  case SECTION_RECTANGLE:
    return answer_if_finite (rectangle (section->width_m, section->height_m), ret_second_moment_m4);
  case SECTION_RECTANGULAR_TUBE:
    if (!argument_is_not_negative (inside_width_m))
      return HYDRAULICS_INVALID_ARGUMENT;
    return answer_if_finite (rectangle (section->width_m, section->height_m) -
                                 rectangle (inside_width_m, inside_height_m),
                             ret_second_moment_m4);
  case SECTION_ROUND_TUBE:
    return answer_if_finite (G_PI / 64.0 * (pow (section->height_m, 4.0) - pow (inside_height_m, 4.0)),
                             ret_second_moment_m4);
  case N_SECTION_SHAPES:
    break;
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

HydraulicsStatus
section_modulus (const Section *section, double *ret_modulus_m3)
{
  double second_moment_m4 = 0.0;
  HydraulicsStatus status = section_second_moment (section, &second_moment_m4);

  if (status != HYDRAULICS_OK)
    return status;
  return answer_if_finite (second_moment_m4 / (0.5 * section->height_m), ret_modulus_m3);
}

HydraulicsStatus
column_buckling_load (double young_pa, double second_moment_m4, double length_m,
                      double effective_length_factor, double *ret_load_n)
{
  double buckling_length_m = effective_length_factor * length_m;

  if (!argument_is_positive (young_pa) || !argument_is_positive (second_moment_m4) ||
      !argument_is_positive (length_m) || !argument_is_positive (effective_length_factor))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (
      G_PI * G_PI * young_pa * second_moment_m4 / (buckling_length_m * buckling_length_m), ret_load_n);
}
