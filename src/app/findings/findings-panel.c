/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/findings/findings-panel.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/common/grade-mark.h"
#include "app/common/key-figures.h"
#include "app/common/template.h"
#include "app/findings/finding-row.h"
#include "report/finding-words.h"
#include "report/summary.h"

struct _FindingsPanel {
  GtkBox parent_instance;

  Document *document;
  Selection *selection;

  GtkLabel *verdict_label;
  GtkListBox *list;
  GtkWidget *calm;
  KeyFigures *margins;
  GtkScrolledWindow *scrolled;
  char *chosen; /* identity of the chosen finding, or NULL */
  gboolean refreshing;
};

G_DEFINE_FINAL_TYPE (FindingsPanel, findings_panel, GTK_TYPE_BOX)

static FindingRow *
row_at (FindingsPanel *self, unsigned index)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int) index);

  return row != NULL ? DOWNCOMER_FINDING_ROW (row) : NULL;
}

/* Choosing */

static const char *
finding_key (FindingsPanel *self, const Finding *finding)
{
  Design *design = document_get_design (self->document);

  return finding->part >= 0 && (unsigned) finding->part < design_n_parts (design)
             ? part_key (design_part (design, (unsigned) finding->part))
             : NULL;
}

/* Unfolds the chosen row alone. */
static void
show_chosen (FindingsPanel *self)
{
  FindingRow *row;

  for (unsigned i = 0; (row = row_at (self, i)) != NULL; i++)
    finding_row_set_chosen (row, g_strcmp0 (finding_row_get_identity (row), self->chosen) == 0);
}

static void
choose (FindingsPanel *self, unsigned index)
{
  const Evaluation *evaluation = document_get_evaluation (self->document);
  FindingRow *row = row_at (self, index);

  if (row == NULL || evaluation == NULL || index >= evaluation->n_findings)
    return;
  g_free (self->chosen);
  self->chosen = g_strdup (finding_row_get_identity (row));
  show_chosen (self);
  selection_set_finding (self->selection, (int) index, finding_key (self, &evaluation->findings[index]));
}

static void
on_row_activated (FindingsPanel *self, GtkListBoxRow *row)
{
  choose (self, (unsigned) gtk_list_box_row_get_index (row));
}

static void
on_selection (FindingsPanel *self)
{
  const int finding = selection_get_finding (self->selection);
  FindingRow *row = finding >= 0 ? row_at (self, (unsigned) finding) : NULL;
  const char *identity = row != NULL ? finding_row_get_identity (row) : NULL;

  if (self->refreshing || g_strcmp0 (identity, self->chosen) == 0)
    return;
  g_free (self->chosen);
  self->chosen = g_strdup (identity);
  show_chosen (self);
}

void
findings_panel_choose_next (FindingsPanel *panel)
{
  const Evaluation *evaluation;
  FindingRow *row;
  int next;

  g_return_if_fail (DOWNCOMER_IS_FINDINGS_PANEL (panel));
  if (panel->document == NULL)
    return;
  evaluation = document_get_evaluation (panel->document);
  if (evaluation == NULL || evaluation->n_findings == 0)
    return;
  next = selection_get_finding (panel->selection) + 1;
  if (next >= (int) evaluation->n_findings)
    next = 0;
  choose (panel, (unsigned) next);
  row = row_at (panel, (unsigned) next);
  if (row != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (row)); /* which also scrolls to it */
}

/* Mending */

static void
on_apply (FindingRow *row, FindingsPanel *self)
{
  const Evaluation *evaluation = document_get_evaluation (self->document);
  Design *design = document_get_design (self->document);
  const unsigned index = finding_row_get_index (row);
  Remedy remedy;

  if (evaluation == NULL || index >= evaluation->n_findings)
    return;
  remedy = evaluation->findings[index].remedy;
  if (remedy.part < 0 || (unsigned) remedy.part >= design_n_parts (design) || remedy.field >= N_FIELDS)
    return;
  document_set_number (self->document, part_key (design_part (design, (unsigned) remedy.part)), remedy.field,
                       remedy.value, NULL);
}

