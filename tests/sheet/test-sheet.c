/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/sheet/fixture.h"

#include <cairo-pdf.h>
#include <math.h>
#include <string.h>

#include "report/rehearsal-words.h"
#include "report/words.h"
#include "sheet/frame.h"
#include "sheet/sheet-private.h"
#include "sheet/table.h"
#include "sheet/weight.h"
#include "solver/rehearsal-judge.h"
#include "solver/system.h"

/* The sheets of the fixture, in SI and in US units. */
static Sheet *plain[2];

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static GBytes *
pdf_of (const Sheet *sheet)
{
  GByteArray *array = g_byte_array_new ();

  g_assert_cmpint (sheet_write_pdf (sheet, append_bytes, array), ==, CAIRO_STATUS_SUCCESS);
  return g_byte_array_free_to_bytes (array);
}

/* All texts of a page, a line each; those of its figures as well. */
static char *
text_of (const Sheet *sheet, unsigned number)
{
  const Page *page = sheet_page (sheet, number);
  GString *text = g_string_new (NULL);

  for (unsigned i = 0; i < page->marks->len; i++) {
    const Mark *mark = g_ptr_array_index (page->marks, i);

    if (mark->kind == MARK_TEXT)
      g_string_append_printf (text, "%s\n", mark->text);
    if (mark->kind == MARK_FIGURE)
      for (unsigned k = 0; k < mark->figure->layout->texts->len; k++)
        g_string_append_printf (text, "%s\n",
                                g_array_index (mark->figure->layout->texts, LayoutText, k).text);
  }
  return g_string_free (text, FALSE);
}

static char *
all_text (const Sheet *sheet)
{
  GString *text = g_string_new (NULL);

  for (unsigned i = 0; i < sheet_n_pages (sheet); i++) {
    g_autofree char *page = text_of (sheet, i);

    g_string_append (text, page);
  }
  return g_string_free (text, FALSE);
}

static void
assert_within (Rect box, Rect room, const char *what)
{
  const double slack = 0.5;

  if (box.x < room.x - slack || box.y < room.y - slack || box.x + box.width > room.x + room.width + slack ||
      box.y + box.height > room.y + room.height + slack)
    g_error ("\"%s\" at %.1f, %.1f, %.1f x %.1f leaves its room at %.1f, %.1f, %.1f x %.1f", what, box.x,
             box.y, box.width, box.height, room.x, room.y, room.width, room.height);
}

/* Texts of the content end above the title block; nothing written leaves the frame; no two texts of a page overlap. */
static void
assert_in_frame (const Sheet *sheet, bool letter, bool us)
{
  const Paper paper = paper_new (letter, us);
  const Rect frame = frame_inside (&paper), content = frame_content (&paper);

  for (unsigned n = 0; n < sheet_n_pages (sheet); n++) {
    const Page *page = sheet_page (sheet, n);

    for (unsigned i = 0; i < page->marks->len; i++) {
      const Mark *mark = g_ptr_array_index (page->marks, i);

      if (mark->kind == MARK_FIGURE)
        assert_within (mark->box, content, "figure");
      if (mark->kind != MARK_TEXT)
        continue;
      g_assert_cmpfloat (mark->size, >=, 7);
      assert_within (mark->box, frame, mark->text);
      if (mark->box.y < content.y + content.height)
        assert_within (mark->box, content, mark->text);
      for (unsigned k = 0; k < i; k++) {
        const Mark *other = g_ptr_array_index (page->marks, k);

        /* Boxes reach above capitals and below the base line by a third of the size. */
        if (other->kind == MARK_TEXT &&
            fabs (other->box.y - mark->box.y) < 0.7 * MIN (mark->size, other->size) &&
            other->box.x < mark->box.x + mark->box.width - 1 &&
            mark->box.x < other->box.x + other->box.width - 1)
          g_error ("page %u: \"%s\" overlaps \"%s\"", n + 1, mark->text, other->text);
      }
    }
  }
}

