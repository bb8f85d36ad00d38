/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/start/new-dialog.h"

#include <glib/gi18n.h>
#include <string.h>
#include <math.h>

#include "app/common/latest-job.h"
#include "app/common/quantity-entry.h"
#include "app/common/quantity-words.h"
#include "app/common/template.h"
#include "app/start/new-proposal.h"
#include "app/start/starter.h"
#include "report/words.h"
#include "units/parse.h"

#define PAUSE_MS 250 /* after the last key, before a proposal is worked out */

/* What each entry asks for. An optional one that is left empty is assumed and says what as soon as that is known. */
static const struct {
  const char *slot, *name;
  FieldId field;
  gboolean optional;
} asked[N_NEW_ENTRIES] = {
    [NEW_TANK_LENGTH] = {"tank_length", N_ ("Tank length, outside"), FIELD_TANK_LENGTH, FALSE},
    [NEW_TANK_WIDTH] = {"tank_width", N_ ("Tank width, outside"), FIELD_TANK_WIDTH, FALSE},
    [NEW_TANK_HEIGHT] = {"tank_height", N_ ("Tank height, outside"), FIELD_TANK_HEIGHT, FALSE},
    [NEW_STAND_LENGTH] = {"stand_length", N_ ("Stand length, inside"), FIELD_STAND_LENGTH, FALSE},
    [NEW_STAND_WIDTH] = {"stand_width", N_ ("Stand width, inside"), FIELD_STAND_WIDTH, FALSE},
    [NEW_STAND_HEIGHT] = {"stand_height", N_ ("Stand height, inside"), FIELD_STAND_HEIGHT, FALSE},
    [NEW_DOOR_WIDTH] = {"door_width", N_ ("Door width"), FIELD_STAND_DOOR_WIDTH, TRUE},
    [NEW_DOOR_HEIGHT] = {"door_height", N_ ("Door height"), FIELD_STAND_DOOR_HEIGHT, TRUE},
    [NEW_TURNOVER] = {"turnover", N_ ("Target turnover"), FIELD_JOB_TURNOVER, TRUE},
};

struct _NewDialog {
  GtkWindow parent_instance;

  Catalogue *catalogue;
  LatestJob *job;
  NumberStyle signs, style;
  ProposalRequest request;  /* what is given */
  ProposalRequest answered; /* what the sentence is about: also what is still being typed */
  Design *design;           /* proposed for `answered`, or NULL */
  char *verdict;
  const char *verdict_class;
  gboolean taken; /* the button was pressed before the answer came */
  guint pause;

  GtkWidget *slots[N_NEW_ENTRIES], *entries[N_NEW_ENTRIES];
  GtkToggleButton *metric, *us;
  GtkLabel *sentence;
};

G_DEFINE_FINAL_TYPE (NewDialog, new_dialog, GTK_TYPE_WINDOW)

enum { SIGNAL_PROPOSED, N_SIGNALS };

static guint signals[N_SIGNALS];

/* The job */

typedef struct {
  ProposalRequest request;
  Catalogue *catalogue;
} Errand;

static void
errand_free (gpointer data)
{
  Errand *errand = data;

  catalogue_unref (errand->catalogue);
  g_free (errand);
}

static gpointer
propose (gpointer data)
{
  const Errand *errand = data;

  return new_proposal_make (&errand->request, errand->catalogue);
}

static void
answer_free (gpointer data)
{
  new_proposal_free (data);
}

/* Words */

static void
say (NewDialog *self, const char *sentence, const char *css_class)
{
  static const char *const classes[] = {"soft", "stop", "caution", NULL};

  for (guint i = 0; classes[i] != NULL; i++)
    gtk_widget_remove_css_class (GTK_WIDGET (self->sentence), classes[i]);
  if (css_class != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self->sentence), css_class);
  gtk_label_set_text (self->sentence, sentence);
}

/* Entries */

