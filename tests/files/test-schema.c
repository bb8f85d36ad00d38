/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The shipped schema is what the field table asks for, and it refuses what the table does not allow. */
#include "tests/files/fixture.h"
#include "files/schema.h"
#include "files/xml-guard.h"

static void
test_shipped (void)
{
  g_autoptr (GBytes) bytes = resource_data (RESOURCE_SCHEMA);
  g_autofree char *shipped = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
  g_autofree char *wanted = schema_write ();

  g_test_message ("where they differ, write it again: tests/files/write-schema > resources/downcomer.rng");
  fixture_assert_same (shipped, wanted);
}

/* The schema alone, without the reader before it. */
static gboolean
passes (const char *room)
{
  g_autofree char *text = g_strconcat (FIXTURE_HEAD, room, FIXTURE_TAIL, NULL);
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (GError) error = NULL;
  g_autoptr (xmlDoc) document = xml_guard_parse (bytes, "test.downcomer", &error);

  g_assert_no_error (error);
  gboolean fine = schema_check (document, "test.downcomer", &error);
  g_assert_true (fine || g_error_matches (error, FILES_ERROR, FILES_ERROR_BAD_STRUCTURE));
  if (!fine && !g_str_has_prefix (error->message, "test.downcomer, line "))
    g_error ("%s", error->message);
  return fine;
}

static void
test_gate (void)
{
  g_assert_true (passes ("<room key='room'/>"));
  g_assert_true (passes ("<room key='room'><salinity>35</salinity></room>"));
  g_assert_true (passes (
      "<room key='room'><salinity>45</salinity><water-temperature>+2.5E1</water-temperature></room>"));
  g_assert_true (passes ("<room key='room' label=''><salinity>0.0000001</salinity></room>"));
  g_assert_true (passes ("<room key='room'/><job key='j'><title></title></job>"));
  g_assert_false (passes ("<room/>"));
  g_assert_false (passes ("<room key='Room'/>"));
  g_assert_false (passes ("<room key='room' colour='red'/>"));
  g_assert_false (passes ("<room key='room' of='tank'/>"));
  g_assert_false (passes ("<room key='room'><salinity>45.1</salinity></room>"));
  g_assert_false (passes ("<room key='room'><salinity>-1</salinity></room>"));
  g_assert_false (passes ("<room key='room'><salinity>NaN</salinity></room>"));
  g_assert_false (passes ("<room key='room'><salinity>INF</salinity></room>"));
  g_assert_false (passes ("<room key='room'><salinity>0x1p3</salinity></room>"));
  g_assert_false (passes ("<room key='room'><salinity/></room>"));
  g_assert_false (passes ("<room key='room'><salinity>1</salinity><salinity>1</salinity></room>"));
  g_assert_false (passes ("<room key='room'><price><!-- --><b/></price></room>"));
  g_assert_false (passes ("<room key='room'><colour>red</colour></room>"));
  g_assert_false (passes ("<room key='room'/><tank key='t'><back-pane>steel</back-pane></tank>"));
  g_assert_false (passes ("<room key='room'/><outlet key='o'/>"));
  g_assert_false (passes ("<room key='room'/><candidate key='c'><curve>0:1</curve></candidate>"));
  g_assert_true (passes ("<room key='room'/><candidate key='c'><curve>0:1 1e-3:.5</curve></candidate>"));
}

/* Several threads may be the first to need the schema. */
static gpointer
check_once (gpointer data)
{
  return GINT_TO_POINTER (passes (data));
}

static void
test_threads (void)
{
  GThread *threads[8];

  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] =
        g_thread_new ("schema", check_once, (gpointer) "<room key='room'><salinity>35</salinity></room>");
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    g_assert_true (GPOINTER_TO_INT (g_thread_join (threads[i])));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/schema/threads", test_threads);
  g_test_add_func ("/schema/shipped", test_shipped);
  g_test_add_func ("/schema/gate", test_gate);
  return g_test_run ();
}
