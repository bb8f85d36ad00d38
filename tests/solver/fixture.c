/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/solver/fixture.h"

#include <glib.h>

#include "design/catalogue.h"

typedef struct {
  PartKind kind;
  const char *key, *owner;
} FixturePart;

typedef struct {
  const char *key;
  FieldId field;
  double value;
} FixtureValue;

Catalogue *
fixture_catalogue (void)
{
  /* Average bores of ASTM D1785 schedule 40 pipe: outside less two minimum walls. */
  static const PipeSize pipes[] = {
      {"sch40-1/2", "1/2", "ASTM D1785", 0.01580, 0.02134, 0.5, 0.017, false},
      {"sch40-3/4", "3/4", "ASTM D1785", 0.02093, 0.02667, 0.75, 0.018, false},
      {"sch40-1", "1", "ASTM D1785", 0.02664, 0.03340, 1, 0.022, false},
      {"sch40-1-1/4", "1-1/4", "ASTM D1785", 0.03504, 0.04216, 1.25, 0.024, false},
      {"sch40-1-1/2", "1-1/2", "ASTM D1785", 0.04090, 0.04826, 1.5, 0.028, false},
      {"sch40-2", "2", "ASTM D1785", 0.05250, 0.06033, 2, 0.029, false},
      {"hose-25", "25", "", 0.02500, 0.03100, 1, 0.03, true}};
  static const FittingType fittings[] = {
      {"union", "Union", FITTING_CLASS_UNION, 0.08, 0, 0.04},
      {"gate-valve", "Gate valve", FITTING_CLASS_GATE_VALVE, 0, 0, 0.06},
      {"ball-valve", "Ball valve", FITTING_CLASS_BALL_VALVE, 0, 0, 0.06},
      {"check-valve", "Check valve", FITTING_CLASS_CHECK_VALVE, 2.5, 0.05, 0.06}};
  Catalogue *catalogue = catalogue_new ();

  for (unsigned i = 0; i < G_N_ELEMENTS (pipes); i++)
    g_assert_true (catalogue_add_pipe (catalogue, &pipes[i]));
  for (unsigned i = 0; i < G_N_ELEMENTS (fittings); i++)
    g_assert_true (catalogue_add_fitting (catalogue, &fittings[i]));
  return catalogue;
}

static Draft *
draft_of (const FixturePart *parts, unsigned n)
{
  Draft *draft = draft_new (NULL);

  for (unsigned i = 0; i < n; i++)
    must_add (draft, parts[i].kind, parts[i].key, NULL, parts[i].owner);
  return draft;
}

Draft *
fixture_bare_draft (void)
{
  static const FixturePart parts[] = {{PART_JOB, "job", NULL},
                                      {PART_ROOM, "room", NULL},
                                      {PART_STAND, "stand", NULL},
                                      {PART_TANK, "display", NULL},
                                      {PART_OVERFLOW, "overflow", "display"},
                                      {PART_DRAIN, "drain", "overflow"},
                                      {PART_SUMP, "sump", NULL},
                                      {PART_CHAMBER, "inlet", "sump"},
                                      {PART_CHAMBER, "pumping", "sump"},
                                      {PART_BAFFLE, "baffle", "sump"},
                                      {PART_DEVICE, "heater", "pumping"},
                                      {PART_PUMP, "return-pump", "pumping"},
                                      {PART_OUTLET, "outlet", "display"},
                                      {PART_RETURN, "return", "return-pump"},
                                      {PART_RESERVOIR, "reservoir", NULL}};
  Draft *draft = draft_of (parts, G_N_ELEMENTS (parts));

  must_set_text (draft, "return", FIELD_RETURN_TO, "outlet");
  return draft;
}

static const FixturePart sound_parts[] = {{PART_JOB, "job", NULL},
                                          {PART_ROOM, "room", NULL},
                                          {PART_STAND, "stand", NULL},
                                          {PART_TANK, "display", NULL},
                                          {PART_OVERFLOW, "overflow", "display"},
                                          {PART_DRAIN, "siphon", "overflow"},
                                          {PART_DRAIN, "trickle", "overflow"},
                                          {PART_DRAIN, "emergency", "overflow"},
                                          {PART_SUMP, "sump", NULL},
                                          {PART_CHAMBER, "inlet", "sump"},
                                          {PART_CHAMBER, "trap", "sump"},
                                          {PART_CHAMBER, "pumping", "sump"},
                                          {PART_BAFFLE, "over", "sump"},
                                          {PART_BAFFLE, "under", "sump"},
                                          {PART_DEVICE, "skimmer", "inlet"},
                                          {PART_DEVICE, "heater", "inlet"},
                                          {PART_PUMP, "return-pump", "pumping"},
                                          {PART_OUTLET, "outlet", "display"},
                                          {PART_RETURN, "return", "return-pump"},
                                          {PART_CORNER, "corner-1", "return"},
                                          {PART_CORNER, "corner-2", "return"},
                                          {PART_FITTING, "return-union", "return"},
                                          {PART_FITTING, "siphon-valve", "siphon"},
                                          {PART_RESERVOIR, "reservoir", NULL}};