static void
test_pages (void)
{
  static const char *const titles[] = {"General arrangement",
                                       "End elevation and plan",
                                       "Pipes, isometric",
                                       "Plumbing",
                                       "Sump",
                                       "Stand",
                                       "Findings",
                                       "Rehearsals",
                                       "Settings and commissioning",
                                       "Calculation"};

  for (unsigned us = 0; us < 2; us++) {
    const Sheet *sheet = plain[us];
    unsigned title = 0;

    g_assert_cmpuint (sheet_n_pages (sheet), >=, 4);
    for (unsigned i = 0; i < sheet_n_pages (sheet); i++) {
      if (title + 1 < G_N_ELEMENTS (titles) && g_str_equal (sheet_page_title (sheet, i), titles[title + 1]))
        title++;
      g_assert_cmpstr (sheet_page_title (sheet, i), ==, titles[title]);
    }
    g_assert_cmpuint (title + 1, ==, G_N_ELEMENTS (titles));
    g_assert_cmpstr (sheet_page_title (sheet, sheet_n_pages (sheet)), ==, "");
    assert_in_frame (sheet, us != 0, us != 0);
  }
}

/* ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: size A is 8.5 x 11 in. */
static void
test_paper (void)
{
  double width, height;

  sheet_paper (plain[0], &width, &height);
  g_assert_cmpfloat_with_epsilon (width, 297 / 25.4 * 72, 1e-9);
  g_assert_cmpfloat_with_epsilon (height, 210 / 25.4 * 72, 1e-9);
  sheet_paper (plain[1], &width, &height);
  g_assert_cmpfloat_with_epsilon (width, 11 * 72, 1e-9);
  g_assert_cmpfloat_with_epsilon (height, 8.5 * 72, 1e-9);
}

static void
assert_has (const char *text, const char *wanted)
{
  if (strstr (text, wanted) == NULL)
    g_error ("\"%s\" is not on the sheets", wanted);
}

static void
test_words (void)
{
  const Sheet *sheet = plain[0];
  g_autofree char *first = text_of (sheet, 0), *all = all_text (sheet), *us_text = NULL;
  static const char *const title_block[] = {"Reef in the reading room",
                                            "RR-014",
                                            "Tideline Workshop",
                                            "Bench 2",
                                            "2026-03-14",
                                            "1:20",
                                            "First angle",
                                            "Verdict"};
  /* Stand 1450 mm long inside; sump of what stand and door let in; the crest 40 mm under the rim of 600 mm. */
  static const char *const built[] = {
      "1450 mm",    "1170 mm",        "560 mm",           "Bulkhead",
      "Gate valve", "Elbow, 90°",     "Throttled siphon", "Chamber 4, Return",
      "Skimmer",    "In all",         "Living with it",   "Salt for all of the water",
      "Panes",      "Rails and floor"};

  for (unsigned i = 0; i < G_N_ELEMENTS (title_block); i++)
    assert_has (first, title_block[i]);
  for (unsigned i = 0; i < G_N_ELEMENTS (built); i++) {
    g_autoptr (GString) wanted = g_string_new (built[i]);

    g_string_replace (wanted, " mm", UNITS_SPACE "mm", 0);
    assert_has (all, wanted->str);
  }
  us_text = all_text (plain[1]);
  assert_has (us_text, "Third angle");
  assert_has (us_text, UNITS_SPACE "in");
  g_assert_null (strstr (us_text, UNITS_SPACE "mm"));
}

/* The drawn bar is 100 mm, or 4 in, on paper. */
static void
test_bar (void)
{
  for (unsigned us = 0; us < 2; us++) {
    const Sheet *sheet = plain[us];
    const double wanted = us != 0 ? 4 * 72 : 100 / 25.4 * 72;

    for (unsigned n = 0; n < sheet_n_pages (sheet); n++) {
      const Page *page = sheet_page (sheet, n);
      bool found = false;

      for (unsigned i = 0; i < page->marks->len; i++) {
        const Mark *mark = g_ptr_array_index (page->marks, i);

        found = found || (mark->kind == MARK_BOX && fabs (mark->box.width - wanted) < 1e-6);
      }
      g_assert_true (found);
    }
  }
}

/* A figure is at a scale of ISO 5455: what is a metre long is 1000 / scale mm on paper. */
static void
test_scale (void)
{
  static const unsigned scales[] = {1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};
  const Sheet *sheet = plain[0];
  unsigned n_figures = 0;

  for (unsigned n = 0; n < sheet_n_pages (sheet); n++) {
    const Page *page = sheet_page (sheet, n);

    for (unsigned i = 0; i < page->marks->len; i++) {
      const Mark *mark = g_ptr_array_index (page->marks, i);
      bool known = false;

      if (mark->kind != MARK_FIGURE)
        continue;
      for (unsigned k = 0; k < G_N_ELEMENTS (scales); k++)
        known = known || scales[k] == mark->figure->scale;
      g_assert_true (known);
      g_assert_cmpfloat_with_epsilon (mark->figure->view.scale, 1000.0 / mark->figure->scale / 25.4 * 72,
                                      1e-6);
      n_figures++;
    }
  }
  g_assert_cmpuint (n_figures, ==, 7);
}

