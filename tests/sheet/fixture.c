/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/design/must.h"
#include "tests/sheet/fixture.h"

#include "design/choices.h"
#include "design/edit.h"
#include "solver/system.h"

/* One of each check, and some more. */
#define FINDINGS (N_CHECKS + 20)

Catalogue *
sheet_fixture_catalogue (void)
{
  Catalogue *catalogue = catalogue_new ();
  const PipeSize pipes[] = {
      {"sch40-1", "1\" schedule 40", "ASTM D1785", 0.0266446, 0.033401, 1, 0.022225, false},
      {"sch40-1-1/2", "1 1/2\" schedule 40", "ASTM D1785", 0.040894, 0.04826, 1.5, 0.0277876, false},
      {"metric-50", "50 mm PVC-U SDR 13.6", "EN ISO 1452-2", 0.0426, 0.05, 1.5, 0.031, false},
      {"hose-25", "Hose, 25 mm", "", 0.025, 0.031, 1, 0, true}};
  const FittingType fittings[] = {
      {"union", "Union", FITTING_CLASS_UNION, 0.08, 0, 0.06},
      {"gate-valve", "Gate valve", FITTING_CLASS_GATE_VALVE, 0, 0, 0.07},
      {"ball-valve", "Ball valve with unions", FITTING_CLASS_BALL_VALVE, 0, 0, 0.09},
      {"check-valve", "Swing check valve", FITTING_CLASS_CHECK_VALVE, 2.5, 0.05, 0.1}};

  for (unsigned i = 0; i < G_N_ELEMENTS (pipes); i++)
    g_assert_true (catalogue_add_pipe (catalogue, &pipes[i]));
  for (unsigned i = 0; i < G_N_ELEMENTS (fittings); i++)
    g_assert_true (catalogue_add_fitting (catalogue, &fittings[i]));
  return catalogue;
}

static void
add_job (Draft *draft, bool us)
{
  must_add (draft, PART_JOB, "job", NULL, NULL);
  must_add (draft, PART_ROOM, "room", NULL, NULL);
  must_set_text (draft, "job", FIELD_JOB_TITLE, "Reef in the reading room");
  must_set_text (draft, "job", FIELD_JOB_NUMBER, "RR-014");
  must_set_text (draft, "job", FIELD_JOB_OWNER, "Tideline Workshop");
  must_set_text (draft, "job", FIELD_JOB_CREATOR, "Bench 2");
  must_set (draft, "job", FIELD_JOB_UNITS, us ? UNITS_CHOICE_US : UNITS_CHOICE_METRIC);
}

static void
add_display (Draft *draft)
{
  must_add (draft, PART_STAND, "stand", NULL, NULL);
  must_set (draft, "stand", FIELD_STAND_LENGTH, 1.45);
  must_add (draft, PART_TANK, "tank", NULL, NULL);
  must_add (draft, PART_OVERFLOW, "overflow", NULL, "tank");
  must_set (draft, "overflow", FIELD_OVERFLOW_WEIR, WEIR_TOOTHED);
  must_set (draft, "overflow", FIELD_OVERFLOW_X, 0.02);
  must_set (draft, "overflow", FIELD_OVERFLOW_BOX_DEPTH, 0.5);
  must_add_drain (draft, "siphon", DRAIN_SIPHON, "sch40-1-1/2");
  must_add_drain (draft, "trickle", DRAIN_TRICKLE, "sch40-1");
  must_add_drain (draft, "emergency", DRAIN_EMERGENCY, "sch40-1-1/2");
  must_add_fitting (draft, "siphon-union", "siphon", "union", 0.7);
  must_add_fitting (draft, "siphon-valve", "siphon", "gate-valve", 0.85);
}

