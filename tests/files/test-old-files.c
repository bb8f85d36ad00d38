/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Files that earlier states of the program wrote, kept as they were: each opens, keeps all its values when it is saved, and
 * is the same bytes when it is saved once more. What they evaluate to is asked in tests/cli/commands.py. And files of any
 * design: edits in any order (--seed replays them), each saved, read and compared; earlier values stay as they were. */
#include "design/edit.h"
#include "fixture.h"
#include "tests/design/random-edit.h"

static void
test_old (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "files", "old", NULL);
  g_autofree char *names = fixture_list (folder);
  g_auto (GStrv) each = g_strsplit (names, " ", -1);

  g_assert_cmpuint (g_strv_length (each), >=, 4);
  for (char **name = each; *name != NULL; name++) {
    g_autofree char *path = g_build_filename (folder, *name, NULL);
    g_autoptr (GFile) file = g_file_new_for_path (path);
    g_autoptr (GError) error = NULL;
    g_autoptr (Project) project = document_load (file, NULL, &error);
    g_autofree char *saved = NULL;
    g_autofree char *again = NULL;
    g_autoptr (Project) back = NULL;

    g_test_message ("%s", *name);
    g_assert_no_error (error);
    saved = fixture_write (project);
    back = fixture_read (saved, -1, &error);
    g_assert_no_error (error);
    g_assert_true (project_equal (project, back));
    again = fixture_write (back);
    fixture_assert_same (again, saved);
  }
}

/* One edit by chance of a part by chance, or the design as it is where that is refused. */
static Design *
edited (Design *design)
{
  const unsigned at = (unsigned) g_test_rand_int_range (0, (gint32) design_n_parts (design));
  char key[MAX_KEY_BYTES + 1] = "";
  Design *changed = random_edit (design, part_key (design_part (design, at)), key, NULL);

  return changed != NULL ? changed : design_ref (design);
}

enum { SESSIONS = 3, STEPS = 40 };

/* The history of a window: each step saved when it is made, and after all steps were undone read against its value. */
static void
test_history (void)
{
  for (unsigned session = 0; session < SESSIONS; session++) {
    Project *history[STEPS + 1] = {fixture_demo ()};
    g_autofree char **saved = g_new0 (char *, STEPS + 1);

    saved[0] = fixture_write (history[0]);
    for (unsigned i = 1; i <= STEPS; i++) {
      g_autoptr (Design) design = edited (project_active_design (history[i - 1]));

      history[i] = i % 20 == 0 ? project_with_variant (history[i - 1], NULL)
                               : project_with_design (history[i - 1], design);
      saved[i] = fixture_write (history[i]);
    }
    for (unsigned i = STEPS + 1; i-- > 0;) {
      g_autoptr (GError) error = NULL;
      g_autoptr (Project) read = fixture_read (saved[i], -1, &error);

      g_assert_no_error (error);
      g_assert_true (project_equal (read, history[i]));
      project_unref (history[i]);
      g_free (saved[i]);
    }
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/old-files/open", test_old);
  g_test_add_func ("/old-files/history", test_history);
  return g_test_run ();
}
