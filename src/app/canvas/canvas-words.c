/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/canvas/canvas-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "app/canvas/canvas-flow.h"
#include "report/finding-words.h"

#define MAX_FIGURES 4

typedef struct {
  const char *name; /* translated */
  double value;
  Quantity quantity;
} Figure;

typedef struct {
  const Design *design;
  const Evaluation *evaluation;
  unsigned n;
  Figure figures[MAX_FIGURES];
} Figures;

static void
add (Figures *f, const char *name, double value, Quantity quantity)
{
  if (isfinite (value) && f->n < MAX_FIGURES)
    f->figures[f->n++] = (Figure){name, value, quantity};
}

const Finding *
canvas_worst_finding (const Evaluation *evaluation, int part)
{
  /* Findings stand with the worst grade first. */
  for (unsigned i = 0; evaluation != NULL && part >= 0 && i < evaluation->n_findings; i++)
    if (evaluation->findings[i].part == part)
      return &evaluation->findings[i];
  return NULL;
}

static void
vessel_figures (Figures *f, int index, const Part *part)
{
  const VesselState *vessel = evaluation_vessel (f->evaluation, index, VESSEL_CHAMBER);

  if (vessel == NULL)
    return;
  add (f, _ ("Running level"), vessel->running_z - vessel->bottom_z, QUANTITY_LENGTH);
  add (f, _ ("after a power cut"), vessel->power_off_z - vessel->bottom_z, QUANTITY_LENGTH);
  add (f, _ ("rim"), vessel->rim_z - vessel->bottom_z, QUANTITY_LENGTH);
}

static void
sump_figures (Figures *f, int index, const Part *part)
{
  add (f, _ ("Freeboard after a power cut"), f->evaluation->drain_back.freeboard_m, QUANTITY_LENGTH);
  add (f, _ ("drain-back"), f->evaluation->drain_back.total_m3, QUANTITY_VOLUME);
}

static void
tank_figures (Figures *f, int index, const Part *part)
{
  const TankState *tank = evaluation_tank (f->evaluation, index);

  if (tank == NULL)
    return;
  add (f, _ ("Freeboard"), tank->freeboard_m, QUANTITY_LENGTH);
  add (f, _ ("water"), tank->water_m3, QUANTITY_VOLUME);
  add (f, _ ("turnover"), tank->turnover_per_h, QUANTITY_TURNOVER);
}

static void
overflow_figures (Figures *f, int index, const Part *part)
{
  const OverflowState *overflow = evaluation_overflow (f->evaluation, index);
  const TankState *tank;

  if (overflow == NULL)
    return;
  tank = evaluation_tank (f->evaluation, overflow->tank);
  add (f, _ ("Head over the crest"), overflow->head_m, QUANTITY_LENGTH);
  if (tank != NULL)
    add (f, _ ("freeboard of the display"), tank->freeboard_m, QUANTITY_LENGTH);
  add (f, _ ("flow"), overflow->flow_m3s, QUANTITY_FLOW);
}

static void
drain_figures (Figures *f, int index, const Part *part)
{
  const DrainState *drain = evaluation_drain (f->evaluation, index);

  if (drain == NULL)
    return;
  add (f, _ ("Flow"), drain->flow_m3s, QUANTITY_FLOW);
  add (f, _ ("carries at most"), drain->primed_counts ? drain->primed_rim_m3s : drain->unprimed_rim_m3s,
       QUANTITY_FLOW);
  add (f, _ ("quiet up to"), drain->quiet_m3s, QUANTITY_FLOW);
}

static void
baffle_figures (Figures *f, int index, const Part *part)
{
  for (unsigned i = 0; i < f->evaluation->n_baffles; i++)
    if (f->evaluation->baffles[i].part == index) {
      add (f, _ ("Difference of levels"), f->evaluation->baffles[i].head_m, QUANTITY_LENGTH);
      add (f, _ ("flow"), f->evaluation->baffles[i].flow_m3s, QUANTITY_FLOW);
    }
}

static void
device_figures (Figures *f, int index, const Part *part)
{
  for (unsigned i = 0; i < f->evaluation->n_devices; i++)
    if (f->evaluation->devices[i].part == index) {
      add (f, _ ("Water depth"), f->evaluation->devices[i].depth_m, QUANTITY_LENGTH);
      add (f, _ ("at the lowest level"), f->evaluation->devices[i].lowest_depth_m, QUANTITY_LENGTH);
      add (f, _ ("room above"), f->evaluation->devices[i].room_m, QUANTITY_LENGTH);
      if (f->evaluation->devices[i].feed >= 0)
        add (f, _ ("flow"), f->evaluation->devices[i].flow_m3s, QUANTITY_FLOW);
    }
}

