/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Which part the person is working on: shared by canvas, inspector and findings, so that choosing in one shows in all.
 * Property "key": the key of the part, or NULL. "finding" (index in the evaluation, -1 for none) lets the canvas show
 * where a chosen finding lies. */
#pragma once

#include <glib-object.h>

#define DOWNCOMER_TYPE_SELECTION (selection_get_type ())
G_DECLARE_FINAL_TYPE (Selection, selection, DOWNCOMER, SELECTION, GObject)

Selection *selection_new (void);

/* Sets the key (NULL for nothing) and forgets the finding; notifies once and only on a change. */
void selection_set_key (Selection *selection, const char *key);
const char *selection_get_key (Selection *selection);

/* Chooses a finding and the part it judges (NULL where it judges the whole system). */
void selection_set_finding (Selection *selection, int finding, const char *key);
int selection_get_finding (Selection *selection);
