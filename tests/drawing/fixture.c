/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/design/must.h"
#include "tests/drawing/fixture.h"

#include <math.h>

#include "design/choices.h"
#include "design/draft.h"
#include "design/geometry.h"

Catalogue *
fixture_catalogue (void)
{
  Catalogue *catalogue = catalogue_new ();
  const PipeSize pipes[] = {
      {"sch40-1", "1\" schedule 40", "ASTM D1785", 0.02664, 0.0334, 1, 0.02858, false},
      {"sch40-1-1/2", "1 1/2\" schedule 40", "ASTM D1785", 0.04089, 0.04826, 1.5, 0.03493, false}};
  const FittingType fittings[] = {{"union", "Union", FITTING_CLASS_UNION, 0, 0, 0.06},
                                  {"gate-valve", "Gate valve", FITTING_CLASS_GATE_VALVE, 0, 0, 0.06},
                                  {"ball-valve", "Ball valve", FITTING_CLASS_BALL_VALVE, 0, 0, 0.07},
                                  {"check-valve", "Check valve", FITTING_CLASS_CHECK_VALVE, 2.5, 0.05, 0.08}};
  for (unsigned i = 0; i < G_N_ELEMENTS (pipes); i++)
    g_assert_true (catalogue_add_pipe (catalogue, &pipes[i]));
  for (unsigned i = 0; i < G_N_ELEMENTS (fittings); i++)
    g_assert_true (catalogue_add_fitting (catalogue, &fittings[i]));
  return catalogue;
}

static void
add_corner (Draft *draft, const char *key, const char *owner, FieldId field, double value)
{
  must_add (draft, PART_CORNER, key, NULL, owner);
  must_set (draft, key, field, value);
}

static void
add_sump (Draft *draft, double length)
{
  static const struct {
    const char *chamber, *baffle;
    ChamberRole role;
    double x;
    BaffleKind kind;
  } rows[] = {{"inlet", "baffle-1", CHAMBER_INLET, 0.29, BAFFLE_OVER},
              {"skimming", "baffle-2", CHAMBER_SKIMMER, 0.55, BAFFLE_UNDER},
              {"trap", "baffle-3", CHAMBER_TRAP, 0.68, BAFFLE_OVER},
              {"return", NULL, CHAMBER_RETURN, 0, BAFFLE_OVER}};
  double stand = MAX (0.2, 1.45 * length / 1.5),
         inside = MAX (0.15, stand - (length > 0.75 ? 0.23 : 0.12)) - 0.016;
  must_add (draft, PART_SUMP, "sump", NULL, NULL);
  must_set (draft, "sump", FIELD_SUMP_LENGTH, inside + 0.016);
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    must_add (draft, PART_CHAMBER, rows[i].chamber, NULL, "sump");
    must_set (draft, rows[i].chamber, FIELD_CHAMBER_ROLE, rows[i].role);
    if (rows[i].baffle == NULL)
      continue;
    must_add (draft, PART_BAFFLE, rows[i].baffle, NULL, "sump");
    must_set (draft, rows[i].baffle, FIELD_BAFFLE_X, rows[i].x * inside);
    must_set (draft, rows[i].baffle, FIELD_BAFFLE_KIND, rows[i].kind);
  }
  must_set (draft, "inlet", FIELD_CHAMBER_SOCKS, 1);
  must_set (draft, "baffle-2", FIELD_BAFFLE_SERVICE, SERVICE_LIFTED_OUT);
  must_add (draft, PART_DEVICE, "skimmer", "Skimmer", "skimming");
  must_set (draft, "skimmer", FIELD_DEVICE_KIND, DEVICE_SKIMMER);
  must_set (draft, "skimmer", FIELD_DEVICE_HEIGHT, MIN (0.48, 0.33 * length));
  must_set (draft, "skimmer", FIELD_DEVICE_LENGTH, MIN (0.2, 0.14 * length));
  must_add (draft, PART_DEVICE, "heater", "Heater", "return");
  must_set (draft, "heater", FIELD_DEVICE_KIND, DEVICE_HEATER);
  must_set (draft, "heater", FIELD_DEVICE_X, 0.03);
}