static void
add_sump (Draft *draft, unsigned chambers)
{
  static const ChamberRole roles[] = {CHAMBER_INLET, CHAMBER_SKIMMER, CHAMBER_TRAP};

  must_add (draft, PART_SUMP, "sump", NULL, NULL);
  for (unsigned i = 0; i < chambers; i++) {
    bool last = i + 1 == chambers;
    g_autofree char *chamber = last ? g_strdup ("pumping") : g_strdup_printf ("chamber-%u", i + 1);
    g_autofree char *baffle = g_strdup_printf ("baffle-%u", i + 1);

    must_add (draft, PART_CHAMBER, chamber, NULL, "sump");
    must_set (draft, chamber, FIELD_CHAMBER_ROLE,
              last ? CHAMBER_RETURN : roles[MIN (i, G_N_ELEMENTS (roles) - 1)]);
    if (last)
      break;
    must_add (draft, PART_BAFFLE, baffle, NULL, "sump");
    must_set (draft, baffle, FIELD_BAFFLE_KIND, i == 1 ? BAFFLE_UNDER : BAFFLE_OVER);
  }
  must_set (draft, "chamber-1", FIELD_CHAMBER_SOCKS, 1);
  must_set (draft, "baffle-2", FIELD_BAFFLE_SERVICE, SERVICE_LIFTED_OUT);
  must_add (draft, PART_DEVICE, "skimmer", "Skimmer", "chamber-2");
  must_set (draft, "skimmer", FIELD_DEVICE_KIND, DEVICE_SKIMMER);
  must_add (draft, PART_DEVICE, "heater", "Heater", "pumping");
  must_set (draft, "heater", FIELD_DEVICE_KIND, DEVICE_HEATER);
  must_add (draft, PART_RESERVOIR, "reservoir", NULL, NULL);
}

static void
add_return (Draft *draft)
{
  must_add (draft, PART_PUMP, "pump", "Pump A, 40 W", "pumping");
  must_add (draft, PART_TEE, "tee", NULL, NULL);
  must_set (draft, "tee", FIELD_TEE_Z, 1.55);
  must_add (draft, PART_OUTLET, "outlet-left", "Left outlet", "tank");
  must_add (draft, PART_OUTLET, "outlet-right", "Right outlet", "tank");
  must_set (draft, "outlet-left", FIELD_OUTLET_X, 0.85);
  must_set (draft, "outlet-right", FIELD_OUTLET_X, 1.35);
  must_add (draft, PART_RETURN, "riser", "Return riser", "pump");
  must_add (draft, PART_RETURN, "left", "Left branch", "tee");
  must_add (draft, PART_RETURN, "right", "Right branch", "tee");
  must_set_text (draft, "riser", FIELD_RETURN_TO, "tee");
  must_set_text (draft, "left", FIELD_RETURN_TO, "outlet-left");
  must_set_text (draft, "right", FIELD_RETURN_TO, "outlet-right");
  must_add (draft, PART_CORNER, "left-bend", NULL, "left");
  must_set (draft, "left-bend", FIELD_CORNER_X, 0.837);
  must_add (draft, PART_CORNER, "right-bend", NULL, "right");
  must_set (draft, "right-bend", FIELD_CORNER_X, 1.337);
  must_add_fitting (draft, "pump-union", "riser", "union", 0.12);
  must_add_fitting (draft, "return-check", "riser", "check-valve", 0.28);
  must_add_fitting (draft, "return-valve", "riser", "ball-valve", 0.45);
}

static Draft *
draft_of (bool us, unsigned chambers)
{
  Draft *draft = draft_new (NULL);

  add_job (draft, us);
  add_display (draft);
  add_sump (draft, chambers);
  add_return (draft);
  return draft;
}

static Design *
commit (Draft *draft)
{
  Problem problem;
  Design *design = draft_commit (draft, &problem);

  if (design == NULL)
    g_error ("%s.%s: %s", problem.part, problem.field < N_FIELDS ? field_info (problem.field)->name : "",
             problem_text (problem.code));
  return design;
}

Design *
sheet_fixture (bool us)
{
  g_autoptr (Draft) draft = draft_of (us, 4);

  return commit (draft);
}

Design *
sheet_fixture_huge (bool us)
{
  g_autoptr (Draft) draft = draft_of (us, part_kind_limit (PART_CHAMBER));

  for (unsigned i = 3; i < part_kind_limit (PART_DRAIN); i++) {
    g_autofree char *key = g_strdup_printf ("drain-%u", i + 1), *label = g_strdup_printf ("Drain %u", i + 1);

    must_add (draft, PART_DRAIN, key, label, "overflow");
    must_set_text (draft, key, FIELD_DRAIN_SIZE, "metric-50");
  }
  for (unsigned i = 2; i < part_kind_limit (PART_DEVICE); i++) {
    g_autofree char *key = g_strdup_printf ("device-%u", i + 1), *label = g_strdup_printf ("Probe %u", i + 1);

    must_add (draft, PART_DEVICE, key, label, i % 2 == 0 ? "chamber-1" : "pumping");
    must_set (draft, key, FIELD_DEVICE_KIND, DEVICE_PROBE);
  }
  return commit (draft);
}

