/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The scene as text against golden/, its bounds at extreme sizes, and handles that move what they say. */
#include "tests/drawing/fixture.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "design/draft.h"

/* One token of a dump against another: numbers to 2e-6, the rest exactly. */
static bool
same_token (const char *a, const char *b)
{
  char *end_a, *end_b;
  double x = g_ascii_strtod (a, &end_a), y = g_ascii_strtod (b, &end_b);
  if (end_a != a && *end_a == '\0' && end_b != b && *end_b == '\0')
    return fabs (x - y) <= 2e-6;
  return strcmp (a, b) == 0;
}

static void
compare (const char *name, const char *text)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "drawing", "golden", name, NULL);
  g_autofree char *golden = NULL;
  g_autoptr (GError) error = NULL;
  if (!g_file_get_contents (path, &golden, NULL, &error))
    g_error ("%s", error->message);
  g_auto (GStrv) want = g_strsplit (golden, "\n", -1);
  g_auto (GStrv) got = g_strsplit (text, "\n", -1);
  for (unsigned i = 0; want[i] != NULL || got[i] != NULL; i++) {
    if (want[i] == NULL || got[i] == NULL)
      g_error ("%s has another number of lines", name);
    g_auto (GStrv) a = g_strsplit (want[i], " ", -1);
    g_auto (GStrv) b = g_strsplit (got[i], " ", -1);
    bool same = g_strv_length (a) == g_strv_length (b);
    for (unsigned k = 0; same && a[k] != NULL; k++)
      same = same_token (a[k], b[k]);
    if (!same)
      g_error ("%s:%u:\n  want %s\n  got  %s", name, i + 1, want[i], got[i]);
  }
}

static void
test_golden (void)
{
  static const struct {
    const char *name;
    SceneKind kind;
    bool water;
    SceneProjection view;
  } rows[] = {{"system.txt", SCENE_SYSTEM, true, PROJECTION_FRONT},
              {"system-dry.txt", SCENE_SYSTEM, false, PROJECTION_FRONT},
              {"sump.txt", SCENE_SUMP, true, PROJECTION_FRONT},
              {"stand.txt", SCENE_STAND, false, PROJECTION_FRONT},
              {"end.txt", SCENE_SYSTEM, true, PROJECTION_END},
              {"plan.txt", SCENE_SYSTEM, true, PROJECTION_PLAN},
              {"isometric.txt", SCENE_SYSTEM, true, PROJECTION_ISOMETRIC}};
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (Scene) scene = fixture_view (rows[i].kind, rows[i].view, rows[i].water);
    g_autofree char *text = scene_dump (scene);
    compare (rows[i].name, text);
  }
}

static void
check_finite (const Scene *scene)
{
  for (unsigned i = 0; i < scene_n_items (scene); i++) {
    const SceneItem *item = scene_item (scene, i);
    const ScenePoint *p = scene_points (scene, item);
    g_assert_cmpint (item->part, <, (int) scene_n_parts (scene));
    for (unsigned k = 0; k < item->n; k++)
      g_assert_true (isfinite (p[k].x) && isfinite (p[k].z));
  }
  SceneBox box = scene_bounds (scene);
  g_assert_cmpfloat (box.x0, <, box.x1);
  g_assert_cmpfloat (box.z0, <, box.z1);
}

static void
test_extreme_sizes (void)
{
  static const double lengths[] = {0.2, 0.3, 0.6, 1, 3, 8, 20};
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  NumberStyle style = number_style_us ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &style};
  for (unsigned i = 0; i < G_N_ELEMENTS (lengths); i++) {
    g_autoptr (Design) design = fixture_sized (lengths[i]);
    g_autofree Evaluation *evaluation = fixture_evaluation (design);
    g_autoptr (Scene) scene = scene_build (design, catalogue, evaluation, &options);
    check_finite (scene);
  }
}

/* An evaluation full of NAN and a catalogue without a single pipe are bad news, not a crash. */
static void
test_nothing_known (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autofree Evaluation *evaluation = fixture_evaluation (design);
  for (unsigned i = 0; i < evaluation->n_vessels; i++)
    evaluation->vessels[i].running_z = evaluation->vessels[i].power_off_z = (double) NAN;
  for (unsigned i = 0; i < evaluation->n_runs; i++)
    evaluation->runs[i].velocity_ms = (double) NAN;
  for (unsigned i = 0; i < evaluation->n_drains; i++)
    evaluation->drains[i].bore_m = 0;
  evaluation->findings[0].part = 12345;
  g_autoptr (Catalogue) catalogue = catalogue_new ();
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &style};
  g_autoptr (Scene) scene = scene_build (design, catalogue, evaluation, &options);
  check_finite (scene);
  for (unsigned i = 0; i < scene_n_items (scene); i++)
    g_assert_cmpint (scene_item (scene, i)->role, !=, ROLE_CHEVRON);
}

