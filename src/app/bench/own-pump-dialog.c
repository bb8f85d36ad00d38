/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/bench/own-pump-dialog.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/bench/bench-chart.h"
#include "app/common/quantity-entry.h"
#include "app/common/quantity-words.h"
#include "app/common/template.h"
#include "design/curve.h"
#include "files/files-error.h"
#include "files/pump-points.h"
#include "report/words.h"

#define PAUSE_MS 250 /* after the last key, before points are judged */

typedef enum { ENTRY_WATTS, ENTRY_SPEED, N_ENTRIES } EntryId;

static const FieldId entry_fields[N_ENTRIES] = {FIELD_CANDIDATE_WATTS, FIELD_CANDIDATE_MIN_SPEED};

struct _OwnPumpDialog {
  GtkWindow parent_instance;

  Document *document;
  BenchFigures *figures;
  char *key;   /* of the candidate being changed */
  char *curve; /* canonical, of the points as they stand; NULL while they are none */
  double values[N_ENTRIES];
  guint pause;

  GtkEntry *name;
  GtkWidget *slots[N_ENTRIES], *entries[N_ENTRIES];
  GtkTextView *points;
  GtkLabel *hint, *problem;
  GtkButton *save;
  BenchChart *chart;
};

G_DEFINE_FINAL_TYPE (OwnPumpDialog, own_pump_dialog, GTK_TYPE_WINDOW)

static void
set_problem (OwnPumpDialog *self, const char *sentence)
{
  gtk_label_set_text (self->problem, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (self->problem), sentence != NULL && sentence[0] != '\0');
}

const char *
own_pump_dialog_get_problem (OwnPumpDialog *dialog)
{
  return gtk_label_get_text (dialog->problem);
}

/* Points */

static char *
points_text (OwnPumpDialog *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->points);
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return g_strstrip (gtk_text_buffer_get_text (buffer, &start, &end, FALSE));
}

static void
draw_preview (OwnPumpDialog *self)
{
  BenchCurve curve;
  g_autofree char *description = g_strdup (_ ("No curve yet."));
  int chosen = -1;

  bench_chart_begin (self->chart, document_get_style (self->document));
  if (self->curve != NULL && bench_curve_through (self->curve, &curve)) {
    const NumberStyle *style = document_get_style (self->document);
    g_autofree char *head = units_format (curve.head_m[0], QUANTITY_HEAD, style, NULL, UNITS_MEASURE);
    g_autofree char *flow =
        units_format (curve.flow_m3s[curve.n - 1], QUANTITY_FLOW, style, NULL, UNITS_MEASURE);

    chosen = bench_chart_add (self->chart, CHART_PUMP, _ ("This pump"), &curve, (double) NAN, (double) NAN);
    g_free (description);
    description = words_fill (_ ("From {head} without flow to {flow}."), "head", head, "flow", flow, NULL);
  }
  if (self->figures != NULL) {
    bench_chart_add (self->chart, CHART_LOOP, _ ("Loop"), &self->figures->loop, (double) NAN, (double) NAN);
    bench_chart_set_limits (self->chart, self->figures->drain_limit_m3s, self->figures->target_low_m3s,
                            self->figures->target_high_m3s);
  }
  bench_chart_end (self->chart, chosen, description);
}

/* Reads the points; TRUE where they are a curve. Nothing typed yet is no fault until it is to be saved. */
static gboolean
read_points (OwnPumpDialog *self)
{
  const NumberStyle *style = document_get_style (self->document);
  g_autofree char *text = points_text (self);
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&self->curve, g_free);
  if (text[0] == '\0')
    set_problem (self, NULL);
  else if (pump_points_parse (text, style, units_unit_for (QUANTITY_FLOW, style),
                              units_unit_for (QUANTITY_HEAD, style), &self->curve, &error))
    set_problem (self, NULL);
  else
    set_problem (self, error->message);
  draw_preview (self);
  return self->curve != NULL;
}

static gboolean
on_pause (gpointer data)
{
  OwnPumpDialog *self = data;

  self->pause = 0;
  read_points (self);
  return G_SOURCE_REMOVE;
}

static void
on_points_changed (OwnPumpDialog *self)
{
  g_clear_handle_id (&self->pause, g_source_remove);
  self->pause = g_timeout_add (PAUSE_MS, on_pause, self);
}

/* The points of a candidate as lines, in the reader's units. */
static char *
lines_of (OwnPumpDialog *self, const char *curve)
{
  const NumberStyle *style = document_get_style (self->document);
  const Unit *flow = units_unit_for (QUANTITY_FLOW, style), *head = units_unit_for (QUANTITY_HEAD, style);
  GString *text = g_string_new (NULL);
  CurvePoints points = {0};

  curve_read (curve, &points);
  g_string_printf (text, _ ("Flow (%s); Head (%s)"), flow->symbol, head->symbol);
  for (unsigned i = 0; i < points.n; i++) {
    g_autofree char *q = units_format_number (points.flow_m3s[i], QUANTITY_FLOW, style, flow, UNITS_EXACT);
    g_autofree char *h = units_format_number (points.head_m[i], QUANTITY_HEAD, style, head, UNITS_EXACT);

    g_string_append_printf (text, "\n%s; %s", q, h);
  }
  return g_string_free (text, FALSE);
}

