/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Options: a variant, renamed, moved, removed; which one is active afterwards; and that the project before is as it was. */
#include "design/project.h"
#include "tests/design/fixture.h"

/* "option-1* option-2", the active one marked. */
static char *
spell (const Project *project)
{
  GString *text = g_string_new (NULL);

  for (unsigned i = 0; i < project_n_options (project); i++)
    g_string_append_printf (text, "%s%s%s", i > 0 ? " " : "", project_option_key (project, i),
                            i == project_active (project) ? "*" : "");
  return g_string_free (text, FALSE);
}

static Project *
three (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Project) one = project_new (design, "First");
  g_autoptr (Project) two = project_with_variant (one, "Second");

  return project_with_variant (two, NULL);
}

static void
check (Project *project, const char *expected)
{
  g_autoptr (Project) held = project;
  g_autofree char *text = spell (held);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_options (void)
{
  g_autoptr (Project) project = three ();
  g_autoptr (Project) same = project_ref (project);
  g_autoptr (Project) first = project_with_active (project, 0);
  g_autoptr (Project) named = project_with_label (project, 2, "Third");
  g_autoptr (Project) unnamed = project_with_label (named, 2, "");

  check (project_ref (project), "option-1 option-2 option-3*");
  check (project_without_option (project, 2), "option-1 option-2*");
  check (project_without_option (project, 0), "option-2 option-3*");
  check (project_without_option (first, 0), "option-2* option-3");
  check (project_with_place (project, 2, 0), "option-3* option-1 option-2");
  check (project_with_place (first, 1, 2), "option-1* option-3 option-2");
  check (project_with_place (first, 0, 2), "option-2 option-3 option-1*");
  g_assert_cmpstr (project_option_label (named, 2), ==, "Third");
  g_assert_true (project_equal (unnamed, project));
  g_assert_false (project_equal (named, project));
  g_assert_null (project_with_label (project, 0, "\x01"));
  g_assert_cmpint (project_find_option (project, "Second"), ==, 1);
  g_assert_cmpint (project_find_option (project, "option-3"), ==, 2);
  g_assert_cmpint (project_find_option (project, "nobody"), ==, -1);
  g_assert_true (project_equal (project, same));
}

static void
test_limits (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Project) one = project_new (design, NULL);
  Project *many = project_ref (one);

  g_assert_null (project_without_option (one, 0));
  for (unsigned i = 1; i < MAX_OPTIONS; i++) {
    Project *more = project_with_variant (many, NULL);

    g_assert_nonnull (more);
    project_unref (many);
    many = more;
  }
  g_assert_null (project_with_variant (many, NULL));
  project_unref (many);
}

/* A change of the active option leaves the design of the others the same value. */
static void
test_apart (void)
{
  g_autoptr (Project) project = three ();
  g_autoptr (Design) higher =
      design_with_number (project_active_design (project), "display", FIELD_TANK_HEIGHT, 0.7, NULL);
  g_autoptr (Project) changed = project_with_design (project, higher);

  g_assert_true (project_design (changed, 0) == project_design (project, 0));
  g_assert_false (design_equal (project_design (changed, 2), project_design (changed, 0)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/project/options", test_options);
  g_test_add_func ("/project/limits", test_limits);
  g_test_add_func ("/project/apart", test_apart);
  return g_test_run ();
}