static double *
value_of (ProposalRequest *request, NewEntry entry)
{
  if (entry < NEW_STAND_LENGTH)
    return &request->tank_m[entry - NEW_TANK_LENGTH];
  if (entry < NEW_DOOR_WIDTH)
    return &request->stand_m[entry - NEW_STAND_LENGTH];
  if (entry < NEW_TURNOVER)
    return &request->door_m[entry - NEW_DOOR_WIDTH];
  return &request->turnover_per_h;
}

/* What the proposal takes for an entry that was left empty; NAN while there is none. */
static double
assumed_value (NewDialog *self, NewEntry entry)
{
  const FieldId field = asked[entry].field;
  const Part *part = self->design != NULL ? design_nth (self->design, field_info (field)->kind, 0) : NULL;

  return part != NULL ? design_number (self->design, part, field) : (double) NAN;
}

static void
show_entry (NewDialog *self, NewEntry entry)
{
  const double value = *value_of (&self->request, entry);
  const gboolean given = value > 0;

  quantity_entry_set_value (DOWNCOMER_QUANTITY_ENTRY (self->entries[entry]),
                            given ? value : assumed_value (self, entry), !given);
}

static void
show_optional (NewDialog *self)
{
  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++)
    if (asked[entry].optional && !(*value_of (&self->request, entry) > 0))
      show_entry (self, entry);
}

static NewEntry
entry_of (NewDialog *self, gpointer widget)
{
  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++)
    if (self->entries[entry] == widget)
      return entry;
  g_return_val_if_reached (NEW_TANK_LENGTH);
}

static gboolean
any_refused (NewDialog *self)
{
  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++)
    if (gtk_widget_has_css_class (self->entries[entry], "refused"))
      return TRUE;
  return FALSE;
}

/* What is given, and on top what is being typed in the entry with the focus, as far as it can be read. */
static ProposalRequest
typed_request (NewDialog *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  ProposalRequest request = self->request;

  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++) {
    const Quantity quantity = field_info (asked[entry].field)->quantity;
    double value;

    if (focus != NULL && gtk_widget_is_ancestor (focus, self->entries[entry]) &&
        quantity_entry_is_typed (DOWNCOMER_QUANTITY_ENTRY (self->entries[entry])) &&
        units_parse (gtk_editable_get_text (GTK_EDITABLE (self->entries[entry])), quantity, &self->style,
                     units_unit_for (quantity, &self->style), &value, NULL) == UNITS_PARSE_OK)
      *value_of (&request, entry) = value;
  }
  return request;
}

static gboolean
same_request (ProposalRequest a, ProposalRequest b)
{
  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++)
    if (*value_of (&a, entry) != *value_of (&b, entry))
      return FALSE;
  return a.us == b.us;
}

/* Working it out */

static void
show_verdict (NewDialog *self)
{
  if (!any_refused (self))
    say (self, self->verdict != NULL ? self->verdict : _ ("Working out a proposal…"),
         latest_job_is_busy (self->job) ? "soft" : self->verdict_class);
}

static void
take (NewDialog *self)
{
  g_autoptr (Design) design = design_ref (self->design);

  g_object_ref (self);
  g_signal_emit (self, signals[SIGNAL_PROPOSED], 0, design);
  gtk_window_close (GTK_WINDOW (self));
  g_object_unref (self);
}

static void
on_answer (gpointer data, gpointer owner)
{
  NewDialog *self = owner;
  NewProposal *answer = data;
  const gboolean taken = self->taken;

  self->taken = FALSE;
  g_clear_pointer (&self->design, design_unref);
  self->design = answer->design != NULL ? design_ref (answer->design) : NULL;
  g_free (self->verdict);
  self->verdict = new_proposal_words (answer, &self->style);
  self->verdict_class = self->design != NULL ? NULL : "caution";
  show_verdict (self);
  show_optional (self);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "new.propose", self->design != NULL);
  if (taken && self->design != NULL)
    take (self);
}

static const LatestJobKind proposal_job = {
    .work = propose, .done = on_answer, .free_request = errand_free, .free_answer = answer_free};

