/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/bench/bench-row.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "report/words.h"

struct _BenchRow {
  GObject parent_instance;

  BenchFigures *figures;
  unsigned index;
  gboolean shown;
};

G_DEFINE_FINAL_TYPE (BenchRow, bench_row, G_TYPE_OBJECT)

enum { SIGNAL_CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

/* Heads without their unit, and what they mean. */
static const struct {
  const char *title, *help;
  Quantity quantity;
} columns[N_BENCH_COLUMNS] = {
    [BENCH_SPEED] =
        {N_ ("Speed"),
         N_ ("The share of full speed that gives the target turnover, or the nearest the pump has."),
         QUANTITY_RATIO},
    [BENCH_FLOW] = {N_ ("Flow"), N_ ("What the pump delivers on this loop at that speed."), QUANTITY_FLOW},
    [BENCH_TURNOVER] = {N_ ("Turnover"), N_ ("Display volumes returned in an hour."), QUANTITY_TURNOVER},
    [BENCH_DRAIN_MARGIN] = {N_ ("Drain"),
                            N_ ("What the drains carry beyond that flow; below nought they do not carry it."),
                            QUANTITY_RATIO},
    [BENCH_FLOOD_MARGIN] = {N_ ("Flood"),
                            N_ ("Height left to the lowest rim when every drain but the emergency is shut."),
                            QUANTITY_LENGTH},
    [BENCH_POWER] = {N_ ("Power"), N_ ("Electric power at that speed."), QUANTITY_POWER},
    [BENCH_COST] = {N_ ("Cost a year"), N_ ("Electricity of a year at the price of the room."),
                    QUANTITY_MONEY},
    [BENCH_VELOCITY] = {N_ ("Velocity"), N_ ("Largest in the return pipe: the faster, the noisier."),
                        QUANTITY_VELOCITY},
    [BENCH_HEAD] = {N_ ("Head"), N_ ("Head at the duty point."), QUANTITY_HEAD},
};

static const CompareRow *
row_of (BenchRow *self)
{
  return &self->figures->rows[self->index];
}

static void
bench_row_finalize (GObject *object)
{
  bench_figures_unref (DOWNCOMER_BENCH_ROW (object)->figures);
  G_OBJECT_CLASS (bench_row_parent_class)->finalize (object);
}

static void
bench_row_class_init (BenchRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = bench_row_finalize;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                          NULL, NULL, G_TYPE_NONE, 0);
}

static void
bench_row_init (BenchRow *self)
{
}

BenchRow *
bench_row_new (BenchFigures *figures, unsigned index)
{
  BenchRow *self = g_object_new (DOWNCOMER_TYPE_BENCH_ROW, NULL);

  self->figures = bench_figures_ref (figures);
  self->index = index;
  return self;
}

void
bench_row_update (BenchRow *row, BenchFigures *figures, unsigned index)
{
  g_return_if_fail (DOWNCOMER_IS_BENCH_ROW (row));
  bench_figures_ref (figures);
  bench_figures_unref (row->figures);
  row->figures = figures;
  row->index = index;
  g_signal_emit (row, signals[SIGNAL_CHANGED], 0);
}

const CompareRow *
bench_row_get_figures (BenchRow *row)
{
  return row_of (row);
}

const BenchCurve *
bench_row_get_curve (BenchRow *row, gboolean full_speed)
{
  return full_speed ? &row->figures->at_full[row->index] : &row->figures->at_speed[row->index];
}

char *
bench_row_dup_id (BenchRow *row)
{
  return g_strdup_printf ("%d:%s", row_of (row)->origin, row_of (row)->key);
}

gboolean
bench_row_same (BenchRow *row, const CompareRow *other)
{
  return row_of (row)->origin == other->origin && g_str_equal (row_of (row)->key, other->key);
}

char *
bench_row_dup_name (BenchRow *row)
{
  const CompareRow *figures = row_of (row);
  g_autofree char *name =
      figures->origin == COMPARE_CATALOGUE
          ? g_strdup (_ (figures->name))
          : words_part (row->figures->design, design_find (row->figures->design, figures->key));

  /* Translators: a pump whose curve is made of two points only. */
  return figures->estimate ? words_fill (_ ("{name} (estimate)"), "name", name, NULL)
                           : g_steal_pointer (&name);
}

char *
bench_row_dup_short_name (BenchRow *row)
{
  char *name = bench_row_dup_name (row);
  char *comma = strchr (name, ',');

  if (comma != NULL && comma > name)
    *comma = '\0';
  if (g_utf8_strlen (name, -1) > 20) {
    g_autofree char *whole = name;
    g_autofree char *start = g_utf8_substring (whole, 0, 18);

    name = g_strconcat (start, "…", NULL);
  }
  return name;
}

const char *
bench_row_origin (BenchRow *row)
{
  switch (row_of (row)->origin) {
  case COMPARE_INSTALLED:
    return C_ ("pump", "In use");
  case COMPARE_OWN:
    return C_ ("pump", "Own");
  case COMPARE_CATALOGUE:
    break;
  }
  return C_ ("pump", "Catalogue");
}

double
bench_row_speed (BenchRow *row)
{
  return fmin (1, ceil (row_of (row)->speed * 100 - 1e-6) / 100);
}

