/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/design/random-edit.h"

#include <glib.h>

#include "design/fragment.h"

static Catalogue *
three_pipes (void)
{
  Catalogue *catalogue = catalogue_new ();
  const PipeSize pipes[] = {
      {"sch40-3/4", "3/4\" schedule 40", "ASTM D1785", 0.02093, 0.02667, 0.75, 0.02222, false},
      {"sch40-1", "1\" schedule 40", "ASTM D1785", 0.02664, 0.0334, 1, 0.02858, false},
      {"sch40-1-1/2", "1 1/2\" schedule 40", "ASTM D1785", 0.04089, 0.04826, 1.5, 0.03493, false}};

  for (unsigned i = 0; i < G_N_ELEMENTS (pipes); i++)
    g_assert_true (catalogue_add_pipe (catalogue, &pipes[i]));
  return catalogue;
}

static Design *
random_pipe (const Design *design, const char *key, Problem *ret_problem)
{
  static const char *const sizes[] = {"sch40-3/4", "sch40-1", "sch40-1-1/2", "none"};
  g_autoptr (Catalogue) catalogue = three_pipes ();

  if (g_test_rand_bit ())
    return edit_step_pipe (design, catalogue, key, g_test_rand_int_range (-2, 3), ret_problem);
  return edit_set_pipe (design, catalogue, key, sizes[g_test_rand_int_range (0, G_N_ELEMENTS (sizes))],
                        ret_problem);
}

/* A copy of the part and of one more, pasted where it fits. */
static Design *
random_paste (const Design *design, const char *key, char *ret_key, Problem *ret_problem)
{
  const unsigned n = design_n_parts (design);
  const char *keys[] = {key,
                        part_key (design_part (design, (unsigned) g_test_rand_int_range (0, (gint32) n)))};
  g_autoptr (Fragment) fragment = fragment_new ((Design *) design, keys, G_N_ELEMENTS (keys));
  g_auto (GStrv) made = NULL;
  Design *pasted;

  if (fragment == NULL)
    return edit_rename (design, key, NULL, ret_problem);
  pasted = fragment_paste (fragment, design, g_test_rand_bit () ? key : NULL, &made, ret_problem);
  if (pasted != NULL)
    g_strlcpy (ret_key, made[0], MAX_KEY_BYTES + 1);
  return pasted;
}

/* A number anywhere in its range, with what follows a part that is moved by hand. */
static Design *
random_move (const Design *design, const char *key, Problem *ret_problem)
{
  const Part *part = design_find (design, key);
  const gint32 n = (gint32) field_count (part_kind (part));
  const FieldId field = field_first (part_kind (part)) + (FieldId) g_test_rand_int_range (0, n);
  const FieldInfo *info = field_info (field);
  g_autoptr (Design) moved = NULL;
  g_autoptr (Design) carried = NULL;

  if (info->type != FIELD_NUMBER)
    return design_without (design, key, field, ret_problem);
  moved = design_with_number (design, key, field, g_test_rand_double_range (-0.5, 2), ret_problem);
  if (moved == NULL)
    return NULL;
  carried = edit_carry_corners (design, moved);
  if (part_kind (part) == PART_DRAIN || part_kind (part) == PART_RETURN)
    return edit_drop_straight (design, carried, key, NULL);
  return edit_settle (carried, key);
}

Design *
random_edit (const Design *design, const char *key, char *ret_key, Problem *ret_problem)
{
  switch (g_test_rand_int_range (0, 27)) {
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
  case 17:
  case 18:
    return random_move (design, key, ret_problem);
  case 19:
    return random_paste (design, key, ret_key, ret_problem);
  case 20:
    return random_pipe (design, key, ret_problem);
  case 21: {
    const PumpType type = {.key = "pump-x",
                           .name = "Pump X",
                           .curve = "0:2 0.0005:1 0.001:0",
                           .watts = 30,
                           .min_speed = 1,
                           .length_m = 0.1,
                           .width_m = 0.1,
                           .height_m = 0.1};

    return edit_take_pump (design, key, &type, ret_problem);
  }
  default:
    return edit_remove (design, key, ret_problem);
  }
}
