/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The middle of every drawn outline picks its own part, or what is drawn over it, at every zoom. */
#include "tests/drawing/fixture.h"

#include <math.h>

static bool
is_outline (const SceneItem *item)
{
  return item->shape == SHAPE_LINE && item->part >= 0 &&
         (item->role == ROLE_CUT || item->role == ROLE_OUTLINE || item->role == ROLE_PIPE ||
          item->role == ROLE_DEVICE || item->role == ROLE_FITTING);
}

/* Returns 1 when the part of an outline is the first picked at the middle of its edge. */
static unsigned
check_edge (const Scene *scene, const DrawingView *view, const SceneItem *item, unsigned k)
{
  const ScenePoint *p = scene_points (scene, item);
  double x = (view_x (view, p[k].x) + view_x (view, p[k - 1].x)) / 2;
  double y = (view_y (view, p[k].z) + view_y (view, p[k - 1].z)) / 2;
  SceneHit hits[32];
  unsigned n = MIN (scene_pick_all (scene, view, x, y, 3, hits, G_N_ELEMENTS (hits)), G_N_ELEMENTS (hits));
  g_assert_cmpuint (n, >, 0);
  for (unsigned i = 0; i < n; i++) {
    if (hits[i].part == item->part)
      return i == 0;
    /* What comes before it is a line that is at least as high: nothing lower may hide it. */
    g_assert_cmpint (scene_item (scene, hits[i].item)->shape, !=, SHAPE_AREA);
    g_assert_cmpint (scene_item (scene, hits[i].item)->role, >=, item->role);
  }
  g_error ("an outline of %s cannot be picked", scene_part_key (scene, item->part));
}

static void
test_outlines (void)
{
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  for (double scale = 120; scale < 40000; scale *= 4) {
    DrawingView view = drawing_view_screen (1280, 900, 1);
    view.scale = scale;
    view.origin_x = 311;
    view.origin_y = 777;
    unsigned all = 0, first = 0;
    for (unsigned i = 0; i < scene_n_items (scene); i++) {
      const SceneItem *item = scene_item (scene, i);
      for (unsigned k = 1; is_outline (item) && k < item->n; k++) {
        all++;
        first += check_edge (scene, &view, item, k);
      }
    }
    g_assert_cmpuint (all, >, 100);
    g_assert_cmpuint (10 * first, >, 8 * all);
  }
}

static void
test_cycle (void)
{
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  DrawingView view = drawing_view_screen (1280, 900, 1);
  view.scale = 500;
  view.origin_x = 200;
  view.origin_y = 800;
  /* In the middle of the trickle channel's pipe inside the box: pipe, box and tank lie on each other. */
  double x = view_x (&view, 0.157), y = view_y (&view, 1.2);
  SceneHit hits[16];
  unsigned n = scene_pick_all (scene, &view, x, y, 4, hits, G_N_ELEMENTS (hits));
  g_assert_cmpuint (n, >=, 3);
  g_assert_cmpstr (scene_part_key (scene, hits[0].part), ==, "trickle");
  int part = -1;
  for (unsigned i = 0; i < n; i++) {
    part = scene_pick (scene, &view, x, y, 4, part);
    g_assert_cmpint (part, ==, hits[i].part);
  }
  g_assert_cmpint (scene_pick (scene, &view, x, y, 4, part), ==, hits[0].part);
}

static void
test_nothing (void)
{
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  DrawingView view = drawing_view_screen (1280, 900, 1);
  view.scale = 500;
  g_assert_cmpint (scene_pick (scene, &view, -1e6, -1e6, 4, -1), ==, -1);
  SceneHit hit;
  view.layers = 0;
  g_assert_cmpuint (scene_pick_all (scene, &view, 100, -600, 1000, &hit, 1), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/pick/outlines", test_outlines);
  g_test_add_func ("/drawing/pick/cycle", test_cycle);
  g_test_add_func ("/drawing/pick/nothing", test_nothing);
  return g_test_run ();
}
