/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The document: what is saved comes back, byte by byte, in every locale, from every kind of field. */
#include "tests/files/fixture.h"
#include "files/limits.h"

static void
assert_saves_as_loaded (const Project *project)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *first = fixture_write (project);
  g_autoptr (Project) again = fixture_read (first, -1, &error);
  g_assert_no_error (error);
  g_autofree char *second = fixture_write (again);

  fixture_assert_same (second, first);
  g_assert_true (project_equal (project, again));
}

static void
test_demo (void)
{
  g_autoptr (GBytes) shipped = resource_data (RESOURCE_DEMO_SOUND);
  g_autofree char *text = g_strndup (g_bytes_get_data (shipped, NULL), g_bytes_get_size (shipped));
  g_autoptr (Project) project = fixture_demo ();
  g_autofree char *written = fixture_write (project);

  fixture_assert_same (written, text);
  assert_saves_as_loaded (project);
}

static void
test_least (void)
{
  g_autoptr (Project) project = fixture_project ();
  g_autofree char *written = fixture_write (project);

  fixture_assert_same (written, FIXTURE_HEAD FIXTURE_ROOM FIXTURE_TAIL);
}

/* A value of a field that is well within what it takes, other for each `turn`. */
static void
set_some_value (Draft *draft, const Design *base, const Part *part, const FieldInfo *info, guint turn)
{
  Problem problem = {0};
  const double shares[] = {0.0, 0.0, 1.0, 1.0 / 3.0, 1e-7};
  bool fine = true;

  switch (info->type) {
  case FIELD_NUMBER: {
    double share = shares[turn % G_N_ELEMENTS (shares)];
    double value =
        turn == 0 ? design_number (base, part, info->id) : info->min * (1.0 - share) + info->max * share;
    fine = draft_set_number (draft, part_key (part), info->id, value, &problem);
    break;
  }
  case FIELD_CHOICE:
  case FIELD_FLAG:
    fine = draft_set_number (draft, part_key (part), info->id, turn % 2, &problem);
    break;
  case FIELD_TEXT: {
    const char *const texts[] = {"", " <&>\"' ]]> ", "Riff „Nord“ 🐠\u2028\u00a0", "&#0; <!DOCTYPE x>",
                                 "\u202f1,5"};
    fine = draft_set_text (draft, part_key (part), info->id, texts[turn % G_N_ELEMENTS (texts)], &problem);
    break;
  }
  case FIELD_PIPE:
  case FIELD_PART:
    fine = draft_set_text (draft, part_key (part), info->id, "sch40-1-1/2", &problem);
    break;
  case FIELD_CURVE:
    fine = draft_set_text (draft, part_key (part), info->id, "0:3.2 0.0006:2.6 1e-3:1.5", &problem);
    break;
  case FIELD_REF: /* the part it names must be of the right kind, as it is in the base */
  case N_FIELD_TYPES:
  default:
    break;
  }
  if (!fine)
    g_error ("%s.%s: %s", part_key (part), info->name, problem_text (problem.code));
}

/* The design with one more field set, or NULL where that value breaks an invariant. */
static Design *
with_some_value (Design *design, const char *key, const FieldInfo *info, guint turn)
{
  g_autoptr (Draft) draft = draft_new (design);

  set_some_value (draft, design, design_find (design, key), info, turn);
  return draft_commit (draft, NULL);
}

/* As many fields at once as go together: those whose value of this turn breaks an invariant are left out, but none may be
 * left out of every turn. */
