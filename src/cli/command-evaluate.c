/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* `downcomer evaluate`: one JSON object in SI. Flows, levels and volumes are the likely ones; the margin of the flood test
 * is that of the edge that judges it. */
#include <math.h>

#include "cli/command.h"
#include "cli/json.h"
#include "report/explain.h"
#include "report/finding-words.h"
#include "solver/band.h"

static const char *
margin_unit (Quantity quantity)
{
  return quantity_si_unit (quantity)->word;
}

static void
write_finding (Json *json, const Loaded *loaded, const Finding *finding)
{
  const Design *design = project_active_design (loaded->project);
  g_autofree char *text = finding_sentence (design, finding, &loaded->style);

  json_open_object (json, NULL);
  json_string (json, "id", check_word (finding->check));
  json_string (json, "grade", grade_word (finding->grade));
  json_string (json, "part",
               finding->part >= 0 ? part_key (design_part (design, (unsigned) finding->part)) : NULL);
  json_number (json, "value", finding->value);
  json_number (json, "limit", finding->limit);
  json_number (json, "margin", finding->margin);
  json_string (json, "unit", margin_unit (finding->quantity));
  json_string (json, "text", text);
  json_number (json, "lower", finding->lower);
  json_number (json, "upper", finding->upper);
  json_string (json, "widest", finding->factor >= 0 ? factor_info ((FactorId) finding->factor)->word : NULL);
  json_close_object (json);
}

static void
write_flows (Json *json, const Evaluation *evaluation)
{
  const Totals *totals = &evaluation->totals;
  double speed = NAN;

  for (unsigned i = 0; i < evaluation->n_pumps; i++)
    speed = fmax (speed, evaluation->pumps[i].speed);
  json_open_object (json, "flow");
  json_number (json, "return_m3_per_s", totals->flow_m3s);
  json_number (json, "turnover_per_h", totals->turnover_per_h);
  json_number (json, "velocity_m_per_s", totals->return_velocity_ms);
  json_close_object (json);
  json_open_object (json, "pump");
  json_number (json, "head_m", totals->pump_head_m);
  json_number (json, "power_w", totals->pump_power_w);
  json_number (json, "speed", speed);
  json_close_object (json);
}

/* Of the tank that has least: from its running surface to the lowest rim or brace. */
static double
freeboard (const Evaluation *evaluation)
{
  double least_m = NAN;

  for (unsigned i = 0; i < evaluation->n_tanks; i++)
    least_m = fmin (least_m, evaluation->tanks[i].rim_z - evaluation->tanks[i].display_z);
  return least_m;
}

static void
write_levels (Json *json, const Evaluation *evaluation)
{
  const Totals *totals = &evaluation->totals;

  json_open_object (json, "overflow");
  json_number (json, "head_m", totals->overflow_head_m);
  json_number (json, "freeboard_m", freeboard (evaluation));
  json_close_object (json);
  json_open_object (json, "drain");
  json_number (json, "capacity_m3_per_s", totals->drain_capacity_m3s);
  json_number (json, "blocked_capacity_m3_per_s", totals->drain_blocked_m3s);
  json_number (json, "margin", totals->drain_margin);
  json_number (json, "flood_margin_m", totals->flood_margin_m);
  json_close_object (json);
  json_open_object (json, "sump");
  json_number (json, "free_m3", evaluation->drain_back.free_m3);
  json_number (json, "drain_back_m3", evaluation->drain_back.total_m3);
  json_number (json, "margin_m3", evaluation->drain_back.margin_m3);
  json_close_object (json);
  json_open_object (json, "water");
  json_number (json, "total_m3", totals->total_water_m3);
  json_close_object (json);
}

int
command_evaluate (const Options *options)
{
  g_auto (Loaded) loaded = {0};
  g_autofree char *text = NULL;
  Json json;
  int status = command_load (options, true, &loaded);

  if (status != CLI_OK)
    return status;
  json = json_begin ();
  json_open_object (&json, NULL);
  write_flows (&json, loaded.evaluation);
  write_levels (&json, loaded.evaluation);
  json_open_array (&json, "findings");
  for (unsigned i = 0; i < loaded.evaluation->n_findings; i++)
    write_finding (&json, &loaded, &loaded.evaluation->findings[i]);
  json_close_array (&json);
  json_close_object (&json);
  text = json_end (&json);
  status = command_print (text);
  return status != CLI_OK ? status : command_verdict (loaded.evaluation);
}

int
command_explain (const Options *options)
{
  g_auto (Loaded) loaded = {0};
  g_autofree char *text = NULL;
  int status = command_load (options, true, &loaded);

  if (status != CLI_OK)
    return status;
  text = explain_text (project_active_design (loaded.project), loaded.catalogue, loaded.evaluation,
                       loaded.trace, &loaded.style);
  status = command_print (text);
  return status != CLI_OK ? status : command_verdict (loaded.evaluation);
}
