/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/sheet.h"

#include <cairo-pdf.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#include "design/choices.h"
#include "design/draft.h"
#include "report/words.h"
#include "sheet/build.h"
#include "sheet/frame.h"
#include "sheet/sheet-private.h"

/* A date that a PDF can hold stands for one that cannot be read: the file must not change with the clock. */
#define NO_DATE "2000-01-01"

/* Letters of a part's name on a sheet. */
#define LONGEST_NAME 28

struct _Sheet {
  Paper paper;
  TextEngine *engine;
  GPtrArray *pages;
  char *title, *creator, *date;
};

/* The design with names that a drawing and a table can hold; parts keep their order. */
static Design *
with_short_names (Design *design)
{
  g_autoptr (Draft) draft = NULL;
  Design *named = NULL;

  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *part = design_part (design, i);
    const char *label = part_label (part);

    if (label == NULL || g_utf8_strlen (label, -1) <= LONGEST_NAME)
      continue;
    g_autofree char *head = g_utf8_substring (label, 0, LONGEST_NAME - 1);
    g_autofree char *name = g_strconcat (g_strchomp (head), "…", NULL);

    if (draft == NULL)
      draft = draft_new (design);
    draft_set_label (draft, part_key (part), name, NULL);
  }
  if (draft != NULL)
    named = draft_commit (draft, NULL);
  return named != NULL ? named : design_ref (design);
}

static void
plumbing_pages (void *build)
{
  build_plumbing_pages (build);
}

static void
sump_pages (void *build)
{
  build_sump_pages (build);
}

static void
stand_pages (void *build)
{
  build_stand_pages (build);
}

static void
commissioning_pages (void *build)
{
  build_commissioning_pages (build);
}

static void
lay_out (Build *build)
{
  build_arrangement_page (build);
  build_view_pages (build);
  flow_balanced (&build->flow, plumbing_pages, build);
  flow_balanced (&build->flow, sump_pages, build);
  flow_balanced (&build->flow, stand_pages, build);
  build_findings_pages (build);
  build_rehearsal_pages (build);
  flow_balanced (&build->flow, commissioning_pages, build);
  build_calculation_pages (build);
}

static void
add_frames (Sheet *sheet, const Design *design, const Part *job)
{
  const TitleWords words = {.owner = design_text (design, job, FIELD_JOB_OWNER),
                            .title = sheet->title,
                            .number = design_text (design, job, FIELD_JOB_NUMBER),
                            .revision = design_text (design, job, FIELD_JOB_REVISION),
                            .creator = design_text (design, job, FIELD_JOB_CREATOR),
                            .date = sheet->date};

  for (unsigned i = 0; i < sheet->pages->len; i++)
    frame_draw (g_ptr_array_index (sheet->pages, i), sheet->engine, &sheet->paper, &words, i + 1,
                sheet->pages->len);
}

Sheet *
sheet_new (Design *design, Catalogue *catalogue, const Evaluation *evaluation, const Trace *trace,
           const NumberStyle *style, const char *date)
{
  Sheet *sheet = g_new0 (Sheet, 1);
  const Part *job = design_nth (design, PART_JOB, 0);
  const bool us = design_choice (design, job, FIELD_JOB_UNITS) == UNITS_CHOICE_US;
  const char *title = design_text (design, job, FIELD_JOB_TITLE);
  g_autoptr (Design) named = with_short_names (design);
  g_autofree Rehearsed *rehearsed = build_rehearse (named, catalogue, evaluation);
  Build build = {.design = named,
                 .catalogue = catalogue,
                 .evaluation = evaluation,
                 .trace = trace,
                 .rehearsed = rehearsed};

  sheet->paper = paper_new (design_choice (design, job, FIELD_JOB_PAPER) == PAPER_LETTER, us);
  sheet->engine = text_engine_new (true);
  sheet->title = g_strdup (title != NULL && title[0] != '\0' ? title : _ ("Aquarium system"));
  sheet->creator = g_strdup (design_text (design, job, FIELD_JOB_CREATOR));
  sheet->date = g_strdup (date != NULL ? date : "");
  build.style = words_style (design, style);
  build.engine = sheet->engine;
  flow_init (&build.flow, sheet->engine, frame_content (&sheet->paper));
  lay_out (&build);
  sheet->pages = g_ptr_array_ref (build.flow.pages);
  flow_clear (&build.flow);
  add_frames (sheet, design, job);
  return sheet;
}

void
sheet_free (Sheet *sheet)
{
  if (sheet == NULL)
    return;
  g_ptr_array_unref (sheet->pages);
  text_engine_free (sheet->engine);
  g_free (sheet->title);
  g_free (sheet->creator);
  g_free (sheet->date);
  g_free (sheet);
}

unsigned
sheet_n_pages (const Sheet *sheet)
{
  return sheet->pages->len;
}

void
sheet_paper (const Sheet *sheet, double *ret_width_pt, double *ret_height_pt)
{
  *ret_width_pt = sheet->paper.width;
  *ret_height_pt = sheet->paper.height;
}

const Page *
sheet_page (const Sheet *sheet, unsigned page)
{
  return page < sheet->pages->len ? g_ptr_array_index (sheet->pages, page) : NULL;
}

const char *
sheet_page_title (const Sheet *sheet, unsigned page)
{
  return page < sheet->pages->len ? sheet_page (sheet, page)->title : "";
}

void
sheet_draw_page (const Sheet *sheet, unsigned page, cairo_t *cr)
{
  if (page < sheet->pages->len)
    page_draw (sheet_page (sheet, page), sheet->engine, cr);
}

/* PDF */

static bool
is_iso_date (const char *date)
{
  static const char form[] = "dddd-dd-dd";

  if (strlen (date) != strlen (form))
    return false;
  for (unsigned i = 0; form[i] != '\0'; i++)
    if (form[i] == 'd' ? !g_ascii_isdigit (date[i]) : date[i] != form[i])
      return false;
  return true;
}

static void
set_metadata (const Sheet *sheet, cairo_surface_t *surface)
{
  g_autofree char *day = g_strconcat (is_iso_date (sheet->date) ? sheet->date : NO_DATE, "T00:00:00Z", NULL);

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, sheet->title);
  if (sheet->creator != NULL && sheet->creator[0] != '\0')
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, sheet->creator);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Downcomer");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, day);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, day);
}

/* Keeps the first refusal: cairo 1.16 forgets what is refused at the end of the file. */
typedef struct {
  cairo_write_func_t write;
  void *closure;
  cairo_status_t status;
} Watched;

static cairo_status_t
write_watched (void *data, const unsigned char *bytes, unsigned length)
{
  Watched *watched = data;

  if (watched->status == CAIRO_STATUS_SUCCESS)
    watched->status = watched->write (watched->closure, bytes, length);
  return watched->status;
}

cairo_status_t
sheet_write_pdf (const Sheet *sheet, cairo_write_func_t write, void *closure)
{
  Watched watched = {write, closure, CAIRO_STATUS_SUCCESS};
  cairo_surface_t *surface =
      cairo_pdf_surface_create_for_stream (write_watched, &watched, sheet->paper.width, sheet->paper.height);
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status, drawn;

  set_metadata (sheet, surface);
  for (unsigned i = 0; i < sheet->pages->len; i++) {
    sheet_draw_page (sheet, i, cr);
    cairo_show_page (cr);
  }
  drawn = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (watched.status != CAIRO_STATUS_SUCCESS)
    return watched.status;
  return status != CAIRO_STATUS_SUCCESS ? status : drawn;
}
