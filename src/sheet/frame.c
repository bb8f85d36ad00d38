/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/frame.h"

#include <glib/gi18n-lib.h>

#include "sheet/paragraph.h"

#define INCH 72.0

/* ISO 5457: 20 mm on the side that is filed, 10 mm on the others. */
#define MARGIN_LEFT (20 * SHEET_MM)
#define MARGIN      (10 * SHEET_MM)

/* Letter is shorter: room for three holes is left, half an inch. */
#define MARGIN_LETTER (INCH / 2)

/* ISO 7200: 180 mm wide. Three rows. */
#define BLOCK_WIDTH (180 * SHEET_MM)
#define ROW_HEIGHT  (8.4 * SHEET_MM)
#define BLOCK_ROWS  3
#define PADDING     (1.2 * SHEET_MM)

#define CONTENT_PADDING (3.5 * SHEET_MM)

Paper
paper_new (bool letter, bool us)
{
  if (letter)
    return (Paper){11 * INCH, 8.5 * INCH, us};
  return (Paper){297 * SHEET_MM, 210 * SHEET_MM, us};
}

static bool
is_letter (const Paper *paper)
{
  return paper->width < 290 * SHEET_MM;
}

Rect
frame_inside (const Paper *paper)
{
  const double left = is_letter (paper) ? MARGIN_LETTER : MARGIN_LEFT;

  return (Rect){left, MARGIN, paper->width - left - MARGIN, paper->height - 2 * MARGIN};
}

Rect
frame_content (const Paper *paper)
{
  Rect inside = frame_inside (paper);

  return (Rect){inside.x + CONTENT_PADDING, inside.y + CONTENT_PADDING, inside.width - 2 * CONTENT_PADDING,
                inside.height - BLOCK_ROWS * ROW_HEIGHT - 2 * CONTENT_PADDING};
}

/* Divisions of 10 mm or half an inch, every other filled, in the margin under the frame, symmetric about its centring mark. */
static void
draw_bar (Page *page, const Paper *paper)
{
  Rect inside = frame_inside (paper);
  double step = paper->us ? INCH / 2 : 10 * SHEET_MM, height = 2.5 * SHEET_MM;
  unsigned n = paper->us ? 8 : 10;
  double x = inside.x + inside.width / 2 - n * step / 2, y = inside.y + inside.height + 1.2 * SHEET_MM;

  page_box (page, (Rect){x, y, n * step, height}, LINE_NARROW);
  for (unsigned i = 0; i < n; i += 2)
    page_filled_box (page, (Rect){x + i * step, y, step, height});
}

static void
draw_centring_marks (Page *page, const Paper *paper)
{
  Rect in = frame_inside (paper);
  double x = in.x + in.width / 2, y = in.y + in.height / 2, reach = 5 * SHEET_MM;

  page_line (page, x, in.y - reach, x, in.y + reach / 2, LINE_FRAME);
  page_line (page, in.x - reach, y, in.x + reach / 2, y, LINE_FRAME);
  page_line (page, in.x + in.width - reach / 2, y, in.x + in.width + reach, y, LINE_FRAME);
}

/* Truncated cone and its view from the left, where its small end is: that view stands to the right of the cone in
 * first-angle projection, to its left in third-angle. */
static void
draw_projection (Page *page, double x, double y, bool third)
{
  const double unit = 1.05 * SHEET_MM, small = 1.6 * unit, large = 3.2 * unit, length = 6 * unit;
  double cone = third ? x + 2 * large + 3 * unit : x,
         circle = third ? x + large : x + length + 3 * unit + large;
  double middle = y + large;

  page_line (page, cone, middle - small, cone + length, middle - large, LINE_WIDE);
  page_line (page, cone, middle + small, cone + length, middle + large, LINE_WIDE);
  page_line (page, cone, middle - small, cone, middle + small, LINE_WIDE);
  page_line (page, cone + length, middle - large, cone + length, middle + large, LINE_WIDE);
  page_circle (page, circle, middle, large, LINE_WIDE);
  page_circle (page, circle, middle, small, LINE_WIDE);
  page_centre_line (page, cone - unit, middle, cone + length + unit, middle);
  page_centre_line (page, circle - large - unit, middle, circle + large + unit, middle);
  page_centre_line (page, circle, middle - large - unit, circle, middle + large + unit);
}

typedef struct {
  double x, width; /* millimetres from the left of the block */
  unsigned row, rows;
  const char *caption, *text;
  bool bold;
} Cell;

