/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The build sheets of a design: pages for plumber, sump builder, cabinet maker and owner, laid out once and drawn page by
 * page with the painter of the screen. The window prints them, the command line writes them as PDF. */
#pragma once

#include <cairo.h>
#include <glib.h>

#include "design/catalogue.h"
#include "design/design.h"
#include "solver/evaluation.h"
#include "solver/trace.h"
#include "units/format.h"

typedef struct _Sheet Sheet;

/* Lays out all pages on the paper of the design (job.paper). `style` has the signs of the reader's locale; units follow
 * the design. `date` is printed in the title block as it is given. Keeps nothing that it is given but references. */
Sheet *sheet_new (Design *design, Catalogue *catalogue, const Evaluation *evaluation, const Trace *trace,
                  const NumberStyle *style, const char *date);
void sheet_free (Sheet *sheet);

/* Pages, their size in points (1/72 in), and what a page is for ("Plumbing"), translated. */
unsigned sheet_n_pages (const Sheet *sheet);
void sheet_paper (const Sheet *sheet, double *ret_width_pt, double *ret_height_pt);
const char *sheet_page_title (const Sheet *sheet, unsigned page);

/* Draws a page onto a context whose unit is the point, origin in the upper left corner of the paper. */
void sheet_draw_page (const Sheet *sheet, unsigned page, cairo_t *cr);

/* Writes all pages as one PDF: through `write` (as cairo_write_func_t), which may refuse. Title and creator are set; the
 * file is the same for the same input. Returns the first error of cairo or CAIRO_STATUS_SUCCESS. */
cairo_status_t sheet_write_pdf (const Sheet *sheet, cairo_write_func_t write, void *closure);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Sheet, sheet_free)
