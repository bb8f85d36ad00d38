/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Which fields say something, by what else was chosen. */
#include "design/choices.h"
#include "design/design.h"

/* The field applies while the choice is one of `wanted`, as bits. */
typedef struct {
  FieldId field, choice;
  unsigned wanted;
} Condition;

#define ONE(choice) (1u << (choice))

static const Condition conditions[] = {
    {FIELD_OVERFLOW_GAP, FIELD_OVERFLOW_WEIR, ONE (WEIR_TOOTHED)},
    {FIELD_OVERFLOW_TOOTH, FIELD_OVERFLOW_WEIR, ONE (WEIR_TOOTHED)},
    {FIELD_OVERFLOW_TOOTH_HEIGHT, FIELD_OVERFLOW_WEIR, ONE (WEIR_TOOTHED)},
    {FIELD_OVERFLOW_CLOSED, FIELD_OVERFLOW_WEIR, ONE (WEIR_TOOTHED)},
    {FIELD_OVERFLOW_PASSAGE_BORE, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_PAIR)},
    {FIELD_OVERFLOW_PASSAGES, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_PAIR)},
    {FIELD_OVERFLOW_TUBE_BORE, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_HANG_OVER)},
    {FIELD_OVERFLOW_TUBES, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_HANG_OVER)},
    {FIELD_OVERFLOW_CROWN, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_HANG_OVER)},
    {FIELD_OVERFLOW_TUBE_END, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_HANG_OVER)},
    {FIELD_OVERFLOW_SEAL, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_HANG_OVER)},
    {FIELD_OVERFLOW_TUBE_SIDE, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_HANG_OVER)},
    {FIELD_OVERFLOW_ASPIRATOR, FIELD_OVERFLOW_KIND, ONE (OVERFLOW_HANG_OVER)},
    {FIELD_DRAIN_STRAINER_OPEN, FIELD_DRAIN_ENTRY, ONE (ENTRY_STRAINER) | ONE (ENTRY_STRAINER_HALF)},
    {FIELD_DRAIN_STRAINER_FACE, FIELD_DRAIN_ENTRY, ONE (ENTRY_STRAINER) | ONE (ENTRY_STRAINER_HALF)}};

/* Whether a return run leads to a device. */
static bool
is_fed (const Design *design, const Part *device)
{
  for (unsigned i = 0; i < design_count (design, PART_RETURN); i++)
    if (design_target (design, design_nth (design, PART_RETURN, i), FIELD_RETURN_TO) == device)
      return true;
  return false;
}

bool
design_applies (const Design *design, const Part *part, FieldId field)
{
  if (field >= FIELD_DEVICE_OUTFLOW && field <= FIELD_DEVICE_FLOW_MOST)
    return is_fed (design, part);
  for (unsigned i = 0; i < G_N_ELEMENTS (conditions); i++)
    if (conditions[i].field == field)
      return (ONE (design_choice (design, part, conditions[i].choice)) & conditions[i].wanted) != 0;
  return true;
}
