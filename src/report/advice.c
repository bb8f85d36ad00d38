/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/advice.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "design/choices.h"
#include "design/geometry.h"

/* The bucket of the bucket test. */
#define BUCKET_M3 0.01

static const char *const cautions[] = {
    N_ ("Local codes and the practice of licensed plumbers, electricians and builders come before anything "
        "printed here."),
    N_ ("Have the floor and the stand checked by a licensed person: water weighs about a tonne a cubic "
        "metre, on few feet."),
    N_ ("Electricity: a residual-current device of at most 30 mA (US: ground-fault protection of 4 to 6 mA) "
        "on every circuit, a "
        "drip loop in every cable, sockets above the power-off level and off the splash line. Pull the plugs "
        "before reaching "
        "into the water. A tripped device is a power cut that nobody sees."),
    N_ ("A tempered pane is never drilled. Ask for each pane, the bottom first."),
    N_ ("Glass and acrylic panels, their joints and the silicone are to be dimensioned and made by someone "
        "who does so for a "
        "living; wear gloves and goggles when cutting and drilling."),
    N_ ("Primer and solvent cement are flammable and harmful to breathe: air the room, keep flames away, and "
        "let joints cure "
        "as the maker says before water runs."),
    N_ ("A check valve is never the protection against a flood: no verdict here rests on one."),
    N_ ("Do not raise the pump's speed without setting the drain again."),
    N_ ("Do not scale from the drawings. Take hole sizes from the part in hand."),
    N_ ("Computed figures carry the bands that are printed with them. Fill with fresh water and stay beside "
        "it for the first "
        "day; try each failure with a hand on the plug."),
};

unsigned
advice_n_cautions (void)
{
  return G_N_ELEMENTS (cautions);
}

const char *
advice_caution (unsigned index)
{
  g_assert (index < G_N_ELEMENTS (cautions));
  return _ (cautions[index]);
}

static void
advice_step_free (void *data)
{
  AdviceStep *step = data;

  g_free (step->action);
  g_free (step->predicted);
  g_free (step);
}

static void
add (GPtrArray *list, char *action, char *predicted)
{
  AdviceStep *step = g_new (AdviceStep, 1);

  *step = (AdviceStep){.action = action, .predicted = predicted};
  g_ptr_array_add (list, step);
}

static char *
measured (double value, Quantity quantity, const NumberStyle *style)
{
  return units_format (value, quantity, style, NULL, UNITS_MEASURE);
}

static const Part *
part_of (const Design *design, int index)
{
  return design_part (design, (unsigned) index);
}

/* Height of a level over the zero of a part's own heights. */
static char *
level_over (const Design *design, const Part *part, double z, const NumberStyle *style)
{
  return measured (z - geometry_datum (design, part), QUANTITY_LENGTH, style);
}

/* A step with the part that it is about before it, where there are `several` of them. Takes the step. */
static char *
about (const Design *design, int part, bool several, char *step)
{
  g_autofree char *taken = step, *name = NULL;

  if (!several)
    return g_steal_pointer (&taken);
  name = words_part (design, part_of (design, part));
  /* Translators: the name of a tank's overflow or of a sump's chamber, and a step or setting that is about it. */
  return g_strdup_printf (C_ ("step for a part", "%s: %s"), name, taken);
}

/* The vessel of a chamber in which a pump stands. */
static const VesselState *
pump_chamber (const Evaluation *evaluation, unsigned pump)
{
  return evaluation_vessel (evaluation, evaluation->pumps[pump].chamber, VESSEL_CHAMBER);
}

static void
add_drain_steps (GPtrArray *list, const Design *design, const Evaluation *evaluation,
                 const NumberStyle *style)
{
  for (unsigned i = 0; i < evaluation->n_drains; i++) {
    const DrainState *drain = &evaluation->drains[i];
    g_autofree char *name = words_part (design, part_of (design, drain->part));

    if (drain->role == DRAIN_SIPHON && drain->has_valve)
      add (list,
           g_strdup_printf (_ ("Close the valve of %s slowly until the box stands at its level and the pipe "
                               "is silent; wait "
                               "ten minutes and correct. Opening about:"),
                            name),
           isfinite (drain->valve_opening) ? measured (drain->valve_opening, QUANTITY_RATIO, style)
                                           : g_strdup (UNITS_NO_VALUE));
    if (drain->role == DRAIN_EMERGENCY)
      add (list, g_strdup_printf (_ ("%s is dry and stays dry. Flow in it:"), name), g_strdup (_ ("none")));
  }
}

/* The one failure that no capacity of the tubes covers is tried on the day of filling. */
static void
add_prime_steps (GPtrArray *list, const Design *design, const Evaluation *evaluation,
                 const NumberStyle *style)
{
  for (unsigned i = 0; i < evaluation->n_overflows; i++) {
    const OverflowState *overflow = &evaluation->overflows[i];
    g_autofree char *name = words_part (design, part_of (design, overflow->part));
    double margin_m3 = (double) NAN;

    if (!overflow->hangs_over)
      continue;
    for (unsigned k = 0; k < evaluation->n_tanks; k++)
      if (evaluation->transfers[k].tank == overflow->tank)
        margin_m3 = evaluation->transfers[k].prime_margin_m3;
    add (list,
         g_strdup_printf (
             _ ("Fill the siphon tubes of %s before the first start. Stop and start the pump: they "
                "must go on by themselves. Water over their ends at rest:"),
             name),
         measured (overflow->tube_rest_cover_m, QUANTITY_LENGTH, style));
    add (list,
         g_strdup_printf (
             _ ("Let air into the tubes of %s while the pump runs, a hand on its plug: the pump must "
                "draw air before the display reaches its rim. Room that is left then:"),
             name),
         isfinite (margin_m3) ? measured (margin_m3, QUANTITY_VOLUME, style) : g_strdup (UNITS_NO_VALUE));
  }
}

