/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/bench/bench-columns.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/common/grade-mark.h"

#define ARROW_ROOM 16

typedef enum { CELL_NAME, CELL_VERDICT, CELL_NUMBER, CELL_ORIGIN } CellKind;

typedef struct {
  BenchColumns *columns;
  CellKind kind;
  BenchColumn number;
  GtkColumnViewColumn *column;
} Cell;

#define N_CELLS (N_BENCH_COLUMNS + 3)

struct _BenchColumns {
  NumberStyle style;
  Cell cells[N_CELLS];
  void (*marked) (gpointer data);
  gpointer marked_data;
};

static GQuark
cell_quark (void)
{
  return g_quark_from_static_string ("bench-cell");
}

/* Sorting */

static int
compare_numbers (double a, double b)
{
  /* What is unknown comes last. */
  if (isnan (a) || isnan (b))
    return isnan (a) - isnan (b);
  return a < b ? -1 : a > b ? 1 : 0;
}

static int
compare_cells (gconstpointer a, gconstpointer b, gpointer data)
{
  const Cell *cell = data;
  BenchRow *row_a = (BenchRow *) a, *row_b = (BenchRow *) b;

  switch (cell->kind) {
  case CELL_NAME: {
    g_autofree char *name_a = bench_row_dup_name (row_a);
    g_autofree char *name_b = bench_row_dup_name (row_b);

    return g_utf8_collate (name_a, name_b);
  }
  case CELL_VERDICT:
    return bench_compare_merit (bench_row_get_figures (row_a), bench_row_get_figures (row_b));
  case CELL_ORIGIN:
    return (int) bench_row_get_figures (row_a)->origin - (int) bench_row_get_figures (row_b)->origin;
  case CELL_NUMBER:
    break;
  }
  return compare_numbers (bench_row_number (row_a, cell->number), bench_row_number (row_b, cell->number));
}

static int
compare_merit (gconstpointer a, gconstpointer b, gpointer data)
{
  return bench_compare_merit (bench_row_get_figures ((BenchRow *) a), bench_row_get_figures ((BenchRow *) b));
}

GtkSorter *
bench_columns_merit_sorter (void)
{
  return GTK_SORTER (gtk_custom_sorter_new (compare_merit, NULL, NULL));
}

/* Cells */

static void
refresh_name (GtkWidget *child, BenchRow *row)
{
  GtkWidget *check = gtk_widget_get_first_child (child);
  GtkWidget *label = gtk_widget_get_last_child (child);
  g_autofree char *name = bench_row_dup_name (row);
  g_autofree char *words = g_strdup_printf (_ ("Curve of %s on the chart"), name);

  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), bench_row_get_shown (row));
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_label_set_text (GTK_LABEL (label), name);
  gtk_widget_set_tooltip_text (label, name);
}

static void
refresh_verdict (GtkWidget *child, BenchRow *row, const NumberStyle *style)
{
  GtkWidget *mark = gtk_widget_get_first_child (child);
  GtkWidget *label = gtk_widget_get_last_child (child);
  g_autofree char *word = bench_row_verdict (row);
  g_autofree char *sentence = bench_row_sentence (row, style);
  const CompareRow *figures = bench_row_get_figures (row);
  const unsigned n = figures->stops > 0 ? figures->stops : figures->cautions;
  const Grade grade = bench_row_grade (row);
  g_autofree char *count = g_strdup_printf ("%u", MIN (n, 99));

  grade_mark_set (DOWNCOMER_GRADE_MARK (mark), grade, grade != N_GRADES && n > 0 ? count : "");
  gtk_label_set_text (GTK_LABEL (label), word);
  gtk_widget_set_tooltip_text (child, sentence);
}

static void
refresh (GtkListItem *item)
{
  GtkWidget *child = gtk_list_item_get_child (item);
  BenchRow *row = gtk_list_item_get_item (item);
  const Cell *cell = g_object_get_qdata (G_OBJECT (item), cell_quark ());
  const NumberStyle *style = &cell->columns->style;

  switch (cell->kind) {
  case CELL_NAME:
    refresh_name (child, row);
    break;
  case CELL_VERDICT:
    refresh_verdict (child, row, style);
    break;
  case CELL_ORIGIN:
    gtk_label_set_text (GTK_LABEL (child), bench_row_origin (row));
    break;
  case CELL_NUMBER: {
    g_autofree char *text = bench_row_text (row, cell->number, style);

    gtk_label_set_text (GTK_LABEL (child), text);
    if (bench_row_number (row, cell->number) < 0)
      gtk_widget_add_css_class (child, "stop");
    else
      gtk_widget_remove_css_class (child, "stop");
    break;
  }
  }
}

static void
on_toggled (GtkCheckButton *check, GtkListItem *item)
{
  BenchRow *row = gtk_list_item_get_item (item);
  const Cell *cell = g_object_get_qdata (G_OBJECT (item), cell_quark ());
  const gboolean shown = gtk_check_button_get_active (check);

  if (row == NULL || bench_row_get_shown (row) == shown)
    return;
  bench_row_set_shown (row, shown);
  if (cell->columns->marked != NULL)
    cell->columns->marked (cell->columns->marked_data);
}

