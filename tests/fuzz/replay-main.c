/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Without a fuzzing engine: runs a target over the files and folders named on the command line. */
#include "fuzz/target.h"

#include <string.h>

static gboolean
replay_file (const char *path)
{
  char *data = NULL;
  gsize size = 0;
  GError *error = NULL;

  if (!g_file_get_contents (path, &data, &size, &error)) {
    g_printerr ("%s\n", error->message);
    g_error_free (error);
    return FALSE;
  }
  /* g_file_get_contents adds a zero; an exact copy lets the sanitizers see a read past the end */
  guint8 *exact = g_memdup2 (data, size);
  g_free (data);
  LLVMFuzzerTestOneInput (exact, size);
  g_free (exact);
  return TRUE;
}

static guint
replay_folder (const char *path, GDir *folder)
{
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (folder)) != NULL) {
    char *file = g_build_filename (path, name, NULL);

    n += replay_file (file) ? 1 : 0;
    g_free (file);
  }
  return n;
}

int
main (int argc, char *argv[])
{
  guint n = 0;

  for (int i = 1; i < argc; i++) {
    GDir *folder = g_dir_open (argv[i], 0, NULL);

    if (folder != NULL) {
      n += replay_folder (argv[i], folder);
      g_dir_close (folder);
    } else
      n += replay_file (argv[i]) ? 1 : 0;
  }
  g_print ("%u inputs\n", n);
  return n > 0 ? 0 : 1;
}
