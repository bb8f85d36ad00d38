/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The page of rehearsals as a real widget: what is listed, what is played, by pointer and by keyboard, and a remedy as one
 * step that can be undone. */
#include <math.h>

#include "app/rehearsal/rehearsal-page.h"
#include "app/rehearsal/rehearsal-row.h"
#include "app/rehearsal/rehearsal-traces.h"
#include "design/draft.h"
#include "tests/app/fixture.h"

typedef struct {
  Document *document;
  RehearsalPage *page;
  GtkWindow *window;
} Fixture;

static gpointer
find (GtkWidget *widget, GType type)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    gpointer found = find (child, type);

    if (found != NULL)
      return found;
  }
  return NULL;
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->document = fixture_document ();
  fixture->page = g_object_new (DOWNCOMER_TYPE_REHEARSAL_PAGE, NULL);
  rehearsal_page_set_model (fixture->page, fixture->document, NULL);
  g_assert_null (rehearsal_page_get_play (fixture->page)); /* not seen yet, not computed */
  fixture->window = fixture_window (GTK_WIDGET (fixture->page));
  fixture_wait_long (rehearsal_page_get_play (fixture->page) != NULL);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  fixture_close (fixture->window);
  g_assert_finalize_object (fixture->document);
}

static gboolean
shows (Fixture *fixture, FailureId failure)
{
  RehearsalPlay *play = rehearsal_page_get_play (fixture->page);

  return play != NULL && play->rehearsed != NULL && play->rehearsed->n_failures > 0 &&
         play->rehearsed->failures[0] == failure;
}

static void
choose (Fixture *fixture, FailureId failure)
{
  rehearsal_page_choose (fixture->page, failure);
  fixture_wait_long (shows (fixture, failure));
}

static void
test_power_cut (Fixture *fixture, gconstpointer data)
{
  RehearsalPlay *play = rehearsal_page_get_play (fixture->page);
  const RehearsalFrame *last;

  g_assert_true (shows (fixture, FAILURE_POWER_CUT));
  g_assert_true (rehearsal_play_is_shown (play));
  last = rehearsal_trace_frame (play->trace, rehearsal_trace_n_frames (play->trace) - 1);
  for (unsigned i = 0; i < play->steady->n_pumps; i++)
    g_assert_cmpfloat (fabs (last->pump_m3s[i]), <, 1e-6);
  g_assert_cmpfloat_with_epsilon (rehearsal_page_get_now (fixture->page), 0, 1e-9);
}

static void
test_steps (Fixture *fixture, gconstpointer data)
{
  RehearsalPlay *play = rehearsal_page_get_play (fixture->page);
  const Rehearsal *rehearsal = &play->rehearsed->rehearsal;
  GtkWidget *page = GTK_WIDGET (fixture->page);

  g_assert_cmpuint (rehearsal->n_events, >, 2);
  for (unsigned i = 0; i < rehearsal->n_events; i++)
    gtk_widget_activate_action (page, "rehearsal.next-event", NULL);
  g_assert_cmpfloat_with_epsilon (rehearsal_page_get_now (fixture->page), rehearsal_play_length (play), 1e-6);
  gtk_widget_activate_action (page, "rehearsal.previous-event", NULL);
  g_assert_cmpfloat (rehearsal_page_get_now (fixture->page), <, rehearsal_play_length (play));
  rehearsal_page_seek (fixture->page, -5);
  g_assert_cmpfloat_with_epsilon (rehearsal_page_get_now (fixture->page), 0, 1e-9);
  rehearsal_page_seek (fixture->page, 1e9);
  g_assert_cmpfloat_with_epsilon (rehearsal_page_get_now (fixture->page), rehearsal_play_length (play), 1e-6);
}

static void
test_plays (Fixture *fixture, gconstpointer data)
{
  g_assert_false (rehearsal_page_is_playing (fixture->page));
  gtk_widget_activate_action (GTK_WIDGET (fixture->page), "rehearsal.play", NULL);
  g_assert_true (rehearsal_page_is_playing (fixture->page));
  fixture_wait_long (rehearsal_page_get_now (fixture->page) > 0);
  gtk_widget_activate_action (GTK_WIDGET (fixture->page), "rehearsal.play", NULL);
  g_assert_false (rehearsal_page_is_playing (fixture->page));
  /* Another page hides it: nothing plays on unseen. */
  gtk_widget_activate_action (GTK_WIDGET (fixture->page), "rehearsal.play", NULL);
  gtk_widget_set_visible (GTK_WIDGET (fixture->page), FALSE);
  g_assert_false (rehearsal_page_is_playing (fixture->page));
}

