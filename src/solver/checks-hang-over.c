/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Checks of a hang-over siphon box. It is never safe by what it carries: the tubes can lose their prime. */
#include "solver/checks.h"

/* Water over the tubes' ends that evaporation and a leak may take before they draw air; common practice. */
#define SEAL_LEAST_M 0.020

/* Always said, as no such box runs for certain; a stop where what the pump lifts then does not fit under the rim. */
void
check_PRIME_LOST (Judge *judge)
{
  const System *system = judge->system;
  const int chamber = system->chambers[system->datum].part;

  for (unsigned i = 0; i < system->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];
    const Transfer *transfer = &judge->evaluation->transfers[overflow->tank];
    Measure measure = {.check = CHECK_PRIME_LOST,
                       .grade = GRADE_STOP,
                       .part = overflow->part,
                       .value = transfer->prime_pumped_m3,
                       .limit = transfer->prime_room_m3,
                       .judged = transfer->prime_room_m3 - transfer->prime_margin_m3,
                       .most = true};
    Finding *finding;

    if (!overflow->hangs_over || !isfinite (transfer->prime_margin_m3))
      continue;
    finding = judge_measure (judge, &measure);
    if (finding == NULL) {
      finding = judge_add (judge, CHECK_PRIME_LOST, GRADE_CAUTION, overflow->part, measure.value,
                           measure.limit, transfer->prime_margin_m3);
      finding_second (finding, 0);
      continue;
    }
    finding_second (finding, -finding->margin);
    finding_mend (finding, chamber, FIELD_CHAMBER_LEVEL,
                  field_number (system, chamber, FIELD_CHAMBER_LEVEL) +
                      finding->margin / return_pool_area_m2 (system) - 0.001);
  }
}

void
check_TUBE_AIR (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];
    Finding *finding;

    if (!overflow->hangs_over)
      continue;
    const bool drawn_off = field_number (judge->system, overflow->part, FIELD_OVERFLOW_ASPIRATOR) > 0.5;

    finding = judge_measure (judge, &(Measure){.check = CHECK_TUBE_AIR,
                                               .grade = drawn_off ? GRADE_NOTE : GRADE_CAUTION,
                                               .part = overflow->part,
                                               .value = overflow->tube_froude,
                                               .limit = QUIET_CLEARING_FROUDE,
                                               .judged = overflow->slow_tube_froude});
    if (finding == NULL)
      continue;
    if (judge->system->overflows[i].tubes.n_tubes > 1)
      finding_mend (finding, overflow->part, FIELD_OVERFLOW_TUBES,
                    fmax (floor (judge->system->overflows[i].tubes.n_tubes * overflow->slow_tube_froude /
                                 QUIET_CLEARING_FROUDE),
                          1));
  }
}

void
check_TUBES_SHORT (Judge *judge)
{
  const State *fast = &judge->workspace->fast;

  for (unsigned i = 0; i < judge->system->n_overflows; i++) {
    const OverflowModel *overflow = &judge->system->overflows[i];
    Finding *finding;

    if (!overflow->hangs_over)
      continue;
    const double low_m3s = hang_over_capacity (judge->system, overflow, fast->box_z[i], true);

    finding = judge_measure (
        judge, &(Measure){.check = CHECK_TUBES_SHORT,
                          .grade = GRADE_CAUTION,
                          .part = overflow->part,
                          .value = hang_over_capacity (judge->system, overflow, fast->box_z[i], false),
                          .limit = fast->overflow_m3s[i],
                          .judged = low_m3s});
    if (finding != NULL && finding->limit + finding->margin > 0)
      finding_mend (finding, overflow->part, FIELD_OVERFLOW_TUBES,
                    ceil (overflow->tubes.n_tubes * finding->limit / (finding->limit + finding->margin)));
  }
}

void
check_SEAL_LOW (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];
    const double cover_m = overflow->tube_rest_cover_m;
    Finding *finding;

    if (!overflow->hangs_over)
      continue;
    finding = judge_measure (judge, &(Measure){.check = CHECK_SEAL_LOW,
                                               .grade = GRADE_STOP,
                                               .part = overflow->part,
                                               .value = cover_m,
                                               .judged = cover_m,
                                               .certain = cover_m <= 0});
    if (finding == NULL)
      finding = judge_least (judge, CHECK_SEAL_LOW, GRADE_CAUTION, overflow->part, cover_m, SEAL_LEAST_M);
    else
      judge_against (finding, SEAL_LEAST_M);
    if (finding != NULL)
      finding_mend (finding, overflow->part, FIELD_OVERFLOW_TUBE_END,
                    field_number (judge->system, overflow->part, FIELD_OVERFLOW_TUBE_END) + finding->margin -
                        0.001);
  }
}
