/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/selection.h"

struct _Selection {
  GObject parent_instance;

  char *key;
  int finding;
};

G_DEFINE_FINAL_TYPE (Selection, selection, G_TYPE_OBJECT)

enum { PROP_0, PROP_KEY, PROP_FINDING, N_PROPS };

static GParamSpec *properties[N_PROPS];

static void
selection_finalize (GObject *object)
{
  Selection *self = DOWNCOMER_SELECTION (object);

  g_free (self->key);
  G_OBJECT_CLASS (selection_parent_class)->finalize (object);
}

static void
selection_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  Selection *self = DOWNCOMER_SELECTION (object);

  switch (id) {
  case PROP_KEY:
    g_value_set_string (value, self->key);
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
  properties[PROP_FINDING] =
      g_param_spec_int ("finding", NULL, NULL, -1, G_MAXINT, -1, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
selection_init (Selection *self)
{
  self->finding = -1;
}

Selection *
selection_new (void)
{
  return g_object_new (DOWNCOMER_TYPE_SELECTION, NULL);
}

void
selection_set_finding (Selection *selection, int finding, const char *key)
{
  g_return_if_fail (DOWNCOMER_IS_SELECTION (selection));

  if (g_strcmp0 (key, selection->key) != 0) {
    char *copy = g_strdup (key);

    g_free (selection->key);
    selection->key = copy;
    g_object_notify_by_pspec (G_OBJECT (selection), properties[PROP_KEY]);
  }
  if (finding != selection->finding) {
    selection->finding = finding;
    g_object_notify_by_pspec (G_OBJECT (selection), properties[PROP_FINDING]);
  }
}

void
selection_set_key (Selection *selection, const char *key)
{
  selection_set_finding (selection, -1, key);
}

const char *
selection_get_key (Selection *selection)
{
  g_return_val_if_fail (DOWNCOMER_IS_SELECTION (selection), NULL);
  return selection->key;
}

int
selection_get_finding (Selection *selection)
{
  g_return_val_if_fail (DOWNCOMER_IS_SELECTION (selection), -1);
  return selection->finding;
}