static GtkToggleButton *
toggle_named (GtkWidget *widget, const char *label)
{
  if (GTK_IS_TOGGLE_BUTTON (widget) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0)
    return GTK_TOGGLE_BUTTON (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    GtkToggleButton *found = toggle_named (child, label);

    if (found != NULL)
      return found;
  }
  return NULL;
}

/* Levels or flows: the axis and the moment stay. */
static void
test_flows (Fixture *fixture, gconstpointer data)
{
  RehearsalTraces *traces = find (GTK_WIDGET (fixture->page), DOWNCOMER_TYPE_REHEARSAL_TRACES);
  GtkToggleButton *button = toggle_named (GTK_WIDGET (fixture->page), "Flows");
  const double end_s = rehearsal_traces_get_end (traces);

  rehearsal_page_seek (fixture->page, end_s / 2);
  gtk_toggle_button_set_active (button, TRUE);
  g_assert_cmpfloat_with_epsilon (rehearsal_traces_get_end (traces), end_s, 1e-9);
  g_assert_cmpfloat_with_epsilon (rehearsal_page_get_now (fixture->page), end_s / 2, 1e-9);
  gtk_toggle_button_set_active (button, FALSE);
  g_assert_cmpfloat_with_epsilon (rehearsal_page_get_now (fixture->page), end_s / 2, 1e-9);
}

/* Every failure has a row, with its verdict in words for those who do not see its mark. */
static void
test_list (Fixture *fixture, gconstpointer data)
{
  GtkListBox *list = find (GTK_WIDGET (fixture->page), GTK_TYPE_LIST_BOX);

  for (unsigned i = 0; i < N_FAILURES; i++) {
    GtkListBoxRow *row = gtk_list_box_get_row_at_index (list, (int) i);

    g_assert_cmpint (rehearsal_row_get_failure (DOWNCOMER_REHEARSAL_ROW (row)), ==, (int) i);
  }
  g_assert_null (gtk_list_box_get_row_at_index (list, N_FAILURES));
}

/* A sump half as high floods with the check valve stuck open, and what is offered keeps the floor dry. */
static void
test_mend (Fixture *fixture, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (fixture->document));
  Design *low = design_with_number (before, "sump", FIELD_SUMP_HEIGHT, 0.235, NULL);
  RehearsalPlay *play;

  g_assert_nonnull (low);
  document_apply (fixture->document, low, "Lower the sump");
  choose (fixture, FAILURE_CHECK_STUCK);
  fixture_wait_long (rehearsal_page_get_play (fixture->page)->design == low);
  play = rehearsal_page_get_play (fixture->page);
  g_test_message ("spilled %.4f, %u remedies", play->rehearsed->rehearsal.spilled_m3, play->n_remedies);
  g_assert_cmpfloat (play->rehearsed->rehearsal.spilled_m3, >, 0);
  g_assert_cmpuint (play->n_remedies, >, 0);
  gtk_widget_activate_action (GTK_WIDGET (fixture->page), "rehearsal.mend", "i", 0);
  g_assert_true (document_get_design (fixture->document) != low);
  fixture_wait_long (rehearsal_page_get_play (fixture->page)->design ==
                     document_get_design (fixture->document));
  g_assert_cmpfloat (rehearsal_page_get_play (fixture->page)->rehearsed->rehearsal.spilled_m3, <=, 0);
  document_undo (fixture->document);
  g_assert_true (document_get_design (fixture->document) == low);
  design_unref (low);
}

static void
test_letters (void)
{
  const struct {
    unsigned index;
    const char *letter;
  } cases[] = {{0, "A"}, {25, "Z"}, {26, "AA"}, {51, "AZ"}, {52, "BA"}};

  for (unsigned i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *letter = rehearsal_event_letter (cases[i].index);

    g_assert_cmpstr (letter, ==, cases[i].letter);
  }
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add ("/rehearsal-page/power-cut", Fixture, NULL, set_up, test_power_cut, tear_down);
  g_test_add ("/rehearsal-page/steps", Fixture, NULL, set_up, test_steps, tear_down);
  g_test_add ("/rehearsal-page/plays", Fixture, NULL, set_up, test_plays, tear_down);
  g_test_add ("/rehearsal-page/flows", Fixture, NULL, set_up, test_flows, tear_down);
  g_test_add ("/rehearsal-page/list", Fixture, NULL, set_up, test_list, tear_down);
  g_test_add ("/rehearsal-page/mend", Fixture, NULL, set_up, test_mend, tear_down);
  g_test_add_func ("/rehearsal-page/letters", test_letters);
  return g_test_run ();
}
