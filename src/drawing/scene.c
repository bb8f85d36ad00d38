/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static const char *const shape_words[N_SCENE_SHAPES] = {"line",  "area",  "arc",      "symbol",
                                                        "label", "level", "dimension"};

static const char *const role_words[N_SCENE_ROLES] = {
#define X(id, word) word,
    SCENE_ROLES (X)
#undef X
};

static const char *const layer_words[N_SCENE_LAYERS] = {
#define X(id, word) word,
    SCENE_LAYERS (X)
#undef X
};

static const char *const material_words[N_SCENE_MATERIALS] = {
#define X(id, word) word,
    SCENE_MATERIALS (X)
#undef X
};

static const char *const symbol_words[N_SCENE_SYMBOLS] = {
#define X(id, word) word,
    SCENE_SYMBOLS (X)
#undef X
};

static const char *const side_words[] = {"left", "bottom", "top", "in-place"};

const char *
scene_role_word (SceneRole role)
{
  return role_words[role];
}

static Scene *
scene_new (const Design *design)
{
  Scene *scene = g_new0 (Scene, 1);
  scene->items = g_array_new (FALSE, FALSE, sizeof (SceneItem));
  scene->points = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  scene->handles = g_array_new (FALSE, FALSE, sizeof (SceneHandle));
  scene->texts = g_string_chunk_new (1024);
  scene->n_parts = design_n_parts (design);
  scene->keys = g_new0 (char *, scene->n_parts + 1);
  scene->boxes = g_new (SceneBox, scene->n_parts);
  for (unsigned i = 0; i < scene->n_parts; i++)
    scene->keys[i] = g_strdup (part_key (design_part (design, i)));
  return scene;
}

void
scene_free (Scene *scene)
{
  if (scene == NULL)
    return;
  g_array_unref (scene->items);
  g_array_unref (scene->points);
  g_array_unref (scene->handles);
  g_string_chunk_free (scene->texts);
  g_strfreev (scene->keys);
  g_free (scene->boxes);
  g_free (scene);
}

/* What stands in a stand that is drawn for its maker: no more than the room that it takes (ISO 128-2, adjacent parts). */
static void
build_contents (Builder *b)
{
  static const PartKind kinds[] = {PART_SUMP, PART_RESERVOIR};
  for (unsigned k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (unsigned i = 0; i < design_count (b->design, kinds[k]); i++) {
      const Part *part = design_nth (b->design, kinds[k], i);
      SceneBox box = seen (b, geometry_outside (b->design, part));
      add_box_line (b, ROLE_ALTERNATIVE, LAYER_BODY, part_index (b, part), box);
      add_label_box (b, part_index (b, part), box, part_name (b, part), 65);
    }
}

/* From the back to the front. */
static void
build_elevation (Builder *b)
{
  SceneKind kind = b->options.kind;
  bool end = b->options.projection == PROJECTION_END;
  if (kind != SCENE_SUMP)
    build_stand (b);
  if (kind == SCENE_SYSTEM) {
    build_overflow (b, true);
    build_runs (b, true);
    build_tanks (b);
    build_overflow (b, false);
  }
  if (end && kind == SCENE_SYSTEM)
    build_reservoir (b); /* whichever side of the sump it stands, the sump is what the section shows */
  if (kind == SCENE_STAND)
    build_contents (b);
  if (kind != SCENE_STAND) {
    if (end)
      build_sump_end (b);
    else
      build_sump (b);
    build_devices (b);
  }
  if (kind != SCENE_SYSTEM)
    return;
  if (!end)
    build_reservoir (b);
  build_runs (b, false);
  build_outlets (b);
}

/* The body with the ground that it stands on. */
static SceneBox
outline_of (const Scene *scene)
{
  SceneBox box = scene_bounds (scene);
  for (unsigned i = 0; i < scene_n_items (scene); i++) {
    const SceneItem *item = scene_item (scene, i);
    const ScenePoint *p = scene_points (scene, item);
    for (unsigned k = 0; item->role == ROLE_FLOOR && k < item->n; k++)
      box.z0 = MIN (box.z0, p[k].z);
  }
  return box;
}

Scene *
scene_build (const Design *design, const Catalogue *catalogue, const Evaluation *evaluation,
             const SceneOptions *options)
{
  Builder b = {.scene = scene_new (design), .design = design, .catalogue = catalogue, .options = *options};
  b.style = *options->style;
  b.scene->projection = options->projection;
  readings_init (&b.readings, design, evaluation);

  if (options->projection == PROJECTION_PLAN) {
    build_plan (&b);
    if (options->kind == SCENE_STAND)
      build_contents (&b);
  } else if (options->projection == PROJECTION_ISOMETRIC)
    build_isometric (&b);
  else
    build_elevation (&b);
  b.scene->outline = outline_of (b.scene);
  if (options->projection == PROJECTION_FRONT)
    build_dimensions (&b);
  else
    build_view_dimensions (&b);
  build_levels (&b);
  if (options->kind == SCENE_SYSTEM) {
    build_findings (&b);
    if (options->projection == PROJECTION_FRONT)
      build_handles (&b);
    else
      build_view_handles (&b);
  }
  readings_clear (&b.readings);
  scene_measure (b.scene);
  return b.scene;
}

unsigned
scene_n_items (const Scene *scene)
{
  return scene->items->len;
}

const SceneItem *
scene_item (const Scene *scene, unsigned index)
{
  return &g_array_index (scene->items, SceneItem, index);
}

const ScenePoint *
scene_points (const Scene *scene, const SceneItem *item)
{
  return &g_array_index (scene->points, ScenePoint, item->first);
}

const char *
scene_part_key (const Scene *scene, int part)
{
  return part >= 0 && (unsigned) part < scene->n_parts ? scene->keys[part] : "";
}

unsigned
scene_n_parts (const Scene *scene)
{
  return scene->n_parts;
}

static bool
item_extends (const SceneItem *item)
{
  return item->shape == SHAPE_LINE || item->shape == SHAPE_AREA || item->shape == SHAPE_ARC;
}

static void
box_add (SceneBox *box, double x, double z, double r)
{
  box->x0 = MIN (box->x0, x - r);
  box->z0 = MIN (box->z0, z - r);
  box->x1 = MAX (box->x1, x + r);
  box->z1 = MAX (box->z1, z + r);
}

static const SceneBox empty_box = {INFINITY, INFINITY, -INFINITY, -INFINITY};

static void
box_add_item (SceneBox *box, const Scene *scene, const SceneItem *item)
{
  const ScenePoint *p = scene_points (scene, item);
  if (item_extends (item) && item->role != ROLE_FLOOR)
    for (unsigned k = 0; k < item->n; k++)
      box_add (box, p[k].x, p[k].z, item->radius);
}

void
scene_measure (Scene *scene)
{
  for (unsigned i = 0; i < scene->n_parts; i++)
    scene->boxes[i] = empty_box;
  for (unsigned i = 0; i < scene->items->len; i++) {
    const SceneItem *item = scene_item (scene, i);
    if (item->part >= 0 && (unsigned) item->part < scene->n_parts)
      box_add_item (&scene->boxes[item->part], scene, item);
  }
}

SceneBox
scene_bounds (const Scene *scene)
{
  SceneBox box = empty_box;
  for (unsigned i = 0; i < scene->items->len; i++)
    box_add_item (&box, scene, scene_item (scene, i));
  return box.x0 <= box.x1 ? box : (SceneBox){0, 0, 1, 1};
}

SceneBox
scene_outline (const Scene *scene)
{
  return scene->outline;
}

const char *
scene_level_head (const Scene *scene)
{
  return scene->level_head;
}

bool
scene_part_bounds (const Scene *scene, int part, SceneBox *ret_box)
{
  if (part < 0 || (unsigned) part >= scene->n_parts || !(scene->boxes[part].x0 <= scene->boxes[part].x1))
    return false;
  *ret_box = scene->boxes[part];
  return true;
}

unsigned
scene_n_handles (const Scene *scene, int part)
{
  unsigned n = 0;
  for (unsigned i = 0; i < scene->handles->len; i++)
    n += part < 0 || g_array_index (scene->handles, SceneHandle, i).part == part;
  return n;
}

const SceneHandle *
scene_handle (const Scene *scene, int part, unsigned n)
{
  for (unsigned i = 0; i < scene->handles->len; i++) {
    const SceneHandle *handle = &g_array_index (scene->handles, SceneHandle, i);
    if ((part < 0 || handle->part == part) && n-- == 0)
      return handle;
  }
  return NULL;
}

/* A number to 1e-6, without trailing zeros or a minus before zero. */
static void
dump_number (GString *text, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];
  double rounded = round (value * 1e6) / 1e6;
  g_ascii_formatd (buffer, sizeof buffer, "%.6f", rounded == 0 ? 0 : rounded);
  size_t n = strlen (buffer);
  while (buffer[n - 1] == '0')
    n--;
  if (buffer[n - 1] == '.')
    n--;
  g_string_append_c (text, ' ');
  g_string_append_len (text, buffer, (gssize) n);
}