static void
pump_figures (Figures *f, int index, const Part *part)
{
  const PumpState *pump = evaluation_pump (f->evaluation, index);

  if (pump == NULL)
    return;
  add (f, _ ("Flow"), pump->flow_m3s, QUANTITY_FLOW);
  add (f, _ ("head"), pump->head_m, QUANTITY_HEAD);
  add (f, _ ("power"), pump->power_w, QUANTITY_POWER);
  add (f, _ ("water over the suction"), pump->cover_m, QUANTITY_LENGTH);
}

static void
run_figures (Figures *f, int index, const Part *part)
{
  const RunState *run = evaluation_run (f->evaluation, index);

  if (run == NULL)
    return;
  add (f, _ ("Flow"), run->flow_m3s, QUANTITY_FLOW);
  add (f, _ ("velocity"), run->velocity_ms, QUANTITY_VELOCITY);
  add (f, _ ("head lost"), run->loss_m, QUANTITY_HEAD);
  add (f, _ ("length"), run->length_m, QUANTITY_LENGTH);
}

static void
outlet_figures (Figures *f, int index, const Part *part)
{
  const OutletState *outlet = evaluation_outlet (f->evaluation, index);

  if (outlet == NULL)
    return;
  add (f, _ ("Flow"), outlet->flow_m3s, QUANTITY_FLOW);
  add (f, _ ("velocity"), outlet->nozzle_velocity_ms, QUANTITY_VELOCITY);
  add (f, _ ("depth under the surface"), outlet->submerged_m, QUANTITY_LENGTH);
}

static void
reservoir_figures (Figures *f, int index, const Part *part)
{
  add (f, _ ("Holds"), design_number (f->design, part, FIELD_RESERVOIR_VOLUME), QUANTITY_VOLUME);
  add (f, _ ("lasts"), f->evaluation->totals.top_off_days * 86400, QUANTITY_TIME);
}

/* What has no water of its own tells its sizes or its place. */
static const struct {
  FieldId field;
  const char *name;
} plain[] = {{FIELD_STAND_LENGTH, N_ ("Inside length")},    {FIELD_STAND_HEIGHT, N_ ("height")},
             {FIELD_CORNER_X, N_ ("From the left")},        {FIELD_CORNER_Z, N_ ("height")},
             {FIELD_TEE_X, N_ ("From the left")},           {FIELD_TEE_Z, N_ ("height")},
             {FIELD_FITTING_STATION, N_ ("Along the run")}, {FIELD_FITTING_OPENING, N_ ("opening")}};

static void
plain_figures (Figures *f, const Part *part)
{
  for (unsigned i = 0; i < G_N_ELEMENTS (plain); i++)
    if (field_info (plain[i].field)->kind == part_kind (part) &&
        (plain[i].field != FIELD_FITTING_OPENING || part_is_given (part, FIELD_FITTING_OPENING)))
      add (f, _ (plain[i].name), design_number (f->design, part, plain[i].field),
           field_info (plain[i].field)->quantity);
}

/* Which figures a kind of part has; those without a row have only what plain_figures says. */
static const struct {
  PartKind kind;
  void (*fill) (Figures *f, int index, const Part *part);
} fillers[] = {
    {PART_TANK, tank_figures},     {PART_OVERFLOW, overflow_figures},  {PART_DRAIN, drain_figures},
    {PART_SUMP, sump_figures},     {PART_CHAMBER, vessel_figures},     {PART_BAFFLE, baffle_figures},
    {PART_DEVICE, device_figures}, {PART_PUMP, pump_figures},          {PART_RETURN, run_figures},
    {PART_OUTLET, outlet_figures}, {PART_RESERVOIR, reservoir_figures}};

/* Units as a person says them; one that is not here is left to the reader. */
static const char *
spoken_unit (const Unit *unit)
{
  static const struct {
    const char *word, *spoken;
  } names[] = {{"mm", N_ ("millimetres")},
               {"m", N_ ("metres")},
               {"in", N_ ("inches")},
               {"ft", N_ ("feet")},
               {"l", N_ ("litres")},
               {"us_gal", N_ ("gallons")},
               {"l/h", N_ ("litres an hour")},
               {"us_gph", N_ ("gallons an hour")},
               {"m/s", N_ ("metres a second")},
               {"ft/s", N_ ("feet a second")},
               {"w", N_ ("watts")},
               {"percent", N_ ("per cent")},
               {"1/h", N_ ("times an hour")},
               {"d", N_ ("days")},
               {"h", N_ ("hours")}};

  for (unsigned i = 0; i < G_N_ELEMENTS (names); i++)
    if (strcmp (names[i].word, unit->word) == 0)
      return _ (names[i].spoken);
  return NULL;
}

