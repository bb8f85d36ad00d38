/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/palette.h"

#include <glib.h>
#include <math.h>

#define RGB(hex)                                                                                             \
  {                                                                                                          \
    ((hex) >> 16 & 0xff) / 255.0, ((hex) >> 8 & 0xff) / 255.0, ((hex) &0xff) / 255.0                         \
  }

static const Palette palettes[N_PALETTES] = {
    [PALETTE_LIGHT] = {.ground = RGB (0xf6f5f1),
                       .sheet = RGB (0xfdfdfb),
                       .ink = RGB (0x1f2a30),
                       .soft = RGB (0x55636b),
                       .hair = RGB (0xb9c0c2),
                       .water = RGB (0xd3e7e6),
                       .water_off = RGB (0xe7f1ee),
                       .surface = RGB (0x0f6f7d),
                       .selected = RGB (0x8a4b00),
                       .stop = RGB (0xa3182b),
                       .caution = RGB (0x7d5600),
                       .note = RGB (0x2d5a8a),
                       .sound = RGB (0x2b6a34),
                       .sand = RGB (0xe4dfd2),
                       .rock = RGB (0xd3d8d3),
                       .solid = RGB (0xeceae3),
                       .curves = {RGB (0x0a5c94), RGB (0xb34d00), RGB (0x007a59), RGB (0x9a4a78),
                                  RGB (0x7d5c00), RGB (0x2878a5), RGB (0x6b6400), RGB (0x1f2a30)}},
    [PALETTE_DARK] = {.ground = RGB (0x14191c),
                      .sheet = RGB (0x1b2125),
                      .ink = RGB (0xe7ebea),
                      .soft = RGB (0xa4b0b5),
                      .hair = RGB (0x46525a),
                      .water = RGB (0x1f3f44),
                      .water_off = RGB (0x1d3035),
                      .surface = RGB (0x6cc9d2),
                      .selected = RGB (0xf0a94b),
                      .stop = RGB (0xff8d92),
                      .caution = RGB (0xe9bd5c),
                      .note = RGB (0x93bdf0),
                      .sound = RGB (0x8fd09a),
                      .sand = RGB (0x39382f),
                      .rock = RGB (0x32403f),
                      .solid = RGB (0x2a3135),
                      .curves = {RGB (0x5cb3ea), RGB (0xff9457), RGB (0x3fcf9f), RGB (0xeaa3cb),
                                 RGB (0xe8a93a), RGB (0xa3d8f5), RGB (0xe6dc6a), RGB (0xe7ebea)}},
    [PALETTE_HIGH_CONTRAST] = {.ground = RGB (0xffffff),
                               .sheet = RGB (0xffffff),
                               .ink = RGB (0x000000),
                               .soft = RGB (0x000000),
                               .hair = RGB (0x767676),
                               .water = RGB (0xdcf0f0),
                               .water_off = RGB (0xeef7f6),
                               .surface = RGB (0x00474f),
                               .selected = RGB (0x6b2e00),
                               .stop = RGB (0x8a0014),
                               .caution = RGB (0x5c3d00),
                               .note = RGB (0x003a75),
                               .sound = RGB (0x004d14),
                               .sand = RGB (0xece8dd),
                               .rock = RGB (0xdfe3df),
                               .solid = RGB (0xf0f0f0),
                               .curves = {RGB (0x00497a), RGB (0x8f3a00), RGB (0x005c43), RGB (0x7a2f5b),
                                          RGB (0x5c4200), RGB (0x1c618a), RGB (0x4f4a00), RGB (0x000000)}},
    [PALETTE_PAPER] = {.ground = RGB (0xffffff),
                       .sheet = RGB (0xffffff),
                       .ink = RGB (0x000000),
                       .soft = RGB (0x000000),
                       .hair = RGB (0x8a8a8a),
                       .water = RGB (0xffffff),
                       .water_off = RGB (0xffffff),
                       .surface = RGB (0x000000),
                       .selected = RGB (0x000000),
                       .stop = RGB (0x000000),
                       .caution = RGB (0x000000),
                       .note = RGB (0x000000),
                       .sound = RGB (0x000000),
                       .sand = RGB (0xffffff),
                       .rock = RGB (0xffffff),
                       .solid = RGB (0xffffff),
                       .curves = {RGB (0x000000), RGB (0x000000), RGB (0x000000), RGB (0x000000),
                                  RGB (0x000000), RGB (0x000000), RGB (0x000000), RGB (0x000000)},
                       .hatched = true}};

const Palette *
palette_get (PaletteKind kind)
{
  return &palettes[kind >= 0 && kind < N_PALETTES ? kind : PALETTE_LIGHT];
}

static double
linear (double channel)
{
  return channel <= 0.03928 ? channel / 12.92 : pow ((channel + 0.055) / 1.055, 2.4);
}

static double
luminance (Color c)
{
  return 0.2126 * linear (c.red) + 0.7152 * linear (c.green) + 0.0722 * linear (c.blue);
}

double
color_contrast (Color a, Color b)
{
  double first = luminance (a) + 0.05, second = luminance (b) + 0.05;
  return first > second ? first / second : second / first;
}

void
color_set (cairo_t *cr, Color color)
{
  cairo_set_source_rgb (cr, color.red, color.green, color.blue);
}
