/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Saving in one step: a disk that fails after any number of bytes leaves the old file and nothing else. */
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "files/atomic-save.h"
#include "tests/files/fixture.h"

/* A stream that passes on `room` bytes and then fails as a full disk does; `at_close` fails on closing instead. */
typedef struct {
  GFilterOutputStream parent;
  gsize room;
  gboolean at_close;
} FailingStream;

typedef GFilterOutputStreamClass FailingStreamClass;

static GType failing_stream_get_type (void);
G_DEFINE_TYPE (FailingStream, failing_stream, G_TYPE_FILTER_OUTPUT_STREAM)

static gboolean
full_disk (GError **error)
{
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE, "No space left on device");
  return FALSE;
}

static gssize
failing_write (GOutputStream *stream, const void *buffer, gsize count, GCancellable *cancellable,
               GError **error)
{
  FailingStream *self = (FailingStream *) stream;
  GOutputStream *base = g_filter_output_stream_get_base_stream (G_FILTER_OUTPUT_STREAM (stream));

  if (self->room == 0) {
    full_disk (error);
    return -1;
  }
  gssize written = g_output_stream_write (base, buffer, MIN (count, self->room), cancellable, error);
  self->room -= (gsize) MAX (written, 0);
  return written;
}

static gboolean
failing_close (GOutputStream *stream, GCancellable *cancellable, GError **error)
{
  return ((FailingStream *) stream)->at_close ? full_disk (error) : TRUE;
}

static void
failing_stream_init (FailingStream *self)
{
}

static void
failing_stream_class_init (FailingStreamClass *class)
{
  GOutputStreamClass *stream_class = G_OUTPUT_STREAM_CLASS (class);

  stream_class->write_fn = failing_write;
  stream_class->close_fn = failing_close;
}

/* What the disk of a test can take. */
typedef struct {
  gsize room;
  gboolean at_close;
} Disk;

static GOutputStream *
wrap (GOutputStream *stream, gpointer data)
{
  const Disk *disk = data;
  FailingStream *failing =
      g_object_new (failing_stream_get_type (), "base-stream", stream, "close-base-stream", FALSE, NULL);

  failing->room = disk->room;
  failing->at_close = disk->at_close;
  return G_OUTPUT_STREAM (failing);
}

typedef struct {
  char *folder;
  char *path;
} Place;

static Place
place_new (const char *content)
{
  Place place = {.folder = fixture_folder ()};

  place.path = g_build_filename (place.folder, "work.downcomer", NULL);
  if (content != NULL)
    g_assert_true (g_file_set_contents (place.path, content, -1, NULL));
  return place;
}

static void
place_clear (Place *place)
{
  fixture_remove (place->folder);
  g_free (place->folder);
  g_free (place->path);
}

static void
assert_content (const char *path, const char *wanted)
{
  g_autofree char *content = NULL;

  g_assert_true (g_file_get_contents (path, &content, NULL, NULL));
  g_assert_cmpstr (content, ==, wanted);
}

static void
assert_files (const Place *place, const char *wanted)
{
  g_autofree char *names = fixture_list (place->folder);

  g_assert_cmpstr (names, ==, wanted);
}

static gboolean
save (const char *path, const char *content, const Disk *disk, GError **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new (content, strlen (content));
  Disk copy = disk != NULL ? *disk : (Disk){.room = G_MAXSIZE};
  AtomicHooks hooks = {.wrap = wrap, .data = &copy};

  return atomic_save (path, bytes, &hooks, NULL, error);
}

/* After n bytes for n = 0, 1, 2 ... until it succeeds. */
static void
fail_after_each (const char *before)
{
  Place place = place_new (before);
  const char content[] = "a new content of some length, longer than the old one";
  gboolean saved = FALSE;
  gsize n = 0;

  for (; !saved; n++) {
    g_autoptr (GError) error = NULL;
    saved = save (place.path, content, &(Disk){.room = n}, &error);
    if (saved)
      break;
    g_assert_error (error, FILES_ERROR, FILES_ERROR_UNWRITABLE);
    g_assert_nonnull (strstr (error->message, "No space left on device"));
    g_assert_true (g_str_has_prefix (error->message, place.path));
    assert_files (&place, before != NULL ? "work.downcomer" : "");
    if (before != NULL)
      assert_content (place.path, before);
  }
  g_assert_cmpuint (n, ==, strlen (content));
  assert_content (place.path, content);
  assert_files (&place, "work.downcomer");
  place_clear (&place);
}

static void
test_fails_replacing (void)
{
  fail_after_each ("the old content");
}

static void
test_fails_creating (void)
{
  fail_after_each (NULL);
}