static GtkWidget *
name_child (GtkListItem *item)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *check = gtk_check_button_new ();
  GtkWidget *label = gtk_label_new (NULL);

  gtk_widget_set_tooltip_text (check, _ ("Draw the curve on the chart"));
  gtk_widget_set_valign (check, GTK_ALIGN_CENTER);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 14);
  gtk_widget_set_hexpand (label, TRUE);
  g_signal_connect (check, "toggled", G_CALLBACK (on_toggled), item);
  gtk_box_append (GTK_BOX (box), check);
  gtk_box_append (GTK_BOX (box), label);
  return box;
}

static GtkWidget *
verdict_child (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *mark = g_object_new (DOWNCOMER_TYPE_GRADE_MARK, "valign", GTK_ALIGN_CENTER, NULL);

  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), gtk_label_new (NULL));
  return box;
}

static void
on_setup (GtkSignalListItemFactory *factory, GtkListItem *item, Cell *cell)
{
  GtkWidget *child = NULL;

  switch (cell->kind) {
  case CELL_NAME:
    child = name_child (item);
    break;
  case CELL_VERDICT:
    child = verdict_child ();
    break;
  case CELL_NUMBER:
  case CELL_ORIGIN:
    child = gtk_label_new (NULL);
    gtk_label_set_xalign (GTK_LABEL (child), cell->kind == CELL_NUMBER ? 1 : 0);
    gtk_widget_add_css_class (child, "figures");
    if (cell->kind == CELL_NUMBER) /* heads keep so much room for the arrow of the order */
      gtk_widget_set_margin_end (child, ARROW_ROOM);
    break;
  }
  g_object_set_qdata (G_OBJECT (item), cell_quark (), cell);
  gtk_list_item_set_child (item, child);
}

static void
on_bind (GtkSignalListItemFactory *factory, GtkListItem *item, Cell *cell)
{
  g_signal_connect_object (gtk_list_item_get_item (item), "changed", G_CALLBACK (refresh), item,
                           G_CONNECT_SWAPPED);
  refresh (item);
}

static void
on_unbind (GtkSignalListItemFactory *factory, GtkListItem *item, Cell *cell)
{
  g_signal_handlers_disconnect_by_func (gtk_list_item_get_item (item), refresh, item);
}

/* Columns */

static void
add_column (BenchColumns *self, GtkColumnView *view, Cell *cell, const char *title)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkSorter) sorter = GTK_SORTER (gtk_custom_sorter_new (compare_cells, cell, NULL));
  g_autoptr (GtkColumnViewColumn) column = gtk_column_view_column_new (title, factory);

  cell->columns = self;
  cell->column = column; /* held by the view */
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), cell);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind), cell);
  g_signal_connect (factory, "unbind", G_CALLBACK (on_unbind), cell);
  gtk_column_view_column_set_sorter (column, sorter);
  gtk_column_view_column_set_expand (column, cell->kind == CELL_NAME);
  gtk_column_view_column_set_resizable (column, TRUE);
  gtk_column_view_append_column (view, column);
}

/* Heads stand over their numbers. Titles have no property for it, so their label is sought; where a later toolkit builds
 * them otherwise they stay on the left. */
static void
align_heads (BenchColumns *self, GtkColumnView *view)
{
  GtkWidget *title = gtk_widget_get_first_child (gtk_widget_get_first_child (GTK_WIDGET (view)));

  for (unsigned i = 0; i < N_CELLS && title != NULL; i++, title = gtk_widget_get_next_sibling (title)) {
    GtkWidget *box = gtk_widget_get_first_child (title);
    GtkWidget *label = box != NULL ? gtk_widget_get_first_child (box) : NULL;

    if (self->cells[i].kind != CELL_NUMBER || label == NULL || !GTK_IS_LABEL (label))
      continue;
    gtk_widget_set_hexpand (label, TRUE);
    gtk_label_set_xalign (GTK_LABEL (label), 1);
  }
}

BenchColumns *
bench_columns_add (GtkColumnView *view)
{
  BenchColumns *self = g_new0 (BenchColumns, 1);
  unsigned n = 0;

  self->style = number_style_metric ();
  self->cells[n].kind = CELL_NAME;
  add_column (self, view, &self->cells[n++], _ ("Pump"));
  self->cells[n].kind = CELL_VERDICT;
  add_column (self, view, &self->cells[n++], _ ("Verdict"));
  for (BenchColumn column = 0; column < N_BENCH_COLUMNS; column++) {
    self->cells[n].kind = CELL_NUMBER;
    self->cells[n].number = column;
    add_column (self, view, &self->cells[n++], "");
  }
  self->cells[n].kind = CELL_ORIGIN;
  add_column (self, view, &self->cells[n++], _ ("From"));
  g_object_set_data_full (G_OBJECT (view), "bench-columns", self, g_free);
  bench_columns_set_style (self, &self->style);
  align_heads (self, view);
  return self;
}

void
bench_columns_set_style (BenchColumns *columns, const NumberStyle *style)
{
  columns->style = *style;
  for (unsigned i = 0; i < N_CELLS; i++)
    if (columns->cells[i].kind == CELL_NUMBER) {
      g_autofree char *title = bench_column_title (columns->cells[i].number, style);

      gtk_column_view_column_set_title (columns->cells[i].column, title);
    }
}

void
bench_columns_on_marked (BenchColumns *columns, void (*callback) (gpointer data), gpointer data)
{
  columns->marked = callback;
  columns->marked_data = data;
}
