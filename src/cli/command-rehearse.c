/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* `downcomer rehearse`: failures played through in time, as a table, as JSON in SI, and every moment as CSV. */
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cli/command.h"
#include "cli/json.h"
#include "report/rehearsal-words.h"
#include "report/words.h"
#include "units/parse.h"

#define FRAMES   2000
#define PREFIX   "rehearsal."
#define SPILT_M3 1e-6

typedef struct {
  Loaded loaded;
  FailureOptions options;
  System *system;
  Rehearser *rehearser;
  RehearsalTrace *trace;
  Rehearsed *rehearsed;
  RehearsalRemedy remedies[REHEARSAL_REMEDIES_MAX];
  unsigned n_remedies;
  Json json;
  GString *table, *csv;
  bool spilt, failed;
} Stage;

static Design *
design_of (const Stage *stage)
{
  return project_active_design (stage->loaded.project);
}

static const char *
key_of (const Stage *stage, int part)
{
  return part >= 0 ? part_key (design_part (design_of (stage), (unsigned) part)) : NULL;
}

static bool
take_option (const char *name, const char *text, FailureOptions *options)
{
  const NumberStyle style = number_style_metric ();
  const char *known;
  Quantity quantity = QUANTITY_NONE;
  double value = 0;

  for (unsigned i = 0; (known = failure_option_name (i, &quantity)) != NULL; i++)
    if (strcmp (known, name) == 0)
      return units_parse (text, quantity, &style, quantity_si_unit (quantity), &value, NULL) ==
                 UNITS_PARSE_OK &&
             failure_options_set (options, name, value);
  return false;
}

/* Takes "rehearsal.NAME=VALUE" out of the changes of the design; `rest` gets the others, NULL after the last. */
static int
read_options (const Options *options, GPtrArray *rest, FailureOptions *ret_options)
{
  failure_options_init (ret_options);
  for (char **set = options->sets; set != NULL && *set != NULL; set++) {
    const char *equals = strchr (*set, '=');
    g_autofree char *name = NULL;

    if (!g_str_has_prefix (*set, PREFIX) || equals == NULL) {
      g_ptr_array_add (rest, *set);
      continue;
    }
    name = g_strndup (*set + strlen (PREFIX), (gsize) (equals - *set) - strlen (PREFIX));
    if (!take_option (name, equals + 1, ret_options))
      return command_fail_set ("--set ", *set,
                               _ ("a rehearsal has power-off-time, block-time, top-off-flow, outlet-drop, "
                                  "longest-time and absence, within reason"));
  }
  g_ptr_array_add (rest, NULL);
  return CLI_OK;
}

static int
open_stage (const Options *options, Stage *stage)
{
  g_autoptr (GPtrArray) rest = g_ptr_array_new ();
  Options others = *options;
  int status = read_options (options, rest, &stage->options);

  if (status != CLI_OK)
    return status;
  others.sets = (char **) rest->pdata;
  status = command_load (&others, true, &stage->loaded);
  if (status != CLI_OK)
    return status;
  stage->system = system_compile (design_of (stage), stage->loaded.catalogue, NULL, NULL);
  stage->rehearser = rehearser_new (stage->system);
  stage->rehearsed = g_new0 (Rehearsed, 1);
  if (options->csv != NULL) {
    stage->trace = rehearsal_trace_new (FRAMES);
    stage->csv = g_string_new (NULL);
  }
  if (options->json)
    stage->json = json_begin ();
  else
    stage->table = g_string_new (NULL);
  return CLI_OK;
}

static void
close_stage (Stage *stage)
{
  g_clear_pointer (&stage->rehearser, rehearser_free);
  g_clear_pointer (&stage->system, system_free);
  g_clear_pointer (&stage->trace, rehearsal_trace_free);
  g_clear_pointer (&stage->rehearsed, g_free);
  if (stage->csv != NULL)
    g_string_free (stage->csv, TRUE);
  if (stage->table != NULL)
    g_string_free (stage->table, TRUE);
  loaded_clear (&stage->loaded);
}

