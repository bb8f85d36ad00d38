/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* The tables are only as good as what reads them. */

#include "csv.h"
#include "given.h"

#include <math.h>

static const char *
cell (GPtrArray *records, guint row, guint column)
{
  CsvRecord *record = g_ptr_array_index (records, row);

  return g_ptr_array_index (record->fields, column);
}

static void
test_csv_follows_the_standard (void)
{
  g_autoptr (GPtrArray) records = NULL;
  guint line = 0;

  g_assert_true (csv_parse ("\xef\xbb\xbf"
                            "a,\"b, \"\"c\"\"\",\r\n\r\n\"two\nlines\",,d\nlast",
                            &records, &line));
  g_assert_cmpuint (records->len, ==, 3);
  g_assert_cmpstr (cell (records, 0, 0), ==, "a");
  g_assert_cmpstr (cell (records, 0, 1), ==, "b, \"c\"");
  g_assert_cmpstr (cell (records, 0, 2), ==, "");
  g_assert_cmpstr (cell (records, 1, 0), ==, "two\nlines");
  g_assert_cmpstr (cell (records, 1, 1), ==, "");
  g_assert_cmpstr (cell (records, 2, 0), ==, "last");
  g_assert_cmpuint (((CsvRecord *) g_ptr_array_index (records, 1))->line, ==, 3);
  g_assert_cmpuint (((CsvRecord *) g_ptr_array_index (records, 2))->line, ==, 5);
}

static void
test_csv_refuses_broken_quotes (void)
{
  static const char *const broken[] = {"a\n\"b", "a\n\"b\"c", "a\n\"b\" ,c"};

  for (gsize i = 0; i < G_N_ELEMENTS (broken); i++) {
    GPtrArray *records = NULL;
    guint line = 0;
    g_assert_false (csv_parse (broken[i], &records, &line));
    g_assert_null (records);
    g_assert_cmpuint (line, ==, 2);
  }
}

static void
test_given_reads_its_keys (void)
{
  char *complaint = NULL;
  double values[4] = {0.0};
  g_autoptr (Given) given =
      given_parse ("n=1.5e-3;word=round;curve=3,2,1|4,5,6;file=x.json", "/tables", &complaint);

  g_assert_nonnull (given);
  g_assert_cmpfloat (given_number (given, "n"), ==, 1.5e-3);
  g_assert_cmpfloat (given_number_or (given, "m", 7.0), ==, 7.0);
  g_assert_cmpstr (given_word (given, "word"), ==, "round");
  g_autofree char *path = given_path (given, "file");
  g_assert_cmpstr (path, ==, "/tables/x.json");
  g_assert_null (given_complaint (given));
  g_assert_cmpuint (given_numbers (given, "curve", ",|", values, G_N_ELEMENTS (values)), ==, 0);
  g_assert_nonnull (given_complaint (given)); /* six numbers do not fit into four */
}

static void
test_given_keeps_the_first_complaint (void)
{
  static const char *const words[] = {"square", "round"};
  char *complaint = NULL;
  g_autoptr (Given) given = given_parse ("n=1,5;word=flat", ".", &complaint);

  g_assert_true (isnan (given_number (given, "missing")));
  g_assert_true (isnan (given_number (given, "n")));
  g_assert_cmpuint (given_choice (given, "word", words, G_N_ELEMENTS (words)), ==, 0);
  g_assert_cmpstr (given_complaint (given), ==, "key \"missing\" is missing");
}

static void
test_given_refuses_bad_text (void)
{
  static const char *const bad[] = {"n", "=1", "a=1;;b=2", "a=1;a=2"};

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autofree char *complaint = NULL;
    g_assert_null (given_parse (bad[i], ".", &complaint));
    g_assert_nonnull (complaint);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reference/csv/standard", test_csv_follows_the_standard);
  g_test_add_func ("/reference/csv/broken", test_csv_refuses_broken_quotes);
  g_test_add_func ("/reference/given/keys", test_given_reads_its_keys);
  g_test_add_func ("/reference/given/first-complaint", test_given_keeps_the_first_complaint);
  g_test_add_func ("/reference/given/bad", test_given_refuses_bad_text);
  return g_test_run ();
}
