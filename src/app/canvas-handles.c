/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Whose handles are shown: those of the selected part; with a run come its corners, and with a corner the others. */
#include <math.h>

#include "app/canvas-private.h"

unsigned
canvas_handle_parts (Canvas *self, int parts[], unsigned max)
{
  const int selected = canvas_selected (self);
  const Design *design = document_get_design (self->document);
  const Part *part = canvas_part_of (self, selected), *run = part;
  unsigned n = 0;

  if (part == NULL || self->scene == NULL)
    return 0;
  parts[n++] = selected;
  if (part_kind (part) == PART_CORNER)
    run = design_owner (design, part);
  for (unsigned i = 0; run != NULL && n < max && i < design_n_children (design, part_key (run), PART_CORNER);
       i++) {
    const int corner =
        design_index (design, part_key (design_child (design, part_key (run), PART_CORNER, i)));

    if (corner != selected)
      parts[n++] = corner;
  }
  return n;
}

gboolean
canvas_handle_at (Canvas *self, double x, double y, int *ret_part, unsigned *ret_number)
{
  int parts[64];
  const unsigned n = canvas_handle_parts (self, parts, G_N_ELEMENTS (parts));
  double nearest = self->by_touch ? TOUCH_REACH : HANDLE_REACH;
  gboolean found = FALSE;

  for (unsigned i = 0; i < n; i++)
    for (unsigned k = 0; k < scene_n_handles (self->scene, parts[i]); k++) {
      const SceneHandle *handle = scene_handle (self->scene, parts[i], k);
      const double distance =
          hypot (view_x (&self->view, handle->x) - x, view_y (&self->view, handle->z) - y);

      if (distance < nearest) {
        nearest = distance;
        *ret_part = parts[i];
        *ret_number = k;
        found = TRUE;
      }
    }
  return found;
}
