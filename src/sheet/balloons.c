/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/balloons.h"

#include <math.h>
#include <stdlib.h>

#define RADIUS 8.2
#define PITCH  (2 * RADIUS + 2.5)

/* Numbers are spread over the two columns by where they point to, and evenly: half of them on either side. */
static int
by_x (const void *a, const void *b)
{
  const Balloon *first = a, *second = b;

  if (first->x != second->x)
    return first->x < second->x ? -1 : 1;
  return first->number < second->number ? -1 : first->number > second->number;
}

static int
by_y (const void *a, const void *b)
{
  const Balloon *first = a, *second = b;

  if (first->y != second->y)
    return first->y < second->y ? -1 : 1;
  return first->number < second->number ? -1 : first->number > second->number;
}

/* True when the leaders of two neighbours, the upper one first, cross. */
static bool
cross (double x, const Balloon *upper, const Balloon *lower, double upper_y, double lower_y)
{
  const Balloon *near = fabs (upper->x - x) < fabs (lower->x - x) ? upper : lower;
  const Balloon *far = near == upper ? lower : upper;
  const double far_y = far == upper ? upper_y : lower_y,
               share = (near->x - x) / MAX (fabs (far->x - x), 1e-6);
  const double passes = far_y + (far->y - far_y) * fabs (share);

  return near == upper ? passes < near->y : passes > near->y;
}

/* Changes places until no neighbours cross; each pass of a few is enough for what a sheet shows. */
static void
untangle (double x, Balloon *balloons, const double *places, unsigned n)
{
  for (unsigned pass = 0; pass < n; pass++) {
    bool changed = false;

    for (unsigned i = 0; i + 1 < n; i++) {
      Balloon upper = balloons[i];

      if (!cross (x, &upper, &balloons[i + 1], places[i], places[i + 1]) ||
          cross (x, &balloons[i + 1], &upper, places[i], places[i + 1]))
        continue;
      balloons[i] = balloons[i + 1];
      balloons[i + 1] = upper;
      changed = true;
    }
    if (!changed)
      return;
  }
}

static void
draw_column (Page *page, TextEngine *engine, Rect room, double x, Balloon *balloons, unsigned n)
{
  double last = room.y - PITCH + RADIUS;
  g_autofree double *places = g_new (double, n + 1);

  qsort (balloons, n, sizeof *balloons, by_y);
  for (unsigned i = 0; i < n; i++) {
    places[i] = MAX (balloons[i].y, last + PITCH);
    last = places[i];
  }
  /* Pushed back up from the lower end. */
  last = room.y + room.height + PITCH - RADIUS;
  for (unsigned i = n; i-- > 0;) {
    places[i] = MIN (places[i], last - PITCH);
    last = places[i];
  }
  untangle (x, balloons, places, n);
  for (unsigned i = 0; i < n; i++) {
    g_autofree char *text = g_strdup_printf ("%u", balloons[i].number);
    double width = 0, height = 0;

    page_line (page, x, places[i], balloons[i].x, balloons[i].y, LINE_NARROW);
    page_dot (page, balloons[i].x, balloons[i].y, 1.3);
    page_circle (page, x, places[i], RADIUS, LINE_NARROW);
    text_engine_measure (engine, text, TEXT_BODY, false, &width, &height);
    page_text (page, engine, text, x - width / 2, places[i] - height / 2, TEXT_BODY, false);
  }
}

unsigned
balloons_draw (Page *page, TextEngine *engine, Rect room, const Balloon *balloons, unsigned n)
{
  const unsigned fit = room.height > 2 * RADIUS ? (unsigned) ((room.height - 2 * RADIUS) / PITCH) + 1 : 0;
  const unsigned drawn = MIN (n, 2 * fit), left = (drawn + 1) / 2;
  g_autofree Balloon *sorted = g_memdup2 (balloons, MAX (n, 1) * sizeof *balloons);

  if (drawn == 0)
    return n;
  qsort (sorted, drawn, sizeof *sorted, by_x);
  draw_column (page, engine, room, room.x + RADIUS + 1, sorted, left);
  draw_column (page, engine, room, room.x + room.width - RADIUS - 1, sorted + left, drawn - left);
  return n - drawn;
}
