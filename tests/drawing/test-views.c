/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The projections of one design: what is where, that it is the same part in each, and that nothing breaks them. */
#include "tests/drawing/fixture.h"

#include <math.h>
#include <string.h>

#include "design/choices.h"
#include "design/draft.h"
#include "design/edit.h"
#include "design/geometry.h"
#include "drawing/painter.h"

static Scene *
build (const Design *design, const Evaluation *evaluation, SceneKind kind, SceneProjection projection)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = kind, .projection = projection, .style = &style};
  return scene_build (design, catalogue, evaluation, &options);
}

/* Vessels lie where the design has them: the sides of a box of space are the sides of its picture. */
static void
test_places (void)
{
  g_autoptr (Design) design = fixture_design ();
  static const char *const vessels[] = {"sump", "tank", "reservoir"};
  for (SceneProjection v = PROJECTION_FRONT; v <= PROJECTION_PLAN; v++) {
    g_autoptr (Scene) scene = fixture_view (SCENE_SYSTEM, v, true);
    for (unsigned i = 0; i < G_N_ELEMENTS (vessels); i++) {
      const Part *part = design_find (design, vessels[i]);
      if (part == NULL)
        continue;
      Box3 box = geometry_outside (design, part);
      SceneBox seen;
      g_assert_true (scene_part_bounds (scene, design_index (design, vessels[i]), &seen));
      double x = v == PROJECTION_END ? box.origin.y : box.origin.x;
      double z = v == PROJECTION_PLAN ? box.origin.y : box.origin.z;
      double width = v == PROJECTION_END ? box.size.y : box.size.x;
      double height = v == PROJECTION_PLAN ? box.size.y : box.size.z;
      g_assert_cmpfloat_with_epsilon (seen.x0, x, 1e-9);
      g_assert_cmpfloat_with_epsilon (seen.z0, z, 1e-9);
      g_assert_cmpfloat_with_epsilon (seen.x1 - seen.x0, width, 1e-9);
      g_assert_cmpfloat_with_epsilon (seen.z1 - seen.z0, height, 1e-9);
    }
  }
}

/* ISO 5456-3: in an isometric picture a box L x W x H is (L + W) cos 30 degrees wide and H + (L + W) / 2 high. */
static void
test_isometric_size (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Scene) scene = fixture_view (SCENE_SYSTEM, PROJECTION_ISOMETRIC, true);
  Box3 box = geometry_outside (design, design_find (design, "tank"));
  SceneBox seen;
  g_assert_true (scene_part_bounds (scene, design_index (design, "tank"), &seen));
  double across = box.size.x + box.size.y;
  g_assert_cmpfloat_with_epsilon (seen.x1 - seen.x0, across * cos (G_PI / 6), 1e-9);
  g_assert_cmpfloat_with_epsilon (seen.z1 - seen.z0, box.size.z + across * sin (G_PI / 6), 1e-9);
}

static bool
has_geometry (PartKind kind, SceneProjection view)
{
  switch ((int) kind) {
  case PART_JOB:
  case PART_ROOM:
  case PART_CANDIDATE:
  case PART_CORNER:
    return false;
  case PART_STAND:
  case PART_BAFFLE:
  case PART_DEVICE:
    return view != PROJECTION_ISOMETRIC;
  default:
    return true;
  }
}

/* Each part of the fixture, none of which is wholly hidden, is drawn in each view, and a place on it picks it. */
static void
test_every_part_can_be_picked (void)
{
  g_autoptr (Design) design = fixture_design ();
  for (SceneProjection v = PROJECTION_FRONT; v < N_SCENE_PROJECTIONS; v++) {
    g_autoptr (Scene) scene = fixture_view (SCENE_SYSTEM, v, true);
    g_autoptr (TextEngine) engine = text_engine_new (false);
    DrawingView view = drawing_view_screen (2400, 1800, 1);
    view = layout_fit (scene, &view, engine);
    for (unsigned i = 0; i < scene_n_parts (scene); i++) {
      bool found = false, drawn = false;
      for (unsigned k = 0; k < scene_n_items (scene) && !found; k++) {
        const SceneItem *item = scene_item (scene, k);
        if (item->part != (int) i || item->n < 1 || item->shape > SHAPE_ARC)
          continue;
        drawn = true;
        const ScenePoint *p = scene_points (scene, item);
        unsigned other = item->shape == SHAPE_AREA ? 2 : item->n > 1;
        double x = (p[0].x + p[other].x) / 2 + item->radius, z = (p[0].z + p[other].z) / 2;
        SceneHit hits[64];
        unsigned n = scene_pick_all (scene, &view, view_x (&view, x), view_y (&view, z), 3, hits, 64);
        for (unsigned h = 0; h < MIN (n, 64); h++)
          found = found || hits[h].part == (int) i;
      }
      if (has_geometry (part_kind (design_part (design, i)), v) && !(drawn && found))
        g_error ("%s is not %s in view %d", scene_part_key (scene, (int) i), drawn ? "picked" : "drawn",
                 (int) v);
    }
  }
}

