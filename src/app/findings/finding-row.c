/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/findings/finding-row.h"

#include <glib/gi18n.h>

#include "app/common/grade-mark.h"
#include "app/common/label-text.h"
#include "app/common/template.h"
#include "drawing/scene.h"
#include "report/finding-words.h"

struct _FindingRow {
  GtkListBoxRow parent_instance;

  char *identity;
  unsigned index;
  gboolean has_remedy;

  GradeMark *mark;
  GtkLabel *grade_label, *title_label, *sentence_label, *meaning_label, *remedy_label;
  GtkBox *detail;
  GtkButton *apply_button;
};

G_DEFINE_FINAL_TYPE (FindingRow, finding_row, GTK_TYPE_LIST_BOX_ROW)

enum { SIGNAL_APPLY, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
on_apply (FindingRow *self)
{
  g_signal_emit (self, signals[SIGNAL_APPLY], 0);
}

static const char *
key_at (const Design *design, int part)
{
  return part >= 0 && (unsigned) part < design_n_parts (design)
             ? part_key (design_part (design, (unsigned) part))
             : "";
}

char *
finding_row_identity (const Design *design, const Evaluation *evaluation, unsigned index)
{
  const Finding *finding = &evaluation->findings[index];
  unsigned place = 0;

  for (unsigned i = 0; i < index; i++) {
    const Finding *other = &evaluation->findings[i];

    place += other->check == finding->check && other->part == finding->part &&
             other->other_part == finding->other_part;
  }
  return g_strdup_printf ("%s/%s/%s/%u", check_word (finding->check), key_at (design, finding->part),
                          key_at (design, finding->other_part), place);
}

void
finding_row_set (FindingRow *row, const Design *design, const Catalogue *catalogue,
                 const Evaluation *evaluation, unsigned index, const NumberStyle *style)
{
  const Finding *finding = &evaluation->findings[index];
  const char *grade = words_grade (finding->grade), *title = finding_title (finding->check);
  g_autofree char *sentence = finding_sentence (design, finding, style);
  g_autofree char *remedy = finding_remedy (design, catalogue, finding, style);
  g_autofree char *name = NULL;
  char letters[4];

  g_return_if_fail (DOWNCOMER_IS_FINDING_ROW (row));
  g_free (row->identity);
  row->identity = finding_row_identity (design, evaluation, index);
  row->index = index;
  row->has_remedy = remedy != NULL;
  scene_finding_letters (index, letters);
  grade_mark_set (row->mark, finding->grade, letters);
  for (Grade each = 0; each < N_GRADES; each++)
    gtk_widget_remove_css_class (GTK_WIDGET (row->grade_label), grade_css_class (each));
  gtk_widget_add_css_class (GTK_WIDGET (row->grade_label), grade_css_class (finding->grade));
  label_text_set (row->grade_label, grade);
  label_text_set (row->title_label, title);
  label_text_set (row->sentence_label, sentence);
  label_text_set (row->meaning_label, finding_meaning (finding->check));
  label_text_set (row->remedy_label, remedy != NULL ? remedy : finding_advice (finding->check));
  gtk_widget_set_visible (GTK_WIDGET (row->apply_button), row->has_remedy);
  /* Translators: grade, letter on the drawing, title of a finding */
  name = g_strdup_printf (_ ("%s %s: %s"), grade, letters, title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->apply_button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  remedy != NULL ? remedy : "", -1);
}

void
finding_row_set_chosen (FindingRow *row, gboolean chosen)
{
  g_return_if_fail (DOWNCOMER_IS_FINDING_ROW (row));
  gtk_widget_set_visible (GTK_WIDGET (row->detail), chosen);
  if (chosen)
    gtk_widget_add_css_class (GTK_WIDGET (row), "chosen");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (row), "chosen");
  gtk_accessible_update_state (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_STATE_EXPANDED, chosen, -1);
}

const char *
finding_row_get_identity (FindingRow *row)
{
  return row->identity;
}

unsigned
finding_row_get_index (FindingRow *row)
{
  return row->index;
}

static void
finding_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), DOWNCOMER_TYPE_FINDING_ROW);
  G_OBJECT_CLASS (finding_row_parent_class)->dispose (object);
}

static void
finding_row_finalize (GObject *object)
{
  g_free (DOWNCOMER_FINDING_ROW (object)->identity);
  G_OBJECT_CLASS (finding_row_parent_class)->finalize (object);
}

static void
finding_row_class_init (FindingRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = finding_row_dispose;
  G_OBJECT_CLASS (klass)->finalize = finding_row_finalize;
  signals[SIGNAL_APPLY] = g_signal_new ("apply", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                        NULL, G_TYPE_NONE, 0);
  g_type_ensure (DOWNCOMER_TYPE_GRADE_MARK);
  template_set (widget_class, "finding-row.ui");
  gtk_widget_class_bind_template_child (widget_class, FindingRow, mark);
  gtk_widget_class_bind_template_child (widget_class, FindingRow, grade_label);
  gtk_widget_class_bind_template_child (widget_class, FindingRow, title_label);
  gtk_widget_class_bind_template_child (widget_class, FindingRow, sentence_label);
  gtk_widget_class_bind_template_child (widget_class, FindingRow, meaning_label);
  gtk_widget_class_bind_template_child (widget_class, FindingRow, remedy_label);
  gtk_widget_class_bind_template_child (widget_class, FindingRow, detail);
  gtk_widget_class_bind_template_child (widget_class, FindingRow, apply_button);
  gtk_widget_class_bind_template_callback (widget_class, on_apply);
}

static void
finding_row_init (FindingRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
finding_row_new (void)
{
  return g_object_new (DOWNCOMER_TYPE_FINDING_ROW, NULL);
}
