/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Which fields say something, by what else was chosen. */
#include "design/choices.h"
#include "design/design.h"

typedef struct {
  FieldId field, choice;
  int wanted;
} Condition;

static const Condition conditions[] = {{FIELD_OVERFLOW_GAP, FIELD_OVERFLOW_WEIR, WEIR_TOOTHED},
                                       {FIELD_OVERFLOW_TOOTH, FIELD_OVERFLOW_WEIR, WEIR_TOOTHED},
                                       {FIELD_OVERFLOW_TOOTH_HEIGHT, FIELD_OVERFLOW_WEIR, WEIR_TOOTHED},
                                       {FIELD_OVERFLOW_CLOSED, FIELD_OVERFLOW_WEIR, WEIR_TOOTHED},
                                       {FIELD_OVERFLOW_PASSAGE_BORE, FIELD_OVERFLOW_KIND, OVERFLOW_PAIR},
                                       {FIELD_OVERFLOW_PASSAGES, FIELD_OVERFLOW_KIND, OVERFLOW_PAIR},
                                       {FIELD_OVERFLOW_TUBE_BORE, FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER},
                                       {FIELD_OVERFLOW_TUBES, FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER},
                                       {FIELD_OVERFLOW_CROWN, FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER},
                                       {FIELD_OVERFLOW_TUBE_END, FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER},
                                       {FIELD_OVERFLOW_SEAL, FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER},
                                       {FIELD_OVERFLOW_TUBE_SIDE, FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER},
                                       {FIELD_OVERFLOW_ASPIRATOR, FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER}};

bool
design_applies (const Design *design, const Part *part, FieldId field)
{
  for (unsigned i = 0; i < G_N_ELEMENTS (conditions); i++)
    if (conditions[i].field == field)
      return design_choice (design, part, conditions[i].choice) == conditions[i].wanted;
  return true;
}
