/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* `downcomer compare`: pumps side by side on the loop of a design, best first. */
#include <glib/gi18n.h>
#include <math.h>
#include <stdlib.h>

#include "cli/command.h"
#include "cli/json.h"
#include "report/words.h"
#include "solver/compare.h"

static const char *
origin_word (CompareOrigin origin)
{
  return origin == COMPARE_INSTALLED ? "installed" : origin == COMPARE_OWN ? "own" : "catalogue";
}

static const char *
row_name (const CompareRow *row)
{
  return row->name != NULL ? row->name : row->key;
}

static char *
shown_name (const CompareRow *row)
{
  return row->estimate ? words_fill (_ ("{name} (estimate)"), "name", row_name (row), NULL)
                       : g_strdup (row_name (row));
}

/* Those that reach the target without a stop finding come first, then by watts. */
static int
order (const void *a, const void *b)
{
  const CompareRow *x = a, *y = b;
  const int bad_x = (x->reaches_target ? 0 : 2) + (x->stops > 0 ? 1 : 0);
  const int bad_y = (y->reaches_target ? 0 : 2) + (y->stops > 0 ? 1 : 0);

  if (bad_x != bad_y)
    return bad_x < bad_y ? -1 : 1;
  return x->power_w < y->power_w ? -1 : x->power_w > y->power_w ? 1 : 0;
}

static char *
json_text (const CompareRow *rows, unsigned n)
{
  Json json = json_begin ();

  json_open_array (&json, NULL);
  for (unsigned i = 0; i < n; i++) {
    json_open_object (&json, NULL);
    json_string (&json, "pump", rows[i].key);
    json_string (&json, "name", row_name (&rows[i]));
    json_string (&json, "origin", origin_word (rows[i].origin));
    json_number (&json, "speed", rows[i].speed);
    json_number (&json, "target_speed", rows[i].target_speed);
    json_number (&json, "flow_m3_per_s", rows[i].flow_m3s);
    json_number (&json, "full_speed_flow_m3_per_s", rows[i].full_flow_m3s);
    json_number (&json, "head_m", rows[i].head_m);
    json_boolean (&json, "estimate", rows[i].estimate);
    json_number (&json, "turnover_per_h", rows[i].turnover_per_h);
    json_number (&json, "velocity_m_per_s", rows[i].velocity_ms);
    json_number (&json, "drain_margin", rows[i].drain_margin);
    json_number (&json, "flood_margin_m", rows[i].flood_margin_m);
    json_number (&json, "power_w", rows[i].power_w);
    json_number (&json, "yearly_cost", rows[i].yearly_cost);
    json_number (&json, "stops", rows[i].stops);
    json_number (&json, "cautions", rows[i].cautions);
    json_close_object (&json);
  }
  json_close_array (&json);
  return json_end (&json);
}

enum { N_COLUMNS = 9 };

static const int widths[N_COLUMNS] = {34, 6, 11, 9, 9, 12, 7, 11, 18};

/* Text padded to a number of columns on a terminal, cut where it is longer. */
static void
append_cell (GString *line, const char *text, int width, gboolean left)
{
  const glong length = g_utf8_strlen (text, -1);
  g_autofree char *cut = length > width ? g_utf8_substring (text, 0, width) : g_strdup (text);
  const int pad = MAX (0, width - (int) g_utf8_strlen (cut, -1));

  if (left)
    g_string_append_printf (line, "%s%*s  ", cut, pad, "");
  else
    g_string_append_printf (line, "%*s%s  ", pad, "", cut);
}

static char *
percent (double ratio)
{
  return isfinite (ratio) ? g_strdup_printf ("%.0f %%", ratio * 100) : g_strdup ("—");
}

static void
append_row (GString *text, const CompareRow *row, const NumberStyle *style)
{
  char *cells[N_COLUMNS] = {shown_name (row),
                            percent (row->speed),
                            units_format (row->flow_m3s, QUANTITY_FLOW, style, NULL, UNITS_MEASURE),
                            units_format (row->turnover_per_h, QUANTITY_TURNOVER, style, NULL, UNITS_MEASURE),
                            units_format (row->velocity_ms, QUANTITY_VELOCITY, style, NULL, UNITS_MEASURE),
                            percent (row->drain_margin),
                            units_format (row->power_w, QUANTITY_POWER, style, NULL, UNITS_MEASURE),
                            units_format (row->yearly_cost, QUANTITY_MONEY, style, NULL, UNITS_MEASURE),
                            g_strdup (row->stops > 0        ? _ ("not sound")
                                      : row->reaches_target ? _ ("sound")
                                                            : _ ("sound, off target"))};

  for (int i = 0; i < N_COLUMNS; i++) {
    append_cell (text, cells[i], widths[i], i == 0 || i == N_COLUMNS - 1);
    g_free (cells[i]);
  }
  g_string_append_c (text, '\n');
}

static char *
table_text (const CompareRow *rows, unsigned n, const NumberStyle *style)
{
  const char *heads[N_COLUMNS] = {_ ("Pump"),     _ ("Speed"),       _ ("Flow"),
                                  _ ("Turnover"), _ ("Velocity"),    _ ("Drain margin"),
                                  _ ("Power"),    _ ("Cost a year"), _ ("Verdict")};
  GString *text = g_string_new (NULL);

  for (int i = 0; i < N_COLUMNS; i++)
    append_cell (text, heads[i], widths[i], i == 0 || i == N_COLUMNS - 1);
  g_string_append_c (text, '\n');
  for (unsigned i = 0; i < n; i++)
    append_row (text, &rows[i], style);
  return g_string_free (text, FALSE);
}

int
command_compare (const Options *options)
{
  g_auto (Loaded) loaded = {0};
  g_autofree CompareRow *rows = g_new0 (CompareRow, COMPARE_MOST);
  g_autofree char *text = NULL;
  unsigned n;
  const int status = command_load (options, true, &loaded);

  if (status != CLI_OK)
    return status;
  n = compare_pumps (project_active_design (loaded.project), loaded.catalogue, rows, COMPARE_MOST);
  qsort (rows, n, sizeof *rows, order);
  text = options->json ? json_text (rows, n) : table_text (rows, n, &loaded.style);
  return command_print (text);
}