static void
ask (NewDialog *self, ProposalRequest request)
{
  Errand *errand;

  if (same_request (request, self->answered))
    return;
  errand = g_new0 (Errand, 1);
  *errand = (Errand){request, catalogue_ref (self->catalogue)};
  self->answered = request;
  latest_job_ask (self->job, errand);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "new.propose", TRUE);
  show_verdict (self);
}

static gboolean
on_pause (gpointer data)
{
  NewDialog *self = data;

  self->pause = 0;
  ask (self, typed_request (self));
  return G_SOURCE_REMOVE;
}

static void
on_typed (NewDialog *self)
{
  g_clear_handle_id (&self->pause, g_source_remove);
  self->pause = g_timeout_add (PAUSE_MS, on_pause, self);
}

static void
on_entered (QuantityEntry *entry, double value, NewDialog *self)
{
  const NewEntry id = entry_of (self, entry);
  const FieldInfo *info = field_info (asked[id].field);

  if (value < info->min || value > info->max) {
    const Problem problem = {.code = value < info->min ? PROBLEM_TOO_SMALL : PROBLEM_TOO_LARGE,
                             .kind = info->kind,
                             .field = asked[id].field,
                             .value = value};
    g_autofree char *sentence =
        quantity_words_refusal (&problem, asked[id].field, gtk_editable_get_text (GTK_EDITABLE (entry)),
                                &self->style, units_unit_for (info->quantity, &self->style));

    quantity_entry_refuse (entry, sentence);
    return;
  }
  *value_of (&self->request, id) = value;
  show_entry (self, id);
  ask (self, self->request);
}

static void
on_cleared (QuantityEntry *entry, NewDialog *self)
{
  const NewEntry id = entry_of (self, entry);

  if (!asked[id].optional)
    return;
  *value_of (&self->request, id) = 0;
  show_entry (self, id);
  ask (self, self->request);
}

static void
on_problem (QuantityEntry *entry, const char *sentence, NewDialog *self)
{
  if (sentence != NULL)
    say (self, sentence, "stop");
  else
    show_verdict (self);
}

/* Actions */

static void
on_propose (GtkWidget *widget, const char *action, GVariant *parameter)
{
  NewDialog *self = DOWNCOMER_NEW_DIALOG (widget);

  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++)
    quantity_entry_apply (DOWNCOMER_QUANTITY_ENTRY (self->entries[entry]));
  g_clear_handle_id (&self->pause, g_source_remove);
  if (any_refused (self))
    return;
  ask (self, self->request);
  if (latest_job_is_busy (self->job))
    self->taken = TRUE;
  else if (self->design != NULL)
    take (self);
}

static void
on_cancel (GtkWidget *widget, const char *action, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* Units */

static void
set_style (NewDialog *self)
{
  NumberStyle style = number_style_from_separators (self->request.us ? UNIT_SYSTEM_US : UNIT_SYSTEM_METRIC,
                                                    self->signs.decimal, self->signs.thousands);

  g_strlcpy (style.currency, self->signs.currency, sizeof style.currency);
  self->style = style;
  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++) {
    const Unit *unit = units_unit_for (field_info (asked[entry].field)->quantity, &style);

    quantity_entry_set_style (DOWNCOMER_QUANTITY_ENTRY (self->entries[entry]), &style, unit, FALSE);
    show_entry (self, entry);
  }
}

void
new_dialog_set_us (NewDialog *dialog, gboolean us)
{
  g_return_if_fail (DOWNCOMER_IS_NEW_DIALOG (dialog));
  gtk_toggle_button_set_active (us ? dialog->us : dialog->metric, TRUE);
}

static void
on_units (NewDialog *self)
{
  const gboolean us = gtk_toggle_button_get_active (self->us);

  if (self->request.us == us)
    return;
  /* Nobody asked for 59 1/16 in: an untouched start becomes that of the other units. */
  if (same_request (self->request, starter_request (!us)))
    self->request = starter_request (us);
  self->request.us = us;
  set_style (self);
  ask (self, self->request);
}

/* The object */