static void
test_crowded (void)
{
  g_autoptr (Design) design = sheet_fixture_huge (false);
  g_autoptr (Sheet) sheet = sheet_fixture_lay_out_full (design, false);
  g_autofree char *text = all_text (sheet);

  assert_in_frame (sheet, false, false);
  assert_has (text, "Drain 48");
  assert_has (text, "Probe 100");
  assert_has (text, "Chamber 24, Return");
}

static void
test_long_names (void)
{
  g_autoptr (Design) design = sheet_fixture_long_names (true);
  g_autoptr (Sheet) sheet = sheet_fixture_lay_out (design, true);

  assert_in_frame (sheet, true, true);
}

/* A display as long as fields allow, and the least. */
static void
test_sizes (void)
{
  static const double lengths[] = {0.2, 20};

  for (unsigned i = 0; i < G_N_ELEMENTS (lengths); i++) {
    g_autoptr (Design) base = sheet_fixture (false);
    g_autoptr (Design) tank = design_with_number (base, "tank", FIELD_TANK_LENGTH, lengths[i], NULL);
    g_autoptr (Design) design =
        design_with_number (tank, "stand", FIELD_STAND_LENGTH, MAX (lengths[i], 0.5), NULL);

    g_assert_nonnull (design);
    g_autoptr (Sheet) sheet = sheet_fixture_lay_out (design, false);

    assert_in_frame (sheet, false, false);
  }
}

/* Nothing is known: no water, no pump that lifts, no steps. */
static void
test_nothing_known (void)
{
  g_autoptr (Design) design = sheet_fixture (false);
  g_autoptr (Catalogue) empty = catalogue_new ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  g_autoptr (Trace) trace = trace_new ();
  const NumberStyle style = number_style_metric ();
  g_autoptr (Sheet) sheet = sheet_new (design, empty, evaluation, trace, &style, "");
  g_autoptr (GBytes) bytes = pdf_of (sheet);

  g_autofree char *text = all_text (sheet);

  assert_in_frame (sheet, false, false);
  assert_has (text, "Nothing can be rehearsed");
  g_assert_cmpuint (g_bytes_get_size (bytes), >, 1000);
}

/* Number of the first page of that title, and how many there are. */
static unsigned
find_pages (const Sheet *sheet, const char *title, unsigned *ret_n)
{
  unsigned first = sheet_n_pages (sheet), n = 0;

  for (unsigned i = sheet_n_pages (sheet); i-- > 0;)
    if (g_str_equal (sheet_page_title (sheet, i), title)) {
      first = i;
      n++;
    }
  *ret_n = n;
  return first;
}

static bool
row_has (const Page *page, const char *name, const char *wanted)
{
  double y = -1;

  for (unsigned i = 0; i < page->marks->len; i++) {
    const Mark *mark = g_ptr_array_index (page->marks, i);

    if (mark->kind == MARK_TEXT && g_str_equal (mark->text, name))
      y = mark->box.y;
    else if (mark->kind == MARK_TEXT && y >= 0 && fabs (mark->box.y - y) < 1 &&
             g_str_equal (mark->text, wanted))
      return true;
  }
  return false;
}

static unsigned
count_marks (const Page *page, MarkKind kind)
{
  unsigned n = 0;

  for (unsigned i = 0; i < page->marks->len; i++)
    n += ((const Mark *) g_ptr_array_index (page->marks, i))->kind == kind;
  return n;
}

/* The row of each failure has the least freeboard of the display, as it is rehearsed here. */
static void
assert_rehearsed (Design *design, const Page *page)
{
  const NumberStyle style = number_style_metric ();
  g_autoptr (Catalogue) catalogue = sheet_fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  System *system = system_compile (design, catalogue, NULL, NULL);
  g_autofree Rehearsed *played = g_new0 (Rehearsed, 1);
  Rehearser *rehearser = rehearser_new (system);

  g_assert_true (evaluate_design (design, catalogue, NULL, evaluation, NULL, NULL));
  for (unsigned i = 0; i < N_FAILURES; i++) {
    const FailureId failure = (FailureId) i;
    g_autofree char *cell = NULL;

    if (!rehearse_failures (system, evaluation, rehearser, &failure, 1, NULL, NULL, NULL, played)) {
      g_assert_true (
          row_has (page, rehearsal_failure_name (failure), rehearsal_reason_sentence (played->reason)));
      continue;
    }
    if (played->rehearsal.vessels[0].least_freeboard_m < 0)
      cell = g_strdup ("spills");
    else
      cell = units_format_number (played->rehearsal.vessels[0].least_freeboard_m, QUANTITY_LENGTH, &style,
                                  NULL, UNITS_BUILD);
    if (!row_has (page, rehearsal_failure_name (failure), cell))
      g_error ("%s: no %s", failure_word (failure), cell);
  }
  rehearser_free (rehearser);
  system_free (system);
}

