/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/network-private.h"

#include <string.h>

static int
compare_guints (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return (x > y) - (x < y);
}

static bool
contains (const GArray *set, guint value)
{
  for (guint i = 0; i < set->len; i++) {
    if (g_array_index (set, guint, i) == value)
      return true;
  }
  return false;
}

static void
add (GArray *set, guint value)
{
  if (!contains (set, value))
    g_array_append_val (set, value);
}

static void
drop (GArray *set, guint value)
{
  for (guint i = 0; i < set->len; i++) {
    if (g_array_index (set, guint, i) == value) {
      g_array_remove_index_fast (set, i);
      return;
    }
  }
}

/* Eliminating a junction joins all its neighbours to one another. */
static void
eliminate (GArray **neighbours, guint gone)
{
  GArray *set = neighbours[gone];

  for (guint i = 0; i < set->len; i++) {
    guint a = g_array_index (set, guint, i);
    drop (neighbours[a], gone);
    for (guint j = 0; j < set->len; j++) {
      guint b = g_array_index (set, guint, j);
      if (b != a)
        add (neighbours[a], b);
    }
  }
}

static guint
least_degree (GArray **neighbours, const guint *position, guint n)
{
  guint best = NETWORK_NONE;

  for (guint i = 0; i < n; i++) {
    if (position[i] == NETWORK_NONE && (best == NETWORK_NONE || neighbours[i]->len < neighbours[best]->len))
      best = i;
  }
  return best;
}

/* Columns from the neighbours that each junction had when it was eliminated. */
static void
fill_columns (NetworkPattern *pattern, GArray **neighbours, const guint *position, const guint *order)
{
  guint n = pattern->n, entry = 0, pair = 0;

  for (guint k = 0; k < n; k++) {
    GArray *set = neighbours[order[k]];
    pattern->start[k] = entry;
    pattern->pair_start[k] = pair;
    for (guint i = 0; i < set->len; i++)
      pattern->row[entry++] = position[g_array_index (set, guint, i)];
    qsort (pattern->row + pattern->start[k], set->len, sizeof (guint), compare_guints);
    pair += set->len * (set->len - (set->len > 0)) / 2;
  }
  pattern->start[n] = entry;
}

static void
fill_pairs (NetworkPattern *pattern)
{
  for (guint k = 0; k < pattern->n; k++) {
    guint pair = pattern->pair_start[k];
    for (guint a = pattern->start[k]; a < pattern->start[k + 1]; a++) {
      for (guint b = a + 1; b < pattern->start[k + 1]; b++)
        pattern->pair_target[pair++] = network_pattern_entry (pattern, pattern->row[a], pattern->row[b]);
    }
  }
}

void
network_pattern_init (NetworkPattern *pattern, guint n, guint n_pairs, const guint (*pairs)[2],
                      guint *ret_order)
{
  GArray **neighbours = g_new (GArray *, n + 1);
  guint *position = g_new (guint, n + 1);
  guint n_entries = 0, n_targets = 0;

  for (guint i = 0; i < n; i++) {
    neighbours[i] = g_array_new (FALSE, FALSE, sizeof (guint));
    position[i] = NETWORK_NONE;
  }
  for (guint i = 0; i < n_pairs; i++) {
    add (neighbours[pairs[i][0]], pairs[i][1]);
    add (neighbours[pairs[i][1]], pairs[i][0]);
  }
  for (guint k = 0; k < n; k++) {
    guint gone = least_degree (neighbours, position, n);
    guint degree = neighbours[gone]->len;
    position[gone] = k;
    ret_order[k] = gone;
    eliminate (neighbours, gone);
    n_entries += degree;
    n_targets += degree * (degree - (degree > 0)) / 2;
  }

  *pattern = (NetworkPattern){.n = n, .n_entries = n_entries};
  pattern->start = g_new0 (guint, n + 1);
  pattern->pair_start = g_new0 (guint, n + 1);
  pattern->row = g_new0 (guint, n_entries + 1);
  pattern->pair_target = g_new0 (guint, n_targets + 1);
  fill_columns (pattern, neighbours, position, ret_order);
  fill_pairs (pattern);
  for (guint i = 0; i < n; i++)
    g_array_unref (neighbours[i]);
  g_free (neighbours);
  g_free (position);
}

void
network_pattern_clear (NetworkPattern *pattern)
{
  g_free (pattern->start);
  g_free (pattern->row);
  g_free (pattern->pair_start);
  g_free (pattern->pair_target);
  *pattern = (NetworkPattern){0};
}

guint
network_pattern_entry (const NetworkPattern *pattern, guint a, guint b)
{
  guint column = MIN (a, b), row = MAX (a, b);

  for (guint i = pattern->start[column]; i < pattern->start[column + 1]; i++) {
    if (pattern->row[i] == row)
      return i;
  }
  return pattern->n_entries;
}

/* What is left of a diagonal when nothing outside ties the columns before it and itself down: rounding alone. */
#define NOTHING_LEFT 1e-13

guint
network_pattern_solve (const NetworkPattern *pattern, double *restrict diagonal, double *restrict entries,
                       double *restrict inverse, double *restrict right)
{
  const guint *start = pattern->start, *row = pattern->row, *target = pattern->pair_target;

  for (guint k = 0; k < pattern->n; k++)
    inverse[k] = NOTHING_LEFT * diagonal[k];
  for (guint k = 0; k < pattern->n; k++) {
    guint first = start[k], end = start[k + 1];
    if (!(diagonal[k] > inverse[k])) {
      if (isnan (diagonal[k]))
        return k;
      for (guint a = first; a < end; a++)
        entries[a] = 0.0;
      target += (end - first) * (end - first - (end > first)) / 2;
      inverse[k] = 0.0;
      continue;
    }
    double scale = 1.0 / diagonal[k], known = right[k];
    inverse[k] = scale;
    for (guint a = first; a < end; a++) {
      double value = entries[a], factor = value * scale;
      diagonal[row[a]] -= factor * value;
      right[row[a]] -= factor * known;
      for (guint b = a + 1; b < end; b++)
        entries[*target++] -= factor * entries[b];
      entries[a] = factor;
    }
  }
  for (guint k = pattern->n; k-- > 0;) {
    double value = right[k] * inverse[k];
    for (guint a = start[k]; a < start[k + 1]; a++)
      value -= entries[a] * right[row[a]];
    right[k] = value;
  }
  return NETWORK_NONE;
}
