/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/inspector/field-groups.h"

#include <glib/gi18n.h>

static const FieldId levels[] = {FIELD_STAND_FLOOR,       FIELD_STAND_SOCKET_HEIGHT,
                                 FIELD_TANK_RIM,          FIELD_OVERFLOW_CREST,
                                 FIELD_OVERFLOW_BOX_RIM,  FIELD_OVERFLOW_CROWN,
                                 FIELD_OVERFLOW_TUBE_END, FIELD_OVERFLOW_SEAL,
                                 FIELD_DRAIN_MOUTH,       FIELD_DRAIN_END,
                                 FIELD_SUMP_LIP,          FIELD_CHAMBER_LEVEL,
                                 FIELD_CHAMBER_BYPASS,    FIELD_BAFFLE_HEIGHT,
                                 FIELD_BAFFLE_GAP,        FIELD_DEVICE_STANDS,
                                 FIELD_DEVICE_DEPTH,      FIELD_DEVICE_DEPTH_TOLERANCE,
                                 FIELD_DEVICE_WET,        FIELD_DEVICE_ROOM,
                                 FIELD_DEVICE_OUTFLOW,    FIELD_PUMP_SUCTION,
                                 FIELD_PUMP_COVER,        FIELD_PUMP_OUTLET_HEIGHT,
                                 FIELD_OUTLET_HEIGHT,     FIELD_OUTLET_BREAK_HEIGHT,
                                 FIELD_RESERVOIR_TUBE_END};

static const FieldId places[] = {FIELD_TANK_X,   FIELD_TANK_Y,   FIELD_OVERFLOW_X,      FIELD_DRAIN_X,
                                 FIELD_DRAIN_Y,  FIELD_SUMP_X,   FIELD_SUMP_Y,          FIELD_BAFFLE_X,
                                 FIELD_DEVICE_X, FIELD_PUMP_X,   FIELD_TEE_X,           FIELD_TEE_Y,
                                 FIELD_TEE_Z,    FIELD_OUTLET_X, FIELD_OUTLET_Y,        FIELD_CORNER_X,
                                 FIELD_CORNER_Y, FIELD_CORNER_Z, FIELD_FITTING_STATION, FIELD_RESERVOIR_X};