static void
test_rehearsals (void)
{
  g_autoptr (Design) design = sheet_fixture (false);
  unsigned n;
  const unsigned number = find_pages (plain[0], "Rehearsals", &n);
  g_autofree char *text = text_of (plain[0], number);

  g_assert_cmpuint (n, ==, 1);
  assert_has (text, "Least freeboard, mm");
  assert_has (text, "not a test with water");
  assert_has (text, "Chamber 4,\nReturn");
  assert_rehearsed (design, sheet_page (plain[0], number));
}

/* A low sump cannot take the reservoir and what runs back: its chambers are marked, and the owner's
 * page says so. */
static void
test_spills (void)
{
  g_autoptr (Design) base = sheet_fixture (false);
  g_autoptr (Design) design = design_with_number (base, "sump", FIELD_SUMP_HEIGHT, 0.24, NULL);
  g_autoptr (Sheet) sheet = sheet_fixture_lay_out (design, false);
  unsigned n;
  const unsigned number = find_pages (sheet, "Rehearsals", &n);
  const Page *page = sheet_page (sheet, number);
  g_autofree char *all = all_text (sheet);
  g_autoptr (GString) words = g_string_new (all);

  assert_in_frame (sheet, false, false);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpuint (count_marks (page, MARK_STOP), >=, 4);
  g_assert_true (row_has (page, "Top-off stuck on, then a power cut", "spills"));
  g_string_replace (words, "\n", " ", 0);
  assert_has (strstr (words->str, "When something fails"),
              "in these failures: Overflow covered; Top-off stuck on");
}

/* As many columns as three tanks want, on the smaller paper and with fractions of inches: on one page, two at the most. */
static void
test_three_tanks (void)
{
  g_autoptr (Design) three = sheet_fixture_three_tanks (true);
  g_autoptr (Sheet) sheet = sheet_fixture_lay_out (three, true);
  unsigned n;
  const unsigned number = find_pages (sheet, "Rehearsals", &n);
  g_autofree char *text = text_of (sheet, number), *third = words_part (three, design_find (three, "tank-3"));
  g_autoptr (GString) words = g_string_new (text);

  assert_in_frame (sheet, true, true);
  g_assert_cmpuint (n, <=, 2);
  g_string_replace (words, "\n", " ", 0);
  assert_has (words->str, third);
}

static void
test_same_bytes (void)
{
  g_autoptr (Design) design = sheet_fixture (false);
  g_autoptr (Sheet) second = sheet_fixture_lay_out (design, false);
  g_autoptr (GBytes) a = pdf_of (plain[0]), b = pdf_of (second), again = pdf_of (plain[0]);

  g_assert_true (g_bytes_equal (a, b));
  g_assert_true (g_bytes_equal (a, again));
  g_assert_true (memcmp (g_bytes_get_data (a, NULL), "%PDF-", 5) == 0);
}

typedef struct {
  gsize left;
} Failing;

static cairo_status_t
fail_later (void *closure, const unsigned char *data, unsigned length)
{
  Failing *failing = closure;

  if (length > failing->left)
    return CAIRO_STATUS_WRITE_ERROR;
  failing->left -= length;
  return CAIRO_STATUS_SUCCESS;
}

static void
test_write_fails (void)
{
  const Sheet *sheet = plain[0];
  g_autoptr (GBytes) bytes = pdf_of (sheet);
  const gsize size = g_bytes_get_size (bytes);
  const gsize room[] = {0, size / 2, size - 1};

  for (unsigned i = 0; i < G_N_ELEMENTS (room); i++) {
    Failing failing = {room[i]};

    g_assert_cmpint (sheet_write_pdf (sheet, fail_later, &failing), ==, CAIRO_STATUS_WRITE_ERROR);
  }
  Failing enough = {size};

  g_assert_cmpint (sheet_write_pdf (sheet, fail_later, &enough), ==, CAIRO_STATUS_SUCCESS);
}

