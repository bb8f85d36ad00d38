/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/table.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "sheet/paragraph.h"

#define CELL_GAP    7.0 /* between columns */
#define ROW_PADDING 2.2 /* above and below the text of a row */
#define ROW_TIGHT   1.7
#define ROW_COMPACT 0.9

/* Sizes of the text that a word may take before it is broken: where there is room for it, and where there is not. */
#define LONGEST_WORD 13
#define SHORTEST_CUT 7

/* Narrowest column of words, points. */
#define SQUEEZED 24

/* A box to write in is at least so wide. */
#define BLANK_WIDTH (22 * SHEET_MM)

typedef struct {
  char *cells[TABLE_COLUMNS_MAX];
  bool bold;
  bool marked[TABLE_COLUMNS_MAX];
  Grade grades[TABLE_COLUMNS_MAX];
} Row;

struct _Table {
  TableColumn columns[TABLE_COLUMNS_MAX];
  char *heads[TABLE_COLUMNS_MAX]; /* of their own */
  unsigned n;
  double size;
  double padding;
  bool spread;
  GPtrArray *rows;
  bool measured;
  double least[TABLE_COLUMNS_MAX], natural[TABLE_COLUMNS_MAX];
  double shared; /* width that they share now */
  double widths[TABLE_COLUMNS_MAX];
};

static void
row_free (void *data)
{
  Row *row = data;

  for (unsigned i = 0; i < TABLE_COLUMNS_MAX; i++)
    g_free (row->cells[i]);
  g_free (row);
}

Table *
table_new (const TableColumn *columns, unsigned n)
{
  Table *table = g_new0 (Table, 1);

  table->n = MIN (n, TABLE_COLUMNS_MAX);
  for (unsigned i = 0; i < table->n; i++)
    table->columns[i] = (TableColumn){columns[i].head != NULL ? _ (columns[i].head) : NULL, columns[i].kind};
  table->size = TEXT_BODY;
  table->padding = ROW_PADDING;
  table->rows = g_ptr_array_new_with_free_func (row_free);
  return table;
}

void
table_free (Table *table)
{
  if (table == NULL)
    return;
  for (unsigned i = 0; i < TABLE_COLUMNS_MAX; i++)
    g_free (table->heads[i]);
  g_ptr_array_unref (table->rows);
  g_free (table);
}

void
table_set_size (Table *table, double size)
{
  table->size = size;
}

void
table_set_head (Table *table, unsigned column, const char *head)
{
  g_assert (column < table->n);
  g_free (table->heads[column]);
  table->columns[column].head = table->heads[column] = g_strdup (head);
}

void
table_tighten (Table *table)
{
  table->padding = ROW_TIGHT;
}

void
table_spread (Table *table)
{
  table->spread = true;
}

void
table_add_cells (Table *table, char *const *cells, unsigned n)
{
  Row *row = g_new0 (Row, 1);

  g_assert (n == table->n);
  for (unsigned i = 0; i < n; i++)
    row->cells[i] = cells[i];
  table->measured = false;
  table->shared = 0;
  g_ptr_array_add (table->rows, row);
}

void
table_embolden (Table *table)
{
  Row *last = g_ptr_array_index (table->rows, table->rows->len - 1);

  last->bold = true;
  table->measured = false;
  table->shared = 0;
}

void
table_mark (Table *table, unsigned column, Grade grade)
{
  Row *last = g_ptr_array_index (table->rows, table->rows->len - 1);

  g_assert (column < table->n);
  last->marked[column] = true;
  last->grades[column] = grade;
  table->measured = false;
  table->shared = 0;
}

unsigned
table_n_rows (const Table *table)
{
  return table->rows->len;
}

static double
cell_size (const Table *table, unsigned column)
{
  return table->columns[column].kind == COLUMN_BUILT ? TEXT_BUILT : table->size;
}

/* Radius of the shape of a grade, and what it takes before a figure. */
static double
grade_radius (const Table *table)
{
  return 0.4 * table->size;
}

static double
grade_width (const Table *table, const Row *row, unsigned column)
{
  return row->marked[column] ? 3 * grade_radius (table) : 0;
}

static double
balloon_radius (const Table *table)
{
  return 0.74 * table->size;
}

