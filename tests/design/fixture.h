/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The least well-formed design: one of each needed part and nothing given, so that every default is in use. */
#pragma once

#include "design/draft.h"

static inline Draft *
fixture_draft (void)
{
  Draft *draft = draft_new (NULL);
  static const struct {
    PartKind kind;
    const char *key, *owner;
  } parts[] = {{PART_JOB, "job", NULL},
               {PART_ROOM, "room", NULL},
               {PART_STAND, "stand", NULL},
               {PART_TANK, "display", NULL},
               {PART_OVERFLOW, "overflow", "display"},
               {PART_DRAIN, "drain", "overflow"},
               {PART_SUMP, "sump", NULL},
               {PART_CHAMBER, "inlet", "sump"},
               {PART_CHAMBER, "pumping", "sump"},
               {PART_BAFFLE, "baffle", "sump"},
               {PART_DEVICE, "heater", "pumping"},
               {PART_PUMP, "return-pump", "pumping"},
               {PART_RETURN, "return", "return-pump"},
               {PART_OUTLET, "outlet", "display"},
               {PART_CORNER, "return-corner-1", "return"},
               {PART_FITTING, "return-union", "return"},
               {PART_RESERVOIR, "reservoir", NULL},
               {PART_CANDIDATE, "own-pump", NULL}};

  for (unsigned i = 0; i < G_N_ELEMENTS (parts); i++)
    g_assert_true (draft_add (draft, parts[i].kind, parts[i].key, NULL, parts[i].owner, NULL, NULL));
  return draft;
}

static inline Design *
fixture_design (void)
{
  g_autoptr (Draft) draft = fixture_draft ();
  Problem problem = {0};
  Design *design = draft_commit (draft, &problem);

  if (design == NULL)
    g_error ("%s: %s", problem.part, problem_text (problem.code));
  return design;
}