static void
test_every_field (void)
{
  g_autoptr (Project) project = fixture_demo ();
  Design *base = project_active_design (project);
  guint saved[N_FIELDS] = {0};

  for (guint turn = 0; turn < 5; turn++) {
    g_autoptr (Design) design = design_ref (base);
    for (unsigned i = 0; i < design_n_parts (base); i++) {
      PartKind kind = part_kind (design_part (base, i));
      for (FieldId field = field_first (kind); field < field_first (kind) + field_count (kind); field++) {
        Design *next = with_some_value (design, part_key (design_part (base, i)), field_info (field), turn);
        if (next == NULL)
          continue;
        design_unref (design);
        design = next;
        saved[field]++;
      }
    }
    g_autoptr (Project) changed = project_with_design (project, design);
    assert_saves_as_loaded (changed);
  }
  for (FieldId field = 0; field < N_FIELDS; field++)
    if (design_count (base, field_info (field)->kind) > 0 && saved[field] == 0)
      g_error ("no value of %s.%s was saved", part_kind_word (field_info (field)->kind),
               field_info (field)->name);
}

static void
test_options (void)
{
  g_autoptr (Project) one = fixture_project ();
  g_autoptr (Project) demo = fixture_demo ();
  g_autoptr (Project) two =
      project_with_option (one, "larger-pump", "Larger \"pump\" <B>", project_active_design (demo));
  g_assert_nonnull (two);
  g_autoptr (Project) active = project_with_active (two, 1);
  g_autofree char *written = fixture_write (active);

  g_assert_nonnull (strstr (written, "active=\"larger-pump\""));
  assert_saves_as_loaded (active);
}

/* The option that came first may have gone: the first of a file can have any key. */
static void
test_first_key (void)
{
  g_auto (GStrv) pieces = g_strsplit (FIXTURE_HEAD FIXTURE_ROOM FIXTURE_TAIL, "option-1", -1);
  g_autofree char *text = g_strjoinv ("option-7", pieces);
  g_autoptr (GError) error = NULL;

  g_autoptr (Project) project = fixture_read (text, -1, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (project_option_key (project, 0), ==, "option-7");
  assert_saves_as_loaded (project);
}

/* What a person does to a file by hand and may: order, comments, spaces, CDATA, a prefix, letters by number. */
static void
test_by_hand (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *written = NULL;
  g_autoptr (Project) project = fixture_read (
      FIXTURE_HEAD "<!-- mine -->\n<room label=\"N&#xF6;rd\" key=\"room\"><!-- x --><salinity>3<!-- y -->5"
                   "</salinity><d:humidity xmlns:d=\"urn:downcomer:1\"><![CDATA[0.50]]></d:humidity>\n"
                   "<water-temperature>2.45e1</water-temperature></room>" FIXTURE_TAIL,
      -1, &error);

  g_assert_no_error (error);
  written = fixture_write (project);
  g_assert_nonnull (strstr (
      written, "    <room key=\"room\" label=\"Nörd\">\n      <water-temperature>24.5</water-temperature>\n"
               "      <salinity>35</salinity>\n      <humidity>0.5</humidity>\n    </room>\n"));
}

static void
test_byte_order_mark (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Project) project =
      fixture_read ("\xef\xbb\xbf" FIXTURE_HEAD FIXTURE_ROOM FIXTURE_TAIL, -1, &error);

  g_assert_no_error (error);
  g_assert_nonnull (project);
}

