/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/rehearsal-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "report/words.h"

/* Nobody would call it a time. */
#define AT_ONCE_S 0.1

static const struct {
  const char *name, *meaning;
} failures[N_FAILURES] = {
    [FAILURE_POWER_CUT] = {N_ ("Power cut"), N_ ("The power fails and stays away.")},
    [FAILURE_POWER_RETURNS] = {N_ ("Power returns"),
                               N_ ("The power fails and comes back when all has run down.")},
    [FAILURE_POWER_RETURNS_UNPRIMED] = {N_ ("Power returns, siphon stays out"),
                                        N_ ("The power comes back, and the siphon does not start again.")},
    [FAILURE_DRAIN_CLOGS] = {N_ ("Main drain clogs"),
                             N_ ("The drain that carries most is blocked little by little.")},
    [FAILURE_DRAIN_BLOCKED] = {N_ ("Main drain blocked"),
                               N_ ("The drain that carries most is blocked at once.")},
    [FAILURE_OVERFLOW_HALF] = {N_ ("Overflow half covered"),
                               N_ ("Half of the crest that carries most is covered.")},
    [FAILURE_OVERFLOW_COVERED] = {N_ ("Overflow covered"),
                                  N_ ("The crest that carries most is covered from end to end.")},
    [FAILURE_SIPHON_FAILS] = {N_ ("Siphon fails"), N_ ("The siphon draws air and does not run full again.")},
    [FAILURE_SIPHON_AND_TRICKLE] = {N_ ("Siphon fails, trickle channel blocked"),
                                    N_ ("The siphon draws air while the trickle channel is blocked.")},
    [FAILURE_TUBES_LOST] = {N_ ("Siphon box loses its prime"),
                            N_ ("Air fills the tubes of the siphon box that hangs over the rim.")},
    [FAILURE_BREAK_PLUGGED] = {N_ ("Siphon break plugged"),
                               N_ ("The power fails while no siphon break lets air in.")},
    [FAILURE_CHECK_STUCK] = {N_ ("Check valve stuck open"),
                             N_ ("The power fails while the check valve does not close.")},
    [FAILURE_TOP_OFF_STUCK] = {N_ ("Top-off stuck on"), N_ ("The top-off runs on whatever its float says.")},
    [FAILURE_TOP_OFF_POWER_CUT] =
        {N_ ("Top-off stuck on, then a power cut"),
         N_ ("The top-off runs on until its reservoir is empty; then the power fails.")},
    [FAILURE_RESERVOIR_SIPHONS] = {N_ ("Reservoir runs on as a siphon"),
                                   N_ ("The full reservoir runs out through the tube of its top-off.")},
    [FAILURE_RESERVOIR_EMPTY] = {N_ ("Reservoir empty for days"),
                                 N_ ("Water evaporates fast, and nobody tops it up.")},
    [FAILURE_BRANCH_SHUT] = {N_ ("Branch of the manifold shut"),
                             N_ ("The branch that carries most is shut while the pump runs.")},
    [FAILURE_FULL_SPEED] = {N_ ("Pump at full speed"), N_ ("Somebody turns the pump to full speed.")},
    [FAILURE_SOCK_CLOGGED] =
        {N_ ("Filter sock clogged"),
         N_ ("The socks let nothing through; water leaves over the lip of their holder.")},
    [FAILURE_OUTLET_LOWERED] = {N_ ("Return outlet lowered"),
                                N_ ("A careless hand lowers the return outlets; then the power fails.")},
};

static const char *const reasons[N_FAILURE_REASONS] = {
    [FAILURE_APPLIES] = "",
    [FAILURE_NO_STEADY_STATE] = N_ ("This design does not run: no water reaches the display."),
    [FAILURE_PLAIN_CREST] = N_ ("A plain crest stays open above whatever lies on it."),
    [FAILURE_NO_SIPHON] = N_ ("No drain runs as a siphon."),
    [FAILURE_NO_TRICKLE] = N_ ("There is no trickle channel."),
    [FAILURE_NO_TUBES] = N_ ("No siphon box hangs over a rim."),
    [FAILURE_NO_BREAK] = N_ ("No outlet under water has a siphon break."),
    [FAILURE_NO_CHECK_VALVE] = N_ ("There is no check valve."),
    [FAILURE_NO_RESERVOIR] = N_ ("There is no top-off reservoir."),
    [FAILURE_TUBE_OPEN] = N_ ("The top-off tube ends above the full reservoir or lets air in."),
    [FAILURE_NO_BRANCH] = N_ ("The return has a single outlet."),
    [FAILURE_FULL_SPEED_ALREADY] = N_ ("Every pump runs at full speed already."),
    [FAILURE_NO_SOCK] = N_ ("There is no filter sock."),
    [FAILURE_NO_OUTLET_BELOW] = N_ ("Lowered so far, no outlet reaches the water."),
};

