/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/design/random-edit.h"

#include <glib.h>

Design *
random_edit (const Design *design, const char *key, char *ret_key, Problem *ret_problem)
{
  switch (g_test_rand_int_range (0, 22)) {
  case 0:
    return edit_add_fitting (design, key, "union", g_test_rand_double_range (-1, 60), ret_key, ret_problem);
  case 1:
    return edit_add_corner (design, key, g_test_rand_double_range (-1, 10), ret_key, ret_problem);
  case 2:
    return edit_add_device (design, key, g_test_rand_int_range (-1, 11), ret_key, ret_problem);
  case 3:
    return edit_divide_chamber (design, key, ret_key, ret_problem);
  case 4:
    return edit_add_drain (design, key, g_test_rand_int_range (-1, 6), ret_key, ret_problem);
  case 5:
    return edit_add_outlet (design, key, ret_key, ret_problem);
  case 6:
    return edit_add_reservoir (design, ret_key, ret_problem);
  case 7:
    return edit_rename (design, key, "Name", ret_problem);
  case 8:
    return edit_add_tank (design, key, (EditFeed) g_test_rand_int_range (0, 2), ret_key, ret_problem);
  case 9:
    return edit_add_overflow (design, key, ret_key, ret_problem);
  case 10:
    return edit_add_pump (design, key, (EditPumpWay) g_test_rand_int_range (0, 2), NULL, ret_key,
                          ret_problem);
  case 11:
    return edit_add_branch (design, key, g_test_rand_double_range (-1, 10), NULL, ret_key, ret_problem);
  case 12:
    return edit_move_pump_outside (design, key, ret_problem);
  case 13:
    return edit_duplicate (design, key, ret_key, ret_problem);
  case 14:
    return edit_move_corner (design, key,
                             (Point3){g_test_rand_double_range (-2, 3), g_test_rand_double_range (-1, 1),
                                      g_test_rand_double_range (-1, 3)},
                             ret_problem);
  case 15:
    return edit_add_fed_device (design, key, g_test_rand_int_range (-1, 11), ret_key, ret_problem);
  case 16: {
    const Part *device = design_nth (design, PART_DEVICE, 0);

    return edit_add_feed (design, key, g_test_rand_double_range (-1, 10),
                          device != NULL ? part_key (device) : "", ret_key, ret_problem);
  }
  default:
    return edit_remove (design, key, ret_problem);
  }
}