static const FieldId primary[] = {FIELD_JOB_TITLE,
                                  FIELD_JOB_NUMBER,
                                  FIELD_JOB_OWNER,
                                  FIELD_JOB_UNITS,
                                  FIELD_JOB_TURNOVER,
                                  FIELD_ROOM_WATER_TEMPERATURE,
                                  FIELD_ROOM_SALINITY,
                                  FIELD_ROOM_EVAPORATION,
                                  FIELD_ROOM_PRICE,
                                  FIELD_ROOM_CIRCUIT,
                                  FIELD_STAND_LENGTH,
                                  FIELD_STAND_WIDTH,
                                  FIELD_STAND_HEIGHT,
                                  FIELD_STAND_FLOOR,
                                  FIELD_STAND_DOOR_WIDTH,
                                  FIELD_STAND_DOOR_HEIGHT,
                                  FIELD_TANK_LENGTH,
                                  FIELD_TANK_WIDTH,
                                  FIELD_TANK_HEIGHT,
                                  FIELD_TANK_GLASS,
                                  FIELD_TANK_RIM,
                                  FIELD_TANK_BOTTOM_PANE,
                                  FIELD_TANK_BACK_PANE,
                                  FIELD_OVERFLOW_KIND,
                                  FIELD_OVERFLOW_WEIR,
                                  FIELD_OVERFLOW_CREST,
                                  FIELD_OVERFLOW_LENGTH,
                                  FIELD_OVERFLOW_BOX_LENGTH,
                                  FIELD_OVERFLOW_BOX_WIDTH,
                                  FIELD_OVERFLOW_BOX_DEPTH,
                                  FIELD_OVERFLOW_TUBE_BORE,
                                  FIELD_OVERFLOW_TUBES,
                                  FIELD_OVERFLOW_TUBE_END,
                                  FIELD_OVERFLOW_SEAL,
                                  FIELD_DRAIN_ROLE,
                                  FIELD_DRAIN_TO,
                                  FIELD_DRAIN_SIZE,
                                  FIELD_DRAIN_MOUTH,
                                  FIELD_DRAIN_END,
                                  FIELD_DRAIN_ENTRY,
                                  FIELD_DRAIN_X,
                                  FIELD_SUMP_LENGTH,
                                  FIELD_SUMP_WIDTH,
                                  FIELD_SUMP_HEIGHT,
                                  FIELD_SUMP_LIP,
                                  FIELD_CHAMBER_ROLE,
                                  FIELD_CHAMBER_LEVEL,
                                  FIELD_CHAMBER_SOCKS,
                                  FIELD_CHAMBER_BYPASS,
                                  FIELD_BAFFLE_KIND,
                                  FIELD_BAFFLE_X,
                                  FIELD_BAFFLE_HEIGHT,
                                  FIELD_BAFFLE_GAP,
                                  FIELD_BAFFLE_SERVICE,
                                  FIELD_DEVICE_KIND,
                                  FIELD_DEVICE_LENGTH,
                                  FIELD_DEVICE_WIDTH,
                                  FIELD_DEVICE_HEIGHT,
                                  FIELD_DEVICE_X,
                                  FIELD_DEVICE_DEPTH,
                                  FIELD_DEVICE_WATTS,
                                  FIELD_DEVICE_LOSS_FLOW,
                                  FIELD_DEVICE_LOSS_HEAD,
                                  FIELD_PUMP_CURVE,
                                  FIELD_PUMP_WATTS,
                                  FIELD_PUMP_SPEED,
                                  FIELD_PUMP_PLACING,
                                  FIELD_PUMP_X,
                                  FIELD_PUMP_SUCTION,
                                  FIELD_RETURN_TO,
                                  FIELD_RETURN_SIZE,
                                  FIELD_TEE_X,
                                  FIELD_TEE_Y,
                                  FIELD_TEE_Z,
                                  FIELD_OUTLET_KIND,
                                  FIELD_OUTLET_X,
                                  FIELD_OUTLET_Y,
                                  FIELD_OUTLET_HEIGHT,
                                  FIELD_OUTLET_BORE,
                                  FIELD_OUTLET_BREAK,
                                  FIELD_OUTLET_BREAK_HEIGHT,
                                  FIELD_CORNER_X,
                                  FIELD_CORNER_Y,
                                  FIELD_CORNER_Z,
                                  FIELD_CORNER_BEND,
                                  FIELD_FITTING_TYPE,
                                  FIELD_FITTING_STATION,
                                  FIELD_FITTING_OPENING,
                                  FIELD_RESERVOIR_LENGTH,
                                  FIELD_RESERVOIR_WIDTH,
                                  FIELD_RESERVOIR_HEIGHT,
                                  FIELD_RESERVOIR_VOLUME,
                                  FIELD_RESERVOIR_CUT_OUT,
                                  FIELD_CANDIDATE_CURVE,
                                  FIELD_CANDIDATE_WATTS,
                                  FIELD_CANDIDATE_MIN_SPEED};

static bool
is_in (FieldId field, const FieldId *list, size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (list[i] == field)
      return true;
  return false;
}

FieldGroup
field_group (FieldId field)
{
  const FieldInfo *info = field_info (field);

  if (is_in (field, levels, G_N_ELEMENTS (levels)))
    return FIELD_GROUP_LEVELS;
  if (is_in (field, places, G_N_ELEMENTS (places)))
    return FIELD_GROUP_PLACE;
  if (info->type != FIELD_NUMBER)
    return FIELD_GROUP_KIND;
  if (info->quantity == QUANTITY_LENGTH || info->quantity == QUANTITY_DIAMETER)
    return FIELD_GROUP_SIZES;
  return FIELD_GROUP_WORKING;
}

const char *
field_group_name (FieldGroup group)
{
  switch (group) {
  case FIELD_GROUP_LEVELS:
    return C_ ("group of fields", "Levels");
  case FIELD_GROUP_SIZES:
    return C_ ("group of fields", "Sizes");
  case FIELD_GROUP_WORKING:
    return C_ ("group of fields", "Working");
  case FIELD_GROUP_PLACE:
    return C_ ("group of fields", "Place");
  case FIELD_GROUP_KIND:
  case N_FIELD_GROUPS:
    break;
  }
  return "";
}

bool
field_is_primary (FieldId field)
{
  return is_in (field, primary, G_N_ELEMENTS (primary));
}