/* Least and natural width of a column. */
static void
measure_column (const Table *table, TextEngine *engine, unsigned column, double *ret_least,
                double *ret_natural)
{
  const TableColumn *info = &table->columns[column];
  double size = cell_size (table, column), least = 0, natural = 0;

  if (info->head != NULL) {
    least = paragraph_least (engine, info->head, TEXT_SMALL, false);
    natural = info->kind == COLUMN_TEXT ? paragraph_natural (engine, info->head, TEXT_SMALL, false) : least;
  }
  for (unsigned i = 0; i < table->rows->len; i++) {
    const Row *row = g_ptr_array_index (table->rows, i);

    if (row->cells[column] == NULL)
      continue;
    natural = MAX (natural, paragraph_natural (engine, row->cells[column], size, row->bold) +
                                grade_width (table, row, column));
    least = MAX (least, paragraph_least (engine, row->cells[column], size, row->bold));
  }
  /* A word as long as a sentence is broken rather than let it starve its neighbours. */
  least = info->kind == COLUMN_TEXT ? MIN (least, LONGEST_WORD * size) : least;
  if (info->kind == COLUMN_BLANK)
    least = natural = MAX (natural, BLANK_WIDTH);
  else if (info->kind == COLUMN_BALLOON)
    least = natural = MAX (natural, 2 * balloon_radius (table));
  else if (info->kind != COLUMN_TEXT)
    least = natural;
  *ret_least = least;
  *ret_natural = natural;
}

/* Words that need no more than an equal share get what they need, the longer ones share the rest: so a short name is not
 * broken for a long sentence beside it. */
static void
share_words (Table *table, const double *least, const double *natural, double room)
{
  bool settled[TABLE_COLUMNS_MAX] = {false};
  double sum = 0;
  unsigned open = 0;

  for (unsigned i = 0; i < table->n; i++)
    open += table->columns[i].kind == COLUMN_TEXT;
  for (bool changed = true; changed && open > 0;) {
    changed = false;
    for (unsigned i = 0; i < table->n; i++) {
      const double share = room / open;

      if (table->columns[i].kind != COLUMN_TEXT || settled[i])
        continue;
      table->widths[i] = share;
      if (natural[i] > share && least[i] <= share)
        continue;
      table->widths[i] = natural[i] <= share ? natural[i] : least[i];
      room -= table->widths[i];
      open--;
      settled[i] = changed = true;
      if (open == 0)
        break;
    }
  }
  /* Between the longer ones, much text gets more, but not all of it. */
  for (unsigned i = 0; i < table->n; i++)
    sum += table->columns[i].kind == COLUMN_TEXT && !settled[i] ? sqrt (natural[i]) : 0;
  for (unsigned i = 0; i < table->n; i++)
    if (table->columns[i].kind == COLUMN_TEXT && !settled[i])
      table->widths[i] = room * sqrt (natural[i]) / sum;
}

/* Width that the table needs to break no word; measures what has changed. */
static double
whole_width (Table *table, TextEngine *engine)
{
  double width = (table->n - 1) * CELL_GAP;

  for (unsigned i = 0; i < table->n; i++) {
    if (!table->measured)
      measure_column (table, engine, i, &table->least[i], &table->natural[i]);
    width += table->least[i];
  }
  table->measured = true;
  return width;
}

bool
table_fits (Table *table, const Flow *flow)
{
  return whole_width (table, flow->engine) <= flow_width (flow) + 0.01;
}

/* Shares the width: what is not words has its natural width; words wrap, or take what is left over. */
static void
share_width (Table *table, TextEngine *engine, double width)
{
  double least[TABLE_COLUMNS_MAX], *natural = table->natural;
  double sum_least = 0, sum_natural = 0, sum_words = 0, sum_least_words = 0;
  double room = width - (table->n - 1) * CELL_GAP, words_room = room;
  const bool whole = whole_width (table, engine) <= width;
  unsigned n_words = 0;

  if (width == table->shared)
    return;
  table->shared = width;
  for (unsigned i = 0; i < table->n; i++) {
    const bool words = table->columns[i].kind == COLUMN_TEXT;

    least[i] = words && !whole ? MIN (table->least[i], SHORTEST_CUT * table->size) : table->least[i];
    sum_least += least[i];
    sum_natural += natural[i];
    sum_words += words ? natural[i] : 0;
    sum_least_words += words ? least[i] : 0;
    words_room -= words ? 0 : natural[i];
    n_words += words;
  }
  for (unsigned i = 0; i < table->n; i++) {
    const bool words = table->columns[i].kind == COLUMN_TEXT;

    table->widths[i] = natural[i];
    if (sum_natural <= room && table->spread)
      table->widths[i] += (room - sum_natural) / table->n;
    else if (sum_natural <= room && words && sum_words > 0)
      table->widths[i] += (room - sum_natural) * natural[i] / sum_words;
    else if (sum_least > room)
      table->widths[i] = room * least[i] / MAX (sum_least, 1e-9);
    /* Words are squeezed before figures are, as long as a few letters are left of them. */
    if (sum_least > room && words_room > SQUEEZED * n_words)
      table->widths[i] = words ? words_room * least[i] / MAX (sum_least_words, 1e-9) : natural[i];
  }
  if (sum_natural > room && sum_least <= room)
    share_words (table, least, natural, words_room);
}

