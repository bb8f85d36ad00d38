/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Remedies by trying them: the least change of one field with which the scenario ends with a dry floor. */
#include "design/choices.h"
#include "design/draft.h"
#include "solver/model.h"
#include "solver/rehearsal-judge.h"

#define HALVINGS 9
/* Nobody measures finer: a millimetre, a hundredth of a speed. */
#define LENGTH_GRAIN_M 0.001
#define SPEED_GRAIN    0.01
/* The most that is offered. */
#define BREAK_MOST_M 0.10
#define LEVEL_MOST_M 0.15
#define SPEED_MOST   0.50
#define SUMP_MOST_M  0.30

typedef struct {
  Design *design;
  Catalogue *catalogue;
  const Rehearsed *rehearsed;
  const FailureOptions *options;
  const int *cancelled;
  Rehearsed *tried;
  Evaluation *evaluation;
} Search;

static bool
stays_dry (const Search *search, Design *design)
{
  System *system = system_compile (design, search->catalogue, NULL, NULL);
  Workspace *workspace;
  Rehearser *rehearser;
  bool dry = false;

  if (system == NULL)
    return false;
  workspace = workspace_new (system);
  rehearser = rehearser_new (system);
  evaluate (system, workspace, NULL, search->evaluation);
  if (rehearse_failures (system, search->evaluation, rehearser, search->rehearsed->failures,
                         search->rehearsed->n_failures, search->options, NULL, search->cancelled,
                         search->tried)) {
    dry = true;
    for (unsigned i = 0; i < search->tried->n_findings; i++)
      dry = dry && search->tried->findings[i].check != REHEARSED_SPILLS &&
            search->tried->findings[i].check != REHEARSED_SPILLS_FAST &&
            search->tried->findings[i].check != REHEARSED_CHECK_HOLDS;
  }
  rehearser_free (rehearser);
  workspace_free (workspace);
  system_free (system);
  return dry;
}

/* Whether the scenario stays dry with the field changed so; false too where the design does not take it. */
static bool
mends (const Search *search, const Part *part, FieldId field, double value)
{
  g_autoptr (Design) changed = design_with_number (search->design, part_key (part), field, value, NULL);

  return changed != NULL && stays_dry (search, changed);
}

/* The least change, in whole grains, that mends; false where even the most does not. */
static bool
least_change (const Search *search, const Part *part, FieldId field, double most, double grain,
              RehearsalRemedy *ret_remedy)
{
  const double now = design_number (search->design, part, field);
  const double sign = most < 0 ? -1 : 1;
  double low = 0, high = ceil (fabs (most) / grain);

  if (!mends (search, part, field, now + sign * high * grain)) {
    high = ceil (high / 3);
    if (!mends (search, part, field, now + sign * high * grain))
      return false;
  }
  for (unsigned i = 0; i < HALVINGS && high - low > 1; i++) {
    const double middle = ceil (0.5 * (low + high));

    if (middle >= high)
      break;
    if (mends (search, part, field, now + sign * middle * grain))
      high = middle;
    else
      low = middle;
  }
  *ret_remedy = (RehearsalRemedy){.part = design_index (search->design, part_key (part)),
                                  .field = field,
                                  .value = now + sign * high * grain,
                                  .change = sign * high * grain,
                                  .sump_m3 = NO_NUMBER};
  return true;
}

static bool
raise_break (const Search *search, RehearsalRemedy *ret_remedy)
{
  for (unsigned i = 0; i < design_count (search->design, PART_OUTLET); i++) {
    const Part *outlet = design_nth (search->design, PART_OUTLET, i);

    if (design_choice (search->design, outlet, FIELD_OUTLET_BREAK) == 0) {
      if (!mends (search, outlet, FIELD_OUTLET_BREAK, 1))
        continue;
      *ret_remedy = (RehearsalRemedy){.part = design_index (search->design, part_key (outlet)),
                                      .field = FIELD_OUTLET_BREAK,
                                      .value = 1,
                                      .change = NO_NUMBER,
                                      .sump_m3 = NO_NUMBER};
      return true;
    }
    if (least_change (search, outlet, FIELD_OUTLET_BREAK_HEIGHT, BREAK_MOST_M, LENGTH_GRAIN_M, ret_remedy))
      return true;
  }
  return false;
}

static bool
lower_level (const Search *search, RehearsalRemedy *ret_remedy)
{
  for (unsigned i = 0; i < design_count (search->design, PART_CHAMBER); i++) {
    const Part *chamber = design_nth (search->design, PART_CHAMBER, i);

    if (design_choice (search->design, chamber, FIELD_CHAMBER_ROLE) == CHAMBER_RETURN &&
        least_change (search, chamber, FIELD_CHAMBER_LEVEL, -LEVEL_MOST_M, LENGTH_GRAIN_M, ret_remedy))
      return true;
  }
  return false;
}

static bool
slow_pump (const Search *search, RehearsalRemedy *ret_remedy)
{
  return design_count (search->design, PART_PUMP) == 1 &&
         least_change (search, design_nth (search->design, PART_PUMP, 0), FIELD_PUMP_SPEED, -SPEED_MOST,
                       SPEED_GRAIN, ret_remedy);
}

static bool
add_sump (const Search *search, RehearsalRemedy *ret_remedy)
{
  const Part *sump = design_nth (search->design, PART_SUMP, 0);

  if (sump == NULL ||
      !least_change (search, sump, FIELD_SUMP_HEIGHT, SUMP_MOST_M, LENGTH_GRAIN_M, ret_remedy))
    return false;
  ret_remedy->sump_m3 = ret_remedy->change * design_number (search->design, sump, FIELD_SUMP_LENGTH) *
                        design_number (search->design, sump, FIELD_SUMP_WIDTH);
  return true;
}

unsigned
rehearsal_remedies (Design *design, Catalogue *catalogue, const Rehearsed *rehearsed,
                    const FailureOptions *options, const int *cancelled, RehearsalRemedy *ret_remedies)
{
  bool (*const ways[]) (const Search *, RehearsalRemedy *) = {raise_break, lower_level, slow_pump, add_sump};
  const Search search = {design,           catalogue, rehearsed, options, cancelled, g_new0 (Rehearsed, 1),
                         evaluation_new ()};
  unsigned n = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (ways) && n < REHEARSAL_REMEDIES_MAX; i++)
    if ((cancelled == NULL || g_atomic_int_get (cancelled) == 0) && ways[i](&search, &ret_remedies[n]))
      n++;
  g_free (search.tried);
  evaluation_free (search.evaluation);
  return n;
}
