/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Which parts the person is working on: shared by canvas, inspector and findings, so that choosing in one shows in all.
 * Property "key": the key of the part in work, or NULL. "others" counts up whenever the further parts chosen beside it
 * change. "finding" (index in the evaluation, -1 for none) lets the canvas show where a chosen finding lies. */
#pragma once

#include <glib-object.h>

#define DOWNCOMER_TYPE_SELECTION (selection_get_type ())
G_DECLARE_FINAL_TYPE (Selection, selection, DOWNCOMER, SELECTION, GObject)

Selection *selection_new (void);

/* Sets the key (NULL for nothing) and forgets the finding; notifies once and only on a change. */
void selection_set_key (Selection *selection, const char *key);
const char *selection_get_key (Selection *selection);

/* Further parts beside the one in work: adds a part (it becomes the one in work), or takes it out where it is chosen
 * already. */
void selection_toggle (Selection *selection, const char *key);

/* Chooses all of these; the first is the one in work. None: nothing is chosen. */
void selection_set_keys (Selection *selection, const char *const *keys);

gboolean selection_contains (Selection *selection, const char *key);
guint selection_count (Selection *selection);

/* The chosen keys, the one in work first, ended by NULL; valid until the next change. */
const char *const *selection_get_keys (Selection *selection);

/* Chooses a finding and the part it judges (NULL where it judges the whole system). */
void selection_set_finding (Selection *selection, int finding, const char *key);
int selection_get_finding (Selection *selection);
