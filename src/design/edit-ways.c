/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Where there is room for a new thing, and how a new pipe runs. */
#include <math.h>

#include "design/edit-private.h"

#define ABOVE_RIM_M 0.06 /* of a return pipe over the tank's edge */
#define BEHIND_M    0.06 /* of a riser behind the tanks */
#define UNDER_TOP   0.9  /* height of a drain's way across, of the stand's inside */
#define RISER_SHARE 0.75 /* the same of a return's way to the back */
#define FALL        0.02 /* of a drain's way across, common practice 1 to 2 % */
#define APART_M     0.07 /* of level pipes side by side: their sockets pass */
#define OVER_SUMP_M 0.03

static int
compare_spans (gconstpointer a, gconstpointer b)
{
  const double x = ((const EditSpan *) a)->from, y = ((const EditSpan *) b)->from;

  return (x > y) - (x < y);
}

EditSpan
edit_widest_gap (EditSpan whole, EditSpan *taken, unsigned n)
{
  EditSpan best = {whole.from, whole.from};
  double from = whole.from;

  qsort (taken, n, sizeof *taken, compare_spans);
  for (unsigned i = 0; i <= n; i++) {
    const double to = fmin (i < n ? taken[i].from : whole.to, whole.to);

    if (to - from > best.to - best.from)
      best = (EditSpan){from, to};
    if (i < n)
      from = fmax (from, taken[i].to);
  }
  return best;
}

bool
edit_lay (Draft *draft, const char *run, Point3 from, const Point3 *way, unsigned n, Point3 end,
          Problem *ret_problem)
{
  for (unsigned i = 0; i < n; i++) {
    const char *key = NULL;

    if (edit_distance (from, way[i]) < SAME_M || edit_distance (way[i], end) < SAME_M)
      continue;
    if (!draft_add (draft, PART_CORNER, NULL, NULL, run, &key, ret_problem) ||
        !edit_set_point (draft, key, edit_corner_fields, way[i], &from, ret_problem))
      return false;
    from = way[i];
  }
  return true;
}

/* The back of all tanks and of what hangs behind them. */
static double
back_of_tanks (const Design *design)
{
  double back_m = 0;

  for (unsigned i = 0; i < design_count (design, PART_TANK); i++) {
    const Box3 box = geometry_outside (design, design_nth (design, PART_TANK, i));

    back_m = i == 0 ? box.origin.y + box.size.y : fmax (back_m, box.origin.y + box.size.y);
  }
  for (unsigned i = 0; i < design_count (design, PART_OVERFLOW); i++) {
    const Box3 box = geometry_drain_box (design, design_nth (design, PART_OVERFLOW, i));

    back_m = fmax (back_m, box.origin.y + box.size.y);
  }
  return back_m;
}

unsigned
edit_way_to_outlet (const Design *design, const Part *outlet, Point3 from, double aside_m,
                    Point3 way[EDIT_WAY_MOST])
{
  const Box3 tank = geometry_outside (design, design_owner (design, outlet));
  const Box3 stand = geometry_inside (design, design_nth (design, PART_STAND, 0));
  const Point3 mouth = geometry_outside (design, outlet).origin;
  const double edge_z = tank.origin.z + tank.size.z + ABOVE_RIM_M + aside_m;
  const double behind_y = fmax (from.y, back_of_tanks (design) + BEHIND_M + aside_m);
  const double under_z = stand.origin.z + RISER_SHARE * stand.size.z - aside_m;
  unsigned n = 0;

  if (from.z < edge_z - aside_m - SAME_M) {
    from.z = fmax (from.z, under_z);
    way[n++] = from;
    from.y = behind_y;
    way[n++] = from;
    from.z = edge_z;
    way[n++] = from;
  }
  from.x = mouth.x;
  way[n++] = from;
  from.y = mouth.y;
  way[n++] = from;
  return n;
}

