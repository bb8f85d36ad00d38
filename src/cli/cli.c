/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "cli/cli.h"

#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>

#include "cli/command.h"
#include "config.h"

/* The commands: what each takes, and its line in the help. */
static const struct {
  const char *name;
  CommandFunc run;
  const char *words; /* what follows the name */
  const char *help;
  unsigned least, most; /* words */
  gboolean output;      /* needs -o */
} commands[] = {
    {"evaluate", command_evaluate, "FILE", N_ ("print all that is true of a design as JSON in SI units"), 1,
     1, FALSE},
    {"explain", command_explain, "FILE", N_ ("print the calculation behind every verdict, with its sources"),
     1, 1, FALSE},
    {"sheet", command_sheet, "FILE -o OUT.pdf", N_ ("write the build sheets"), 1, 1, TRUE},
    {"compare", command_compare, "FILE [--json]", N_ ("compare pumps on the loop of a design"), 1, 1, FALSE},
    {"rehearse", command_rehearse, "FILE [--scenario NAME]... [--json] [--csv OUT] [--list]",
     N_ ("play failures through in time: what rises, what spills, what would mend it"), 1, 1, FALSE},
    {"differ", command_differ, "FILE [OPTION OPTION] [--json]",
     N_ ("list what differs between two options, and what it does"), 1, 3, FALSE},
    {"new", command_new, "--tank LxWxH --stand LxWxH [--turnover N] -o FILE",
     N_ ("propose a whole design from tank and stand"), 0, 0, TRUE},
    {"fields", command_fields, "FILE [--json]", N_ ("list every field with value, unit, range and help"), 1,
     1, FALSE},
    {"set", command_set, "FILE PATH=VALUE... -o OUT", N_ ("change fields and keep the changed design"), 2,
     10000, TRUE},
};

/* Options and the commands that take them, as bits of rows of the table above. */
enum { EVALUATE, EXPLAIN, SHEET, COMPARE, REHEARSE, DIFFER, NEW, FIELDS, SET };

static const struct {
  const char *word;
  const char *help;
  unsigned takers;
} option_rows[] = {
    {"--set PATH=VALUE",
     N_ ("change a field of the design that is read; a bare number is SI; may be repeated"), ~(1u << NEW)},
    {"--json", N_ ("write JSON"),
     1u << EVALUATE | 1u << COMPARE | 1u << REHEARSE | 1u << DIFFER | 1u << FIELDS},
    {"--scenario NAME", N_ ("play this one only; may be repeated; NAME+NAME plays two together"),
     1u << REHEARSE},
    {"--csv OUT", N_ ("write the levels and flows of every moment; - for standard output"), 1u << REHEARSE},
    {"--list", N_ ("name the scenarios, and why one cannot be played"), 1u << REHEARSE},
    {"--tank LxWxH", N_ ("outside size of the tank, as in 1.5x0.6x0.6 or 60x24x24in"), 1u << NEW},
    {"--stand LxWxH", N_ ("inside size of the stand"), 1u << NEW},
    {"--turnover N", N_ ("display volumes an hour"), 1u << NEW},
    {"-o, --output OUT", N_ ("the file to write; - for standard output"),
     1u << SHEET | 1u << NEW | 1u << SET},
    {"-h, --help", N_ ("print this help"), ~0u},
};

static void
append_usage (GString *text, unsigned command)
{
  g_string_append_printf (text, "  downcomer %s %s\n      %s\n", commands[command].name,
                          commands[command].words, _ (commands[command].help));
}

/* The help of one command, or of all where it is -1. */
static char *
help_text (int command)
{
  GString *text = g_string_new (NULL);

  if (command < 0)
    g_string_append_printf (text, "%s\n\n%s\n  downcomer [FILE...]\n      %s\n",
                            _ ("Downcomer plans an aquarium's whole water loop and tells whether it floods."),
                            _ ("Usage:"), _ ("open the window"));
  else
    g_string_append_printf (text, "%s\n", _ ("Usage:"));
  for (unsigned i = 0; i < G_N_ELEMENTS (commands); i++)
    if (command < 0 || i == (unsigned) command)
      append_usage (text, i);
  g_string_append_printf (text, "\n%s\n", _ ("Options:"));
  for (unsigned i = 0; i < G_N_ELEMENTS (option_rows); i++)
    if (command < 0 || (option_rows[i].takers & 1u << command) != 0)
      g_string_append_printf (text, "  %-18s%s\n", option_rows[i].word, _ (option_rows[i].help));
  if (command < 0)
    g_string_append_printf (text, "  %-18s%s\n", "--version", _ ("print the version"));
  g_string_append_printf (
      text, "\n%s\n",
      _ ("Exit status: 0 sound, 2 unreadable file, 3 a stop finding, 64 wrong usage, 74 output that "
         "cannot be written."));
  return g_string_free (text, FALSE);
}

static int
find_command (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (strcmp (commands[i].name, name) == 0)
      return (int) i;
  return -1;
}

/* A word that is no file, nor looks like one, is a mistyped command: no window can open it. Options are those of a
 * command, save what GTK and the desktop's activation add. */
