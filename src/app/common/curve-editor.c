/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/curve-editor.h"

#include <glib/gi18n.h>

#include "app/common/drop-down.h"
#include "design/curve.h"
#include "design/edit.h"
#include "files/pump-points.h"
#include "report/words.h"

struct _CurveEditor {
  GtkWidget parent_instance;

  Document *document; /* not owned: the inspector outlives its rows */
  FieldId field;
  char *key;
  GtkWidget *button, *words, *popover, *text, *problem, *catalogue;
  gboolean refreshing;
};

G_DEFINE_FINAL_TYPE (CurveEditor, curve_editor, GTK_TYPE_WIDGET)

static const Part *
part_of (CurveEditor *self)
{
  return self->key != NULL ? design_find (document_get_design (self->document), self->key) : NULL;
}

static gboolean
read_points (CurveEditor *self, CurvePoints *points)
{
  const Part *part = part_of (self);

  return part != NULL &&
         curve_read (design_text (document_get_design (self->document), part, self->field), points);
}

/* The points as lines, in the reader's units. */
static char *
points_text (CurveEditor *self)
{
  const NumberStyle *style = document_get_style (self->document);
  const Unit *flow = units_unit_for (QUANTITY_FLOW, style), *head = units_unit_for (QUANTITY_HEAD, style);
  g_autoptr (GString) text = g_string_new (NULL);
  CurvePoints points;

  if (!read_points (self, &points))
    return g_strdup ("");
  g_string_printf (text, _ ("Flow (%s); Head (%s)"), flow->symbol, head->symbol);
  for (unsigned i = 0; i < points.n; i++) {
    g_autofree char *q = units_format_number (points.flow_m3s[i], QUANTITY_FLOW, style, flow, UNITS_EXACT);
    g_autofree char *h = units_format_number (points.head_m[i], QUANTITY_HEAD, style, head, UNITS_EXACT);

    g_string_append_printf (text, "\n%s; %s", q, h);
  }
  return g_strdup (text->str);
}

static void
set_problem (CurveEditor *self, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (self->problem), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->problem, sentence != NULL);
}

static void
show_points (CurveEditor *self)
{
  g_autofree char *text = points_text (self);

  gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (self->text)), text, -1);
  set_problem (self, NULL);
}

gboolean
curve_editor_apply (CurveEditor *editor, const char *text)
{
  const NumberStyle *style = document_get_style (editor->document);
  g_autofree char *curve = NULL;
  g_autoptr (GError) error = NULL;
  Problem problem = {0};

  g_return_val_if_fail (DOWNCOMER_IS_CURVE_EDITOR (editor), FALSE);
  if (!pump_points_parse (text, style, units_unit_for (QUANTITY_FLOW, style),
                          units_unit_for (QUANTITY_HEAD, style), &curve, &error)) {
    set_problem (editor, error->message);
    return FALSE;
  }
  if (!document_set_text (editor->document, editor->key, editor->field, curve, &problem)) {
    g_autofree char *sentence = files_problem_sentence (&problem, NULL);

    set_problem (editor, sentence);
    return FALSE;
  }
  set_problem (editor, NULL);
  return TRUE;
}

const char *
curve_editor_get_problem (CurveEditor *editor)
{
  return gtk_widget_get_visible (editor->problem) ? gtk_label_get_text (GTK_LABEL (editor->problem)) : NULL;
}

static void
on_apply (CurveEditor *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (self->text));
  GtkTextIter start, end;
  g_autofree char *text = NULL;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  text = gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
  if (curve_editor_apply (self, text))
    gtk_popover_popdown (GTK_POPOVER (self->popover));
}

static void
on_catalogue (CurveEditor *self)
{
  const guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->catalogue));
  const Catalogue *catalogue = document_get_catalogue (self->document);
  g_autoptr (Design) design = NULL;
  Problem problem = {0};

  if (self->refreshing || chosen == 0 || chosen > catalogue_n_pumps (catalogue))
    return;
  design = edit_take_pump (document_get_design (self->document), self->key,
                           catalogue_pump (catalogue, chosen - 1), &problem);
  if (design == NULL) {
    g_autofree char *sentence = files_problem_sentence (&problem, NULL);

    set_problem (self, sentence);
    return;
  }
  document_apply (self->document, design, _ ("Take pump from the catalogue"));
  show_points (self);
}

static void
fill_catalogue (CurveEditor *self)
{
  const Catalogue *catalogue = document_get_catalogue (self->document);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) names = NULL;

  g_strv_builder_add (builder, _ ("Take from the catalogue…"));
  for (unsigned i = 0; i < catalogue_n_pumps (catalogue); i++)
    g_strv_builder_add (builder, _ (catalogue_pump (catalogue, i)->name));
  names = g_strv_builder_end (builder);
  self->refreshing = TRUE;
  drop_down_set (GTK_DROP_DOWN (self->catalogue), (const char *const *) names, 0);
  self->refreshing = FALSE;
}

static void
on_popover_show (CurveEditor *self)
{
  show_points (self);
  fill_catalogue (self);
}

