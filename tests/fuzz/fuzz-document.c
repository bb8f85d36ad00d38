/* SPDX-License-Identifier: LGPL-2.1-or-later */
/*
 * Documents. An input is a file. It is refused with one sentence, or it loads; what loads saves, and what was saved loads as
 * the same project and saves to the same bytes. An input that begins with "+" is pasted pump points instead.
 */
#include "fuzz/target.h"

#include "design/curve.h"
#include "files/document.h"
#include "files/pump-points.h"
#include "units/format.h"

static void
check_sentence (const GError *error)
{
  g_assert_true (error->domain == FILES_ERROR);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_true (*error->message != '\0');
}

static void
try_document (GBytes *bytes)
{
  GError *error = NULL;
  Project *project = document_from_bytes (bytes, "fuzz.downcomer", &error);

  g_assert_true ((project == NULL) == (error != NULL));
  if (error != NULL) {
    check_sentence (error);
    g_error_free (error);
    return;
  }
  GBytes *saved = document_to_bytes (project, "fuzz.downcomer", NULL);
  g_assert_nonnull (saved);
  Project *again = document_from_bytes (saved, "fuzz.downcomer", &error);
  g_assert_no_error (error);
  g_assert_true (project_equal (project, again));
  GBytes *twice = document_to_bytes (again, "fuzz.downcomer", NULL);
  g_assert_true (g_bytes_equal (saved, twice));
  g_bytes_unref (saved);
  g_bytes_unref (twice);
  project_unref (project);
  project_unref (again);
}

static void
try_points (const char *text)
{
  NumberStyle style = number_style_metric ();
  GError *error = NULL;
  char *curve = NULL;

  if (pump_points_parse (text, &style, unit_find ("l/h"), unit_find ("m"), &curve, &error)) {
    char *canonical = curve_canonical (curve);
    g_assert_cmpstr (curve, ==, canonical);
    g_free (canonical);
    g_free (curve);
    return;
  }
  check_sentence (error);
  g_error_free (error);
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  if (size > 0 && data[0] == '+') {
    char *text = g_strndup ((const char *) data + 1, size - 1);
    try_points (text);
    g_free (text);
    return 0;
  }
  GBytes *bytes = g_bytes_new (data, size);
  try_document (bytes);
  g_bytes_unref (bytes);
  return 0;
}
