/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rules of the fields of a device: usual sizes by kind. */
#include "design/choices.h"
#include "design/field-rules.h"
#include "design/geometry.h"

#define BESIDE_M 0.05 /* of a chiller from the sump */

typedef struct {
  double plan_m, height_m, depth_m, tolerance_m, wet_share, room_m, loss_m;
} DeviceUsual;

static const DeviceUsual device_usual[] = {[DEVICE_SKIMMER] = {0.2, 0.48, 0.2, 0.005, 0, 0.15, 0},
                                           [DEVICE_HEATER] = {0.03, 0.3, 0, 0.05, 0.8, 0.05, 0},
                                           [DEVICE_PROBE] = {0.015, 0.15, 0, 0.05, 0.25, 0.05, 0},
                                           [DEVICE_REACTOR] = {0.12, 0.4, 0, 0.05, 0, 0.1, 0.3},
                                           [DEVICE_MEDIA] = {0.15, 0.12, 0, 0.05, 0, 0.05, 0.1},
                                           [DEVICE_SOCK] = {0.18, 0.3, 0, 0.05, 0, 0.05, 0},
                                           [DEVICE_OTHER] = {0.1, 0.15, 0, 0.05, 0, 0.05, 0},
                                           [DEVICE_UV] = {0.1, 0.35, 0, 0.05, 0, 0.1, 0.1},
                                           [DEVICE_CHILLER] = {0.3, 0.4, 0, 0.05, 0, 0.05, 0.2},
                                           [DEVICE_FEED] = {0.03, 0.05, 0, 0.05, 0, 0, 0}};

static const DeviceUsual *
usual (const Design *design, const Part *device)
{
  const int kind = design_choice (design, device, FIELD_DEVICE_KIND);

  return &device_usual[CLAMP (kind, 0, (int) G_N_ELEMENTS (device_usual) - 1)];
}

double
rule_device_length (const Design *design, const Part *part)
{
  return usual (design, part)->plan_m;
}

double
rule_device_width (const Design *design, const Part *part)
{
  return usual (design, part)->plan_m;
}

double
rule_device_height (const Design *design, const Part *part)
{
  return usual (design, part)->height_m;
}

double
rule_device_depth (const Design *design, const Part *part)
{
  return usual (design, part)->depth_m;
}

double
rule_depth_tolerance (const Design *design, const Part *part)
{
  return usual (design, part)->tolerance_m;
}

double
rule_device_wet (const Design *design, const Part *part)
{
  return usual (design, part)->wet_share * design_number (design, part, FIELD_DEVICE_HEIGHT);
}

double
rule_room_above (const Design *design, const Part *part)
{
  return usual (design, part)->room_m;
}

static double
owner_width (const Design *design, const Part *part)
{
  const Part *chamber = design_owner (design, part);

  return chamber != NULL ? geometry_inside (design, chamber).size.x : 0;
}

double
rule_device_outflow (const Design *design, const Part *part)
{
  return design_choice (design, part, FIELD_DEVICE_KIND) == DEVICE_FEED
             ? 0
             : design_number (design, part, FIELD_DEVICE_HEIGHT);
}

double
rule_device_loss (const Design *design, const Part *part)
{
  return usual (design, part)->loss_m;
}

/* A chiller stands in air: beside the sump, at its left end. */
double
rule_device_x (const Design *design, const Part *part)
{
  const Part *sump = design_nth (design, PART_SUMP, 0), *chamber = design_owner (design, part);

  if (design_choice (design, part, FIELD_DEVICE_KIND) == DEVICE_CHILLER && sump != NULL && chamber != NULL)
    return geometry_outside (design, sump).origin.x - BESIDE_M -
           design_number (design, part, FIELD_DEVICE_LENGTH) - geometry_inside (design, chamber).origin.x;
  return (owner_width (design, part) - design_number (design, part, FIELD_DEVICE_LENGTH)) / 2;
}