static void
new_dialog_dispose (GObject *object)
{
  NewDialog *self = DOWNCOMER_NEW_DIALOG (object);

  g_clear_handle_id (&self->pause, g_source_remove);
  g_clear_pointer (&self->job, latest_job_free);
  /* The entry that loses the focus now applies what was typed in it. */
  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++)
    if (self->entries[entry] != NULL)
      g_signal_handlers_disconnect_by_data (self->entries[entry], self);
  memset (self->entries, 0, sizeof self->entries);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_NEW_DIALOG);
  g_clear_pointer (&self->design, design_unref);
  g_clear_pointer (&self->catalogue, catalogue_unref);
  G_OBJECT_CLASS (new_dialog_parent_class)->dispose (object);
}

static void
new_dialog_finalize (GObject *object)
{
  g_free (DOWNCOMER_NEW_DIALOG (object)->verdict);
  G_OBJECT_CLASS (new_dialog_parent_class)->finalize (object);
}

static void
new_dialog_class_init (NewDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = new_dialog_dispose;
  G_OBJECT_CLASS (klass)->finalize = new_dialog_finalize;
  signals[SIGNAL_PROPOSED] = g_signal_new ("proposed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                           NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);
  template_set (widget_class, "new-dialog.ui");
  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++)
    gtk_widget_class_bind_template_child_full (
        widget_class, asked[entry].slot, FALSE,
        (gssize) (G_STRUCT_OFFSET (NewDialog, slots) + (gssize) entry * (gssize) sizeof (GtkWidget *)));
  gtk_widget_class_bind_template_child (widget_class, NewDialog, metric);
  gtk_widget_class_bind_template_child (widget_class, NewDialog, us);
  gtk_widget_class_bind_template_child (widget_class, NewDialog, sentence);
  gtk_widget_class_bind_template_callback (widget_class, on_units);
  gtk_widget_class_install_action (widget_class, "new.propose", NULL, on_propose);
  gtk_widget_class_install_action (widget_class, "new.cancel", NULL, on_cancel);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "new.cancel", NULL);
}

static void
build_entry (NewDialog *self, NewEntry id)
{
  GtkWidget *entry = quantity_entry_new (field_info (asked[id].field)->quantity);

  self->entries[id] = entry;
  gtk_widget_set_hexpand (entry, TRUE);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 10);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, _ (asked[id].name),
                                  -1);
  gtk_widget_set_tooltip_text (entry, words_help (asked[id].field));
  gtk_box_append (GTK_BOX (self->slots[id]), entry);
  g_signal_connect (entry, "entered", G_CALLBACK (on_entered), self);
  g_signal_connect (entry, "cleared", G_CALLBACK (on_cleared), self);
  g_signal_connect (entry, "problem", G_CALLBACK (on_problem), self);
  g_signal_connect_swapped (entry, "changed", G_CALLBACK (on_typed), self);
}

static void
new_dialog_init (NewDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->job = latest_job_new (&proposal_job, self);
  for (NewEntry entry = 0; entry < N_NEW_ENTRIES; entry++)
    build_entry (self, entry);
}

GtkWidget *
new_dialog_new (Catalogue *catalogue, const ProposalRequest *request, const NumberStyle *signs)
{
  NewDialog *self = g_object_new (DOWNCOMER_TYPE_NEW_DIALOG, NULL);

  self->catalogue = catalogue_ref (catalogue);
  self->signs = *signs;
  self->request = *request;
  set_style (self);
  new_dialog_set_us (self, request->us);
  gtk_window_set_focus (GTK_WINDOW (self), self->entries[NEW_TANK_LENGTH]);
  ask (self, self->request);
  return GTK_WIDGET (self);
}

GtkWidget *
new_dialog_get_entry (NewDialog *dialog, NewEntry entry)
{
  return dialog->entries[entry];
}

ProposalRequest
new_dialog_get_request (NewDialog *dialog)
{
  return dialog->request;
}

const char *
new_dialog_get_sentence (NewDialog *dialog)
{
  return gtk_label_get_text (dialog->sentence);
}

gboolean
new_dialog_is_busy (NewDialog *dialog)
{
  return latest_job_is_busy (dialog->job) || dialog->pause != 0;
}
