/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Fittings along a run in outline, to scale: what a plumber holds in the hand, seen from the side. */
#include "drawing/scene-private.h"

#include <math.h>

/* The frame of a fitting: along the flow and to its left, in metres from its centre. */
typedef struct {
  Builder *b;
  int part;
  ScenePoint at, along;
} Frame;

static ScenePoint
place (const Frame *f, double along, double left)
{
  return (ScenePoint){f->at.x + along * f->along.x - left * f->along.z,
                      f->at.z + along * f->along.z + left * f->along.x};
}

static void
block (const Frame *f, double from, double to, double half_width, bool filled)
{
  ScenePoint p[] = {place (f, from, half_width), place (f, to, half_width), place (f, to, -half_width),
                    place (f, from, -half_width)};
  if (filled)
    add_area (f->b, ROLE_FITTING, LAYER_BODY, f->part, MATERIAL_BLANK, p, 4);
  add_line (f->b, ROLE_FITTING, LAYER_BODY, f->part, p, 4, true);
}

static void
stroke (const Frame *f, double a0, double l0, double a1, double l1)
{
  ScenePoint p[] = {place (f, a0, l0), place (f, a1, l1)};
  add_line (f->b, ROLE_THIN, LAYER_BODY, f->part, p, 2, false);
}

/* Both halves of the valve symbol, inside the real body: ISO 14617-8, two triangles point to point. */
static void
bow_tie (const Frame *f, double length, double half)
{
  ScenePoint p[] = {place (f, -length, half), place (f, length, -half), place (f, length, half),
                    place (f, -length, -half)};
  add_line (f->b, ROLE_THIN, LAYER_BODY, f->part, p, 4, true);
}

static void
gate_valve (const Frame *f, double half, double length)
{
  block (f, -length / 2, length / 2, 1.25 * half, true);
  bow_tie (f, 0.36 * length, 0.8 * half);
  /* Bonnet and hand wheel to the left of the flow. */
  ScenePoint bonnet[] = {place (f, -0.5 * half, 1.25 * half), place (f, -0.4 * half, 2.3 * half),
                         place (f, 0.4 * half, 2.3 * half), place (f, 0.5 * half, 1.25 * half)};
  add_area (f->b, ROLE_FITTING, LAYER_BODY, f->part, MATERIAL_BLANK, bonnet, 4);
  add_line (f->b, ROLE_FITTING, LAYER_BODY, f->part, bonnet, 4, true);
  ScenePoint wheel[] = {place (f, -1.1 * half, 2.3 * half), place (f, -1.1 * half, 2.75 * half),
                        place (f, 1.1 * half, 2.75 * half), place (f, 1.1 * half, 2.3 * half)};
  add_area (f->b, ROLE_FITTING, LAYER_BODY, f->part, MATERIAL_BLANK, wheel, 4);
  add_line (f->b, ROLE_FITTING, LAYER_BODY, f->part, wheel, 4, true);
}

static void
ball_valve (const Frame *f, double half, double length)
{
  block (f, -length / 2, length / 2, 1.25 * half, true);
  bow_tie (f, 0.36 * length, 0.8 * half);
  ScenePoint lever[] = {place (f, -0.25 * half, 1.25 * half), place (f, -0.25 * half, 1.9 * half),
                        place (f, 2.2 * half, 1.9 * half),    place (f, 2.2 * half, 1.55 * half),
                        place (f, 0.25 * half, 1.55 * half),  place (f, 0.25 * half, 1.25 * half)};
  add_area (f->b, ROLE_FITTING, LAYER_BODY, f->part, MATERIAL_BLANK, lever, 6);
  add_line (f->b, ROLE_FITTING, LAYER_BODY, f->part, lever, 6, true);
}

static void
check_valve (const Frame *f, double half, double length)
{
  block (f, -length / 2, length / 2, 1.3 * half, true);
  /* ISO 14617-8: flow passes from the seat to the stroke. */
  stroke (f, -0.3 * length, 0.8 * half, -0.3 * length, -0.8 * half);
  stroke (f, -0.3 * length, 0.8 * half, 0.3 * length, -0.8 * half);
  stroke (f, 0.3 * length, 0.8 * half, 0.3 * length, -0.8 * half);
}

static void
union_joint (const Frame *f, double half, double length)
{
  double body = MIN (length / 2, 2.2 * half);
  block (f, -body, body, 1.2 * half, true);
  block (f, -0.55 * body, 0.55 * body, 1.5 * half, true);
  for (int i = -1; i <= 1; i++)
    stroke (f, -0.55 * body, 0.75 * i * half, 0.55 * body, 0.75 * i * half);
}

static void
bulkhead (const Frame *f, double half)
{
  block (f, -0.9 * half, 0.9 * half, 1.2 * half, true);
  block (f, -0.45 * half, -0.1 * half, 1.8 * half, true);
  block (f, 0.1 * half, 0.6 * half, 1.6 * half, true);
}

static void
strainer (const Frame *f, double half, double length)
{
  block (f, -length / 2, length / 2, 1.15 * half, true);
  for (int i = -3; i <= 3; i++)
    stroke (f, i * length / 8, 0.8 * half, i * length / 8, -0.8 * half);
}

static void
reducer (const Frame *f, double half, double length)
{
  ScenePoint p[] = {place (f, -length / 2, 1.25 * half), place (f, 0, 1.25 * half),
                    place (f, length / 4, 0.95 * half),  place (f, length / 2, 0.95 * half),
                    place (f, length / 2, -0.95 * half), place (f, length / 4, -0.95 * half),
                    place (f, 0, -1.25 * half),          place (f, -length / 2, -1.25 * half)};
  add_area (f->b, ROLE_FITTING, LAYER_BODY, f->part, MATERIAL_BLANK, p, G_N_ELEMENTS (p));
  add_line (f->b, ROLE_FITTING, LAYER_BODY, f->part, p, G_N_ELEMENTS (p), true);
}

void
draw_fitting (Builder *b, int part, FittingClass class_, ScenePoint at, ScenePoint direction,
              double outside_m, double length_m)
{
  Frame f = {b, part, at, direction};
  double half = outside_m / 2, length = CLAMP (length_m, outside_m, 8 * outside_m);
  switch (class_) {
  case FITTING_CLASS_GATE_VALVE:
    gate_valve (&f, half, length);
    return;
  case FITTING_CLASS_BALL_VALVE:
    ball_valve (&f, half, length);
    return;
  case FITTING_CLASS_CHECK_VALVE:
    check_valve (&f, half, length);
    return;
  case FITTING_CLASS_UNION:
    union_joint (&f, half, length);
    return;
  case FITTING_CLASS_BULKHEAD:
    bulkhead (&f, half);
    return;
  case FITTING_CLASS_STRAINER:
    strainer (&f, half, length);
    return;
  case FITTING_CLASS_REDUCER:
    reducer (&f, half, length);
    return;
  case FITTING_CLASS_TEE_RUN:
    block (&f, -1.4 * half, 1.4 * half, 1.25 * half, true);
    block (&f, -0.8 * half, 0.8 * half, 2 * half, true);
    return;
  case FITTING_CLASS_OTHER:
  case N_FITTING_CLASSES:
    break;
  }
  block (&f, -length / 2, length / 2, 1.2 * half, true);
}
