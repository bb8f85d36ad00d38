/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* "PATH=VALUE" over every field of the demo designs: its own value changes nothing, what is out of range or no choice is
 * refused with one sentence, an empty value makes it unknown; and numbers as people type them. */
#include "cli/assign.h"

#include <locale.h>
#include <math.h>
#include <string.h>

#include "cli/command.h"
#include "design/path.h"
#include "files/catalogue-file.h"
#include "files/document.h"

typedef struct {
  Catalogue *catalogue;
  Project *project;
  Design *design; /* of the project */
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "resources", "demo", name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;

  fixture->catalogue = catalogue_built_in ();
  fixture->project = document_load (file, NULL, &error);
  g_assert_no_error (error);
  fixture->design = project_active_design (fixture->project);
}

static void
tear_down (Fixture *fixture, gconstpointer name G_GNUC_UNUSED)
{
  project_unref (fixture->project);
  catalogue_unref (fixture->catalogue);
}

static Design *
assign (const Fixture *fixture, const char *path, const char *text, char **ret_sentence)
{
  g_autofree char *assignment = g_strdup_printf ("%s=%s", path, text);

  return assign_text (fixture->design, fixture->catalogue, assignment, ret_sentence);
}

static void
assert_refused (const Fixture *fixture, const char *path, const char *text, const char *holding)
{
  g_autofree char *sentence = NULL;
  Design *changed = assign (fixture, path, text, &sentence);

  g_assert_null (changed);
  g_assert_nonnull (sentence);
  g_test_message ("%s: %s", path, sentence);
  g_assert_cmpuint (strlen (sentence), >, 10);
  g_assert_cmpuint (strlen (sentence), <, 500);
  g_assert_null (strchr (sentence, '\n'));
  if (holding != NULL)
    g_assert_nonnull (strstr (sentence, holding));
}

static GBytes *
bytes_with (const Fixture *fixture, Design *design)
{
  g_autoptr (Project) project = project_with_design (fixture->project, design);
  g_autoptr (GError) error = NULL;
  GBytes *bytes = document_to_bytes (project, "changed", &error);

  g_assert_no_error (error);
  return bytes;
}

/* A given field set to its own value: the document is the same, byte for byte. An assumed one becomes given. */
static void
check_own_value (const Fixture *fixture, const Part *part, FieldId field, const char *path, GBytes *before)
{
  g_autofree char *value = path_value_text (fixture->design, part, field);
  g_autofree char *sentence = NULL;
  g_autofree char *again = NULL;
  g_autoptr (Design) changed = NULL;
  const Part *after;

  if (value == NULL || value[0] == '\0')
    return;
  changed = assign (fixture, path, value, &sentence);
  if (changed == NULL && !part_is_given (part, field))
    return; /* a default may stand where a value may not: "0: reckoned" */
  g_assert_cmpstr (sentence, ==, NULL);
  g_assert_nonnull (changed);
  after = design_find (changed, part_key (part));
  again = path_value_text (changed, after, field);
  g_assert_cmpstr (again, ==, value);
  g_assert_true (part_is_given (after, field));
  if (part_is_given (part, field)) {
    g_autoptr (GBytes) bytes = bytes_with (fixture, changed);

    g_assert_true (g_bytes_equal (bytes, before));
  }
}

/* What every field refuses. */
static void
check_refusals (const Fixture *fixture, FieldId field, const char *path)
{
  const FieldInfo *info = field_info (field);
  char buffer[UNITS_SHORTEST_SIZE];

  switch (info->type) {
  case FIELD_NUMBER:
    assert_refused (fixture, path, units_shortest (info->max + 1 + fabs (info->max), buffer), info->name);
    assert_refused (fixture, path, units_shortest (info->min - 1 - fabs (info->min), buffer), info->name);
    assert_refused (fixture, path, "nan", NULL);
    assert_refused (fixture, path, "inf", NULL);
    assert_refused (fixture, path, "1e999", NULL);
    assert_refused (fixture, path, "0x10", NULL);
    break;
  case FIELD_CHOICE:
  case FIELD_FLAG:
    assert_refused (fixture, path, "neither-nor", info->choices[0].word);
    break;
  case FIELD_REF:
  case FIELD_PIPE:
  case FIELD_PART:
  case FIELD_CURVE:
    assert_refused (fixture, path, "neither-nor", NULL);
    break;
  case FIELD_TEXT:
  case N_FIELD_TYPES:
  default:
    assert_refused (fixture, path, "not UTF-8: \xff", NULL);
    break;
  }
}

