/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The field table: every row is complete, and every default of a design in which nothing is given is in range. */
#include <math.h>
#include <string.h>

#include "tests/design/fixture.h"
#include "design/path.h"

static void
test_rows (void)
{
  for (FieldId id = 0; id < N_FIELDS; id++) {
    const FieldInfo *info = field_info (id);
    FieldId found;

    g_assert_cmpint (info->id, ==, id);
    g_assert_nonnull (info->name);
    g_assert_true (key_is_good (info->name));
    g_assert_cmpuint (strlen (info->label), >, 0);
    g_assert_true (g_str_has_suffix (info->help, "."));
    g_assert_true (field_find (info->kind, info->name, &found));
    g_assert_cmpint (found, ==, id);
    if (info->type == FIELD_NUMBER) {
      g_assert_true (isfinite (info->min) && isfinite (info->max) && info->min < info->max);
      g_assert_true (info->rule != NULL || (info->fallback >= info->min && info->fallback <= info->max));
      g_assert_cmpuint (strlen (info->basis), >, 0);
    }
    if (info->type == FIELD_CHOICE || info->type == FIELD_FLAG)
      g_assert_nonnull (info->choices);
    if (info->type == FIELD_REF)
      g_assert_true (info->refers_to != 0 && info->text_rule != NULL);
  }
}

static void
test_kinds (void)
{
  size_t total = 0;

  for (PartKind kind = 0; kind < N_PART_KINDS; kind++) {
    PartKind found;

    g_assert_true (part_kind_find (part_kind_word (kind), &found));
    g_assert_cmpint (found, ==, kind);
    g_assert_cmpuint (strlen (part_kind_name (kind)), >, 0);
    g_assert_cmpuint (part_kind_limit (kind), >, 0);
    g_assert_cmpuint (field_count (kind), >, 0);
    for (size_t i = 0; i < field_count (kind); i++)
      g_assert_cmpint (field_info (field_first (kind) + (FieldId) i)->kind, ==, kind);
    total += field_count (kind);
  }
  g_assert_cmpuint (total, ==, N_FIELDS);
}

/* A rule must come to an end, stay in range and need nothing that is given. */
static void
test_defaults (void)
{
  g_autoptr (Design) design = fixture_design ();

  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *part = design_part (design, i);
    const PartKind kind = part_kind (part);

    for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++) {
      const FieldInfo *info = field_info (id);

      g_assert_false (part_is_given (part, id));
      if (info->type == FIELD_NUMBER) {
        const double number = design_number (design, part, id);

        if (!(number >= info->min && number <= info->max))
          g_error ("%s.%s = %g", part_key (part), info->name, number);
      }
      if (info->rule != NULL && info->type == FIELD_NUMBER) {
        const double raw = info->rule (design, part);

        if (!(raw >= info->min && raw <= info->max))
          g_error ("the rule of %s.%s gives %g", part_key (part), info->name, raw);
      }
    }
  }
}

static void
test_paths (void)
{
  g_autoptr (Design) design = fixture_design ();

  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *part = design_part (design, i);
    const PartKind kind = part_kind (part);

    for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++) {
      g_autofree char *path = g_strdup_printf ("%s.%s", part_key (part), field_info (id)->name);
      g_autofree char *text = path_value_text (design, part, id);
      g_autoptr (Draft) draft = draft_new (design);
      g_autoptr (Design) changed = NULL;
      const Part *found = NULL;
      FieldId field = N_FIELDS;
      Problem problem = {0};

      g_assert_true (path_resolve (design, path, &found, &field, NULL));
      g_assert_true (found == part && field == id);
      if (text == NULL)
        continue;
      g_assert_true (path_set_text (draft, part_key (part), id, text, &problem));
      changed = draft_commit (draft, &problem);
      g_assert_nonnull (changed);
      g_autofree char *again = path_value_text (changed, design_find (changed, part_key (part)), id);
      g_assert_cmpstr (again, ==, text);
      g_assert_false (design_equal (design, changed));
    }
  }
}

static void
test_bad_paths (void)
{
  g_autoptr (Design) design = fixture_design ();
  const Part *part = NULL;
  FieldId field;
  Problem problem;

  g_assert_false (path_resolve (design, "nobody.length", &part, &field, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_UNKNOWN_PART);
  g_assert_false (path_resolve (design, "display.nothing", &part, &field, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_UNKNOWN_FIELD);
  g_assert_false (path_resolve (design, "display", &part, &field, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_UNKNOWN_FIELD);
  g_assert_false (path_resolve (design, "", &part, &field, &problem));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/field/rows", test_rows);
  g_test_add_func ("/field/kinds", test_kinds);
  g_test_add_func ("/field/defaults", test_defaults);
  g_test_add_func ("/field/paths", test_paths);
  g_test_add_func ("/field/bad-paths", test_bad_paths);
  return g_test_run ();
}