static void
dump_item (const Scene *scene, const SceneItem *item, GString *text)
{
  g_string_append_printf (text, "%s %s %s %s", shape_words[item->shape], role_words[item->role],
                          layer_words[item->layer], item->part < 0 ? "-" : scene->keys[item->part]);
  if (item->shape == SHAPE_AREA)
    g_string_append_printf (text, " %s", material_words[item->material]);
  if (item->shape == SHAPE_SYMBOL)
    g_string_append_printf (text, " %s", symbol_words[item->symbol]);
  if (item->shape == SHAPE_DIMENSION)
    g_string_append_printf (text, " %s %u", side_words[item->side], item->rank);
  if (item->closed)
    g_string_append (text, " closed");
  const ScenePoint *p = scene_points (scene, item);
  for (unsigned k = 0; k < item->n; k++) {
    dump_number (text, p[k].x);
    dump_number (text, p[k].z);
  }
  if (item->shape == SHAPE_ARC) {
    g_string_append (text, " r");
    dump_number (text, item->radius);
    dump_number (text, item->from);
    dump_number (text, item->to);
  }
  const char *const texts[] = {item->text, item->value, item->own};
  for (unsigned i = 0; i < G_N_ELEMENTS (texts); i++)
    if (texts[i] != NULL)
      g_string_append_printf (text, " \"%s\"", texts[i]);
  g_string_append_c (text, '\n');
}

char *
scene_dump (const Scene *scene)
{
  GString *text = g_string_new (NULL);
  for (unsigned i = 0; i < scene->items->len; i++)
    dump_item (scene, scene_item (scene, i), text);
  for (unsigned i = 0; i < scene->handles->len; i++) {
    const SceneHandle *handle = &g_array_index (scene->handles, SceneHandle, i);
    g_string_append_printf (text, "handle %s%s", scene_part_key (scene, handle->part),
                            handle->body ? " whole" : "");
    dump_number (text, handle->x);
    dump_number (text, handle->z);
    for (unsigned k = 0; k < handle->n_moves; k++) {
      g_string_append_printf (text, " %s by %s", field_info (handle->moves[k].field)->name,
                              handle->moves[k].axis == AXIS_X ? "x" : "z");
      dump_number (text, handle->moves[k].gain);
    }
    g_string_append_c (text, '\n');
  }
  return g_string_free (text, FALSE);
}
