/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What runs back when the power fails, litre by litre, and where it comes to rest. */
#include "design/choices.h"
#include "solver/model.h"

/* Water of an upright drain that is not full stays a film on its wall: its share of the section by the stack relation
 * (Wyly & Eaton, NBS Monograph 31), whose largest fill is a third. */
#define STACK_FILL_MOST (1.0 / 3.0)

typedef struct {
  const System *system;
  const State *state;
  bool plugged, upper;
  Trace *trace;
  Scenario scenario;
  DrainBack *back;
  double added_m3[EVALUATION_CHAMBERS_MAX];
} BackPass;

double
tank_volume_m3 (const System *system, const TankModel *tank, double level_z)
{
  double m3 = tank->area_m2 * fmax (level_z - tank->bottom_z, 0);

  for (unsigned i = tank->first_overflow; i < tank->first_overflow + tank->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];

    if (overflow->footprint_m2 > 0)
      m3 -= overflow->footprint_m2 * fmax (level_z - fmax (overflow->footprint_low_z, tank->bottom_z), 0);
  }
  return fmax (m3, 0);
}

static void
add_line (BackPass *pass, BackKind kind, int part, unsigned chamber, double m3)
{
  DrainBack *back = pass->back;

  if (!(m3 > 0) || back->n_lines == EVALUATION_LINES_MAX)
    return;
  back->lines[back->n_lines++] = (BackLine){kind, part, pass->system->chambers[chamber].part, m3};
  back->total_m3 += m3;
  pass->added_m3[chamber] += m3;
}

/* Where an outlet stops drawing the display down; NO_LIMIT where it does not draw at all. */
static double
outlet_stops_z (const BackPass *pass, const OutletModel *outlet, double running_z)
{
  double stops_z = outlet->z + outlet->bore_m / 2;

  if (outlet->z >= running_z)
    return NO_LIMIT;
  if (outlet->has_break && !pass->plugged) {
    if (outlet->break_z >= running_z)
      return NO_LIMIT;
    /* A break that lies under the mouth lets in no air that the mouth has not drawn before. */
    stops_z = fmax (stops_z, outlet->break_z - (pass->upper ? BREAK_LATE_M : 0));
  }
  return stops_z < running_z ? stops_z : NO_LIMIT;
}

static double
tank_running_z (const BackPass *pass, unsigned tank)
{
  const TankModel *model = &pass->system->tanks[tank];
  double level_z = pass->state->display_z[tank];
  double low_m, high_m;

  if (pass->upper) {
    const double head_m = level_z - tank_lowest_crest_z (pass->system, model);

    if (head_m > 0 && weir_head_band (head_m, &low_m, &high_m) == HYDRAULICS_OK)
      level_z += high_m - head_m;
  }
  return fmin (level_z, model->rim_z);
}

static double
tank_rest_z (const BackPass *pass, unsigned tank, double running_z, double *ret_crest_z, int *ret_outlet)
{
  const System *system = pass->system;
  const TankModel *model = &system->tanks[tank];
  const double crest_z = fmin (running_z, tank_lowest_crest_z (system, model));
  double rest_z;

  *ret_outlet = -1;
  rest_z = crest_z;
  for (unsigned i = 0; i < system->n_outlets; i++) {
    const double stops_z =
        system->outlets[i].tank == tank ? outlet_stops_z (pass, &system->outlets[i], running_z) : NO_LIMIT;

    if (stops_z < rest_z) {
      rest_z = stops_z;
      *ret_outlet = (int) i;
    }
  }
  *ret_crest_z = crest_z;
  return fmax (rest_z, model->bottom_z);
}

