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
    const bool fits = transfer->prime_margin_m3 >= 0;
    Finding *finding;

    if (!overflow->hangs_over || !isfinite (transfer->prime_margin_m3))
      continue;
    finding = judge_add (judge, CHECK_PRIME_LOST, fits ? GRADE_CAUTION : GRADE_STOP, overflow->part,
                         transfer->prime_pumped_m3, transfer->prime_room_m3, transfer->prime_margin_m3);
    finding_second (finding, fmax (-transfer->prime_margin_m3, 0));
    if (!fits)
      finding_mend (finding, chamber, FIELD_CHAMBER_LEVEL,
                    field_number (system, chamber, FIELD_CHAMBER_LEVEL) +
                        transfer->prime_margin_m3 / return_pool_area_m2 (system) - 0.001);
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

    finding = judge_least (judge, CHECK_TUBE_AIR, drawn_off ? GRADE_NOTE : GRADE_CAUTION, overflow->part,
                           overflow->slow_tube_froude, QUIET_CLEARING_FROUDE);
    if (finding == NULL)
      continue;
    finding->value = finding->upper = overflow->tube_froude;
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

    finding =
        judge_least (judge, CHECK_TUBES_SHORT, GRADE_CAUTION, overflow->part, low_m3s, fast->overflow_m3s[i]);
    if (finding == NULL)
      continue;
    finding->value = finding->upper = hang_over_capacity (judge->system, overflow, fast->box_z[i], false);
    if (low_m3s > 0)
      finding_mend (finding, overflow->part, FIELD_OVERFLOW_TUBES,
                    ceil (overflow->tubes.n_tubes * fast->overflow_m3s[i] / low_m3s));
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
    finding = judge_least (judge, CHECK_SEAL_LOW, cover_m > 0 ? GRADE_CAUTION : GRADE_STOP, overflow->part,
                           cover_m, SEAL_LEAST_M);
    if (finding != NULL)
      finding_mend (finding, overflow->part, FIELD_OVERFLOW_TUBE_END,
                    field_number (judge->system, overflow->part, FIELD_OVERFLOW_TUBE_END) + finding->margin -
                        0.001);
  }
}
