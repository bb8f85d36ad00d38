/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include "files/pump-points.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "design/curve.h"
#include "files/limits.h"
#include "units/parse.h"

/* How a line is cut into its two columns. */
typedef enum { CUT_TAB, CUT_SEMICOLON, CUT_COMMA, CUT_SPACE, N_CUTS } Cut;

static const char cut_signs[N_CUTS] = {'\t', ';', ',', ' '};

typedef enum { COLUMN_FLOW, COLUMN_HEAD, N_COLUMNS } Column;

static const Quantity column_quantity[N_COLUMNS] = {QUANTITY_FLOW, QUANTITY_HEAD};

typedef struct {
  double flow_m3s;
  double head_m;
  guint line;
} PumpPoint;

/* One attempt at the whole text with one way of cutting it. */
typedef struct {
  const NumberStyle *style;
  const Unit *unit[N_COLUMNS];
  Column order[2]; /* what the first and the second column hold */
  Cut cut;
  gboolean headed;
  GArray *points;
} Attempt;

static const char *
given_name (void)
{
  return _ ("Pump points");
}

/* True for the start of a number: a digit of any script, a sign or a decimal sign before a digit. */
static gboolean
starts_number (const char *text)
{
  if (*text == '-' || *text == '+' || *text == '.' || *text == ',')
    text++;
  return g_unichar_isdigit (g_utf8_get_char (text));
}

/* Cuts at spaces: a new column begins with each word that starts like a number, so that units stay with their values.
 * A heading has no numbers: it is cut at its one space. */
static void
cut_at_spaces (const char *line, GPtrArray *pieces)
{
  g_auto (GStrv) words = g_strsplit_set (line, " \t", -1);
  gboolean numbers = starts_number (line);

  for (guint i = 0; words[i] != NULL; i++) {
    if (*words[i] == '\0')
      continue;
    if (pieces->len == 0 || !numbers || starts_number (words[i])) {
      g_ptr_array_add (pieces, g_strdup (words[i]));
    } else {
      char *longer = g_strconcat (g_ptr_array_index (pieces, pieces->len - 1), " ", words[i], NULL);
      g_free (pieces->pdata[pieces->len - 1]);
      pieces->pdata[pieces->len - 1] = longer;
    }
  }
}

static GPtrArray *
cut_line (const char *line, Cut cut)
{
  GPtrArray *pieces = g_ptr_array_new_with_free_func (g_free);

  if (cut == CUT_SPACE) {
    cut_at_spaces (line, pieces);
    return pieces;
  }
  const char sign[] = {cut_signs[cut], '\0'};
  g_auto (GStrv) parts = g_strsplit (line, sign, -1);
  for (guint i = 0; parts[i] != NULL; i++) {
    g_autofree char *piece = g_strdup (g_strstrip (parts[i]));
    gsize length = strlen (piece);
    gboolean quoted = length >= 2 && piece[0] == '"' && piece[length - 1] == '"';
    g_ptr_array_add (pieces, quoted ? g_strndup (piece + 1, length - 2) : g_steal_pointer (&piece));
  }
  /* A table may close its lines with its own sign. */
  while (pieces->len > 2 && *(const char *) g_ptr_array_index (pieces, pieces->len - 1) == '\0')
    g_ptr_array_set_size (pieces, (gint) pieces->len - 1);
  return pieces;
}