typedef struct {
  GPtrArray *lines[TABLE_COLUMNS_MAX];
  double height;
} BrokenRow;

/* Where the first lines of a row stand, so that large and small figures share a base line. */
static double
base_offset (const Table *table, unsigned column)
{
  double largest = table->size;

  for (unsigned i = 0; i < table->n; i++)
    largest = MAX (largest, cell_size (table, i));
  /* Ascent of Inter is 0.97 of its size. */
  return 0.97 * (largest - cell_size (table, column));
}

static void
break_row (const Table *table, TextEngine *engine, const Row *row, BrokenRow *broken)
{
  broken->height = PARAGRAPH_PITCH * table->size;
  for (unsigned i = 0; i < table->n; i++) {
    double size = cell_size (table, i);

    broken->lines[i] = paragraph_break (engine, row->cells[i] != NULL ? row->cells[i] : "", table->widths[i],
                                        size, row->bold);
    broken->height =
        MAX (broken->height, base_offset (table, i) + broken->lines[i]->len * PARAGRAPH_PITCH * size);
    if (table->columns[i].kind == COLUMN_BALLOON)
      broken->height = MAX (broken->height, 2 * balloon_radius (table) + 1);
    if (table->columns[i].kind == COLUMN_BLANK)
      broken->height = MAX (broken->height, 7 * SHEET_MM);
  }
  broken->height += 2 * table->padding;
}

static void
clear_row (const Table *table, BrokenRow *broken)
{
  for (unsigned i = 0; i < table->n; i++)
    g_ptr_array_unref (broken->lines[i]);
}

static void
draw_cell (const Table *table, Flow *flow, const Row *row, const GPtrArray *lines, unsigned column, double x,
           double height)
{
  const TableColumn *info = &table->columns[column];
  double size = cell_size (table, column), width = table->widths[column];
  double y = flow->y + table->padding + base_offset (table, column);

  if (info->kind == COLUMN_BLANK && !row->bold)
    page_box (flow->page, (Rect){x, flow->y + 3, width, height - 6}, LINE_NARROW);
  for (unsigned i = 0; i < lines->len && y + size < flow->y + height + size; i++) {
    const char *text = g_ptr_array_index ((GPtrArray *) lines, i);
    double natural = paragraph_natural (flow->engine, text, size, row->bold), at = x;

    if (info->kind == COLUMN_BALLOON && text[0] != '\0') {
      double radius = balloon_radius (table);

      at = x + radius - natural / 2;
      page_circle (flow->page, x + radius, y + 0.61 * size, radius, LINE_NARROW);
    } else if (info->kind == COLUMN_NUMBER || info->kind == COLUMN_BUILT) {
      at = x + width - natural;
    }
    if (i == 0 && row->marked[column])
      page_grade (flow->page, row->grades[column], at - 1.9 * grade_radius (table), y + 0.61 * size,
                  grade_radius (table));
    page_text (flow->page, flow->engine, text,
               MAX (at, x - (info->kind == COLUMN_BALLOON ? CELL_GAP / 2 : 0)), y, size, row->bold);
    y += PARAGRAPH_PITCH * size;
  }
}

static bool
has_head (const Table *table)
{
  for (unsigned i = 0; i < table->n; i++)
    if (table->columns[i].head != NULL)
      return true;
  return false;
}

static double
head_height (const Table *table, TextEngine *engine)
{
  unsigned most = 0;

  if (!has_head (table))
    return 0;
  for (unsigned i = 0; i < table->n; i++) {
    g_autoptr (GPtrArray) lines =
        paragraph_break (engine, table->columns[i].head != NULL ? table->columns[i].head : "",
                         table->widths[i], TEXT_SMALL, false);
    most = MAX (most, lines->len);
  }
  return most * 1.2 * TEXT_SMALL + 3;
}

static void
draw_head (const Table *table, Flow *flow)
{
  double height = head_height (table, flow->engine), x = flow_x (flow);

  if (height <= 0)
    return;
  for (unsigned i = 0; i < table->n; i++) {
    const TableColumn *info = &table->columns[i];
    g_autoptr (GPtrArray) lines = paragraph_break (flow->engine, info->head != NULL ? info->head : "",
                                                   table->widths[i], TEXT_SMALL, false);

    /* Words of a head stand on its line. */
    double y = flow->y + height - 3 - lines->len * 1.2 * TEXT_SMALL;

    for (unsigned k = 0; k < lines->len; k++, y += 1.2 * TEXT_SMALL) {
      const char *line = g_ptr_array_index (lines, k);
      bool right = info->kind == COLUMN_NUMBER || info->kind == COLUMN_BUILT;
      double natural = paragraph_natural (flow->engine, line, TEXT_SMALL, false);

      page_text (flow->page, flow->engine, line, right ? x + table->widths[i] - natural : x, y, TEXT_SMALL,
                 false);
    }
    x += table->widths[i] + CELL_GAP;
  }
  flow->y += height;
  page_line (flow->page, flow_x (flow), flow->y, flow_x (flow) + flow_width (flow), flow->y,
             LINE_NARROW * 1.4);
}

