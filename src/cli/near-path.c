/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "cli/near-path.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cli/command.h"

enum { N_NEAR = 3, LONGEST = 96 };

typedef struct {
  char *path;
  unsigned distance;
} Near;

/* Fewest insertions, deletions and replacements of a byte that make one text the other; a swap of neighbours counts two. */
static unsigned
edit_distance (const char *a, const char *b)
{
  const size_t n = MIN (strlen (b), LONGEST);
  unsigned row[LONGEST + 1];

  for (unsigned j = 0; j <= n; j++)
    row[j] = j;
  for (unsigned i = 1; a[i - 1] != '\0'; i++) {
    unsigned diagonal = row[0];

    row[0] = i;
    for (size_t j = 1; j <= n; j++) {
      const unsigned replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);

      diagonal = row[j];
      row[j] = MIN (replaced, MIN (row[j], row[j - 1]) + 1);
    }
  }
  return row[n];
}

/* A misspelling is near; so is the same field of another part, and any field where only the part was named. */
static bool
is_near (const char *path, const char *candidate, unsigned distance)
{
  const char *field = strchr (path, '.');

  if (distance <= MAX (2, strlen (path) / 4))
    return true;
  if (field == NULL || field[1] == '\0')
    return strncmp (candidate, path, strcspn (path, ".")) == 0 && candidate[strcspn (path, ".")] == '.';
  return strcmp (strchr (candidate, '.'), field) == 0;
}

/* Keeps the nearest, the earlier part first where two are as near. */
static void
offer (Near near[N_NEAR], const char *candidate, unsigned distance)
{
  int place = N_NEAR;

  while (place > 0 && (near[place - 1].path == NULL || near[place - 1].distance > distance))
    place--;
  if (place == N_NEAR)
    return;
  g_free (near[N_NEAR - 1].path);
  memmove (&near[place + 1], &near[place], (size_t) (N_NEAR - 1 - place) * sizeof *near);
  near[place] = (Near){g_strdup (candidate), distance};
}

static void
find_near (const Design *design, const char *path, Near near[N_NEAR])
{
  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *part = design_part (design, i);
    const FieldId first = field_first (part_kind (part));

    for (FieldId field = first; field < first + field_count (part_kind (part)); field++) {
      g_autofree char *candidate = g_strdup_printf ("%s.%s", part_key (part), field_info (field)->name);
      const unsigned distance = edit_distance (path, candidate);

      if (is_near (path, candidate, distance))
        offer (near, candidate, distance);
    }
  }
}

char *
near_path_sentence (const Design *design, const char *path)
{
  Near near[N_NEAR] = {{NULL, 0}};
  const bool short_enough = path[0] != '\0' && strlen (path) <= LONGEST;
  g_autofree char *shown = command_quoted (path);
  GString *list = g_string_new (NULL);
  char *sentence;

  if (short_enough)
    find_near (design, path, near);
  for (int i = 0; i < N_NEAR && near[i].path != NULL; i++) {
    g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", near[i].path);
    g_free (near[i].path);
  }
  if (list->len > 0)
    sentence = g_strdup_printf (
        _ ("“%s” is no field of this design; near it: %s (“downcomer fields” lists all)"), shown, list->str);
  else
    sentence = g_strdup_printf (_ ("“%s” is no field of this design; “downcomer fields” lists all"), shown);
  g_string_free (list, TRUE);
  return sentence;
}
