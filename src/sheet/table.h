/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Tables of texts: columns as wide as their texts need, cells that wrap, rows that stay whole, a head that is repeated
 * where a table goes on in the next column or page. */
#pragma once

#include "sheet/flow.h"

/* What a column holds. */
typedef enum {
  COLUMN_TEXT,    /* words, which wrap; shares the room that is left */
  COLUMN_NUMBER,  /* figures, aligned at the right */
  COLUMN_BUILT,   /* figures that something is cut or built to: 3.5 mm high */
  COLUMN_BALLOON, /* an item number in a circle (ISO 6433) */
  COLUMN_BLANK    /* a box to write in */
} ColumnKind;

typedef struct {
  const char *head; /* marked for translation */
  ColumnKind kind;
} TableColumn;

#define TABLE_COLUMNS_MAX 14

typedef struct _Table Table;

/* Copies its n columns; heads are marked for translation, and where all are NULL the table has none. */
Table *table_new (const TableColumn *columns, unsigned n);
void table_free (Table *table);

/* Smaller text than usual, for calculations. */
void table_set_size (Table *table, double size);

/* A head that is not for translation, as the name of a part. */
void table_set_head (Table *table, unsigned column, const char *head);

/* Room that is left over goes to all columns alike instead of to the words. */
void table_spread (Table *table);

/* Rows close together. */
void table_tighten (Table *table);

/* Adds a row: takes one newly allocated string for each column, NULL for an empty cell. */
#define table_add(table, ...)                                                                                \
  table_add_cells (table, (char *[]){__VA_ARGS__}, (unsigned) G_N_ELEMENTS (((char *[]){__VA_ARGS__})))
void table_add_cells (Table *table, char *const *cells, unsigned n);

/* Makes the row that was added last bold: a sum, or what matters most. */
void table_embolden (Table *table);

/* Puts the shape of a grade before the figure in a column of the row that was added last. */
void table_mark (Table *table, unsigned column, Grade grade);

unsigned table_n_rows (const Table *table);

/* Whether the column where the flow is has room for the table without breaking a word. */
bool table_fits (Table *table, const Flow *flow);

/* Lays the table out from where the flow is, under a heading where that is not NULL. A table without rows leaves no
 * trace. */
void table_flow (Table *table, Flow *flow, const char *heading);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Table, table_free)
