/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Text broken into lines of a width: where Unicode lets it break, and inside a word only where the word is too long. */
#pragma once

#include "drawing/text.h"

/* Distance of two lines, in sizes of the text. */
#define PARAGRAPH_PITCH 1.3

/* Lines of the text, as strings, with free function; a newline always breaks. At least one line. */
GPtrArray *paragraph_break (TextEngine *engine, const char *text, double width, double size, bool bold);

/* The text, or its beginning with an ellipsis, that fits into the width. */
char *paragraph_cut (TextEngine *engine, const char *text, double width, double size, bool bold);

/* Width of the text on one line, and of its longest part that does not break. */
double paragraph_natural (TextEngine *engine, const char *text, double size, bool bold);
double paragraph_least (TextEngine *engine, const char *text, double size, bool bold);