/* A later version that adds nothing which is unknown here is read. */
static void
test_minor_version (void)
{
  g_autofree char *text = g_strdup (FIXTURE_HEAD FIXTURE_ROOM FIXTURE_TAIL);
  g_autoptr (GRegex) version = g_regex_new ("version=\"1\"", 0, 0, NULL);
  g_autofree char *later = g_regex_replace_literal (version, text, -1, 0, "version=\"1.3\"", 0, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (Project) project = fixture_read (later, -1, &error);

  g_assert_no_error (error);
}

static void
test_decimal_comma (void)
{
  if (setlocale (LC_ALL, "de_DE.UTF-8") == NULL) {
    g_test_skip ("no locale with a decimal comma is installed");
    return;
  }
  g_assert_cmpstr (localeconv ()->decimal_point, ==, ",");
  test_demo ();
  test_every_field ();
  test_by_hand ();
  setlocale (LC_ALL, "C.UTF-8");
}

static void
test_load_and_save (void)
{
  g_autofree char *folder = fixture_folder ();
  g_autofree char *path = g_build_filename (folder, "Nordwand süß.downcomer", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (Project) project = fixture_demo ();
  g_autoptr (GError) error = NULL;

  g_assert_true (document_save (project, file, NULL, &error));
  g_assert_no_error (error);
  g_autoptr (Project) loaded = document_load (file, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (project_equal (project, loaded));
  fixture_remove (folder);
}

/* A place without a path: the built-in designs open like files, and saving there fails with a sentence. */
static void
test_without_path (void)
{
  g_autoptr (GFile) file = g_file_new_for_uri ("resource://" RESOURCE_DEMO_SOUND);
  g_autoptr (GError) error = NULL;
  g_autoptr (Project) project = document_load (file, NULL, &error);

  g_assert_no_error (error);
  g_assert_false (document_save (project, file, NULL, &error));
  g_assert_error (error, FILES_ERROR, FILES_ERROR_UNWRITABLE);
  g_assert_true (g_str_has_prefix (error->message, "resource:///io/github/"));
}

static void
test_cancelled (void)
{
  g_autofree char *folder = fixture_folder ();
  g_autofree char *path = g_build_filename (folder, "a.downcomer", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (Project) project = fixture_demo ();
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) save_error = NULL;
  g_autoptr (GError) load_error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_false (document_save (project, file, cancellable, &save_error));
  g_assert_error (save_error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_true (document_save (project, file, NULL, NULL));
  g_assert_null (document_load (file, cancellable, &load_error));
  g_assert_error (load_error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  fixture_remove (folder);
}

/* What could not be read again is never made: the label of an option is held to the rule of texts. */
static void
test_unsavable (void)
{
  g_autoptr (Project) project = fixture_project ();
  g_autofree char *endless = g_strnfill (MAX_TEXT_BYTES + 1, 'a');
  const char *const labels[] = {"a\x01", "a\nb", "\uffff", "\xff", endless};

  for (guint i = 0; i < G_N_ELEMENTS (labels); i++) {
    g_assert_null (project_with_option (project, NULL, labels[i], project_active_design (project)));
    g_assert_null (project_new (project_active_design (project), labels[i]));
  }
}

/* Not a limit that work can reach: many options of a large design still load, and soon. */
static void
test_large (void)
{
  g_autoptr (Project) demo = fixture_demo ();
  g_autoptr (Draft) draft = draft_new (project_active_design (demo));

  for (guint i = 0; i < 400; i++)
    if (!draft_add (draft, PART_CORNER, NULL, NULL, "siphon", NULL, NULL))
      g_error ("%u corners are too many", i);
  g_autoptr (Design) design = draft_commit (draft, NULL);
  g_autoptr (Project) project = project_with_design (demo, design);
  for (guint i = 0; i < 2; i++) {
    Project *longer = project_with_option (project, NULL, NULL, design);
    project_unref (project);
    project = longer;
  }
  assert_saves_as_loaded (project);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/document/demo", test_demo);
  g_test_add_func ("/document/least", test_least);
  g_test_add_func ("/document/every-field", test_every_field);
  g_test_add_func ("/document/options", test_options);
  g_test_add_func ("/document/first-key", test_first_key);
  g_test_add_func ("/document/by-hand", test_by_hand);
  g_test_add_func ("/document/byte-order-mark", test_byte_order_mark);
  g_test_add_func ("/document/minor-version", test_minor_version);
  g_test_add_func ("/document/load-and-save", test_load_and_save);
  g_test_add_func ("/document/without-path", test_without_path);
  g_test_add_func ("/document/cancelled", test_cancelled);
  g_test_add_func ("/document/unsavable", test_unsavable);
  g_test_add_func ("/document/large", test_large);
  g_test_add_func ("/document/decimal-comma", test_decimal_comma);
  return g_test_run ();
}