Design *
sheet_fixture_three_tanks (bool us)
{
  g_autoptr (Design) one = sheet_fixture (us);
  char key[MAX_KEY_BYTES + 1] = "";
  g_autoptr (Design) two = edit_add_tank (one, "tank", EDIT_FEED_TEE, key, NULL);
  Design *three = edit_add_tank (two, "tank", EDIT_FEED_TEE, key, NULL);

  g_assert_cmpstr (key, ==, "tank-3");
  return three;
}

Design *
sheet_fixture_long_names (bool us)
{
  g_autoptr (Draft) draft = draft_of (us, 4);
  g_autoptr (GString) words = g_string_new (NULL);
  g_autofree char *word = g_strnfill (MAX_TEXT_BYTES, 'W');
  static const char *const keys[] = {"siphon", "sump",  "chamber-1",   "skimmer",
                                     "pump",   "riser", "outlet-left", "tank"};

  while (words->len + 10 < MAX_TEXT_BYTES)
    g_string_append (words, "saltwater ");
  for (unsigned i = 0; i < G_N_ELEMENTS (keys); i++)
    g_assert_true (draft_set_label (draft, keys[i], i % 2 == 0 ? words->str : word, NULL));
  must_set_text (draft, "job", FIELD_JOB_TITLE, words->str);
  must_set_text (draft, "job", FIELD_JOB_OWNER, word);
  must_set_text (draft, "job", FIELD_JOB_NUMBER, word);
  must_set_text (draft, "job", FIELD_JOB_REVISION, word);
  must_set_text (draft, "job", FIELD_JOB_CREATOR, words->str);
  return commit (draft);
}

Sheet *
sheet_fixture_lay_out (Design *design, bool us)
{
  g_autoptr (Catalogue) catalogue = sheet_fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  g_autoptr (Trace) trace = trace_new ();
  SystemStatus status;
  int part;
  NumberStyle style = us ? number_style_us () : number_style_metric ();

  if (!evaluate_design (design, catalogue, trace, evaluation, &status, &part))
    g_error ("%s: %s", part >= 0 ? part_key (design_part (design, (unsigned) part)) : "",
             system_status_text (status));
  return sheet_new (design, catalogue, evaluation, trace, &style, "2026-03-14");
}

Sheet *
sheet_fixture_lay_out_full (Design *design, bool us)
{
  g_autoptr (Catalogue) catalogue = sheet_fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  g_autoptr (Trace) trace = trace_new ();
  const double values[STEP_SYMBOLS_MAX] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10};
  NumberStyle style = us ? number_style_us () : number_style_metric ();
  const int n = (int) design_n_parts (design);

  for (unsigned i = 0; i < FINDINGS; i++)
    evaluation->findings[i] = (Finding){.check = (CheckId) (i % N_CHECKS),
                                        .grade = (Grade) (i / (FINDINGS / N_GRADES + 1)),
                                        .part = (int) i % n,
                                        .other_part = (int) (i + 1) % n,
                                        .quantity = check_quantity ((CheckId) (i % N_CHECKS)),
                                        .value = 0.01 * i,
                                        .limit = 0.5,
                                        .remedy = {.part = -1}};
  evaluation->n_findings = FINDINGS;
  for (unsigned i = 0; i < EVALUATION_LINES_MAX; i++)
    evaluation->drain_back.lines[i] =
        (BackLine){.kind = (BackKind) (i % N_BACK_KINDS), .part = (int) i % n, .m3 = 0.001};
  evaluation->drain_back.n_lines = EVALUATION_LINES_MAX;
  for (unsigned i = 0; i < 2 * N_STEPS; i++)
    trace_add (trace, (StepId) (i % N_STEPS), (Scenario) (i % N_SCENARIOS), (int) i % n, values);
  return sheet_new (design, catalogue, evaluation, trace, &style, "2026-03-14");
}