/* The design with a handle moved along an axis. */
static Design *
move_handle (const Design *design, const SceneHandle *handle, const char *key, SceneAxis axis, double by)
{
  g_autoptr (Draft) draft = draft_new (design);
  Problem problem;
  for (unsigned k = 0; k < handle->n_moves; k++) {
    SceneMove move = handle->moves[k];
    double value = design_number (design, design_find (design, key), move.field) + move.gain * by;
    if (move.axis == axis && !draft_set_number (draft, key, move.field, value, &problem))
      return NULL;
  }
  return draft_commit (draft, NULL);
}

/* Moving each handle along each of its axes moves it by as much, whatever fields are behind it. */
static void
check_handle (const Design *design, const Scene *scene, int part, unsigned i, SceneProjection view)
{
  const SceneHandle *handle = scene_handle (scene, part, i);
  const char *key = scene_part_key (scene, part);
  for (unsigned k = 0; k < handle->n_moves; k++) {
    SceneMove move = handle->moves[k];
    double by = 0.003;
    if (field_info (move.field)->type != FIELD_NUMBER)
      continue;
    g_autoptr (Design) moved = move_handle (design, handle, key, move.axis, by);
    /* What stands at a limit goes the other way. */
    if (moved == NULL)
      moved = move_handle (design, handle, key, move.axis, by = -by);
    if (moved == NULL)
      g_error ("view %d, %s.%s does not move", (int) view, key, field_info (move.field)->name);
    g_autoptr (Scene) after = build (moved, NULL, SCENE_SYSTEM, view);
    const SceneHandle *now = scene_handle (after, part, i);
    double went = move.axis == AXIS_X ? now->x - handle->x : now->z - handle->z;
    if (fabs (went - by) > 1e-9)
      g_error ("view %d, %s.%s went %g m of %g m", (int) view, key, field_info (move.field)->name, went, by);
  }
}

static void
test_handles (void)
{
  g_autoptr (Design) design = fixture_design ();
  for (SceneProjection v = PROJECTION_END; v <= PROJECTION_PLAN; v++) {
    g_autoptr (Scene) scene = build (design, NULL, SCENE_SYSTEM, v);
    g_assert_cmpuint (scene_n_handles (scene, -1), >, 30);
    for (int part = 0; part < (int) design_n_parts (design); part++)
      for (unsigned i = 0; i < scene_n_handles (scene, part); i++)
        check_handle (design, scene, part, i, v);
  }
  g_autoptr (Scene) reading = build (design, NULL, SCENE_SYSTEM, PROJECTION_ISOMETRIC);
  g_assert_cmpuint (scene_n_handles (reading, -1), ==, 0);
}

