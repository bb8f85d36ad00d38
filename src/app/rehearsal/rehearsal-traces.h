/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The chart of levels or flows over the time of a rehearsal as a widget; the second of two is thin. Pointer and arrow keys move the
 * moment: signal "sought" (double: seconds). */
#pragma once

#include <gtk/gtk.h>

#include "app/common/theme.h"
#include "app/rehearsal/rehearsal-play.h"
#include "units/format.h"

#define DOWNCOMER_TYPE_REHEARSAL_TRACES (rehearsal_traces_get_type ())
G_DECLARE_FINAL_TYPE (RehearsalTraces, rehearsal_traces, DOWNCOMER, REHEARSAL_TRACES, GtkWidget)

void rehearsal_traces_set_theme (RehearsalTraces *traces, Theme *theme);

typedef enum { TRACES_LEVELS, TRACES_FLOWS } TracesKind;

/* What is charted from the next play on: levels, or what pumps and drains carry. */
void rehearsal_traces_set_kind (RehearsalTraces *traces, TracesKind kind);

/* Shows a play and, in thin lines, another (either may be NULL) on an axis that ends with the longer. */
void rehearsal_traces_set (RehearsalTraces *traces, RehearsalPlay *play, RehearsalPlay *other,
                           const NumberStyle *style);

/* Moves the cursor. */
void rehearsal_traces_set_now (RehearsalTraces *traces, double time_s);

/* The end of the axis, seconds. */
double rehearsal_traces_get_end (RehearsalTraces *traces);

/* The letter of an event as it is marked: A, B ... Z, AA ... Free with g_free. */
char *rehearsal_event_letter (unsigned index);
