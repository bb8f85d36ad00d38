/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The stage of the rehearsals: the front elevation with the water of one moment, without dimensions, names and findings.
 * It always shows the whole system. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/theme.h"
#include "design/catalogue.h"
#include "solver/evaluation.h"
#include "units/format.h"

#define DOWNCOMER_TYPE_REHEARSAL_STAGE (rehearsal_stage_get_type ())
G_DECLARE_FINAL_TYPE (RehearsalStage, rehearsal_stage, DOWNCOMER, REHEARSAL_STAGE, GtkWidget)

void rehearsal_stage_set_theme (RehearsalStage *stage, Theme *theme);

/* Shows a moment (rehearsal_show); all is read before it returns. `moment` may be NULL: then no water is known. `puddle` is
 * what lies on the floor, in words, or NULL; `words` say the moment to whoever cannot see it. */
void rehearsal_stage_show (RehearsalStage *stage, const Design *design, const Catalogue *catalogue,
                           const Evaluation *moment, const NumberStyle *style, const char *puddle,
                           const char *words);
