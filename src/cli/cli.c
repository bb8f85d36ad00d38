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
    {"new", command_new, "--tank LxWxH --stand LxWxH [--turnover N] -o FILE",
     N_ ("propose a whole design from tank and stand"), 0, 0, TRUE},
    {"fields", command_fields, "FILE [--json]", N_ ("list every field with value, unit, range and help"), 1,
     1, FALSE},
    {"set", command_set, "FILE PATH=VALUE... -o OUT", N_ ("change fields and keep the changed design"), 2,
     10000, TRUE},
};

static char *
help_text (void)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s\n\n",
                          _ ("Downcomer plans an aquarium's whole water loop and tells whether it floods."));
  g_string_append_printf (text, "%s\n  downcomer [FILE...]\n      %s\n", _ ("Usage:"), _ ("open the window"));
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    g_string_append_printf (text, "  downcomer %s %s\n      %s\n", commands[i].name, commands[i].words,
                            _ (commands[i].help));
  g_string_append_printf (text, "\n%s\n", _ ("Options:"));
  g_string_append_printf (
      text, "  --set PATH=VALUE  %s\n",
      _ ("change a field of the design that is read; a bare number is SI; may be repeated"));
  g_string_append_printf (text, "  --json            %s\n", _ ("write JSON"));
  g_string_append_printf (text, "  -o, --output OUT  %s\n", _ ("the file to write"));
  g_string_append_printf (
      text, "  --help, --version\n\n%s\n",
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

bool
cli_wants (int argc, char **argv)
{
  static const char *const alone[] = {"--help", "-h", "--version", "help"};

  if (argc < 2)
    return false;
  for (guint i = 0; i < G_N_ELEMENTS (alone); i++)
    if (strcmp (argv[1], alone[i]) == 0)
      return true;
  return find_command (argv[1]) >= 0;
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
}

static bool
options_read (int argc, char **argv, Options *options, GError **error)
{
  const GOptionEntry entries[] = {
      {"set", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options->sets, NULL, NULL},
      {"output", 'o', 0, G_OPTION_ARG_FILENAME, &options->output, NULL, NULL},
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
                        commands[command].run == command_evaluate;

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
        help = help_text ();
        return command_print (help);
      }
    return run_command (argc, argv);
  }
  if (strcmp (argv[1], "--version") == 0)
    return command_print ("downcomer " PACKAGE_VERSION "\n");
  help = help_text ();
  return command_print (help);
}
