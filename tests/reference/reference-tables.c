/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* reference-tables FOLDER|TABLE.csv...
 *
 * Holds the program against check values from outside it. The form of the tables is described in tables/README.md.
 * Every row that fails is printed; the last line is "N passed, N failed"; the exit status is 1 if a row or a table
 * failed. */

#include "csv.h"
#include "handlers.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
  COLUMN_CASE,
  COLUMN_QUANTITY,
  COLUMN_GIVEN,
  COLUMN_EXPECTED,
  COLUMN_UNIT,
  COLUMN_REL_TOL,
  COLUMN_ABS_TOL,
  COLUMN_SOURCE,
  COLUMN_PROVENANCE,
  COLUMN_NOTE,
  N_COLUMNS
};

static const char *const column_names[N_COLUMNS] = {"case",    "quantity", "given",  "expected",   "unit",
                                                    "rel_tol", "abs_tol",  "source", "provenance", "note"};
static const char *const provenances[] = {"published", "library", "analytic", "common-practice", "memory"};

typedef struct {
  guint passed, failed;
  guint passed_by_provenance[G_N_ELEMENTS (provenances)];
} Tally;

typedef struct {
  const char *table;  /* base name, for messages */
  const char *folder; /* where the table stands */
  Tally *tally;
} Run;

static const char *
field (const CsvRecord *record, guint column)
{
  return g_ptr_array_index (record->fields, column);
}

static void
fail (Run *run, const CsvRecord *record, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  g_print ("%s:%u: %s: %s\n", run->table, record->line,
           record->fields->len > COLUMN_CASE ? field (record, COLUMN_CASE) : "?", what);
  run->tally->failed++;
}

static gboolean
read_number (const CsvRecord *record, guint column, double *ret_value)
{
  const char *text = field (record, column);
  char *end = NULL;
  double value = g_ascii_strtod (text, &end);

  if (end == text || *end != '\0' || !isfinite (value))
    return FALSE;
  *ret_value = value;
  return TRUE;
}

static void
count_pass (Run *run, const CsvRecord *record)
{
  run->tally->passed++;
  for (gsize i = 0; i < G_N_ELEMENTS (provenances); i++)
    run->tally->passed_by_provenance[i] += strcmp (provenances[i], field (record, COLUMN_PROVENANCE)) == 0;
}

static void
judge (Run *run, const CsvRecord *record, double got)
{
  double expected = 0.0, relative = 0.0, absolute = 0.0;

  if (!read_number (record, COLUMN_EXPECTED, &expected) || !read_number (record, COLUMN_REL_TOL, &relative) ||
      !read_number (record, COLUMN_ABS_TOL, &absolute)) {
    fail (run, record, "expected, rel_tol and abs_tol must be finite numbers");
    return;
  }
  double tolerance = fmax (absolute, relative * fabs (expected));
  if (isfinite (got) && fabs (got - expected) <= tolerance)
    count_pass (run, record);
  else
    fail (run, record, "%s: expected %.10g %s, got %.10g, tolerance %.3g", field (record, COLUMN_QUANTITY),
          expected, field (record, COLUMN_UNIT), got, tolerance);
}

static void
run_row (Run *run, const CsvRecord *record)
{
  if (record->fields->len != N_COLUMNS) {
    fail (run, record, "%u fields instead of %d", record->fields->len, N_COLUMNS);
    return;
  }
  const char *quantity = field (record, COLUMN_QUANTITY);
  const Handler *handler = handler_find (quantity);
  if (handler == NULL) {
    fail (run, record, "unknown quantity \"%s\"", quantity);
    return;
  }

  g_autofree char *complaint = NULL;
  g_autoptr (Given) given = given_parse (field (record, COLUMN_GIVEN), run->folder, &complaint);
  if (given == NULL) {
    fail (run, record, "%s: %s", quantity, complaint);
    return;
  }
  double got = NAN;
  HydraulicsStatus status = handler->run (given, &got);
  if (given_complaint (given) != NULL)
    fail (run, record, "%s: %s", quantity, given_complaint (given));
  else if (status == HYDRAULICS_OK || (status == HYDRAULICS_OUT_OF_RANGE && isfinite (got)))
    judge (run, record, got);
  else
    fail (run, record, "%s: %s", quantity, hydraulics_status_text (status));
}

static gboolean
header_is_right (const CsvRecord *header)
{
  if (header->fields->len != N_COLUMNS)
    return FALSE;
  for (guint i = 0; i < N_COLUMNS; i++) {
    if (strcmp (field (header, i), column_names[i]) != 0)
      return FALSE;
  }
  return TRUE;
}

static void
run_table (const char *path, Tally *tally)
{
  g_autofree char *table = g_path_get_basename (path);
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) records = NULL;
  Run run = {table, folder, tally};
  guint line = 0;

  if (!g_file_get_contents (path, &text, NULL, &error)) {
    g_print ("%s\n", error->message);
    tally->failed++;
  } else if (!csv_parse (text, &records, &line)) {
    g_print ("%s:%u: a quoted field is not closed, or goes on behind its quote\n", table, line);
    tally->failed++;
  } else if (records->len == 0 || !header_is_right (g_ptr_array_index (records, 0))) {
    g_print ("%s: the first line is not the header of a reference table\n", table);
    tally->failed++;
  } else {
    for (guint i = 1; i < records->len; i++)
      run_row (&run, g_ptr_array_index (records, i));
  }
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Every table of a folder in the order of their names, so that two runs print the same. */
static void
run_folder (const char *path, Tally *tally)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  GDir *folder = g_dir_open (path, 0, &error);
  const char *name;

  if (folder == NULL) {
    g_print ("%s\n", error->message);
    tally->failed++;
    return;
  }
  while ((name = g_dir_read_name (folder)) != NULL) {
    if (g_str_has_suffix (name, ".csv"))
      g_ptr_array_add (names, g_build_filename (path, name, NULL));
  }
  g_dir_close (folder);
  if (names->len == 0) {
    g_print ("%s: no table *.csv in this folder\n", path);
    tally->failed++;
  }
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++)
    run_table (g_ptr_array_index (names, i), tally);
}

int
main (int argc, char **argv)
{
  Tally tally = {0};

  if (argc < 2) {
    g_printerr ("usage: %s FOLDER|TABLE.csv...\n", argv[0]);
    return 64;
  }
  for (int i = 1; i < argc; i++) {
    if (g_file_test (argv[i], G_FILE_TEST_IS_REGULAR))
      run_table (argv[i], &tally);
    else
      run_folder (argv[i], &tally);
  }
  for (gsize i = 0; i < G_N_ELEMENTS (provenances); i++)
    g_print ("%s: %u passed\n", provenances[i], tally.passed_by_provenance[i]);
  g_print ("%u passed, %u failed\n", tally.passed, tally.failed);
  return tally.failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
