/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/text.h"

#include <pango/pangocairo.h>
#include <string.h>

/* More shaped texts than any drawing has; past it the store is emptied rather than grown without end. */
#define MAX_KEPT 2000

struct _TextEngine {
  PangoContext *context;
  GHashTable *kept; /* "size bold text" to PangoLayout */
};

TextEngine *
text_engine_new (bool paper)
{
  TextEngine *engine = g_new0 (TextEngine, 1);
  engine->context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  cairo_font_options_t *options = cairo_font_options_create ();
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style (options, paper ? CAIRO_HINT_STYLE_NONE : CAIRO_HINT_STYLE_SLIGHT);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (engine->context, options);
  cairo_font_options_destroy (options);
  pango_context_set_round_glyph_positions (engine->context, FALSE);
  engine->kept = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
  return engine;
}

void
text_engine_free (TextEngine *engine)
{
  if (engine == NULL)
    return;
  g_hash_table_unref (engine->kept);
  g_object_unref (engine->context);
  g_free (engine);
}

static PangoLayout *
shaped (TextEngine *engine, const char *text, double size, bool bold)
{
  char *key = g_strdup_printf ("%d %d %s", (int) (size * 100), bold, text);
  PangoLayout *layout = g_hash_table_lookup (engine->kept, key);
  if (layout != NULL) {
    g_free (key);
    return layout;
  }
  if (g_hash_table_size (engine->kept) >= MAX_KEPT)
    g_hash_table_remove_all (engine->kept);
  layout = pango_layout_new (engine->context);
  PangoFontDescription *font = pango_font_description_new ();
  pango_font_description_set_family_static (font, DRAWING_FONT ",sans-serif");
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  PangoAttrList *attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  pango_layout_set_text (layout, text, -1);
  g_hash_table_insert (engine->kept, key, layout);
  return layout;
}

void
text_engine_measure (TextEngine *engine, const char *text, double size, bool bold, double *ret_width,
                     double *ret_height)
{
  int width, height;
  pango_layout_get_size (shaped (engine, text, size, bold), &width, &height);
  *ret_width = (double) width / PANGO_SCALE;
  *ret_height = (double) height / PANGO_SCALE;
}

void
text_engine_draw (TextEngine *engine, cairo_t *cr, const char *text, double x, double y, double size,
                  bool bold, bool upwards)
{
  PangoLayout *layout = shaped (engine, text, size, bold);
  cairo_save (cr);
  cairo_translate (cr, x, y);
  if (upwards)
    cairo_rotate (cr, -G_PI / 2);
  cairo_move_to (cr, 0, 0);
  pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
}

bool
drawing_font_missing (void)
{
  PangoFontFamily **families;
  int n = 0;
  bool missing = true;
  pango_font_map_list_families (pango_cairo_font_map_get_default (), &families, &n);
  for (int i = 0; i < n; i++)
    if (strcmp (pango_font_family_get_name (families[i]), DRAWING_FONT) == 0)
      missing = false;
  g_free (families);
  return missing;
}
