/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* What a row gives: `key=value` pairs joined by semicolons. A reader that does not find what it needs notes the first
 * complaint and goes on with NaN, so that a handler reads all its keys without a test behind each. */

#include <glib.h>

typedef struct Given Given;

/* @folder is where the table stands; a value of a file key is relative to it. NULL and @ret_complaint on bad text. */
Given *given_parse (const char *text, const char *folder, char **ret_complaint);
void given_free (Given *given);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Given, given_free)

/* The first thing that was missing or unreadable, or NULL. */
const char *given_complaint (const Given *given);

/* Lets a handler say what is wrong with a value that it has read; only the first complaint is kept. */
void given_complain (Given *given, const char *format, ...) G_GNUC_PRINTF (2, 3);

gboolean given_has (const Given *given, const char *key);

/* A number with a decimal point, nothing behind it; NaN and a complaint otherwise. */
double given_number (Given *given, const char *key);
double given_number_or (Given *given, const char *key, double otherwise);

/* The text of a key; "" and a complaint if it is missing. */
const char *given_word (Given *given, const char *key);

/**
 * given_choice:
 * @words: the words that are understood, @n_words of them
 * Returns: the index of the given word; 0 and a complaint if it is none of them
 */
guint given_choice (Given *given, const char *key, const char *const *words, guint n_words);

/**
 * given_numbers:
 * @separators: any of these characters parts two numbers, as "," in "A,B,C" or ":|" in "q:h|q:h"
 * @values: room for @max numbers
 * Returns: how many were read; 0 and a complaint for anything else than numbers, or too many
 */
gsize given_numbers (Given *given, const char *key, const char *separators, double *values, gsize max);

/* The path of a file that stands beside the table; free it. */
char *given_path (Given *given, const char *key);