static void
write_remedies (Stage *stage)
{
  Json *json = &stage->json;

  json_open_array (json, "remedies");
  for (unsigned i = 0; i < stage->n_remedies; i++) {
    const RehearsalRemedy *remedy = &stage->remedies[i];
    const char *key = key_of (stage, remedy->part);
    g_autofree char *path = g_strdup_printf ("%s.%s", key, field_info (remedy->field)->name);
    g_autofree char *text = rehearsal_remedy_sentence (design_of (stage), remedy, &stage->loaded.style);

    json_open_object (json, NULL);
    json_string (json, "path", path);
    json_number (json, "value", remedy->value);
    json_string (json, "text", text);
    json_close_object (json);
  }
  json_close_array (json);
}

static void
write_finding (Stage *stage, const RehearsalFinding *finding)
{
  Json *json = &stage->json;
  g_autofree char *text = rehearsal_finding_sentence (design_of (stage), finding, &stage->loaded.style);

  json_open_object (json, NULL);
  json_string (json, "id", rehearsal_check_word (finding->check));
  json_string (json, "grade", grade_word (finding->grade));
  json_string (json, "part", key_of (stage, finding->part));
  json_number (json, "value", finding->value);
  json_number (json, "limit", finding->limit);
  json_string (json, "unit", quantity_si_unit (rehearsal_check_quantity (finding->check))->word);
  json_number (json, "time_s", finding->time_s);
  json_string (json, "text", text);
  if (finding->check == REHEARSED_SPILLS)
    write_remedies (stage);
  json_close_object (json);
}

static void
write_arrays (Stage *stage)
{
  const Rehearsal *rehearsal = &stage->rehearsed->rehearsal;
  Json *json = &stage->json;

  json_open_array (json, "spills");
  for (unsigned i = 0; i < rehearsal->n_spills; i++) {
    json_open_object (json, NULL);
    json_string (json, "part", key_of (stage, rehearsal->spills[i].part));
    json_number (json, "m3", rehearsal->spills[i].m3);
    json_number (json, "first_s", rehearsal->spills[i].first_s);
    json_close_object (json);
  }
  json_close_array (json);
  json_open_array (json, "vessels");
  for (unsigned i = 0; i < rehearsal->n_vessels; i++) {
    json_open_object (json, NULL);
    json_string (json, "part", key_of (stage, rehearsal->vessels[i].part));
    json_number (json, "peak_m", rehearsal->vessels[i].peak_z);
    json_number (json, "least_freeboard_m", rehearsal->vessels[i].least_freeboard_m);
    json_close_object (json);
  }
  json_close_array (json);
}

static void
write_json (Stage *stage, const char *word)
{
  const Rehearsed *rehearsed = stage->rehearsed;
  const bool applies = rehearsed->reason == FAILURE_APPLIES, played = applies && !stage->failed;
  Json *json = &stage->json;

  json_open_object (json, NULL);
  json_string (json, "name", word);
  json_boolean (json, "applies", applies);
  json_string (json, "why", applies ? NULL : rehearsal_reason_sentence (rehearsed->reason));
  json_number (json, "rest_s", played ? rehearsed->rehearsal.rest_s : (double) NAN);
  json_number (json, "spilled_m3", played ? rehearsed->rehearsal.spilled_m3 : (double) NAN);
  write_arrays (stage);
  json_number (json, "pump_dry_s", played ? rehearsed->rehearsal.pump_dry_s : (double) NAN);
  json_number (json, "water_error", played ? rehearsed->rehearsal.water_error : (double) NAN);
  json_open_array (json, "findings");
  for (unsigned i = 0; i < rehearsed->n_findings; i++)
    write_finding (stage, &rehearsed->findings[i]);
  json_close_array (json);
  json_close_object (json);
}

