/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pump points as people paste them: what is understood, and the one sentence for what is not. */
#include "design/curve.h"
#include "files/pump-points.h"
#include "tests/files/fixture.h"
#include "units/parse.h"

/* 3,600 L/h is 0.001 m3/s, so that every flow below is a round figure. */
#define CURVE "0:3 0.001:2.5 0.002:1"

typedef enum { METRIC, US, GERMAN } Reader;

static NumberStyle
style_of (Reader reader)
{
  if (reader == US)
    return number_style_us ();
  if (reader == GERMAN)
    return number_style_from_separators (UNIT_SYSTEM_METRIC, ",", ".");
  return number_style_metric ();
}

/* As the program calls it where its window says "L/h and m". */
static gboolean
read_text (const char *text, Reader reader, char **ret_curve, GError **error)
{
  NumberStyle style = style_of (reader);

  return pump_points_parse (text, &style, unit_find ("l/h"), unit_find ("m"), ret_curve, error);
}

static void
test_understood (void)
{
  static const struct {
    const char *text;
    Reader reader;
  } cases[] = {
      {"0 3\n3600 2.5\n7200 1\n", METRIC},
      {"0\t3\n3600\t2.5\n7200\t1", METRIC},
      {"0;3\r\n3600;2.5\r\n7200;1\r\n", METRIC},
      {"0,3\n3600,2.5\n7200,1\n", METRIC},
      {"0, 3\n3600, 2.5\n7200, 1\n", METRIC},
      {"\ufeff# from a bucket test\n\n0 3   # shut\n  3600   2.5\n7200 1", METRIC},
      {"7200 1\n0 3\n3600 2.5\n", METRIC},
      {"Flow (L/h); Head (m)\n0;3\n3600;2.5\n7200;1\n", METRIC},
      {"Flow [m3/h]\tHead [cm]\n0\t300\n3.6\t250\n7.2\t100\n", METRIC},
      {"Head (m),Flow (L/s)\n3,0\n2.5,1\n1,2\n", METRIC},
      {"\"Q in L/s\",\"H in m\"\n\"0\",\"3\"\n\"1\",\"2.5\"\n\"2\",\"1\"\n", METRIC},
      {"L/h m\n0 3\n3600 2.5\n7200 1\n", METRIC},
      {"flow head\n0 3\n3600 2.5\n7200 1\n", METRIC},
      {"0 L/h 3 m\n3600 L/h 250 cm\n2 L/s 1 m\n", METRIC},
      {"0;3;\n3600;2.5;\n7200;1;\n", METRIC},
      {"0 3\n3600 2,5\n7200 1\n", GERMAN},
      {"0;3\n3.600;2,5\n7.200;1,0\n", GERMAN},
      {"0\t3\n3,600\t2.5\n7,200\t1\n", US},
      {"0 3\n3,600 2.5\n7,200 1\n", US},
      {"Flow (us_gph);Head (in)\n0;118.11023622047244\n951.0193884967752;98.4251968503937\n"
       "1902.0387769935504;39.37007874015748\n",
       US},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *curve = NULL;
    g_autoptr (GError) error = NULL;
    CurvePoints points;
    if (!read_text (cases[i].text, cases[i].reader, &curve, &error))
      g_error ("%s\n%s", cases[i].text, error->message);
    g_assert_true (curve_read (curve, &points));
    g_assert_cmpuint (points.n, ==, 3);
    for (unsigned j = 0; j < 3; j++) {
      static const double flows[] = {0, 0.001, 0.002};
      static const double heads[] = {3, 2.5, 1};
      g_assert_cmpfloat_with_epsilon (points.flow_m3s[j], flows[j], 1e-12);
      g_assert_cmpfloat_with_epsilon (points.head_m[j], heads[j], 1e-9);
    }
  }
}

static void
test_canonical (void)
{
  g_autofree char *curve = NULL;

  g_assert_true (read_text ("L/s m\n0 3\n1 2.5\n2 1\n", METRIC, &curve, NULL));
  g_assert_cmpstr (curve, ==, CURVE);
}