static void
test_part_bounds (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  SceneBox box;
  g_assert_true (scene_part_bounds (scene, design_index (design, "tank"), &box));
  g_assert_cmpfloat_with_epsilon (box.x1 - box.x0, 1.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.z1 - box.z0, 0.6, 1e-9);
  g_assert_false (scene_part_bounds (scene, design_index (design, "job"), &box));
  g_assert_cmpstr (scene_part_key (scene, design_index (design, "tank")), ==, "tank");
  g_assert_cmpstr (scene_part_key (scene, -1), ==, "");
}

/* The design with a handle moved along an axis, or NULL. */
static Design *
move_handle (const Design *design, const SceneHandle *handle, const char *key, SceneAxis axis, double by)
{
  g_autoptr (Draft) draft = draft_new (design);
  for (unsigned k = 0; k < handle->n_moves; k++) {
    SceneMove move = handle->moves[k];
    double value = design_number (design, design_find (design, key), move.field) + move.gain * by;
    if (move.axis == axis && !draft_set_number (draft, key, move.field, value, NULL))
      return NULL;
  }
  return draft_commit (draft, NULL);
}

/* Moving each handle along each of its axes moves it by as much, whatever fields are behind it. */
static void
test_handles (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, false);
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &style};
  g_assert_cmpuint (scene_n_handles (scene, -1), >, 50);
  for (unsigned i = 0; i < scene_n_handles (scene, -1); i++) {
    const SceneHandle *handle = scene_handle (scene, -1, i);
    const char *key = scene_part_key (scene, handle->part);
    for (unsigned k = 0; k < handle->n_moves && field_info (handle->moves[0].field)->type == FIELD_NUMBER;
         k++) {
      SceneAxis axis = handle->moves[k].axis;
      double by = 0.003;
      g_autoptr (Design) moved = move_handle (design, handle, key, axis, by);
      /* What stands at a limit goes the other way. */
      if (moved == NULL)
        moved = move_handle (design, handle, key, axis, by = -0.003);
      if (moved == NULL)
        g_error ("%s.%s does not move", key, field_info (handle->moves[k].field)->name);
      g_autoptr (Scene) after = scene_build (moved, catalogue, NULL, &options);
      const SceneHandle *now = scene_handle (after, -1, i);
      double went = axis == AXIS_X ? now->x - handle->x : now->z - handle->z;
      if (fabs (went - by) > 1e-9)
        g_error ("%s.%s went %g m of %g m", key, field_info (handle->moves[k].field)->name, went, by);
    }
  }
  g_assert_null (scene_handle (scene, -1, 10000));
}

static void
test_letters (void)
{
  char letters[4];
  scene_finding_letters (0, letters);
  g_assert_cmpstr (letters, ==, "A");
  scene_finding_letters (25, letters);
  g_assert_cmpstr (letters, ==, "Z");
  scene_finding_letters (26, letters);
  g_assert_cmpstr (letters, ==, "AA");
  scene_finding_letters (100000, letters);
  g_assert_cmpstr (letters, ==, "ZZ");
}

/* Chevrons point the way of the water: with the flow turned round each keeps its tip and turns its wings. */
static void
test_runs_back (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = fixture_evaluation (design);
  NumberStyle style = number_style_metric ();
  const SceneOptions shown = {.kind = SCENE_SYSTEM, .style = &style};
  unsigned turned = 0;

  g_autoptr (Scene) on = scene_build (design, catalogue, evaluation, &shown);
  for (unsigned i = 0; i < evaluation->n_runs; i++) {
    evaluation->runs[i].flow_m3s *= -1;
    evaluation->runs[i].velocity_ms *= -1;
  }
  g_autoptr (Scene) back = scene_build (design, catalogue, evaluation, &shown);
  for (unsigned i = 0, k = 0; i < scene_n_items (on); i++) {
    const SceneItem *item = scene_item (on, i);

    if (item->role != ROLE_CHEVRON)
      continue;
    while (scene_item (back, k)->role != ROLE_CHEVRON)
      k++;
    const SceneItem *other = scene_item (back, k++);
    const ScenePoint *p = scene_points (on, item), *q = scene_points (back, other);
    const Part *part = design_part (design, (unsigned) item->part);

    g_assert_cmpint (item->part, ==, other->part);
    g_assert_cmpfloat_with_epsilon (p[1].x, q[1].x, 1e-9);
    g_assert_cmpfloat_with_epsilon (p[1].z, q[1].z, 1e-9);
    if (part_kind (part) != PART_RETURN)
      continue;
    g_assert_cmpfloat_with_epsilon (p[0].x + q[0].x, 2 * p[1].x, 1e-9);
    g_assert_cmpfloat_with_epsilon (p[0].z + q[0].z, 2 * p[1].z, 1e-9);
    turned++;
  }
  g_assert_cmpuint (turned, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/scene/golden", test_golden);
  g_test_add_func ("/drawing/scene/extreme-sizes", test_extreme_sizes);
  g_test_add_func ("/drawing/scene/nothing-known", test_nothing_known);
  g_test_add_func ("/drawing/scene/part-bounds", test_part_bounds);
  g_test_add_func ("/drawing/scene/handles", test_handles);
  g_test_add_func ("/drawing/scene/letters", test_letters);
  g_test_add_func ("/drawing/scene/runs-back", test_runs_back);
  return g_test_run ();
}
