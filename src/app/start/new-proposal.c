/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/start/new-proposal.h"

#include <glib/gi18n.h>
#include <math.h>

#include "report/proposal-words.h"
#include "report/summary.h"
#include "report/words.h"

NewProposal *
new_proposal_make (const ProposalRequest *request, Catalogue *catalogue)
{
  NewProposal *proposal = g_new0 (NewProposal, 1);
  SystemStatus status;

  proposal->evaluation = evaluation_new ();
  proposal->design = proposal_make (request, catalogue, &proposal->limit);
  if (proposal->design != NULL)
    evaluate_design (proposal->design, catalogue, NULL, proposal->evaluation, &status, NULL);
  return proposal;
}

void
new_proposal_free (NewProposal *proposal)
{
  if (proposal == NULL)
    return;
  design_unref (proposal->design);
  evaluation_free (proposal->evaluation);
  g_free (proposal);
}

static char *
length_words (const Design *design, const Part *part, FieldId field, const NumberStyle *style)
{
  return units_format (design_number (design, part, field), QUANTITY_LENGTH, style, NULL, UNITS_BUILD);
}

char *
new_proposal_words (const NewProposal *proposal, const NumberStyle *style)
{
  const Design *design = proposal->design;

  if (design == NULL)
    return proposal_sentence (&proposal->limit, style);

  const Part *sump = design_nth (design, PART_SUMP, 0), *pump = design_nth (design, PART_PUMP, 0);
  const double speed = round (design_number (design, pump, FIELD_PUMP_SPEED) * 100) / 100;
  const unsigned n = design_count (design, PART_DRAIN);
  g_autofree char *length = length_words (design, sump, FIELD_SUMP_LENGTH, style);
  g_autofree char *width = length_words (design, sump, FIELD_SUMP_WIDTH, style);
  g_autofree char *height = length_words (design, sump, FIELD_SUMP_HEIGHT, style);
  g_autofree char *drains = g_strdup_printf (ngettext ("%u drain", "%u drains", n), n);
  g_autofree char *name = words_part (design, pump);
  g_autofree char *speed_words = units_format (speed, QUANTITY_RATIO, style, NULL, UNITS_MEASURE);
  g_autofree char *line = summary_line (proposal->evaluation, style);

  return words_fill (_ ("Sump {length} × {width} × {height}, {drains}, {pump} at {speed}. {line}."), "length",
                     length, "width", width, "height", height, "drains", drains, "pump", name, "speed",
                     speed_words, "line", line, NULL);
}
