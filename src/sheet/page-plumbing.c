/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* For the plumber: an elevation with item numbers, the runs cut into lengths, the parts that join them, and the heights
 * of mouths, ends and siphon breaks. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "design/choices.h"
#include "report/words.h"
#include "sheet/balloons.h"
#include "sheet/build.h"
#include "sheet/plumbing.h"

/* Build tolerance of levels, common practice; the solver judges with it. */
#define LEVEL_PLAY_M 0.003

/* Where the number of a run points to: on the longest leg that the elevation shows, for drains near its upper end and
 * for returns near its end, where no fittings are, and not for all at one height. */
static Point3
number_place (const PlumbingRun *run)
{
  const double step = 0.05 * (run->item % 3),
               share = part_kind (run->part) == PART_DRAIN ? 0.12 + step : 0.6 + step;
  Point3 place = run->points[0];
  double longest = -1;

  for (unsigned i = 0; i + 1 < run->n_points; i++) {
    const Point3 *a = &run->points[i], *b = &run->points[i + 1];
    const double length = hypot (b->x - a->x, b->z - a->z);

    if (length > longest)
      place = (Point3){a->x + (b->x - a->x) * share, a->y, a->z + (b->z - a->z) * share};
    longest = MAX (longest, length);
  }
  return place;
}

static void
add_balloon (GArray *balloons, const DrawingView *view, Rect place, unsigned number, Point3 at)
{
  Balloon balloon = {number, place.x + view_x (view, at.x), place.y + view_y (view, at.z)};

  g_array_append_val (balloons, balloon);
}

/* The figure with a column of numbers on either side, drawn as one block. */
static void
add_elevation (Build *build, const Plumbing *plumbing)
{
  Flow *flow = &build->flow;
  const unsigned layers = LAYER_BIT (LAYER_BODY) | LAYER_BIT (LAYER_WATER) | LAYER_BIT (LAYER_FLOW);
  Figure *figure = figure_new (build->design, build->catalogue, build->evaluation, &build->style,
                               SCENE_SYSTEM, PROJECTION_FRONT, layers, build->engine,
                               flow->content.width * 0.6 - 2 * BALLOON_COLUMN, flow->content.height - 30);
  g_autoptr (GArray) balloons = g_array_new (FALSE, FALSE, sizeof (Balloon));
  Page *page = flow->page;
  unsigned left_out;
  Rect place;

  if (figure == NULL)
    return;
  /* The columns are part of the figure's room. */
  figure->view.width += 2 * BALLOON_COLUMN;
  figure->view.origin_x += BALLOON_COLUMN;
  layout_free (figure->layout);
  figure->layout = layout_new (figure->scene, &figure->view, build->engine, NULL);
  place = flow_figure (flow, figure, 95 * SHEET_MM);
  for (unsigned i = 0; i < plumbing->runs->len; i++) {
    const PlumbingRun *run = g_ptr_array_index (plumbing->runs, i);

    add_balloon (balloons, &figure->view, place, run->item, number_place (run));
  }
  for (unsigned i = 0; i < plumbing->parts->len; i++) {
    const PlumbingPart *part = g_ptr_array_index (plumbing->parts, i);

    for (unsigned k = 0; k < part->at->len; k++)
      add_balloon (balloons, &figure->view, place, part->item, g_array_index (part->at, Point3, k));
  }
  left_out = balloons_draw (page, build->engine, place, (const Balloon *) balloons->data, balloons->len);
  if (left_out > 0) {
    g_autofree char *text =
        g_strdup_printf (ngettext ("%u item number does not fit on the elevation: see the lists.",
                                   "%u item numbers do not fit on the elevation: see the lists.", left_out),
                         left_out);

    build_note (build, text);
  }
}

static char *
item_text (unsigned item)
{
  return g_strdup_printf ("%u", item);
}

static void
add_runs (Build *build, const Plumbing *plumbing)
{
  static const TableColumn columns[] = {{N_ ("Item"), COLUMN_BALLOON},  {N_ ("Run"), COLUMN_TEXT},
                                        {N_ ("Pipe"), COLUMN_TEXT},     {N_ ("Outside"), COLUMN_NUMBER},
                                        {N_ ("Inside"), COLUMN_NUMBER}, {N_ ("Axis length"), COLUMN_NUMBER}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < plumbing->runs->len; i++) {
    const PlumbingRun *run = g_ptr_array_index (plumbing->runs, i);
    const PipeSize *size = run->size;
    const FieldId field = part_kind (run->part) == PART_DRAIN ? FIELD_DRAIN_SIZE : FIELD_RETURN_SIZE;
    g_autofree char *name = words_value (build->design, build->catalogue, run->part, field, &build->style);

    table_add (table, item_text (run->item), words_part (build->design, run->part),
               size != NULL && size->standard[0] != '\0' ? g_strdup_printf ("%s, %s", name, size->standard)
                                                         : g_strdup (name),
               build_bore (build, size != NULL ? size->outside_m : (double) NAN),
               build_bore (build, size != NULL ? size->inside_m : (double) NAN),
               build_size (build, run->length_m));
  }
  table_flow (table, &build->flow, _ ("Runs"));
}

