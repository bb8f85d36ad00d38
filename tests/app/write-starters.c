/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Writes the designs that new windows begin with into a folder, as the solver proposes them now. */
#include "app/start/starter.h"
#include "files/catalogue-file.h"
#include "files/document.h"

static gboolean
write_starter (Catalogue *catalogue, gboolean us, const char *folder, const char *name)
{
  const ProposalRequest request = starter_request (us);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  ProposalLimit limit;
  g_autoptr (Design) design = proposal_make (&request, catalogue, &limit);
  g_autoptr (Project) project = design != NULL ? project_new (design, NULL) : NULL;

  if (project != NULL && document_save (project, file, NULL, &error))
    return TRUE;
  g_printerr ("%s: %s\n", path, error != NULL ? error->message : "nothing sound is proposed");
  return FALSE;
}

int
main (int argc, char **argv)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();

  if (argc != 2) {
    g_printerr ("Usage: %s FOLDER\n", argv[0]);
    return 64;
  }
  return write_starter (catalogue, FALSE, argv[1], "starter-metric.downcomer") &&
                 write_starter (catalogue, TRUE, argv[1], "starter-us.downcomer")
             ? 0
             : 1;
}
