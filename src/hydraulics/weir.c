/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/weir.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/bracket.h"
#include "hydraulics/constants.h"
#include "hydraulics/crest.h"

#include <math.h>

#define FOOT_M 0.3048

static const double head_ratio_max = 2.5;  /* h/P of Kindsvater-Carter and, stretched, of Rehbock */
static const double broad_ratio_max = 1.5; /* h/t at which the nappe leaves a broad crest */
static const double kindsvater_head_m = 0.001;
static const double rehbock_head_m = 0.0012;
static const double tested_head_m = 0.03;
static const double tested_length_m = 0.15;
static const double tested_height_m = 0.1;

/* By tenths of crest length over channel width, from 0 to 1. 0.2 and 0.4 to 1: ISO 1438; 0 and 0.1: Bos,
 * from memory; 0.3 lies on the line between its neighbours. */
static const struct {
  double a, b, width_m;
} kindsvater[] = {
    {0.587, -0.0023, 0.0024}, {0.588, -0.0021, 0.0024}, {0.589, -0.0018, 0.0024}, {0.590, 0.0020, 0.00255},
    {0.591, 0.0058, 0.0027},  {0.592, 0.0110, 0.0030},  {0.593, 0.0180, 0.0036},  {0.594, 0.0300, 0.0041},
    {0.597, 0.0450, 0.0042},  {0.599, 0.0640, 0.0035},  {0.602, 0.0750, -0.0009},
};
enum { KINDSVATER_STEPS = sizeof kindsvater / sizeof kindsvater[0] - 1 };

static double
power_1_5 (double head_m)
{
  return head_m * sqrt (head_m);
}

static bool
is_well_formed (const Weir *weir)
{
  if (!argument_is_positive (weir->crest_length_m) || !argument_is_share (weir->covered_share))
    return false;

  switch (weir->formula) {
  case WEIR_KINDSVATER_CARTER:
    return argument_is_positive (weir->crest_height_m) && isfinite (weir->channel_width_m) &&
           weir->channel_width_m >= weir->crest_length_m &&
           weir->crest_length_m > -kindsvater[KINDSVATER_STEPS].width_m;
  case WEIR_REHBOCK:
    return argument_is_positive (weir->crest_height_m);
  case WEIR_FRANCIS:
    return weir->end_contractions >= 0 && weir->end_contractions <= 2;
  case WEIR_BROAD_CREST:
    return argument_is_positive (weir->discharge_coefficient) &&
           argument_is_not_negative (weir->crest_thickness_m);
  case WEIR_THICK_CREST:
    return argument_is_positive (weir->crest_thickness_m);
  case WEIR_COMB:
    return argument_is_positive (weir->discharge_coefficient) && argument_is_positive (weir->gap_m) &&
           argument_is_not_negative (weir->bar_m) && argument_is_positive (weir->opening_height_m) &&
           weir->gap_m <= weir->crest_length_m;
  case WEIR_FORMULA_COUNT:
    break;
  }
  return false;
}

static double
kindsvater_carter (const Weir *weir, double head_m)
{
  double tenths = KINDSVATER_STEPS * weir->crest_length_m / weir->channel_width_m;
  int i = (int) fmin (tenths, KINDSVATER_STEPS - 1);
  double t = tenths - i;
  double a = (1.0 - t) * kindsvater[i].a + t * kindsvater[i + 1].a;
  double b = (1.0 - t) * kindsvater[i].b + t * kindsvater[i + 1].b;
  double width_m = (1.0 - t) * kindsvater[i].width_m + t * kindsvater[i + 1].width_m;
  double ratio = fmin (head_m / weir->crest_height_m, head_ratio_max);

  return 2.0 / 3.0 * sqrt (2.0 * GRAVITY_M_S2) * (a + b * ratio) * (weir->crest_length_m + width_m) *
         power_1_5 (crest_effective_head (head_m, kindsvater_head_m));
}

static double
rehbock (const Weir *weir, double head_m)
{
  double ratio = fmin (head_m / weir->crest_height_m, head_ratio_max);

  return 2.0 / 3.0 * sqrt (2.0 * GRAVITY_M_S2) * (0.602 + 0.083 * ratio) * weir->crest_length_m *
         power_1_5 (crest_effective_head (head_m, rehbock_head_m));
}