static const char *const events[N_REHEARSAL_EVENTS] = {
    [REHEARSAL_POWER_OFF] = N_ ("The power fails."),
    [REHEARSAL_PUMP_RESTS] = N_ ("{part} has run down and stands still."),
    [REHEARSAL_POWER_ON] = N_ ("The power is back."),
    [REHEARSAL_PIPE_FULL] = N_ ("The pipe of {part} is full; water reaches the outlets."),
    [REHEARSAL_OUTLET_AIR] = N_ ("{part} draws air; nothing more siphons back through it."),
    [REHEARSAL_OUTLET_UNCOVERED] = N_ ("{part} comes out of the water."),
    [REHEARSAL_PIPE_EMPTY] = N_ ("The pipe of {part} has run empty."),
    [REHEARSAL_PRIMED] = N_ ("{part} runs full."),
    [REHEARSAL_PRIME_LOST] = N_ ("{part} draws air and runs full no more."),
    [REHEARSAL_LIP_REACHED] = N_ ("Water reaches the lip of {part}."),
    [REHEARSAL_LIP_DRY] = N_ ("{part} runs dry."),
    [REHEARSAL_CREST_DROWNED] = N_ ("The box of {part} stands over its crest."),
    [REHEARSAL_CREST_DRY] = N_ ("Nothing more runs over the crest of {part}."),
    [REHEARSAL_BAFFLE_OVERTOPPED] = N_ ("Water runs over {part}."),
    [REHEARSAL_PUMP_DRY] = N_ ("{part} draws air."),
    [REHEARSAL_PUMP_WET] = N_ ("{part} is covered again."),
    [REHEARSAL_SPILL_BEGINS] = N_ ("Water runs over the rim of {part} onto the floor."),
    [REHEARSAL_SPILL_ENDS] = N_ ("Nothing more runs over the rim of {part}."),
    [REHEARSAL_TOP_OFF_STARTS] = N_ ("The float switches the top-off on."),
    [REHEARSAL_TOP_OFF_STOPS] = N_ ("The float switches the top-off off."),
    [REHEARSAL_TOP_OFF_CUT_OUT] = N_ ("The cut-out stops the top-off."),
    [REHEARSAL_RESERVOIR_EMPTY] = N_ ("The reservoir is empty."),
    [REHEARSAL_BLOCKED] = N_ ("The way is blocked as far as it goes."),
    [REHEARSAL_AT_REST] = N_ ("Everything is at rest."),
};

static const char *const findings[N_REHEARSAL_CHECKS] = {
    [REHEARSED_SPILLS] = N_ ("{value} run over the rim of {part} onto the floor, the first after {time}."),
    [REHEARSED_SPILLS_FAST] =
        N_ ("With the pumps at the top of their tolerance {value} run over the rim of {part} "
            "onto the floor, the first after {time}."),
    [REHEARSED_CHECK_HOLDS] = N_ (
        "The floor stays dry only while the check valve in {part} closes: stuck open, {value} run onto it."),
    [REHEARSED_FREEBOARD] =
        N_ ("The water in {part} rises to {value} below the rim after {time}; {limit} is the "
            "least that should be left."),
    [REHEARSED_PUMP_DRY] = N_ ("{part} draws air after {time}."),
    [REHEARSED_UNATTENDED] = N_ ("Somebody must be there within {time}."),
    [REHEARSED_NO_REST] = N_ ("After {time} the water is still moving."),
};

