/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/finding-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "report/finding-table.h"

const char *
finding_title (CheckId check)
{
  return _ (finding_words (check)->title);
}

const char *
finding_meaning (CheckId check)
{
  const char *text = finding_words (check)->meaning;

  return text[0] != '\0' ? _ (text) : "";
}

const char *
finding_advice (CheckId check)
{
  const char *text = finding_words (check)->advice;

  return text[0] != '\0' ? _ (text) : "";
}

static const char *
axis_words (double axis)
{
  switch ((int) lround (isfinite (axis) ? axis : 0)) {
  case 0:
    return C_ ("size", "length");
  case 1:
    return C_ ("size", "width");
  default:
    return C_ ("size", "height");
  }
}

static const char *
pane_words (double pane)
{
  return pane > 0.5 ? _ ("back pane") : _ ("bottom pane");
}

static const char *
vessel_words (double display)
{
  return display > 0.5 ? _ ("the display") : _ ("the overflow box");
}

/* "12 % to spare" or "12 % short". */
static char *
percent_spare (double relative)
{
  g_autofree char *percent = g_strdup_printf ("%.0f" UNITS_SPACE "%%", fabs (relative) * 100);

  return g_strdup_printf (relative >= 0 ? _ ("%s to spare") : _ ("%s short"), percent);
}

/* "15 mm to spare" or "15 mm short". */
static char *
margin_spare (const Finding *finding, const NumberStyle *style)
{
  g_autofree char *margin =
      units_format (fabs (finding->margin), finding->quantity, style, NULL, UNITS_MEASURE);

  return g_strdup_printf (finding->margin >= 0 ? _ ("%s to spare") : _ ("%s short"), margin);
}

static char *
second_words (const Finding *finding, unsigned index, const NumberStyle *style)
{
  if (index >= finding->n_seconds)
    return g_strdup (UNITS_NO_VALUE);
  return units_format (finding->seconds[index], finding_words (finding->check)->seconds[index], style, NULL,
                       UNITS_MEASURE);
}

static const Part *
part_at (const Design *design, int index)
{
  return index >= 0 && (unsigned) index < design_n_parts (design) ? design_part (design, (unsigned) index)
                                                                  : NULL;
}

char *
finding_sentence (const Design *design, const Finding *finding, const NumberStyle *style)
{
  g_autofree char *part = words_part (design, part_at (design, finding->part));
  g_autofree char *other = words_part (design, part_at (design, finding->other_part));
  g_autofree char *value = units_format (finding->value, finding->quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *limit = units_format (finding->limit, finding->quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *margin =
      units_format (fabs (finding->margin), finding->quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *over =
      units_format (fabs (finding->value - finding->limit), finding->quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *spare = margin_spare (finding, style);
  g_autofree char *percent = percent_spare (finding->relative_margin);
  g_autofree char *s0 = second_words (finding, 0, style);
  g_autofree char *s1 = second_words (finding, 1, style);
  g_autofree char *s2 = second_words (finding, 2, style);
  const double first = finding->n_seconds > 0 ? finding->seconds[0] : 0;
  const double third = finding->n_seconds > 2 ? finding->seconds[2] : 0;

  return words_fill (_ (finding_words (finding->check)->sentence), "part", part, "other", other, "value",
                     value, "limit", limit, "margin", margin, "over", over, "spare", spare, "percent",
                     percent, "0", s0, "1", s1, "2", s2, "axis", axis_words (first), "pane",
                     pane_words (first), "vessel", vessel_words (third), NULL);
}

char *
finding_remedy (const Design *design, const Catalogue *catalogue, const Finding *finding,
                const NumberStyle *style)
{
  const Part *part = part_at (design, finding->remedy.part);
  const FieldInfo *info;
  g_autofree char *name = NULL;
  g_autofree char *value = NULL;

  if (part == NULL || finding->remedy.field >= N_FIELDS)
    return NULL;
  info = field_info (finding->remedy.field);
  if (info->kind != part_kind (part))
    return NULL;
  name = words_part (design, part);
  if (info->type == FIELD_CHOICE || info->type == FIELD_FLAG)
    value = g_strdup (words_choice (finding->remedy.field, (int) lround (finding->remedy.value)));
  else if (info->type == FIELD_NUMBER)
    value = units_format (finding->remedy.value, info->quantity, style, NULL, UNITS_BUILD);
  else
    return NULL;
  return words_fill (_ ("Set {field} of {part} to {value}."), "field", words_field (finding->remedy.field),
                     "part", name, "value", value, NULL);
}
