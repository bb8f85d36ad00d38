/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What edits add is not only well-formed but runs: each further tank, overflow, pump and outlet of the sound system gets
 * its share of the water. The shares follow from the design, so they are compared with each other, not with figures. */
#include <math.h>

#include "design/edit.h"
#include "tests/solver/fixture.h"

static Evaluation *
judge (Design *design)
{
  Draft *draft = draft_new (design);

  return fixture_evaluate (draft);
}

static Design *
sound (void)
{
  return fixture_commit (fixture_draft ());
}

static const Part *
first_of (const Design *design, PartKind kind)
{
  return design_nth (design, kind, 0);
}

static void
check_flows (const Evaluation *evaluation)
{
  double pumped_m3s = 0, tanks_m3s = 0, overflows_m3s = 0, drains_m3s = 0;

  g_assert_cmpint (evaluation->status, ==, EVALUATION_OK);
  for (unsigned i = 0; i < evaluation->n_pumps; i++) {
    g_assert_cmpint (evaluation->pumps[i].status, ==, PUMP_STATE_OK);
    pumped_m3s += evaluation->pumps[i].flow_m3s;
  }
  for (unsigned i = 0; i < evaluation->n_tanks; i++) {
    g_assert_cmpfloat (evaluation->tanks[i].flow_m3s, >, 1e-5);
    tanks_m3s += evaluation->tanks[i].flow_m3s;
  }
  for (unsigned i = 0; i < evaluation->n_overflows; i++) {
    g_assert_cmpfloat (evaluation->overflows[i].flow_m3s, >, 1e-5);
    overflows_m3s += evaluation->overflows[i].flow_m3s;
  }
  for (unsigned i = 0; i < evaluation->n_drains; i++)
    drains_m3s += evaluation->drains[i].flow_m3s;
  g_assert_cmpfloat_with_epsilon (tanks_m3s, pumped_m3s, 1e-9);
  g_assert_cmpfloat_with_epsilon (overflows_m3s, pumped_m3s, 1e-9);
  g_assert_cmpfloat_with_epsilon (drains_m3s, pumped_m3s, 1e-7);
}

static void
test_tank (void)
{
  g_autoptr (Design) base = sound ();

  for (EditFeed feed = EDIT_FEED_TEE; feed <= EDIT_FEED_PUMP; feed++) {
    char key[MAX_KEY_BYTES + 1] = "";
    Problem problem = {0};
    g_autoptr (Design) two = edit_add_tank (base, part_key (first_of (base, PART_TANK)), feed, key, &problem);

    g_assert_cmpstr (problem_text (problem.code), ==, "");
    g_assert_nonnull (two);
    g_autofree Evaluation *evaluation = judge (two);

    g_assert_cmpuint (evaluation->n_tanks, ==, 2);
    check_flows (evaluation);
    fixture_show (evaluation);
    g_assert_cmpuint (evaluation->n_pumps, ==, feed == EDIT_FEED_PUMP ? 2 : 1);
  }
}

static void
test_overflow (void)
{
  g_autoptr (Design) base = sound ();
  Problem problem = {0};
  g_autoptr (Design) two = edit_add_overflow (base, part_key (first_of (base, PART_TANK)), NULL, &problem);

  g_assert_nonnull (two);
  g_autofree Evaluation *evaluation = judge (two);

  g_assert_cmpuint (evaluation->n_overflows, ==, 2);
  check_flows (evaluation);
  fixture_show (evaluation);
}

/* Two pumps give more than one; the second of two like pumps in one riser gives what the first does. */
static void
test_pump (void)
{
  g_autoptr (Design) base = sound ();
  g_autofree Evaluation *one = judge (base);
  const char *chamber = part_owner (first_of (base, PART_PUMP));

  for (EditPumpWay way = EDIT_PUMP_JOINS; way <= EDIT_PUMP_OWN_OUTLET; way++) {
    Problem problem = {0};
    g_autoptr (Design) two = edit_add_pump (base, chamber, way, NULL, NULL, &problem);

    g_assert_nonnull (two);
    g_autofree Evaluation *evaluation = judge (two);

    g_assert_cmpuint (evaluation->n_pumps, ==, 2);
    fixture_show (evaluation);
    check_flows (evaluation);
    g_assert_cmpfloat (evaluation->tanks[0].flow_m3s, >, one->tanks[0].flow_m3s);
    if (way == EDIT_PUMP_JOINS)
      g_assert_cmpfloat_with_epsilon (evaluation->pumps[1].flow_m3s / evaluation->pumps[0].flow_m3s, 1, 0.1);
  }
}

static void
test_outside (void)
{
  g_autoptr (Design) base = sound ();
  g_autoptr (Design) outside = edit_move_pump_outside (base, part_key (first_of (base, PART_PUMP)), NULL);
  g_autofree Evaluation *evaluation = judge (outside);

  check_flows (evaluation);
  g_assert_true (isfinite (evaluation->pumps[0].npsh_m));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edits/tank", test_tank);
  g_test_add_func ("/edits/overflow", test_overflow);
  g_test_add_func ("/edits/pump", test_pump);
  g_test_add_func ("/edits/outside", test_outside);
  return g_test_run ();
}
