/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Parts and values that a test's design has to take: a refusal ends the test with its reason. */
#pragma once

#include "design/choices.h"
#include "design/draft.h"

/* Adds a part and returns its key; `key`, `label` and `owner` as for draft_add (). */
static inline const char *
must_add (Draft *draft, PartKind kind, const char *key, const char *label, const char *owner)
{
  Problem problem = {0};
  const char *made = NULL;

  if (!draft_add (draft, kind, key, label, owner, &made, &problem))
    g_error ("%s: %s", key, problem_text (problem.code));
  return made;
}

/* Sets a number in the unit of its field, or the index of a choice. */
static inline void
must_set (Draft *draft, const char *key, FieldId field, double value)
{
  Problem problem = {0};

  if (!draft_set_number (draft, key, field, value, &problem))
    g_error ("%s.%s = %g: %s", key, field_info (field)->name, value, problem_text (problem.code));
}

static inline void
must_set_text (Draft *draft, const char *key, FieldId field, const char *text)
{
  Problem problem = {0};

  if (!draft_set_text (draft, key, field, text, &problem))
    g_error ("%s.%s = %s: %s", key, field_info (field)->name, text, problem_text (problem.code));
}

static inline void
must_add_drain (Draft *draft, const char *key, DrainRole role, const char *size)
{
  must_add (draft, PART_DRAIN, key, NULL, "overflow");
  must_set (draft, key, FIELD_DRAIN_ROLE, role);
  must_set_text (draft, key, FIELD_DRAIN_SIZE, size);
}

/* A fitting of a catalogue's type, `station_m` metres along the run. */
static inline void
must_add_fitting (Draft *draft, const char *key, const char *run, const char *type, double station_m)
{
  must_add (draft, PART_FITTING, key, NULL, run);
  must_set_text (draft, key, FIELD_FITTING_TYPE, type);
  must_set (draft, key, FIELD_FITTING_STATION, station_m);
}