/* Power and least speed */

static void
on_entered (QuantityEntry *entry, double value, OwnPumpDialog *self)
{
  const EntryId id = GTK_WIDGET (entry) == self->entries[ENTRY_WATTS] ? ENTRY_WATTS : ENTRY_SPEED;
  const FieldInfo *info = field_info (entry_fields[id]);

  if (value < info->min || value > info->max) {
    const NumberStyle *style = document_get_style (self->document);
    const Problem problem = {.code = value < info->min ? PROBLEM_TOO_SMALL : PROBLEM_TOO_LARGE,
                             .kind = PART_CANDIDATE,
                             .field = entry_fields[id],
                             .value = value};
    g_autofree char *sentence =
        quantity_words_refusal (&problem, entry_fields[id], gtk_editable_get_text (GTK_EDITABLE (entry)),
                                style, units_unit_for (info->quantity, style));

    quantity_entry_refuse (entry, sentence);
    return;
  }
  self->values[id] = value;
  quantity_entry_set_value (entry, value, FALSE);
}

static void
on_problem (QuantityEntry *entry, const char *sentence, OwnPumpDialog *self)
{
  set_problem (self, sentence);
}

static void
build_entry (OwnPumpDialog *self, EntryId id, const char *label)
{
  const FieldInfo *info = field_info (entry_fields[id]);
  const NumberStyle *style = document_get_style (self->document);
  GtkWidget *entry = quantity_entry_new (info->quantity);

  self->entries[id] = entry;
  quantity_entry_set_style (DOWNCOMER_QUANTITY_ENTRY (entry), style, units_unit_for (info->quantity, style),
                            FALSE);
  quantity_entry_set_value (DOWNCOMER_QUANTITY_ENTRY (entry), self->values[id], FALSE);
  gtk_widget_set_hexpand (entry, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_widget_set_tooltip_text (entry, words_help (entry_fields[id]));
  g_signal_connect (entry, "entered", G_CALLBACK (on_entered), self);
  g_signal_connect (entry, "problem", G_CALLBACK (on_problem), self);
  gtk_box_append (GTK_BOX (self->slots[id]), entry);
}

/* Saving */

static gboolean
set_fields (OwnPumpDialog *self, Draft *draft, const char *key, Problem *problem)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));

  return draft_set_label (draft, key, name[0] != '\0' ? name : NULL, problem) &&
         draft_set_text (draft, key, FIELD_CANDIDATE_CURVE, self->curve, problem) &&
         draft_set_number (draft, key, FIELD_CANDIDATE_WATTS, self->values[ENTRY_WATTS], problem) &&
         draft_set_number (draft, key, FIELD_CANDIDATE_MIN_SPEED, self->values[ENTRY_SPEED], problem);
}

static Design *
changed_design (OwnPumpDialog *self, const char **ret_key, Problem *problem)
{
  g_autoptr (Draft) draft = draft_new (document_get_design (self->document));
  const char *key = self->key;
  Design *design = NULL;

  if ((key == NULL && !draft_add (draft, PART_CANDIDATE, NULL, NULL, NULL, &key, problem)) ||
      !set_fields (self, draft, key, problem))
    return NULL;
  design = draft_commit (draft, problem);
  if (design != NULL)
    *ret_key = part_key (design_find (design, key));
  return design;
}

/* TRUE when both entries hold what they show. */
static gboolean
apply_entries (OwnPumpDialog *self)
{
  for (EntryId id = 0; id < N_ENTRIES; id++) {
    quantity_entry_apply (DOWNCOMER_QUANTITY_ENTRY (self->entries[id]));
    if (gtk_widget_has_css_class (self->entries[id], "refused"))
      return FALSE;
  }
  return TRUE;
}

static void
on_save (GtkWidget *widget, const char *action, GVariant *parameter)
{
  OwnPumpDialog *self = DOWNCOMER_OWN_PUMP_DIALOG (widget);
  g_autoptr (Design) design = NULL;
  g_autofree char *name = NULL;
  g_autofree char *label = NULL;
  const char *key = NULL;
  Problem problem = {0};

  g_clear_handle_id (&self->pause, g_source_remove);
  if (!apply_entries (self))
    return;
  if (!read_points (self)) {
    if (own_pump_dialog_get_problem (self)[0] == '\0')
      set_problem (self, _ ("Give at least two points: flow and head, one point a line."));
    return;
  }
  design = changed_design (self, &key, &problem);
  if (design == NULL) {
    g_autofree char *sentence = files_problem_sentence (&problem, NULL);

    set_problem (self, sentence);
    return;
  }
  name = words_part (design, design_find (design, key));
  label = g_strdup_printf (self->key != NULL ? _ ("Change %s") : _ ("Add %s"), name);
  document_apply (self->document, design, label);
  gtk_window_close (GTK_WINDOW (self));
}

