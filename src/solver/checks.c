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

const char *
check_exact_reason (CheckId check)
{
  static const char *const reasons[N_CHECKS] = {
#define X(id, reason) [CHECK_##id] = reason,
      CHECKS_WITHOUT_BAND (X)
#undef X
  };

  return (unsigned) check < N_CHECKS ? reasons[check] : NULL;
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

  if (judge->list == NULL && evaluation->n_findings < EVALUATION_FINDINGS_MAX)
    finding = &evaluation->findings[evaluation->n_findings++];
  else
    evaluation->findings_cut = judge->list == NULL;
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
                       .factor = -1,
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

/* The end of the band where it has one, and its own corner: the worse of the two. */
static double
judged_margin (Judge *judge, const Measure *measure, double own, Band *ret_band)
{
  MarginList *seen = &judge->workspace->bands->tried;
  const unsigned at = seen->n;

  margin_list_add (seen, measure->check, measure->part, measure->value, measure->limit, own);
  if (isnan (own) || check_exact_reason (measure->check) != NULL ||
      !bands_find (judge->workspace, measure->check, measure->part, seen->margins[at].nth, at, ret_band)) {
    *ret_band = (Band){.widest = -1};
    return own;
  }
  return ret_band->widest >= 0 ? fmin (own, ret_band->low) : own;
}

Finding *
judge_measure (Judge *judge, const Measure *measure)
{
  const double side = measure->most ? -1 : 1, own = side * (measure->judged - measure->limit);
  double margin, edge;
  Finding *finding;
  Band band;

  if (judge->list != NULL) {
    margin_list_add (judge->list, measure->check, measure->part, measure->value, measure->limit, own);
    return NULL;
  }
  margin = judged_margin (judge, measure, own, &band);
  if (!(margin < 0) && !measure->certain)
    return NULL;
  if (measure->certain)
    margin = fmin (margin, 0);
  edge = measure->limit + side * margin;
  finding = judge_add (judge, measure->check, measure->grade, measure->part, measure->value, measure->limit,
                       margin);
  finding->factor = band.widest;
  finding->lower = fmin (finding->value, edge);
  finding->upper = fmax (finding->value, edge);
  if (measure->most)
    finding->lower = fmin (finding->lower, finding->value - fmax (band.high - band.margin, 0));
  else
    finding->upper = fmax (finding->upper, finding->value + fmax (band.high - band.margin, 0));
  return finding;
}

void
judge_against (Finding *finding, double wanted)
{
  finding->margin -= wanted - finding->limit;
  finding->limit = wanted;
  finding->relative_margin = wanted != 0 ? finding->margin / fabs (wanted) : 0;
}

Finding *
judge_least (Judge *judge, CheckId check, Grade grade, int part, double value, double limit)
{
  return judge_measure (
      judge,
      &(Measure){
          .check = check, .grade = grade, .part = part, .value = value, .limit = limit, .judged = value});
}

Finding *
judge_most (Judge *judge, CheckId check, Grade grade, int part, double value, double limit)
{
  return judge_measure (judge, &(Measure){.check = check,
                                          .grade = grade,
                                          .part = part,
                                          .value = value,
                                          .limit = limit,
                                          .judged = value,
                                          .most = true});
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
judge_all (Judge *judge)
{
  for (unsigned i = 0; i < N_CHECKS; i++)
    checks[i].judge (judge);
}

void
judge (const System *system, Workspace *workspace, Evaluation *evaluation)
{
  Judge work = {.system = system, .workspace = workspace, .evaluation = evaluation};

  workspace->bands->tried.n = 0;
  if (evaluation->status == EVALUATION_NOT_SOLVED) {
    checks[CHECK_NOT_SOLVED].judge (&work);
    return;
  }
  judge_all (&work);
  qsort (evaluation->findings, evaluation->n_findings, sizeof *evaluation->findings, by_grade);
}