static GtkWidget *
label_new (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 34);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
build_text (CurveEditor *self)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  self->text = gtk_text_view_new ();
  gtk_text_view_set_monospace (GTK_TEXT_VIEW (self->text), TRUE);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (self->text), FALSE);
  gtk_text_view_set_left_margin (GTK_TEXT_VIEW (self->text), 6);
  gtk_text_view_set_top_margin (GTK_TEXT_VIEW (self->text), 4);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->text), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Points of the curve, one a line"), -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->text);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_widget_set_size_request (scrolled, 280, 190);
  return scrolled;
}

static void
build_popover (CurveEditor *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *apply = gtk_button_new_with_label (_ ("Apply"));

  self->popover = gtk_popover_new ();
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->popover), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Pump curve"), -1);
  gtk_box_append (GTK_BOX (box),
                  label_new (_ ("Points at full speed: flow and head, one point a line. Type them or "
                                "paste them from a table. Two points alone give an estimate."),
                             "soft"));
  gtk_box_append (GTK_BOX (box), build_text (self));
  self->problem = label_new ("", "stop");
  gtk_widget_set_visible (self->problem, FALSE);
  gtk_box_append (GTK_BOX (box), self->problem);
  self->catalogue = drop_down_new ();
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->catalogue), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Pump of the catalogue"), -1);
  drop_down_set_name (GTK_DROP_DOWN (self->catalogue), _ ("Pump of the catalogue"));
  g_signal_connect_swapped (self->catalogue, "notify::selected", G_CALLBACK (on_catalogue), self);
  gtk_widget_set_visible (self->catalogue, self->field == FIELD_PUMP_CURVE);
  gtk_box_append (GTK_BOX (box), self->catalogue);
  gtk_widget_set_halign (apply, GTK_ALIGN_END);
  g_signal_connect_swapped (apply, "clicked", G_CALLBACK (on_apply), self);
  gtk_box_append (GTK_BOX (box), apply);
  gtk_popover_set_child (GTK_POPOVER (self->popover), box);
  g_signal_connect_swapped (self->popover, "show", G_CALLBACK (on_popover_show), self);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), self->popover);
}

static void
curve_editor_dispose (GObject *object)
{
  CurveEditor *self = DOWNCOMER_CURVE_EDITOR (object);

  g_clear_pointer (&self->button, gtk_widget_unparent);
  G_OBJECT_CLASS (curve_editor_parent_class)->dispose (object);
}

static void
curve_editor_finalize (GObject *object)
{
  g_free (DOWNCOMER_CURVE_EDITOR (object)->key);
  G_OBJECT_CLASS (curve_editor_parent_class)->finalize (object);
}

static void
curve_editor_class_init (CurveEditorClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = curve_editor_dispose;
  G_OBJECT_CLASS (klass)->finalize = curve_editor_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
curve_editor_init (CurveEditor *self)
{
  self->button = gtk_menu_button_new ();
  gtk_widget_add_css_class (self->button, "figures");
  self->words = gtk_label_new ("");
  gtk_label_set_xalign (GTK_LABEL (self->words), 0);
  gtk_widget_set_hexpand (self->words, TRUE);
  gtk_label_set_ellipsize (GTK_LABEL (self->words), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (self->words), 6);
  gtk_menu_button_set_child (GTK_MENU_BUTTON (self->button), self->words);
  gtk_menu_button_set_always_show_arrow (GTK_MENU_BUTTON (self->button), TRUE);
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
}

GtkWidget *
curve_editor_new (Document *document, FieldId field)
{
  CurveEditor *self = g_object_new (DOWNCOMER_TYPE_CURVE_EDITOR, NULL);

  self->document = document;
  self->field = field;
  build_popover (self);
  return GTK_WIDGET (self);
}

GtkWidget *
curve_editor_get_button (CurveEditor *editor)
{
  return editor->button;
}

void
curve_editor_refresh (CurveEditor *editor, const char *key)
{
  const NumberStyle *style = document_get_style (editor->document);
  g_autofree char *words = NULL;
  g_autofree char *spoken = NULL;
  CurvePoints points;

  g_return_if_fail (DOWNCOMER_IS_CURVE_EDITOR (editor));
  if (g_strcmp0 (editor->key, key) != 0) {
    g_free (editor->key);
    editor->key = g_strdup (key);
    gtk_menu_button_popdown (GTK_MENU_BUTTON (editor->button));
  }
  if (read_points (editor, &points)) {
    g_autofree char *head = units_format (points.head_m[0], QUANTITY_HEAD, style, NULL, UNITS_MEASURE);
    g_autofree char *flow =
        units_format (points.flow_m3s[points.n - 1], QUANTITY_FLOW, style, NULL, UNITS_MEASURE);

    words = g_strdup_printf (_ ("To %s, %s"), head, flow);
  } else {
    words = g_strdup (_ ("Edit points…"));
  }
  gtk_label_set_text (GTK_LABEL (editor->words), words);
  /* The toggle inside has the focus, and the label beside the row does not reach it. */
  spoken = g_strdup_printf ("%s: %s", words_field (editor->field), words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (editor->button)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  if (part_of (editor) != NULL && part_is_given (part_of (editor), editor->field))
    gtk_widget_remove_css_class (editor->button, "assumed");
  else
    gtk_widget_add_css_class (editor->button, "assumed");
}
