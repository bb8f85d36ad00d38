/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The pipe of a run in another size of the catalogue. */
#include "design/edit-private.h"
#include "design/pipe-series.h"

FieldId
edit_size_field (const Part *run)
{
  return part_kind (run) == PART_DRAIN ? FIELD_DRAIN_SIZE : FIELD_RETURN_SIZE;
}

Design *
edit_set_pipe (const Design *design, const Catalogue *catalogue, const char *run, const char *size,
               Problem *ret_problem)
{
  const Part *part = edit_find_run (design, run, ret_problem);
  Draft *draft;

  if (part == NULL)
    return NULL;
  if (catalogue_find_pipe (catalogue, size) == NULL) {
    problem_set (ret_problem, PROBLEM_NO_SUCH_PIPE, run, part_kind (part), edit_size_field (part), 0);
    return NULL;
  }
  draft = draft_new (design);
  return edit_finish (draft, draft_set_text (draft, run, edit_size_field (part), size, ret_problem), NULL,
                      NULL, ret_problem);
}

Design *
edit_step_pipe (const Design *design, const Catalogue *catalogue, const char *run, int steps,
                Problem *ret_problem)
{
  const Part *part = edit_find_run (design, run, ret_problem);
  const char *key;
  const PipeSize *size;
  ProblemCode code;

  if (part == NULL)
    return NULL;
  key = design_text (design, part, edit_size_field (part));
  size = pipe_series_step (catalogue, key, steps);
  if (size != NULL)
    return edit_set_pipe (design, catalogue, run, size->key, ret_problem);
  code = key == NULL || catalogue_find_pipe (catalogue, key) == NULL ? PROBLEM_NO_SUCH_PIPE
         : steps < 0                                                 ? PROBLEM_THINNEST_PIPE
                                                                     : PROBLEM_THICKEST_PIPE;
  problem_set (ret_problem, code, run, part_kind (part), edit_size_field (part), 0);
  return NULL;
}
