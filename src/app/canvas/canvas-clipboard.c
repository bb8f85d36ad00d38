/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Copying the chosen parts, pasting them into this or another window, and duplicating: each is one step of the history. */
#include <glib/gi18n.h>

#include "app/canvas/canvas-private.h"
#include "design/fragment.h"

/* Parts on the clipboard of the desktop, for all windows of the program. */
#define TYPE_FRAGMENT (clipboard_fragment_get_type ())
static GType clipboard_fragment_get_type (void);
G_DEFINE_BOXED_TYPE (Fragment, clipboard_fragment, fragment_ref, fragment_unref)

static gboolean
take (Canvas *self, Design *design, const char *label, char **keys, const Problem *problem)
{
  if (design == NULL) {
    g_autofree char *sentence = g_strdup_printf (_ ("Not possible: %s."), _ (problem_text (problem->code)));

    canvas_tell (self, sentence);
    return FALSE;
  }
  document_apply (self->document, design, label);
  design_unref (design);
  selection_set_keys (self->selection, (const char *const *) keys);
  if (keys[0] != NULL && canvas_child (self, keys[0]) != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (canvas_child (self, keys[0])));
  return TRUE;
}

gboolean
canvas_copy (Canvas *self)
{
  g_autoptr (Fragment) fragment =
      fragment_new (document_get_design (self->document), selection_get_keys (self->selection),
                    selection_count (self->selection));

  if (fragment == NULL) {
    canvas_tell (self, _ ("Devices, fittings, drains and outlets can be copied: choose some first."));
    return FALSE;
  }
  gdk_clipboard_set (gtk_widget_get_clipboard (GTK_WIDGET (self)), TYPE_FRAGMENT, fragment);
  return TRUE;
}

gboolean
canvas_cut (Canvas *self)
{
  return canvas_copy (self) && canvas_delete (self);
}

gboolean
canvas_paste (Canvas *self)
{
  GdkContentProvider *content = gdk_clipboard_get_content (gtk_widget_get_clipboard (GTK_WIDGET (self)));
  g_auto (GValue) value = G_VALUE_INIT;
  g_auto (GStrv) keys = NULL;
  Problem problem = {.code = PROBLEM_NONE};
  Design *design;

  g_value_init (&value, TYPE_FRAGMENT);
  if (content == NULL || !gdk_content_provider_get_value (content, &value, NULL) ||
      g_value_get_boxed (&value) == NULL) {
    canvas_tell (self, _ ("There are no copied parts to paste."));
    return FALSE;
  }
  design = fragment_paste (g_value_get_boxed (&value), document_get_design (self->document),
                           selection_get_key (self->selection), &keys, &problem);
  return take (self, design, _ ("Paste"), keys, &problem);
}

gboolean
canvas_duplicate (Canvas *self)
{
  g_autoptr (Design) design = design_ref (document_get_design (self->document));
  g_autoptr (GPtrArray) keys = g_ptr_array_new_with_free_func (g_free);
  Problem problem = {.code = PROBLEM_NONE};

  for (guint i = 0; i < selection_count (self->selection); i++) {
    char key[MAX_KEY_BYTES + 1];
    Design *next = edit_duplicate (design, selection_get_keys (self->selection)[i], key, &problem);

    if (next == NULL)
      return take (self, NULL, NULL, NULL, &problem);
    design_unref (design);
    design = next;
    g_ptr_array_add (keys, g_strdup (key));
  }
  if (keys->len == 0)
    return FALSE;
  g_ptr_array_add (keys, NULL);
  return take (self, g_steal_pointer (&design), _ ("Duplicate"), (char **) keys->pdata, &problem);
}
