/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/band.h"

#include <string.h>

#include "solver/band-private.h"
#include "solver/checks.h"

static const Factor factors[] = {
#define X(id, word_, quantity_, low_, likely_, high_, meaning_, source_)                                     \
  [FACTOR_##id] = {word_, QUANTITY_##quantity_, low_, likely_, high_, meaning_, source_},
    FACTORS (X)
#undef X
};

const Factor *
factor_info (FactorId factor)
{
  return &factors[(unsigned) factor < N_FACTORS ? factor : 0];
}

void
margin_list_add (MarginList *list, CheckId check, int part, double value, double limit, double margin)
{
  unsigned nth = 0;

  for (unsigned i = list->n; i > 0 && list->margins[i - 1].check == check; i--)
    if (list->margins[i - 1].part == part) {
      nth = list->margins[i - 1].nth + 1;
      break;
    }
  if (list->n == list->room) {
    list->room = MAX (2 * list->room, 128);
    list->margins = g_renew (Margin, list->margins, list->room);
  }
  list->margins[list->n++] = (Margin){check, part, nth, value, limit, margin};
}

/* Where a margin of another list stands in this one, most often at the same index; -1 where it was not measured. */
static int
find_margin (const MarginList *list, CheckId check, int part, unsigned nth, unsigned hint)
{
  for (unsigned i = 0; i < list->n; i++) {
    const unsigned at = (hint + i) % list->n;
    const Margin *margin = &list->margins[at];

    if (margin->check == check && margin->part == part && margin->nth == nth)
      return (int) at;
  }
  return -1;
}

Bands *
workspace_take_bands (Workspace *workspace, const System *system)
{
  Bands *bands = workspace->bands;

  if (bands->moved == NULL) {
    bands->moved = g_new (System, 1);
    bands->scratch = evaluation_new ();
  }
  *bands->moved = *system;
  return bands;
}

Bands *
bands_new (void)
{
  Bands *bands = g_new0 (Bands, 1);

  bands->wanted = true;
  return bands;
}

void
bands_free (Bands *bands)
{
  g_free (bands->moved);
  evaluation_free (bands->scratch);
  g_free (bands->likely.margins);
  g_free (bands->tried.margins);
  g_free (bands->kept.margins);
  g_free (bands->kept_spreads);
  g_free (bands->spreads);
  g_free (bands->shifts);
  g_free (bands);
}

void
workspace_set_bands (Workspace *workspace, bool with_bands)
{
  workspace->bands->wanted = with_bands;
}

void
workspace_hold_bands (Workspace *workspace, Workspace *earlier)
{
  Bands *bands = earlier->bands;

  earlier->bands = workspace->bands;
  workspace->bands = bands;
  if (bands->there && !bands->held) {
    const MarginList likely = bands->likely;
    Spread *spreads = bands->spreads;
    const unsigned room = bands->spread_room;

    bands->likely = bands->kept;
    bands->spreads = bands->kept_spreads;
    bands->spread_room = bands->kept_room;
    bands->kept = likely;
    bands->kept_spreads = spreads;
    bands->kept_room = room;
    bands->held = true;
  }
  bands->there = false;
}

/* Numbers of an evaluation that are judged; the same order each time. Returns how many. */
static unsigned
judged_numbers (Evaluation *evaluation, double **ret_numbers)
{
  unsigned n = 0;

  for (unsigned i = 0; i < evaluation->n_overflows; i++) {
    ret_numbers[n++] = &evaluation->overflows[i].flood_unprimed_margin_m;
    ret_numbers[n++] = &evaluation->overflows[i].flood_primed_margin_m;
    ret_numbers[n++] = &evaluation->overflows[i].flood_full_speed_margin_m;
  }
  for (unsigned i = 0; i < evaluation->n_tanks; i++) {
    ret_numbers[n++] = &evaluation->tanks[i].freeboard_m;
    ret_numbers[n++] = &evaluation->tanks[i].full_speed_freeboard_m;
  }
  ret_numbers[n++] = &evaluation->drain_back.upper_margin_m3;
  ret_numbers[n++] = &evaluation->drain_back.upper_freeboard_m;
  ret_numbers[n++] = &evaluation->plugged.upper_margin_m3;
  ret_numbers[n++] = &evaluation->plugged.upper_freeboard_m;
  for (unsigned i = 0; i < evaluation->n_drains; i++)
    ret_numbers[n++] = &evaluation->drains[i].start_margin_m;
  return n;
}

/* The worse and the better shift of a number by one factor. A number that is lost, because nothing carries the flow there,
 * has no margin left. */
static void
widen_shift (Shift *shift, double likely, double moved)
{
  const double by = isfinite (moved) ? moved - likely : moved > 0 ? 0 : -fmax (likely, 0) * (1 + 1e-6) - 1e-9;

  shift->down = fmax (shift->down, -by);
  shift->up = fmax (shift->up, by);
}

static void
add_shift (Spread *spread, FactorId factor, const Shift *shift)
{
  spread->down2 += shift->down * shift->down;
  spread->up2 += shift->up * shift->up;
  if (shift->down > spread->widest_m) {
    spread->widest_m = shift->down;
    spread->widest = (int) factor;
  }
}

static void
make_room (Bands *bands)
{
  if (bands->spread_room < bands->likely.n) {
    bands->spread_room = bands->likely.room;
    bands->spreads = g_renew (Spread, bands->spreads, bands->spread_room);
    bands->shifts = g_renew (Shift, bands->shifts, bands->spread_room);
  }
}

static void
start_spreads (Bands *bands)
{
  make_room (bands);
  for (unsigned i = 0; i < bands->likely.n; i++)
    bands->spreads[i] = (Spread){.likely = bands->likely.margins[i].margin, .widest = -1};
}

static void
start_numbers (Bands *bands)
{
  double *numbers[JUDGED_NUMBERS_MAX];

  bands->n_numbers = judged_numbers (bands->scratch, numbers);
  for (unsigned i = 0; i < bands->n_numbers; i++)
    bands->numbers[i] = (Spread){.likely = *numbers[i], .widest = -1};
}

/* The kept widths around the margins of now. A margin that was not measured before has none yet. */
static void
spreads_as_kept (Bands *bands)
{
  make_room (bands);
  for (unsigned i = 0; i < bands->likely.n; i++) {
    const Margin *margin = &bands->likely.margins[i];
    const int at = find_margin (&bands->kept, margin->check, margin->part, margin->nth, i);

    bands->spreads[i] = at >= 0 ? bands->kept_spreads[at] : (Spread){.widest = -1};
    bands->spreads[i].likely = margin->margin;
  }
}

static void
numbers_as_kept (Bands *bands)
{
  double *numbers[JUDGED_NUMBERS_MAX];
  const unsigned n = judged_numbers (bands->scratch, numbers);

  for (unsigned i = 0; i < n; i++) {
    if (i >= bands->n_numbers)
      bands->numbers[i] = (Spread){.widest = -1};
    bands->numbers[i].likely = *numbers[i];
  }
  bands->n_numbers = n;
}

/* One end of a factor, noted: in the numbers, in the margins. */
static void
note_numbers (Bands *bands)
{
  double *numbers[JUDGED_NUMBERS_MAX];

  judged_numbers (bands->scratch, numbers);
  for (unsigned i = 0; i < bands->n_numbers; i++)
    if (isfinite (bands->numbers[i].likely) && !isnan (*numbers[i]))
      widen_shift (&bands->number_shifts[i], bands->numbers[i].likely, *numbers[i]);
}

static void
note_margins (Bands *bands)
{
  for (unsigned i = 0; i < bands->likely.n; i++) {
    const Margin *margin = &bands->likely.margins[i];
    const int at = find_margin (&bands->tried, margin->check, margin->part, margin->nth, i);

    if (at >= 0 && isfinite (margin->margin) && !isnan (bands->tried.margins[at].margin))
      widen_shift (&bands->shifts[i], margin->margin, bands->tried.margins[at].margin);
  }
}

/* The judged numbers are those of floods and drain-back: branches that feed no display are shut for them, and open for the
 * margins of all else. */
static void
try_end (const System *system, Workspace *workspace, FactorId factor, int side, const PointStates *states,
         const PointStates *full)
{
  Bands *bands = workspace->bands;
  const State *open = &states->running, *shut = &states->running_shut;

  if (factor == FACTOR_FLOW) {
    open = side < 0 ? &states->slow : &states->fast_open;
    shut = side < 0 ? &states->slow : &states->fast;
  }
  point_margins (bands->moved, workspace, open, full, &bands->tried);
  note_margins (bands);
  if (system->n_feeds > 0)
    point_margins (bands->moved, workspace, shut, full, &bands->tried);
  note_numbers (bands);
}

static void
try_factor (const System *system, Workspace *workspace, FactorId factor, const PointStates *states,
            const PointStates *full)
{
  Bands *bands = workspace->bands;
  const Factor *info = factor_info (factor);

  memset (bands->number_shifts, 0, sizeof bands->number_shifts);
  memset (bands->shifts, 0, bands->likely.n * sizeof *bands->shifts);
  for (int side = -1; side <= 1; side += 2) {
    double at[N_FACTORS] = {0};

    if (side < 0 ? info->low >= info->likely : info->high <= info->likely)
      continue;
    at[factor] = side;
    factors_move (system, at, bands->moved);
    try_end (system, workspace, factor, side, states, full);
  }
  for (unsigned i = 0; i < bands->n_numbers; i++)
    add_shift (&bands->numbers[i], factor, &bands->number_shifts[i]);
  for (unsigned i = 0; i < bands->likely.n; i++)
    add_shift (&bands->spreads[i], factor, &bands->shifts[i]);
}

static bool
speed_is_open (const System *system)
{
  for (unsigned i = 0; i < system->n_pumps; i++)
    if (system->pumps[i].speed < 1)
      return true;
  return false;
}

void
bands_forget (Workspace *workspace)
{
  workspace->bands->there = false;
}

void
bands_fill (const System *system, Workspace *workspace)
{
  Bands *bands = workspace->bands;
  static const double likely[N_FACTORS];
  const PointStates states = {workspace->running,    workspace->fast, workspace->fast_open,
                              workspace->full_speed, workspace->slow, workspace->running_shut};
  const PointStates *full = speed_is_open (system) ? &states : NULL;
  double valve_k[EVALUATION_DRAINS_MAX], wanted_z[EVALUATION_OVERFLOWS_MAX];

  bands->there = false;
  if (!bands->wanted)
    return;
  memcpy (valve_k, workspace->valve_k, sizeof valve_k);
  memcpy (wanted_z, workspace->wanted_z, sizeof wanted_z);
  workspace_take_bands (workspace, system);
  factors_move (system, likely, bands->moved);
  point_margins (bands->moved, workspace, &states.running, full, &bands->likely);
  if (bands->held)
    spreads_as_kept (bands);
  else
    start_spreads (bands);
  if (system->n_feeds > 0)
    point_margins (bands->moved, workspace, &states.running_shut, full, &bands->tried);
  if (bands->held)
    numbers_as_kept (bands);
  else
    start_numbers (bands);
  for (unsigned i = 0; i < N_FACTORS && !bands->held; i++)
    if (factor_is_there (system, (FactorId) i))
      try_factor (system, workspace, (FactorId) i, &states, full);
  workspace->running = states.running;
  workspace->fast = states.fast;
  workspace->fast_open = states.fast_open;
  workspace->running_shut = states.running_shut;
  workspace->full_speed = states.full_speed;
  workspace->slow = states.slow;
  memcpy (workspace->valve_k, valve_k, sizeof valve_k);
  memcpy (workspace->wanted_z, wanted_z, sizeof wanted_z);
  bands->there = true;
}

void
bands_narrow (const Workspace *workspace, Evaluation *evaluation)
{
  const Bands *bands = workspace->bands;
  double *numbers[JUDGED_NUMBERS_MAX];

  if (!bands->there)
    return;
  judged_numbers (evaluation, numbers);
  for (unsigned i = 0; i < bands->n_numbers; i++) {
    const Spread *spread = &bands->numbers[i];

    if (isfinite (spread->likely) && spread->down2 > 0 && !isnan (*numbers[i]))
      *numbers[i] = fmin (*numbers[i], spread->likely - sqrt (spread->down2));
  }
}

bool
bands_find (const Workspace *workspace, CheckId check, int part, unsigned nth, unsigned hint, Band *ret_band)
{
  const Bands *bands = workspace->bands;
  const int at = bands->there ? find_margin (&bands->likely, check, part, nth, hint) : -1;
  const Margin *margin;
  const Spread *spread;

  if (at < 0 || !isfinite (bands->likely.margins[at].margin))
    return false;
  margin = &bands->likely.margins[at];
  spread = &bands->spreads[at];
  *ret_band = (Band){.check = check,
                     .part = part,
                     .nth = nth,
                     .value = margin->value,
                     .limit = margin->limit,
                     .margin = margin->margin,
                     .low = margin->margin - sqrt (spread->down2),
                     .high = margin->margin + sqrt (spread->up2),
                     .widest = spread->widest};
  return true;
}

unsigned
workspace_bands (const Workspace *workspace, Band *ret_bands, unsigned n)
{
  const MarginList *list = &workspace->bands->likely;
  unsigned found = 0;

  for (unsigned i = 0; i < list->n && workspace->bands->there; i++) {
    const Margin *margin = &list->margins[i];
    Band band;
    int own;

    if (!bands_find (workspace, margin->check, margin->part, margin->nth, i, &band))
      continue;
    own = find_margin (&workspace->bands->tried, margin->check, margin->part, margin->nth, i);
    band.corner = own >= 0 ? workspace->bands->tried.margins[own].margin : NO_NUMBER;
    if (found < n)
      ret_bands[found] = band;
    found++;
  }
  return found;
}
