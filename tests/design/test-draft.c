/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Drafts: what is refused and why, sharing of parts, and that any sequence of edits leaves a well-formed design. */
#include <math.h>

#include "design/choices.h"
#include "design/curve.h"
#include "tests/design/fixture.h"
#include "design/geometry.h"
#include "design/project.h"

static void
test_refusals (void)
{
  g_autoptr (Draft) draft = fixture_draft ();
  Problem problem;

#define REFUSED(call, expected)                                                                              \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    g_assert_false (call);                                                                                   \
    g_assert_cmpint (problem.code, ==, PROBLEM_##expected);                                                  \
  }                                                                                                          \
  G_STMT_END

  REFUSED (draft_set_number (draft, "display", FIELD_TANK_LENGTH, NAN, &problem), NOT_FINITE);
  REFUSED (draft_set_number (draft, "display", FIELD_TANK_LENGTH, INFINITY, &problem), NOT_FINITE);
  REFUSED (draft_set_number (draft, "display", FIELD_TANK_LENGTH, -1, &problem), TOO_SMALL);
  g_assert_cmpstr (problem.part, ==, "display");
  g_assert_cmpint (problem.field, ==, FIELD_TANK_LENGTH);
  g_assert_cmpfloat (problem.value, ==, 0.2);
  REFUSED (draft_set_number (draft, "display", FIELD_TANK_LENGTH, 1e9, &problem), TOO_LARGE);
  REFUSED (draft_set_number (draft, "display", FIELD_PUMP_SPEED, 1, &problem), UNKNOWN_FIELD);
  REFUSED (draft_set_number (draft, "nobody", FIELD_PUMP_SPEED, 1, &problem), UNKNOWN_PART);
  REFUSED (draft_set_number (draft, "drain", FIELD_DRAIN_ROLE, 4, &problem), BAD_CHOICE);
  REFUSED (draft_set_number (draft, "drain", FIELD_DRAIN_ROLE, 0.5, &problem), BAD_CHOICE);
  REFUSED (draft_set_number (draft, "drain", FIELD_DRAIN_ROLE, NAN, &problem), BAD_CHOICE);
  REFUSED (draft_set_text (draft, "display", FIELD_TANK_LENGTH, "1", &problem), WRONG_TYPE);
  REFUSED (draft_set_number (draft, "drain", FIELD_DRAIN_SIZE, 1, &problem), WRONG_TYPE);
  REFUSED (draft_set_text (draft, "job", FIELD_JOB_TITLE, "a\nb", &problem), BAD_TEXT);
  REFUSED (draft_set_text (draft, "job", FIELD_JOB_TITLE, "\xff", &problem), BAD_TEXT);
  REFUSED (draft_set_text (draft, "return-pump", FIELD_PUMP_CURVE, "0:3 0:2", &problem), BAD_CURVE);
  REFUSED (draft_set_text (draft, "return-pump", FIELD_PUMP_CURVE, "0:nan 1:2", &problem), BAD_CURVE);
  REFUSED (draft_add (draft, PART_TANK, "display", NULL, NULL, NULL, &problem), DUPLICATE_KEY);
  REFUSED (draft_add (draft, PART_TANK, "Display", NULL, NULL, NULL, &problem), BAD_KEY);
  REFUSED (draft_add (draft, PART_TANK, "a--b", NULL, NULL, NULL, &problem), BAD_KEY);
  REFUSED (draft_add (draft, PART_TANK, "-a", NULL, NULL, NULL, &problem), BAD_KEY);
  REFUSED (draft_add (draft, PART_TANK, "a-", NULL, NULL, NULL, &problem), BAD_KEY);
  REFUSED (draft_add (draft, PART_TANK, "", NULL, NULL, NULL, &problem), BAD_KEY);
  REFUSED (draft_add (draft, PART_JOB, "job-2", NULL, NULL, NULL, &problem), TOO_MANY);
  REFUSED (draft_remove (draft, "nobody", &problem), UNKNOWN_PART);
#undef REFUSED
}