/* What moves a field in the front moves it in another view too, if that view shows the way it goes. */
static void
test_handles_everywhere (void)
{
  static const FieldId end[] = {FIELD_TANK_Y,
                                FIELD_TANK_RIM,
                                FIELD_TANK_SUBSTRATE,
                                FIELD_OVERFLOW_CREST,
                                FIELD_OVERFLOW_BOX_WIDTH,
                                FIELD_OVERFLOW_BOX_DEPTH,
                                FIELD_DRAIN_MOUTH,
                                FIELD_DRAIN_END,
                                FIELD_DRAIN_Y,
                                FIELD_BAFFLE_HEIGHT,
                                FIELD_BAFFLE_GAP,
                                FIELD_CHAMBER_LEVEL,
                                FIELD_DEVICE_STANDS,
                                FIELD_PUMP_SUCTION,
                                FIELD_OUTLET_HEIGHT,
                                FIELD_OUTLET_BREAK_HEIGHT,
                                FIELD_FITTING_STATION,
                                FIELD_STAND_FLOOR,
                                FIELD_DRAIN_SIZE,
                                FIELD_RETURN_SIZE};
  static const FieldId plan[] = {
      FIELD_TANK_X,     FIELD_TANK_Y,   FIELD_OVERFLOW_X,   FIELD_OVERFLOW_BOX_LENGTH,
      FIELD_DRAIN_X,    FIELD_DRAIN_Y,  FIELD_SUMP_X,       FIELD_SUMP_Y,
      FIELD_BAFFLE_X,   FIELD_DEVICE_X, FIELD_DEVICE_WIDTH, FIELD_PUMP_X,
      FIELD_OUTLET_X,   FIELD_OUTLET_Y, FIELD_RESERVOIR_X,  FIELD_DRAIN_SIZE,
      FIELD_RETURN_SIZE};
  g_autoptr (Design) design = fixture_design ();
  for (SceneProjection v = PROJECTION_END; v <= PROJECTION_PLAN; v++) {
    const FieldId *fields = v == PROJECTION_END ? end : plan;
    const unsigned n = v == PROJECTION_END ? G_N_ELEMENTS (end) : G_N_ELEMENTS (plan);
    g_autoptr (Scene) scene = build (design, NULL, SCENE_SYSTEM, v);
    for (unsigned i = 0; i < n; i++) {
      bool found = false;
      for (unsigned h = 0; h < scene_n_handles (scene, -1); h++)
        for (unsigned k = 0; k < scene_handle (scene, -1, h)->n_moves; k++)
          found = found || scene_handle (scene, -1, h)->moves[k].field == fields[i];
      if (!found)
        g_error ("view %d has no handle for %s", (int) v, field_info (fields[i])->name);
    }
  }
}

/* A fixture with some of its numbers anywhere in their ranges; NULL where that is refused. */
static Design *
shaken (const Design *design, GRand *random)
{
  g_autoptr (Design) now = design_ref ((Design *) design);
  for (unsigned tries = 0; tries < 40; tries++) {
    const Part *part =
        design_part (now, (unsigned) g_rand_int_range (random, 0, (gint32) design_n_parts (now)));
    FieldId field = (FieldId) g_rand_int_range (random, 0, N_FIELDS);
    const FieldInfo *info = field_info (field);
    Problem problem;
    if (info->kind != part_kind (part) || info->type != FIELD_NUMBER)
      continue;
    double value = g_rand_double_range (random, info->min, info->max);
    Design *next = design_with_number (now, part_key (part), field, value, &problem);
    if (next == NULL)
      continue;
    design_unref (now);
    now = next;
  }
  return g_steal_pointer (&now);
}

static void
test_random_designs (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20);
  g_autoptr (Design) design = fixture_design ();
  for (unsigned i = 0; i < 60; i++) {
    g_autoptr (Design) odd = shaken (design, random);
    g_autofree Evaluation *evaluation = fixture_evaluation (odd);
    for (SceneProjection v = PROJECTION_FRONT; v < N_SCENE_PROJECTIONS; v++)
      for (SceneKind kind = SCENE_SYSTEM; kind < N_SCENE_KINDS; kind++) {
        g_autoptr (Scene) scene = build (odd, evaluation, kind, v);
        for (unsigned k = 0; k < scene_n_items (scene); k++) {
          const SceneItem *item = scene_item (scene, k);
          const ScenePoint *p = scene_points (scene, item);
          for (unsigned n = 0; n < item->n; n++)
            g_assert_true (isfinite (p[n].x) && isfinite (p[n].z));
        }
        g_autofree char *dump = scene_dump (scene);
        g_assert_null (strstr (dump, "nan"));
        g_assert_null (strstr (dump, "inf"));
        SceneBox box = scene_outline (scene);
        g_assert_cmpfloat (box.x0, <, box.x1);
        g_assert_cmpfloat (box.z0, <, box.z1);
      }
  }
}