GPtrArray *
advice_commissioning (const Design *design, const Evaluation *evaluation, const NumberStyle *style)
{
  const Totals *totals = &evaluation->totals;
  GPtrArray *list = g_ptr_array_new_with_free_func (advice_step_free);
  g_autofree char *bucket = measured (BUCKET_M3, QUANTITY_VOLUME, style);

  add (list,
       g_strdup (_ ("All joints cured, unions hand-tight, valves open, plugs out, a towel and a second "
                    "person at hand.")),
       g_strdup (""));
  for (unsigned i = 0; i < evaluation->n_pumps; i++) {
    const VesselState *chamber = pump_chamber (evaluation, i);

    if (chamber == NULL)
      continue;
    add (list,
         g_strdup (_ (
             "Fill with the pump off, no higher than the upper mark. Level over the sump's inside bottom:")),
         level_over (design, part_of (design, chamber->part), chamber->power_off_z, style));
  }
  add (list,
       g_strdup (_ ("Start the pump. Air leaves the drain within a few minutes and the sound dies down.")),
       g_strdup (""));
  add_prime_steps (list, design, evaluation, style);
  add_drain_steps (list, design, evaluation, style);
  for (unsigned i = 0; i < evaluation->n_overflows; i++) {
    const OverflowState *overflow = &evaluation->overflows[i];
    const Part *part = part_of (design, overflow->part);
    const bool several = evaluation->n_overflows > 1;

    add (list, about (design, overflow->part, several, g_strdup (_ ("Level of the display over the crest:"))),
         measured (overflow->head_m, QUANTITY_LENGTH, style));
    add (list,
         about (design, overflow->part, several, g_strdup (_ ("Level of the overflow box under the crest:"))),
         measured (geometry_crest (design, part) - overflow->box_z, QUANTITY_LENGTH, style));
  }
  add (list,
       g_strdup_printf (
           _ ("Bucket test at the outlets: seconds to fill %s from all of them together, or of each in turn "
              "(flow an hour = 3600 s / seconds x volume):"),
           bucket),
       totals->flow_m3s > 0 ? g_strdup_printf ("%.1f" UNITS_SPACE "s", BUCKET_M3 / totals->flow_m3s)
                            : g_strdup (UNITS_NO_VALUE));
  add (list,
       g_strdup (
           _ ("Power off: pull the plug of the pump and wait until nothing moves. Water that ran back:")),
       measured (evaluation->drain_back.total_m3, QUANTITY_VOLUME, style));
  add (list, g_strdup (_ ("Least freeboard of the sump then:")),
       measured (evaluation->drain_back.freeboard_m, QUANTITY_LENGTH, style));
  add (list,
       g_strdup (_ ("Power on again: the drain answers before the pump draws air, three times in a row.")),
       g_strdup (""));
  add (list,
       g_strdup (_ (
           "Flood test: shut every drain but the emergency and watch, hand on the plug. Margin to the rim:")),
       measured (totals->flood_margin_m, QUANTITY_LENGTH, style));
  add (list, g_strdup (_ ("Cover the siphon break with a wet finger, power off. The sump does not spill.")),
       g_strdup (""));
  return list;
}

GPtrArray *
advice_settings (const Design *design, const Evaluation *evaluation, const NumberStyle *style)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (advice_step_free);

  for (unsigned i = 0; i < evaluation->n_pumps; i++) {
    const PumpState *pump = &evaluation->pumps[i];
    const VesselState *chamber = pump_chamber (evaluation, i);
    g_autofree char *name = words_part (design, part_of (design, pump->part));

    add (list, g_strdup_printf (_ ("Speed of %s (do not raise it without setting the drain again)"), name),
         measured (pump->speed, QUANTITY_RATIO, style));
    if (chamber == NULL)
      continue;
    add (list, g_strdup (_ ("Upper mark on the sump: fill no higher with the pump off")),
         level_over (design, part_of (design, chamber->part), chamber->power_off_z, style));
    add (list, g_strdup (_ ("Lower mark on the sump: never below while running")),
         level_over (design, part_of (design, chamber->part), chamber->running_z, style));
  }
  for (unsigned i = 0; i < evaluation->n_drains; i++) {
    const DrainState *drain = &evaluation->drains[i];
    g_autofree char *name = words_part (design, part_of (design, drain->part));

    if (drain->role == DRAIN_SIPHON && drain->has_valve)
      add (list,
           g_strdup_printf (_ ("Valve of %s: starts about half open, then set for the box level"), name),
           isfinite (drain->valve_opening) ? measured (drain->valve_opening, QUANTITY_RATIO, style)
                                           : g_strdup (UNITS_NO_VALUE));
  }
  for (unsigned i = 0; i < evaluation->n_overflows; i++)
    add (list,
         about (design, evaluation->overflows[i].part, evaluation->n_overflows > 1,
                g_strdup (_ ("Level of the overflow box above the tank's underside"))),
         level_over (design, part_of (design, evaluation->overflows[i].part),
                     evaluation->overflows[i].wanted_box_z, style));
  return list;
}
