/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <glib.h>

#include "hydraulics/status.h"

/* Every status of the list, in its order. */
static const HydraulicsStatus every_status[] = {
#define MEMBER(name, text) HYDRAULICS_##name,
    HYDRAULICS_STATUSES (MEMBER)
#undef MEMBER
};

static void
test_every_status_has_its_own_text (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (every_status); i++) {
    g_assert_cmpstr (hydraulics_status_text (every_status[i]), !=, "");
    g_assert_cmpstr (hydraulics_status_text (every_status[i]), !=, "unknown status");
    for (gsize j = 0; j < i; j++)
      g_assert_cmpstr (hydraulics_status_text (every_status[i]), !=,
                       hydraulics_status_text (every_status[j]));
  }
}

static void
test_success_is_zero (void)
{
  g_assert_cmpint (HYDRAULICS_OK, ==, 0);
}

static void
test_foreign_number_is_named (void)
{
  g_assert_cmpstr (hydraulics_status_text ((HydraulicsStatus) 99), ==, "unknown status");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/status/texts", test_every_status_has_its_own_text);
  g_test_add_func ("/hydraulics/status/success-is-zero", test_success_is_zero);
  g_test_add_func ("/hydraulics/status/foreign", test_foreign_number_is_named);
  return g_test_run ();
}