double
bench_row_number (BenchRow *row, BenchColumn column)
{
  const CompareRow *figures = row_of (row);
  const double numbers[N_BENCH_COLUMNS] = {
      [BENCH_SPEED] = bench_row_speed (row),
      [BENCH_FLOW] = figures->flow_m3s,
      [BENCH_TURNOVER] = figures->turnover_per_h,
      [BENCH_DRAIN_MARGIN] = figures->drain_margin,
      [BENCH_FLOOD_MARGIN] = figures->flood_margin_m,
      [BENCH_POWER] = figures->power_w,
      [BENCH_COST] = figures->yearly_cost,
      [BENCH_VELOCITY] = figures->velocity_ms,
      [BENCH_HEAD] = figures->head_m,
  };

  return column < N_BENCH_COLUMNS ? numbers[column] : (double) NAN;
}

char *
bench_row_text (BenchRow *row, BenchColumn column, const NumberStyle *style)
{
  const Quantity quantity = columns[column].quantity;
  double value = bench_row_number (row, column);

  /* A per cent, a watt and a centimetre a second are as fine as they can be set or measured. */
  if (isfinite (value) && (quantity == QUANTITY_RATIO || quantity == QUANTITY_VELOCITY))
    value = round (value * 100) / 100;
  if (isfinite (value) && quantity == QUANTITY_POWER)
    value = value < 10 ? round (value * 10) / 10 : round (value);
  return units_format_number (value, quantity, style, units_unit_for (quantity, style),
                              quantity == QUANTITY_POWER ? UNITS_EXACT : UNITS_MEASURE);
}

char *
bench_column_title (BenchColumn column, const NumberStyle *style)
{
  g_autofree char *symbol = units_symbol (units_unit_for (columns[column].quantity, style), style);

  if (symbol[0] == '\0')
    return g_strdup (_ (columns[column].title));
  /* Translators: head of a column, and the unit of its numbers. */
  return g_strdup_printf (_ ("%s, %s"), _ (columns[column].title), symbol);
}

const char *
bench_column_help (BenchColumn column)
{
  return _ (columns[column].help);
}

Grade
bench_row_grade (BenchRow *row)
{
  const CompareRow *figures = row_of (row);

  if (figures->stops > 0)
    return GRADE_STOP;
  return figures->cautions > 0 || !figures->reaches_target ? GRADE_CAUTION : N_GRADES;
}

char *
bench_row_verdict (BenchRow *row)
{
  const CompareRow *figures = row_of (row);

  if (figures->stops > 0)
    return g_strdup_printf (ngettext ("%u stop", "%u stops", figures->stops), figures->stops);
  if (!figures->reaches_target)
    return g_strdup (_ ("Off target"));
  if (figures->cautions > 0)
    return g_strdup_printf (ngettext ("%u caution", "%u cautions", figures->cautions), figures->cautions);
  return g_strdup (_ ("Sound"));
}

static char *
findings_words (const CompareRow *figures)
{
  const gboolean installed = figures->origin == COMPARE_INSTALLED;
  g_autofree char *stops =
      g_strdup_printf (ngettext ("%u stop finding", "%u stop findings", figures->stops), figures->stops);
  g_autofree char *cautions =
      g_strdup_printf (ngettext ("%u caution", "%u cautions", figures->cautions), figures->cautions);
  const char *sentence;

  if (figures->stops > 0)
    sentence = installed ? _ ("The whole design is not sound with it: {stops}, {cautions}.")
                         : _ ("The whole design would not be sound with it: {stops}, {cautions}.");
  else if (figures->cautions > 0)
    sentence = installed ? _ ("The whole design is sound with it, with {cautions}.")
                         : _ ("The whole design would be sound with it, with {cautions}.");
  else
    sentence =
        installed ? _ ("The whole design is sound with it.") : _ ("The whole design would be sound with it.");
  return words_fill (sentence, "stops", stops, "cautions", cautions, NULL);
}

char *
bench_row_sentence (BenchRow *row, const NumberStyle *style)
{
  const CompareRow *figures = row_of (row);
  g_autofree char *name = bench_row_dup_name (row);
  g_autofree char *speed = units_format (bench_row_speed (row), QUANTITY_RATIO, style, NULL, UNITS_MEASURE);
  g_autofree char *flow = units_format (figures->flow_m3s, QUANTITY_FLOW, style, NULL, UNITS_MEASURE);
  g_autofree char *turnover =
      units_format (figures->turnover_per_h, QUANTITY_TURNOVER, style, NULL, UNITS_MEASURE);
  g_autofree char *findings = findings_words (figures);
  const char *sentence = _ ("{name} at {speed} returns {flow}, a turnover of {turnover}. {findings}");

  if (figures->status == PUMP_STATE_TOO_WEAK)
    sentence = _ ("{name} does not lift water to the display. {findings}");
  else if (figures->status == PUMP_STATE_BEYOND_CURVE)
    sentence = _ ("{name} would run past the end of its curve at {speed}. {findings}");
  else if (!figures->reaches_target)
    sentence =
        _ ("{name} misses the target: at {speed}, the nearest it has, it returns {flow}, a turnover of "
           "{turnover}. {findings}");
  return words_fill (sentence, "name", name, "speed", speed, "flow", flow, "turnover", turnover, "findings",
                     findings, NULL);
}

gboolean
bench_row_get_shown (BenchRow *row)
{
  return row->shown;
}

void
bench_row_set_shown (BenchRow *row, gboolean shown)
{
  g_return_if_fail (DOWNCOMER_IS_BENCH_ROW (row));
  if (row->shown == !!shown)
    return;
  row->shown = !!shown;
  g_signal_emit (row, signals[SIGNAL_CHANGED], 0);
}
