/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The dialog for a new design as a real widget: what is asked for, said and proposed. */
#include "app/common/quantity-entry.h"
#include "app/start/new-dialog.h"
#include "app/start/starter.h"
#include "files/resource-data.h"
#include "tests/app/fixture.h"

typedef struct {
  Catalogue *catalogue;
  NewDialog *dialog;
  Design *proposed;
} Fixture;

static void
on_proposed (NewDialog *dialog, Design *design, Fixture *fixture)
{
  fixture->proposed = design_ref (design);
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  const ProposalRequest request = starter_request (FALSE);
  const NumberStyle signs = number_style_metric ();

  fixture->catalogue = catalogue_built_in ();
  fixture->proposed = NULL;
  fixture->dialog = DOWNCOMER_NEW_DIALOG (new_dialog_new (fixture->catalogue, &request, &signs));
  g_signal_connect (fixture->dialog, "proposed", G_CALLBACK (on_proposed), fixture);
  g_object_add_weak_pointer (G_OBJECT (fixture->dialog), (gpointer *) &fixture->dialog);
  gtk_window_present (GTK_WINDOW (fixture->dialog));
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  if (fixture->dialog != NULL)
    gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_null (fixture->dialog);
  design_unref (fixture->proposed);
  catalogue_unref (fixture->catalogue);
}

static void
type (Fixture *fixture, NewEntry entry, const char *text)
{
  fixture_type (new_dialog_get_entry (fixture->dialog, entry), text);
}

static gboolean
is_refused (Fixture *fixture, NewEntry entry)
{
  return gtk_widget_has_css_class (new_dialog_get_entry (fixture->dialog, entry), "refused");
}

static void
test_request (Fixture *fixture, gconstpointer data)
{
  type (fixture, NEW_TANK_LENGTH, "60 in");
  type (fixture, NEW_TANK_WIDTH, "55 cm");
  type (fixture, NEW_TURNOVER, "4");
  g_assert_cmpfloat_with_epsilon (new_dialog_get_request (fixture->dialog).tank_m[0], 1.524, 1e-12);
  g_assert_cmpfloat_with_epsilon (new_dialog_get_request (fixture->dialog).tank_m[1], 0.55, 1e-12);
  g_assert_cmpfloat (new_dialog_get_request (fixture->dialog).turnover_per_h, ==, 4);
  type (fixture, NEW_TURNOVER, "");
  g_assert_cmpfloat (new_dialog_get_request (fixture->dialog).turnover_per_h, ==, 0);
}

static void
test_units (Fixture *fixture, gconstpointer data)
{
  /* An untouched start becomes the usual tank of the other units; a size that was given is only shown otherwise. */
  new_dialog_set_us (fixture->dialog, TRUE);
  g_assert_true (new_dialog_get_request (fixture->dialog).us);
  g_assert_cmpfloat_with_epsilon (new_dialog_get_request (fixture->dialog).tank_m[0], 60 * 0.0254, 1e-12);
  new_dialog_set_us (fixture->dialog, FALSE);
  type (fixture, NEW_TANK_LENGTH, "1.4 m");
  new_dialog_set_us (fixture->dialog, TRUE);
  g_assert_cmpfloat_with_epsilon (new_dialog_get_request (fixture->dialog).tank_m[0], 1.4, 1e-12);
  type (fixture, NEW_TANK_HEIGHT, "24 1/2");
  g_assert_cmpfloat_with_epsilon (new_dialog_get_request (fixture->dialog).tank_m[2], 0.6223, 1e-12);
}

static void
test_refusals (Fixture *fixture, gconstpointer data)
{
  static const char *const bad[] = {"long", "-3", "0", "1e300", "nan", "3/4", "5 kg", "900 m"};
  const double before = new_dialog_get_request (fixture->dialog).tank_m[0];

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    type (fixture, NEW_TANK_LENGTH, bad[i]);
    g_assert_true (is_refused (fixture, NEW_TANK_LENGTH));
    g_assert_cmpstr (new_dialog_get_sentence (fixture->dialog), !=, "");
    g_assert_cmpfloat (new_dialog_get_request (fixture->dialog).tank_m[0], ==, before);
    gtk_widget_activate_action (GTK_WIDGET (fixture->dialog), "new.propose", NULL);
    g_assert_null (fixture->proposed);
  }
}

static void
test_limit (Fixture *fixture, gconstpointer data)
{
  /* No sump fits a stand of 200 mm. */
  type (fixture, NEW_STAND_HEIGHT, "210 mm");
  fixture_wait_long (!new_dialog_is_busy (fixture->dialog));
  gtk_widget_activate_action (GTK_WIDGET (fixture->dialog), "new.propose", NULL);
  g_assert_null (fixture->proposed);
  g_assert_nonnull (fixture->dialog);
}

static void
test_proposed (Fixture *fixture, gconstpointer data)
{
  const Part *tank;

  type (fixture, NEW_TANK_LENGTH, "1400 mm");
  /* Before the answer: it is taken as soon as it comes. */
  gtk_widget_activate_action (GTK_WIDGET (fixture->dialog), "new.propose", NULL);
  fixture_wait_long (fixture->proposed != NULL);
  tank = design_nth (fixture->proposed, PART_TANK, 0);
  g_assert_cmpfloat_with_epsilon (design_number (fixture->proposed, tank, FIELD_TANK_LENGTH), 1.4, 1e-12);
}

/* What a new window begins with is sound, and is the tank that the dialog begins with. */
static void
check_starter (Catalogue *catalogue, const char *path, gboolean us)
{
  const ProposalRequest request = starter_request (us);
  g_autoptr (GBytes) bytes = resource_data (path);
  g_autoptr (Project) project = document_from_bytes (bytes, path, NULL);
  Design *design = project_active_design (project);
  const Part *tank = design_nth (design, PART_TANK, 0), *stand = design_nth (design, PART_STAND, 0);
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  SystemStatus status;

  g_assert_true (evaluate_design (design, catalogue, NULL, evaluation, &status, NULL));
  g_assert_true (evaluation_is_sound (evaluation));
  for (int axis = 0; axis < 3; axis++) {
    const FieldId of_tank = (FieldId) ((int) FIELD_TANK_LENGTH + axis);
    const FieldId of_stand = (FieldId) ((int) FIELD_STAND_LENGTH + axis);

    g_assert_cmpfloat_with_epsilon (design_number (design, tank, of_tank), request.tank_m[axis], 1e-9);
    g_assert_cmpfloat_with_epsilon (design_number (design, stand, of_stand), request.stand_m[axis], 1e-9);
  }
}

static void
test_starters (void)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();
  g_autoptr (Project) project = starter_project (catalogue, NULL);

  g_assert_nonnull (project);
  check_starter (catalogue, RESOURCE_STARTER_METRIC, FALSE);
  check_starter (catalogue, RESOURCE_STARTER_US, TRUE);
}

#define ADD(name, function) g_test_add ("/new-dialog/" name, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("request", test_request);
  ADD ("units", test_units);
  ADD ("refusals", test_refusals);
  ADD ("limit", test_limit);
  ADD ("proposed", test_proposed);
  g_test_add_func ("/starter/sound", test_starters);
  return g_test_run ();
}