static void
add_return (Draft *draft, double length)
{
  double scale = length / 1.5, top = 0.14 + CLAMP (0.75 * scale, 0.2, 4) + CLAMP (0.4 * length, 0.15, 4);
  must_add (draft, PART_PUMP, "pump", "Pump A, 40 W", "return");
  must_add (draft, PART_TEE, "tee", NULL, NULL);
  must_add (draft, PART_OUTLET, "outlet-left", "Left outlet", "tank");
  must_add (draft, PART_OUTLET, "outlet-right", "Right outlet", "tank");
  must_set (draft, "outlet-left", FIELD_OUTLET_X, 0.56 * length);
  must_set (draft, "outlet-right", FIELD_OUTLET_X, 0.9 * length);
  must_add (draft, PART_RETURN, "riser", "Return riser", "pump");
  must_add (draft, PART_RETURN, "left", "Left branch", "tee");
  must_add (draft, PART_RETURN, "right", "Right branch", "tee");
  must_set_text (draft, "riser", FIELD_RETURN_TO, "tee");
  must_set_text (draft, "left", FIELD_RETURN_TO, "outlet-left");
  must_set_text (draft, "right", FIELD_RETURN_TO, "outlet-right");
  must_set (draft, "tee", FIELD_TEE_Z, top + 0.06);
  add_corner (draft, "left-bend", "left", FIELD_CORNER_X, 0.56 * length - 0.025 + MAX (0.006, 0.012 * scale));
  add_corner (draft, "right-bend", "right", FIELD_CORNER_X,
              0.9 * length - 0.025 + MAX (0.006, 0.012 * scale));
  must_add_fitting (draft, "pump-union", "riser", "union", 0.10 * length);
  must_add_fitting (draft, "return-check", "riser", "check-valve", 0.18 * length);
  must_add_fitting (draft, "return-valve", "riser", "ball-valve", 0.27 * length);
}

Design *
fixture_sized (double length)
{
  Draft *draft = draft_new (NULL);
  double scale = length / 1.5;
  must_add (draft, PART_JOB, "job", NULL, NULL);
  must_add (draft, PART_ROOM, "room", NULL, NULL);
  must_add (draft, PART_STAND, "stand", NULL, NULL);
  must_set (draft, "stand", FIELD_STAND_LENGTH, MAX (0.2, 1.45 * scale));
  must_set (draft, "stand", FIELD_STAND_HEIGHT, CLAMP (0.75 * scale, 0.2, 4));
  must_add (draft, PART_TANK, "tank", NULL, NULL);
  must_set (draft, "tank", FIELD_TANK_LENGTH, length);
  must_set (draft, "tank", FIELD_TANK_HEIGHT, CLAMP (0.4 * length, 0.15, 4));
  must_add (draft, PART_OVERFLOW, "overflow", NULL, "tank");
  must_set (draft, "overflow", FIELD_OVERFLOW_WEIR, WEIR_TOOTHED);
  must_set (draft, "overflow", FIELD_OVERFLOW_X, 0.02);
  must_set (draft, "overflow", FIELD_OVERFLOW_BOX_LENGTH, MAX (0.05, 0.3 * scale));
  must_set (draft, "overflow", FIELD_OVERFLOW_BOX_DEPTH, CLAMP (0.38 * length, 0.1, 3.5));
  must_add_drain (draft, "siphon", DRAIN_SIPHON, "sch40-1-1/2");
  must_add_drain (draft, "trickle", DRAIN_TRICKLE, "sch40-1");
  must_add_drain (draft, "emergency", DRAIN_EMERGENCY, "sch40-1-1/2");
  must_add_fitting (draft, "siphon-valve", "siphon", "gate-valve", 0.62 * length);
  add_sump (draft, length);
  add_return (draft, length);
  if (scale > 0.5) {
    must_add (draft, PART_RESERVOIR, "reservoir", NULL, NULL);
    must_set (draft, "reservoir", FIELD_RESERVOIR_LENGTH, 0.2);
  }
  Problem problem;
  Design *design = draft_commit (draft, &problem);
  if (design == NULL)
    g_error ("%s.%s: %s", problem.part, problem.field < N_FIELDS ? field_info (problem.field)->name : "",
             problem_text (problem.code));
  draft_free (draft);
  return design;
}

