/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/finding-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

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

/* Which value of the band was judged: the one whose distance from the limit is the margin, the unfavourable edges before the
 * likely value. Tells also whether the limit is the most that may be, rather than the least. */
static double
judged_edge (const Finding *finding, bool *ret_most)
{
  const double least = finding->limit + finding->margin, most = finding->limit - finding->margin;
  const struct {
    double value, distance;
    bool most;
  } tries[] = {{finding->lower, fabs (least - finding->lower), false},
               {finding->upper, fabs (most - finding->upper), true},
               {finding->value, fabs (least - finding->value), false},
               {finding->value, fabs (most - finding->value), true}};
  const double same = 1e-9 * (fabs (finding->limit) + fabs (finding->margin));
  /* An edge that lies no further than the likely value says nothing. */
  unsigned best = finding->upper - finding->value > finding->value - finding->lower ? 1 : 0;

  for (unsigned i = 0; i < G_N_ELEMENTS (tries); i++)
    if (tries[i].distance < tries[best].distance - same)
      best = i;
  *ret_most = tries[best].most;
  return tries[best].value;
}

/* "15 mm to spare", "15 mm short" of the least that is wanted, "15 mm over" the most; and of which edge of the band that is
 * true, where the edge reads otherwise than the likely value beside it. */
static char *
spare_words (const Finding *finding, const char *size, const char *value, const NumberStyle *style)
{
  bool most;
  const double edge = judged_edge (finding, &most);
  g_autofree char *shown = units_format (edge, finding->quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *spare = size[0] == '0' && strspn (size, "0.,") == strcspn (size, UNITS_SPACE)
                               ? g_strdup (_ ("nothing to spare"))
                               : g_strdup_printf (finding->margin >= 0 ? _ ("%s to spare")
                                                  : most               ? _ ("%s over")
                                                                       : _ ("%s short"),
                                                  size);

  if (!isfinite (edge) || g_str_equal (shown, value))
    return g_steal_pointer (&spare);
  return words_fill (_ ("{spare} at the unfavourable edge of its band, {edge}"), "spare", spare, "edge",
                     shown, NULL);
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
  g_autofree char *share = g_strdup_printf ("%.0f" UNITS_SPACE "%%", fabs (finding->relative_margin) * 100);
  g_autofree char *spare = spare_words (finding, margin, value, style);
  /* Of a limit that is nought there is no share. */
  g_autofree char *percent = spare_words (finding, finding->limit != 0 ? share : margin, value, style);
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