/* The unit of a heading such as "Flow (L/h)", "Flow in L/h" or "L/h" for one quantity: UNITS_PARSE_OK and the unit. */
static UnitsParseStatus
heading_unit (const char *heading, Quantity quantity, const NumberStyle *style, const Unit **ret_unit)
{
  g_autoptr (GRegex) brackets = g_regex_new ("[(\\[]\\s*([^)\\]]+?)\\s*[)\\]]", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  const char *space = strrchr (heading, ' ');
  g_autofree char *unit = g_strdup (space != NULL ? space + 1 : heading);

  if (g_regex_match (brackets, heading, 0, &match)) {
    g_free (unit);
    unit = g_match_info_fetch (match, 1);
  }
  g_autofree char *one = g_strconcat ("1 ", unit, NULL);
  UnitsParseDetail detail;
  double value = 0.0;
  UnitsParseStatus status = units_parse (one, quantity, style, NULL, &value, &detail);
  if (status == UNITS_PARSE_OK)
    *ret_unit = detail.unit;
  return status;
}

/* What a heading calls its column, by word: the trade's letters are Q for flow and H for head. */
static gboolean
heading_word (const char *heading, Column *ret_column)
{
  g_autofree char *folded = g_utf8_casefold (heading, -1);
  g_autofree char *flow = g_utf8_casefold (_ ("Flow"), -1);
  g_autofree char *head = g_utf8_casefold (_ ("Head"), -1);
  gboolean is_flow = g_str_has_prefix (folded, "flow") || g_str_has_prefix (folded, flow) ||
                     g_regex_match_simple ("^q\\b", folded, 0, 0);
  gboolean is_head = g_str_has_prefix (folded, "head") || g_str_has_prefix (folded, head) ||
                     g_regex_match_simple ("^h\\b", folded, 0, 0);

  if (is_flow == is_head)
    return FALSE;
  *ret_column = is_flow ? COLUMN_FLOW : COLUMN_HEAD;
  return TRUE;
}

/* Which column a heading stands over, and its unit where it names one. */
static gboolean
read_heading_piece (const Attempt *attempt, const char *heading, guint line, Column *ret_column,
                    const Unit **ret_unit, GError **error)
{
  Column named = N_COLUMNS;
  gboolean has_name = heading_word (heading, &named);
  guint matches = 0;

  for (Column column = 0; column < N_COLUMNS; column++) {
    const Unit *unit = NULL;
    if (has_name && column != named)
      continue;
    UnitsParseStatus status = heading_unit (heading, column_quantity[column], attempt->style, &unit);
    if (status == UNITS_PARSE_AMBIGUOUS)
      return files_error_set (
          error, FILES_ERROR_AMBIGUOUS, given_name (), line,
          _ ("the unit of “%s” can be read in more than one way; write it out, such as “us_gph”."), heading);
    if (status == UNITS_PARSE_OK) {
      *ret_column = column;
      *ret_unit = unit;
      matches++;
    }
  }
  if (matches == 0 && has_name)
    *ret_column = named;
  if (matches == 1 || has_name)
    return TRUE;
  return files_error_set (
      error, FILES_ERROR_BAD_VALUE, given_name (), line,
      _ ("the heading “%s” names neither a flow nor a head with a known unit; write it like "
         "“Flow (L/h)” or “Head (m)”."),
      heading);
}

static gboolean
two_columns (const GPtrArray *pieces, guint line, GError **error)
{
  if (pieces->len == 2)
    return TRUE;
  return files_error_set (
      error, FILES_ERROR_BAD_VALUE, given_name (), line,
      _ ("a flow and a head are expected here, two values set apart by a tab or a semicolon."));
}

static gboolean
read_heading (Attempt *attempt, const char *text, guint line, GError **error)
{
  g_autoptr (GPtrArray) pieces = cut_line (text, attempt->cut);

  if (!two_columns (pieces, line, error))
    return FALSE;
  for (guint i = 0; i < 2; i++) {
    const Unit *unit = NULL;
    if (!read_heading_piece (attempt, g_ptr_array_index (pieces, i), line, &attempt->order[i], &unit, error))
      return FALSE;
    if (unit != NULL)
      attempt->unit[attempt->order[i]] = unit;
  }
  if (attempt->order[0] == attempt->order[1])
    return files_error_set (error, FILES_ERROR_BAD_VALUE, given_name (), line,
                            _ ("both columns are headed alike; one must be a flow and the other a head."));
  attempt->headed = TRUE;
  return TRUE;
}

static gboolean
read_value (const Attempt *attempt, const char *text, Column column, guint line, double *ret, GError **error)
{
  UnitsParseDetail detail;
  UnitsParseStatus status =
      units_parse (text, column_quantity[column], attempt->style, attempt->unit[column], ret, &detail);

  if (status == UNITS_PARSE_OK && *ret >= 0.0)
    return TRUE;
  if (status == UNITS_PARSE_OK)
    return files_error_set (error, FILES_ERROR_BAD_VALUE, given_name (), line,
                            _ ("“%s” is below zero, which no point of a pump curve is."), text);
  if (status == UNITS_PARSE_AMBIGUOUS && attempt->unit[column] == NULL && starts_number (text))
    return files_error_set (error, FILES_ERROR_AMBIGUOUS, given_name (), line,
                            _ ("“%s” can be read in more than one way; write its unit, or a heading such as "
                               "“Flow (L/h); Head (m)”."),
                            text);
  if (status == UNITS_PARSE_AMBIGUOUS)
    return files_error_set (
        error, FILES_ERROR_AMBIGUOUS, given_name (), line,
        _ ("“%s” can be read in more than one way; write it without signs between groups of "
           "digits, and with its unit."),
        text);
  return files_error_set (error, FILES_ERROR_BAD_VALUE, given_name (), line,
                          /* Translators: what was typed, and why it cannot be read */
                          column == COLUMN_FLOW ? _ ("“%s” is not a flow: %s.")
                                                : _ ("“%s” is not a head: %s."),
                          text, _ (units_parse_status_text (status)));
}

static gboolean
read_point (Attempt *attempt, const char *text, guint line, GError **error)
{
  g_autoptr (GPtrArray) pieces = cut_line (text, attempt->cut);
  double value[N_COLUMNS] = {0.0};

  if (!two_columns (pieces, line, error))
    return FALSE;
  for (guint i = 0; i < 2; i++)
    if (!read_value (attempt, g_ptr_array_index (pieces, i), attempt->order[i], line,
                     &value[attempt->order[i]], error))
      return FALSE;
  if (attempt->points->len >= MAX_CURVE_POINTS)
    return files_error_set (error, FILES_ERROR_TOO_LARGE, given_name (), line,
                            _ ("a pump curve has at most %d points; leave some out."), MAX_CURVE_POINTS);
  PumpPoint point = {.flow_m3s = value[COLUMN_FLOW], .head_m = value[COLUMN_HEAD], .line = line};
  g_array_append_val (attempt->points, point);
  return TRUE;
}

static gint
by_flow (gconstpointer a, gconstpointer b)
{
  const PumpPoint *first = a;
  const PumpPoint *second = b;

  return (first->flow_m3s > second->flow_m3s) - (first->flow_m3s < second->flow_m3s);
}

/* What the design layer asks of a curve, said of the line that breaks it. */
static gboolean
check_points (GArray *points, GError **error)
{
  if (points->len < 2)
    return files_error_set (error, FILES_ERROR_BAD_VALUE, given_name (), 0,
                            _ ("a pump curve needs at least two points, one on each line."));
  g_array_sort (points, by_flow);
  for (guint i = 1; i < points->len; i++) {
    const PumpPoint *before = &g_array_index (points, PumpPoint, i - 1);
    const PumpPoint *point = &g_array_index (points, PumpPoint, i);
    if (point->flow_m3s <= before->flow_m3s)
      return files_error_set (error, FILES_ERROR_BAD_VALUE, given_name (), MAX (point->line, before->line),
                              _ ("this flow is given twice; keep one of the two points."));
    if (point->head_m > before->head_m)
      return files_error_set (
          error, FILES_ERROR_BAD_VALUE, given_name (), point->line,
          _ ("the head rises with the flow here, which no pump curve does; check the point."));
  }
  return TRUE;
}

static gboolean
attempt_read (Attempt *attempt, char **lines, GError **error)
{
  for (guint i = 0; lines[i] != NULL; i++) {
    g_autofree char *line = g_strdup (lines[i]);
    char *comment = strchr (line, '#');
    if (comment != NULL)
      *comment = '\0';
    g_strstrip (line);
    if (*line == '\0')
      continue;
    gboolean heading = !starts_number (line[0] == '"' ? line + 1 : line);
    if (heading && (attempt->headed || attempt->points->len > 0))
      return files_error_set (error, FILES_ERROR_BAD_VALUE, given_name (), i + 1,
                              _ ("“%s” is not a point; only the first line may be a heading."), line);
    if (!(heading ? read_heading (attempt, line, i + 1, error) : read_point (attempt, line, i + 1, error)))
      return FALSE;
  }
  return check_points (attempt->points, error);
}

static char *
curve_text (const GArray *points)
{
  GString *curve = g_string_new (NULL);
  char buffer[UNITS_SHORTEST_SIZE];

  for (guint i = 0; i < points->len; i++) {
    const PumpPoint *point = &g_array_index (points, PumpPoint, i);
    g_string_append_printf (curve, "%s%s", i > 0 ? " " : "", units_shortest (point->flow_m3s, buffer));
    g_string_append_printf (curve, ":%s", units_shortest (point->head_m, buffer));
  }
  return g_string_free (curve, FALSE);
}

/* The curve that one way of cutting gives, or NULL. */
static char *
attempt_curve (Cut cut, char **lines, const NumberStyle *style, const Unit *flow_unit, const Unit *head_unit,
               GError **error)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (PumpPoint));
  Attempt attempt = {.style = style,
                     .unit = {flow_unit, head_unit},
                     .order = {COLUMN_FLOW, COLUMN_HEAD},
                     .cut = cut,
                     .points = points};

  if (!attempt_read (&attempt, lines, error))
    return NULL;
  g_autofree char *curve = curve_text (points);
  char *canonical = curve_canonical (curve);
  if (canonical == NULL)
    files_error_set (
        error, FILES_ERROR_BAD_VALUE, given_name (), 0,
        _ ("a flow or head is far beyond any pump of this kind, or no head is left; check the units."));
  return canonical;
}

