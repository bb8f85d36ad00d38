/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Recovery copies: written, found again after a crash, discarded. */
#include <sys/stat.h>

#include "files/recovery.h"
#include "tests/files/fixture.h"

static void
test_write_list_discard (void)
{
  g_autofree char *state = fixture_folder ();
  g_autofree char *folder = g_build_filename (state, "recovery", NULL);
  g_autoptr (Project) least = fixture_project ();
  g_autoptr (Project) demo = fixture_demo ();
  g_autoptr (GError) error = NULL;
  struct stat status;

  g_assert_true (recovery_write (folder, "window-1", least, "/srv/ö/100% wall.downcomer", &error));
  g_assert_no_error (error);
  g_assert_true (recovery_write (folder, "window-1", demo, "/srv/ö/100% wall.downcomer", &error));
  g_assert_true (recovery_write (folder, "window-2", least, NULL, &error));
  g_assert_cmpint (stat (folder, &status), ==, 0);
  g_assert_cmpuint (status.st_mode & 0777, ==, 0700);

  g_autoptr (GPtrArray) copies = recovery_list (folder);
  g_assert_cmpuint (copies->len, ==, 2);
  for (guint i = 0; i < copies->len; i++) {
    const RecoveryCopy *copy = g_ptr_array_index (copies, i);
    gboolean first = strcmp (copy->id, "window-1") == 0;
    g_autoptr (GFile) file = g_file_new_for_path (copy->path);
    g_autoptr (Project) project = document_load (file, NULL, &error);
    g_assert_no_error (error);
    g_assert_true (project_equal (project, first ? demo : least));
    g_assert_cmpstr (copy->origin, ==, first ? "/srv/ö/100% wall.downcomer" : NULL);
    g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
    g_assert_cmpint (ABS (g_date_time_difference (now, copy->saved)), <, 60 * G_TIME_SPAN_SECOND);
  }
  recovery_discard (folder, "window-1");
  recovery_discard (folder, "window-1");
  recovery_discard (folder, "window-2");
  g_autofree char *left = fixture_list (folder);
  g_assert_cmpstr (left, ==, "");
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  fixture_remove (state);
}

/* A copy of what was saved once, then "save as new" loses its origin. */
static void
test_origin_goes (void)
{
  g_autofree char *folder = fixture_folder ();
  g_autoptr (Project) project = fixture_project ();

  g_assert_true (recovery_write (folder, "w", project, "/a.downcomer", NULL));
  g_assert_true (recovery_write (folder, "w", project, NULL, NULL));
  g_autoptr (GPtrArray) copies = recovery_list (folder);
  g_assert_cmpuint (copies->len, ==, 1);
  g_assert_null (((RecoveryCopy *) g_ptr_array_index (copies, 0))->origin);
  fixture_remove (folder);
}

/* What lies in the folder besides is left alone; a damaged note costs the origin only. */
static void
test_strange_folder (void)
{
  g_autofree char *folder = fixture_folder ();
  g_autofree char *stray = g_build_filename (folder, "note.txt", NULL);
  g_autofree char *hidden = g_build_filename (folder, ".downcomer-0abc", NULL);
  g_autofree char *suffix = g_build_filename (folder, ".downcomer", NULL);
  g_autofree char *note = g_build_filename (folder, "w.origin", NULL);
  g_autoptr (Project) project = fixture_project ();

  g_assert_true (recovery_write (folder, "w", project, "/a.downcomer", NULL));
  g_assert_true (g_file_set_contents (stray, "x", 1, NULL));
  g_assert_true (g_file_set_contents (hidden, "x", 1, NULL));
  g_assert_true (g_file_set_contents (suffix, "x", 1, NULL));
  g_assert_true (g_file_set_contents (note, "\xff[", 2, NULL));
  g_autoptr (GPtrArray) copies = recovery_list (folder);
  g_assert_cmpuint (copies->len, ==, 1);
  g_assert_cmpstr (((RecoveryCopy *) g_ptr_array_index (copies, 0))->id, ==, "w");
  g_assert_null (((RecoveryCopy *) g_ptr_array_index (copies, 0))->origin);
  fixture_remove (folder);
}

static void
test_no_folder (void)
{
  g_autoptr (GPtrArray) copies = recovery_list ("/nowhere/at/all");
  g_autoptr (Project) project = fixture_project ();
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (copies->len, ==, 0);
  g_assert_false (recovery_write ("/dev/null/recovery", "w", project, NULL, &error));
  g_assert_error (error, FILES_ERROR, FILES_ERROR_UNWRITABLE);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/recovery/write-list-discard", test_write_list_discard);
  g_test_add_func ("/recovery/origin-goes", test_origin_goes);
  g_test_add_func ("/recovery/strange-folder", test_strange_folder);
  g_test_add_func ("/recovery/no-folder", test_no_folder);
  return g_test_run ();
}