static void
draw_cell (Page *page, TextEngine *engine, const Cell *cell, double x0, double y0)
{
  Rect box = {x0 + cell->x * SHEET_MM, y0 + cell->row * ROW_HEIGHT, cell->width * SHEET_MM,
              cell->rows * ROW_HEIGHT};
  double room = box.width - 2 * PADDING, y = box.y + 1.0 * TEXT_SMALL + 3;
  g_autofree char *caption = paragraph_cut (engine, cell->caption, room, TEXT_SMALL, false);

  page_box (page, box, LINE_NARROW);
  page_text (page, engine, caption, box.x + PADDING, box.y + 0.8, TEXT_SMALL, false);
  if (cell->rows == 1) {
    g_autofree char *text = paragraph_cut (engine, cell->text, room, TEXT_BODY, cell->bold);

    page_text (page, engine, text, box.x + PADDING, y, TEXT_BODY, cell->bold);
  } else {
    g_autoptr (GPtrArray) lines = paragraph_break (engine, cell->text, room, TEXT_HEADING, true);

    for (unsigned i = 0; i < lines->len && i < 2; i++) {
      bool more = i == 1 && lines->len > 2;
      g_autofree char *line = more ? g_strconcat (g_ptr_array_index (lines, i), "…", NULL)
                                   : g_strdup (g_ptr_array_index (lines, i));
      g_autofree char *cut = paragraph_cut (engine, line, room, TEXT_HEADING, true);

      page_text (page, engine, cut, box.x + PADDING, y, TEXT_HEADING, true);
      y += 1.2 * TEXT_HEADING;
    }
  }
}

static const char *
or_dash (const char *text)
{
  return text != NULL && text[0] != '\0' ? text : "–";
}

static void
draw_title_block (Page *page, TextEngine *engine, const Paper *paper, const TitleWords *words,
                  unsigned number, unsigned n)
{
  Rect inside = frame_inside (paper);
  double x = inside.x + inside.width - BLOCK_WIDTH, y = inside.y + inside.height - BLOCK_ROWS * ROW_HEIGHT;
  g_autofree char *sheet = g_strdup_printf ("%u / %u", number, n);
  const Cell cells[] = {
      {0, 50, 0, 1, _ ("Legal owner"), or_dash (words->owner), false},
      {0, 50, 1, 1, _ ("Created by"), or_dash (words->creator), false},
      {0, 50, 2, 1, _ ("Approved by (name, date)"), "", false},
      {50, 76, 0, 2, _ ("Title"), or_dash (words->title), true},
      {50, 76, 2, 1, _ ("Document kind"), page->title, true},
      {126, 36, 0, 1, _ ("Identification number"), or_dash (words->number), false},
      {162, 18, 0, 1, _ ("Revision"), or_dash (words->revision), false},
      {126, 36, 1, 1, _ ("Date of issue"), or_dash (words->date), false},
      {162, 18, 1, 1, _ ("Scale"), page->scale, false},
      {126, 36, 2, 1, _ ("Sheet"), sheet, true},
      {162, 18, 2, 1, _ ("Paper"), is_letter (paper) ? _ ("Letter") : "A4", false},
  };

  for (unsigned i = 0; i < G_N_ELEMENTS (cells); i++)
    draw_cell (page, engine, &cells[i], x, y);
  page_line (page, x, y, x, y + BLOCK_ROWS * ROW_HEIGHT, LINE_WIDE);
  page_line (page, inside.x, y, inside.x + inside.width, y, LINE_WIDE);
}

/* The corner beside the title block: projection and the two warnings that hold for every page. */
static void
draw_corner (Page *page, TextEngine *engine, const Paper *paper)
{
  Rect inside = frame_inside (paper);
  double x = inside.x + 2.5 * SHEET_MM,
         y = inside.y + inside.height - BLOCK_ROWS * ROW_HEIGHT + 2.2 * SHEET_MM;
  double left = x + 25 * SHEET_MM, room = inside.x + inside.width - BLOCK_WIDTH - left - 1.5 * SHEET_MM;
  g_autofree char *bar =
      g_strdup_printf (_ ("The bar under the frame is %s long on a true print."), paper->us ? "4"
                                                                                              "\u202f"
                                                                                              "in"
                                                                                            : "100"
                                                                                              "\u202f"
                                                                                              "mm");
  const char *texts[] = {_ ("Do not scale from this drawing."), bar, _ ("Made with Downcomer")};
  const double sizes[] = {TEXT_BODY, TEXT_SMALL, TEXT_SMALL};

  draw_projection (page, x + 1.5 * SHEET_MM, y + 6 * SHEET_MM, paper->us);
  page_text (page, engine, paper->us ? _ ("Third angle") : _ ("First angle"), x, y - 1, TEXT_SMALL, false);
  for (unsigned i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autoptr (GPtrArray) lines = paragraph_break (engine, texts[i], room, sizes[i], i == 0);

    for (unsigned k = 0; k < lines->len; k++, y += 1.2 * sizes[i])
      page_text (page, engine, g_ptr_array_index (lines, k), left, y, sizes[i], i == 0);
    y += 2;
  }
}

void
frame_draw (Page *page, TextEngine *engine, const Paper *paper, const TitleWords *words, unsigned number,
            unsigned n)
{
  page_box (page, frame_inside (paper), LINE_FRAME);
  draw_centring_marks (page, paper);
  draw_bar (page, paper);
  draw_title_block (page, engine, paper, words, number, n);
  draw_corner (page, engine, paper);
}