static void
draw_row (Table *table, Flow *flow, const Row *row, BrokenRow *broken)
{
  double x = flow_x (flow);

  for (unsigned i = 0; i < table->n; i++) {
    draw_cell (table, flow, row, broken->lines[i], i, x, broken->height);
    x += table->widths[i] + CELL_GAP;
  }
  flow->y += broken->height;
  page_line (flow->page, flow_x (flow), flow->y, flow_x (flow) + flow_width (flow), flow->y, LINE_NARROW / 2);
}

/* What does not even fit on a page of its own is cut, with an ellipsis. */
static void
cut_row (const Table *table, BrokenRow *broken, double most)
{
  for (unsigned i = 0; i < table->n; i++) {
    unsigned fit = (unsigned) MAX (1, (most - 2 * table->padding) / (PARAGRAPH_PITCH * cell_size (table, i)));

    if (broken->lines[i]->len > fit) {
      g_ptr_array_set_size (broken->lines[i], (int) fit);
      g_ptr_array_remove_index (broken->lines[i], fit - 1);
      g_ptr_array_add (broken->lines[i], g_strdup ("…"));
    }
  }
  broken->height = MIN (broken->height, most);
}

static double
row_height (Table *table, Flow *flow, unsigned index)
{
  BrokenRow broken;
  double height;

  share_width (table, flow->engine, flow_width (flow));
  break_row (table, flow->engine, g_ptr_array_index (table->rows, index), &broken);
  height = broken.height;
  clear_row (table, &broken);
  return height;
}

/* Height of the table in this column, or as soon as it is known to be more than `most`. */
static double
total_height (Table *table, Flow *flow, double most)
{
  double height;

  share_width (table, flow->engine, flow_width (flow));
  height = head_height (table, flow->engine);
  for (unsigned i = 0; i < table->rows->len && height <= most; i++)
    height += row_height (table, flow, i);
  return height;
}

/* Height that must be there to begin in this column: all of a table that is small beside a page, of a larger one its
 * first two rows. */
static double
least_height (Table *table, Flow *flow)
{
  const double most = 0.5 * flow_most (flow);
  double height = total_height (table, flow, most);

  if (height <= most)
    return height;
  height = head_height (table, flow->engine);
  for (unsigned i = 0; i < MIN (2, table->rows->len); i++)
    height += row_height (table, flow, i);
  return MIN (height, flow_most (flow) - FLOW_HEADING);
}

/* Columns differ in width, so what is needed is asked again in each. */
static void
start (Table *table, Flow *flow, const char *heading)
{
  const double above = heading != NULL ? FLOW_HEADING : 0;

  /* A wider place may spare the words; a narrower one is no better. */
  while (!table_fits (table, flow) && flow_widest_next (flow) > flow_width (flow) + 1)
    flow_next (flow);
  while (flow_need (flow, above + least_height (table, flow)))
    ;
  if (heading != NULL)
    flow_heading (flow, heading, 0);
}

void
table_flow (Table *table, Flow *flow, const char *heading)
{
  bool fresh = true;

  if (table->rows->len == 0)
    return;
  if (flow->compact)
    table->padding = MIN (table->padding, ROW_COMPACT);
  start (table, flow, heading);
  for (unsigned i = 0; i < table->rows->len; i++) {
    const Row *row = g_ptr_array_index (table->rows, i);
    BrokenRow broken;
    double head;

    share_width (table, flow->engine, flow_width (flow));
    break_row (table, flow->engine, row, &broken);
    head = head_height (table, flow->engine);
    /* A new place may be narrower, and the row higher in it. */
    while (flow_need (flow, broken.height + (fresh ? head : 0))) {
      fresh = true;
      clear_row (table, &broken);
      share_width (table, flow->engine, flow_width (flow));
      break_row (table, flow->engine, row, &broken);
      head = head_height (table, flow->engine);
    }
    head = fresh ? head : 0;
    if (broken.height + head > flow_left (flow) + 0.01)
      cut_row (table, &broken, flow_left (flow) - head);
    if (fresh)
      draw_head (table, flow);
    fresh = false;
    draw_row (table, flow, row, &broken);
    clear_row (table, &broken);
  }
}
