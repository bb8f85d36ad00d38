/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Files that must not load: each of tests/files/bad is refused with the sentence that stands for it in sentences.txt. */
#include "tests/files/fixture.h"
#include "files/limits.h"

#define LEAST FIXTURE_HEAD FIXTURE_ROOM FIXTURE_TAIL

/* Loads text that must be refused; the sentence, which is never empty and always names the file. */
static char *
refusal (const char *text, gssize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Project) project = fixture_read (text, size, &error);

  g_assert_null (project);
  g_assert_nonnull (error);
  g_assert_true (error->domain == FILES_ERROR);
  g_assert_true (g_str_has_prefix (error->message, "test.downcomer"));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_true (g_str_has_suffix (error->message, "."));
  g_assert_null (strchr (error->message, '\n'));
  return g_strdup (error->message);
}

/* Sentences by the name of their file. */
static GHashTable *
sentences (const char *folder)
{
  GHashTable *table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autofree char *path = g_build_filename (folder, "sentences.txt", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL && *lines[i] != '\0'; i++) {
    const char *end = strstr (lines[i], DOCUMENT_SUFFIX);
    g_assert_nonnull (end);
    g_hash_table_insert (table, g_strndup (lines[i], (gsize) (end - lines[i]) + strlen (DOCUMENT_SUFFIX)),
                         g_strdup (lines[i]));
  }
  return table;
}

static void
test_corpus (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "files", "bad", NULL);
  g_autoptr (GHashTable) table = sentences (folder);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name = NULL;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL) {
    if (!g_str_has_suffix (name, DOCUMENT_SUFFIX))
      continue;
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_autofree char *content = NULL;
    gsize size = 0;
    g_assert_true (g_file_get_contents (path, &content, &size, NULL));
    g_autoptr (GBytes) bytes = g_bytes_new (content, size);
    g_autoptr (GError) error = NULL;
    g_autoptr (Project) project = document_from_bytes (bytes, name, &error);
    g_assert_null (project);
    g_assert_nonnull (error);
    g_assert_cmpstr (error->message, ==, g_hash_table_lookup (table, name));
    n++;
  }
  g_assert_cmpuint (n, ==, g_hash_table_size (table));
}

/* A file that breaks off anywhere is refused as broken; only what follows its last tag may be missing. */
static void
test_truncated (void)
{
  const gsize needed = strlen (LEAST) - strlen ("\n");

  for (gsize size = 0; size < needed; size++)
    g_free (refusal (LEAST, (gssize) size));
  g_autoptr (Project) whole = fixture_read (LEAST, (gssize) needed, NULL);
  g_assert_nonnull (whole);
}

/* One byte changed anywhere: refused with a sentence, or a project that saves and loads. */
static void
test_one_byte (void)
{
  g_autofree char *text = g_strdup (LEAST);
  const char changes[] = {'\0', '<', '&', '"', 'z', '\xff'};

  for (gsize i = 0; i < strlen (LEAST); i++) {
    char before = text[i];
    text[i] = changes[i % G_N_ELEMENTS (changes)];
    g_autoptr (GError) error = NULL;
    g_autoptr (Project) project = fixture_read (text, (gssize) strlen (LEAST), &error);
    g_assert_true ((project == NULL) == (error != NULL));
    text[i] = before;
  }
}

static char *
repeated (const char *head, const char *piece, gsize n, const char *tail)
{
  GString *text = g_string_new (head);

  for (gsize i = 0; i < n; i++)
    g_string_append (text, piece);
  g_string_append (text, tail);
  return g_string_free (text, FALSE);
}

static void
assert_too_large (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Project) project = fixture_read (text, -1, &error);

  g_assert_null (project);
  g_assert_error (error, FILES_ERROR, FILES_ERROR_TOO_LARGE);
}

static void
test_limits (void)
{
  g_autofree char *deep = repeated (FIXTURE_HEAD, "<room>", 10000, "");
  g_autofree char *many = repeated (FIXTURE_HEAD, "<room/>", FILES_MAX_ELEMENTS + 1, FIXTURE_TAIL);
  g_autofree char *huge = g_strnfill (FILES_MAX_BYTES + 1, ' ');
  g_autofree char *name = g_strnfill (FILES_MAX_NAME + 1, 'a');
  g_autofree char *named = g_strconcat (FIXTURE_HEAD "<", name, "/>" FIXTURE_TAIL, NULL);
  g_autofree char *attributes = repeated (FIXTURE_HEAD "<room", " a=''", 1, "");

  for (guint i = 0; i < FILES_MAX_ATTRIBUTES; i++) {
    char *longer = g_strdup_printf ("%s a%u=''", attributes, i);
    g_free (attributes);
    attributes = longer;
  }
  g_autofree char *decked = g_strconcat (attributes, "/>" FIXTURE_TAIL, NULL);
  assert_too_large (deep);
  assert_too_large (many);
  assert_too_large (huge);
  assert_too_large (named);
  assert_too_large (decked);
}

/* As many parts as the design takes, and one more. */
static void
test_too_many_parts (void)
{
  GString *text = g_string_new (FIXTURE_HEAD FIXTURE_ROOM);
  for (unsigned i = 0; i <= part_kind_limit (PART_CANDIDATE); i++)
    g_string_append_printf (text, "<candidate key=\"c%u\"/>\n", i);
  g_string_append (text, FIXTURE_TAIL);
  g_autofree char *whole = g_string_free (text, FALSE);
  g_autofree char *sentence = refusal (whole, -1);

  g_assert_nonnull (strstr (sentence, "line 106: candidate “c100”"));
}

static void
test_unreadable (void)
{
  const char *const paths[] = {"/", "/dev/zero", "/nowhere/at/all.downcomer", "/dev/null/x"};

  for (guint i = 0; i < G_N_ELEMENTS (paths); i++) {
    g_autoptr (GFile) file = g_file_new_for_path (paths[i]);
    g_autoptr (GError) error = NULL;
    g_autoptr (Project) project = document_load (file, NULL, &error);
    g_assert_null (project);
    g_assert_error (error, FILES_ERROR, FILES_ERROR_UNREADABLE);
    g_assert_true (g_str_has_prefix (error->message, paths[i]));
  }
}

/* A file over the limit is not even read. */
static void
test_huge_file (void)
{
  g_autofree char *folder = fixture_folder ();
  g_autofree char *path = g_build_filename (folder, "huge.downcomer", NULL);
  g_autofree char *content = g_strnfill (FILES_MAX_BYTES + 1, 'a');
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (path, content, FILES_MAX_BYTES + 1, NULL));
  g_assert_null (document_load (file, NULL, &error));
  g_assert_error (error, FILES_ERROR, FILES_ERROR_TOO_LARGE);
  fixture_remove (folder);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bad-files/corpus", test_corpus);
  g_test_add_func ("/bad-files/truncated", test_truncated);
  g_test_add_func ("/bad-files/one-byte", test_one_byte);
  g_test_add_func ("/bad-files/limits", test_limits);
  g_test_add_func ("/bad-files/too-many-parts", test_too_many_parts);
  g_test_add_func ("/bad-files/unreadable", test_unreadable);
  g_test_add_func ("/bad-files/huge-file", test_huge_file);
  return g_test_run ();
}
