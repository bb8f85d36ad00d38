/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The entry of quantities: what it reads, what it asks, what it refuses, and that it never guesses. */
#include "app/common/quantity-entry.h"
#include "app/common/quantity-words.h"
#include "tests/app/fixture.h"
#include "units/parse.h"

typedef struct {
  double value;
  guint entered, cleared;
  char *problem;
} Heard;

static void
on_entered (Heard *heard, double value)
{
  heard->value = value;
  heard->entered++;
}

static void
on_cleared (Heard *heard)
{
  heard->cleared++;
}

static void
on_problem (Heard *heard, const char *problem)
{
  g_free (heard->problem);
  heard->problem = g_strdup (problem);
}

static GtkWidget *
entry_new (Quantity quantity, double value, Heard *heard)
{
  const NumberStyle style = number_style_metric ();
  GtkWidget *entry = quantity_entry_new (quantity);

  g_signal_connect_swapped (entry, "entered", G_CALLBACK (on_entered), heard);
  g_signal_connect_swapped (entry, "cleared", G_CALLBACK (on_cleared), heard);
  g_signal_connect_swapped (entry, "problem", G_CALLBACK (on_problem), heard);
  quantity_entry_set_style (DOWNCOMER_QUANTITY_ENTRY (entry), &style, units_unit_for (quantity, &style),
                            FALSE);
  quantity_entry_set_value (DOWNCOMER_QUANTITY_ENTRY (entry), value, FALSE);
  return entry;
}

static void
test_reads (void)
{
  static const struct {
    Quantity quantity;
    const char *text;
    double value;
  } rows[] = {{QUANTITY_LENGTH, "18 in", 0.4572},
              {QUANTITY_LENGTH, "45.7 cm", 0.457},
              {QUANTITY_LENGTH, "561", 0.561},
              {QUANTITY_LENGTH, "1 1/2 in", 0.0381},
              {QUANTITY_LENGTH, "5' 3 1/2\"", 1.6129},
              {QUANTITY_FLOW, "1200 L/h", 1200 / 3.6e6},
              {QUANTITY_FLOW, "300 us gph", 300 * 0.003785411784 / 3600},
              {QUANTITY_RATIO, "95 %", 0.95},
              {QUANTITY_TEMPERATURE, "77 °F", 25}};

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    Heard heard = {0};
    GtkWidget *entry = g_object_ref_sink (entry_new (rows[i].quantity, 0.3, &heard));

    fixture_type (entry, rows[i].text);
    g_test_message ("%s", rows[i].text);
    g_assert_cmpuint (heard.entered, ==, 1);
    g_assert_cmpfloat_with_epsilon (heard.value, rows[i].value, 1e-9);
    g_assert_null (heard.problem);
    g_object_unref (entry);
  }
}

/* Leaving an entry that was not touched changes nothing, though it shows a rounded value. */
static void
test_untouched (void)
{
  Heard heard = {0};
  GtkWidget *entry = g_object_ref_sink (entry_new (QUANTITY_LENGTH, 0.123456, &heard));

  quantity_entry_apply (DOWNCOMER_QUANTITY_ENTRY (entry));
  g_signal_emit_by_name (entry, "activate");
  g_assert_cmpuint (heard.entered, ==, 0);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "123" UNITS_SPACE "mm");
  fixture_type (entry, "");
  g_assert_cmpuint (heard.cleared, ==, 1);
  g_object_unref (entry);
}

static void
test_not_understood (void)
{
  static const struct {
    const char *text, *part;
  } rows[] = {{"abc", "abc"},
              {"12 parsecs", "parsecs"},
              {"12 L/h", "something else"},
              {"3 mm 4", NULL},
              {"1e400", "large"}};

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    Heard heard = {0};
    GtkWidget *entry = g_object_ref_sink (entry_new (QUANTITY_LENGTH, 0.3, &heard));

    fixture_type (entry, rows[i].text);
    g_assert_cmpuint (heard.entered, ==, 0);
    g_assert_nonnull (heard.problem);
    g_test_message ("%s: %s", rows[i].text, heard.problem);
    if (rows[i].part != NULL)
      g_assert_nonnull (strstr (heard.problem, rows[i].part));
    g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, rows[i].text);
    g_assert_true (gtk_widget_has_css_class (entry, "refused"));
    gtk_test_accessible_assert_state (entry, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE);
    quantity_entry_restore (DOWNCOMER_QUANTITY_ENTRY (entry));
    g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "300" UNITS_SPACE "mm");
    g_assert_false (gtk_widget_has_css_class (entry, "refused"));
    g_free (heard.problem);
    g_object_unref (entry);
  }
}

static GtkWidget *
find_button (GtkWidget *widget, const char *prefix)
{
  if (GTK_IS_BUTTON (widget) && gtk_button_get_label (GTK_BUTTON (widget)) != NULL &&
      g_str_has_prefix (gtk_button_get_label (GTK_BUTTON (widget)), prefix))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = find_button (child, prefix);

    if (found != NULL)
      return found;
  }
  return NULL;
}

/* Gallons in a metric project may be US or imperial: asked, and answered by a button. */
static void
test_asks (void)
{
  Heard heard = {0};
  GtkWidget *entry = entry_new (QUANTITY_VOLUME, 0.0003, &heard), *question, *button;
  GtkWindow *window = fixture_window (entry);

  fixture_type (entry, "20 gal");
  g_assert_cmpuint (heard.entered, ==, 0);
  question = quantity_entry_get_question (DOWNCOMER_QUANTITY_ENTRY (entry));
  g_assert_nonnull (question);
  button = find_button (question, "20");
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  g_assert_cmpuint (heard.entered, ==, 1);
  g_assert_true (ABS (heard.value - 20 * 0.003785411784) < 1e-12 ||
                 ABS (heard.value - 20 * 0.00454609) < 1e-12);
  fixture_wait (quantity_entry_get_question (DOWNCOMER_QUANTITY_ENTRY (entry)) == NULL);
  g_free (heard.problem);
  fixture_close (window);
}

/* An arrow key moves by what can be built, and never stands still. */
static void
test_steps (void)
{
  const NumberStyle style = number_style_metric ();
  const Unit *mm = units_unit_for (QUANTITY_LENGTH, &style), *flow = units_unit_for (QUANTITY_FLOW, &style);

  g_assert_cmpfloat_with_epsilon (quantity_step (QUANTITY_LENGTH, mm, 560), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (quantity_step (QUANTITY_FLOW, flow, 2600), 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (quantity_step (QUANTITY_FLOW, flow, 90), 1, 1e-9);
  g_assert_cmpfloat (quantity_step (QUANTITY_FLOW, flow, 0), >, 0);
  for (guint i = 0; i < unit_count (); i++)
    for (double shown = 1e-6; shown < 1e7; shown *= 7)
      g_assert_cmpfloat (quantity_step (unit_at (i)->quantity, unit_at (i), shown), >, 0);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
  g_test_add_func ("/quantity-entry/reads", test_reads);
  g_test_add_func ("/quantity-entry/untouched", test_untouched);
  g_test_add_func ("/quantity-entry/not-understood", test_not_understood);
  g_test_add_func ("/quantity-entry/asks", test_asks);
  g_test_add_func ("/quantity-entry/steps", test_steps);
  return g_test_run ();
}
