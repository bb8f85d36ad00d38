/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* How long and how much: what a rehearsal may be told, by name. */
#include "solver/scenario.h"

#include <glib.h>

#define MINUTE_S 60.0
#define HOUR_S   3600.0
#define DAY_S    86400.0

typedef struct {
  const char *name;
  Quantity quantity;
  double least, most, usual;
  gsize offset;
} Option;

static const Option options_table[] = {
    {"power-off-time", QUANTITY_TIME, 1, 30 * DAY_S, 30 * MINUTE_S,
     G_STRUCT_OFFSET (FailureOptions, power_off_s)},
    {"block-time", QUANTITY_TIME, 0, 30 * DAY_S, 10 * MINUTE_S, G_STRUCT_OFFSET (FailureOptions, block_s)},
    {"top-off-flow", QUANTITY_FLOW, 1e-7, 0.01, 1e-3 / 60, G_STRUCT_OFFSET (FailureOptions, top_off_m3s)},
    {"outlet-drop", QUANTITY_LENGTH, 0, 2, 0.05, G_STRUCT_OFFSET (FailureOptions, outlet_drop_m)},
    {"longest-time", QUANTITY_TIME, 1, 30 * DAY_S, 2 * HOUR_S, G_STRUCT_OFFSET (FailureOptions, horizon_s)},
    {"absence", QUANTITY_TIME, 1, 400 * DAY_S, 14 * DAY_S, G_STRUCT_OFFSET (FailureOptions, absence_s)},
};

void
failure_options_init (FailureOptions *options)
{
  *options = (FailureOptions){.edge = 0};
  for (gsize i = 0; i < G_N_ELEMENTS (options_table); i++)
    G_STRUCT_MEMBER (double, options, options_table[i].offset) = options_table[i].usual;
}

bool
failure_options_set (FailureOptions *options, const char *name, double value)
{
  for (gsize i = 0; i < G_N_ELEMENTS (options_table); i++)
    if (g_strcmp0 (name, options_table[i].name) == 0) {
      if (!(value >= options_table[i].least && value <= options_table[i].most))
        return false;
      G_STRUCT_MEMBER (double, options, options_table[i].offset) = value;
      return true;
    }
  return false;
}

const char *
failure_option_name (unsigned index, Quantity *ret_quantity)
{
  if (index >= G_N_ELEMENTS (options_table))
    return NULL;
  if (ret_quantity != NULL)
    *ret_quantity = options_table[index].quantity;
  return options_table[index].name;
}