static bool
is_mistyped (const char *word)
{
  if (word[0] == '-')
    return strcmp (word, "--") != 0 && !g_str_has_prefix (word, "--gapplication") &&
           !g_str_has_prefix (word, "--display");
  return strpbrk (word, "./:") == NULL && !g_file_test (word, G_FILE_TEST_EXISTS);
}

bool
cli_wants (int argc, char **argv)
{
  static const char *const alone[] = {"--help", "-h", "--version", "help"};

  if (argc < 2 || argv[1][0] == '\0')
    return false;
  for (guint i = 0; i < G_N_ELEMENTS (alone); i++)
    if (strcmp (argv[1], alone[i]) == 0)
      return true;
  return find_command (argv[1]) >= 0 || is_mistyped (argv[1]);
}

static void
options_clear (Options *options)
{
  g_strfreev (options->words);
  g_strfreev (options->sets);
  g_free (options->output);
  g_free (options->tank);
  g_free (options->stand);
  g_free (options->turnover);
  g_strfreev (options->scenarios);
  g_free (options->csv);
}

static bool
options_read (int argc, char **argv, Options *options, GError **error)
{
  const GOptionEntry entries[] = {
      {"set", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options->sets, NULL, NULL},
      {"output", 'o', 0, G_OPTION_ARG_FILENAME, &options->output, NULL, NULL},
      {"scenario", 0, 0, G_OPTION_ARG_STRING_ARRAY, &options->scenarios, NULL, NULL},
      {"csv", 0, 0, G_OPTION_ARG_FILENAME, &options->csv, NULL, NULL},
      {"list", 0, 0, G_OPTION_ARG_NONE, &options->list, NULL, NULL},
      {"json", 0, 0, G_OPTION_ARG_NONE, &options->json, NULL, NULL},
      {"tank", 0, 0, G_OPTION_ARG_STRING, &options->tank, NULL, NULL},
      {"stand", 0, 0, G_OPTION_ARG_STRING, &options->stand, NULL, NULL},
      {"turnover", 0, 0, G_OPTION_ARG_STRING, &options->turnover, NULL, NULL},
      {G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options->words, NULL, NULL},
      {NULL, 0, 0, 0, NULL, NULL, NULL},
  };
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);

  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_add_main_entries (context, entries, NULL);
  return g_option_context_parse (context, &argc, &argv, error);
}

/* What of the options does not go with the command, as one sentence; NULL where all does. */
static char *
misfit (int command, const Options *options)
{
  const unsigned n = options->words != NULL ? g_strv_length (options->words) : 0;
  const gboolean is_new = commands[command].run == command_new;
  const gboolean json = commands[command].run == command_fields || commands[command].run == command_compare ||
                        commands[command].run == command_differ ||
                        commands[command].run == command_evaluate ||
                        commands[command].run == command_rehearse;
  const gboolean plays = commands[command].run == command_rehearse;

  if (n < commands[command].least || n > commands[command].most)
    return g_strdup_printf (_ ("wrong number of words; usage: downcomer %s %s"), commands[command].name,
                            commands[command].words);
  if (commands[command].output && options->output == NULL)
    return g_strdup_printf (_ ("-o OUT is missing; usage: downcomer %s %s"), commands[command].name,
                            commands[command].words);
  if (!commands[command].output && options->output != NULL)
    return g_strdup_printf (_ ("“%s” writes to standard output and takes no -o"), commands[command].name);
  if (is_new != (options->tank != NULL && options->stand != NULL) || (!is_new && options->turnover != NULL))
    return g_strdup (_ ("--tank and --stand belong to “new”, which needs both"));
  if (options->json && !json)
    return g_strdup_printf (_ ("“%s” writes no JSON"), commands[command].name);
  if (!plays && (options->scenarios != NULL || options->csv != NULL || options->list))
    return g_strdup (_ ("--scenario, --csv and --list belong to “rehearse”"));
  return NULL;
}

static int
run_command (int argc, char **argv)
{
  const int command = find_command (argv[1]);
  Options options = {0};
  g_autoptr (GError) error = NULL;
  g_autofree char *sentence = NULL;
  int status;

  if (!options_read (argc - 1, argv + 1, &options, &error))
    status = command_fail (CLI_USAGE, "%s", error->message);
  else if ((sentence = misfit (command, &options)) != NULL)
    status = command_fail (CLI_USAGE, "%s", sentence);
  else
    status = commands[command].run (&options);
  options_clear (&options);
  return status;
}

int
cli_run (int argc, char **argv)
{
  g_autofree char *help = NULL;

  if (find_command (argv[1]) >= 0) {
    for (int i = 2; i < argc && strcmp (argv[i], "--") != 0; i++)
      if (strcmp (argv[i], "--help") == 0 || strcmp (argv[i], "-h") == 0) {
        help = help_text (find_command (argv[1]));
        return command_print (help);
      }
    return run_command (argc, argv);
  }
  if (strcmp (argv[1], "--version") == 0)
    return command_print ("downcomer " PACKAGE_VERSION "\n");
  if (is_mistyped (argv[1]) && strcmp (argv[1], "-h") != 0 && strcmp (argv[1], "--help") != 0 &&
      strcmp (argv[1], "help") != 0)
    return command_fail (
        CLI_USAGE, _ ("“%s” is no command and no file; “downcomer --help” lists the commands"), argv[1]);
  help = help_text (-1);
  return command_print (help);
}