/* The formula's flow falls again above h = 6 L/n; its effective length is held from half of that on. */
static double
francis (const Weir *weir, double head_m)
{
  double lost_m = fmin (0.1 * weir->end_contractions * head_m, 0.3 * weir->crest_length_m);

  return 3.33 * sqrt (FOOT_M) * (weir->crest_length_m - lost_m) * power_1_5 (head_m);
}

static double
thick_crest (const Weir *weir, double head_m)
{
  double ratio = head_m / weir->crest_thickness_m;

  return 0.42 * sqrt (2.0 * GRAVITY_M_S2) * (1.0 - 2.0 / 9.0 / (1.0 + ratio * ratio * ratio * ratio)) *
         weir->crest_length_m * power_1_5 (head_m);
}

static double
free_flow (const Weir *weir, double head_m)
{
  double flow_m3s = 0.0;

  switch (weir->formula) {
  case WEIR_KINDSVATER_CARTER:
    flow_m3s = kindsvater_carter (weir, head_m);
    break;
  case WEIR_REHBOCK:
    flow_m3s = rehbock (weir, head_m);
    break;
  case WEIR_FRANCIS:
    flow_m3s = francis (weir, head_m);
    break;
  case WEIR_BROAD_CREST:
    flow_m3s = weir->discharge_coefficient * power_1_5 (2.0 / 3.0) * sqrt (GRAVITY_M_S2) *
               weir->crest_length_m * power_1_5 (head_m);
    break;
  case WEIR_THICK_CREST:
    flow_m3s = thick_crest (weir, head_m);
    break;
  case WEIR_COMB:
  case WEIR_FORMULA_COUNT:
    break;
  }
  return (1.0 - weir->covered_share) * flow_m3s;
}

static int
opening_count (const Weir *weir)
{
  /* The last bar is not needed; a rounding error must not cost an opening. */
  double count = (weir->crest_length_m + weir->bar_m) / (weir->gap_m + weir->bar_m) * (1.0 + 1e-12);

  return (int) fmin (count, 1e6);
}

static double
comb_flow (const Weir *weir, double head_m, double head_below_m)
{
  double open_m = (1.0 - weir->covered_share) * opening_count (weir) * weir->gap_m;
  double flow = open_m * crest_strips (head_m, head_below_m, 0.0, weir->opening_height_m);

  if (!weir->closed_above)
    flow += weir->crest_length_m * crest_strips (head_m, head_below_m, weir->opening_height_m, INFINITY);
  return weir->discharge_coefficient * sqrt (2.0 * GRAVITY_M_S2) * flow;
}

static bool
is_in_range (const Weir *weir, double head_m)
{
  switch (weir->formula) {
  case WEIR_KINDSVATER_CARTER:
  case WEIR_REHBOCK:
    return head_m <= head_ratio_max * weir->crest_height_m;
  case WEIR_FRANCIS:
    return weir->end_contractions == 0 || head_m <= weir->crest_length_m / 3.0;
  case WEIR_BROAD_CREST:
    return weir->crest_thickness_m == 0.0 || head_m <= broad_ratio_max * weir->crest_thickness_m;
  case WEIR_THICK_CREST:
  case WEIR_COMB:
  case WEIR_FORMULA_COUNT:
    break;
  }
  return true;
}

