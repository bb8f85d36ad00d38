/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The JSON writer against RFC 8259, byte by byte: what a general reader makes of it is tests/cli/commands.py. */
#include "cli/json.h"

#include <locale.h>
#include <math.h>
#include <string.h>

static void
test_empty (void)
{
  Json object = json_begin (), array = json_begin ();
  g_autofree char *empty_object = NULL, *empty_array = NULL;

  json_open_object (&object, NULL);
  json_close_object (&object);
  empty_object = json_end (&object);
  g_assert_cmpstr (empty_object, ==, "{}\n");
  json_open_array (&array, NULL);
  json_close_array (&array);
  empty_array = json_end (&array);
  g_assert_cmpstr (empty_array, ==, "[]\n");
}

static void
test_nested (void)
{
  Json json = json_begin ();
  g_autofree char *text = NULL;

  json_open_object (&json, NULL);
  json_open_array (&json, "range");
  json_number (&json, NULL, 0.15);
  json_number (&json, NULL, 4);
  json_close_array (&json);
  json_open_object (&json, "none");
  json_close_object (&json);
  json_boolean (&json, "given", TRUE);
  json_boolean (&json, "shut", FALSE);
  json_string (&json, "part", NULL);
  json_close_object (&json);
  text = json_end (&json);
  g_assert_cmpstr (text, ==,
                   "{\n  \"range\": [\n    0.15,\n    4\n  ],\n  \"none\": {},\n  \"given\": true,\n"
                   "  \"shut\": false,\n  \"part\": null\n}\n");
}

/* RFC 8259 section 7: quotation mark, reverse solidus and everything below U+0020 must be escaped; the rest stays. */
static void
test_strings (void)
{
  Json json = json_begin ();
  g_autofree char *text = NULL;

  json_open_array (&json, NULL);
  json_string (&json, NULL, "3/4\" \\ tab\there\nline \x01\x1f");
  json_string (&json, NULL, "größe ½ ″ 水");
  json_string (&json, NULL, "");
  json_close_array (&json);
  text = json_end (&json);
  g_assert_cmpstr (text, ==,
                   "[\n  \"3/4\\\" \\\\ tab\\u0009here\\u000aline \\u0001\\u001f\",\n"
                   "  \"größe ½ ″ 水\",\n  \"\"\n]\n");
}

/* Numbers read back to the same double; what is not known is null, never NaN or Infinity (RFC 8259 section 6). */
static void
test_numbers (void)
{
  static const double values[] = {
      0, -0.0, 1, -1.5, 0.1, 1 / 3.0, 6.058096691459408e-4, 5e-324, 1.7976931348623157e308};

  for (guint i = 0; i < G_N_ELEMENTS (values); i++) {
    Json json = json_begin ();
    g_autofree char *text = NULL;

    json_number (&json, NULL, values[i]);
    text = json_end (&json);
    g_assert_cmpfloat (g_ascii_strtod (text, NULL), ==, values[i]);
    g_assert_null (strchr (text, ','));
  }
}

static void
test_unknown (void)
{
  static const double values[] = {NAN, INFINITY, -INFINITY};

  for (guint i = 0; i < G_N_ELEMENTS (values); i++) {
    Json json = json_begin ();
    g_autofree char *text = NULL;

    json_number (&json, NULL, values[i]);
    text = json_end (&json);
    g_assert_cmpstr (text, ==, "null\n");
  }
}

static void
test_comma_locale (void)
{
  if (setlocale (LC_ALL, "de_DE.UTF-8") == NULL) {
    g_test_skip ("no locale with a decimal comma is installed");
    return;
  }
  test_numbers ();
  setlocale (LC_ALL, "C");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cli/json/empty", test_empty);
  g_test_add_func ("/cli/json/nested", test_nested);
  g_test_add_func ("/cli/json/strings", test_strings);
  g_test_add_func ("/cli/json/numbers", test_numbers);
  g_test_add_func ("/cli/json/unknown", test_unknown);
  g_test_add_func ("/cli/json/comma-locale", test_comma_locale);
  return g_test_run ();
}
