/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Labels, dimensions, levels and marks never overlap, stay in the view, and labels stand on no line. */
#include "tests/drawing/fixture.h"

#include <math.h>
#include <string.h>

#include "drawing/layout-private.h"
#include "tests/design/must.h"

static const char *
text_at (const Layout *layout, unsigned i)
{
  return g_array_index (layout->texts, LayoutText, i).text;
}

static void
check_texts (const Layout *layout)
{
  for (unsigned i = 0; i < layout->texts->len; i++) {
    LayoutBox a = g_array_index (layout->texts, LayoutText, i).box;
    g_assert_true (isfinite (a.x) && isfinite (a.y) && a.width > 0 && a.height > 0);
    for (unsigned k = 0; k < i; k++)
      if (boxes_overlap (a, g_array_index (layout->texts, LayoutText, k).box))
        g_error ("“%s” lies on “%s”", text_at (layout, i), text_at (layout, k));
    for (unsigned k = 0; k < layout->marks->len; k++) {
      const LayoutMark *mark = &g_array_index (layout->marks, LayoutMark, k);
      LayoutBox box = {mark->x - mark->size / 2, mark->y - mark->size / 2, mark->size, mark->size};
      if (mark->role == ROLE_FINDING && boxes_overlap (a, box))
        g_error ("“%s” lies on a mark", text_at (layout, i));
    }
  }
}

/* A text on no line of the layout; a rung's own line and a dimension's own line run under theirs. */
static void
check_lines (const Layout *layout)
{
  for (unsigned i = 0; i < layout->texts->len; i++) {
    const LayoutText *text = &g_array_index (layout->texts, LayoutText, i);
    for (unsigned k = 0; k < layout->lines->len && text->role == ROLE_LABEL; k++) {
      const LayoutLine *line = &g_array_index (layout->lines, LayoutLine, k);
      if (segment_meets_box (line->x0, line->y0, line->x1, line->y1, text->box))
        g_error ("a line runs through “%s”", text->text);
    }
  }
}

static void
check_outlines (const Scene *scene, const Layout *layout, const DrawingView *view)
{
  for (unsigned t = 0; t < layout->texts->len; t++) {
    const LayoutText *text = &g_array_index (layout->texts, LayoutText, t);
    if (text->role != ROLE_LABEL)
      continue;
    g_assert_cmpfloat (text->box.x, >=, 0);
    g_assert_cmpfloat (text->box.y, >=, 0);
    g_assert_cmpfloat (text->box.x + text->box.width, <=, view->width);
    g_assert_cmpfloat (text->box.y + text->box.height, <=, view->height);
    for (unsigned i = 0; i < scene_n_items (scene); i++) {
      const SceneItem *item = scene_item (scene, i);
      const ScenePoint *p = scene_points (scene, item);
      for (unsigned k = 1; item->shape == SHAPE_LINE && k < item->n; k++)
        if (segment_meets_box (view_x (view, p[k - 1].x), view_y (view, p[k - 1].z), view_x (view, p[k].x),
                               view_y (view, p[k].z), text->box))
          g_error ("an outline of %s runs through “%s”", scene_part_key (scene, item->part), text->text);
    }
  }
}

static void
check_view (const Scene *scene, const DrawingView *view, TextEngine *engine)
{
  g_autoptr (Layout) layout = layout_new (scene, view, engine, NULL);
  check_texts (layout);
  check_lines (layout);
  check_outlines (scene, layout, view);
}

