/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Marks of findings beside the parts that they judge: shape by grade, letter by place in the list of findings. */
#include "drawing/scene-private.h"

static const SceneSymbol symbols[N_GRADES] = {
    [GRADE_STOP] = SYMBOL_STOP, [GRADE_CAUTION] = SYMBOL_CAUTION, [GRADE_NOTE] = SYMBOL_NOTE};

void
scene_finding_letters (unsigned index, char letters[4])
{
  unsigned n = 0;
  if (index >= 26 * 27)
    index = 26 * 27 - 1;
  if (index >= 26)
    letters[n++] = (char) ('A' + index / 26 - 1);
  letters[n++] = (char) ('A' + index % 26);
  letters[n] = '\0';
}

/* One mark for all findings of a grade on a part, with the letter of the first and how many more there are. */
static void
mark_part (Builder *b, unsigned first)
{
  const MarkedPart *mark = &b->readings.marks[first];
  unsigned more = 0;
  for (unsigned i = 0; i < b->readings.n_marks; i++) {
    if (b->readings.marks[i].part != mark->part || b->readings.marks[i].grade != mark->grade)
      continue;
    if (i < first)
      return;
    more += i > first;
  }
  SceneBox box;
  if (mark->part < 0 || !scene_part_bounds (b->scene, mark->part, &box))
    return;
  char letters[4];
  scene_finding_letters (first, letters);
  ScenePoint p[] = {{box.x0, box.z0}, {box.x1, box.z1}};
  SceneItem *item = add_label (b, mark->part, ANCHOR_BOX, p, 2, keep_text (b->scene, letters), 100);
  if (item == NULL)
    return;
  item->role = ROLE_FINDING;
  item->layer = LAYER_FINDINGS;
  item->symbol = symbols[mark->grade];
  if (more > 0)
    item->value = take_text (b->scene, g_strdup_printf ("+%u", more));
}

void
build_findings (Builder *b)
{
  scene_measure (b->scene);
  for (unsigned i = 0; i < b->readings.n_marks; i++)
    mark_part (b, i);
}
