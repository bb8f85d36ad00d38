/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/signs.h"

#include <string.h>

typedef struct {
  gunichar from;
  const char *to;
} Replacement;

static const Replacement replacements[] = {
    /* dashes that stand for a minus or join feet to inches */
    {0x2212, "-"},
    {0x2010, "-"},
    {0x2011, "-"},
    {0x2012, "-"},
    {0x2013, "-"},
    {0xfe63, "-"},
    {0xff0d, "-"},
    /* feet, inches and apostrophes */
    {0x2032, "'"},
    {0x2018, "'"},
    {0x2019, "'"},
    {0x02b9, "'"},
    {0x2033, "\""},
    {0x201c, "\""},
    {0x201d, "\""},
    {0x02ba, "\""},
    /* separators of Arabic script */
    {0x066b, ","},
    {0x066c, "."},
    /* slashes, degree signs, litre, subscript of water */
    {0x2044, "/"},
    {0x2215, "/"},
    {0x00ba, "°"},
    {0x2103, "°C"},
    {0x2109, "°F"},
    {0x2113, "l"},
    {0xff05, "%"},
    {0x066a, "%"},
    /* fractions */
    {0x00bc, " 1/4"},
    {0x00bd, " 1/2"},
    {0x00be, " 3/4"},
    {0x2150, " 1/7"},
    {0x2151, " 1/9"},
    {0x2152, " 1/10"},
    {0x2153, " 1/3"},
    {0x2154, " 2/3"},
    {0x2155, " 1/5"},
    {0x2156, " 2/5"},
    {0x2157, " 3/5"},
    {0x2158, " 4/5"},
    {0x2159, " 1/6"},
    {0x215a, " 5/6"},
    {0x215b, " 1/8"},
    {0x215c, " 3/8"},
    {0x215d, " 5/8"},
    {0x215e, " 7/8"}};

Sign
sign_of (const char *utf8)
{
  gunichar c;

  if (utf8 == NULL || *utf8 == '\0' || !g_utf8_validate (utf8, -1, NULL) || g_utf8_strlen (utf8, -1) != 1)
    return SIGN_NONE;
  c = g_utf8_get_char (utf8);
  if (c == '.' || c == 0x066c)
    return SIGN_POINT;
  if (c == ',' || c == 0x066b)
    return SIGN_COMMA;
  if (c == '\'' || c == 0x2019)
    return SIGN_APOSTROPHE;
  return g_unichar_isspace (c) ? SIGN_SPACE : SIGN_NONE;
}

static void
append (Typed *typed, const char *piece, gsize n, gsize offset)
{
  for (gsize i = 0; i < n && typed->length + 1 < TYPED_SIZE; i++) {
    /* of several spaces the first counts */
    if (piece[i] == ' ' && typed->length > 0 && typed->c[typed->length - 1] == ' ')
      continue;
    typed->c[typed->length] = piece[i];
    typed->offset[typed->length] = (guint16) offset;
    typed->length++;
  }
}

/* Digit of a raised or lowered figure, or -1. */
static int
raised_digit (gunichar c)
{
  if (c == 0xb9 || c == 0xb2 || c == 0xb3)
    return c == 0xb9 ? 1 : (int) (c - 0xb0);
  if (c == 0x2070 || (c >= 0x2074 && c <= 0x2079))
    return (int) (c - 0x2070);
  if (c >= 0x2080 && c <= 0x2089)
    return (int) (c - 0x2080);
  return -1;
}

static void
append_character (Typed *typed, gunichar c, const char *bytes, gsize n, gsize offset, gboolean *was_raised)
{
  int raised = raised_digit (c);
  char digit;

  if (raised >= 0) {
    /* 1³⁄₁₆ is one and three sixteenths, not thirteen */
    if (!*was_raised && typed->length > 0 && g_ascii_isdigit (typed->c[typed->length - 1]))
      append (typed, " ", 1, offset);
    *was_raised = TRUE;
    digit = (char) ('0' + raised);
    append (typed, &digit, 1, offset);
    return;
  }
  *was_raised = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (replacements); i++)
    if (replacements[i].from == c) {
      append (typed, replacements[i].to, strlen (replacements[i].to), offset);
      return;
    }
  if (g_unichar_isdigit (c)) {
    digit = (char) ('0' + g_unichar_digit_value (c));
    append (typed, &digit, 1, offset);
  } else if (g_unichar_isspace (c))
    append (typed, " ", 1, offset);
  else
    append (typed, bytes, n, offset);
}

void
typed_read (const char *text, Typed *ret)
{
  gboolean was_raised = FALSE;
  const char *p = text;

  ret->length = 0;
  while (*p != '\0') {
    const char *next = g_utf8_next_char (p);

    append_character (ret, g_utf8_get_char (p), p, (gsize) (next - p), (gsize) (p - text), &was_raised);
    p = next;
  }
  ret->c[ret->length] = '\0';
  ret->offset[ret->length] = (guint16) (p - text);
}

gsize
typed_skip_spaces (const Typed *typed, gsize start)
{
  while (typed->c[start] == ' ')
    start++;
  return start;
}
