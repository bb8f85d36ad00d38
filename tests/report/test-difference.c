/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What differs between two designs is listed once, in both directions alike, and what it does is signed and judged. */
#include <math.h>
#include <string.h>

#include "design/edit.h"
#include "report/difference.h"
#include "tests/design/fixture.h"

static GPtrArray *
list (const Design *a, const Design *b)
{
  const NumberStyle style = number_style_metric ();
  g_autoptr (Catalogue) catalogue = catalogue_new ();

  return difference_list (a, b, catalogue, &style);
}

static const DifferenceRow *
nth (const GPtrArray *rows, guint n)
{
  g_assert_cmpuint (n, <, rows->len);
  return g_ptr_array_index (rows, n);
}

static void
test_fields (void)
{
  g_autoptr (Design) base = fixture_design ();
  g_autoptr (Design) given = design_with_number (base, "display", FIELD_TANK_LENGTH, 1.2, NULL);
  g_autoptr (Design) named = edit_rename (given, "return-pump", "North", NULL);
  g_autoptr (GPtrArray) same = list (base, base);
  g_autoptr (GPtrArray) rows = list (base, named);
  g_autoptr (GPtrArray) back = list (named, base);
  g_autofree char *none = difference_sentence (same);
  g_autofree char *two = difference_sentence (rows);

  g_assert_cmpuint (same->len, ==, 0);
  g_assert_cmpstr (none, ==, "The two designs are the same.");
  g_assert_cmpuint (rows->len, ==, 2);
  g_assert_cmpstr (two, ==, "2 values differ · 0 parts more · 0 parts fewer");
  g_assert_cmpstr (nth (rows, 0)->path, ==, "display.length");
  g_assert_nonnull (strstr (nth (rows, 0)->before, "(assumed)"));
  g_assert_null (strstr (nth (rows, 0)->after, "(assumed)"));
  g_assert_cmpstr (nth (rows, 1)->after, ==, "North");
  g_assert_cmpuint (back->len, ==, 2);
  g_assert_cmpstr (nth (back, 0)->before, ==, nth (rows, 0)->after);
}

/* A tank tells of what it brings; what its return needs stands for itself. A part in the one is missing in the other. */
static void
test_parts (void)
{
  g_autoptr (Design) base = fixture_design ();
  char tank[MAX_KEY_BYTES + 1];
  g_autoptr (Design) two = edit_add_tank (base, "display", EDIT_FEED_PUMP, tank, NULL);
  g_autoptr (GPtrArray) more = list (base, two);
  g_autoptr (GPtrArray) fewer = list (two, base);

  g_assert_cmpuint (more->len, ==, 2); /* tank and pump */
  g_assert_cmpstr (nth (more, 0)->path, ==, tank);
  for (guint i = 0; i < more->len; i++) {
    g_assert_cmpint (nth (more, i)->kind, ==, DIFFERENCE_ADDED);
    g_assert_cmpint (nth (fewer, i)->kind, ==, DIFFERENCE_REMOVED);
    g_assert_cmpstr (nth (fewer, i)->path, ==, nth (more, i)->path);
  }
}

static void
test_order (void)
{
  g_autoptr (Design) base = fixture_design ();
  g_autoptr (Draft) draft = draft_new (base);
  g_autoptr (Design) turned = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_true (draft_move (draft, "pumping", 0, NULL));
  turned = draft_commit (draft, NULL);
  rows = list (base, turned);
  g_assert_cmpuint (rows->len, ==, 1);
  g_assert_cmpstr (nth (rows, 0)->path, ==, "chamber");
  g_assert_cmpstr (nth (rows, 0)->before, !=, nth (rows, 0)->after);
}

static const DifferenceEffect *
effect (const GPtrArray *effects, const char *word)
{
  for (guint i = 0; i < effects->len; i++)
    if (g_str_equal (((const DifferenceEffect *) g_ptr_array_index (effects, i))->word, word))
      return g_ptr_array_index (effects, i);
  g_error ("no effect %s", word);
}

/* A smaller margin is worse, less power better, another flow neither; a change too small to be written is none. */
static void
test_effects (void)
{
  const NumberStyle style = number_style_metric ();
  g_autoptr (Evaluation) a = evaluation_new ();
  g_autoptr (Evaluation) b = evaluation_new ();
  g_autoptr (GPtrArray) effects = NULL;
  g_autoptr (GPtrArray) lost = NULL;

  a->totals = (Totals){.flow_m3s = 0.001, .flood_margin_m = 0.03, .pump_power_w = 40, .yearly_cost = 100};
  b->totals =
      (Totals){.flow_m3s = 0.0008, .flood_margin_m = 0.02, .pump_power_w = 30, .yearly_cost = 100.0001};
  effects = difference_effects (a, b, &style);
  lost = difference_effects (a, NULL, &style);
  g_assert_cmpint (effect (effects, "flow_m3_per_s")->sense, ==, EFFECT_NEUTRAL);
  g_assert_true (g_str_has_prefix (effect (effects, "flow_m3_per_s")->change, "\u2212"));
  g_assert_cmpint (effect (effects, "flood_margin_m")->sense, ==, EFFECT_WORSE);
  g_assert_cmpint (effect (effects, "pump_power_w")->sense, ==, EFFECT_BETTER);
  g_assert_cmpstr (effect (effects, "yearly_cost")->change, ==, "");
  g_assert_cmpint (effect (effects, "yearly_cost")->sense, ==, EFFECT_NEUTRAL);
  g_assert_true (isnan (effect (lost, "flow_m3_per_s")->after_si));
  g_assert_cmpstr (effect (lost, "flow_m3_per_s")->change, ==, "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/difference/fields", test_fields);
  g_test_add_func ("/difference/parts", test_parts);
  g_test_add_func ("/difference/order", test_order);
  g_test_add_func ("/difference/effects", test_effects);
  return g_test_run ();
}