/* Where the way of the i-th of n drains goes down into its chamber. */
static Point3
drain_foot (const Design *design, const Part *chamber, unsigned i, unsigned n, Point3 mouth)
{
  const Box3 box = geometry_inside (design, chamber);
  const double keep_m = fmin (0.05, box.size.y / 2);

  return (Point3){box.origin.x + box.size.x * (i + 0.5) / n,
                  CLAMP (mouth.y, box.origin.y + keep_m, box.origin.y + box.size.y - keep_m), mouth.z};
}

/* Corners of one drain. Of drains that go the same way those nearer to the sump cross higher, so that no pipe meets the
 * upright end of another. */
static bool
lead_drain (Draft *draft, const Design *design, const Part *drain, Point3 mouth, unsigned i, unsigned n,
            Problem *ret_problem)
{
  const Part *chamber = design_target (design, drain, FIELD_DRAIN_TO);
  const Box3 stand = geometry_inside (design, design_nth (design, PART_STAND, 0));
  const Box3 sump = geometry_outside (design, design_nth (design, PART_SUMP, 0));
  const Box3 box = geometry_inside (design, chamber);
  const Point3 foot = drain_foot (design, chamber, i, n, mouth);
  const double top_z = fmin (stand.origin.z + UNDER_TOP * stand.size.z, mouth.z - 0.05);
  const double room_m = fmax (0, top_z - sump.origin.z - sump.size.z - OVER_SUMP_M);
  const unsigned rank = foot.x < mouth.x ? i : n - 1 - i;
  Point3 way[2] = {mouth, foot};

  if (mouth.x >= box.origin.x && mouth.x <= box.origin.x + box.size.x && fabs (foot.y - mouth.y) < SAME_M)
    return true;
  way[0].z = top_z - rank * fmin (APART_M, room_m / (n + 1));
  way[1].z = fmax (way[0].z - FALL * hypot (foot.x - mouth.x, foot.y - mouth.y),
                   fmin (way[0].z, geometry_drain_end (design, drain) + 0.01));
  return edit_lay (draft, part_key (drain), mouth, way, 2, (Point3){foot.x, foot.y, -1}, ret_problem);
}

bool
edit_copy_fittings (Draft *draft, const Design *from, const Part *drain, const Design *design, const Part *to,
                    bool with_opening, Problem *ret_problem)
{
  static const FieldId fields[] = {FIELD_FITTING_TYPE, FIELD_FITTING_K, FIELD_FITTING_OPENING};
  const double from_m = geometry_run_length (from, drain), to_m = geometry_run_length (design, to);

  for (unsigned i = 0; i < design_n_children (from, part_key (drain), PART_FITTING); i++) {
    const Part *fitting = design_child (from, part_key (drain), PART_FITTING, i);
    const double at_m = design_number (from, fitting, FIELD_FITTING_STATION);
    const double share = from_m > 0 ? fmin (at_m / from_m, 1) : 0;
    const char *key = NULL;

    if (!draft_add (draft, PART_FITTING, NULL, NULL, part_key (to), &key, ret_problem) ||
        !edit_copy_some (draft, fitting, key, fields, with_opening ? 3 : 2, ret_problem) ||
        !draft_set_number (draft, key, FIELD_FITTING_STATION, share < 0.5 ? fmin (at_m, to_m) : share * to_m,
                           ret_problem))
      return false;
  }
  return true;
}

Design *
edit_lead_drains (const Design *design, const char *overflow, const char *only, Problem *ret_problem)
{
  const unsigned n = design_n_children (design, overflow, PART_DRAIN);
  Draft *draft = draft_new (design);
  bool ok = true;

  for (unsigned i = 0; i < n && ok; i++) {
    const Part *drain = design_child (design, overflow, PART_DRAIN, i);
    Point3 mouth;

    if (only != NULL && g_strcmp0 (part_key (drain), only) != 0)
      continue;
    geometry_run (design, drain, &mouth, 1);
    ok = lead_drain (draft, design, drain, mouth, i, n, ret_problem);
  }
  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}