/* Rows follow the evaluation */

static FindingRow *
take_row (FindingsPanel *self, unsigned from, const char *identity)
{
  FindingRow *row;

  for (unsigned i = from; (row = row_at (self, i)) != NULL; i++)
    if (g_strcmp0 (finding_row_get_identity (row), identity) == 0)
      return row;
  return NULL;
}

/* Brings the row of a finding to its place: left where it is, moved up, or made. */
static void
place_row (FindingsPanel *self, const Evaluation *evaluation, unsigned index)
{
  Design *design = document_get_design (self->document);
  g_autofree char *identity = finding_row_identity (design, evaluation, index);
  FindingRow *row = row_at (self, index);

  if (row == NULL || g_strcmp0 (finding_row_get_identity (row), identity) != 0) {
    row = take_row (self, index, identity);
    if (row != NULL) {
      g_object_ref (row);
      gtk_list_box_remove (self->list, GTK_WIDGET (row));
      gtk_list_box_insert (self->list, GTK_WIDGET (row), (int) index);
      g_object_unref (row);
    } else {
      row = DOWNCOMER_FINDING_ROW (finding_row_new ());
      g_signal_connect (row, "apply", G_CALLBACK (on_apply), self);
      gtk_list_box_insert (self->list, GTK_WIDGET (row), (int) index);
    }
  }
  finding_row_set (row, design, document_get_catalogue (self->document), evaluation, index,
                   document_get_style (self->document));
}

/* Rows that no finding stands behind any more go first, so that the others keep their places. */
static void
drop_rows (FindingsPanel *self, const Evaluation *evaluation)
{
  Design *design = document_get_design (self->document);
  g_autoptr (GHashTable) identities = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  FindingRow *row;

  for (unsigned i = 0; evaluation != NULL && i < evaluation->n_findings; i++)
    g_hash_table_add (identities, finding_row_identity (design, evaluation, i));
  for (unsigned i = 0; (row = row_at (self, i)) != NULL;) {
    if (g_hash_table_contains (identities, finding_row_get_identity (row)))
      i++;
    else
      gtk_list_box_remove (self->list, GTK_WIDGET (row));
  }
}

static void
add_margin (GPtrArray *list, const char *name, double value, Quantity quantity, const NumberStyle *style)
{
  SummaryFigure *figure;

  if (!isfinite (value))
    return;
  figure = g_new (SummaryFigure, 1);
  *figure = (SummaryFigure){
      .name = name, .value = units_format (value, quantity, style, NULL, UNITS_MEASURE), .steps = {N_STEPS}};
  g_ptr_array_add (list, figure);
}

static void
margin_free (gpointer data)
{
  SummaryFigure *figure = data;

  g_free (figure->value);
  g_free (figure);
}

static void
show_margins (FindingsPanel *self, const Evaluation *evaluation)
{
  const NumberStyle *style = document_get_style (self->document);
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func (margin_free);
  const Totals *totals = &evaluation->totals;

  add_margin (list, _ ("Margin of the drain over the pump"), totals->drain_margin, QUANTITY_RATIO, style);
  add_margin (list, _ ("Margin of the flood test"), totals->flood_margin_m, QUANTITY_LENGTH, style);
  add_margin (list, _ ("Freeboard of the display"), totals->freeboard_m, QUANTITY_LENGTH, style);
  add_margin (list, _ ("Free in the sump after drain-back"), evaluation->drain_back.margin_m3,
              QUANTITY_VOLUME, style);
  key_figures_set (self->margins, list);
}

