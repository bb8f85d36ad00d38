/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* `downcomer new`: a whole design proposed from tank and stand. */
#include <glib/gi18n.h>
#include <string.h>

#include "cli/command.h"
#include "files/catalogue-file.h"
#include "files/document.h"
#include "report/proposal-words.h"
#include "solver/proposal.h"
#include "units/parse.h"

/* Reads "LxWxH": lengths with units or bare in metres; a unit at the end serves those without one ("150x60x60cm"). */
static bool
read_size (const char *text, double size[3])
{
  const NumberStyle style = number_style_metric ();
  g_autofree char *lower = g_ascii_strdown (text, -1);
  g_auto (GStrv) words = NULL;
  const Unit *unit = quantity_si_unit (QUANTITY_LENGTH);
  UnitsParseDetail detail;

  g_strdelimit (lower, "*", 'x');
  words = g_strsplit (lower, "x", -1);
  if (g_strv_length (words) != 3)
    return false;
  for (int i = 2; i >= 0; i--) {
    if (units_parse (words[i], QUANTITY_LENGTH, &style, unit, &size[i], &detail) != UNITS_PARSE_OK)
      return false;
    if (i == 2 && detail.unit != NULL)
      unit = detail.unit;
  }
  return true;
}

static bool
read_turnover (const char *text, double *ret_turnover_per_h)
{
  const FieldInfo *info = field_info (FIELD_JOB_TURNOVER);
  const NumberStyle style = number_style_metric ();
  double turnover = 0;

  if (units_parse (text, QUANTITY_TURNOVER, &style, quantity_si_unit (QUANTITY_TURNOVER), &turnover, NULL) !=
          UNITS_PARSE_OK ||
      turnover < info->min || turnover > info->max)
    return false;
  *ret_turnover_per_h = turnover;
  return true;
}

int
command_new (const Options *options)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();
  g_autoptr (Design) design = NULL;
  g_autoptr (Project) project = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;
  const NumberStyle style = command_locale_style (UNIT_SYSTEM_METRIC);
  ProposalRequest request = {0};
  ProposalLimit limit;

  if (!read_size (options->tank, request.tank_m))
    return command_fail (CLI_USAGE,
                         _ ("--tank %s is not understood; write LxWxH, as in 1.5x0.6x0.6 or 60x24x24in"),
                         options->tank);
  if (!read_size (options->stand, request.stand_m))
    return command_fail (CLI_USAGE,
                         _ ("--stand %s is not understood; write LxWxH, as in 1.4x0.55x0.75 or 55x22x30in"),
                         options->stand);
  if (options->turnover != NULL && !read_turnover (options->turnover, &request.turnover_per_h))
    return command_fail (
        CLI_USAGE, _ ("--turnover %s is not a number of display volumes an hour from %g to %g"),
        options->turnover, field_info (FIELD_JOB_TURNOVER)->min, field_info (FIELD_JOB_TURNOVER)->max);
  design = proposal_make (&request, catalogue, &limit);
  if (design == NULL) {
    g_autofree char *sentence = proposal_sentence (&limit, &style);

    return command_fail (CLI_NOT_SOUND, "%s", sentence);
  }
  project = project_new (design, NULL);
  bytes = document_to_bytes (project, options->output, &error);
  if (bytes == NULL)
    return command_fail (CLI_UNWRITABLE, "%s", error->message);
  return command_write (options->output, bytes);
}
