/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/rehearsal/rehearsal-row.h"

#include <glib/gi18n.h>

#include "app/common/grade-mark.h"

struct _RehearsalRow {
  GtkListBoxRow parent_instance;

  FailureId failure;
  GradeMark *mark;
  GtkLabel *name, *verdict;
};

G_DEFINE_FINAL_TYPE (RehearsalRow, rehearsal_row, GTK_TYPE_LIST_BOX_ROW)

static void
rehearsal_row_class_init (RehearsalRowClass *klass)
{
}

static GtkLabel *
add_label (GtkGrid *grid, int row, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (label, style);
  gtk_grid_attach (grid, label, 1, row, 1, 1);
  return GTK_LABEL (label);
}

static void
rehearsal_row_init (RehearsalRow *self)
{
  GtkWidget *grid = gtk_grid_new ();

  self->mark = g_object_new (DOWNCOMER_TYPE_GRADE_MARK, "valign", GTK_ALIGN_START, NULL);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_attach (GTK_GRID (grid), GTK_WIDGET (self->mark), 0, 0, 1, 2);
  self->name = add_label (GTK_GRID (grid), 0, "finding-title");
  self->verdict = add_label (GTK_GRID (grid), 1, "figures");
  gtk_widget_add_css_class (GTK_WIDGET (self), "finding-row");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), grid);
}

GtkWidget *
rehearsal_row_new (FailureId failure)
{
  RehearsalRow *self = g_object_new (DOWNCOMER_TYPE_REHEARSAL_ROW, NULL);

  self->failure = failure;
  gtk_label_set_text (self->name, rehearsal_failure_name (failure));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), rehearsal_failure_meaning (failure));
  return GTK_WIDGET (self);
}

FailureId
rehearsal_row_get_failure (RehearsalRow *row)
{
  return row->failure;
}

static const RehearsalFinding *
worst_finding (const Rehearsed *rehearsed)
{
  const RehearsalFinding *worst = NULL;

  for (unsigned i = 0; i < rehearsed->n_findings; i++)
    if (worst == NULL || rehearsed->findings[i].grade < worst->grade)
      worst = &rehearsed->findings[i];
  return worst;
}

Grade
rehearsed_grade (const Rehearsed *rehearsed)
{
  const RehearsalFinding *worst = rehearsed != NULL ? worst_finding (rehearsed) : NULL;

  return worst != NULL ? worst->grade : N_GRADES;
}

static char *
verdict_of (const Design *design, const Rehearsed *rehearsed, const NumberStyle *style)
{
  const RehearsalFinding *worst;

  if (rehearsed == NULL)
    return g_strdup ("…");
  if (rehearsed->reason != FAILURE_APPLIES)
    return g_strdup (rehearsal_reason_sentence (rehearsed->reason));
  worst = worst_finding (rehearsed);
  if (worst != NULL)
    return rehearsal_finding_sentence (design, worst, style);
  return g_strdup (_ ("The floor stays dry."));
}

void
rehearsal_row_set (RehearsalRow *row, const Design *design, const Rehearsed *rehearsed,
                   const NumberStyle *style)
{
  const gboolean known = rehearsed != NULL && rehearsed->reason == FAILURE_APPLIES;
  g_autofree char *verdict = NULL;

  g_return_if_fail (DOWNCOMER_IS_REHEARSAL_ROW (row));
  verdict = verdict_of (design, rehearsed, style);
  grade_mark_set (row->mark, rehearsed_grade (rehearsed), "");
  gtk_widget_set_opacity (GTK_WIDGET (row->mark), known ? 1 : 0);
  gtk_label_set_text (row->verdict, verdict);
  if (known)
    gtk_widget_remove_css_class (GTK_WIDGET (row->name), "soft");
  else
    gtk_widget_add_css_class (GTK_WIDGET (row->name), "soft");
  if (known)
    gtk_widget_remove_css_class (GTK_WIDGET (row->verdict), "soft");
  else
    gtk_widget_add_css_class (GTK_WIDGET (row->verdict), "soft");
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  rehearsal_failure_name (row->failure), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  verdict, -1);
}