static void
check_unset (const Fixture *fixture, const Part *part, FieldId field, const char *path)
{
  g_autofree char *sentence = NULL;
  g_autoptr (Design) changed = assign (fixture, path, "", &sentence);

  if (changed != NULL)
    g_assert_false (part_is_given (design_find (changed, part_key (part)), field));
  else
    g_assert_nonnull (sentence);
}

static void
test_every_field (Fixture *fixture, gconstpointer name G_GNUC_UNUSED)
{
  g_autoptr (GBytes) before = bytes_with (fixture, fixture->design);
  bool seen[N_FIELDS] = {false};

  for (unsigned i = 0; i < design_n_parts (fixture->design); i++) {
    const Part *part = design_part (fixture->design, i);
    const FieldId first = field_first (part_kind (part));

    for (FieldId field = first; field < first + field_count (part_kind (part)); field++) {
      g_autofree char *path = g_strdup_printf ("%s.%s", part_key (part), field_info (field)->name);

      check_own_value (fixture, part, field, path, before);
      check_unset (fixture, part, field, path);
      if (!seen[field])
        check_refusals (fixture, field, path);
      seen[field] = true;
    }
  }
}

static double
number (const Fixture *fixture, const char *path, const char *text)
{
  g_autofree char *sentence = NULL;
  g_autoptr (Design) changed = assign (fixture, path, text, &sentence);
  const Part *part = NULL;
  FieldId field = N_FIELDS;
  Problem problem;

  g_assert_cmpstr (sentence, ==, NULL);
  g_assert_true (path_resolve (changed, path, &part, &field, &problem));
  return design_number (changed, part, field);
}