/* A comma can be a sign between columns or within a number: both are tried, and one must fail. */
static char *
comma_or_space (char **lines, const NumberStyle *style, const Unit *flow_unit, const Unit *head_unit,
                GError **error)
{
  g_autoptr (GError) comma_error = NULL;
  g_autoptr (GError) space_error = NULL;
  g_autofree char *by_comma = attempt_curve (CUT_COMMA, lines, style, flow_unit, head_unit, &comma_error);
  g_autofree char *by_space = attempt_curve (CUT_SPACE, lines, style, flow_unit, head_unit, &space_error);

  if (by_comma != NULL && by_space != NULL && strcmp (by_comma, by_space) != 0) {
    files_error_set (
        error, FILES_ERROR_AMBIGUOUS, given_name (), 0,
        _ ("the commas can stand between columns or within numbers; set the columns apart by semicolons."));
    return NULL;
  }
  if (by_comma != NULL || by_space != NULL)
    return by_comma != NULL ? g_steal_pointer (&by_comma) : g_steal_pointer (&by_space);
  /* The attempt that got as far as reading values knows better what is wrong. */
  gboolean comma_cuts = g_error_matches (space_error, FILES_ERROR, FILES_ERROR_BAD_VALUE) &&
                        !g_error_matches (comma_error, FILES_ERROR, FILES_ERROR_BAD_VALUE);
  g_propagate_error (error, comma_cuts ? g_steal_pointer (&comma_error) : g_steal_pointer (&space_error));
  return NULL;
}