/* The chamber that the main drain of an overflow runs into: that of its lowest open lip. */
static unsigned
main_chamber (const System *system, const OverflowModel *overflow, double *ret_lowest_z)
{
  unsigned chamber = system->datum;
  double lowest_z = NO_LIMIT;

  for (unsigned i = overflow->first_drain; i < overflow->first_drain + overflow->n_drains; i++)
    if (!system->drains[i].blocked && system->drains[i].pipe.mouth_level_m < lowest_z) {
      lowest_z = system->drains[i].pipe.mouth_level_m;
      chamber = system->drains[i].chamber;
    }
  *ret_lowest_z = lowest_z;
  return chamber;
}

static void
trace_slice (const BackPass *pass, StepId id, int part, double m3, double high_z, double low_z)
{
  const double values[] = {m3, high_z > low_z ? m3 / (high_z - low_z) : 0, high_z, low_z};

  trace_add (pass->trace, id, pass->scenario, part, values);
}

static void
back_tank (BackPass *pass, unsigned tank, Evaluation *evaluation)
{
  const System *system = pass->system;
  const TankModel *model = &system->tanks[tank];
  const double running_z = tank_running_z (pass, tank);
  double crest_z, lowest_z, rest_z;
  int outlet;
  unsigned weir_chamber = system->datum, siphon_chamber = system->datum;

  rest_z = tank_rest_z (pass, tank, running_z, &crest_z, &outlet);
  if (model->n_overflows > 0)
    weir_chamber = main_chamber (system, &system->overflows[model->first_overflow], &lowest_z);
  if (outlet >= 0 && system->outlets[outlet].pump >= 0)
    siphon_chamber = system->pumps[system->outlets[outlet].pump].chamber;
  const double top_m3 = tank_volume_m3 (system, model, running_z),
               crest_m3 = tank_volume_m3 (system, model, crest_z),
               rest_m3 = tank_volume_m3 (system, model, rest_z);

  trace_add (pass->trace, STEP_REST_LEVEL, pass->scenario, model->part,
             (double[]){rest_z, crest_z, outlet >= 0 ? rest_z : NO_NUMBER});
  add_line (pass, BACK_DISPLAY_WEIR, model->part, weir_chamber, top_m3 - crest_m3);
  trace_slice (pass, STEP_BACK_DISPLAY, model->part, top_m3 - crest_m3, running_z, crest_z);
  if (rest_z < crest_z) {
    add_line (pass, BACK_DISPLAY_SIPHON, model->part, siphon_chamber, crest_m3 - rest_m3);
    trace_slice (pass, STEP_BACK_DISPLAY, model->part, crest_m3 - rest_m3, crest_z, rest_z);
  }
  if (pass->upper)
    return;
  if (pass->plugged)
    evaluation->tanks[tank].rest_plugged_z = rest_z;
  else
    evaluation->tanks[tank].rest_z = rest_z;
}

double
box_rest_z (const System *system, unsigned overflow, const BoxModel *box, double running_z)
{
  double lowest_z;

  main_chamber (system, &system->overflows[overflow], &lowest_z);
  if (system->overflows[overflow].hangs_over && box != &system->overflows[overflow].outer)
    return hang_over_rest_z (&system->overflows[overflow], lowest_z, running_z);
  return fmin (fmax (lowest_z, box->floor_z), running_z);
}

static void
back_box (BackPass *pass, unsigned overflow)
{
  const System *system = pass->system;
  const OverflowModel *model = &system->overflows[overflow];
  const double box_z = pass->state->box_z[overflow], inner_z = pass->state->inner_z[overflow];
  double lowest_z, m3 = 0;
  const unsigned chamber = main_chamber (system, model, &lowest_z);

  if (!isfinite (lowest_z))
    return;
  if (model->outer.there) {
    const double outer_rest_z = box_rest_z (system, overflow, &model->outer, box_z),
                 inner_rest_z = box_rest_z (system, overflow, &model->inner, inner_z);

    m3 = model->outer.area_m2 * (box_z - outer_rest_z) + model->inner.area_m2 * (inner_z - inner_rest_z);
    if (model->hangs_over) {
      const double tube_z = pass->state->tube_side_z[overflow];

      m3 += model->tube_side.area_m2 * (tube_z - box_rest_z (system, overflow, &model->tube_side, tube_z));
      /* The tubes stay full, or their crown lets air in and they empty as well. */
      m3 += pass->upper ? model->tubes_m3 : 0;
    }
  } else {
    m3 = model->inner.area_m2 * (box_z - box_rest_z (system, overflow, &model->inner, box_z));
  }
  add_line (pass, BACK_BOX, model->part, chamber, m3);
  trace_slice (pass, STEP_BACK_BOX, model->part, m3, box_z, fmin (lowest_z, box_z));
}

