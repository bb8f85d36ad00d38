/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A scripted drag in a design with 3 tanks, 6 pumps and 200 parts at 1920 x 1080: each frame is the edit, its evaluation,
 * the scene, the parts for the screen reader, and the drawing, painted by software. Prints the histogram of the frames;
 * reports, never fails. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "app/canvas/canvas-private.h"
#include "design/edit.h"
#include "drawing/painter.h"
#include "tests/app/fixture.h"

#define FRAMES   120
#define WIDTH    1920
#define HEIGHT   1080
#define PARTS    200
#define FRAME_MS 16.7
/* How far an outline and its handles stand out of a part. */
#define OVERLAY_REACH 8

/* Processor time of this program: other work on the machine does not count. */
static double
now_ms (void)
{
  return (double) clock () * 1000 / CLOCKS_PER_SEC;
}

/* Takes the design that an edit made, where it made one. */
static gboolean
take (Design **design, Design *next)
{
  if (next == NULL)
    return FALSE;
  design_unref (*design);
  *design = next;
  return TRUE;
}

/* As large as asked for, by the edits that the program offers. */
static Design *
grown (const Design *base)
{
  Design *design = design_ref ((Design *) base);
  const char *chamber;
  unsigned n = 0;

  while (design_count (design, PART_TANK) < 3 &&
         take (&design, edit_add_tank (design, part_key (design_nth (design, PART_TANK, 0)), EDIT_FEED_TEE,
                                       NULL, NULL)))
    ;
  chamber = part_owner (design_nth (design, PART_PUMP, 0));
  while (design_count (design, PART_PUMP) < 6 &&
         take (&design, edit_add_pump (design, chamber, EDIT_PUMP_OWN_OUTLET, NULL, NULL, NULL)))
    chamber = part_owner (design_nth (design, PART_PUMP, 0));
  while (design_n_parts (design) < PARTS && n++ < PARTS) {
    const Part *run = design_nth (design, PART_RETURN, n % design_count (design, PART_RETURN));

    take (&design, edit_add_fitting (design, part_key (run), "union", 0.05 * (double) (n / 4), NULL, NULL));
  }
  return design;
}

/* What the toolkit does in a frame, but for putting it on the screen. */
static void
paint (Canvas *canvas, cairo_t *cr)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GskRenderNode *node;

  GTK_WIDGET_GET_CLASS (canvas)->size_allocate (GTK_WIDGET (canvas), WIDTH, HEIGHT, -1);
  GTK_WIDGET_GET_CLASS (canvas)->snapshot (GTK_WIDGET (canvas), snapshot);
  node = gtk_snapshot_free_to_node (snapshot);
  if (node != NULL) {
    gsk_render_node_draw (node, cr);
    gsk_render_node_unref (node);
  }
}

static int
compare (const void *a, const void *b)
{
  return *(const double *) a < *(const double *) b ? -1 : *(const double *) a > *(const double *) b;
}

static void
report (const char *name, double ms[])
{
  static const double edges[] = {4, 8, 12, FRAME_MS, 25, 33.3, 50, 1e9};
  unsigned from = 0;

  qsort (ms, FRAMES, sizeof *ms, compare);
  printf ("%s: middle %.1f ms, 95 of 100 under %.1f ms, longest %.1f ms\n", name, ms[FRAMES / 2],
          ms[FRAMES * 95 / 100], ms[FRAMES - 1]);
  for (unsigned i = 0; i < G_N_ELEMENTS (edges); i++) {
    unsigned n = 0;

    while (from + n < FRAMES && ms[from + n] <= edges[i])
      n++;
    if (i + 1 < G_N_ELEMENTS (edges))
      printf ("  to %5.1f ms  %4u\n", edges[i], n);
    else
      printf ("  more         %4u\n", n);
    from += n;
  }
}

/* The pieces of a redraw by themselves: what is written where, and the drawing, straight to an image. */
static void
redraw_pieces (Canvas *canvas, cairo_t *cr)
{
  double laid_out = 0, drawn = 0;

  for (unsigned i = 0; i < 20; i++) {
    const double start = now_ms ();
    g_autoptr (Layout) layout = layout_new (canvas->scene, &canvas->view, canvas->engine, NULL);
    const double middle = now_ms ();

    painter_draw_base (cr, canvas->scene, layout, &canvas->view, canvas_palette (canvas), canvas->engine);
    laid_out += middle - start;
    drawn += now_ms () - middle;
  }
  printf ("layout %.1f ms, drawing %.1f ms\n", laid_out / 20, drawn / 20);
}

