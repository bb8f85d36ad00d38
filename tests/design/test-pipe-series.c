/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Sizes of one series, and the pipe of a run stepped through them. */
#include "design/edit.h"
#include "design/pipe-series.h"
#include "tests/design/fixture.h"

/* Sizes as of ASTM D1785 and EN ISO 1452-2, out of order. */
static Catalogue *
sizes (void)
{
  static const PipeSize all[] = {
      {"sch40-2", "2", "", 0.0525, 0.0603, 2, 0, false},
      {"sch40-1", "1", "", 0.0266, 0.0334, 1, 0, false},
      {"sch40-1-1/2", "1 1/2", "", 0.0409, 0.0483, 1.5, 0, false},
      {"sch80-1", "1", "", 0.0243, 0.0334, 1, 0, false},
      {"metric-50", "50", "", 0.0426, 0.05, 1.5, 0, false},
      {"metric-63-sdr21", "63", "", 0.057, 0.063, 2, 0, false},
      {"metric-63", "63", "", 0.0536, 0.063, 2, 0, false},
      {"hose-25", "25", "", 0.025, 0.031, 1, 0, true},
      {"hose-1-in", "1", "", 0.0254, 0.0318, 1, 0, true},
  };
  Catalogue *catalogue = catalogue_new ();

  for (unsigned i = 0; i < G_N_ELEMENTS (all); i++)
    g_assert_true (catalogue_add_pipe (catalogue, &all[i]));
  return catalogue;
}

static void
test_series (void)
{
  static const struct {
    const char *key;
    unsigned n;
    const char *first, *last;
  } rows[] = {{"sch40-1-1/2", 3, "sch40-1", "sch40-2"},
              {"sch80-1", 1, "sch80-1", "sch80-1"},
              {"metric-63", 2, "metric-50", "metric-63"},
              {"metric-63-sdr21", 1, "metric-63-sdr21", "metric-63-sdr21"},
              {"hose-25", 1, "hose-25", "hose-25"},
              {"hose-1-in", 1, "hose-1-in", "hose-1-in"}};
  g_autoptr (Catalogue) catalogue = sizes ();
  g_autoptr (GPtrArray) none = NULL;

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (GPtrArray) series = pipe_series (catalogue, rows[i].key);

    g_assert_cmpuint (series->len, ==, rows[i].n);
    g_assert_cmpstr (((PipeSize *) g_ptr_array_index (series, 0))->key, ==, rows[i].first);
    g_assert_cmpstr (((PipeSize *) g_ptr_array_index (series, rows[i].n - 1))->key, ==, rows[i].last);
  }
  none = pipe_series (catalogue, "sch40-9");
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_null (pipe_series_step (catalogue, "sch40-9", 1));
  g_assert_null (pipe_series_step (catalogue, NULL, 1));
  g_assert_null (pipe_series_step (catalogue, "sch40-1", -1));
  g_assert_null (pipe_series_step (catalogue, "sch40-1", 3));
  g_assert_cmpstr (pipe_series_step (catalogue, "sch40-1", 2)->key, ==, "sch40-2");
}

/* Up and down again is the same design; beyond the ends it is refused, and says at which. */
static void
test_step (void)
{
  g_autoptr (Catalogue) catalogue = sizes ();
  g_autoptr (Design) base = fixture_design ();
  const char *run = part_key (design_nth (base, PART_RETURN, 0));
  g_autoptr (Design) thin = edit_set_pipe (base, catalogue, run, "sch40-1", NULL);
  g_autoptr (Design) thicker = edit_step_pipe (thin, catalogue, run, 1, NULL);
  g_autoptr (Design) thickest = edit_step_pipe (thin, catalogue, run, 2, NULL);
  g_autoptr (Design) back = edit_step_pipe (thicker, catalogue, run, -1, NULL);
  Problem problem;

  g_assert_cmpstr (design_text (thicker, design_find (thicker, run), FIELD_RETURN_SIZE), ==, "sch40-1-1/2");
  g_assert_true (design_equal (back, thin));
  g_assert_null (edit_step_pipe (thickest, catalogue, run, 1, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_THICKEST_PIPE);
  g_assert_null (edit_step_pipe (thin, catalogue, run, -1, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_THINNEST_PIPE);
  g_assert_null (edit_set_pipe (thin, catalogue, run, "lead-7", &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_NO_SUCH_PIPE);
  g_assert_null (edit_step_pipe (thin, catalogue, "display", 1, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_UNKNOWN_PART);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/design/pipe-series/series", test_series);
  g_test_add_func ("/design/pipe-series/step", test_step);
  return g_test_run ();
}
