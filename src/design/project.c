/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/project.h"

typedef struct {
  char *key, *label;
  Design *design;
} Option;

struct _Project {
  gatomicrefcount references;
  unsigned n, active;
  Option options[MAX_OPTIONS];
};

static Option
option_copy (const Option *option)
{
  return (Option){.key = g_ref_string_acquire (option->key),
                  .label = option->label != NULL ? g_ref_string_acquire (option->label) : NULL,
                  .design = design_ref (option->design)};
}

static void
option_clear (Option *option)
{
  g_ref_string_release (option->key);
  if (option->label != NULL)
    g_ref_string_release (option->label);
  design_unref (option->design);
}

static Project *
project_copy (const Project *project)
{
  Project *copy = g_new0 (Project, 1);

  g_atomic_ref_count_init (&copy->references);
  for (unsigned i = 0; project != NULL && i < project->n; i++)
    copy->options[copy->n++] = option_copy (&project->options[i]);
  copy->active = project != NULL ? project->active : 0;
  return copy;
}

static void
project_append (Project *project, const char *key, const char *label, Design *design)
{
  project->options[project->n++] = (Option){.key = g_ref_string_new (key),
                                            .label = label != NULL ? g_ref_string_new (label) : NULL,
                                            .design = design_ref (design)};
}

Project *
project_new (Design *design, const char *label)
{
  return project_new_with_key (design, "option-1", label);
}

Project *
project_new_with_key (Design *design, const char *key, const char *label)
{
  Project *project;

  if (!key_is_good (key) || (label != NULL && !text_is_good (label)))
    return NULL;
  project = project_copy (NULL);
  project_append (project, key, label, design);
  return project;
}

Project *
project_ref (Project *project)
{
  g_atomic_ref_count_inc (&project->references);
  return project;
}

void
project_unref (Project *project)
{
  if (project == NULL || !g_atomic_ref_count_dec (&project->references))
    return;
  for (unsigned i = 0; i < project->n; i++)
    option_clear (&project->options[i]);
  g_free (project);
}

unsigned
project_n_options (const Project *project)
{
  return project->n;
}

Design *
project_design (const Project *project, unsigned option)
{
  g_assert (option < project->n);
  return project->options[option].design;
}

const char *
project_option_key (const Project *project, unsigned option)
{
  g_assert (option < project->n);
  return project->options[option].key;
}

const char *
project_option_label (const Project *project, unsigned option)
{
  g_assert (option < project->n);
  return project->options[option].label;
}

unsigned
project_active (const Project *project)
{
  return project->active;
}

Design *
project_active_design (const Project *project)
{
  return project->options[project->active].design;
}

Project *
project_with_design (const Project *project, Design *design)
{
  Project *copy = project_copy (project);
  Design **slot = &copy->options[copy->active].design;

  design_ref (design);
  design_unref (*slot);
  *slot = design;
  return copy;
}

Project *
project_with_active (const Project *project, unsigned option)
{
  Project *copy = project_copy (project);

  g_assert (option < copy->n);
  copy->active = option;
  return copy;
}

static bool
key_is_taken (const Project *project, const char *key)
{
  for (unsigned i = 0; i < project->n; i++)
    if (g_str_equal (project->options[i].key, key))
      return true;
  return false;
}

Project *
project_with_option (const Project *project, const char *key, const char *label, Design *design)
{
  g_autofree char *made = NULL;
  Project *copy;

  if (project->n == MAX_OPTIONS)
    return NULL;
  for (unsigned n = project->n + 1; key == NULL && made == NULL; n++) {
    made = g_strdup_printf ("option-%u", n);
    if (key_is_taken (project, made))
      g_clear_pointer (&made, g_free);
  }
  key = key != NULL ? key : made;
  if (!key_is_good (key) || (label != NULL && !text_is_good (label)) || key_is_taken (project, key))
    return NULL;
  copy = project_copy (project);
  project_append (copy, key, label, design);
  return copy;
}

Project *
project_with_variant (const Project *project, const char *label)
{
  Project *copy = project_with_option (project, NULL, label, project_active_design (project));

  if (copy != NULL)
    copy->active = copy->n - 1;
  return copy;
}

Project *
project_with_label (const Project *project, unsigned option, const char *label)
{
  Project *copy;

  g_assert (option < project->n);
  if (label != NULL && !text_is_good (label))
    return NULL;
  copy = project_copy (project);
  if (copy->options[option].label != NULL)
    g_ref_string_release (copy->options[option].label);
  copy->options[option].label = label != NULL && label[0] != '\0' ? g_ref_string_new (label) : NULL;
  return copy;
}

Project *
project_without_option (const Project *project, unsigned option)
{
  Project *copy;

  g_assert (option < project->n);
  if (project->n == 1)
    return NULL;
  copy = project_copy (project);
  option_clear (&copy->options[option]);
  copy->n--;
  for (unsigned i = option; i < copy->n; i++)
    copy->options[i] = copy->options[i + 1];
  if (copy->active > option || copy->active == copy->n)
    copy->active--;
  return copy;
}

Project *
project_with_place (const Project *project, unsigned option, unsigned place)
{
  Project *copy = project_copy (project);
  const Option moved = copy->options[option];
  const char *active = project_option_key (project, project->active);

  g_assert (option < project->n && place < project->n);
  for (unsigned i = option; i < place; i++)
    copy->options[i] = copy->options[i + 1];
  for (unsigned i = option; i > place; i--)
    copy->options[i] = copy->options[i - 1];
  copy->options[place] = moved;
  copy->active = (unsigned) project_find_option (copy, active);
  return copy;
}

int
project_find_option (const Project *project, const char *name)
{
  for (unsigned i = 0; i < project->n; i++)
    if (g_str_equal (project->options[i].key, name))
      return (int) i;
  for (unsigned i = 0; i < project->n; i++)
    if (g_strcmp0 (project->options[i].label, name) == 0)
      return (int) i;
  return -1;
}

bool
project_equal (const Project *a, const Project *b)
{
  if (a == b)
    return true;
  if (a->n != b->n || a->active != b->active)
    return false;
  for (unsigned i = 0; i < a->n; i++)
    if (g_strcmp0 (a->options[i].key, b->options[i].key) != 0 ||
        g_strcmp0 (a->options[i].label, b->options[i].label) != 0 ||
        !design_equal (a->options[i].design, b->options[i].design))
      return false;
  return true;
}