/* What a moving pointer costs: the outlines over a drawing that stays, of which the toolkit paints again only what they
 * cover. */
static void
overlay (Canvas *canvas, Document *document, cairo_t *cr)
{
  const unsigned n = design_n_parts (document_get_design (document));
  double ms[FRAMES];

  for (unsigned i = 0; i < FRAMES; i++) {
    const double start = now_ms ();
    graphene_rect_t box;

    canvas->hovered = (int) (i * n / FRAMES);
    cairo_save (cr);
    if (canvas_part_box (canvas, canvas->hovered, &box)) {
      cairo_rectangle (cr, (double) box.origin.x - OVERLAY_REACH, (double) box.origin.y - OVERLAY_REACH,
                       (double) box.size.width + 2 * OVERLAY_REACH,
                       (double) box.size.height + 2 * OVERLAY_REACH);
      cairo_clip (cr);
    }
    paint (canvas, cr);
    cairo_restore (cr);
    ms[i] = now_ms () - start;
  }
  report ("overlay alone", ms);
}

/* The pieces of a change by themselves, the middle of a few. */
static void
pieces (Canvas *canvas, Document *document)
{
  const SceneOptions options = {.kind = SCENE_SYSTEM, .style = document_get_style (document)};
  Evaluation *evaluation = evaluation_new ();
  double from = now_ms ();

  for (unsigned i = 0; i < 20; i++)
    evaluate_design (document_get_design (document), document_get_catalogue (document), NULL, evaluation,
                     NULL, NULL);
  printf ("evaluation %.1f ms", (now_ms () - from) / 20);
  from = now_ms ();
  for (unsigned i = 0; i < 20; i++)
    scene_free (scene_build (document_get_design (document), document_get_catalogue (document), evaluation,
                             &options));
  printf (", scene %.1f ms", (now_ms () - from) / 20);
  from = now_ms ();
  for (unsigned i = 0; i < 20; i++)
    canvas_sync_children (canvas);
  printf (", parts %.1f ms\n", (now_ms () - from) / 20);
  evaluation_free (evaluation);
}

static void
drag (Canvas *canvas, Selection *selection, Document *document, cairo_t *cr)
{
  const Part *baffle = design_nth (document_get_design (document), PART_BAFFLE, 0);
  double changed[FRAMES], painted[FRAMES], whole[FRAMES];

  selection_set_key (selection, part_key (baffle));
  canvas_drag_begin (canvas, design_index (document_get_design (document), part_key (baffle)), 0);
  for (int i = 0; i < FRAMES; i++) {
    const double start = now_ms ();
    double middle;

    canvas_drag_to (canvas, 4, -(4 + 20 * (i % 2) + i % 40), CANVAS_HOLD_FREE);
    middle = now_ms ();
    paint (canvas, cr);
    changed[i] = middle - start;
    painted[i] = now_ms () - middle;
    whole[i] = changed[i] + painted[i];
  }
  canvas_drag_cancel (canvas);
  report ("edit, evaluation, scene, parts", changed);
  report ("drawing", painted);
  report ("frame", whole);
}

int
main (int argc, char **argv)
{
  g_autoptr (Document) document = NULL;
  g_autoptr (Selection) selection = selection_new ();
  g_autoptr (Theme) theme = NULL;
  g_autoptr (Design) design = NULL;
  Canvas *canvas;
  GtkWidget *window;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);

  if (!gtk_init_check ())
    return 77;
  canvas = g_object_new (DOWNCOMER_TYPE_CANVAS, NULL);
  document = fixture_document ();
  theme = theme_new (gdk_display_get_default ());
  design = grown (document_get_design (document));
  document_apply (document, design, "Grow");
  canvas_set_model (canvas, document, selection, theme);
  window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (window), WIDTH, HEIGHT);
  gtk_window_set_child (GTK_WINDOW (window), GTK_WIDGET (canvas));
  gtk_window_present (GTK_WINDOW (window));
  fixture_wait (gtk_widget_get_mapped (GTK_WIDGET (canvas)));
  printf ("%u tanks, %u pumps, %u parts, evaluated: %s\n", design_count (design, PART_TANK),
          design_count (design, PART_PUMP), design_n_parts (design),
          document_get_evaluation (document) != NULL ? "yes" : "no");
  pieces (canvas, document);
  drag (canvas, selection, document, cr);
  redraw_pieces (canvas, cr);
  overlay (canvas, document, cr);
  gtk_window_destroy (GTK_WINDOW (window));
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return 0;
}
