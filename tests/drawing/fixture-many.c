/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The largest design that a drawing is to stay calm with: 3 tanks, 6 pumps, 200 parts. */
#include "design/choices.h"
#include "design/draft.h"
#include "tests/design/must.h"
#include "tests/drawing/fixture.h"

#define TANKS     3
#define PUMPS     6
#define ALL_PARTS 200

static void
add_fittings (Draft *draft, const char *run, unsigned n, double length)
{
  static const char *const types[] = {"union", "check-valve", "ball-valve", "gate-valve"};
  for (unsigned i = 0; i < n; i++) {
    const char *key = must_add (draft, PART_FITTING, NULL, NULL, run);
    must_set_text (draft, key, FIELD_FITTING_TYPE, types[i % G_N_ELEMENTS (types)]);
    must_set (draft, key, FIELD_FITTING_STATION, (i + 0.5) * length / n);
  }
}

static void
add_tank (Draft *draft, unsigned i)
{
  static const DrainRole roles[] = {DRAIN_SIPHON, DRAIN_TRICKLE, DRAIN_EMERGENCY};
  g_autofree char *key = g_strdup_printf ("tank-%u", i), *label = g_strdup_printf ("Tank %u", i + 1);
  g_autofree char *overflow = g_strdup_printf ("overflow-%u", i);
  must_add (draft, PART_TANK, key, label, NULL);
  must_set (draft, key, FIELD_TANK_LENGTH, 0.78);
  must_set (draft, key, FIELD_TANK_X, i * 0.8);
  must_add (draft, PART_OVERFLOW, overflow, NULL, key);
  must_set (draft, overflow, FIELD_OVERFLOW_BOX_LENGTH, 0.25);
  for (unsigned k = 0; k < G_N_ELEMENTS (roles); k++) {
    g_autofree char *drain = g_strdup_printf ("drain-%u-%u", i, k);
    must_add (draft, PART_DRAIN, drain, NULL, overflow);
    must_set (draft, drain, FIELD_DRAIN_ROLE, roles[k]);
    must_set_text (draft, drain, FIELD_DRAIN_SIZE, "sch40-1");
    add_fittings (draft, drain, 4, 0.9);
  }
}

static void
add_pump (Draft *draft, unsigned i)
{
  g_autofree char *pump = g_strdup_printf ("pump-%u", i), *run = g_strdup_printf ("return-%u", i);
  g_autofree char *outlet = g_strdup_printf ("outlet-%u", i), *tank = g_strdup_printf ("tank-%u", i / 2);
  double x = 0.8 * (i / 2) + 0.4 + 0.2 * (i % 2), level = 0.55 + 0.04 * i;
  must_add (draft, PART_PUMP, pump, NULL, "return");
  must_set (draft, pump, FIELD_PUMP_LENGTH, 0.08);
  must_set (draft, pump, FIELD_PUMP_X, 0.02 + 0.1 * i);
  must_add (draft, PART_OUTLET, outlet, NULL, tank);
  must_set (draft, outlet, FIELD_OUTLET_X, x - 0.8 * (i / 2));
  must_add (draft, PART_RETURN, run, NULL, pump);
  must_set_text (draft, run, FIELD_RETURN_TO, outlet);
  must_set_text (draft, run, FIELD_RETURN_SIZE, "sch40-1");
  must_set (draft, must_add (draft, PART_CORNER, NULL, NULL, run), FIELD_CORNER_Z, level);
  must_set (draft, must_add (draft, PART_CORNER, NULL, NULL, run), FIELD_CORNER_X, x);
  must_set (draft, must_add (draft, PART_CORNER, NULL, NULL, run), FIELD_CORNER_Z, 1.6);
  add_fittings (draft, run, 8, 1.6);
}

Design *
fixture_many (void)
{
  static const ChamberRole roles[] = {CHAMBER_INLET, CHAMBER_SKIMMER, CHAMBER_TRAP, CHAMBER_RETURN};
  static const char *const chambers[] = {"inlet", "skimming", "trap", "return"};
  Draft *draft = draft_new (NULL);
  unsigned n = 3 + TANKS * (2 + 3 * 5) + 1 + 4 + 3 + PUMPS * (3 + 3 + 8);
  must_add (draft, PART_JOB, "job", NULL, NULL);
  must_add (draft, PART_ROOM, "room", NULL, NULL);
  must_add (draft, PART_STAND, "stand", NULL, NULL);
  must_set (draft, "stand", FIELD_STAND_LENGTH, 2.4);
  for (unsigned i = 0; i < TANKS; i++)
    add_tank (draft, i);
  must_add (draft, PART_SUMP, "sump", NULL, NULL);
  must_set (draft, "sump", FIELD_SUMP_LENGTH, 2.2);
  for (unsigned i = 0; i < G_N_ELEMENTS (roles); i++) {
    must_add (draft, PART_CHAMBER, chambers[i], NULL, "sump");
    must_set (draft, chambers[i], FIELD_CHAMBER_ROLE, roles[i]);
    if (i < 3)
      must_set (draft, must_add (draft, PART_BAFFLE, NULL, NULL, "sump"), FIELD_BAFFLE_X, 0.5 * (i + 1));
  }
  for (unsigned i = 0; i < PUMPS; i++)
    add_pump (draft, i);
  for (unsigned i = 0; n < ALL_PARTS; i++, n++) {
    const char *key = must_add (draft, PART_DEVICE, NULL, NULL, chambers[i % 3]);
    must_set (draft, key, FIELD_DEVICE_LENGTH, 0.02);
    must_set (draft, key, FIELD_DEVICE_X, 0.02 + 0.028 * (i / 3));
    must_set (draft, key, FIELD_DEVICE_HEIGHT, 0.1 + 0.01 * i);
  }
  Problem problem;
  Design *design = draft_commit (draft, &problem);
  if (design == NULL)
    g_error ("%s.%s: %s", problem.part, problem.field < N_FIELDS ? field_info (problem.field)->name : "",
             problem_text (problem.code));
  draft_free (draft);
  g_assert_cmpuint (design_n_parts (design), ==, ALL_PARTS);
  return design;
}

Scene *
fixture_many_view (SceneProjection projection)
{
  g_autoptr (Design) design = fixture_many ();
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .projection = projection, .style = &style};
  return scene_build (design, catalogue, NULL, &options);
}