Design *
fixture_design (void)
{
  return fixture_sized (1.5);
}

static void
add_vessel (Evaluation *e, const Design *design, const char *key, VesselKind kind, double running_z,
            double off_z)
{
  VesselState *vessel = &e->vessels[e->n_vessels++];
  vessel->part = design_index (design, key);
  vessel->kind = kind;
  vessel->running_z = running_z;
  vessel->power_off_z = off_z;
}

static void
add_drain_state (Evaluation *e, const Design *design, const char *key, double flow, double bore,
                 DrainRegimeState regime)
{
  DrainState *drain = &e->drains[e->n_drains++];
  drain->part = design_index (design, key);
  drain->flow_m3s = flow;
  drain->bore_m = bore;
  drain->regime = regime;
  drain->quiet_m3s = 0.0003;
}

static void
add_run_state (Evaluation *e, const Design *design, const char *key, double flow, double velocity)
{
  RunState *run = &e->runs[e->n_runs++];
  run->part = design_index (design, key);
  run->flow_m3s = flow;
  run->velocity_ms = velocity;
}

static void
add_finding (Evaluation *e, const Design *design, const char *key, Grade grade)
{
  Finding *finding = &e->findings[e->n_findings++];
  finding->part = design_index (design, key);
  finding->grade = grade;
}

Evaluation *
fixture_evaluation (const Design *design)
{
  Evaluation *e = g_new0 (Evaluation, 1);
  Box3 sump = geometry_inside (design, design_find (design, "sump"));
  double crest = geometry_crest (design, design_find (design, "overflow"));
  double bottom = sump.origin.z, height = sump.size.z;
  add_vessel (e, design, "tank", VESSEL_TANK, crest + 0.014, crest + 0.001);
  add_vessel (e, design, "overflow", VESSEL_BOX_INNER, crest - 0.035, crest - 0.12);
  add_vessel (e, design, "inlet", VESSEL_CHAMBER, bottom + 0.62 * height, bottom + 0.83 * height);
  add_vessel (e, design, "skimming", VESSEL_CHAMBER, bottom + 0.615 * height, bottom + 0.83 * height);
  add_vessel (e, design, "trap", VESSEL_CHAMBER, bottom + 0.61 * height, bottom + 0.83 * height);
  add_vessel (e, design, "return", VESSEL_CHAMBER, bottom + 0.45 * height, bottom + 0.83 * height);
  add_drain_state (e, design, "siphon", 0.0008, 0.0409, DRAIN_STATE_FULL);
  add_drain_state (e, design, "trickle", 0.00003, 0.0266, DRAIN_STATE_LIP_WEIR);
  add_drain_state (e, design, "emergency", 0, 0.0409, DRAIN_STATE_DRY);
  add_run_state (e, design, "riser", 0.00083, 1.49);
  add_run_state (e, design, "left", 0.00041, 0.74);
  add_run_state (e, design, "right", 0.00042, 0.75);
  add_finding (e, design, "siphon", GRADE_STOP);
  add_finding (e, design, "skimmer", GRADE_CAUTION);
  add_finding (e, design, "siphon", GRADE_STOP);
  add_finding (e, design, "outlet-right", GRADE_CAUTION);
  add_finding (e, design, "tank", GRADE_NOTE);
  return e;
}

Scene *
fixture_view (SceneKind kind, SceneProjection projection, bool with_water)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autofree Evaluation *evaluation = with_water ? fixture_evaluation (design) : NULL;
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = kind, .projection = projection, .style = &style};
  return scene_build (design, catalogue, evaluation, &options);
}

Scene *
fixture_scene (SceneKind kind, bool with_water)
{
  return fixture_view (kind, PROJECTION_FRONT, with_water);
}