gboolean
pump_points_parse (const char *text, const NumberStyle *style, const Unit *flow_unit, const Unit *head_unit,
                   char **ret_curve, GError **error)
{
  if (strlen (text) > FILES_MAX_PASTE)
    return files_error_set (error, FILES_ERROR_TOO_LARGE, given_name (), 0,
                            _ ("the text is longer than any pump curve; paste the table of points only."));
  if (!g_utf8_validate (text, -1, NULL))
    return files_error_set (error, FILES_ERROR_BAD_VALUE, given_name (), 0, _ ("the text is not in UTF-8."));
  g_auto (GStrv) lines =
      g_strsplit_set (g_str_has_prefix (text, "\ufeff") ? text + strlen ("\ufeff") : text, "\n\r", -1);
  char *curve = NULL;
  if (strchr (text, '\t') != NULL)
    curve = attempt_curve (CUT_TAB, lines, style, flow_unit, head_unit, error);
  else if (strchr (text, ';') != NULL)
    curve = attempt_curve (CUT_SEMICOLON, lines, style, flow_unit, head_unit, error);
  else if (strchr (text, ',') != NULL)
    curve = comma_or_space (lines, style, flow_unit, head_unit, error);
  else
    curve = attempt_curve (CUT_SPACE, lines, style, flow_unit, head_unit, error);
  if (curve == NULL)
    return FALSE;
  *ret_curve = curve;
  return TRUE;
}