/* Each broken invariant is named at commit. */
static void
test_invariants (void)
{
  static const struct {
    PartKind kind;
    const char *owner;
    ProblemCode code;
  } additions[] = {{PART_CHAMBER, "sump", PROBLEM_CHAMBERS_AND_BAFFLES},
                   {PART_CHAMBER, "display", PROBLEM_BAD_OWNER},
                   {PART_CHAMBER, NULL, PROBLEM_BAD_OWNER},
                   {PART_TANK, "sump", PROBLEM_BAD_OWNER},
                   {PART_TEE, NULL, PROBLEM_RUN_LOOP}};
  static const struct {
    const char *key;
    FieldId field;
    double value;
    ProblemCode code;
  } numbers[] = {{"baffle", FIELD_BAFFLE_X, 19, PROBLEM_BAFFLE_ORDER},
                 {"display", FIELD_TANK_GLASS, 0.15, PROBLEM_NONE},
                 {"display", FIELD_TANK_RIM, 3, PROBLEM_TOO_LARGE},
                 {"display", FIELD_TANK_LENGTH, 0.2, PROBLEM_NONE},
                 {"overflow", FIELD_OVERFLOW_BOX_LENGTH, 15, PROBLEM_TOO_LARGE},
                 {"overflow", FIELD_OVERFLOW_BOX_DEPTH, 3.9, PROBLEM_TOO_LARGE}};
  Problem problem;

  for (unsigned i = 0; i < G_N_ELEMENTS (additions); i++) {
    g_autoptr (Draft) draft = fixture_draft ();

    g_assert_true (draft_add (draft, additions[i].kind, "extra", NULL, additions[i].owner, NULL, NULL));
    g_assert_null (draft_commit (draft, &problem));
    g_assert_cmpint (problem.code, ==, additions[i].code);
    g_assert_true (draft_remove (draft, "extra", NULL));
    g_autoptr (Design) mended = draft_commit (draft, &problem);
    g_assert_nonnull (mended);
  }
  for (unsigned i = 0; i < G_N_ELEMENTS (numbers); i++) {
    g_autoptr (Design) base = fixture_design ();
    g_autoptr (Design) changed =
        design_with_number (base, numbers[i].key, numbers[i].field, numbers[i].value, &problem);

    g_assert_cmpint (changed != NULL ? PROBLEM_NONE : problem.code, ==, numbers[i].code);
  }
}