static void
test_zooms (void)
{
  static const double sizes[][2] = {{400, 300}, {640, 900}, {1024, 700}, {1920, 1080}};
  g_autoptr (TextEngine) engine = text_engine_new (true);
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  for (unsigned i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (double zoom = 0.5; zoom < 40; zoom *= 2.3) {
      DrawingView view = drawing_view_screen (sizes[i][0], sizes[i][1], 1);
      view = layout_fit (scene, &view, engine);
      view = drawing_view_zoom (&view, 0.3 * view.width, 0.7 * view.height, zoom);
      check_view (scene, &view, engine);
    }
}

static void
test_sizes (void)
{
  static const double lengths[] = {0.2, 0.5, 2.5, 20};
  g_autoptr (TextEngine) engine = text_engine_new (true);
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  NumberStyle style = number_style_us ();
  for (SceneKind kind = SCENE_SYSTEM; kind < N_SCENE_KINDS; kind++)
    for (unsigned i = 0; i < G_N_ELEMENTS (lengths); i++) {
      SceneOptions options = {.kind = kind, .style = &style};
      g_autoptr (Design) design = fixture_sized (lengths[i]);
      g_autofree Evaluation *evaluation = fixture_evaluation (design);
      g_autoptr (Scene) scene = scene_build (design, catalogue, evaluation, &options);
      DrawingView view = drawing_view_paper (842, 595);
      view = layout_fit (scene, &view, engine);
      check_view (scene, &view, engine);
    }
}

/* Boxes outside the tank or on both sides of its pane, a plain weir, an outside pump, a run drawn aside. */
static void
test_kinds (void)
{
  static const struct {
    const char *key;
    FieldId field;
    double value;
  } rows[] = {{"overflow", FIELD_OVERFLOW_KIND, OVERFLOW_OUTSIDE},
              {"overflow", FIELD_OVERFLOW_KIND, OVERFLOW_PAIR},
              {"overflow", FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER},
              {"overflow", FIELD_OVERFLOW_WEIR, WEIR_PLAIN},
              {"overflow", FIELD_OVERFLOW_CLOSED, 1},
              {"overflow", FIELD_OVERFLOW_GAP, 0.001},
              {"pump", FIELD_PUMP_PLACING, PUMP_OUTSIDE},
              {"trickle", FIELD_DRAIN_X, 0.05},
              {"inlet", FIELD_CHAMBER_SOCKS, 12},
              {"tank", FIELD_TANK_RIM, 0.59},
              {"tank", FIELD_TANK_ROCK, 0.6},
              {"outlet-left", FIELD_OUTLET_BREAK, 0}};
  g_autoptr (TextEngine) engine = text_engine_new (true);
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &style};
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (Design) base = fixture_design ();
    Problem problem;
    g_autoptr (Design) design =
        design_with_number (base, rows[i].key, rows[i].field, rows[i].value, &problem);
    g_assert_nonnull (design);
    g_autofree Evaluation *evaluation = fixture_evaluation (design);
    g_autoptr (Scene) scene = scene_build (design, catalogue, evaluation, &options);
    DrawingView view = drawing_view_screen (1024, 700, 1);
    view = layout_fit (scene, &view, engine);
    check_view (scene, &view, engine);
  }
}

/* Two runs at one place cannot hide each other: one is drawn aside and its name says how far. */
static void
test_aside (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &style};
  g_autoptr (Design) base = fixture_design ();
  Problem problem;
  double x = design_number (base, design_find (base, "siphon"), FIELD_DRAIN_X);
  g_autoptr (Design) design = design_with_number (base, "trickle", FIELD_DRAIN_X, x, &problem);
  g_assert_nonnull (design);
  g_autoptr (Scene) scene = scene_build (design, catalogue, NULL, &options);
  g_autofree char *text = scene_dump (scene);
  g_assert_nonnull (strstr (text, "Trickle channel (drawn 45 to the right)"));
}

static bool
names (const Layout *layout, const char *text)
{
  for (unsigned i = 0; i < layout->texts->len; i++) {
    g_autofree char *in_one = g_strdelimit (g_strdup (text_at (layout, i)), "\n", ' ');
    if (strcmp (in_one, text) == 0)
      return true;
  }
  return false;
}

/* With room enough the things that a person would ask for are named, and every grade of finding is marked. */
static void
test_names (void)
{
  static const char *const wanted[] = {
      "Display tank", "Overflow",          "Throttled siphon", "Trickle channel", "Dry emergency",
      "Pump A, 40 W", "Skimmer",           "Heater",           "Left outlet",     "Right outlet",
      "Return riser", "Top-off reservoir", "Check valve"};
  g_autoptr (TextEngine) engine = text_engine_new (true);
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  DrawingView view = drawing_view_screen (1920, 1080, 1);
  view = layout_fit (scene, &view, engine);
  g_autoptr (Layout) layout = layout_new (scene, &view, engine, NULL);
  for (unsigned i = 0; i < G_N_ELEMENTS (wanted); i++)
    if (!names (layout, wanted[i]))
      g_error ("“%s” is not named", wanted[i]);
  unsigned marks = 0;
  for (unsigned i = 0; i < layout->marks->len; i++)
    marks += g_array_index (layout->marks, LayoutMark, i).role == ROLE_FINDING;
  g_assert_cmpuint (marks, ==, 4);
}

static bool
leads_to_name (const Scene *scene, const LayoutLine *line)
{
  return line->role == ROLE_LABEL && scene_item (scene, line->item)->role == ROLE_LABEL;
}

/* On which side of the line through a and b a place lies. */
static double
side_of (const LayoutLine *line, double x, double y)
{
  return (line->x1 - line->x0) * (y - line->y0) - (line->y1 - line->y0) * (x - line->x0);
}

static bool
lines_cross (const LayoutLine *a, const LayoutLine *b)
{
  return side_of (a, b->x0, b->y0) * side_of (a, b->x1, b->y1) < 0 &&
         side_of (b, a->x0, a->y0) * side_of (b, a->x1, a->y1) < 0;
}

