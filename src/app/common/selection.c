/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/selection.h"

struct _Selection {
  GObject parent_instance;

  GPtrArray *keys; /* of char *, the one in work first, NULL at the end */
  guint others;    /* changes of those behind the first */
  int finding;
};

G_DEFINE_FINAL_TYPE (Selection, selection, G_TYPE_OBJECT)

enum { PROP_0, PROP_KEY, PROP_OTHERS, PROP_FINDING, N_PROPS };

static GParamSpec *properties[N_PROPS];

static void
selection_finalize (GObject *object)
{
  Selection *self = DOWNCOMER_SELECTION (object);

  g_ptr_array_unref (self->keys);
  G_OBJECT_CLASS (selection_parent_class)->finalize (object);
}

static void
selection_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  Selection *self = DOWNCOMER_SELECTION (object);

  switch (id) {
  case PROP_KEY:
    g_value_set_string (value, selection_get_key (self));
    break;
  case PROP_OTHERS:
    g_value_set_uint (value, self->others);
    break;
  case PROP_FINDING:
    g_value_set_int (value, self->finding);
    break;
  default:
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
  }
}

static void
selection_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_KEY)
    selection_set_key (DOWNCOMER_SELECTION (object), g_value_get_string (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
selection_class_init (SelectionClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->finalize = selection_finalize;
  object_class->get_property = selection_get_property;
  object_class->set_property = selection_set_property;
  properties[PROP_KEY] = g_param_spec_string (
      "key", NULL, NULL, NULL, G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  properties[PROP_OTHERS] =
      g_param_spec_uint ("others", NULL, NULL, 0, G_MAXUINT, 0, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_FINDING] =
      g_param_spec_int ("finding", NULL, NULL, -1, G_MAXINT, -1, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
selection_init (Selection *self)
{
  self->finding = -1;
  self->keys = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (self->keys, NULL);
}

Selection *
selection_new (void)
{
  return g_object_new (DOWNCOMER_TYPE_SELECTION, NULL);
}

/* Takes over an array of keys and tells what has changed. */
static void
take (Selection *self, GPtrArray *keys, int finding)
{
  GPtrArray *before = self->keys;
  const gboolean several = keys->len > 2 || before->len > 2;
  const char *was, *is;

  g_ptr_array_add (keys, NULL);
  self->keys = keys;
  was = g_ptr_array_index (before, 0);
  is = g_ptr_array_index (keys, 0);
  if (g_strcmp0 (was, is) != 0)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_KEY]);
  if (several || keys->len > 2) {
    self->others++;
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_OTHERS]);
  }
  g_ptr_array_unref (before);
  if (finding != self->finding) {
    self->finding = finding;
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_FINDING]);
  }
}

void
selection_set_finding (Selection *selection, int finding, const char *key)
{
  GPtrArray *keys;

  g_return_if_fail (DOWNCOMER_IS_SELECTION (selection));
  keys = g_ptr_array_new_with_free_func (g_free);
  if (key != NULL)
    g_ptr_array_add (keys, g_strdup (key));
  take (selection, keys, finding);
}

void
selection_set_key (Selection *selection, const char *key)
{
  selection_set_finding (selection, -1, key);
}

void
selection_set_keys (Selection *selection, const char *const *keys)
{
  GPtrArray *copy;

  g_return_if_fail (DOWNCOMER_IS_SELECTION (selection));
  copy = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; keys[i] != NULL; i++)
    g_ptr_array_add (copy, g_strdup (keys[i]));
  take (selection, copy, -1);
}

void
selection_toggle (Selection *selection, const char *key)
{
  GPtrArray *keys;
  gboolean was;

  g_return_if_fail (DOWNCOMER_IS_SELECTION (selection) && key != NULL);
  keys = g_ptr_array_new_with_free_func (g_free);
  was = selection_contains (selection, key);
  if (!was)
    g_ptr_array_add (keys, g_strdup (key));
  for (guint i = 0; i + 1 < selection->keys->len; i++)
    if (!g_str_equal (g_ptr_array_index (selection->keys, i), key))
      g_ptr_array_add (keys, g_strdup (g_ptr_array_index (selection->keys, i)));
  take (selection, keys, -1);
}

gboolean
selection_contains (Selection *selection, const char *key)
{
  g_return_val_if_fail (DOWNCOMER_IS_SELECTION (selection), FALSE);
  for (guint i = 0; key != NULL && i + 1 < selection->keys->len; i++)
    if (g_str_equal (g_ptr_array_index (selection->keys, i), key))
      return TRUE;
  return FALSE;
}

guint
selection_count (Selection *selection)
{
  g_return_val_if_fail (DOWNCOMER_IS_SELECTION (selection), 0);
  return selection->keys->len - 1;
}

const char *const *
selection_get_keys (Selection *selection)
{
  g_return_val_if_fail (DOWNCOMER_IS_SELECTION (selection), NULL);
  return (const char *const *) selection->keys->pdata;
}

const char *
selection_get_key (Selection *selection)
{
  g_return_val_if_fail (DOWNCOMER_IS_SELECTION (selection), NULL);
  return g_ptr_array_index (selection->keys, 0);
}

int
selection_get_finding (Selection *selection)
{
  g_return_val_if_fail (DOWNCOMER_IS_SELECTION (selection), -1);
  return selection->finding;
}
