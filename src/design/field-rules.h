/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rules of the field table: defaults that depend on other fields (see the basis in each row). */
#pragma once

#include "design/design.h"

double rule_paper (const Design *design, const Part *part);
double rule_turnover (const Design *design, const Part *part);
double rule_door_width (const Design *design, const Part *part);
double rule_door_height (const Design *design, const Part *part);
double rule_socket_height (const Design *design, const Part *part);
double rule_tank_glass (const Design *design, const Part *part);
double rule_tank_bottom (const Design *design, const Part *part);
double rule_tank_rim (const Design *design, const Part *part);
double rule_tank_x (const Design *design, const Part *part);
double rule_tank_y (const Design *design, const Part *part);
double rule_crest (const Design *design, const Part *part);
double rule_box_length (const Design *design, const Part *part);
double rule_crest_length (const Design *design, const Part *part);
double rule_box_depth (const Design *design, const Part *part);
double rule_box_rim (const Design *design, const Part *part);
double rule_box_x (const Design *design, const Part *part);
double rule_tubes (const Design *design, const Part *part);
double rule_crown (const Design *design, const Part *part);
double rule_overflow_tube_end (const Design *design, const Part *part);
double rule_seal (const Design *design, const Part *part);
double rule_tube_side (const Design *design, const Part *part);
double rule_mouth (const Design *design, const Part *part);
double rule_mouth_x (const Design *design, const Part *part);
double rule_mouth_y (const Design *design, const Part *part);
double rule_drain_end (const Design *design, const Part *part);
double rule_sump_length (const Design *design, const Part *part);
double rule_sump_width (const Design *design, const Part *part);
double rule_sump_height (const Design *design, const Part *part);
double rule_running_level (const Design *design, const Part *part);
double rule_bypass_lip (const Design *design, const Part *part);
double rule_baffle_x (const Design *design, const Part *part);
double rule_baffle_height (const Design *design, const Part *part);
double rule_baffle_gap (const Design *design, const Part *part);
double rule_device_length (const Design *design, const Part *part);
double rule_device_width (const Design *design, const Part *part);
double rule_device_height (const Design *design, const Part *part);
double rule_device_x (const Design *design, const Part *part);
double rule_device_depth (const Design *design, const Part *part);
double rule_depth_tolerance (const Design *design, const Part *part);
double rule_device_outflow (const Design *design, const Part *part);
double rule_device_loss (const Design *design, const Part *part);
double rule_device_wet (const Design *design, const Part *part);
double rule_room_above (const Design *design, const Part *part);
double rule_pump_x (const Design *design, const Part *part);
double rule_before_x (const Design *design, const Part *part);
double rule_before_y (const Design *design, const Part *part);
double rule_before_z (const Design *design, const Part *part);
double rule_outlet_x (const Design *design, const Part *part);
double rule_outlet_y (const Design *design, const Part *part);
double rule_outlet_height (const Design *design, const Part *part);
double rule_break_height (const Design *design, const Part *part);
double rule_opening (const Design *design, const Part *part);
double rule_reservoir_x (const Design *design, const Part *part);
double rule_reservoir_volume (const Design *design, const Part *part);
double rule_tube_end (const Design *design, const Part *part);

/* Rules of references give the key of a part, or NULL. */
const char *rule_inlet_chamber (const Design *design, const Part *part);
const char *rule_first_outlet (const Design *design, const Part *part);
