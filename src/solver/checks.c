/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/checks.h"

#include <string.h>

typedef struct {
  const char *word;
  Quantity quantity;
  const char *meaning;
  CheckFunc judge;
} CheckRow;

static const CheckRow checks[] = {
#define X(id, word_, quantity_, text) [CHECK_##id] = {word_, QUANTITY_##quantity_, text, check_##id},
    CHECKS (X)
#undef X
};

const char *
check_word (CheckId check)
{
  return (unsigned) check < N_CHECKS ? checks[check].word : "?";
}

Quantity
check_quantity (CheckId check)
{
  return (unsigned) check < N_CHECKS ? checks[check].quantity : QUANTITY_NONE;
}

const char *
check_meaning (CheckId check)
{
  return (unsigned) check < N_CHECKS ? checks[check].meaning : "?";
}

bool
check_find (const char *word, CheckId *ret_check)
{
  for (unsigned i = 0; i < N_CHECKS; i++)
    if (strcmp (checks[i].word, word) == 0) {
      *ret_check = (CheckId) i;
      return true;
    }
  return false;
}

const char *
grade_word (Grade grade)
{
  switch (grade) {
  case GRADE_STOP:
    return "stop";
  case GRADE_CAUTION:
    return "caution";
  case GRADE_NOTE:
    return "note";
  case N_GRADES:
  default:
    return "?";
  }
}

Finding *
judge_add (Judge *judge, CheckId check, Grade grade, int part, double value, double limit, double margin)
{
  Evaluation *evaluation = judge->evaluation;
  Finding *finding = &judge->spare;

  if (evaluation->n_findings < EVALUATION_FINDINGS_MAX)
    finding = &evaluation->findings[evaluation->n_findings++];
  else
    evaluation->findings_cut = true;
  *finding = (Finding){.check = check,
                       .grade = grade,
                       .part = part,
                       .other_part = -1,
                       .quantity = check_quantity (check),
                       .value = value,
                       .limit = limit,
                       .margin = margin,
                       .relative_margin = limit != 0 && isfinite (limit) ? margin / fabs (limit) : 0,
                       .lower = value,
                       .upper = value,
                       .remedy = {.part = -1, .field = N_FIELDS}};
  return finding;
}

void
finding_second (Finding *finding, double value)
{
  if (finding != NULL && finding->n_seconds < FINDING_SECONDS_MAX)
    finding->seconds[finding->n_seconds++] = value;
}

/* A remedy outside the range of its field is none. */
void
finding_mend (Finding *finding, int part, FieldId field, double value)
{
  const FieldInfo *info = field_info (field);

  if (finding == NULL || part < 0 || !isfinite (value))
    return;
  if (info->type == FIELD_NUMBER && (value < info->min || value > info->max))
    return;
  finding->remedy = (Remedy){.part = part, .field = field, .value = value};
}

Finding *
judge_least (Judge *judge, CheckId check, Grade grade, int part, double value, double limit)
{
  return value < limit ? judge_add (judge, check, grade, part, value, limit, value - limit) : NULL;
}

Finding *
judge_most (Judge *judge, CheckId check, Grade grade, int part, double value, double limit)
{
  return value > limit ? judge_add (judge, check, grade, part, value, limit, limit - value) : NULL;
}

const VesselState *
judged_chamber (const Judge *judge, unsigned chamber)
{
  const Evaluation *evaluation = judge->evaluation;

  return &evaluation->vessels[evaluation->n_vessels - judge->system->n_chambers + chamber];
}

bool
speed_can_be_raised (const Judge *judge)
{
  for (unsigned i = 0; i < judge->system->n_pumps; i++)
    if (judge->system->pumps[i].speed < 1)
      return true;
  return false;
}

void
remedy_by_speed (Judge *judge, Finding *finding, int edge, double flow_m3s)
{
  double speed;

  if (finding != NULL && judge->system->n_pumps == 1 &&
      loop_speed_for_flow (judge->system, judge->workspace, 0, edge, true, flow_m3s, &speed)) {
    /* A speed that must not be passed is cut to whole per cent, as it is printed and set. */
    if (edge == 1 && floor (speed * 100) / 100 >= PUMP_SPEED_MIN)
      speed = floor (speed * 100) / 100;
    finding_mend (finding, judge->system->pumps[0].part, FIELD_PUMP_SPEED, speed);
  }
}

static int
by_grade (const void *a, const void *b)
{
  const Finding *left = a, *right = b;

  if (left->grade != right->grade)
    return left->grade < right->grade ? -1 : 1;
  if (left->check != right->check)
    return left->check < right->check ? -1 : 1;
  return left->part < right->part ? -1 : left->part > right->part;
}

void
judge (const System *system, Workspace *workspace, Evaluation *evaluation)
{
  Judge work = {.system = system, .workspace = workspace, .evaluation = evaluation};

  if (evaluation->status == EVALUATION_NOT_SOLVED) {
    checks[CHECK_NOT_SOLVED].judge (&work);
    return;
  }
  for (unsigned i = 0; i < N_CHECKS; i++)
    checks[i].judge (&work);
  qsort (evaluation->findings, evaluation->n_findings, sizeof *evaluation->findings, by_grade);
}