/* Three tanks in a pane a quarter of a small window: the drawing keeps more room than its ladder of levels, and no two leaders
 * of names cross. */
static void
test_pane (void)
{
  g_autoptr (TextEngine) engine = text_engine_new (true);
  for (SceneProjection projection = 0; projection < N_SCENE_PROJECTIONS; projection++) {
    g_autoptr (Scene) scene = fixture_three_view (projection, 0);
    DrawingView view = drawing_view_screen (470, 350, 1);
    view = layout_fit (scene, &view, engine);
    g_autoptr (Layout) layout = layout_new (scene, &view, engine, NULL);
    SceneBox box = scene_outline (scene);
    if (projection == PROJECTION_FRONT)
      g_assert_cmpfloat ((box.x1 - box.x0) * view.scale, >, 0.6 * view.width);
    for (unsigned i = 0; i < layout->lines->len; i++)
      for (unsigned k = 0; k < i; k++) {
        const LayoutLine *a = &g_array_index (layout->lines, LayoutLine, i),
                         *b = &g_array_index (layout->lines, LayoutLine, k);
        g_assert_false (leads_to_name (scene, a) && leads_to_name (scene, b) && lines_cross (a, b));
      }
  }
}

/* A box of a text of the layout with the same words at the same place. */
static bool
stands_there (const Layout *layout, const LayoutText *text)
{
  for (unsigned i = 0; i < layout->texts->len; i++) {
    const LayoutText *other = &g_array_index (layout->texts, LayoutText, i);
    if (g_strcmp0 (other->text, text->text) == 0 && fabs (other->box.x - text->box.x) < 1e-6 &&
        fabs (other->box.y - text->box.y) < 1e-6)
      return true;
  }
  return false;
}

/* Under a hand labels stay where they are: all of them while nothing moves; all but a few at each step while a baffle is
 * pushed along, with nothing on each other at any step. */
static void
test_stay (void)
{
  g_autoptr (TextEngine) engine = text_engine_new (true);
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Scene) first = fixture_scene (SCENE_SYSTEM, true);
  g_autoptr (Design) start = fixture_sized (1.5);
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &style};
  DrawingView view = drawing_view_screen (1024, 700, 1);
  g_autoptr (Scene) was = NULL;
  unsigned names = 0, stayed = 0;
  view = layout_fit (first, &view, engine);
  g_autoptr (Layout) before = layout_new (first, &view, engine, NULL);
  g_autoptr (Layout) again = layout_new (first, &view, engine, before);
  g_assert_cmpuint (again->texts->len, ==, before->texts->len);
  g_assert_cmpuint (again->n_dropped, ==, before->n_dropped);
  for (unsigned i = 0; i < again->texts->len; i++)
    g_assert_true (stands_there (before, &g_array_index (again->texts, LayoutText, i)));

  g_clear_pointer (&before, layout_free);
  for (unsigned step = 0; step < 20; step++) {
    g_autoptr (Draft) draft = draft_new (start);
    must_set (draft, "baffle-1", FIELD_BAFFLE_X,
              design_number (start, design_find (start, "baffle-1"), FIELD_BAFFLE_X) - 0.002 * step);
    g_autoptr (Design) design = draft_commit (draft, NULL);
    g_autofree Evaluation *evaluation = fixture_evaluation (design);
    Scene *scene = scene_build (design, catalogue, evaluation, &options);
    Layout *layout = layout_new (scene, &view, engine, before);
    check_texts (layout);
    check_lines (layout);
    check_outlines (scene, layout, &view);
    for (unsigned i = 0; before != NULL && i < layout->texts->len; i++) {
      const LayoutText *text = &g_array_index (layout->texts, LayoutText, i);
      names += text->role == ROLE_LABEL;
      stayed += text->role == ROLE_LABEL && stands_there (before, text);
    }
    g_clear_pointer (&before, layout_free);
    g_clear_pointer (&was, scene_free); /* the words of a layout are its scene's */
    before = layout;
    was = scene;
  }
  g_assert_cmpuint (names, >, 100);
  g_assert_cmpuint (10 * stayed, >, 8 * names);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/labels/zooms", test_zooms);
  g_test_add_func ("/drawing/labels/sizes", test_sizes);
  g_test_add_func ("/drawing/labels/kinds", test_kinds);
  g_test_add_func ("/drawing/labels/aside", test_aside);
  g_test_add_func ("/drawing/labels/pane", test_pane);
  g_test_add_func ("/drawing/labels/stay", test_stay);
  if (drawing_font_missing ())
    g_test_message ("the names are not looked for: the font %s is not installed", DRAWING_FONT);
  else
    g_test_add_func ("/drawing/labels/names", test_names);
  return g_test_run ();
}
