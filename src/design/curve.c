/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/curve.h"

#include <math.h>
#include <string.h>

#include "units/parse.h"

/* Largest flow (m3/s) and head (m) of a point. */
#define MOST_FLOW_M3S 1.0
#define MOST_HEAD_M   200.0

static bool
read_point (const char *word, double *ret_flow_m3s, double *ret_head_m)
{
  g_auto (GStrv) halves = g_strsplit (word, ":", 3);

  return g_strv_length (halves) == 2 && units_parse_si (halves[0], ret_flow_m3s) &&
         units_parse_si (halves[1], ret_head_m) && *ret_flow_m3s >= 0 && *ret_flow_m3s <= MOST_FLOW_M3S &&
         *ret_head_m >= 0 && *ret_head_m <= MOST_HEAD_M;
}

bool
curve_read (const char *text, CurvePoints *ret_points)
{
  g_auto (GStrv) words = g_strsplit_set (text, " |", -1);
  CurvePoints points = {0};

  for (unsigned i = 0; words[i] != NULL; i++) {
    const unsigned n = points.n;

    if (words[i][0] == '\0')
      continue;
    if (n == MAX_CURVE_POINTS || !read_point (words[i], &points.flow_m3s[n], &points.head_m[n]))
      return false;
    if (n > 0 && (points.flow_m3s[n] <= points.flow_m3s[n - 1] || points.head_m[n] > points.head_m[n - 1]))
      return false;
    points.n++;
  }
  if (points.n < 2 || points.head_m[0] <= 0)
    return false;
  *ret_points = points;
  return true;
}

char *
curve_write (const CurvePoints *points)
{
  GString *text = g_string_new (NULL);

  for (unsigned i = 0; i < points->n; i++) {
    char flow[UNITS_SHORTEST_SIZE], head[UNITS_SHORTEST_SIZE];

    g_string_append_printf (text, "%s%s:%s", i > 0 ? " " : "", units_shortest (points->flow_m3s[i], flow),
                            units_shortest (points->head_m[i], head));
  }
  return g_string_free (text, FALSE);
}

char *
curve_canonical (const char *text)
{
  CurvePoints points;

  return curve_read (text, &points) ? curve_write (&points) : NULL;
}