static void
test_refused (void)
{
  static const struct {
    const char *text;
    Reader reader;
    FilesError code;
    const char *sentence; /* its end */
  } cases[] = {
      {"", METRIC, FILES_ERROR_BAD_VALUE, ": a pump curve needs at least two points, one on each line."},
      {"3600 2.5", METRIC, FILES_ERROR_BAD_VALUE,
       ": a pump curve needs at least two points, one on each line."},
      {"0 3\n3600\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 2: a flow and a head are expected here, two values set apart by a tab or a semicolon."},
      {"0 3 1\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 1: a flow and a head are expected here, two values set apart by a tab or a semicolon."},
      {"0 3\n3600 4\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 2: the head rises with the flow here, which no pump curve does; check the point."},
      {"0 3\n3600 2\n3600 1\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 3: this flow is given twice; keep one of the two points."},
      {"0 3\n-3600 2\n", METRIC, FILES_ERROR_BAD_VALUE,
       "“-3600” is below zero, which no point of a pump curve is."},
      {"0;0\n3600;0\n", METRIC, FILES_ERROR_BAD_VALUE,
       ": a flow or head is far beyond any pump of this kind, or no head is left; check the units."},
      {"0 m3/s;3\n2 m3/s;2\n", METRIC, FILES_ERROR_BAD_VALUE,
       ": a flow or head is far beyond any pump of this kind, or no head is left; check the units."},
      {"0;3\nmany;2\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 2: “many;2” is not a point; only the first line may be a heading."},
      {"0;3\n3600;\n", METRIC, FILES_ERROR_BAD_VALUE, ", line 2: “” is not a head: nothing was entered."},
      {"0;3\n36.00.1;2\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 2: “36.00.1” is not a flow: the number is not written in a way that can be understood."},
      {"0;3\n3600 kg;2\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 2: “3600 kg” is not a flow: the unit measures something else."},
      {"0;3\n3600;0.2 bar\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 2: “0.2 bar” is not a head: the unit measures something else."},
      {"0\t3\n3,600\t2.5\n", METRIC, FILES_ERROR_AMBIGUOUS,
       ", line 2: “3,600” can be read in more than one way; write it without signs between groups of digits, "
       "and with its unit."},
      {"5,1 1/2 ft\n9,1 1/4 ft\n", METRIC, FILES_ERROR_AMBIGUOUS,
       ": the commas can stand between columns or within numbers; set the columns apart by semicolons."},
      {"Flow (gal/h); Head (m)\n0;3\n900;2\n", METRIC, FILES_ERROR_AMBIGUOUS,
       ", line 1: the unit of “Flow (gal/h)” can be read in more than one way; write it out, such as "
       "“us_gph”."},
      {"Flow; Flow\n0;3\n900;2\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 1: both columns are headed alike; one must be a flow and the other a head."},
      {"Speed; Head\n0;3\n900;2\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 1: the heading “Speed” names neither a flow nor a head with a known unit; write it like “Flow "
       "(L/h)” or "
       "“Head (m)”."},
      {"0;NaN\n1;2\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 1: “NaN” is not a head: a number was expected."},
      {"0;1e999\n1;2\n", METRIC, FILES_ERROR_BAD_VALUE,
       ", line 1: “1e999” is not a head: the number is too large or too small."},
      {"\xff", METRIC, FILES_ERROR_BAD_VALUE, ": the text is not in UTF-8."},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    char *curve = NULL;
    g_autoptr (GError) error = NULL;
    g_assert_false (read_text (cases[i].text, cases[i].reader, &curve, &error));
    g_assert_null (curve);
    if (!g_str_has_suffix (error->message, cases[i].sentence) || error->code != (int) cases[i].code)
      g_error ("%s\ngot: %s\nwanted: %s", cases[i].text, error->message, cases[i].sentence);
  }
}

/* Without a window that says so, a bare number has no unit. */
static void
test_bare (void)
{
  NumberStyle style = number_style_metric ();
  char *curve = NULL;
  g_autofree char *with_units = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (pump_points_parse ("0 3\n3600 2\n", &style, NULL, NULL, &curve, &error));
  g_assert_error (error, FILES_ERROR, FILES_ERROR_AMBIGUOUS);
  g_assert_true (pump_points_parse ("L/h m\n0 3\n3600 2\n", &style, NULL, NULL, &with_units, NULL));
}

static void
test_most_points (void)
{
  GString *text = g_string_new (NULL);
  g_autofree char *curve = NULL;
  char *none = NULL;
  g_autoptr (GError) error = NULL;

  for (int i = 0; i < MAX_CURVE_POINTS; i++)
    g_string_append_printf (text, "%d %d\n", 100 * i, 40 - i);
  g_assert_true (read_text (text->str, METRIC, &curve, NULL));
  g_string_append (text, "5000 1\n");
  g_assert_false (read_text (text->str, METRIC, &none, &error));
  g_assert_error (error, FILES_ERROR, FILES_ERROR_TOO_LARGE);
  g_string_free (text, TRUE);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pump-points/understood", test_understood);
  g_test_add_func ("/pump-points/canonical", test_canonical);
  g_test_add_func ("/pump-points/refused", test_refused);
  g_test_add_func ("/pump-points/bare", test_bare);
  g_test_add_func ("/pump-points/most-points", test_most_points);
  return g_test_run ();
}
