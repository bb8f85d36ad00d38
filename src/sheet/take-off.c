/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/take-off.h"

#include <glib.h>
#include <math.h>

#include "hydraulics/fitting.h"
#include "hydraulics/pipe.h"

bool
take_off_elbow (const char *key, const char *standard, double nominal_in, double outside_m, bool right_angle,
                double *ret_length_m)
{
  const LayingShape shape = right_angle ? LAYING_ELBOW_90 : LAYING_ELBOW_45;
  const bool inch = g_strcmp0 (standard, "ASTM D1785") == 0;

  if (!inch && !g_str_has_prefix (standard, "EN ISO 1452"))
    return false;
  if (!inch)
    return fitting_laying_length (SOCKET_ISO_727_PVC_U, shape, round (outside_m * 1000), ret_length_m) ==
           HYDRAULICS_OK;
  return fitting_laying_length (g_str_has_prefix (key, "sch80-") ? SOCKET_ASTM_D2467_SCHEDULE_80
                                                                 : SOCKET_ASTM_D2466_SCHEDULE_40,
                                shape, nominal_in, ret_length_m) == HYDRAULICS_OK;
}
