/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/proposal-words.h"

#include <glib/gi18n-lib.h>

#include "report/finding-words.h"

/* Sentence and quantity of each limit. */
static const struct {
  const char *sentence;
  Quantity quantity;
} limits[N_LIMIT_CODES] = {
    [LIMIT_NONE] = {"", QUANTITY_NONE},
    [LIMIT_TANK_SIZE] =
        {N_ ("The {axis} of the tank, {value}, is outside what can be planned here; the limit is {bound}."),
         QUANTITY_LENGTH},
    [LIMIT_STAND_SIZE] =
        {N_ ("The {axis} of the stand, {value}, is outside what can be planned here; the limit is {bound}."),
         QUANTITY_LENGTH},
    [LIMIT_TANK_STAND] =
        {N_ ("The tank overhangs the stand's inside by {value} in {axis}; more than {bound} is not planned."),
         QUANTITY_LENGTH},
    [LIMIT_SUMP_ROOM] =
        {N_ ("No sump fits: the {axis} of the stand leaves {value} for it, and {bound} is the least."),
         QUANTITY_LENGTH},
    [LIMIT_PUMP] = {N_ ("No pump of the catalogue gives {value} on this loop; the most is {bound}. Lower the "
                        "target turnover or "
                        "add a pump of your own."),
                    QUANTITY_FLOW},
    [LIMIT_DRAIN] = {N_ ("No pipe of the catalogue carries {value} down quietly and blocked; the most is "
                         "{bound}. Lower the target "
                         "turnover."),
                     QUANTITY_FLOW},
    [LIMIT_DRAIN_BACK] = {N_ ("The largest sump that fits the stand takes {bound} after a power cut, and "
                              "{value} run back. Take a "
                              "larger stand."),
                          QUANTITY_VOLUME},
    [LIMIT_FINDING] = {N_ ("The best proposal is not sound: {finding}."), QUANTITY_NONE},
};

char *
proposal_sentence (const ProposalLimit *limit, const NumberStyle *style)
{
  const char *axes[] = {C_ ("size", "length"), C_ ("size", "width"), C_ ("size", "height")};
  g_autofree char *value =
      units_format (limit->value, limits[limit->code].quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *bound =
      units_format (limit->bound, limits[limit->code].quantity, style, NULL, UNITS_MEASURE);

  return words_fill (_ (limits[limit->code].sentence), "axis", axes[MIN (limit->axis, 2)], "value", value,
                     "bound", bound, "finding", finding_title (limit->check), NULL);
}
