/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Each check fires on a design made for it, with its grade, and not on the sound one. */
#include "design/catalogue.h"
#include "tests/solver/fixture.h"

#include <math.h>
#include <string.h>

typedef struct {
  const char *key;
  FieldId field;
  double value;
} Setting;

typedef struct {
  CheckId check;
  Grade grade;
  Setting settings[5];
} Case;

static const Case cases[] = {
    {CHECK_DRAIN_OVERRUN,
     GRADE_STOP,
     {{"siphon", FIELD_DRAIN_PLUG, 1},
      {"emergency", FIELD_DRAIN_PLUG, 1},
      {"return-pump", FIELD_PUMP_SPEED, 1},
      {"trickle", FIELD_DRAIN_PLUG, 0.5}}},
    {CHECK_DRAIN_FULL_SPEED,
     GRADE_CAUTION,
     {{"trickle", FIELD_DRAIN_PLUG, 1},
      {"emergency", FIELD_DRAIN_PLUG, 1},
      {"siphon", FIELD_DRAIN_MOUTH, 0.39}}},
    {CHECK_DRAIN_SHORT, GRADE_CAUTION, {{"siphon", FIELD_DRAIN_PLUG, 1}}},
    {CHECK_DRAIN_NOISE, GRADE_NOTE, {{"siphon", FIELD_DRAIN_PLUG, 1}}},
    {CHECK_SIPHON_GULPS, GRADE_CAUTION, {{"siphon", FIELD_DRAIN_MOUTH, 0.50}}},
    {CHECK_SIPHON_START,
     GRADE_CAUTION,
     {{"siphon", FIELD_DRAIN_END, 0.01}, {"siphon", FIELD_DRAIN_MOUTH, 0.49}}},
    {CHECK_SIPHON_AIR, GRADE_NOTE, {{"siphon", FIELD_DRAIN_MOUTH, 0.45}}},
    {CHECK_SIPHON_PRIMING, GRADE_CAUTION, {{"siphon", FIELD_DRAIN_MOUTH, 0.543}}},
    {CHECK_SIPHON_DRIFT, GRADE_NOTE, {{"trickle", FIELD_DRAIN_ROLE, DRAIN_EMERGENCY}}},
    {CHECK_SIPHON_END, GRADE_NOTE, {{"siphon", FIELD_DRAIN_END, 0.30}}},
    {CHECK_SIPHON_SUCTION,
     GRADE_CAUTION,
     {{"siphon-valve", FIELD_FITTING_STATION, 0},
      {"return-pump", FIELD_PUMP_SPEED, 1},
      {"siphon", FIELD_DRAIN_MOUTH, 0.505},
      {"trickle", FIELD_DRAIN_PLUG, 1},
      {"emergency", FIELD_DRAIN_PLUG, 1}}},
    {CHECK_DRAIN_FLOOR, GRADE_CAUTION, {{"trickle", FIELD_DRAIN_END, 0.01}}},
    {CHECK_EMERGENCY_END, GRADE_CAUTION, {{"emergency", FIELD_DRAIN_END, 0.2}}},
    {CHECK_EMERGENCY_WET,
     GRADE_CAUTION,
     {{"siphon", FIELD_DRAIN_PLUG, 1}, {"trickle", FIELD_DRAIN_PLUG, 0.9}}},
    {CHECK_FLOOD_FAILED, GRADE_STOP, {{"emergency", FIELD_DRAIN_PLUG, 0.95}}},
    {CHECK_FLOOD_FREEBOARD, GRADE_CAUTION, {{"overflow", FIELD_OVERFLOW_BOX_RIM, 0.564}}},
    {CHECK_NO_EMERGENCY, GRADE_NOTE, {{"emergency", FIELD_DRAIN_ROLE, DRAIN_TRICKLE}}},
    {CHECK_EMERGENCY_RUNS_DRY,
     GRADE_STOP,
     {{"pumping", FIELD_CHAMBER_LEVEL, 0.078}, {"under", FIELD_BAFFLE_GAP, 0.03}}},
    {CHECK_TRANSFER_FAILED,
     GRADE_STOP,
     {{"under", FIELD_BAFFLE_X, 0.72},
      {"pumping", FIELD_CHAMBER_LEVEL, 0.21},
      {"overflow", FIELD_OVERFLOW_CREST, 0.575}}},
    {CHECK_TRANSFER_RESERVOIR, GRADE_CAUTION, {{"reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_NONE}}},
    {CHECK_HEIGHTS_ORDER, GRADE_STOP, {{"emergency", FIELD_DRAIN_MOUTH, 0.55}}},
    {CHECK_HEIGHTS_GAP, GRADE_NOTE, {{"emergency", FIELD_DRAIN_MOUTH, 0.54}}},
    {CHECK_DISPLAY_OVER_RIM,
     GRADE_STOP,
     {{"overflow", FIELD_OVERFLOW_CREST, 0.598}, {"overflow", FIELD_OVERFLOW_LENGTH, 0.1}}},
    {CHECK_DISPLAY_FREEBOARD, GRADE_CAUTION, {{"overflow", FIELD_OVERFLOW_CREST, 0.575}}},
    {CHECK_DISPLAY_FULL_SPEED,
     GRADE_CAUTION,
     {{"overflow", FIELD_OVERFLOW_CREST, 0.584}, {"return-pump", FIELD_PUMP_SPEED, 0.7}}},
    {CHECK_BOX_OVER_RIM,
     GRADE_STOP,
     {{"siphon", FIELD_DRAIN_PLUG, 1},
      {"emergency", FIELD_DRAIN_PLUG, 1},
      {"trickle", FIELD_DRAIN_PLUG, 0.8}}},
    {CHECK_WEIR_DROWNED,
     GRADE_CAUTION,
     {{"siphon", FIELD_DRAIN_PLUG, 1}, {"emergency", FIELD_DRAIN_PLUG, 1}}},
    {CHECK_WEIR_LOADING, GRADE_NOTE, {{"overflow", FIELD_OVERFLOW_LENGTH, 0.1}}},
    {CHECK_COMB_CHOKES,
     GRADE_CAUTION,
     {{"overflow", FIELD_OVERFLOW_WEIR, WEIR_TOOTHED},
      {"overflow", FIELD_OVERFLOW_CLOSED, 1},
      {"overflow", FIELD_OVERFLOW_TOOTH_HEIGHT, 0.008}}},
    {CHECK_SUMP_OVER_RIM, GRADE_STOP, {{"over", FIELD_BAFFLE_HEIGHT, 0.41}}},
    {CHECK_DRAIN_BACK_FLOODS,
     GRADE_STOP,
     {{"outlet", FIELD_OUTLET_BREAK, 0}, {"outlet", FIELD_OUTLET_HEIGHT, 0.3}}},
    {CHECK_DRAIN_BACK_FREEBOARD, GRADE_CAUTION, {{"sump", FIELD_SUMP_LIP, 0.2}}},
    {CHECK_DRAIN_BACK_PLUGGED, GRADE_CAUTION, {{"outlet", FIELD_OUTLET_HEIGHT, 0.3}}},
    {CHECK_SUMP_STAND, GRADE_STOP, {{"stand", FIELD_STAND_LENGTH, 1.0}}},
    {CHECK_SUMP_DOOR, GRADE_STOP, {{"stand", FIELD_STAND_DOOR_WIDTH, 0.8}}},
    {CHECK_SUMP_ROOM, GRADE_CAUTION, {{"stand", FIELD_STAND_HEIGHT, 0.5}}},
    {CHECK_SOCK_FLOW,
     GRADE_CAUTION,
     {{"inlet", FIELD_CHAMBER_SOCKS, 1}, {"inlet", FIELD_CHAMBER_SOCK_FLOW, 0.0002}}},
    {CHECK_SOCK_CLOGGED,
     GRADE_STOP,
     {{"inlet", FIELD_CHAMBER_SOCKS, 1}, {"inlet", FIELD_CHAMBER_BYPASS, 0.41}}},
    {CHECK_SOCK_BACKS_UP,
     GRADE_STOP,
     {{"inlet", FIELD_CHAMBER_SOCKS, 1},
      {"sump", FIELD_SUMP_HEIGHT, 1.75},
      {"inlet", FIELD_CHAMBER_BYPASS, 1.31}}},
    {CHECK_CHAMBER_VELOCITY, GRADE_NOTE, {{"under", FIELD_BAFFLE_X, 0.717}}},
    {CHECK_BAFFLE_LEVEL, GRADE_CAUTION, {{"under", FIELD_BAFFLE_GAP, 0.002}}},
    {CHECK_TURNOVER_LOW, GRADE_CAUTION, {{"return-pump", FIELD_PUMP_SPEED, 0.72}}},
    {CHECK_TURNOVER_HIGH, GRADE_NOTE, {{"return-pump", FIELD_PUMP_SPEED, 1}}},
    {CHECK_PUMP_TOO_WEAK, GRADE_STOP, {{"return-pump", FIELD_PUMP_SPEED, 0.5}}},
    {CHECK_PUMP_START, GRADE_STOP, {{"corner-1", FIELD_CORNER_Z, 2.2}}},
    {CHECK_RETURN_VELOCITY, GRADE_NOTE, {{"return-pump", FIELD_PUMP_SPEED, 1}}},
    {CHECK_NOZZLE_VELOCITY, GRADE_NOTE, {{"outlet", FIELD_OUTLET_BORE, 0.05}}},
    {CHECK_SUCTION_VELOCITY,
     GRADE_CAUTION,
     {{"return-pump", FIELD_PUMP_PLACING, PUMP_OUTSIDE}, {"return-pump", FIELD_PUMP_SUCTION_BORE, 0.02}}},
    {CHECK_SUCTION_COVER, GRADE_CAUTION, {{"pumping", FIELD_CHAMBER_LEVEL, 0.09}}},
    {CHECK_NPSH,
     GRADE_CAUTION,
     {{"return-pump", FIELD_PUMP_PLACING, PUMP_OUTSIDE}, {"return-pump", FIELD_PUMP_SUCTION, 0.2}}},
    {CHECK_NPSH_MARGIN,
     GRADE_CAUTION,
     {{"return-pump", FIELD_PUMP_PLACING, PUMP_OUTSIDE}, {"return-pump", FIELD_PUMP_NPSH, 9.6}}},
    {CHECK_NO_BREAK, GRADE_CAUTION, {{"outlet", FIELD_OUTLET_BREAK, 0}}},
    {CHECK_BREAK_SUCTION, GRADE_CAUTION, {{"outlet", FIELD_OUTLET_BREAK_HEIGHT, 1.2}}},
    {CHECK_BREAK_LOW, GRADE_NOTE, {{"outlet", FIELD_OUTLET_BREAK_HEIGHT, 0.52}}},
    {CHECK_OUTLET_SPLASH, GRADE_NOTE, {{"outlet", FIELD_OUTLET_HEIGHT, 0.58}}},
    {CHECK_DEVICE_DEPTH, GRADE_CAUTION, {{"skimmer", FIELD_DEVICE_STANDS, 0.05}}},
    {CHECK_DEVICE_DRY, GRADE_STOP, {{"heater", FIELD_DEVICE_STANDS, 0.1}}},
    {CHECK_DEVICE_ROOM, GRADE_CAUTION, {{"skimmer", FIELD_DEVICE_ROOM, 0.5}}},
    {CHECK_DEVICE_FIT, GRADE_CAUTION, {{"skimmer", FIELD_DEVICE_LENGTH, 0.9}}},
    {CHECK_TOP_OFF_SHORT, GRADE_CAUTION, {{"reservoir", FIELD_RESERVOIR_VOLUME, 0.01}}},
    {CHECK_RESERVE_SHORT, GRADE_CAUTION, {{"room", FIELD_ROOM_EVAPORATION, 0.05}}},
    {CHECK_TOP_OFF_FLOODS,
     GRADE_STOP,
     {{"reservoir", FIELD_RESERVOIR_VOLUME, 0.2}, {"reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_NONE}}},
    {CHECK_TOP_OFF_POWER_CUT,
     GRADE_CAUTION,
     {{"reservoir", FIELD_RESERVOIR_VOLUME, 0.075}, {"reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_NONE}}},
    {CHECK_TOP_OFF_FLOODS,
     GRADE_STOP,
     {{"reservoir", FIELD_RESERVOIR_VOLUME, 0.2},
      {"reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_HIGH_LEVEL}}},
    {CHECK_TOP_OFF_DILUTES, GRADE_NOTE, {{"reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_NONE}}},
    {CHECK_TOP_OFF_SIPHON, GRADE_CAUTION, {{"reservoir", FIELD_RESERVOIR_TUBE_END, 0.1}}},
    {CHECK_TOP_OFF_RUNS_ON, GRADE_CAUTION, {{"reservoir", FIELD_RESERVOIR_TUBE_END, 0.35}}},
    {CHECK_CIRCUIT_LOAD, GRADE_CAUTION, {{"room", FIELD_ROOM_CIRCUIT, 300}}},
    {CHECK_SOCKET_HEIGHT, GRADE_CAUTION, {{"stand", FIELD_STAND_SOCKET_HEIGHT, 0.1}}},
    {CHECK_PANE_TEMPERED, GRADE_STOP, {{"display", FIELD_TANK_BOTTOM_PANE, PANE_TEMPERED}}},
    {CHECK_PANE_ASK, GRADE_NOTE, {{"display", FIELD_TANK_BOTTOM_PANE, PANE_UNKNOWN}}},
    {CHECK_SIPHON_RANGE, GRADE_NOTE, {{"return-pump", FIELD_PUMP_SPEED, 0.75}}},
};

static Draft *
draft_of_case (const Case *test)
{
  Draft *draft = fixture_draft ();

  for (unsigned i = 0; i < G_N_ELEMENTS (test->settings) && test->settings[i].key != NULL; i++)
    must_set (draft, test->settings[i].key, test->settings[i].field, test->settings[i].value);
  return draft;
}

static const Finding *
worst_of (const Evaluation *evaluation, CheckId check)
{
  return evaluation_finding (evaluation, check); /* stops come first */
}

static void
test_each_check_fires (void)
{
  for (unsigned i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (Evaluation) evaluation = fixture_evaluate (draft_of_case (&cases[i]));
    const Finding *finding = worst_of (evaluation, cases[i].check);

    if (finding == NULL) {
      fixture_show (evaluation);
      g_printerr ("%s does not fire\n", check_word (cases[i].check));
      g_test_fail ();
      continue;
    }
    if (finding->grade != cases[i].grade) {
      g_printerr ("%s: %s\n", check_word (cases[i].check), grade_word (finding->grade));
      g_test_fail ();
    }
    g_assert_cmpfloat (finding->margin, <=, 1e-9);
    g_assert_cmpint (finding->quantity, ==, check_quantity (finding->check));
  }
}

/* Good, with a pump that was measured: nothing to stop it and nothing to be careful of; only remarks. */
static void
test_sound_design_is_sound (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) evaluation = NULL;

  must_set (draft, "return-pump", FIELD_PUMP_TOLERANCE, 0.05);
  evaluation = fixture_evaluate (draft);
  fixture_show (evaluation);
  g_assert_true (evaluation_is_sound (evaluation));
  g_assert_cmpuint (evaluation_count (evaluation, GRADE_CAUTION), ==, 0);
  g_assert_cmpint (evaluation->status, ==, EVALUATION_OK);
}

/* Every check has a case of its own here, or the reason why not. */
static void
test_every_check_has_a_case (void)
{
  static const CheckId elsewhere[] = {
      CHECK_SIPHON_NO_VALVE,   /* needs a fitting taken away: below */
      CHECK_PUMP_BEYOND_CURVE, /* needs another curve: below */
      CHECK_PUMP_ESTIMATE,     /* as above: test-brinks.c */
      CHECK_CHECK_VALVE,       /* needs a fitting: test-budget.c */
      CHECK_TOP_OFF_NONE,      /* needs the reservoir taken away: below */
      CHECK_FLOOD_PRIMED_ONLY, /* needs another pipe size: below */
      CHECK_FLOOD_FULL_SPEED,  /* as above */
      CHECK_DISPLAY_STARVED,   /* needs a branch: test-feeds.c */
      CHECK_DEVICE_FLOW_LOW,   /* needs a branch: test-feeds.c */
      CHECK_DEVICE_FLOW_HIGH,  /* as above */
      CHECK_PRIME_LOST,        /* of a hang-over siphon box: test-hang-over.c */
      CHECK_TUBE_AIR,          CHECK_TUBES_SHORT,
      CHECK_SEAL_LOW,          CHECK_NOT_SOLVED /* no well-formed design is known for it */
  };

  for (CheckId check = 0; check < N_CHECKS; check++) {
    bool found = false;

    for (unsigned i = 0; i < G_N_ELEMENTS (cases); i++)
      found = found || cases[i].check == check;
    for (unsigned i = 0; i < G_N_ELEMENTS (elsewhere); i++)
      found = found || elsewhere[i] == check;
    if (!found)
      g_error ("%s", check_word (check));
  }
}

static void
remove_part (Draft *draft, const char *key)
{
  Problem problem;

  g_assert_true (draft_remove (draft, key, &problem));
}

static void
test_checks_of_missing_parts (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) no_valve = NULL, no_reservoir = NULL, short_curve = NULL, thin = NULL, fast = NULL;

  remove_part (draft, "siphon-valve");
  no_valve = fixture_evaluate (draft);
  g_assert_nonnull (evaluation_finding (no_valve, CHECK_SIPHON_NO_VALVE));

  draft = fixture_draft ();
  remove_part (draft, "reservoir");
  no_reservoir = fixture_evaluate (draft);
  g_assert_nonnull (evaluation_finding (no_reservoir, CHECK_TOP_OFF_NONE));
  g_assert_true (isnan (no_reservoir->totals.top_off_days));

  draft = fixture_draft ();
  must_set_text (draft, "return-pump", FIELD_PUMP_CURVE, "0:3.2 0.0002:3 0.0004:2.8");
  short_curve = fixture_evaluate (draft);
  g_assert_nonnull (evaluation_finding (short_curve, CHECK_PUMP_BEYOND_CURVE));

  /* An emergency drain of 1": over its lip too little, full enough. */
  draft = fixture_draft ();
  must_set_text (draft, "emergency", FIELD_DRAIN_SIZE, "sch40-1");
  must_set (draft, "emergency", FIELD_DRAIN_MOUTH, 0.535);
  thin = fixture_evaluate (draft);
  fixture_show (thin);
  g_assert_nonnull (evaluation_finding (thin, CHECK_FLOOD_PRIMED_ONLY));
  g_assert_null (evaluation_finding (thin, CHECK_FLOOD_FAILED));

  draft = fixture_draft ();
  must_set_text (draft, "emergency", FIELD_DRAIN_SIZE, "sch40-3/4");
  must_set (draft, "emergency", FIELD_DRAIN_MOUTH, 0.535);
  must_set (draft, "emergency", FIELD_DRAIN_END, 0.40);
  must_set (draft, "return-pump", FIELD_PUMP_SPEED, 0.74);
  fast = fixture_evaluate (draft);
  fixture_show (fast);
  g_assert_nonnull (evaluation_finding (fast, CHECK_FLOOD_FULL_SPEED));
}

/* A switch in the display stops what is pumped into it, but never sees a sump that a stuck top-off fills. */
static void
test_cut_outs (void)
{
  static const struct {
    int cut_out;
    bool transfer, floods, dilutes;
  } rows[] = {{CUT_OUT_NONE, true, true, true},
              {CUT_OUT_HIGH_LEVEL, false, true, true},
              {CUT_OUT_RUN_TIME, false, false, false}};

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;

    must_set (draft, "reservoir", FIELD_RESERVOIR_VOLUME, 0.2);
    must_set (draft, "reservoir", FIELD_RESERVOIR_CUT_OUT, rows[i].cut_out);
    evaluation = fixture_evaluate (draft);
    g_assert_cmpint (evaluation_finding (evaluation, CHECK_TRANSFER_RESERVOIR) != NULL, ==, rows[i].transfer);
    g_assert_cmpint (evaluation_finding (evaluation, CHECK_TOP_OFF_FLOODS) != NULL, ==, rows[i].floods);
    g_assert_cmpint (evaluation_finding (evaluation, CHECK_TOP_OFF_DILUTES) != NULL, ==, rows[i].dilutes);
  }
}

/* A display over its rim by the head on its crest is not the drain's fault, and the drain is not blamed. */
static void
test_display_alone_over_its_rim (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) evaluation = NULL;

  must_set (draft, "display", FIELD_TANK_RIM, 0.549);
  evaluation = fixture_evaluate (draft);
  g_assert_nonnull (evaluation_finding (evaluation, CHECK_DISPLAY_OVER_RIM));
  g_assert_null (evaluation_finding (evaluation, CHECK_DRAIN_OVERRUN));
  g_assert_false (evaluation_is_sound (evaluation));
}

/* Under a comb that is covered from end to end the box runs empty into the sump, and that water is lifted as well; a plain
 * crest cannot be covered so, and there the box takes its share of what is lifted. */
static void
test_transfer_under_a_comb (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) plain = fixture_evaluate (fixture_draft ());
  g_autoptr (Evaluation) comb = NULL;
  const OverflowState *overflow;
  const Transfer *transfer;
  double box_m3;

  must_set (draft, "overflow", FIELD_OVERFLOW_WEIR, WEIR_TOOTHED);
  comb = fixture_evaluate (draft);
  overflow = &comb->overflows[0];
  transfer = &comb->transfers[0];
  box_m3 = 0.5 * 0.12 * (overflow->box_z - comb->drains[0].mouth_z); /* the fixture's box, by hand */
  g_assert_cmpfloat (transfer->pumped_m3, >, plain->transfers[0].pumped_m3 + 0.95 * box_m3);
  g_assert_cmpfloat (transfer->pumped_m3, <, plain->transfers[0].pumped_m3 + box_m3 + 0.003);
  g_assert_cmpfloat_with_epsilon (transfer->margin_m3, transfer->room_overflow_m3 - transfer->pumped_m3,
                                  1e-12);
  g_assert_cmpfloat_with_epsilon (plain->transfers[0].margin_m3,
                                  plain->transfers[0].room_drain_m3 - plain->transfers[0].pumped_m3, 1e-12);
  g_assert_cmpfloat (transfer->room_overflow_m3, <, plain->transfers[0].room_drain_m3);
}

/* Of several crests the lowest has the greatest head, and so the widest doubt (+18 % below 30 mm of
 * head, weir_head_band): freeboard is judged by it, whichever overflow comes first in the file. */
static void
test_freeboard_by_the_lowest_crest (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) evaluation = NULL;
  const TankState *tank;

  fixture_add_second_overflow (draft);
  must_set (draft, "second-overflow", FIELD_OVERFLOW_CREST, 0.538);
  evaluation = fixture_evaluate (draft);
  tank = &evaluation->tanks[0];
  g_assert_cmpfloat (evaluation->overflows[1].crest_z, <, evaluation->overflows[0].crest_z);
  const double likely_head_m = tank->display_z - evaluation->overflows[1].crest_z;
  const double fast_m = tank->rim_z - tank->fast_z, likely_m = tank->rim_z - tank->display_z;

  /* The crests 3 mm off, the head 18 % more and the fast flow, as squares: here they take more than the corner of the two
   * last does. Crests that move together move the head beneath them by their own height, and the upper one has less head to doubt: hence half a millimetre. */
  g_assert_cmpfloat (tank->freeboard_m, <, fast_m - 0.18 * (tank->fast_z - evaluation->overflows[1].crest_z));
  g_assert_cmpfloat_with_epsilon (
      tank->freeboard_m,
      likely_m - sqrt (pow (0.003, 2) + pow (0.18 * likely_head_m, 2) + pow (likely_m - fast_m, 2)), 5e-4);
}

/* "Part lies under other": the lower of the two is the part, whichever way the gap is too small. */
static void
test_gap_names_the_lower (void)
{
  for (unsigned i = 0; i < 2; i++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;
    const Finding *finding;

    must_set (draft, "trickle", FIELD_DRAIN_MOUTH, 0.515);
    must_set (draft, "emergency", FIELD_DRAIN_MOUTH, i == 0 ? 0.54 : 0.525);
    evaluation = fixture_evaluate (draft);
    finding = evaluation_finding (evaluation, CHECK_HEIGHTS_GAP);
    g_assert_nonnull (finding);
    g_assert_cmpint (finding->part, ==, fixture_part (i == 0 ? "emergency" : "trickle"));
    g_assert_cmpint (finding->other_part, ==, fixture_part (i == 0 ? "overflow" : "emergency"));
  }
}

static const Finding *
finding_of_part (const Evaluation *evaluation, CheckId check, int part)
{
  for (unsigned i = 0; i < evaluation->n_findings; i++)
    if (evaluation->findings[i].check == check && evaluation->findings[i].part == part)
      return &evaluation->findings[i];
  return NULL;
}

/* The speed that mends a failed flood test holds on the judged edge, where the drowned weir adds to the box's level. */
static void
test_flood_remedy (void)
{
  const double plugs[] = {0.6, 0.7, 0.75, 0.8, 0.85, 0.9};
  unsigned n = 0;

  for (unsigned i = 0; i < G_N_ELEMENTS (plugs); i++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) failed = NULL;
    g_autoptr (Evaluation) mended = NULL;
    const Finding *finding;

    must_set (draft, "emergency", FIELD_DRAIN_PLUG, plugs[i]);
    must_set (draft, "return-pump", FIELD_PUMP_SPEED, 1);
    failed = fixture_evaluate (draft);
    finding = evaluation_finding (failed, CHECK_FLOOD_FAILED);
    if (finding == NULL || finding->remedy.part < 0)
      continue;
    n++;
    g_assert_cmpint (finding->remedy.field, ==, FIELD_PUMP_SPEED);
    draft = fixture_draft ();
    must_set (draft, "emergency", FIELD_DRAIN_PLUG, plugs[i]);
    must_set (draft, "return-pump", FIELD_PUMP_SPEED, finding->remedy.value);
    mended = fixture_evaluate (draft);
    g_assert_null (evaluation_finding (mended, CHECK_FLOOD_FAILED));
  }
  g_assert_cmpuint (n, >, 0);
}

/* A remedy that is offered makes its finding go. */
static void
test_remedies_mend (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();

  for (unsigned i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (Design) design = fixture_commit (draft_of_case (&cases[i]));
    g_autoptr (Evaluation) evaluation = evaluation_new ();
    g_autoptr (Design) mended = NULL;
    const Finding *finding;
    Remedy remedy;
    double before;
    int part;

    g_assert_true (evaluate_design (design, catalogue, NULL, evaluation, NULL, NULL));
    finding = evaluation_finding (evaluation, cases[i].check);
    if (finding == NULL || finding->remedy.part < 0)
      continue;
    remedy = finding->remedy;
    before = finding->margin;
    part = finding->part;
    mended = design_with_number (design, part_key (design_part (design, (unsigned) remedy.part)),
                                 remedy.field, remedy.value, NULL);
    if (mended == NULL)
      continue;
    g_assert_true (evaluate_design (mended, catalogue, NULL, evaluation, NULL, NULL));
    finding = finding_of_part (evaluation, cases[i].check, part);
    if (finding != NULL && finding->margin < 0.5 * before) {
      g_printerr ("%s: margin %g, after the remedy %g\n", check_word (cases[i].check), before,
                  finding->margin);
      g_test_fail ();
    }
  }
}

static void
test_words (void)
{
  for (CheckId check = 0; check < N_CHECKS; check++) {
    CheckId found;

    g_assert_true (check_find (check_word (check), &found));
    g_assert_cmpint (found, ==, check);
    g_assert_cmpstr (check_meaning (check), !=, "");
  }
  g_assert_false (check_find ("no-such-check", &(CheckId){0}));
  g_assert_cmpstr (grade_word (GRADE_STOP), ==, "stop");
  for (EvaluationStatus status = 0; status < N_EVALUATION_STATUSES; status++)
    g_assert_cmpstr (evaluation_status_text (status), !=, "unknown status");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/findings/fires", test_each_check_fires);
  g_test_add_func ("/solver/findings/sound", test_sound_design_is_sound);
  g_test_add_func ("/solver/findings/every-check", test_every_check_has_a_case);
  g_test_add_func ("/solver/findings/missing-parts", test_checks_of_missing_parts);
  g_test_add_func ("/solver/findings/cut-outs", test_cut_outs);
  g_test_add_func ("/solver/findings/display-alone", test_display_alone_over_its_rim);
  g_test_add_func ("/solver/findings/comb", test_transfer_under_a_comb);
  g_test_add_func ("/solver/findings/lowest-crest", test_freeboard_by_the_lowest_crest);
  g_test_add_func ("/solver/findings/gap", test_gap_names_the_lower);
  g_test_add_func ("/solver/findings/remedies", test_remedies_mend);
  g_test_add_func ("/solver/findings/words", test_words);
  g_test_add_func ("/findings/flood-remedy", test_flood_remedy);
  return g_test_run ();
}