static void
on_cancel (GtkWidget *widget, const char *action, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* The object */

static void
own_pump_dialog_dispose (GObject *object)
{
  OwnPumpDialog *self = DOWNCOMER_OWN_PUMP_DIALOG (object);

  g_clear_handle_id (&self->pause, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_OWN_PUMP_DIALOG);
  g_clear_object (&self->document);
  g_clear_pointer (&self->figures, bench_figures_unref);
  G_OBJECT_CLASS (own_pump_dialog_parent_class)->dispose (object);
}

static void
own_pump_dialog_finalize (GObject *object)
{
  OwnPumpDialog *self = DOWNCOMER_OWN_PUMP_DIALOG (object);

  g_free (self->key);
  g_free (self->curve);
  G_OBJECT_CLASS (own_pump_dialog_parent_class)->finalize (object);
}

static void
own_pump_dialog_class_init (OwnPumpDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = own_pump_dialog_dispose;
  G_OBJECT_CLASS (klass)->finalize = own_pump_dialog_finalize;
  g_type_ensure (DOWNCOMER_TYPE_BENCH_CHART);
  template_set (widget_class, "own-pump.ui");
  gtk_widget_class_bind_template_child (widget_class, OwnPumpDialog, name);
  gtk_widget_class_bind_template_child_full (widget_class, "watts_slot", FALSE,
                                             G_STRUCT_OFFSET (OwnPumpDialog, slots[ENTRY_WATTS]));
  gtk_widget_class_bind_template_child_full (widget_class, "speed_slot", FALSE,
                                             G_STRUCT_OFFSET (OwnPumpDialog, slots[ENTRY_SPEED]));
  gtk_widget_class_bind_template_child (widget_class, OwnPumpDialog, points);
  gtk_widget_class_bind_template_child (widget_class, OwnPumpDialog, hint);
  gtk_widget_class_bind_template_child (widget_class, OwnPumpDialog, problem);
  gtk_widget_class_bind_template_child (widget_class, OwnPumpDialog, save);
  gtk_widget_class_bind_template_child (widget_class, OwnPumpDialog, chart);
  gtk_widget_class_install_action (widget_class, "pump.save", NULL, on_save);
  gtk_widget_class_install_action (widget_class, "pump.cancel", NULL, on_cancel);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "pump.cancel", NULL);
}

static void
own_pump_dialog_init (OwnPumpDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (gtk_text_view_get_buffer (self->points), "changed",
                            G_CALLBACK (on_points_changed), self);
}

static void
show_candidate (OwnPumpDialog *self)
{
  const Design *design = document_get_design (self->document);
  const Part *part = design_find (design, self->key);
  g_autofree char *text = lines_of (self, design_text (design, part, FIELD_CANDIDATE_CURVE));

  for (EntryId id = 0; id < N_ENTRIES; id++)
    self->values[id] = design_number (design, part, entry_fields[id]);
  gtk_editable_set_text (GTK_EDITABLE (self->name), part_label (part) != NULL ? part_label (part) : "");
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->points), text, -1);
  gtk_window_set_title (GTK_WINDOW (self), _ ("Change a pump of your own"));
  gtk_button_set_label (self->save, _ ("Save"));
}

static void
show_hint (OwnPumpDialog *self)
{
  const NumberStyle *style = document_get_style (self->document);
  const Unit *flow = units_unit_for (QUANTITY_FLOW, style), *head = units_unit_for (QUANTITY_HEAD, style);
  g_autofree char *hint = words_fill (
      _ ("One point a line at full speed, flow then head, typed or pasted from the maker's table, such "
         "as “{example}”. Bare numbers are {flow} and {head}; other units may stand beside the "
         "numbers or in a heading."),
      "flow", flow->symbol, "head", head->symbol, "example",
      style->system == UNIT_SYSTEM_US ? "300\u00a0gph\u00a0\u00a07\u00a0ft"
                                      : "1200\u00a0L/\u2060h\u00a0\u00a02.1\u00a0m",
      NULL);

  gtk_label_set_text (self->hint, hint);
}

GtkWidget *
own_pump_dialog_new (Document *document, BenchFigures *figures, const char *key)
{
  OwnPumpDialog *self = g_object_new (DOWNCOMER_TYPE_OWN_PUMP_DIALOG, NULL);

  self->document = g_object_ref (document);
  self->figures = figures != NULL ? bench_figures_ref (figures) : NULL;
  for (EntryId id = 0; id < N_ENTRIES; id++)
    self->values[id] = field_info (entry_fields[id])->fallback;
  if (key != NULL && design_find (document_get_design (document), key) != NULL) {
    self->key = g_strdup (key);
    show_candidate (self);
  }
  build_entry (self, ENTRY_WATTS, _ ("Power at full speed"));
  build_entry (self, ENTRY_SPEED, _ ("Least speed"));
  show_hint (self);
  g_clear_handle_id (&self->pause, g_source_remove);
  read_points (self);
  return GTK_WIDGET (self);
}

void
own_pump_dialog_set_theme (OwnPumpDialog *dialog, Theme *theme)
{
  bench_chart_set_theme (dialog->chart, theme);
}
