/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/inspector/parts-box.h"

#include <glib/gi18n.h>

#include "app/common/additions.h"
#include "files/files-error.h"
#include "report/words.h"

#define INDENT 14 /* pixels a level */

struct _PartsBox {
  GtkBox parent_instance;

  Document *document; /* neither is owned: the inspector outlives its boxes */
  Selection *selection;
  char *key;
  gboolean shown;  /* has been filled once */
  GPtrArray *keys; /* of char *, one a row */
  GtkWidget *heading, *list, *problem, *add;
};

G_DEFINE_FINAL_TYPE (PartsBox, parts_box, GTK_TYPE_BOX)

/* Order */

static void
append_with_children (const Design *design, const Part *part, unsigned depth, GPtrArray *keys, GArray *depths)
{
  g_ptr_array_add (keys, (char *) part_key (part));
  g_array_append_val (depths, depth);
  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *child = design_part (design, i);

    if (g_strcmp0 (part_owner (child), part_key (part)) == 0)
      append_with_children (design, child, depth + 1, keys, depths);
  }
}

const char **
parts_in_order (const Design *design, unsigned **ret_depths)
{
  GPtrArray *keys = g_ptr_array_new ();
  GArray *depths = g_array_new (FALSE, FALSE, sizeof (unsigned));

  for (unsigned i = 0; i < design_n_parts (design); i++)
    if (part_owner (design_part (design, i)) == NULL)
      append_with_children (design, design_part (design, i), 0, keys, depths);
  g_ptr_array_add (keys, NULL);
  if (ret_depths != NULL)
    *ret_depths = (unsigned *) (void *) g_array_free (depths, FALSE);
  else
    g_array_unref (depths);
  return (const char **) g_ptr_array_free (keys, FALSE);
}

/* The keys that are listed for a part: what it owns, and of a sump chambers and baffles from left to right. */
static const char **
listed (PartsBox *self, const Design *design, unsigned **ret_depths)
{
  GPtrArray *keys;
  unsigned chambers;

  if (self->key == NULL)
    return parts_in_order (design, ret_depths);
  keys = g_ptr_array_new ();
  chambers = design_n_children (design, self->key, PART_CHAMBER);
  for (unsigned i = 0; i < chambers; i++) {
    const Part *baffle = design_child (design, self->key, PART_BAFFLE, i);

    g_ptr_array_add (keys, (char *) part_key (design_child (design, self->key, PART_CHAMBER, i)));
    if (baffle != NULL)
      g_ptr_array_add (keys, (char *) part_key (baffle));
  }
  for (unsigned i = 0; i < design_n_parts (design) && chambers == 0; i++)
    if (g_strcmp0 (part_owner (design_part (design, i)), self->key) == 0)
      g_ptr_array_add (keys, (char *) part_key (design_part (design, i)));
  *ret_depths = g_new0 (unsigned, keys->len + 1);
  g_ptr_array_add (keys, NULL);
  return (const char **) g_ptr_array_free (keys, FALSE);
}

/* Edits */

static void
set_problem (PartsBox *self, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (self->problem), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->problem, sentence != NULL);
}

const char *
parts_box_get_problem (PartsBox *box)
{
  return gtk_widget_get_visible (box->problem) ? gtk_label_get_text (GTK_LABEL (box->problem)) : NULL;
}

static void
finish (PartsBox *self, Design *design, const char *label, const char *select, const Problem *problem)
{
  g_autofree char *sentence = design == NULL ? files_problem_sentence (problem, NULL) : NULL;

  set_problem (self, sentence);
  if (design == NULL)
    return;
  document_apply (self->document, design, label);
  design_unref (design);
  if (select != NULL)
    selection_set_key (self->selection, select);
}

