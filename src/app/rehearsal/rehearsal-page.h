/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rehearsals: every failure that can happen to the design with what it comes to, and one of them played on the drawing,
 * with its levels over time, its events and what would mend it. Two failures may happen together, and another option or a
 * remedy may be laid beside it. Computed beside the main loop, and only while the page is seen.
 * Actions: rehearsal.play, rehearsal.next-event, rehearsal.previous-event, rehearsal.mend (i: of the remedy). */
#pragma once

#include <gtk/gtk.h>

#include "app/common/document.h"
#include "app/common/theme.h"
#include "app/rehearsal/rehearsal-play.h"

#define DOWNCOMER_TYPE_REHEARSAL_PAGE (rehearsal_page_get_type ())
G_DECLARE_FINAL_TYPE (RehearsalPage, rehearsal_page, DOWNCOMER, REHEARSAL_PAGE, GtkBox)

/* Rehearses the active design of a document; `theme` may be NULL. */
void rehearsal_page_set_model (RehearsalPage *page, Document *document, Theme *theme);

/* Chooses a failure, as a click on its row does. */
void rehearsal_page_choose (RehearsalPage *page, FailureId failure);

/* What is shown: the play, or NULL while it is computed, and the moment in seconds. */
RehearsalPlay *rehearsal_page_get_play (RehearsalPage *page);
double rehearsal_page_get_now (RehearsalPage *page);
void rehearsal_page_seek (RehearsalPage *page, double time_s);

/* Whether it plays. */
gboolean rehearsal_page_is_playing (RehearsalPage *page);
