/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/rehearsal/rehearsal-overview.h"

#include <glib/gi18n.h>

static void
rehearse_all (RehearsalOverview *overview, const System *system)
{
  Workspace *workspace = workspace_new (system);
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  g_autoptr (Rehearser) rehearser = rehearser_new (system);

  evaluate (system, workspace, NULL, evaluation);
  for (unsigned i = 0; i < N_FAILURES; i++) {
    const FailureId failure = (FailureId) i;

    overview->all[i] = g_new0 (Rehearsed, 1);
    rehearse_failures (system, evaluation, rehearser, &failure, 1, NULL, NULL, NULL, overview->all[i]);
    if (overview->all[i]->reason != FAILURE_APPLIES)
      continue;
    overview->n_played++;
    overview->n_spill += overview->all[i]->rehearsal.spilled_m3 > 0;
  }
  workspace_free (workspace);
}

RehearsalOverview *
rehearsal_overview_new (Design *design, Catalogue *catalogue)
{
  RehearsalOverview *overview = g_new0 (RehearsalOverview, 1);
  System *system = system_compile (design, catalogue, NULL, NULL);

  overview->design = design_ref (design);
  if (system != NULL) {
    rehearse_all (overview, system);
    system_free (system);
  }
  return overview;
}

void
rehearsal_overview_free (RehearsalOverview *overview)
{
  for (unsigned i = 0; i < N_FAILURES; i++)
    g_free (overview->all[i]);
  design_unref (overview->design);
  g_free (overview);
}

char *
rehearsal_overview_sentence (const RehearsalOverview *overview)
{
  if (overview->n_played == 0)
    return g_strdup (_ ("Nothing can be rehearsed: the design does not run."));
  if (overview->n_spill == 0)
    return g_strdup_printf (ngettext ("%u failure rehearsed: the floor stays dry.",
                                      "%u failures rehearsed: the floor stays dry.", overview->n_played),
                            overview->n_played);
  /* Translators: numbers of failures that spill water, and of all that were rehearsed. */
  return g_strdup_printf (ngettext ("%u of %u failures puts water on the floor.",
                                    "%u of %u failures put water on the floor.", overview->n_spill),
                          overview->n_spill, overview->n_played);
}