static void
on_remove (GtkButton *button, PartsBox *self)
{
  g_autofree char *key = g_strdup (g_object_get_data (G_OBJECT (button), "key"));
  Design *design = document_get_design (self->document);
  const Part *part = design_find (design, key);
  g_autofree char *name = part != NULL ? words_part (design, part) : g_strdup (key);
  g_autofree char *label = g_strdup_printf (_ ("Remove %s"), name);
  Problem problem = {0};
  Design *changed = edit_remove (design, key, &problem);

  finish (self, changed, label, NULL, &problem);
}

static void
on_select (GtkButton *button, PartsBox *self)
{
  selection_set_key (self->selection, g_object_get_data (G_OBJECT (button), "key"));
}

static void
on_add (GtkButton *button, PartsBox *self)
{
  const Addition *addition =
      addition_nth (GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "addition")));
  g_autofree char *label = g_strdup_printf (_ ("Add %s"), _ (addition->name));
  char key[MAX_KEY_BYTES + 1] = "";
  Problem problem = {0};
  Design *changed =
      addition->add (document_get_design (self->document), self->key, addition->argument, key, &problem);

  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->add));
  finish (self, changed, label, key, &problem);
}

/* Rows */

static GtkWidget *
removal_new (PartsBox *self, const char *key)
{
  GtkWidget *remove = gtk_button_new_from_icon_name ("list-remove-symbolic");

  gtk_button_set_has_frame (GTK_BUTTON (remove), FALSE);
  gtk_widget_add_css_class (remove, "tight");
  g_object_set_data_full (G_OBJECT (remove), "key", g_strdup (key), g_free);
  g_signal_connect (remove, "clicked", G_CALLBACK (on_remove), self);
  return remove;
}

static GtkWidget *
row_new (PartsBox *self, const char *key, unsigned depth)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *select = gtk_button_new_with_label ("");
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (select));

  gtk_button_set_has_frame (GTK_BUTTON (select), FALSE);
  gtk_widget_set_hexpand (select, TRUE);
  gtk_widget_set_margin_start (select, (int) depth * INDENT);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (select, "tight");
  g_object_set_data_full (G_OBJECT (select), "key", g_strdup (key), g_free);
  g_signal_connect (select, "clicked", G_CALLBACK (on_select), self);
  gtk_box_append (GTK_BOX (row), select);
  if (self->key != NULL) /* the overview removes nothing, and is what a window starts with */
    gtk_box_append (GTK_BOX (row), removal_new (self, key));
  return row;
}

static void
name_row (PartsBox *self, GtkWidget *row, const Design *design, const char *key)
{
  GtkWidget *select = gtk_widget_get_first_child (row), *remove = gtk_widget_get_next_sibling (select);
  g_autofree char *name = words_part (design, design_find (design, key));
  g_autofree char *removal = g_strdup_printf (_ ("Remove %s"), name);

  if (g_strcmp0 (gtk_button_get_label (GTK_BUTTON (select)), name) != 0)
    gtk_button_set_label (GTK_BUTTON (select), name);
  if (remove != NULL) {
    gtk_widget_set_tooltip_text (remove, removal);
    gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL, removal, -1);
    gtk_widget_set_visible (remove, edit_can_remove (design, key));
  }
}

static gboolean
same_keys (PartsBox *self, const char **keys)
{
  for (guint i = 0; i < self->keys->len; i++)
    if (keys[i] == NULL || !g_str_equal (keys[i], g_ptr_array_index (self->keys, i)))
      return FALSE;
  return keys[self->keys->len] == NULL;
}

static void
fill (PartsBox *self, const char **keys, const unsigned *depths)
{
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (self->list)) != NULL)
    gtk_box_remove (GTK_BOX (self->list), row);
  g_ptr_array_set_size (self->keys, 0);
  for (guint i = 0; keys[i] != NULL; i++) {
    g_ptr_array_add (self->keys, g_strdup (keys[i]));
    gtk_box_append (GTK_BOX (self->list), row_new (self, keys[i], depths[i]));
  }
}