/* One line a scenario, and below it what it found. */
static void
write_table (Stage *stage)
{
  const Rehearsed *rehearsed = stage->rehearsed;
  g_autofree char *name = rehearsal_name (rehearsed->failures, rehearsed->n_failures);
  bool quiet = true;

  if (rehearsed->reason != FAILURE_APPLIES) {
    g_string_append_printf (stage->table, "%s: %s\n", name, rehearsal_reason_sentence (rehearsed->reason));
    return;
  }
  g_string_append_printf (stage->table, "%s:", name);
  for (unsigned i = 0; i < rehearsed->n_findings; i++) {
    g_autofree char *text =
        rehearsal_finding_sentence (design_of (stage), &rehearsed->findings[i], &stage->loaded.style);

    g_string_append_printf (stage->table, "\n  %s: %s", words_grade (rehearsed->findings[i].grade), text);
    quiet = false;
  }
  for (unsigned i = 0; i < stage->n_remedies; i++) {
    g_autofree char *text =
        rehearsal_remedy_sentence (design_of (stage), &stage->remedies[i], &stage->loaded.style);

    g_string_append_printf (stage->table, "\n    - %s", text);
  }
  if (stage->failed)
    g_string_append_printf (stage->table, " %s", _ ("a flow could not be found; this is not judged."));
  else if (quiet)
    g_string_append_printf (stage->table, " %s", _ ("nothing spills, no pump runs dry."));
  g_string_append_c (stage->table, '\n');
}

static void
append_number (GString *csv, double value)
{
  char buffer[UNITS_SHORTEST_SIZE];

  g_string_append_c (csv, ',');
  g_string_append (csv, units_shortest (value, buffer));
}

static void
write_csv_head (Stage *stage)
{
  const Rehearsal *rehearsal = &stage->rehearsed->rehearsal;
  const Evaluation *evaluation = stage->loaded.evaluation;

  g_string_append (stage->csv, "scenario,time_s");
  for (unsigned i = 0; i < rehearsal->n_vessels; i++)
    g_string_append_printf (stage->csv, ",%s%s.level_m", key_of (stage, rehearsal->vessels[i].part),
                            rehearsal->vessels[i].kind == VESSEL_BOX_OUTER ? ".outer" : "");
  for (unsigned i = 0; i < evaluation->n_pumps; i++)
    g_string_append_printf (stage->csv, ",%s.speed,%s.flow_m3_per_s",
                            key_of (stage, evaluation->pumps[i].part),
                            key_of (stage, evaluation->pumps[i].part));
  for (unsigned i = 0; i < evaluation->n_outlets; i++)
    g_string_append_printf (stage->csv, ",%s.flow_m3_per_s", key_of (stage, evaluation->outlets[i].part));
  for (unsigned i = 0; i < evaluation->n_drains; i++)
    g_string_append_printf (stage->csv, ",%s.flow_m3_per_s", key_of (stage, evaluation->drains[i].part));
  g_string_append (stage->csv, ",spilled_m3\n");
}

/* Keys and words hold no comma and no quote. */
static void
write_csv (Stage *stage, const char *word)
{
  const Evaluation *evaluation = stage->loaded.evaluation;

  if (stage->csv->len == 0)
    write_csv_head (stage);
  for (unsigned k = 0; k < rehearsal_trace_n_frames (stage->trace); k++) {
    const RehearsalFrame *frame = rehearsal_trace_frame (stage->trace, k);

    g_string_append (stage->csv, word);
    append_number (stage->csv, frame->time_s);
    for (unsigned i = 0; i < stage->rehearsed->rehearsal.n_vessels; i++)
      append_number (stage->csv, frame->level_z[i]);
    for (unsigned i = 0; i < evaluation->n_pumps; i++) {
      append_number (stage->csv, frame->pump_speed[i]);
      append_number (stage->csv, frame->pump_m3s[i]);
    }
    for (unsigned i = 0; i < evaluation->n_outlets; i++)
      append_number (stage->csv, frame->outlet_m3s[i]);
    for (unsigned i = 0; i < evaluation->n_drains; i++)
      append_number (stage->csv, frame->drain_m3s[i]);
    append_number (stage->csv, frame->spilled_m3);
    g_string_append_c (stage->csv, '\n');
  }
}

