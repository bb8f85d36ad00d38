/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include "hydraulics/orifice.h"
#include "hydraulics/weir.h"

static const char *const crest_words[] = {"kindsvater_carter", "rehbock", "francis"};
static const WeirFormula crest_formulas[] = {WEIR_KINDSVATER_CARTER, WEIR_REHBOCK, WEIR_FRANCIS};

static Weir
sharp_crest (Given *given)
{
  Weir weir = {.formula =
                   crest_formulas[given_choice (given, "formula", crest_words, G_N_ELEMENTS (crest_words))]};

  weir.crest_length_m = given_number (given, "crest_length_m");
  if (weir.formula == WEIR_FRANCIS) {
    weir.end_contractions = (int) given_number_or (given, "end_contractions", 0.0);
  } else {
    weir.channel_width_m = given_number (given, "channel_width_m");
    weir.crest_height_m = given_number (given, "crest_height_m");
  }
  return weir;
}

static HydraulicsStatus
discharge (Given *given, double *ret_got)
{
  const Weir weir = sharp_crest (given);

  return weir_discharge (&weir, given_number (given, "head_m"), 0.0, ret_got);
}

static HydraulicsStatus
head (Given *given, double *ret_got)
{
  const Weir weir = sharp_crest (given);

  return weir_head (&weir, given_number (given, "flow_m3_per_s"), 0.0, ret_got);
}

static HydraulicsStatus
submerged_ratio (Given *given, double *ret_got)
{
  return weir_submergence_ratio (given_number (given, "upstream_head_m"),
                                 given_number (given, "downstream_head_m"), given_number (given, "exponent"),
                                 ret_got);
}

static HydraulicsStatus
broad_crest (Given *given, double *ret_got)
{
  const Weir weir = {.formula = WEIR_BROAD_CREST,
                     .crest_length_m = given_number (given, "crest_length_m"),
                     .discharge_coefficient = given_number (given, "cd")};

  return weir_discharge (&weir, given_number (given, "head_m"), 0.0, ret_got);
}

static HydraulicsStatus
orifice (Given *given, double *ret_got)
{
  return orifice_discharge (given_number (given, "cd"), given_number (given, "area_m2"),
                            given_number (given, "head_m"), ret_got);
}

static HydraulicsStatus
slot (Given *given, double *ret_got)
{
  return slot_discharge (given_number (given, "cd"), given_number (given, "width_m"),
                         given_number (given, "head_top_m"), given_number (given, "head_bottom_m"), ret_got);
}

static HydraulicsStatus
notch (Given *given, double *ret_got)
{
  static const char *const words[] = {"kindsvater_shen", "cone"};
  static const NotchFormula formulas[] = {NOTCH_KINDSVATER_SHEN, NOTCH_CONE};

  return notch_discharge (formulas[given_choice (given, "formula", words, G_N_ELEMENTS (words))],
                          given_number (given, "angle_deg"), given_number (given, "head_m"), ret_got);
}

const Handler weir_handlers[] = {
    {"broad_crest_discharge", broad_crest},
    {"orifice_discharge", orifice},
    {"slot_discharge", slot},
    {"submerged_weir_ratio", submerged_ratio},
    {"vnotch_discharge", notch},
    {"weir_discharge", discharge},
    {"weir_head", head},
    {NULL, NULL},
};
