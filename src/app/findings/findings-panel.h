/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The findings as a list: verdict and counts above, one row a finding, worst first, with the letters of the drawing.
 * Choosing one selects the part that it judges and unfolds what it means and what mends it. Rows stay, with focus and
 * choice, while the document changes. With nothing to say it shows a tick and the margins. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/document.h"
#include "app/common/selection.h"

#define DOWNCOMER_TYPE_FINDINGS_PANEL (findings_panel_get_type ())
G_DECLARE_FINAL_TYPE (FindingsPanel, findings_panel, DOWNCOMER, FINDINGS_PANEL, GtkBox)

/* Both are kept until others are set or the panel goes; NULL and NULL let go. */
void findings_panel_set_model (FindingsPanel *panel, Document *document, Selection *selection);

/* Chooses the finding after the chosen one, the first where none is chosen or the last was. */
void findings_panel_choose_next (FindingsPanel *panel);
