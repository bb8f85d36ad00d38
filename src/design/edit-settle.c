/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Things in the sump belong to the chamber that they stand in. */
#include <math.h>

#include "design/choices.h"
#include "design/edit-private.h"
#include "design/geometry.h"

/* Field of the place from the left of its chamber of what stands in the water; N_FIELDS for the rest. */
static FieldId
place_field (const Design *design, const Part *part)
{
  const PartKind kind = part != NULL ? part_kind (part) : N_PART_KINDS;

  if (kind == PART_DEVICE && design_choice (design, part, FIELD_DEVICE_KIND) != DEVICE_CHILLER)
    return FIELD_DEVICE_X;
  if (kind == PART_PUMP && design_choice (design, part, FIELD_PUMP_PLACING) == PUMP_SUBMERGED)
    return FIELD_PUMP_X;
  return N_FIELDS;
}

/* The chamber at a place from the left, or NULL: over a baffle or outside. */
static const Part *
chamber_at (const Design *design, double x)
{
  for (unsigned i = 0; i < design_count (design, PART_CHAMBER); i++) {
    const Box3 inside = geometry_inside (design, design_nth (design, PART_CHAMBER, i));

    if (x > inside.origin.x && x < inside.origin.x + inside.size.x)
      return design_nth (design, PART_CHAMBER, i);
  }
  return NULL;
}

Design *
edit_settle (Design *design, const char *key)
{
  const Part *part = design_find (design, key);
  const FieldId field = place_field (design, part);
  g_autoptr (Draft) draft = NULL;
  Design *settled = NULL;

  if (field == N_FIELDS || !part_is_given (part, field))
    return design_ref (design);
  const Box3 box = geometry_outside (design, part);
  const Part *chamber = chamber_at (design, box.origin.x + box.size.x / 2);

  if (chamber == NULL || chamber == design_owner (design, part))
    return design_ref (design);
  draft = draft_new (design);
  if (draft_set_owner (draft, key, part_key (chamber), NULL) &&
      draft_set_number (draft, key, field,
                        round ((box.origin.x - geometry_inside (design, chamber).origin.x) * 1e7) / 1e7,
                        NULL))
    settled = draft_commit (draft, NULL);
  return settled != NULL ? settled : design_ref (design);
}
