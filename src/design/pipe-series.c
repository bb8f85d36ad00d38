/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/pipe-series.h"

#include <string.h>

gsize
pipe_series_length (const char *key)
{
  const char *hyphen = strchr (key, '-');

  return hyphen != NULL ? (gsize) (hyphen - key) + 1 : 0;
}

/* What follows the size in a key: "-sdr21" of "metric-50-sdr21". Metric sizes of one series differ in the number alone. */
static const char *
walls (const char *key)
{
  const char *last = strrchr (key, '-');

  return last != NULL && g_ascii_isalpha (last[1]) ? last : "";
}

static gboolean
is_of_series (const PipeSize *size, const PipeSize *model)
{
  const gsize length = pipe_series_length (model->key);

  return strncmp (size->key, model->key, length) == 0 && strcmp (walls (size->key), walls (model->key)) == 0;
}

static int
by_bore (gconstpointer a, gconstpointer b)
{
  const PipeSize *one = *(const PipeSize *const *) a, *other = *(const PipeSize *const *) b;

  return one->inside_m < other->inside_m ? -1 : one->inside_m > other->inside_m;
}

GPtrArray *
pipe_series (const Catalogue *catalogue, const char *key)
{
  const PipeSize *model = key != NULL ? catalogue_find_pipe (catalogue, key) : NULL;
  GPtrArray *sizes = g_ptr_array_new ();

  for (unsigned i = 0; model != NULL && i < catalogue_n_pipes (catalogue); i++)
    if (is_of_series (catalogue_pipe (catalogue, i), model))
      g_ptr_array_add (sizes, (gpointer) catalogue_pipe (catalogue, i));
  g_ptr_array_sort (sizes, by_bore);
  return sizes;
}

const PipeSize *
pipe_series_step (const Catalogue *catalogue, const char *key, int steps)
{
  g_autoptr (GPtrArray) sizes = pipe_series (catalogue, key);

  for (guint i = 0; i < sizes->len; i++) {
    const PipeSize *size = g_ptr_array_index (sizes, i);
    const int at = (int) i + steps;

    if (strcmp (size->key, key) == 0)
      return at >= 0 && at < (int) sizes->len ? g_ptr_array_index (sizes, at) : NULL;
  }
  return NULL;
}
