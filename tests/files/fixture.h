/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A small project for the tests of this folder, and the ways to read and write it that they share. */
#pragma once

#include <glib/gstdio.h>
#include <locale.h>
#include <string.h>

#include "files/document.h"
#include "files/resource-data.h"

/* The least well-formed design as a document, in pieces: a test may put what it is about in place of the room, line 5. */
#define FIXTURE_HEAD                                                                                         \
  "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"                                                             \
  "<project xmlns=\"urn:downcomer:1\" version=\"1\" active=\"option-1\">\n"                                  \
  "  <option key=\"option-1\">\n"                                                                            \
  "    <job key=\"job\"/>\n"
#define FIXTURE_ROOM "    <room key=\"room\"/>\n"
#define FIXTURE_TAIL                                                                                         \
  "    <stand key=\"stand\"/>\n"                                                                             \
  "    <tank key=\"tank\"/>\n"                                                                               \
  "    <overflow key=\"overflow\" of=\"tank\"/>\n"                                                           \
  "    <drain key=\"drain\" of=\"overflow\"/>\n"                                                             \
  "    <sump key=\"sump\"/>\n"                                                                               \
  "    <chamber key=\"inlet\" of=\"sump\"/>\n"                                                               \
  "    <pump key=\"pump\" of=\"inlet\"/>\n"                                                                  \
  "    <return key=\"rise\" of=\"pump\">\n"                                                                  \
  "      <to>outlet</to>\n"                                                                                  \
  "    </return>\n"                                                                                          \
  "    <outlet key=\"outlet\" of=\"tank\"/>\n"                                                               \
  "  </option>\n"                                                                                            \
  "</project>\n"

static inline Project *
fixture_read (const char *text, gssize size, GError **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, size < 0 ? strlen (text) : (gsize) size);
  return document_from_bytes (bytes, "test.downcomer", error);
}

static inline Project *
fixture_project (void)
{
  g_autoptr (GError) error = NULL;
  Project *project = fixture_read (FIXTURE_HEAD FIXTURE_ROOM FIXTURE_TAIL, -1, &error);

  g_assert_no_error (error);
  return project;
}

static inline Project *
fixture_demo (void)
{
  g_autoptr (GBytes) bytes = resource_data (RESOURCE_DEMO_SOUND);
  g_autoptr (GError) error = NULL;
  Project *project = document_from_bytes (bytes, "sound.downcomer", &error);

  g_assert_no_error (error);
  return project;
}

static inline char *
fixture_write (const Project *project)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = document_to_bytes (project, "test.downcomer", &error);

  g_assert_no_error (error);
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

/* Equal texts; of two that differ, only the first lines that do are worth a look. */
static inline void
fixture_assert_same (const char *got, const char *wanted)
{
  gsize line = 0;

  for (gsize i = 0; got[i] != '\0' && got[i] == wanted[i]; i++)
    if (got[i] == '\n')
      line = i + 1;
  if (strcmp (got, wanted) != 0)
    g_error ("got:\n%.300s\nwanted:\n%.300s", got + line, wanted + line);
}

static inline char *
fixture_folder (void)
{
  char *folder = g_dir_make_tmp ("downcomer-XXXXXX", NULL);

  g_assert_nonnull (folder);
  return folder;
}

static inline gint
fixture_by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Names in a folder, sorted, in one string: "a b". */
static inline char *
fixture_list (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name = NULL;

  while ((name = g_dir_read_name (dir)) != NULL)
    g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, fixture_by_name);
  g_ptr_array_add (names, NULL);
  return g_strjoinv (" ", (char **) names->pdata);
}

/* Removes a folder of files. */
static inline void
fixture_remove (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name = NULL;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_assert_cmpint (g_remove (path), ==, 0);
  }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}
