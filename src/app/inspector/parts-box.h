/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The parts that belong to a part (chambers and baffles of a sump, corners and fittings of a run), or with no part all
 * of a design in the order in which water flows: buttons that select, remove, and add. Every edit is one undo step. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/document.h"
#include "app/common/selection.h"

#define DOWNCOMER_TYPE_PARTS_BOX (parts_box_get_type ())
G_DECLARE_FINAL_TYPE (PartsBox, parts_box, DOWNCOMER, PARTS_BOX, GtkBox)

/* Document and selection must outlive the box. */
GtkWidget *parts_box_new (Document *document, Selection *selection);

/* Lists the parts of `key`, or all for NULL. Rows stay where keys stay. */
void parts_box_refresh (PartsBox *box, const char *key);

/* The sentence that says why the last edit was refused, or NULL. */
const char *parts_box_get_problem (PartsBox *box);

/* Parts in the order of the water: each followed by those it owns. Array of borrowed keys, ended by NULL; `ret_depths`
 * (may be NULL) gets how deep each lies, to be freed with g_free. Valid as long as the design. */
const char **parts_in_order (const Design *design, unsigned **ret_depths);
