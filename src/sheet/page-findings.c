/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* For designer and owner: what was found, and what mends it. */
#include <glib/gi18n-lib.h>

#include "report/finding-words.h"
#include "report/summary.h"
#include "sheet/build.h"

static char *
mend_text (const Build *build, const Finding *finding)
{
  g_autofree char *remedy = finding_remedy (build->design, build->catalogue, finding, &build->style);
  const char *advice = finding_advice (finding->check);

  if (remedy != NULL && advice[0] != '\0')
    return g_strdup_printf ("%s %s", remedy, advice);
  return g_strdup (remedy != NULL ? remedy : advice);
}

/* The meaning of a check is said once, at its first finding. */
static char *
found_text (const Build *build, unsigned index)
{
  const Evaluation *evaluation = build->evaluation;
  const Finding *finding = &evaluation->findings[index];
  g_autofree char *sentence = finding_sentence (build->design, finding, &build->style);
  const char *meaning = finding_meaning (finding->check);

  for (unsigned i = 0; i < index; i++)
    if (evaluation->findings[i].check == finding->check)
      meaning = "";
  return g_strdup_printf ("%s%s%s", sentence, meaning[0] != '\0' ? " " : "", meaning);
}

void
build_findings_pages (Build *build)
{
  static const TableColumn columns[] = {{N_ ("Mark"), COLUMN_TEXT},
                                        {N_ ("Grade"), COLUMN_TEXT},
                                        {N_ ("What was found"), COLUMN_TEXT},
                                        {N_ ("What would mend it"), COLUMN_TEXT}};
  const Evaluation *evaluation = build->evaluation;
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  g_autofree char *verdict = summary_verdict (evaluation);

  flow_section (&build->flow, _ ("Findings"), 1);
  flow_paragraph (&build->flow, verdict, TEXT_HEADING, true);
  flow_gap (&build->flow, 4);
  for (unsigned i = 0; i < evaluation->n_findings; i++) {
    const Finding *finding = &evaluation->findings[i];
    char letters[4];

    scene_finding_letters (i, letters);
    table_add (table, g_strdup (letters), g_strdup (words_grade (finding->grade)), found_text (build, i),
               mend_text (build, finding));
    if (finding->grade == GRADE_STOP)
      table_embolden (table);
  }
  table_flow (table, &build->flow, NULL);
  if (evaluation->findings_cut)
    build_note (build, _ ("There were more findings than this list holds. Mend these first."));
  build_note (
      build,
      _ ("Each finding is judged on the pessimistic edge of its band. A stop must not be built; a caution "
         "works, but a likely event or setting does harm; a note is worth knowing."));
}