/* A sump or stand alone can be seen from any side. */
static void
test_kinds (void)
{
  g_autoptr (Design) design = fixture_design ();
  for (SceneProjection v = PROJECTION_FRONT; v <= PROJECTION_PLAN; v++) {
    g_autoptr (Scene) sump = fixture_view (SCENE_SUMP, v, true);
    g_autoptr (Scene) stand = fixture_view (SCENE_STAND, v, true);
    SceneBox box;
    g_assert_true (scene_part_bounds (sump, design_index (design, "sump"), &box));
    g_assert_false (scene_part_bounds (sump, design_index (design, "tank"), &box));
    g_assert_true (scene_part_bounds (stand, design_index (design, "stand"), &box));
    g_assert_false (scene_part_bounds (stand, design_index (design, "tank"), &box));
  }
}

/* The tubes of a hang-over siphon box rise over the tank's edge to their crown, and its outer box lies behind the tank. */
static void
test_siphon_box (void)
{
  g_autoptr (Design) drilled = fixture_design ();
  Problem problem;
  g_autoptr (Design) design =
      design_with_number (drilled, "overflow", FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER, &problem);
  g_assert_nonnull (design);
  const Part *overflow = design_find (design, "overflow");
  Box3 tank = geometry_outside (design, design_find (design, "tank"));
  Box3 behind = geometry_drain_box (design, overflow);
  for (SceneProjection v = PROJECTION_FRONT; v <= PROJECTION_PLAN; v++) {
    g_autoptr (Scene) scene = build (design, NULL, SCENE_SYSTEM, v);
    SceneBox seen;
    g_assert_true (scene_part_bounds (scene, design_index (design, "overflow"), &seen));
    if (v != PROJECTION_PLAN) {
      g_assert_cmpfloat (seen.z1, >, tank.origin.z + tank.size.z);
      g_assert_cmpfloat_with_epsilon (seen.z1, geometry_crown (design, overflow), 0.004); /* its wall */
    }
    double back = v == PROJECTION_END ? seen.x1 : seen.z1;
    if (v != PROJECTION_FRONT)
      g_assert_cmpfloat_with_epsilon (back, behind.origin.y + behind.size.y, 1e-9);
  }
}

/* Share of the pictures' room that texts take, with none of them over another. */
static double
share_of_text (const Layout *layout, const DrawingView *view)
{
  double sum = 0;
  for (unsigned i = 0; i < layout->texts->len; i++) {
    LayoutBox a = g_array_index (layout->texts, LayoutText, i).box;
    sum += a.width * a.height;
    for (unsigned k = 0; k < i; k++) {
      LayoutBox b = g_array_index (layout->texts, LayoutText, k).box;
      g_assert_false (a.x + 0.5 < b.x + b.width && b.x + 0.5 < a.x + a.width && a.y + 0.5 < b.y + b.height &&
                      b.y + 0.5 < a.y + a.height);
    }
  }
  return sum / (view->width * view->height);
}

/* 200 parts, in a large window and in a small one: what there is no room for is left out, the tanks last. */
static void
test_crowd (void)
{
  static const double sizes[][2] = {{1400, 900}, {660, 480}};
  for (SceneProjection v = PROJECTION_FRONT; v < N_SCENE_PROJECTIONS; v++)
    for (unsigned i = 0; i < G_N_ELEMENTS (sizes); i++) {
      g_autoptr (Scene) scene = fixture_many_view (v);
      g_autoptr (TextEngine) engine = text_engine_new (false);
      DrawingView view = drawing_view_screen (sizes[i][0], sizes[i][1], 1);
      view = layout_fit (scene, &view, engine);
      g_autoptr (Layout) layout = layout_new (scene, &view, engine, NULL);
      g_assert_cmpfloat (share_of_text (layout, &view), <, 0.15);
      bool named = i > 0;
      for (unsigned k = 0; k < layout->texts->len; k++)
        named = named || g_str_has_prefix (g_array_index (layout->texts, LayoutText, k).text, "Tank ");
      g_assert_true (named);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/views/places", test_places);
  g_test_add_func ("/drawing/views/isometric-size", test_isometric_size);
  g_test_add_func ("/drawing/views/every-part-can-be-picked", test_every_part_can_be_picked);
  g_test_add_func ("/drawing/views/handles", test_handles);
  g_test_add_func ("/drawing/views/handles-everywhere", test_handles_everywhere);
  g_test_add_func ("/drawing/views/random-designs", test_random_designs);
  g_test_add_func ("/drawing/views/crowd", test_crowd);
  g_test_add_func ("/drawing/views/kinds", test_kinds);
  g_test_add_func ("/drawing/views/siphon-box", test_siphon_box);
  return g_test_run ();
}