/* The chosen finding keeps its choice under its new index, or gives it up. */
static void
follow_chosen (FindingsPanel *self, const Evaluation *evaluation)
{
  FindingRow *row = self->chosen != NULL ? take_row (self, 0, self->chosen) : NULL;

  if (self->chosen != NULL && row == NULL) {
    g_clear_pointer (&self->chosen, g_free);
    selection_set_key (self->selection, selection_get_key (self->selection));
  } else if (row != NULL && evaluation != NULL) {
    const unsigned index = (unsigned) gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row));

    selection_set_finding (self->selection, (int) index, finding_key (self, &evaluation->findings[index]));
  }
  show_chosen (self);
}

static void
refresh (FindingsPanel *self)
{
  const Evaluation *evaluation = document_get_evaluation (self->document);
  const gboolean sound = evaluation != NULL && evaluation_is_sound (evaluation);
  const gboolean calm = sound && evaluation_count (evaluation, GRADE_CAUTION) == 0;
  g_autofree char *verdict =
      evaluation != NULL ? summary_verdict (evaluation)
                         : g_strdup_printf (_ ("This design cannot be computed: %s."),
                                            system_status_text (document_get_status (self->document, NULL)));

  self->refreshing = TRUE;
  gtk_label_set_text (self->verdict_label, verdict);
  gtk_widget_remove_css_class (GTK_WIDGET (self->verdict_label), sound ? "stop" : "sound");
  gtk_widget_add_css_class (GTK_WIDGET (self->verdict_label), sound ? "sound" : "stop");
  drop_rows (self, evaluation);
  for (unsigned i = 0; evaluation != NULL && i < evaluation->n_findings; i++)
    place_row (self, evaluation, i);
  gtk_widget_set_visible (self->calm, calm);
  if (calm)
    show_margins (self, evaluation);
  gtk_widget_set_visible (GTK_WIDGET (self->list), row_at (self, 0) != NULL);
  follow_chosen (self, evaluation);
  self->refreshing = FALSE;
}

static void
let_go (FindingsPanel *self)
{
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  g_clear_object (&self->document);
  g_clear_object (&self->selection);
}

void
findings_panel_set_model (FindingsPanel *panel, Document *document, Selection *selection)
{
  g_return_if_fail (DOWNCOMER_IS_FINDINGS_PANEL (panel));
  g_return_if_fail ((document == NULL) == (selection == NULL));
  let_go (panel);
  if (document == NULL)
    return;
  panel->document = g_object_ref (document);
  panel->selection = g_object_ref (selection);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (refresh), panel);
  g_signal_connect_swapped (selection, "notify::finding", G_CALLBACK (on_selection), panel);
  refresh (panel);
}

static void
findings_panel_dispose (GObject *object)
{
  FindingsPanel *self = DOWNCOMER_FINDINGS_PANEL (object);

  let_go (self);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_FINDINGS_PANEL);
  G_OBJECT_CLASS (findings_panel_parent_class)->dispose (object);
}

static void
findings_panel_finalize (GObject *object)
{
  g_free (DOWNCOMER_FINDINGS_PANEL (object)->chosen);
  G_OBJECT_CLASS (findings_panel_parent_class)->finalize (object);
}

static void
findings_panel_class_init (FindingsPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = findings_panel_dispose;
  G_OBJECT_CLASS (klass)->finalize = findings_panel_finalize;
  g_type_ensure (DOWNCOMER_TYPE_GRADE_MARK);
  g_type_ensure (DOWNCOMER_TYPE_KEY_FIGURES);
  template_set (widget_class, "findings-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, FindingsPanel, verdict_label);
  gtk_widget_class_bind_template_child (widget_class, FindingsPanel, list);
  gtk_widget_class_bind_template_child (widget_class, FindingsPanel, calm);
  gtk_widget_class_bind_template_child (widget_class, FindingsPanel, margins);
  gtk_widget_class_bind_template_child (widget_class, FindingsPanel, scrolled);
  gtk_widget_class_bind_template_callback (widget_class, on_row_activated);
}

static void
findings_panel_init (FindingsPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