/* The popover of what can be added; FALSE where nothing can. */
static gboolean
fill_additions (PartsBox *self, PartKind kind)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *popover = gtk_popover_new ();
  gboolean any = FALSE;

  for (unsigned n = 0; addition_nth (n) != NULL; n++) {
    GtkWidget *button;

    if (addition_nth (n)->to != kind)
      continue;
    button = gtk_button_new_with_label (_ (addition_nth (n)->name));
    gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
    gtk_label_set_xalign (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button))), 0);
    g_object_set_data (G_OBJECT (button), "addition", GUINT_TO_POINTER (n));
    g_signal_connect (button, "clicked", G_CALLBACK (on_add), self);
    gtk_box_append (GTK_BOX (box), button);
    any = TRUE;
  }
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (popover), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Add"), -1);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->add), popover);
  gtk_widget_set_visible (self->add, any);
  return any;
}

void
parts_box_refresh (PartsBox *box, const char *key)
{
  Design *design = document_get_design (box->document);
  const Part *part = key != NULL ? design_find (design, key) : NULL;
  g_autofree unsigned *depths = NULL;
  g_autofree const char **keys = NULL;
  GtkWidget *row;
  guint i = 0;

  g_return_if_fail (DOWNCOMER_IS_PARTS_BOX (box));
  if (!box->shown || g_strcmp0 (key, box->key) != 0) {
    box->shown = TRUE;
    g_free (box->key);
    box->key = g_strdup (key);
    set_problem (box, NULL);
    fill_additions (box, part != NULL ? part_kind (part) : N_PART_KINDS);
    gtk_label_set_text (GTK_LABEL (box->heading),
                        part != NULL ? C_ ("heading", "Belonging to it") : C_ ("heading", "Parts"));
  }
  keys = listed (box, design, &depths);
  if (!same_keys (box, keys))
    fill (box, keys, depths);
  for (row = gtk_widget_get_first_child (box->list); row != NULL; row = gtk_widget_get_next_sibling (row))
    name_row (box, row, design, keys[i++]);
  gtk_widget_set_visible (GTK_WIDGET (box), i > 0 || gtk_widget_get_visible (box->add));
}

static void
parts_box_finalize (GObject *object)
{
  PartsBox *self = DOWNCOMER_PARTS_BOX (object);

  g_free (self->key);
  g_ptr_array_unref (self->keys);
  G_OBJECT_CLASS (parts_box_parent_class)->finalize (object);
}

static void
parts_box_class_init (PartsBoxClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = parts_box_finalize;
}

static void
parts_box_init (PartsBox *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  self->keys = g_ptr_array_new_with_free_func (g_free);
  self->heading = gtk_label_new ("");
  gtk_label_set_xalign (GTK_LABEL (self->heading), 0);
  gtk_widget_set_hexpand (self->heading, TRUE);
  gtk_widget_add_css_class (self->heading, "group");
  self->add = gtk_menu_button_new ();
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (self->add), "list-add-symbolic");
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (self->add), FALSE);
  gtk_widget_add_css_class (self->add, "tight");
  gtk_widget_set_tooltip_text (self->add, _ ("Add a part"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->add), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Add a part"),
                                  -1);
  self->problem = gtk_label_new ("");
  gtk_label_set_xalign (GTK_LABEL (self->problem), 0);
  gtk_label_set_wrap (GTK_LABEL (self->problem), TRUE);
  gtk_widget_add_css_class (self->problem, "stop");
  gtk_widget_add_css_class (self->problem, "small");
  gtk_widget_set_visible (self->problem, FALSE);
  self->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (head), self->heading);
  gtk_box_append (GTK_BOX (head), self->add);
  gtk_box_append (GTK_BOX (self), head);
  gtk_box_append (GTK_BOX (self), self->problem);
  gtk_box_append (GTK_BOX (self), self->list);
}

GtkWidget *
parts_box_new (Document *document, Selection *selection)
{
  PartsBox *self = g_object_new (DOWNCOMER_TYPE_PARTS_BOX, NULL);

  self->document = document;
  self->selection = selection;
  return GTK_WIDGET (self);
}
