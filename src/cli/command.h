/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the commands share: their options, loading a design with the changes asked for, and writing. */
#pragma once

#include <gio/gio.h>

#include "cli/cli.h"
#include "design/catalogue.h"
#include "design/project.h"
#include "solver/system.h"
#include "units/format.h"

/* Options and words of one call; which of them a command takes is in its row of the table in cli.c. */
typedef struct {
  char **words; /* FILE and what follows it */
  char **sets;  /* PATH=VALUE of --set */
  char *output; /* -o */
  char *tank, *stand;
  char *turnover;
  char **scenarios; /* --scenario */
  char *csv;
  gboolean json, list;
} Options;

/* A design that was loaded, changed and, where asked for, evaluated. */
typedef struct {
  Catalogue *catalogue;
  Project *project;
  Evaluation *evaluation;
  Trace *trace;
  NumberStyle style; /* units of the design, signs of the locale */
} Loaded;

typedef int (*CommandFunc) (const Options *options);

int command_evaluate (const Options *options);
int command_explain (const Options *options);
int command_fields (const Options *options);
int command_set (const Options *options);
int command_sheet (const Options *options);
int command_compare (const Options *options);
int command_differ (const Options *options);
int command_new (const Options *options);
int command_rehearse (const Options *options);

/* Loads options->words[0] with each --set applied. On failure says why on standard error and returns the exit status;
 * CLI_OK otherwise. `evaluate` also evaluates, with a trace. Clear with loaded_clear. */
int command_load (const Options *options, bool evaluate, Loaded *ret_loaded);
void loaded_clear (Loaded *loaded);

/* Signs of the locale, which the units layer never asks for. */
NumberStyle command_locale_style (UnitSystem system);

/* Writes text to standard output, or bytes to a file ("-": standard output); CLI_OK or CLI_UNWRITABLE with a sentence on standard error. */
int command_print (const char *text);
int command_write (const char *path, GBytes *bytes);

/* What a sentence quotes of a text of any bytes: valid UTF-8, cut after 60 characters. Newly allocated. */
char *command_quoted (const char *text);

/* One sentence on standard error, and the status handed back. */
int command_fail (int status, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* The same for a PATH=VALUE that was refused: CLI_USAGE. `option` stands before it, "" for a word. */
int command_fail_set (const char *option, const char *assignment, const char *sentence);

/* CLI_OK or CLI_NOT_SOUND. */
int command_verdict (const Evaluation *evaluation);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Loaded, loaded_clear)
