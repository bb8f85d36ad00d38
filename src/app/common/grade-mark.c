/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/grade-mark.h"

#include <math.h>

#define SIZE 20 /* pixels */

struct _GradeMark {
  GtkWidget parent_instance;

  Grade grade;
  char letters[4];
};

G_DEFINE_FINAL_TYPE (GradeMark, grade_mark, GTK_TYPE_WIDGET)

const char *
grade_css_class (Grade grade)
{
  switch (grade) {
  case GRADE_STOP:
    return "stop";
  case GRADE_CAUTION:
    return "caution";
  case GRADE_NOTE:
    return "note";
  case N_GRADES:
    break;
  }
  return "sound";
}

static void
polygon (cairo_t *cr, double y, double radius, unsigned corners, double turn)
{
  for (unsigned i = 0; i < corners; i++) {
    const double angle = turn + 2 * G_PI * i / corners;

    cairo_line_to (cr, SIZE / 2.0 + radius * sin (angle), y - radius * cos (angle));
  }
  cairo_close_path (cr);
}

static void
outline (cairo_t *cr, Grade grade)
{
  const double middle = SIZE / 2.0;

  switch (grade) {
  case GRADE_STOP:
    polygon (cr, middle, middle, 8, G_PI / 8);
    break;
  case GRADE_CAUTION:
    polygon (cr, middle + 2.5, middle + 1.5, 3, 0);
    break;
  case GRADE_NOTE:
    cairo_arc (cr, middle, middle, middle - 1, 0, 2 * G_PI);
    break;
  case N_GRADES:
    cairo_move_to (cr, 0.2 * SIZE, 0.55 * SIZE);
    cairo_line_to (cr, 0.42 * SIZE, 0.78 * SIZE);
    cairo_line_to (cr, 0.84 * SIZE, 0.24 * SIZE);
    break;
  }
}

static void
draw_letters (GradeMark *self, cairo_t *cr, const GdkRGBA *ground)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), self->letters);
  PangoFontDescription *font =
      pango_font_description_copy (pango_context_get_font_description (pango_layout_get_context (layout)));
  PangoRectangle ink;

  pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_font_description_set_absolute_size (font, (self->letters[1] != '\0' ? 8 : 11) * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_layout_get_pixel_extents (layout, &ink, NULL);
  gdk_cairo_set_source_rgba (cr, ground);
  cairo_move_to (cr, SIZE / 2.0 - ink.x - ink.width / 2.0,
                 SIZE / 2.0 - ink.y - ink.height / 2.0 + (self->grade == GRADE_CAUTION ? 3 : 0));
  pango_cairo_show_layout (cr, layout);
  pango_font_description_free (font);
  g_object_unref (layout);
}

static void
grade_mark_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  GradeMark *self = DOWNCOMER_GRADE_MARK (widget);
  const graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, SIZE, SIZE);
  GtkStyleContext *context = gtk_widget_get_style_context (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  GdkRGBA color, ground = {1, 1, 1, 1};

  gtk_style_context_get_color (context, &color);
  gtk_style_context_lookup_color (context, "dc_sheet", &ground);
  gdk_cairo_set_source_rgba (cr, &color);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  outline (cr, self->grade);
  if (self->grade == N_GRADES) {
    cairo_set_line_width (cr, 2.4);
    cairo_stroke (cr);
  } else {
    cairo_fill (cr);
    draw_letters (self, cr, &ground);
  }
  cairo_destroy (cr);
}

static void
grade_mark_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                    int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = SIZE;
  *minimum_baseline = *natural_baseline = -1;
}

static void
grade_mark_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (grade_mark_parent_class)->css_changed (widget, change);
  gtk_widget_queue_draw (widget);
}

static void
grade_mark_class_init (GradeMarkClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = grade_mark_snapshot;
  widget_class->measure = grade_mark_measure;
  widget_class->css_changed = grade_mark_css_changed;
  /* The row that it stands in says the same in words. */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_NONE);
}

static void
grade_mark_init (GradeMark *self)
{
  self->grade = N_GRADES;
  gtk_widget_add_css_class (GTK_WIDGET (self), grade_css_class (N_GRADES));
}

void
grade_mark_set (GradeMark *mark, Grade grade, const char *letters)
{
  g_return_if_fail (DOWNCOMER_IS_GRADE_MARK (mark));
  if (grade != mark->grade) {
    gtk_widget_remove_css_class (GTK_WIDGET (mark), grade_css_class (mark->grade));
    gtk_widget_add_css_class (GTK_WIDGET (mark), grade_css_class (grade));
    mark->grade = grade;
  }
  g_strlcpy (mark->letters, letters, sizeof mark->letters);
  gtk_widget_queue_draw (GTK_WIDGET (mark));
}
