/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/options/options-dialog.h"

#include <glib/gi18n.h>

#include "app/common/drop-down.h"
#include "app/common/template.h"
#include "report/difference.h"

struct _OptionsDialog {
  GtkWindow parent_instance;

  Document *document;
  GtkWidget *from_slot, *to_slot;
  GtkDropDown *choices[2];
  GtkGrid *effects, *rows;
  GtkLabel *sentence;
  GtkButton *show_button;
  char *keys[2]; /* of the options compared: their places may change */
};

G_DEFINE_FINAL_TYPE (OptionsDialog, options_dialog, GTK_TYPE_WINDOW)

enum { MOST_ROWS = 300 }; /* of differences shown; the sentence counts all */

static GtkWidget *
cell (GtkGrid *grid, const char *text, int column, int row, float xalign)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (column == 0) {
    gtk_widget_set_hexpand (label, TRUE);
    gtk_label_set_width_chars (GTK_LABEL (label), 18);
  } else {
    gtk_label_set_max_width_chars (GTK_LABEL (label), 20);
  }
  gtk_grid_attach (grid, label, column, row, 1, 1);
  return label;
}

static void
clear (GtkGrid *grid)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (grid))) != NULL)
    gtk_grid_remove (grid, child);
}

static void
add_heads (GtkGrid *grid, const char *const names[2], gboolean with_change)
{
  for (int i = 0; i < 2; i++)
    gtk_widget_add_css_class (cell (grid, names[i], 1 + i, 0, with_change ? 1 : 0), "small");
  if (with_change)
    gtk_widget_add_css_class (cell (grid, _ ("Change"), 3, 0, 1), "small");
}

/* What a change means is said in words: the colour only repeats it. */
static void
fill_effects (OptionsDialog *self, const char *const names[2], const GPtrArray *effects)
{
  static const char *const classes[] = {"stop", NULL, "sound"};
  const char *const senses[] = {_ ("worse"), "", _ ("better")};

  clear (self->effects);
  add_heads (self->effects, names, TRUE);
  for (guint i = 0; i < effects->len; i++) {
    const DifferenceEffect *effect = g_ptr_array_index (effects, i);
    const int row = (int) i + 1, sense = effect->sense - EFFECT_WORSE;
    GtkWidget *word;

    cell (self->effects, effect->name, 0, row, 0);
    cell (self->effects, effect->before, 1, row, 1);
    cell (self->effects, effect->after, 2, row, 1);
    cell (self->effects, effect->change[0] != '\0' ? effect->change : "—", 3, row, 1);
    word = cell (self->effects, senses[sense], 4, row, 0);
    if (classes[sense] != NULL)
      gtk_widget_add_css_class (word, classes[sense]);
  }
}

static void
fill_rows (OptionsDialog *self, const char *const names[2], const GPtrArray *rows)
{
  g_autofree char *sentence = difference_sentence (rows);

  gtk_label_set_text (self->sentence, sentence);
  clear (self->rows);
  if (rows->len > 0)
    add_heads (self->rows, names, FALSE);
  for (guint i = 0; i < MIN (rows->len, MOST_ROWS); i++) {
    const DifferenceRow *row = g_ptr_array_index (rows, i);

    cell (self->rows, row->what, 0, (int) i + 1, 0);
    cell (self->rows, row->before, 1, (int) i + 1, 0);
    cell (self->rows, row->after, 2, (int) i + 1, 0);
  }
}

static Evaluation *
evaluated (OptionsDialog *self, Design *design)
{
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  SystemStatus status;
  int part;

  return evaluate_design (design, document_get_catalogue (self->document), NULL, evaluation, &status, &part)
             ? g_steal_pointer (&evaluation)
             : NULL;
}

/* Which of the two the button switches to: the one that is not in work, else the second. */
static int
other (OptionsDialog *self)
{
  Project *project = document_get_project (self->document);
  const char *active = project_option_key (project, project_active (project));

  return g_strcmp0 (self->keys[1], active) == 0 ? 0 : 1;
}

static void
compare (OptionsDialog *self, const guint at[2])
{
  Project *project = document_get_project (self->document);
  Design *designs[2] = {project_design (project, at[0]), project_design (project, at[1])};
  const NumberStyle *style = document_get_style (self->document);
  g_autoptr (Evaluation) before = evaluated (self, designs[0]);
  g_autoptr (Evaluation) after = evaluated (self, designs[1]);
  g_autoptr (GPtrArray) effects = difference_effects (before, after, style);
  g_autoptr (GPtrArray) rows =
      difference_list (designs[0], designs[1], document_get_catalogue (self->document), style);
  g_autofree char *first = difference_option_name (project, at[0]);
  g_autofree char *second = difference_option_name (project, at[1]);
  g_autofree char *show =
      words_fill (_ ("Switch to {option}"), "option", other (self) == 1 ? second : first, NULL);
  const char *const names[2] = {first, second};

  fill_effects (self, names, effects);
  fill_rows (self, names, rows);
  gtk_button_set_label (self->show_button, show);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "options.show", at[0] != at[1]);
}

static void on_chosen (OptionsDialog *self);