HydraulicsStatus
weir_discharge (const Weir *weir, double head_m, double head_below_m, double *ret_flow_m3s)
{
  if (!is_well_formed (weir) || !argument_is_not_negative (head_m) || !isfinite (head_below_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (head_below_m > head_m)
    return HYDRAULICS_OUT_OF_RANGE;

  double below_m = fmax (head_below_m, 0.0);
  if (weir->formula == WEIR_COMB)
    return answer_if_finite (comb_flow (weir, head_m, below_m), ret_flow_m3s);
  double share = 1.0;
  if (below_m > 0.0)
    weir_submergence_ratio (head_m, below_m, 1.5, &share);
  HydraulicsStatus status = answer_if_finite (share * free_flow (weir, head_m), ret_flow_m3s);
  return status == HYDRAULICS_OK && !is_in_range (weir, head_m) ? HYDRAULICS_OUT_OF_RANGE : status;
}

typedef struct {
  const Weir *weir;
  double head_below_m;
} Overflow;

static HydraulicsStatus
overflow_relation (double head_m, const void *data, double *ret_flow_m3s)
{
  const Overflow *overflow = data;

  return weir_discharge (overflow->weir, head_m, overflow->head_below_m, ret_flow_m3s);
}

/* Doubles the head from the size that a sharp crest would need until it carries the flow. */
static HydraulicsStatus
find_upper_head (const Overflow *overflow, double flow_m3s, double low_m, double *ret_high_m)
{
  double guess_m = pow (flow_m3s / (1.8 * overflow->weir->crest_length_m), 2.0 / 3.0);

  for (double step_m = fmax (guess_m, 1e-9); low_m + step_m <= CREST_HEAD_MAX_M; step_m *= 2.0) {
    double carried_m3s = 0.0;
    HydraulicsStatus status = overflow_relation (low_m + step_m, overflow, &carried_m3s);
    if (status != HYDRAULICS_OK && status != HYDRAULICS_OUT_OF_RANGE)
      return status;
    if (carried_m3s >= flow_m3s) {
      *ret_high_m = low_m + step_m;
      return HYDRAULICS_OK;
    }
  }
  return HYDRAULICS_OUT_OF_RANGE;
}

#define SECANT_STEPS 12
#define SECANT_LAST  1e-11

/* The head of a free weir by the secant method: over such a head its flow is all but a straight line. False where it does
 * not come to rest soon, as about the top of an opening; the bracket then finds it. */
static bool
free_head (const Overflow *overflow, double flow_m3s, double *ret_head_m)
{
  double before_m = pow (flow_m3s / (1.8 * overflow->weir->crest_length_m), 2.0 / 3.0);
  double before_m3s = 0.0, now_m3s = 0.0;

  if (overflow->head_below_m > 0.0 || overflow_relation (before_m, overflow, &before_m3s) != HYDRAULICS_OK)
    return false;
  double now_m = before_m * pow (flow_m3s / before_m3s, 2.0 / 3.0);
  for (int i = 0; i < SECANT_STEPS && now_m > 0.0 && now_m < CREST_HEAD_MAX_M; i++) {
    if (fabs (now_m - before_m) <= SECANT_LAST * now_m) {
      *ret_head_m = now_m;
      return true;
    }
    if (overflow_relation (now_m, overflow, &now_m3s) != HYDRAULICS_OK)
      return false;
    double next_m = now_m - (now_m3s - flow_m3s) * (now_m - before_m) / (now_m3s - before_m3s);
    before_m = now_m;
    before_m3s = now_m3s;
    now_m = next_m;
  }
  return false;
}

static bool
passes_nothing (const Weir *weir)
{
  return weir->covered_share == 1.0 && (weir->formula != WEIR_COMB || weir->closed_above);
}

HydraulicsStatus
weir_head (const Weir *weir, double flow_m3s, double head_below_m, double *ret_head_m)
{
  if (!is_well_formed (weir) || !argument_is_not_negative (flow_m3s) || !isfinite (head_below_m))
    return HYDRAULICS_INVALID_ARGUMENT;

  double low_m = fmax (head_below_m, 0.0);
  if (flow_m3s == 0.0) {
    *ret_head_m = low_m;
    return HYDRAULICS_OK;
  }
  if (passes_nothing (weir))
    return HYDRAULICS_NO_SOLUTION;

  const Overflow overflow = {weir, head_below_m};
  double high_m = NAN, head_m = NAN;
  if (free_head (&overflow, flow_m3s, ret_head_m))
    return is_in_range (weir, *ret_head_m) ? HYDRAULICS_OK : HYDRAULICS_OUT_OF_RANGE;
  HydraulicsStatus status = find_upper_head (&overflow, flow_m3s, low_m, &high_m);
  if (status == HYDRAULICS_OK)
    status = bracket_invert (overflow_relation, &overflow, flow_m3s, low_m, high_m, &head_m);
  if (status != HYDRAULICS_OK)
    return status;
  *ret_head_m = head_m;
  return is_in_range (weir, head_m) ? HYDRAULICS_OK : HYDRAULICS_OUT_OF_RANGE;
}

static bool
is_high_head (const Weir *weir, double head_m)
{
  switch (weir->formula) {
  case WEIR_KINDSVATER_CARTER:
    return head_m > head_ratio_max * weir->crest_height_m;
  case WEIR_REHBOCK:
    return head_m > weir->crest_height_m;
  case WEIR_FRANCIS:
    return head_m > weir->crest_length_m / 3.0;
  case WEIR_BROAD_CREST:
    return weir->crest_thickness_m > 0.0 && head_m > 0.33 * weir->crest_thickness_m;
  case WEIR_THICK_CREST:
  case WEIR_COMB:
  case WEIR_FORMULA_COUNT:
    break;
  }
  return false;
}

WeirCaveats
weir_caveats (const Weir *weir, double head_m)
{
  bool has_approach = weir->formula == WEIR_KINDSVATER_CARTER || weir->formula == WEIR_REHBOCK;
  unsigned caveats = WEIR_CAVEAT_NONE;

  if (head_m < tested_head_m)
    caveats |= WEIR_CAVEAT_LOW_HEAD;
  if (head_m < CREST_STILL_HEAD_M)
    caveats |= WEIR_CAVEAT_STILL;
  if (weir->crest_length_m < tested_length_m)
    caveats |= WEIR_CAVEAT_SHORT_CREST;
  if (has_approach && weir->crest_height_m < tested_height_m)
    caveats |= WEIR_CAVEAT_SHALLOW_APPROACH;
  if (is_high_head (weir, head_m))
    caveats |= WEIR_CAVEAT_HIGH_HEAD;
  return (WeirCaveats) caveats;
}

HydraulicsStatus
weir_head_band (double head_m, double *ret_low_m, double *ret_high_m)
{
  if (!argument_is_not_negative (head_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  double doubt = fmin (fmax (2.0 - head_m / tested_head_m, 0.0), 1.0);

  *ret_low_m = head_m * (1.0 - (0.02 + 0.08 * doubt));
  *ret_high_m = head_m * (1.0 + (0.02 + 0.16 * doubt));
  return HYDRAULICS_OK;
}

HydraulicsStatus
weir_submergence_ratio (double head_m, double head_below_m, double exponent, double *ret_ratio)
{
  if (!argument_is_positive (head_m) || !argument_is_not_negative (head_below_m) ||
      !argument_is_positive (exponent))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (head_below_m > head_m)
    return HYDRAULICS_OUT_OF_RANGE;
  return answer_if_finite (pow (1.0 - pow (head_below_m / head_m, exponent), 0.385), ret_ratio);
}

HydraulicsStatus
weir_opening_count (const Weir *weir, int *ret_count)
{
  if (weir->formula != WEIR_COMB || !is_well_formed (weir))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_count = opening_count (weir);
  return HYDRAULICS_OK;
}

/* Mean of h^1.5 along a crest of unit length whose ends lie rise/2 above and below its middle. */
static HydraulicsStatus
tilted_mean (double head_m, const void *data, double *ret_mean)
{
  double rise_m = *(const double *) data;
  double deep_m = fmax (head_m + 0.5 * rise_m, 0.0);
  double shallow_m = fmax (head_m - 0.5 * rise_m, 0.0);

  return answer_if_finite (
      0.4 * (deep_m * deep_m * sqrt (deep_m) - shallow_m * shallow_m * sqrt (shallow_m)) / rise_m, ret_mean);
}

HydraulicsStatus
weir_tilted_head (double head_m, double rise_m, double *ret_head_m)
{
  if (!argument_is_not_negative (head_m) || !argument_is_not_negative (rise_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (rise_m <= 0.01 * head_m) {
    /* The difference above would lose digits; the next term of the series is below 1e-11 of the head. */
    double slope = head_m > 0.0 ? rise_m / head_m : 0.0;
    return answer_if_finite (head_m * pow (1.0 + slope * slope / 32.0, -2.0 / 3.0), ret_head_m);
  }
  return bracket_invert (tilted_mean, &rise_m, power_1_5 (head_m), -0.5 * rise_m, head_m, ret_head_m);
}