/* The same where it is so from the first moment; NULL where the sentence names no time. */
static const char *const findings_at_once[N_REHEARSAL_CHECKS] = {
    [REHEARSED_SPILLS] = N_ ("{value} run over the rim of {part} onto the floor, from the beginning."),
    [REHEARSED_SPILLS_FAST] =
        N_ ("With the pumps at the top of their tolerance {value} run over the rim of {part} "
            "onto the floor, from the beginning."),
    [REHEARSED_FREEBOARD] =
        N_ ("The water in {part} stands {value} below the rim at the beginning; {limit} is the "
            "least that should be left."),
    [REHEARSED_PUMP_DRY] = N_ ("{part} draws air from the beginning."),
    [REHEARSED_UNATTENDED] = N_ ("Somebody must be there from the beginning."),
};

const char *
rehearsal_failure_name (FailureId failure)
{
  return failure < N_FAILURES ? _ (failures[failure].name) : "";
}

const char *
rehearsal_failure_meaning (FailureId failure)
{
  return failure < N_FAILURES ? _ (failures[failure].meaning) : "";
}

const char *
rehearsal_reason_sentence (FailureReason reason)
{
  return reason > FAILURE_APPLIES && reason < N_FAILURE_REASONS ? _ (reasons[reason]) : "";
}

char *
rehearsal_name (const FailureId *together, unsigned n)
{
  if (n == 2)
    /* Translators: two failures at the same time. */
    return words_fill (_ ("{first} + {second}"), "first", rehearsal_failure_name (together[0]), "second",
                       rehearsal_failure_name (together[1]), NULL);
  return g_strdup (n > 0 ? rehearsal_failure_name (together[0]) : "");
}

static char *
part_words (const Design *design, int part)
{
  return words_part (design, part >= 0 ? design_part (design, (unsigned) part) : NULL);
}

char *
rehearsal_event_sentence (const Design *design, const RehearsalEvent *event)
{
  g_autofree char *part = part_words (design, event->part);

  return words_fill (_ (events[event->kind]), "part", part, NULL);
}

char *
rehearsal_finding_sentence (const Design *design, const RehearsalFinding *finding, const NumberStyle *style)
{
  const Quantity quantity = rehearsal_check_quantity (finding->check);
  const char *sentence = findings[finding->check];
  g_autofree char *part = part_words (design, finding->part);
  g_autofree char *value = units_format (finding->value, quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *limit = units_format (finding->limit, quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *time = units_format (finding->time_s, QUANTITY_TIME, style, NULL, UNITS_MEASURE);

  if (!(finding->time_s >= AT_ONCE_S) && findings_at_once[finding->check] != NULL)
    sentence = findings_at_once[finding->check];
  return words_fill (_ (sentence), "part", part, "value", value, "limit", limit, "time", time, NULL);
}

char *
rehearsal_remedy_sentence (const Design *design, const RehearsalRemedy *remedy, const NumberStyle *style)
{
  const FieldInfo *info = field_info (remedy->field);
  g_autofree char *part = part_words (design, remedy->part);
  g_autofree char *value = units_format (remedy->value, info->quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *change = units_format (fabs (remedy->change), info->quantity, style, NULL, UNITS_MEASURE);
  g_autofree char *volume = units_format (remedy->sump_m3, QUANTITY_VOLUME, style, NULL, UNITS_MEASURE);
  const char *sentence;

  switch ((int) remedy->field) {
  case FIELD_OUTLET_BREAK:
    sentence = _ ("Give {part} a siphon break.");
    break;
  case FIELD_OUTLET_BREAK_HEIGHT:
    sentence = _ ("Raise the siphon break of {part} by {change}.");
    break;
  case FIELD_CHAMBER_LEVEL:
    sentence = _ ("Lower the running level of {part} by {change}, to {value}.");
    break;
  case FIELD_PUMP_SPEED:
    sentence = _ ("Slow {part} down to {value}.");
    break;
  case FIELD_SUMP_HEIGHT:
    sentence = _ ("Add {volume} of sump: make {part} {change} higher.");
    break;
  default:
    sentence = _ ("Set {part} to {value}.");
    break;
  }
  return words_fill (sentence, "part", part, "value", value, "change", change, "volume", volume, NULL);
}