static void
add_parts (Build *build, const Plumbing *plumbing)
{
  static const TableColumn columns[] = {{N_ ("Item"), COLUMN_BALLOON},
                                        {N_ ("Number"), COLUMN_NUMBER},
                                        {N_ ("Part"), COLUMN_TEXT},
                                        {N_ ("Size"), COLUMN_TEXT},
                                        {N_ ("Where, from the start of the run"), COLUMN_TEXT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < plumbing->parts->len; i++) {
    const PlumbingPart *part = g_ptr_array_index (plumbing->parts, i);

    table_add (table, item_text (part->item), item_text (part->count), g_strdup (part->name),
               g_strdup (part->size != NULL ? part->size->name : UNITS_NO_VALUE),
               g_strdup (part->places->len > 0 ? part->places->str : _ ("see the cut list")));
  }
  table_flow (table, &build->flow, _ ("Fittings and valves"));
  build_note (
      build,
      _ ("A union at every pump, check valve and gate valve, also where this list has none. Hole sizes "
         "are taken from the bulkhead in hand, never from a table. Valves by hand within reach of the "
         "door."));
}

/* Up, down, left, right, to the back or to the front, when it is nearly so. */
static const char *
way_of (const PipePiece *piece)
{
  const double most = 0.98;

  if (piece->dz > most)
    return _ ("up");
  if (piece->dz < -most)
    return _ ("down");
  if (piece->dx > most)
    return _ ("right");
  if (piece->dx < -most)
    return _ ("left");
  if (piece->dy > most)
    return _ ("back");
  if (piece->dy < -most)
    return _ ("front");
  return _ ("sloping");
}

static char *
cut_text (const Build *build, const PipePiece *piece)
{
  if (!isfinite (piece->cut_m))
    return g_strdup (UNITS_NO_VALUE);
  return piece->cut_m > 0.001 ? build_size (build, piece->cut_m) : g_strdup (_ ("no room"));
}

static void
add_cut_list (Build *build, const Plumbing *plumbing)
{
  static const TableColumn columns[] = {{N_ ("Item"), COLUMN_BALLOON}, {N_ ("Piece"), COLUMN_NUMBER},
                                        {N_ ("Way"), COLUMN_TEXT},     {N_ ("Axis length"), COLUMN_BUILT},
                                        {N_ ("Cut to"), COLUMN_BUILT}, {N_ ("At its end"), COLUMN_TEXT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < plumbing->runs->len; i++) {
    const PlumbingRun *run = g_ptr_array_index (plumbing->runs, i);
    for (unsigned k = 0; k < run->pieces->len; k++) {
      const PipePiece *piece = &g_array_index (run->pieces, PipePiece, k);

      table_add (table, item_text (run->item), item_text (k + 1), g_strdup (way_of (piece)),
                 build_size (build, piece->axis_m), cut_text (build, piece), g_strdup (piece->joins));
    }
  }
  table_flow (table, &build->flow, _ ("Cut list, in the direction of flow"));
  build_note (build,
              _ ("The item is the run's. Axis lengths run from centre to centre. Cut lengths reach to "
                 "the bottoms of the sockets: elbows and tees by the least laying lengths of ASTM D2466,"
                 " D2467 or EN ISO 1452-3; unions and valves by common practice, so measure the part in "
                 "hand before cutting. “—”: the standard has no figure, take the fitting in hand off the"
                 " axis length. “no room”: the fittings stand closer than their sockets allow; ask "
                 "before cutting. At a pump and at a nozzle the length ends at its port."));
}

static void
add_drain_heights (Build *build, const Plumbing *plumbing, Table *table)
{
  for (unsigned i = 0; i < plumbing->runs->len; i++) {
    const PlumbingRun *run = g_ptr_array_index (plumbing->runs, i);
    const Part *sump = design_nth (build->design, PART_SUMP, 0);

    if (part_kind (run->part) != PART_DRAIN)
      continue;
    g_autofree char *name = words_part (build->design, run->part);

    table_add (table, item_text (run->item),
               g_strdup_printf (_ ("%s, lip above the underside of the tank"), name),
               build_size (build, geometry_mouth (build->design, run->part) -
                                      geometry_datum (build->design, run->part)));
    table_add (table, item_text (run->item),
               g_strdup_printf (_ ("%s, end above the sump's inside bottom"), name),
               build_size (build, geometry_drain_end (build->design, run->part) -
                                      geometry_inside (build->design, sump).origin.z));
  }
}

static void
add_outlet_heights (Build *build, Table *table)
{
  for (unsigned i = 0; i < design_count (build->design, PART_OUTLET); i++) {
    const Part *outlet = design_nth (build->design, PART_OUTLET, i);
    const double datum = geometry_datum (build->design, outlet);
    g_autofree char *name = words_part (build->design, outlet);
    g_autofree char *nozzle = build_field (build, outlet, FIELD_OUTLET_BORE);
    g_autofree char *bore = build_field (build, outlet, FIELD_OUTLET_BREAK_BORE);

    table_add (table, NULL,
               g_strdup_printf (_ ("%s, centre of the mouth above the underside of the tank; nozzle bore %s"),
                                name, nozzle),
               build_size (build, geometry_outlet (build->design, outlet) - datum));
    if (design_choice (build->design, outlet, FIELD_OUTLET_BREAK) != 0)
      table_add (
          table, NULL,
          g_strdup_printf (_ ("%s, centre of the siphon break, two holes of %s, above the underside of the "
                              "tank; keep them clean"),
                           name, bore),
          build_size (build, geometry_break (build->design, outlet) - datum));
  }
}

/* What makes a hang-over siphon box, and that nothing is drilled for it. */
static void
add_siphon_box (Build *build)
{
  for (unsigned i = 0; i < design_count (build->design, PART_OVERFLOW); i++) {
    const Part *overflow = design_nth (build->design, PART_OVERFLOW, i);
    g_autofree char *name = words_part (build->design, overflow);
    g_autofree char *bore = units_format (design_number (build->design, overflow, FIELD_OVERFLOW_TUBE_BORE),
                                          QUANTITY_DIAMETER, &build->style, NULL, UNITS_BUILD);
    g_autofree char *note = NULL;

    if (!geometry_hangs_over (build->design, overflow))
      continue;
    note = g_strdup_printf (_ ("%s hangs over the rim: no hole is drilled in the tank for it. Siphon tubes: "
                               "%u of %s bore, each bent "
                               "twice, crown up, without a joint that could let air in. It can lose its "
                               "prime; an air pump on the "
                               "crown is never counted as safety."),
                            name, geometry_tubes (build->design, overflow), bore);
    build_note (build, note);
  }
}

static void
add_siphon_box_heights (Build *build, Table *table, const Part *overflow, const char *name)
{
  const double datum = geometry_datum (build->design, overflow);

  if (!geometry_hangs_over (build->design, overflow))
    return;
  table_add (
      table, NULL,
      g_strdup_printf (_ ("%s, top of the wall that holds the seal, above the underside of the tank"), name),
      build_size (build, geometry_seal (build->design, overflow) - datum));
  table_add (table, NULL,
             g_strdup_printf (_ ("%s, both ends of the siphon tubes above the underside of the tank"), name),
             build_size (build, design_number (build->design, overflow, FIELD_OVERFLOW_TUBE_END)));
  table_add (
      table, NULL,
      g_strdup_printf (_ ("%s, highest point inside the siphon tubes above the underside of the tank"), name),
      build_size (build, geometry_crown (build->design, overflow) - datum));
}

static void
add_heights (Build *build, const Plumbing *plumbing)
{
  static const TableColumn columns[] = {
      {N_ ("Item"), COLUMN_BALLOON}, {N_ ("Height of"), COLUMN_TEXT}, {N_ ("Height"), COLUMN_BUILT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  g_autofree char *play = build_size (build, LEVEL_PLAY_M);
  g_autofree char *heading = g_strdup_printf (_ ("Heights to set, all within %s"), play);

  for (unsigned i = 0; i < design_count (build->design, PART_OVERFLOW); i++) {
    const Part *overflow = design_nth (build->design, PART_OVERFLOW, i);
    g_autofree char *name = words_part (build->design, overflow);

    table_add (table, NULL, g_strdup_printf (_ ("%s, crest above the underside of the tank"), name),
               build_size (build, geometry_crest (build->design, overflow) -
                                      geometry_datum (build->design, overflow)));
    add_siphon_box_heights (build, table, overflow, name);
  }
  add_drain_heights (build, plumbing, table);
  add_outlet_heights (build, table);
  table_flow (table, &build->flow, heading);
}

void
build_plumbing_pages (Build *build)
{
  g_autoptr (Plumbing) plumbing = plumbing_new (build->design, build->catalogue, &build->style);

  flow_section (&build->flow, _ ("Plumbing"), 2);
  add_elevation (build, plumbing);
  add_runs (build, plumbing);
  add_parts (build, plumbing);
  add_cut_list (build, plumbing);
  add_heights (build, plumbing);
  add_siphon_box (build);
}
