/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/flow.h"

#include "sheet/paragraph.h"

/* Between columns, and between a figure and the text beside it. */

/* A place lower than this is left empty: a table in it could not be read. */
#define LEAST_HEIGHT (22 * SHEET_MM)

/* Less than this share of a page's first column is a leftover. */
#define LEFTOVER 0.7

static void
free_page (void *page)
{
  page_free (page);
}

void
flow_init (Flow *flow, TextEngine *engine, Rect content)
{
  *flow = (Flow){.engine = engine, .content = content, .columns = 1};
  flow->pages = g_ptr_array_new_with_free_func (free_page);
}

void
flow_clear (Flow *flow)
{
  g_ptr_array_unref (flow->pages);
  g_free (flow->title);
}

/* Cuts a rectangle into columns and adds them to the regions. */
static void
add_columns (Flow *flow, Rect room, unsigned n)
{
  double width = (room.width - (n - 1) * GUTTER) / n;

  for (unsigned i = 0; i < n; i++)
    flow->regions[flow->n_regions++] = (Rect){room.x + i * (width + GUTTER), room.y, width, room.height};
}

static void
new_page (Flow *flow)
{
  flow->page = page_new (flow->title);
  g_ptr_array_add (flow->pages, flow->page);
  flow->n_regions = 0;
  add_columns (flow, flow->content, flow->columns);
  flow->region = 0;
  flow->y = flow->content.y;
}

/* The last page holds no more than a part of its first column. */
static bool
has_leftover (const Flow *flow, unsigned before)
{
  return flow->pages->len > before + 1 && flow->region == 0 &&
         flow->y - flow->content.y < LEFTOVER * flow->content.height;
}

static void
build_anew (Flow *flow, unsigned before, bool compact, void (*build) (void *data), void *data)
{
  g_ptr_array_set_size (flow->pages, (int) before);
  flow->page = NULL;
  flow->compact = compact;
  build (data);
  flow->compact = false;
}

void
flow_balanced (Flow *flow, void (*build) (void *data), void *data)
{
  const unsigned before = flow->pages->len;
  unsigned pages;

  build_anew (flow, before, false, build, data);
  pages = flow->pages->len;
  if (!has_leftover (flow, before))
    return;
  build_anew (flow, before, true, build, data);
  if (flow->pages->len >= pages)
    build_anew (flow, before, false, build, data);
}

void
flow_section (Flow *flow, const char *title, unsigned columns)
{
  g_free (flow->title);
  flow->title = g_strdup (title);
  flow->columns = CLAMP (columns, 1, 3);
  new_page (flow);
}

void
flow_page (Flow *flow, unsigned columns)
{
  flow->columns = CLAMP (columns, 1, 3);
  new_page (flow);
}

void
flow_split (Flow *flow, unsigned columns)
{
  const Rect all = flow->content;
  const double top = flow->y + GUTTER / 2;
  const Rect rest = {all.x, top, all.width, all.y + all.height - top};

  flow->columns = CLAMP (columns, 1, 3);
  if (rest.height < LEAST_HEIGHT) {
    new_page (flow);
    return;
  }
  flow->n_regions = flow->region = 0;
  add_columns (flow, rest, flow->columns);
  flow->y = top;
}

Rect
flow_figure (Flow *flow, Figure *figure, double least_beside)
{
  Rect all = flow->content, place = {all.x, all.y, 0, 0}, beside, below;

  if (figure == NULL)
    return place;
  place.width = figure->view.width;
  place.height = figure->view.height;
  g_free (flow->page->scale);
  flow->page->scale = g_strdup_printf ("1:%u", figure->scale);
  page_figure (flow->page, figure, place.x, place.y);
  beside = (Rect){all.x + place.width + GUTTER, all.y, all.width - place.width - GUTTER, all.height};
  below = (Rect){all.x, all.y + place.height + GUTTER, all.width, all.height - place.height - GUTTER};
  flow->n_regions = 0;
  if (beside.width >= least_beside) {
    below.width = place.width;
    flow->regions[flow->n_regions++] = beside;
  }
  if (below.height >= LEAST_HEIGHT)
    add_columns (flow, below, below.width > 0.8 * all.width ? flow->columns : 1);
  flow->region = 0;
  if (flow->n_regions == 0)
    new_page (flow);
  flow->y = flow->regions[0].y;
  return place;
}

double
flow_x (const Flow *flow)
{
  return flow->regions[flow->region].x;
}

double
flow_width (const Flow *flow)
{
  return flow->regions[flow->region].width;
}

double
flow_left (const Flow *flow)
{
  const Rect *region = &flow->regions[flow->region];

  return region->y + region->height - flow->y;
}

double
flow_most (const Flow *flow)
{
  return flow->content.height;
}

bool
flow_need (Flow *flow, double height)
{
  bool moved = false;

  /* A fresh page is the most there is, even for what is too high for it. */
  while (flow_left (flow) < height) {
    if (flow->region + 1 < flow->n_regions)
      flow->y = flow->regions[++flow->region].y;
    else if (flow_left (flow) >= flow_most (flow) - 0.01)
      break;
    else
      new_page (flow);
    moved = true;
  }
  return moved;
}

void
flow_column (Flow *flow)
{
  if (flow->region + 1 < flow->n_regions)
    flow->y = flow->regions[++flow->region].y;
}

double
flow_widest_next (const Flow *flow)
{
  double width = (flow->content.width - (flow->columns - 1) * GUTTER) / flow->columns;

  for (unsigned i = flow->region + 1; i < flow->n_regions; i++)
    width = MAX (width, flow->regions[i].width);
  return width;
}

void
flow_next (Flow *flow)
{
  if (flow->region + 1 < flow->n_regions)
    flow_column (flow);
  else
    new_page (flow);
}

void
flow_gap (Flow *flow, double height)
{
  if (flow->y > flow->regions[flow->region].y)
    flow->y += height;
}

void
flow_heading (Flow *flow, const char *text, double follows)
{
  flow_need (flow, FLOW_HEADING + follows);
  flow_gap (flow, 7);
  flow_paragraph (flow, text, TEXT_HEADING, true);
  page_line (flow->page, flow_x (flow), flow->y, flow_x (flow) + flow_width (flow), flow->y, LINE_WIDE);
  flow->y += 4;
}

void
flow_indented (Flow *flow, const char *text, double size, bool bold, double indent)
{
  double width = flow_width (flow);
  g_autoptr (GPtrArray) lines = paragraph_break (flow->engine, text, width - indent, size, bold);

  for (unsigned i = 0; i < lines->len; i++) {
    flow_need (flow, PARAGRAPH_PITCH * size);
    /* A column of another width breaks its own lines. */
    if (flow_width (flow) < width - 0.01) {
      g_autoptr (GString) rest = g_string_new (NULL);

      for (unsigned k = i; k < lines->len; k++)
        g_string_append_printf (rest, "%s%s", k > i ? " " : "", (char *) g_ptr_array_index (lines, k));
      flow_indented (flow, rest->str, size, bold, indent);
      return;
    }
    page_text (flow->page, flow->engine, g_ptr_array_index (lines, i), flow_x (flow) + indent, flow->y, size,
               bold);
    flow->y += PARAGRAPH_PITCH * size;
  }
}

void
flow_paragraph (Flow *flow, const char *text, double size, bool bold)
{
  flow_indented (flow, text, size, bold, 0);
}