/* Factors are exact: NIST SP 811 (2008), appendix B.8: inch 0.0254 m; B.9: US gallon 231 cubic inches. */
static void
test_units (Fixture *fixture, gconstpointer name G_GNUC_UNUSED)
{
  static const struct {
    const char *path, *text;
    double si;
  } rows[] = {
      {"tank.height", "18 in", 18 * 0.0254},
      {"tank.height", "18\"", 18 * 0.0254},
      {"tank.height", "17 1/2 in", 17.5 * 0.0254},
      {"tank.height", "45.7 cm", 0.457},
      {"tank.height", "0,6 m", 0.6},
      {"tank.height", "0.6", 0.6},
      {"tank.length", "4 ft 11 in", 59 * 0.0254},
      {"return-pump.speed", "80 %", 0.8},
      {"return-pump.speed", "0.8", 0.8},
      {"room.water-temperature", "77 °F", 25},
      {"room.water-temperature", "25", 25},
      {"job.turnover", "6", 6},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpfloat_with_epsilon (number (fixture, rows[i].path, rows[i].text), rows[i].si,
                                    1e-12 * (1 + rows[i].si));
}

static char *
first_with (const Fixture *fixture, Quantity quantity)
{
  for (unsigned i = 0; i < design_n_parts (fixture->design); i++) {
    const Part *part = design_part (fixture->design, i);
    const FieldId first = field_first (part_kind (part));

    for (FieldId field = first; field < first + field_count (part_kind (part)); field++)
      if (field_info (field)->quantity == quantity)
        return g_strdup_printf ("%s.%s", part_key (part), field_info (field)->name);
  }
  return NULL;
}

/* Where two readings are possible both are named, each so that it can be typed; gph is American by custom of the trade. */
static void
test_ambiguous (Fixture *fixture, gconstpointer name G_GNUC_UNUSED)
{
  g_autofree char *sentence = NULL;
  g_autofree char *path = first_with (fixture, QUANTITY_VOLUME);

  g_assert_nonnull (path);
  g_assert_null (assign (fixture, path, "3 gal", &sentence));
  g_assert_nonnull (sentence);
  g_test_message ("%s", sentence);
  g_assert_nonnull (strstr (sentence, "3" UNITS_SPACE "US gal"));
  g_assert_nonnull (strstr (sentence, "3" UNITS_SPACE "imp gal"));
  g_assert_cmpfloat_with_epsilon (number (fixture, path, "3 US gal"), 3 * 231 * pow (0.0254, 3), 1e-12);
  assert_refused (fixture, "tank.height", "3 L", NULL);
  assert_refused (fixture, "tank.height", "18 furlongs", NULL);
}

static void
assert_size (const Fixture *fixture, const char *path, const char *typed, const char *key)
{
  g_autofree char *sentence = NULL;
  g_autoptr (Design) changed = assign (fixture, path, typed, &sentence);
  const Part *part = NULL;
  FieldId field = N_FIELDS;
  Problem problem;

  g_assert_cmpstr (sentence, ==, NULL);
  g_assert_true (path_resolve (changed, path, &part, &field, &problem));
  g_assert_cmpstr (design_text (changed, part, field), ==, key);
}

/* A size is a nominal size of a series: from a metric pipe "1 1/2" may be schedule 40 or 80. */
static void
test_sizes (Fixture *fixture, gconstpointer name G_GNUC_UNUSED)
{
  g_autoptr (Design) inches = NULL;
  g_autofree char *sentence = NULL;
  Fixture changed = *fixture;

  assert_refused (fixture, "siphon.size", "1 1/2", "sch40-1-1/2");
  assert_refused (fixture, "siphon.size", "1 1/2", "sch80-1-1/2");
  assert_refused (fixture, "siphon.size", "7 1/3", "catalogue");
  inches = assign (fixture, "siphon.size", "sch80-1", &sentence);
  g_assert_cmpstr (sentence, ==, NULL);
  changed.design = inches;
  assert_size (&changed, "siphon.size", "1 1/2", "sch80-1-1/2");
  assert_size (&changed, "siphon.size", "1-1/2\"", "sch80-1-1/2");
  assert_size (&changed, "siphon.size", "3/4 in", "sch80-3/4");
  assert_size (&changed, "siphon.size", "metric-50", "metric-50");
  assert_size (fixture, "siphon.size", "50 mm", "metric-50");
}

/* A path that leads nowhere: the sentence names what is near, or what there is. */
static void
test_paths (Fixture *fixture, gconstpointer name G_GNUC_UNUSED)
{
  g_autofree char *sentence = NULL;

  assert_refused (fixture, "tank.hieght", "0.5", "tank.height");
  assert_refused (fixture, "tnak.height", "0.5", "tank.height");
  assert_refused (fixture, "pump.speed", "0.5", "return-pump.speed");
  assert_refused (fixture, "zzzzzz.qqqqqq", "0.5", "downcomer fields");
  assert_refused (fixture, "tank", "0.5", "tank.");
  assert_refused (fixture, "", "0.5", "downcomer fields");
  assert_refused (fixture, ".", "0.5", NULL);
  assert_refused (fixture, "tank.height.x", "0.5", "tank.height");
  assert_refused (fixture, "tank.h\xff", "0.5", NULL);
  g_assert_null (assign_text (fixture->design, fixture->catalogue, "tank.height", &sentence));
  g_assert_nonnull (strstr (sentence, "PATH=VALUE"));
}

/* What is typed at a terminal may be anything. */
static void
test_odd_text (Fixture *fixture, gconstpointer name G_GNUC_UNUSED)
{
  g_autofree char *long_text = g_strnfill (100000, '9');
  g_autofree char *equals = NULL;
  g_autoptr (Design) changed = assign (fixture, "job.title", "a=b", &equals);

  g_assert_cmpstr (equals, ==, NULL);
  g_assert_cmpstr (design_text (changed, design_find (changed, "job"), FIELD_JOB_TITLE), ==, "a=b");
  assert_refused (fixture, "tank.height", long_text, NULL);
  assert_refused (fixture, "job.title", long_text, NULL);
  assert_refused (fixture, "siphon.size", long_text, NULL);
  assert_refused (fixture, "tank.height", "\xff\xfe", NULL);
  assert_refused (fixture, "siphon.size", "\xff\xfe", NULL);
  assert_refused (fixture, "siphon.role", "\xff\xfe", NULL);
  assert_refused (fixture, "siphon.size", "  ", NULL);
  assert_refused (fixture, "tank.height", "  ", NULL);
}

static void
test_comma_locale (Fixture *fixture, gconstpointer name)
{
  if (setlocale (LC_ALL, "de_DE.UTF-8") == NULL) {
    g_test_skip ("no locale with a decimal comma is installed");
    return;
  }
  test_units (fixture, name);
  test_every_field (fixture, name);
  setlocale (LC_ALL, "C.UTF-8");
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
#define ADD(path, demo, test) g_test_add (path, Fixture, demo, set_up, test, tear_down)
  ADD ("/cli/assign/every-field/sound", "sound.downcomer", test_every_field);
  ADD ("/cli/assign/every-field/faulty", "faulty.downcomer", test_every_field);
  ADD ("/cli/assign/units", "sound.downcomer", test_units);
  ADD ("/cli/assign/ambiguous", "sound.downcomer", test_ambiguous);
  ADD ("/cli/assign/sizes", "sound.downcomer", test_sizes);
  ADD ("/cli/assign/paths", "sound.downcomer", test_paths);
  ADD ("/cli/assign/odd-text", "sound.downcomer", test_odd_text);
  ADD ("/cli/assign/comma-locale", "sound.downcomer", test_comma_locale);
#undef ADD
  return g_test_run ();
}