static void
test_fails_closing (void)
{
  Place place = place_new ("old");
  g_autoptr (GError) error = NULL;

  g_assert_false (save (place.path, "new", &(Disk){.room = 100, .at_close = TRUE}, &error));
  g_assert_error (error, FILES_ERROR, FILES_ERROR_UNWRITABLE);
  assert_content (place.path, "old");
  assert_files (&place, "work.downcomer");
  place_clear (&place);
}

/* While the new file is written, the old one is whole. */
static GOutputStream *
wrap_and_look (GOutputStream *stream, gpointer data)
{
  const Place *place = data;

  assert_content (place->path, "old");
  return g_object_ref (stream);
}

static void
test_old_until_renamed (void)
{
  Place place = place_new ("old");
  g_autoptr (GBytes) bytes = g_bytes_new_static ("new", 3);
  AtomicHooks hooks = {.wrap = wrap_and_look, .data = &place};

  g_assert_true (atomic_save (place.path, bytes, &hooks, NULL, NULL));
  assert_content (place.path, "new");
  place_clear (&place);
}

static G_NORETURN void
save_for_ever (const char *path, const char *first, const char *second)
{
  for (;;) {
    save (path, first, NULL, NULL);
    save (path, second, NULL, NULL);
  }
}

/* A process that is killed while it saves over and over leaves one whole content or another, whenever it is hit. What it
 * was writing may lie beside it under a hidden name. */
static void
test_killed (void)
{
  Place place = place_new ("a");
  g_autofree char *small = g_strnfill (10, 'a');
  g_autofree char *large = g_strnfill (300000, 'b');

  for (guint round = 0; round < 15; round++) {
    pid_t child = fork ();
    g_assert_cmpint (child, >=, 0);
    if (child == 0)
      save_for_ever (place.path, small, large);
    g_usleep (1000 + 700 * round);
    g_assert_cmpint (kill (child, SIGKILL), ==, 0);
    g_assert_cmpint (waitpid (child, NULL, 0), ==, child);
    g_autofree char *content = NULL;
    g_assert_true (g_file_get_contents (place.path, &content, NULL, NULL));
    g_assert_true (strcmp (content, small) == 0 || strcmp (content, large) == 0 ||
                   strcmp (content, "a") == 0);
  }
  place_clear (&place);
}

static void
test_permissions (void)
{
  const mode_t modes[] = {0600, 0644, 0664, 0640, 0700};
  Place place = place_new ("old");
  struct stat status;

  for (guint i = 0; i < G_N_ELEMENTS (modes); i++) {
    g_assert_cmpint (chmod (place.path, modes[i]), ==, 0);
    g_assert_true (save (place.path, "new", NULL, NULL));
    g_assert_cmpint (stat (place.path, &status), ==, 0);
    g_assert_cmpuint (status.st_mode & 07777, ==, modes[i]);
  }
  place_clear (&place);
}

static void
test_new_by_mask (void)
{
  Place place = place_new (NULL);
  mode_t before = umask (027);
  struct stat status;

  g_assert_true (save (place.path, "new", NULL, NULL));
  umask (before);
  g_assert_cmpint (stat (place.path, &status), ==, 0);
  g_assert_cmpuint (status.st_mode & 07777, ==, 0640);
  place_clear (&place);
}

static void
test_write_protected (void)
{
  Place place = place_new ("old");
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (chmod (place.path, 0444), ==, 0);
  if (access (place.path, W_OK) == 0) {
    g_test_skip ("root may write everywhere");
  } else {
    g_assert_false (save (place.path, "new", NULL, &error));
    g_assert_error (error, FILES_ERROR, FILES_ERROR_UNWRITABLE);
    assert_content (place.path, "old");
  }
  place_clear (&place);
}

