/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include "hydraulics/fitting.h"

static HydraulicsStatus
turbulent_friction_factor (Given *given, double *ret_got)
{
  return fitting_turbulent_friction_by_nominal (given_number (given, "nominal"), ret_got);
}

static HydraulicsStatus
fitting_k_of_kind (Given *given, double *ret_got)
{
  FittingKind kind;
  HydraulicsStatus status = fitting_kind_from_key (given_word (given, "kind"), &kind);

  if (status != HYDRAULICS_OK) {
    given_complain (given, "key \"kind\": unknown word \"%s\"", given_word (given, "kind"));
    return status;
  }
  return fitting_k_by_nominal (kind, given_number_or (given, "nominal", 1.0),
                               given_number_or (given, "radius_to_diameter", 0.0), ret_got);
}

static HydraulicsStatus
sudden_expansion_k (Given *given, double *ret_got)
{
  return fitting_expansion_k (given_number (given, "d1_m"), given_number (given, "d2_m"), ret_got);
}

static HydraulicsStatus
sudden_contraction_k (Given *given, double *ret_got)
{
  return fitting_contraction_k (given_number (given, "d1_m"), given_number (given, "d2_m"), ret_got);
}

static HydraulicsStatus
reducer_k (Given *given, double *ret_got)
{
  return fitting_reducer_k (given_number (given, "from_m"), given_number (given, "to_m"),
                            given_number (given, "angle_deg"), ret_got);
}

static HydraulicsStatus
orifice_k (Given *given, double *ret_got)
{
  return fitting_orifice_k (given_number (given, "orifice_diameter_m"),
                            given_number (given, "inside_diameter_m"),
                            given_number (given, "discharge_coefficient"), ret_got);
}

static HydraulicsStatus
rounded_entrance_k (Given *given, double *ret_got)
{
  return fitting_rounded_entrance_k (given_number (given, "radius_m"),
                                     given_number (given, "inside_diameter_m"), ret_got);
}

static HydraulicsStatus
tee (Given *given, TeeFlow flow, TeeLoss *ret_loss)
{
  return tee_k (flow, given_number (given, "run_diameter_m"), given_number (given, "branch_diameter_m"),
                given_number (given, "run_flow_m3_per_s"), given_number (given, "branch_flow_m3_per_s"),
                given_number_or (given, "angle_deg", 90.0), ret_loss);
}

static HydraulicsStatus
tee_run (Given *given, TeeFlow flow, double *ret_got)
{
  TeeLoss loss;
  HydraulicsStatus status = tee (given, flow, &loss);

  if (status == HYDRAULICS_OK)
    *ret_got = loss.run_k;
  return status;
}

static HydraulicsStatus
tee_branch (Given *given, TeeFlow flow, double *ret_got)
{
  TeeLoss loss;
  HydraulicsStatus status = tee (given, flow, &loss);

  if (status == HYDRAULICS_OK)
    *ret_got = loss.branch_k;
  return status;
}

static HydraulicsStatus
tee_diverging_branch_k (Given *given, double *ret_got)
{
  return tee_branch (given, TEE_DIVERGING, ret_got);
}

static HydraulicsStatus
tee_diverging_run_k (Given *given, double *ret_got)
{
  return tee_run (given, TEE_DIVERGING, ret_got);
}

static HydraulicsStatus
tee_converging_branch_k (Given *given, double *ret_got)
{
  return tee_branch (given, TEE_CONVERGING, ret_got);
}

static HydraulicsStatus
tee_converging_run_k (Given *given, double *ret_got)
{
  return tee_run (given, TEE_CONVERGING, ret_got);
}

static HydraulicsStatus
valve_k_at_opening (Given *given, double *ret_got)
{
  static const char *const words[] = {"plug-cock", "butterfly-valve"};
  static const ValveKind kinds[] = {VALVE_BALL, VALVE_BUTTERFLY};

  return valve_k_at_angle (kinds[given_choice (given, "kind", words, G_N_ELEMENTS (words))],
                           given_number (given, "closing_angle_deg"), ret_got);
}

const Handler fitting_handlers[] = {
    {"turbulent_friction_factor", turbulent_friction_factor},
    {"fitting_k", fitting_k_of_kind},
    {"sudden_expansion_k", sudden_expansion_k},
    {"sudden_contraction_k", sudden_contraction_k},
    {"reducer_k", reducer_k},
    {"orifice_k", orifice_k},
    {"rounded_entrance_k", rounded_entrance_k},
    {"tee_diverging_branch_k", tee_diverging_branch_k},
    {"tee_diverging_run_k", tee_diverging_run_k},
    {"tee_converging_branch_k", tee_converging_branch_k},
    {"tee_converging_run_k", tee_converging_run_k},
    {"valve_k_at_opening", valve_k_at_opening},
    {NULL, NULL},
};