/* Return runs must not close a ring, whatever the references say. */
static void
test_ring (void)
{
  g_autoptr (Draft) draft = fixture_draft ();
  Problem problem;

  draft_add (draft, PART_TEE, "tee-a", NULL, NULL, NULL, NULL);
  draft_add (draft, PART_TEE, "tee-b", NULL, NULL, NULL, NULL);
  draft_add (draft, PART_RETURN, "run-ab", NULL, "tee-a", NULL, NULL);
  draft_add (draft, PART_RETURN, "run-ba", NULL, "tee-b", NULL, NULL);
  g_assert_true (draft_set_text (draft, "run-ab", FIELD_RETURN_TO, "tee-b", NULL));
  g_assert_true (draft_set_text (draft, "run-ba", FIELD_RETURN_TO, "tee-a", NULL));
  g_assert_null (draft_commit (draft, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_RUN_LOOP);
}

static void
test_sharing (void)
{
  g_autoptr (Design) base = fixture_design ();
  g_autoptr (Design) longer = design_with_number (base, "display", FIELD_TANK_LENGTH, 2, NULL);
  g_autoptr (Design) back = design_without (longer, "display", FIELD_TANK_LENGTH, NULL);

  g_assert_cmpfloat (design_number (base, design_find (base, "display"), FIELD_TANK_LENGTH), ==, 1.5);
  g_assert_cmpfloat (design_number (longer, design_find (longer, "display"), FIELD_TANK_LENGTH), ==, 2);
  g_assert_true (design_find (base, "sump") == design_find (longer, "sump"));
  g_assert_false (design_equal (base, longer));
  g_assert_true (design_equal (base, back));
}

static void
test_remove (void)
{
  g_autoptr (Draft) draft = fixture_draft ();
  g_autoptr (Design) design = NULL;
  Problem problem;

  g_assert_true (draft_remove (draft, "return", NULL));
  g_assert_null (draft_commit (draft, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_MISSING_PART);
  g_assert_true (draft_add (draft, PART_RETURN, NULL, "Return", "return-pump", NULL, NULL));
  design = draft_commit (draft, &problem);
  g_assert_nonnull (design);
  g_assert_null (design_find (design, "return-corner-1"));
  g_assert_null (design_find (design, "return-union"));
  g_assert_cmpstr (part_label (design_find (design, "return")), ==, "Return");
}

static void
test_move (void)
{
  g_autoptr (Draft) draft = fixture_draft ();
  g_autoptr (Design) design = NULL;

  g_assert_true (draft_move (draft, "pumping", 0, NULL));
  design = draft_commit (draft, NULL);
  g_assert_cmpstr (part_key (design_nth (design, PART_CHAMBER, 0)), ==, "pumping");
  g_assert_cmpint (design_index (design, "inlet"), ==, design_index (design, "pumping") + 1);
}

static void
test_curve (void)
{
  g_autofree char *text = curve_canonical ("0:3.0|0.0008:2.20  0.0014:0.5");

  g_assert_cmpstr (text, ==, "0:3 0.0008:2.2 0.0014:0.5");
  g_assert_null (curve_canonical ("0:3"));
  g_assert_null (curve_canonical ("0:3 0.001:3.1"));
  g_assert_null (curve_canonical ("0:0 0.001:0"));
  g_assert_null (curve_canonical ("0:3:1 0.001:2"));
  g_assert_null (curve_canonical ("0:3 -0.001:2"));
  g_assert_null (curve_canonical ("1:1 1e999:0"));
}

/* Any sequence of random edits leaves a well-formed design or a refusal; the parts before an edit are untouched. */
static void
test_random_edits (void)
{
  g_autoptr (Design) design = fixture_design ();

  for (int i = 0; i < (g_test_slow () ? 300000 : 3000); i++) {
    const Part *part =
        design_part (design, (unsigned) g_test_rand_int_range (0, (int) design_n_parts (design)));
    const PartKind kind = part_kind (part);
    const FieldId field = field_first (kind) + (FieldId) g_test_rand_int_range (0, (int) field_count (kind));
    const FieldInfo *info = field_info (field);
    g_autoptr (Draft) draft = draft_new (design);
    Problem problem = {0};
    Design *changed;
    bool ok;

    if (info->type == FIELD_NUMBER)
      ok = draft_set_number (
          draft, part_key (part), field,
          info->min + g_test_rand_double () * g_test_rand_double () * (info->max - info->min), &problem);
    else if (info->type == FIELD_CHOICE || info->type == FIELD_FLAG)
      ok = draft_set_number (draft, part_key (part), field, g_test_rand_int_range (0, 3), &problem);
    else
      ok = draft_unset (draft, part_key (part), field, &problem);
    changed = ok ? draft_commit (draft, &problem) : NULL;
    if (changed == NULL) {
      g_assert_cmpint (problem.code, !=, PROBLEM_NONE);
      continue;
    }
    for (unsigned j = 0; j < design_n_parts (changed); j++) {
      const Box3 box = geometry_outside (changed, design_part (changed, j));

      g_assert_true (
          isfinite (box.origin.x + box.origin.y + box.origin.z + box.size.x + box.size.y + box.size.z));
    }
    design_unref (design);
    design = changed;
  }
}

static void
test_project (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Design) other = design_with_number (design, "return-pump", FIELD_PUMP_SPEED, 0.5, NULL);
  g_autoptr (Project) project = project_new (design, "As planned");
  g_autoptr (Project) two = project_with_option (project, NULL, "Slower", other);
  g_autoptr (Project) active = project_with_active (two, 1);
  g_autoptr (Project) changed = project_with_design (active, design);

  g_assert_cmpuint (project_n_options (project), ==, 1);
  g_assert_cmpuint (project_n_options (two), ==, 2);
  g_assert_cmpstr (project_option_key (two, 1), ==, "option-2");
  g_assert_true (project_active_design (active) == other);
  g_assert_true (project_active_design (changed) == design);
  g_assert_false (project_equal (active, changed));
  g_assert_null (project_with_option (two, "option-2", NULL, other));
  g_assert_null (project_with_option (two, "Bad Key", NULL, other));
}

/* Every part is found by its key, and nothing else is, whatever the number of parts. */
static void
test_lookup (void)
{
  g_autoptr (Design) design = fixture_design ();

  for (unsigned added = 0; added < 60; added++) {
    g_autoptr (Draft) draft = draft_new (design);
    Design *next;

    for (unsigned i = 0; i < design_n_parts (design); i++) {
      const Part *part = design_part (design, i);
      g_autofree char *key = g_strdup (part_key (part)); /* found by what it says, not by where it lies */
      g_autofree char *unknown = g_strconcat (key, "-not", NULL);

      g_assert_cmpint (design_index (design, key), ==, (int) i);
      g_assert_true (design_find (design, key) == part);
      g_assert_cmpint (design_index (design, unknown), ==, -1);
    }
    g_assert_cmpint (design_index (design, NULL), ==, -1);
    g_assert_cmpint (design_index (design, ""), ==, -1);
    g_assert_true (draft_add (draft, PART_RESERVOIR, NULL, NULL, NULL, NULL, NULL) ||
                   draft_add (draft, PART_FITTING, NULL, NULL, "return", NULL, NULL));
    next = draft_commit (draft, NULL);
    g_assert_nonnull (next);
    design_unref (design);
    design = next;
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draft/refusals", test_refusals);
  g_test_add_func ("/draft/invariants", test_invariants);
  g_test_add_func ("/draft/ring", test_ring);
  g_test_add_func ("/draft/sharing", test_sharing);
  g_test_add_func ("/draft/lookup", test_lookup);
  g_test_add_func ("/draft/remove", test_remove);
  g_test_add_func ("/draft/move", test_move);
  g_test_add_func ("/draft/curve", test_curve);
  g_test_add_func ("/draft/random-edits", test_random_edits);
  g_test_add_func ("/draft/project", test_project);
  return g_test_run ();
}