static const FixtureValue sound_values[] = {{"stand", FIELD_STAND_LENGTH, 1.45},
                                            {"stand", FIELD_STAND_WIDTH, 0.55},
                                            {"stand", FIELD_STAND_HEIGHT, 0.80},
                                            {"display", FIELD_TANK_LENGTH, 1.5},
                                            {"display", FIELD_TANK_WIDTH, 0.6},
                                            {"display", FIELD_TANK_HEIGHT, 0.6},
                                            {"display", FIELD_TANK_GLASS, 0.012},
                                            {"display", FIELD_TANK_BOTTOM_PANE, PANE_ANNEALED},
                                            {"overflow", FIELD_OVERFLOW_CREST, 0.545},
                                            {"overflow", FIELD_OVERFLOW_BOX_LENGTH, 0.5},
                                            {"overflow", FIELD_OVERFLOW_BOX_DEPTH, 0.3},
                                            {"siphon", FIELD_DRAIN_ROLE, DRAIN_SIPHON},
                                            {"siphon", FIELD_DRAIN_MOUTH, 0.39},
                                            {"trickle", FIELD_DRAIN_ROLE, DRAIN_TRICKLE},
                                            {"emergency", FIELD_DRAIN_ROLE, DRAIN_EMERGENCY},
                                            {"emergency", FIELD_DRAIN_MOUTH, 0.526},
                                            {"sump", FIELD_SUMP_LENGTH, 1.05},
                                            {"sump", FIELD_SUMP_WIDTH, 0.45},
                                            {"sump", FIELD_SUMP_HEIGHT, 0.42},
                                            {"inlet", FIELD_CHAMBER_ROLE, CHAMBER_INLET},
                                            {"trap", FIELD_CHAMBER_ROLE, CHAMBER_TRAP},
                                            {"pumping", FIELD_CHAMBER_ROLE, CHAMBER_RETURN},
                                            {"pumping", FIELD_CHAMBER_LEVEL, 0.171},
                                            {"over", FIELD_BAFFLE_X, 0.70},
                                            {"over", FIELD_BAFFLE_HEIGHT, 0.215},
                                            {"under", FIELD_BAFFLE_KIND, BAFFLE_UNDER},
                                            {"under", FIELD_BAFFLE_X, 0.756},
                                            {"under", FIELD_BAFFLE_HEIGHT, 0.30},
                                            {"skimmer", FIELD_DEVICE_KIND, DEVICE_SKIMMER},
                                            {"skimmer", FIELD_DEVICE_X, 0.3},
                                            {"skimmer", FIELD_DEVICE_STANDS, 0.0215},
                                            {"skimmer", FIELD_DEVICE_HEIGHT, 0.45},
                                            {"heater", FIELD_DEVICE_KIND, DEVICE_HEATER},
                                            {"heater", FIELD_DEVICE_HEIGHT, 0.24},
                                            {"heater", FIELD_DEVICE_WATTS, 300},
                                            {"return-pump", FIELD_PUMP_SPEED, 0.79},
                                            {"outlet", FIELD_OUTLET_BORE, 0.02},
                                            {"corner-1", FIELD_CORNER_Z, 1.55},
                                            {"corner-2", FIELD_CORNER_X, 0.2},
                                            {"reservoir", FIELD_RESERVOIR_LENGTH, 0.30},
                                            {"reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_RUN_TIME}};

Draft *
fixture_draft (void)
{
  Draft *draft = draft_of (sound_parts, G_N_ELEMENTS (sound_parts));

  for (unsigned i = 0; i < G_N_ELEMENTS (sound_values); i++)
    must_set (draft, sound_values[i].key, sound_values[i].field, sound_values[i].value);
  must_set_text (draft, "return", FIELD_RETURN_TO, "outlet");
  must_set_text (draft, "trickle", FIELD_DRAIN_SIZE, "sch40-1");
  must_set_text (draft, "siphon-valve", FIELD_FITTING_TYPE, "gate-valve");
  must_set (draft, "siphon-valve", FIELD_FITTING_STATION, 0.95);
  return draft;
}

void
fixture_add_fed_device (Draft *draft)
{
  must_add (draft, PART_DEVICE, "reactor", NULL, "inlet");
  must_add (draft, PART_TEE, "tee-down", NULL, NULL);
  must_add (draft, PART_RETURN, "up", NULL, "tee-down");
  must_add (draft, PART_RETURN, "down", NULL, "tee-down");
  must_add (draft, PART_FITTING, "down-valve", NULL, "down");
  must_set (draft, "reactor", FIELD_DEVICE_KIND, DEVICE_REACTOR);
  must_set_text (draft, "return", FIELD_RETURN_TO, "tee-down");
  must_set_text (draft, "up", FIELD_RETURN_TO, "outlet");
  must_set_text (draft, "down", FIELD_RETURN_TO, "reactor");
  must_set_text (draft, "down", FIELD_RETURN_SIZE, "sch40-1/2");
  must_set_text (draft, "down-valve", FIELD_FITTING_TYPE, "gate-valve");
  must_set (draft, "down-valve", FIELD_FITTING_OPENING, 0.3);
}

/* A second box with a standpipe beside the first: both take their share at one display level. */
void
fixture_add_second_overflow (Draft *draft)
{
  must_add (draft, PART_OVERFLOW, "second-overflow", NULL, "display");
  must_set (draft, "second-overflow", FIELD_OVERFLOW_CREST, 0.548);
  must_set (draft, "second-overflow", FIELD_OVERFLOW_BOX_LENGTH, 0.2);
  must_set (draft, "second-overflow", FIELD_OVERFLOW_X, 0.05);
  must_add (draft, PART_DRAIN, "second-drain", NULL, "second-overflow");
}

/* A second tank on the same sump, fed by a pump of its own. */
void
fixture_add_second_tank (Draft *draft)
{
  must_add (draft, PART_TANK, "second-tank", NULL, NULL);
  must_set (draft, "second-tank", FIELD_TANK_LENGTH, 0.6);
  must_add (draft, PART_OVERFLOW, "second-overflow", NULL, "second-tank");
  must_add (draft, PART_DRAIN, "second-drain", NULL, "second-overflow");
  must_add (draft, PART_PUMP, "second-pump", NULL, "pumping");
  must_set (draft, "second-pump", FIELD_PUMP_SPEED, 0.7);
  must_add (draft, PART_OUTLET, "second-outlet", NULL, "second-tank");
  must_add (draft, PART_RETURN, "second-return", NULL, "second-pump");
  must_set_text (draft, "second-return", FIELD_RETURN_TO, "second-outlet");
}

Design *
fixture_commit (Draft *draft)
{
  Problem problem = {0};
  Design *design = draft_commit (draft, &problem);

  if (design == NULL)
    g_error ("%s: %s", problem.part, problem_text (problem.code));
  draft_free (draft);
  return design;
}

Evaluation *
fixture_evaluate_traced (Draft *draft, Trace *trace)
{
  g_autoptr (Design) design = fixture_commit (draft);
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  Evaluation *evaluation = evaluation_new ();
  SystemStatus status;
  int part;

  if (!evaluate_design (design, catalogue, trace, evaluation, &status, &part))
    g_error ("%s: %s", part >= 0 ? part_key (design_part (design, (unsigned) part)) : "-",
             system_status_text (status));
  return evaluation;
}

System *
fixture_compile (Draft *draft)
{
  g_autoptr (Design) design = fixture_commit (draft);
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  System *system = system_compile (design, catalogue, NULL, NULL);

  g_assert_nonnull (system);
  return system;
}

Evaluation *
fixture_evaluate (Draft *draft)
{
  return fixture_evaluate_traced (draft, NULL);
}

int
fixture_part (const char *key)
{
  g_autoptr (Design) design = fixture_commit (fixture_draft ());

  return design_index (design, key);
}

void
fixture_show (const Evaluation *evaluation)
{
  for (unsigned i = 0; i < evaluation->n_findings; i++) {
    const Finding *finding = &evaluation->findings[i];

    g_test_message ("%s %s part %d value %g limit %g margin %g [%g %g]", grade_word (finding->grade),
                    check_word (finding->check), finding->part, finding->value, finding->limit,
                    finding->margin, finding->lower, finding->upper);
  }
}