static void
back_run (BackPass *pass, unsigned index)
{
  const System *system = pass->system;
  const RunModel *run = &system->runs[index];
  const unsigned chamber = run->pump >= 0 ? system->pumps[run->pump].chamber : system->datum;
  const double bore_m = run->pipe.bore_m;
  const double m3 = segments_volume_above (system, run->first_segment, run->n_segments, bore_m,
                                           pass->state->chamber_z[chamber]);

  add_line (pass, BACK_RUN, run->part, chamber, m3);
  trace_add (pass->trace, STEP_BACK_RUN, pass->scenario, run->part,
             (double[]){m3, bore_m, m3 / (G_PI / 4 * bore_m * bore_m), pass->state->chamber_z[chamber]});
}

/* Share of a drain's section that is water while it runs. */
static double
drain_fill (const BackPass *pass, unsigned index)
{
  const DrainModel *drain = &pass->system->drains[index];
  const double flow_m3s = pass->state->drain_m3s[index];
  double most_m3s = 0;

  if (!(flow_m3s > 0))
    return 0;
  if (pass->upper || (drain->role == DRAIN_SIPHON && drain->primed_counts))
    return 1;
  quiet_stack_flow (drain->pipe.run.bore_m, STACK_FILL_MOST, &most_m3s);
  return most_m3s > 0 ? fmin (STACK_FILL_MOST * pow (flow_m3s / most_m3s, 0.6), 1) : 1;
}

double
drain_content_m3 (const System *system, const State *state, unsigned index, bool upper)
{
  const BackPass pass = {.system = system, .state = state, .upper = upper};
  const DrainModel *drain = &system->drains[index];
  const double end_z = fmax (drain->end_z, state->chamber_z[drain->chamber]);

  return drain_fill (&pass, index) * segments_volume_above (system, drain->first_segment, drain->n_segments,
                                                            drain->pipe.run.bore_m, end_z);
}

static void
back_drain (BackPass *pass, unsigned index)
{
  const DrainModel *drain = &pass->system->drains[index];
  const double bore_m = drain->pipe.run.bore_m, fill = drain_fill (pass, index);
  const double m3 = drain_content_m3 (pass->system, pass->state, index, pass->upper);

  add_line (pass, BACK_DRAIN, drain->part, drain->chamber, m3);
  if (m3 > 0)
    trace_add (pass->trace, STEP_BACK_DRAIN, pass->scenario, drain->part,
               (double[]){m3, bore_m, m3 / (fill * G_PI / 4 * bore_m * bore_m), fill});
}

