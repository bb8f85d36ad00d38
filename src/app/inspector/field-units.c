/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/inspector/field-units.h"

#include "config.h"

#define KEY "field-units"

struct _FieldUnits {
  GObject parent_instance;

  GSettings *settings; /* NULL where the schema is not installed */
  GHashTable *own;     /* "kind.field" -> word of a unit */
};

G_DEFINE_FINAL_TYPE (FieldUnits, field_units, G_TYPE_OBJECT)

enum { SIGNAL_CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
read_settings (FieldUnits *self)
{
  g_autoptr (GVariant) stored = g_settings_get_value (self->settings, KEY);
  GVariantIter iter;
  const char *path, *word;

  g_hash_table_remove_all (self->own);
  g_variant_iter_init (&iter, stored);
  while (g_variant_iter_next (&iter, "{&s&s}", &path, &word))
    g_hash_table_replace (self->own, g_strdup (path), g_strdup (word));
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static void
write_settings (FieldUnits *self)
{
  GVariantBuilder builder;
  GHashTableIter iter;
  gpointer path, word;

  g_variant_builder_init (&builder, G_VARIANT_TYPE ("a{ss}"));
  g_hash_table_iter_init (&iter, self->own);
  while (g_hash_table_iter_next (&iter, &path, &word))
    g_variant_builder_add (&builder, "{ss}", (const char *) path, (const char *) word);
  g_settings_set_value (self->settings, KEY, g_variant_builder_end (&builder));
}

static void
field_units_finalize (GObject *object)
{
  FieldUnits *self = DOWNCOMER_FIELD_UNITS (object);

  if (self->settings != NULL)
    g_signal_handlers_disconnect_by_data (self->settings, self);
  g_clear_object (&self->settings);
  g_hash_table_unref (self->own);
  G_OBJECT_CLASS (field_units_parent_class)->finalize (object);
}

static void
field_units_class_init (FieldUnitsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = field_units_finalize;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                          NULL, NULL, G_TYPE_NONE, 0);
}

static void
field_units_init (FieldUnits *self)
{
  self->own = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
}

FieldUnits *
field_units_new (void)
{
  FieldUnits *self = g_object_new (DOWNCOMER_TYPE_FIELD_UNITS, NULL);
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema =
      source != NULL ? g_settings_schema_source_lookup (source, APP_ID, TRUE) : NULL;

  if (schema != NULL && g_settings_schema_has_key (schema, KEY)) {
    self->settings = g_settings_new (APP_ID);
    read_settings (self);
    g_signal_connect_swapped (self->settings, "changed::" KEY, G_CALLBACK (read_settings), self);
  }
  return self;
}

static char *
path_of (FieldId field)
{
  const FieldInfo *info = field_info (field);

  return g_strdup_printf ("%s.%s", part_kind_word (info->kind), info->name);
}

static const Unit *
unit_by_word (const char *word)
{
  for (guint i = 0; word != NULL && i < unit_count (); i++)
    if (g_str_equal (unit_at (i)->word, word))
      return unit_at (i);
  return NULL;
}

static const Unit *
own_unit (FieldUnits *self, FieldId field)
{
  g_autofree char *path = path_of (field);
  const Unit *unit = unit_by_word (g_hash_table_lookup (self->own, path));

  return unit != NULL && quantity_accepts (field_info (field)->quantity, unit) ? unit : NULL;
}

const Unit *
field_units_get (FieldUnits *units, FieldId field, const NumberStyle *style)
{
  const Unit *own = own_unit (units, field);

  return own != NULL ? own : units_unit_for (field_info (field)->quantity, style);
}

gboolean
field_units_is_own (FieldUnits *units, FieldId field)
{
  return own_unit (units, field) != NULL;
}

void
field_units_set (FieldUnits *units, FieldId field, const char *word)
{
  g_autofree char *path = path_of (field);
  const Unit *unit = unit_by_word (word);

  g_return_if_fail (DOWNCOMER_IS_FIELD_UNITS (units));
  if (word == NULL || word[0] == '\0') {
    if (!g_hash_table_remove (units->own, path))
      return;
  } else {
    if (unit == NULL || !quantity_accepts (field_info (field)->quantity, unit) ||
        own_unit (units, field) == unit)
      return;
    g_hash_table_replace (units->own, g_steal_pointer (&path), g_strdup (word));
  }
  if (units->settings != NULL)
    write_settings (units);
  else
    g_signal_emit (units, signals[SIGNAL_CHANGED], 0);
}
