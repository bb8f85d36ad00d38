/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/solver/random-design.h"

#include <math.h>

#include "tests/solver/fixture.h"

static double
random_value (const FieldInfo *info, double now)
{
  if (info->type == FIELD_FLAG)
    return g_test_rand_int_range (0, 2);
  if (info->type == FIELD_CHOICE) {
    int n = 0;

    while (info->choices[n].word != NULL)
      n++;
    return g_test_rand_int_range (0, n);
  }
  switch (g_test_rand_int_range (0, 8)) {
  case 0:
    return info->min;
  case 1:
    return info->max;
  case 2:
    return g_test_rand_double_range (info->min, info->max);
  default:
    return CLAMP (now * exp (g_test_rand_double_range (-1.0, 1.0)), info->min, info->max);
  }
}

Design *
random_design (Design *base, double share)
{
  Design *design = design_ref (base);

  for (unsigned i = 0; i < design_n_parts (base); i++) {
    const Part *part = design_part (base, i);
    const PartKind kind = part_kind (part);

    for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++) {
      const FieldInfo *info = field_info (id);
      Design *changed;

      if (info->type != FIELD_NUMBER && info->type != FIELD_CHOICE && info->type != FIELD_FLAG)
        continue;
      if (g_test_rand_double () >= share)
        continue;
      changed = design_with_number (
          design, part_key (part), id,
          random_value (info, design_number (design, design_find (design, part_key (part)), id)), NULL);
      if (changed != NULL) {
        design_unref (design);
        design = changed;
      }
    }
  }
  return design;
}

Design *
random_base (unsigned trial)
{
  Draft *draft = trial % 3 == 0 ? fixture_bare_draft () : fixture_draft ();

  if (trial % 50 == 1)
    fixture_add_second_overflow (draft);
  if (trial % 50 == 2)
    fixture_add_second_tank (draft);
  if (trial % 10 == 3)
    fixture_add_fed_device (draft);
  return fixture_commit (draft);
}