static void
play (Stage *stage, const FailureId *failures, unsigned n)
{
  g_autofree char *word =
      n == 2 ? g_strconcat (failure_word (failures[0]), "+", failure_word (failures[1]), NULL)
             : g_strdup (failure_word (failures[0]));
  Rehearsed *rehearsed = stage->rehearsed;

  stage->n_remedies = 0;
  stage->failed = !rehearse_failures (stage->system, stage->loaded.evaluation, stage->rehearser, failures, n,
                                      &stage->options, stage->trace, NULL, rehearsed) &&
                  rehearsed->reason == FAILURE_APPLIES;
  if (stage->failed)
    g_printerr ("downcomer: %s: %s\n", word, rehearsal_status_text (rehearsed->rehearsal.status));
  if (rehearsed->rehearsal.spilled_m3 > SPILT_M3) {
    stage->spilt = true;
    stage->n_remedies = rehearsal_remedies (design_of (stage), stage->loaded.catalogue, rehearsed,
                                            &stage->options, NULL, stage->remedies);
  }
  if (stage->table != NULL)
    write_table (stage);
  else
    write_json (stage, word);
  if (stage->csv != NULL && rehearsed->reason == FAILURE_APPLIES)
    write_csv (stage, word);
}

/* "NAME" or "NAME+NAME", two different ones. */
static bool
read_scenario (const char *text, FailureId *ret_failures, unsigned *ret_n)
{
  g_auto (GStrv) words = g_strsplit (text, "+", 3);

  *ret_n = g_strv_length (words);
  if (*ret_n < 1 || *ret_n > REHEARSED_TOGETHER_MAX)
    return false;
  for (unsigned i = 0; i < *ret_n; i++)
    if (!failure_find (words[i], &ret_failures[i]))
      return false;
  return *ret_n < 2 || ret_failures[0] != ret_failures[1];
}

static int
check_scenarios (const Options *options)
{
  FailureId failures[REHEARSED_TOGETHER_MAX];
  unsigned n;

  for (char **name = options->scenarios; name != NULL && *name != NULL; name++) {
    g_autofree char *quoted = command_quoted (*name);

    if (!read_scenario (*name, failures, &n))
      return command_fail (CLI_USAGE,
                           _ ("“%s” is no scenario; “downcomer rehearse FILE --list” names them, and "
                              "a + between two different ones plays both together"),
                           quoted);
  }
  return CLI_OK;
}

static int
list_scenarios (const Stage *stage)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (unsigned i = 0; i < N_FAILURES; i++) {
    const FailureReason reason =
        failure_applies (stage->system, stage->loaded.evaluation, (FailureId) i, &stage->options);

    g_string_append_printf (text, "%-30s %s", failure_word ((FailureId) i),
                            rehearsal_failure_meaning ((FailureId) i));
    if (reason != FAILURE_APPLIES)
      g_string_append_printf (text, " (%s)", rehearsal_reason_sentence (reason));
    g_string_append_c (text, '\n');
  }
  return command_print (text->str);
}

static int
play_all (Stage *stage, const Options *options)
{
  FailureId failures[REHEARSED_TOGETHER_MAX];
  unsigned n;

  for (char **name = options->scenarios; name != NULL && *name != NULL; name++)
    if (read_scenario (*name, failures, &n))
      play (stage, failures, n);
  for (unsigned i = 0; options->scenarios == NULL && i < N_FAILURES; i++) {
    failures[0] = (FailureId) i;
    play (stage, failures, 1);
  }
  if (options->csv != NULL) {
    g_autoptr (GBytes) bytes = g_bytes_new (stage->csv->str, stage->csv->len);

    return command_write (options->csv, bytes);
  }
  return CLI_OK;
}

int
command_rehearse (const Options *options)
{
  Stage stage = {0};
  g_autofree char *text = NULL;
  int status = check_scenarios (options);

  if (status == CLI_OK && options->json && g_strcmp0 (options->csv, "-") == 0)
    status =
        command_fail (CLI_USAGE, _ ("--json and --csv - would mix on standard output; give --csv a file"));
  if (status == CLI_OK)
    status = open_stage (options, &stage);
  if (status == CLI_OK && options->list) {
    status = list_scenarios (&stage);
  } else if (status == CLI_OK) {
    if (options->json) {
      json_open_object (&stage.json, NULL);
      json_open_array (&stage.json, "scenarios");
    }
    status = play_all (&stage, options);
    if (options->json) {
      json_close_array (&stage.json);
      json_close_object (&stage.json);
      text = json_end (&stage.json);
    }
    if (status == CLI_OK && g_strcmp0 (options->csv, "-") != 0)
      status = command_print (options->json ? text : stage.table->str);
    if (status == CLI_OK && stage.spilt)
      status = CLI_NOT_SOUND;
  }
  close_stage (&stage);
  return status;
}
