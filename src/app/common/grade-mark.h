/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The mark of a finding in lists: octagon, triangle or circle by grade, with the letter that the drawing shows, so that
 * no colour is needed to tell them apart; a tick where all is well. Its colour is that of the style class. */
#pragma once

#include <gtk/gtk.h>

#include "solver/finding.h"

#define DOWNCOMER_TYPE_GRADE_MARK (grade_mark_get_type ())
G_DECLARE_FINAL_TYPE (GradeMark, grade_mark, DOWNCOMER, GRADE_MARK, GtkWidget)

/* N_GRADES shows the tick. `letters` is copied. */
void grade_mark_set (GradeMark *mark, Grade grade, const char *letters);

/* Style class of a grade: "stop", "caution", "note", "sound". */
const char *grade_css_class (Grade grade);
