/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Whatever a file or a slip of the hand puts in: a relation of weirs and drains answers with a finite number
 * that is not negative, or it says why not and leaves its output alone. Sizes from the smallest double to
 * the largest, at random. */

#include "hydraulics/drain.h"
#include "hydraulics/emptying.h"
#include "hydraulics/open_channel.h"
#include "hydraulics/orifice.h"
#include "hydraulics/quiet.h"
#include "hydraulics/siphon.h"
#include "hydraulics/weir.h"

#include <glib.h>
#include <math.h>

enum { N_DRAWS = 20000 };

static const double untouched = -7.0;

/* Mostly sizes of the trade, so that several of them together make sense often enough. */
static double
any (void)
{
  static const double absurd[] = {0.0,     1e-320, 1e-150, 1e-9, 1e9,     1e150,
                                  1.7e308, -1.0,   -1e300, NAN,  INFINITY};

  if (g_test_rand_int_range (0, 3) > 0)
    return pow (10.0, g_test_rand_double_range (-5.0, 2.0));
  return absurd[g_test_rand_int_range (0, G_N_ELEMENTS (absurd))];
}

static double
any_share (void)
{
  return g_test_rand_int_range (0, 5) > 0 ? g_test_rand_double () : any ();
}

static PipeRun
any_run (void)
{
  return (PipeRun){.length_m = any (), .bore_m = any (), .roughness_m = 1e-4 * any (), .k = any ()};
}

static Fluid
any_fluid (void)
{
  if (g_test_rand_bit ())
    return (Fluid){.density_kgm3 = 1000.0, .dynamic_viscosity_pas = 1e-3};
  return (Fluid){.density_kgm3 = any (), .dynamic_viscosity_pas = any ()};
}

static DrainPipe
any_drain (void)
{
  return (DrainPipe){any (), any (), any (), any_run (), any ()};
}

static Weir
any_weir (void)
{
  Weir weir = {.formula = (WeirFormula) g_test_rand_int_range (0, WEIR_FORMULA_COUNT + 1),
               .crest_length_m = any (),
               .channel_width_m = any (),
               .crest_height_m = any (),
               .end_contractions = g_test_rand_int_range (-1, 4),
               .discharge_coefficient = any (),
               .crest_thickness_m = any (),
               .gap_m = any (),
               .bar_m = any (),
               .opening_height_m = any (),
               .closed_above = g_test_rand_bit (),
               .covered_share = any_share ()};
  return weir;
}

static void
assert_sane (HydraulicsStatus status, double value, gboolean may_be_negative)
{
  gboolean answered = isfinite (value) && (may_be_negative || value >= 0.0);

  if (status == HYDRAULICS_OK)
    g_assert_true (answered);
  else if (status == HYDRAULICS_OUT_OF_RANGE)
    g_assert_true (answered || value == untouched);
  else
    g_assert_true (value == untouched && status != HYDRAULICS_NOT_CONVERGED);
}

/* Calls an expression that writes to &value, and looks at both. */
#define CHECK(call)                                                                                          \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    double value = untouched;                                                                                \
    HydraulicsStatus said = call;                                                                            \
    assert_sane (said, value, FALSE);                                                                        \
  }                                                                                                          \
  G_STMT_END

static void
test_weirs (void)
{
  for (int n = 0; n < N_DRAWS; n++) {
    const Weir weir = any_weir ();
    CHECK (weir_discharge (&weir, any (), any (), &value));
    CHECK (weir_head (&weir, any (), any (), &value));
    CHECK (weir_submergence_ratio (any (), any (), any (), &value));
    CHECK (orifice_discharge (any_share (), any (), any (), &value));
    CHECK (orifice_head (any_share (), any (), any (), &value));
    CHECK (slot_discharge (any_share (), any (), any (), any (), &value));
    CHECK (notch_discharge (g_test_rand_bit () ? NOTCH_CONE : NOTCH_KINDSVATER_SHEN, any (), any (), &value));
    CHECK (notch_head (NOTCH_KINDSVATER_SHEN, any (), any (), &value));
    double middle_m = untouched;
    HydraulicsStatus status = weir_tilted_head (any (), any (), &middle_m);
    assert_sane (status, middle_m, TRUE);
  }
}

static void
test_drains (void)
{
  for (int n = 0; n < N_DRAWS; n++) {
    const DrainBranch pair[] = {{.pipe = any_drain (), .primed = g_test_rand_bit ()}, {.pipe = any_drain ()}};
    const Fluid fluid = any_fluid ();
    bool primed = g_test_rand_bit ();
    double level_m = untouched;
    CHECK (drain_flow (&pair[0].pipe, &fluid, primed, any (), &value, NULL));
    HydraulicsStatus status = drain_level (&pair[0].pipe, &fluid, primed, any (), &level_m, NULL);
    assert_sane (status, level_m, TRUE);
    level_m = untouched;
    status = drain_branches_level (pair, G_N_ELEMENTS (pair), &fluid, any (), NAN, &level_m, NULL);
    assert_sane (status, level_m, TRUE);
    CHECK (drain_lip_flow (any (), any (), &value));
    CHECK (drain_lip_head (any (), any (), &value));
    CHECK (siphon_valve_coefficient (&pair[0].pipe, &fluid, any (), any (), &value));
    CHECK (siphon_mouth_cover (any (), any (), &value));
    CHECK (siphon_mouth_flow (any (), any (), &value));
    CHECK (quiet_stack_flow (any (), any_share (), &value));
    CHECK (quiet_self_venting_flow (any (), any (), QUIET_FROUDE_SUPERFICIAL, &value));
    CHECK (quiet_self_venting_diameter (any (), any (), &value));
  }
}

static void
test_sloped_pipes (void)
{
  for (int n = 0; n < N_DRAWS; n++) {
    const OpenChannel channel = {.bore_m = any (),
                                 .slope = any_share (),
                                 .law = g_test_rand_bit () ? OPEN_CHANNEL_MANNING : OPEN_CHANNEL_COLEBROOK,
                                 .manning_n = any (),
                                 .roughness_m = 1e-4 * any (),
                                 .kinematic_viscosity_m2s = 1e-4 * any ()};
    CHECK (open_channel_flow (&channel, any_share (), &value));
    CHECK (open_channel_velocity (&channel, any_share (), &value));
    CHECK (open_channel_depth (&channel, any (), &value));
    CHECK (open_channel_capacity (&channel, &value, NULL));
  }
}

static void
test_emptying (void)
{
  for (int n = 0; n < N_DRAWS; n++) {
    CHECK (emptying_time_orifice (any (), any (), any (), any (), &value));
    CHECK (emptying_time_orifice_inflow (any (), any (), any (), any (), any (), &value));
    CHECK (emptying_time_weir (any (), any (), any (), any (), any (), &value));
    CHECK (emptying_time_pipe (any (), any (), any (), any (), any (), any (), any (), &value));
    CHECK (emptying_time_two_tanks (any (), any (), any (), any (), any (), &value));
    if (n % 100 == 0) {
      const PipeRun run = any_run ();
      const Fluid fluid = any_fluid ();
      CHECK (emptying_time_pipe_colebrook (any (), &run, &fluid, any (), any (), &value));
    }
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/absurd/weirs", test_weirs);
  g_test_add_func ("/absurd/drains", test_drains);
  g_test_add_func ("/absurd/sloped-pipes", test_sloped_pipes);
  g_test_add_func ("/absurd/emptying", test_emptying);
  return g_test_run ();
}