static void
run_back (BackPass *pass, Evaluation *evaluation, Pour *ret_pour)
{
  const System *system = pass->system;
  DrainBack *back = pass->back;

  for (unsigned i = 0; i < system->n_tanks; i++)
    back_tank (pass, i, evaluation);
  for (unsigned i = 0; i < system->n_overflows; i++)
    back_box (pass, i);
  for (unsigned i = 0; i < system->n_runs; i++)
    back_run (pass, i);
  for (unsigned i = 0; i < system->n_drains; i++)
    back_drain (pass, i);
  trace_add (pass->trace, STEP_BACK_TOTAL, pass->scenario, -1, &back->total_m3);
  for (unsigned i = 0; i < system->n_chambers; i++) {
    const ChamberModel *chamber = &system->chambers[i];
    const double running_z = pass->state->chamber_z[i];
    const double m3 = chamber_volume_m3 (chamber, running_z, chamber->rim_z) -
                      chamber_volume_m3 (chamber, running_z, fmin (running_z, chamber->rim_z));

    back->free_m3 += m3;
    trace_add (pass->trace, STEP_FREE_CHAMBER, pass->scenario, chamber->part,
               (double[]){m3, chamber->area_m2, chamber->rim_z, running_z, chamber->filled});
  }
  trace_add (pass->trace, STEP_FREE_TOTAL, pass->scenario, -1, &back->free_m3);
  pour (system, pass->state->chamber_z, pass->added_m3, ret_pour);
  back->spilled_m3 = ret_pour->spilled_m3;
  back->highest_z = -NO_LIMIT;
  for (unsigned i = 0; i < system->n_chambers; i++) {
    back->highest_z = fmax (back->highest_z, ret_pour->level_z[i]);
    trace_add (pass->trace, STEP_POWER_OFF_LEVEL, pass->scenario, system->chambers[i].part,
               (double[]){ret_pour->level_z[i], ret_pour->m3[i]});
  }
  back->freeboard_m = system->chambers[0].rim_z - back->highest_z;
  back->margin_m3 = back->free_m3 - back->total_m3;
  if (back->spilled_m3 > 0)
    back->margin_m3 = fmin (back->margin_m3, -back->spilled_m3);
}

static void
judge_case (const System *system, const Workspace *workspace, Trace *trace, bool plugged,
            Evaluation *evaluation, DrainBack *ret_back, Pour *ret_pour)
{
  DrainBack upper = {0};
  Pour upper_pour;
  BackPass pass = {.system = system,
                   .state = &workspace->running,
                   .plugged = plugged,
                   .trace = trace,
                   .scenario = plugged ? SCENARIO_POWER_OFF_PLUGGED : SCENARIO_POWER_OFF,
                   .back = ret_back};
  BackPass upper_pass = {.system = system,
                         .state = &workspace->fast,
                         .plugged = plugged,
                         .upper = !system->exact,
                         .back = &upper};

  *ret_back = (DrainBack){0};
  run_back (&pass, evaluation, ret_pour);
  if (system->exact)
    upper = *ret_back;
  else
    run_back (&upper_pass, evaluation, &upper_pour);
  ret_back->upper_total_m3 = upper.total_m3;
  ret_back->upper_margin_m3 = upper.margin_m3;
  ret_back->upper_freeboard_m = upper.freeboard_m;
  ret_back->upper_spilled_m3 = upper.spilled_m3;
}

static void
fill_outlets (const System *system, const Workspace *workspace, Evaluation *evaluation)
{
  const BackPass pass = {.system = system, .state = &workspace->running};

  for (unsigned i = 0; i < system->n_outlets; i++) {
    const OutletModel *outlet = &system->outlets[i];
    const double running_z = workspace->running.display_z[outlet->tank];
    const double stops_z = outlet_stops_z (&pass, outlet, running_z);

    evaluation->outlets[i].siphons = outlet->z < running_z;
    evaluation->outlets[i].stops_z = isfinite (stops_z) ? stops_z : NO_NUMBER;
  }
}

void
fill_drain_back (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  Pour open_pour, plugged_pour;
  const unsigned first_chamber = evaluation->n_vessels - system->n_chambers;

  judge_case (system, workspace, trace, false, evaluation, &evaluation->drain_back, &open_pour);
  judge_case (system, workspace, trace, true, evaluation, &evaluation->plugged, &plugged_pour);
  fill_outlets (system, workspace, evaluation);
  for (unsigned i = 0; i < system->n_chambers; i++) {
    VesselState *vessel = &evaluation->vessels[first_chamber + i];

    vessel->power_off_z = open_pour.level_z[i];
    vessel->power_off_m3 = open_pour.m3[i];
    vessel->power_off_plugged_z = plugged_pour.level_z[i];
    vessel->power_off_plugged_m3 = plugged_pour.m3[i];
  }
}