/* A line shall not break within "L/h". */
static char *
unbroken (char *text)
{
  g_auto (GStrv) pieces = g_strsplit (text, "/", -1);

  g_free (text);
  return g_strjoinv ("/\u2060", pieces);
}

static char *
figure_value (const Figure *figure, const NumberStyle *style, gboolean spoken)
{
  const Unit *unit = spoken ? units_unit_for_value (figure->value, figure->quantity, style) : NULL;
  const char *name = unit != NULL ? spoken_unit (unit) : NULL;
  g_autofree char *number = NULL;

  if (name == NULL)
    return unbroken (units_format (figure->value, figure->quantity, style, NULL, UNITS_BUILD));
  number = units_format_number (figure->value, figure->quantity, style, unit, UNITS_BUILD);
  return g_strdup_printf (C_ ("number and unit", "%s %s"), number, name);
}

char *
canvas_figures (const Design *design, const Evaluation *evaluation, const Part *part,
                const NumberStyle *style, gboolean spoken)
{
  Figures f = {.design = design, .evaluation = evaluation};
  GString *text;

  for (unsigned i = 0; evaluation != NULL && i < G_N_ELEMENTS (fillers); i++)
    if (fillers[i].kind == part_kind (part))
      fillers[i].fill (&f, design_index (design, part_key (part)), part);
  plain_figures (&f, part);
  if (f.n == 0)
    return NULL;
  text = g_string_new (NULL);
  for (unsigned i = 0; i < f.n; i++) {
    g_autofree char *value = figure_value (&f.figures[i], style, spoken);

    g_string_append_printf (text, "%s%s" UNITS_SPACE "%s", i > 0 ? ", " : "", f.figures[i].name, value);
  }
  return g_string_free (text, FALSE);
}

char *
canvas_description (const Design *design, const Evaluation *evaluation, const Part *part,
                    const NumberStyle *style)
{
  const Finding *finding = canvas_worst_finding (evaluation, design_index (design, part_key (part)));
  g_autofree char *figures = canvas_figures (design, evaluation, part, style, TRUE);
  g_autofree char *flow = canvas_flow_words (design, part);
  g_autofree char *worst = NULL;
  g_autoptr (GPtrArray) said = g_ptr_array_new ();

  if (finding != NULL)
    worst = g_strdup_printf (C_ ("grade and finding", "%s: %s"), words_grade (finding->grade),
                             finding_title (finding->check));
  for (unsigned i = 0; i < 3; i++) {
    char *sentence = i == 0 ? worst : i == 1 ? figures : flow;

    if (sentence != NULL)
      g_ptr_array_add (said, sentence);
  }
  g_ptr_array_add (said, NULL);
  return g_strjoinv (". ", (char **) said->pdata);
}

char *
canvas_tooltip (const Design *design, const Evaluation *evaluation, const Part *part,
                const NumberStyle *style)
{
  const Finding *finding = canvas_worst_finding (evaluation, design_index (design, part_key (part)));
  g_autofree char *name = words_part (design, part);
  g_autofree char *figures = canvas_figures (design, evaluation, part, style, FALSE);
  GString *text = g_string_new (NULL);
  g_autofree char *head = g_markup_printf_escaped ("<b>%s</b>", name);

  g_string_append (text, head);
  if (figures != NULL) {
    g_autofree char *line = g_markup_printf_escaped ("\n%s", figures);

    g_string_append (text, line);
  }
  if (finding != NULL) {
    g_autofree char *line =
        g_markup_printf_escaped ("\n%s: %s", words_grade (finding->grade), finding_title (finding->check));

    g_string_append (text, line);
  }
  return g_string_free (text, FALSE);
}

char *
canvas_problem (const Problem *problem, const NumberStyle *style)
{
  const char *sentence = _ (problem_text (problem->code));
  const gboolean small = problem->code == PROBLEM_TOO_SMALL, large = problem->code == PROBLEM_TOO_LARGE;
  g_autofree char *limit = NULL;

  if ((!small && !large) || problem->field >= N_FIELDS)
    return g_strdup_printf (_ ("No further: %s."), sentence);
  limit = units_format (small ? field_info (problem->field)->min : field_info (problem->field)->max,
                        field_info (problem->field)->quantity, style, NULL, UNITS_BUILD);
  return g_strdup_printf (_ ("No further: %s (%s)."), sentence, limit);
}
