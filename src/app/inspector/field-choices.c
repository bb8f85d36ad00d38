/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/inspector/field-choices.h"

#include <glib/gi18n.h>

#include "app/common/drop-down.h"
#include "report/words.h"

struct _FieldChoices {
  GtkWidget parent_instance;

  FieldId field;
  GtkWidget *drop_down;
  GPtrArray *values; /* of char *, beside the names in the list */
  gboolean refreshing;
};

G_DEFINE_FINAL_TYPE (FieldChoices, field_choices, GTK_TYPE_WIDGET)

enum { SIGNAL_CHOSEN, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
on_selected (FieldChoices *self)
{
  const guint selected = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->drop_down));

  if (!self->refreshing && selected < self->values->len)
    g_signal_emit (self, signals[SIGNAL_CHOSEN], 0, g_ptr_array_index (self->values, selected));
}

static void
field_choices_dispose (GObject *object)
{
  FieldChoices *self = DOWNCOMER_FIELD_CHOICES (object);

  g_clear_pointer (&self->drop_down, gtk_widget_unparent);
  G_OBJECT_CLASS (field_choices_parent_class)->dispose (object);
}

static void
field_choices_finalize (GObject *object)
{
  g_ptr_array_unref (DOWNCOMER_FIELD_CHOICES (object)->values);
  G_OBJECT_CLASS (field_choices_parent_class)->finalize (object);
}

static void
field_choices_class_init (FieldChoicesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = field_choices_dispose;
  G_OBJECT_CLASS (klass)->finalize = field_choices_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  signals[SIGNAL_CHOSEN] = g_signal_new ("chosen", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                         NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
field_choices_init (FieldChoices *self)
{
  self->values = g_ptr_array_new_with_free_func (g_free);
  self->drop_down = drop_down_new ();
  gtk_widget_set_parent (self->drop_down, GTK_WIDGET (self));
  g_signal_connect_swapped (self->drop_down, "notify::selected", G_CALLBACK (on_selected), self);
}

GtkWidget *
field_choices_new (FieldId field)
{
  FieldChoices *self = g_object_new (DOWNCOMER_TYPE_FIELD_CHOICES, NULL);

  self->field = field;
  drop_down_set_name (GTK_DROP_DOWN (self->drop_down), words_field (field));
  return GTK_WIDGET (self);
}

GtkWidget *
field_choices_get_drop_down (FieldChoices *choices)
{
  return choices->drop_down;
}

static void
add (FieldChoices *self, GStrvBuilder *names, const char *value, const char *name)
{
  g_ptr_array_add (self->values, g_strdup (value));
  g_strv_builder_add (names, name);
}

static void
list_choices (FieldChoices *self, GStrvBuilder *names)
{
  const FieldInfo *info = field_info (self->field);

  for (int i = 0; info->choices[i].word != NULL; i++) {
    g_autofree char *value = g_strdup_printf ("%d", i);

    add (self, names, value, words_choice (self->field, i));
  }
}

static void
list_parts (FieldChoices *self, GStrvBuilder *names, const Design *design)
{
  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *part = design_part (design, i);
    g_autofree char *name = words_part (design, part);

    if ((field_info (self->field)->refers_to & 1u << part_kind (part)) != 0)
      add (self, names, part_key (part), name);
  }
}

static void
list_catalogue (FieldChoices *self, GStrvBuilder *names, const Catalogue *catalogue)
{
  if (field_info (self->field)->type == FIELD_PIPE)
    for (unsigned i = 0; i < catalogue_n_pipes (catalogue); i++)
      add (self, names, catalogue_pipe (catalogue, i)->key, catalogue_pipe (catalogue, i)->name);
  else
    for (unsigned i = 0; i < catalogue_n_fittings (catalogue); i++)
      add (self, names, catalogue_fitting (catalogue, i)->key, _ (catalogue_fitting (catalogue, i)->name));
}

static guint
find_value (FieldChoices *self, const char *value)
{
  for (guint i = 0; value != NULL && i < self->values->len; i++)
    if (g_str_equal (g_ptr_array_index (self->values, i), value))
      return i;
  return GTK_INVALID_LIST_POSITION;
}

void
field_choices_refresh (FieldChoices *choices, const Design *design, const Catalogue *catalogue,
                       const Part *part)
{
  const FieldType type = field_info (choices->field)->type;
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) names = NULL;
  g_autofree char *value = NULL;
  guint selected;

  g_return_if_fail (DOWNCOMER_IS_FIELD_CHOICES (choices));
  g_ptr_array_set_size (choices->values, 0);
  if (type == FIELD_CHOICE) {
    list_choices (choices, builder);
    value = g_strdup_printf ("%d", design_choice (design, part, choices->field));
  } else {
    if (type == FIELD_REF)
      list_parts (choices, builder, design);
    else
      list_catalogue (choices, builder, catalogue);
    value = g_strdup (design_text (design, part, choices->field));
  }
  selected = find_value (choices, value);
  if (selected == GTK_INVALID_LIST_POSITION && value != NULL) { /* of another catalogue: shown by its key */
    selected = choices->values->len;
    add (choices, builder, value, value);
  }
  names = g_strv_builder_end (builder);
  choices->refreshing = TRUE;
  drop_down_set (GTK_DROP_DOWN (choices->drop_down), (const char *const *) names, selected);
  choices->refreshing = FALSE;
  if (part_is_given (part, choices->field))
    gtk_widget_remove_css_class (choices->drop_down, "assumed");
  else
    gtk_widget_add_css_class (choices->drop_down, "assumed");
}