static void
test_symbolic_links (void)
{
  Place place = place_new ("old");
  g_autofree char *first = g_build_filename (place.folder, "first", NULL);
  g_autofree char *second = g_build_filename (place.folder, "second", NULL);
  g_autofree char *dangling = g_build_filename (place.folder, "dangling", NULL);

  g_assert_cmpint (symlink ("work.downcomer", first), ==, 0);
  g_assert_cmpint (symlink (first, second), ==, 0);
  g_assert_cmpint (symlink ("fresh", dangling), ==, 0);
  g_assert_true (save (second, "new", NULL, NULL));
  assert_content (place.path, "new");
  g_assert_true (g_file_test (second, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_test (first, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (save (dangling, "made", NULL, NULL));
  assert_files (&place, "dangling first fresh second work.downcomer");
  assert_content (dangling, "made");
  place_clear (&place);
}

static void
test_ring_of_links (void)
{
  Place place = place_new (NULL);
  g_autofree char *other = g_build_filename (place.folder, "other", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (symlink ("other", place.path), ==, 0);
  g_assert_cmpint (symlink ("work.downcomer", other), ==, 0);
  g_assert_false (save (place.path, "new", NULL, &error));
  g_assert_error (error, FILES_ERROR, FILES_ERROR_UNWRITABLE);
  assert_files (&place, "other work.downcomer");
  place_clear (&place);
}

static void
test_longest_name (void)
{
  Place place = place_new (NULL);
  g_autofree char *leaf = g_strnfill (255, 'n');
  g_autofree char *path = g_build_filename (place.folder, leaf, NULL);

  g_assert_true (save (path, "new", NULL, NULL));
  assert_content (path, "new");
  place_clear (&place);
}

static void
test_impossible (void)
{
  Place place = place_new (NULL);
  g_autofree char *nowhere = g_build_filename (place.folder, "gone", "work.downcomer", NULL);
  const char *const paths[] = {place.folder, nowhere, "/dev/full", ""};

  for (guint i = 0; i < G_N_ELEMENTS (paths); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (GBytes) bytes = g_bytes_new_static ("new", 3);
    g_assert_false (atomic_save (paths[i], bytes, NULL, NULL, &error));
    g_assert_error (error, FILES_ERROR, FILES_ERROR_UNWRITABLE);
  }
  assert_files (&place, "");
  place_clear (&place);
}

/* A device is written to, never replaced by a file. */
static void
test_device (void)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static ("new", 3);
  struct stat status;

  g_assert_true (atomic_save ("/dev/null", bytes, NULL, NULL, NULL));
  g_assert_cmpint (stat ("/dev/null", &status), ==, 0);
  g_assert_true (S_ISCHR (status.st_mode));
}

/* As /dev/stdout leads into a pipe: a link whose text names no file. */
static void
test_pipe_without_a_name (void)
{
  int ends[2];
  char content[8] = "";

  g_assert_cmpint (pipe (ends), ==, 0);
  g_autofree char *path = g_strdup_printf ("/dev/fd/%d", ends[1]);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new_static ("water", 5);
  g_assert_true (atomic_save (path, bytes, NULL, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpint (read (ends[0], content, sizeof content), ==, 5);
  g_assert_cmpstr (content, ==, "water");
  close (ends[0]);
  close (ends[1]);
}

/* The sentence says what mends it: another folder, not room on the disk. */
static void
test_missing_folder (void)
{
  Place place = place_new (NULL);
  g_autofree char *path = g_build_filename (place.folder, "nowhere", "work.downcomer", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (save (path, "content", NULL, &error));
  g_assert_error (error, FILES_ERROR, FILES_ERROR_UNWRITABLE);
  g_assert_nonnull (strstr (error->message, "there is no folder"));
  g_assert_nonnull (strstr (error->message, "nowhere to save it in"));
  g_clear_error (&error);
  g_assert_false (save (place.folder, "content", NULL, &error));
  g_assert_nonnull (strstr (error->message, "that is a folder"));
  place_clear (&place);
}

static void
test_cancelled (void)
{
  Place place = place_new ("old");
  g_autoptr (GBytes) bytes = g_bytes_new_static ("new", 3);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_false (atomic_save (place.path, bytes, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  assert_content (place.path, "old");
  assert_files (&place, "work.downcomer");
  place_clear (&place);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/atomic-save/fails-replacing", test_fails_replacing);
  g_test_add_func ("/atomic-save/fails-creating", test_fails_creating);
  g_test_add_func ("/atomic-save/fails-closing", test_fails_closing);
  g_test_add_func ("/atomic-save/old-until-renamed", test_old_until_renamed);
  g_test_add_func ("/atomic-save/killed", test_killed);
  g_test_add_func ("/atomic-save/permissions", test_permissions);
  g_test_add_func ("/atomic-save/new-by-mask", test_new_by_mask);
  g_test_add_func ("/atomic-save/write-protected", test_write_protected);
  g_test_add_func ("/atomic-save/symbolic-links", test_symbolic_links);
  g_test_add_func ("/atomic-save/ring-of-links", test_ring_of_links);
  g_test_add_func ("/atomic-save/longest-name", test_longest_name);
  g_test_add_func ("/atomic-save/impossible", test_impossible);
  g_test_add_func ("/atomic-save/device", test_device);
  g_test_add_func ("/atomic-save/pipe-without-a-name", test_pipe_without_a_name);
  g_test_add_func ("/atomic-save/missing-folder", test_missing_folder);
  g_test_add_func ("/atomic-save/cancelled", test_cancelled);
  return g_test_run ();
}