/* By hand: glass of 1500 x 600 x 600 mm, panes and bottom of 12 mm: 0.54 less 1.476 x 0.576 x 0.588 m3, by 2,500 kg/m3. */
static void
test_weights (void)
{
  g_autoptr (Design) design = sheet_fixture (false);
  g_autoptr (Catalogue) catalogue = sheet_fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  Weights weights;

  g_assert_true (evaluate_design (design, catalogue, NULL, evaluation, NULL, NULL));
  weights = weights_of (design, evaluation);
  g_assert_cmpfloat_with_epsilon (weights.tank_glass_kg, 2500 * (0.54 - 1.476 * 0.576 * 0.588), 0.01);
  /* Sea water of 25 degC and 35 g/kg: 1023.3 kg/m3 (UNESCO 1981). */
  g_assert_cmpfloat_with_epsilon (weights.display_water_kg + weights.sump_water_kg,
                                  1023.3 * evaluation->totals.total_water_m3 + 1000 * 0.036, 0.5);
  g_assert_cmpfloat_with_epsilon (weights.total_kg,
                                  weights.on_top_kg + weights.sump_water_kg + weights.sump_glass_kg, 1e-9);
}

typedef struct {
  Flow *flow;
  unsigned n_rows;
} Rows;

static void
lay_rows (void *data)
{
  static const TableColumn columns[] = {{"Part", COLUMN_TEXT}};
  const Rows *rows = data;
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  flow_section (rows->flow, "Rows", 1);
  for (unsigned i = 0; i < rows->n_rows; i++)
    table_add (table, g_strdup ("Row"));
  table_flow (table, rows->flow, NULL);
}

static unsigned
pages_of_rows (unsigned n_rows, bool balanced)
{
  const Rect content = {0, 0, 300, 300};
  g_autoptr (TextEngine) engine = text_engine_new (true);
  Flow flow;
  Rows rows = {&flow, n_rows};
  unsigned n;

  flow_init (&flow, engine, content);
  if (balanced)
    flow_balanced (&flow, lay_rows, &rows);
  else
    lay_rows (&rows);
  n = flow.pages->len;
  g_assert_false (flow.compact);
  flow_clear (&flow);
  return n;
}

/* Closer rows spare the page that would hold a leftover, and never cost one. */
static void
test_leftovers (void)
{
  unsigned spared = 0;

  for (unsigned n = 1; n < 60; n++) {
    const unsigned plain_pages = pages_of_rows (n, false), pages = pages_of_rows (n, true);

    g_assert_cmpuint (pages, <=, plain_pages);
    spared += pages < plain_pages;
    if (plain_pages > 1 && pages_of_rows (n - 1, false) < plain_pages)
      g_assert_cmpuint (pages, ==, plain_pages - 1);
  }
  g_assert_cmpuint (spared, >, 3);
}

int
main (int argc, char **argv)
{
  int failures;

  g_test_init (&argc, &argv, NULL);
  for (unsigned us = 0; us < 2; us++) {
    g_autoptr (Design) design = sheet_fixture (us != 0);

    plain[us] = sheet_fixture_lay_out (design, us != 0);
  }
  if (drawing_font_missing ())
    g_test_message (DRAWING_FONT " is not installed: another font is measured");
  g_test_add_func ("/sheet/pages", test_pages);
  g_test_add_func ("/sheet/paper", test_paper);
  g_test_add_func ("/sheet/words", test_words);
  g_test_add_func ("/sheet/bar", test_bar);
  g_test_add_func ("/sheet/scale", test_scale);
  g_test_add_func ("/sheet/crowded", test_crowded);
  g_test_add_func ("/sheet/long-names", test_long_names);
  g_test_add_func ("/sheet/sizes", test_sizes);
  g_test_add_func ("/sheet/nothing-known", test_nothing_known);
  g_test_add_func ("/sheet/rehearsals", test_rehearsals);
  g_test_add_func ("/sheet/spills", test_spills);
  g_test_add_func ("/sheet/three-tanks", test_three_tanks);
  g_test_add_func ("/sheet/same-bytes", test_same_bytes);
  g_test_add_func ("/sheet/write-fails", test_write_fails);
  g_test_add_func ("/sheet/weights", test_weights);
  g_test_add_func ("/sheet/leftovers", test_leftovers);
  failures = g_test_run ();
  sheet_free (plain[0]);
  sheet_free (plain[1]);
  return failures;
}
