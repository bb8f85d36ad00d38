/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the canvas says of a part: its key figures, shown or spoken, and the worst finding on it. */
#pragma once

#include "design/draft.h"
#include "report/words.h"

/* The finding of the worst grade that judges this part, or NULL. `evaluation` may be NULL. */
const Finding *canvas_worst_finding (const Evaluation *evaluation, int part);

/* The key figures of a part in one line ("Head over the crest 11 mm, freeboard 24 mm"); spoken ones have their units in
 * words. NULL where nothing is known. `evaluation` may be NULL. Free with g_free. */
char *canvas_figures (const Design *design, const Evaluation *evaluation, const Part *part,
                      const NumberStyle *style, gboolean spoken);

/* What a screen reader says after the name of a part: worst finding, figures, and from where to where water goes; "" where
 * there is none of it. */
char *canvas_description (const Design *design, const Evaluation *evaluation, const Part *part,
                          const NumberStyle *style);

/* Name, figures and worst finding as lines of Pango markup, for a tooltip. */
char *canvas_tooltip (const Design *design, const Evaluation *evaluation, const Part *part,
                      const NumberStyle *style);

/* Why a value was refused, as one sentence with the limit where there is one. */
char *canvas_problem (const Problem *problem, const NumberStyle *style);