/* Brings both lists and the comparison in line with the document; an option that is gone gives way to the one in work. */
static void
refresh (OptionsDialog *self)
{
  Project *project = document_get_project (self->document);
  const unsigned n = project_n_options (project);
  g_auto (GStrv) names = g_new0 (char *, n + 1);
  guint at[2];

  for (unsigned i = 0; i < n; i++)
    names[i] = difference_option_name (project, i);
  for (int k = 0; k < 2; k++) {
    const int found = project_find_option (project, self->keys[k]);

    at[k] = found >= 0 ? (guint) found : project_active (project);
    if (found < 0) {
      g_free (self->keys[k]);
      self->keys[k] = g_strdup (project_option_key (project, at[k]));
    }
    g_signal_handlers_block_by_func (self->choices[k], on_chosen, self);
    drop_down_set (self->choices[k], (const char *const *) names, at[k]);
    g_signal_handlers_unblock_by_func (self->choices[k], on_chosen, self);
  }
  compare (self, at);
}

void
options_dialog_compare (OptionsDialog *dialog, guint from, guint to)
{
  Project *project = document_get_project (dialog->document);
  const guint places[2] = {from, to};

  g_return_if_fail (DOWNCOMER_IS_OPTIONS_DIALOG (dialog));
  for (int k = 0; k < 2; k++) {
    g_return_if_fail (places[k] < project_n_options (project));
    g_free (dialog->keys[k]);
    dialog->keys[k] = g_strdup (project_option_key (project, places[k]));
  }
  refresh (dialog);
}

static void
on_chosen (OptionsDialog *self)
{
  const guint from = gtk_drop_down_get_selected (self->choices[0]);
  const guint to = gtk_drop_down_get_selected (self->choices[1]);

  if (from != GTK_INVALID_LIST_POSITION && to != GTK_INVALID_LIST_POSITION)
    options_dialog_compare (self, from, to);
}

static void
on_turn (GtkWidget *widget, const char *name, GVariant *parameter)
{
  OptionsDialog *self = DOWNCOMER_OPTIONS_DIALOG (widget);
  char *first = self->keys[0];

  self->keys[0] = self->keys[1];
  self->keys[1] = first;
  refresh (self);
}

static void
on_show (GtkWidget *widget, const char *name, GVariant *parameter)
{
  OptionsDialog *self = DOWNCOMER_OPTIONS_DIALOG (widget);
  Project *project = document_get_project (self->document);
  const int option = project_find_option (project, self->keys[other (self)]);

  if (option >= 0) {
    g_autoptr (Project) shown = project_with_active (project, (unsigned) option);

    document_apply_project (self->document, shown, _ ("Switch option"));
  }
}

static void
options_dialog_dispose (GObject *object)
{
  OptionsDialog *self = DOWNCOMER_OPTIONS_DIALOG (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_OPTIONS_DIALOG);
  G_OBJECT_CLASS (options_dialog_parent_class)->dispose (object);
}

static void
options_dialog_finalize (GObject *object)
{
  OptionsDialog *self = DOWNCOMER_OPTIONS_DIALOG (object);

  g_free (self->keys[0]);
  g_free (self->keys[1]);
  G_OBJECT_CLASS (options_dialog_parent_class)->finalize (object);
}

static void
options_dialog_class_init (OptionsDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = options_dialog_dispose;
  G_OBJECT_CLASS (klass)->finalize = options_dialog_finalize;
  template_set (widget_class, "options-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OptionsDialog, from_slot);
  gtk_widget_class_bind_template_child (widget_class, OptionsDialog, to_slot);
  gtk_widget_class_bind_template_child (widget_class, OptionsDialog, effects);
  gtk_widget_class_bind_template_child (widget_class, OptionsDialog, rows);
  gtk_widget_class_bind_template_child (widget_class, OptionsDialog, sentence);
  gtk_widget_class_bind_template_child (widget_class, OptionsDialog, show_button);
  gtk_widget_class_install_action (widget_class, "options.turn", NULL, on_turn);
  gtk_widget_class_install_action (widget_class, "options.show", NULL, on_show);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
options_dialog_init (OptionsDialog *self)
{
  const char *const names[2] = {_ ("First option"), _ ("Second option")};

  gtk_widget_init_template (GTK_WIDGET (self));
  for (int k = 0; k < 2; k++) {
    GtkWidget *choice = drop_down_new ();

    self->choices[k] = GTK_DROP_DOWN (choice);
    drop_down_set_name (self->choices[k], names[k]);
    gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, names[k], -1);
    gtk_widget_set_hexpand (choice, TRUE);
    gtk_box_append (GTK_BOX (k == 0 ? self->from_slot : self->to_slot), choice);
    g_signal_connect_swapped (choice, "notify::selected", G_CALLBACK (on_chosen), self);
  }
}

GtkWidget *
options_dialog_new (Document *document)
{
  OptionsDialog *self = g_object_new (DOWNCOMER_TYPE_OPTIONS_DIALOG, NULL);
  Project *project = document_get_project (document);
  const guint active = project_active (project);

  self->document = g_object_ref (document);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (refresh), self);
  options_dialog_compare (self, active > 0 ? 0 : MIN (1, project_n_options (project) - 1), active);
  return GTK_WIDGET (self);
}
