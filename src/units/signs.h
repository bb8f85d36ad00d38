/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside this folder only: the signs that separate digits, and typed text brought to one alphabet. */
#pragma once

#include "units/parse.h"

/* The value of each sign is the character it becomes in a Typed text. */
typedef enum {
  SIGN_NONE = 0,
  SIGN_POINT = '.',
  SIGN_COMMA = ',',
  SIGN_APOSTROPHE = '\'',
  SIGN_SPACE = ' '
} Sign;

/* Kind of a separator as a locale names it; SIGN_NONE for NULL, "" and unknown ones. */
Sign sign_of (const char *utf8);

/* A vulgar fraction of two bytes or more becomes at most five characters. */
#define TYPED_SIZE (3 * UNITS_PARSE_MAX_LENGTH + 8)

/*
 * Typed text in which every space, dash, prime, fraction and digit of Unicode has become its ASCII form; what has none is kept.
 * Vulgar and raised fractions are set off by a space: "1½" reads "1 1/2".
 */
typedef struct {
  char c[TYPED_SIZE]; /* closed by a zero */
  guint16 offset
      [TYPED_SIZE]; /* byte of the original text that each character came from, also for the closing zero */
  gsize length;
} Typed;

/* Fill `ret` from UTF-8 of at most UNITS_PARSE_MAX_LENGTH bytes. */
void typed_read (const char *text, Typed *ret);

/* First position from `start` on that holds no space. */
gsize typed_skip_spaces (const Typed *typed, gsize start);
