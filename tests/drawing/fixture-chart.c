/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/drawing/fixture.h"

#include <math.h>

#define N_PUMPS  6
#define N_POINTS 25

const ChartData *
fixture_chart (void)
{
  static const struct {
    const char *name;
    double shut_off_m, most_m3s;
  } pumps[N_PUMPS] = {{"Pump A", 3.2, 0.00145}, {"Pump B", 4.1, 0.0017}, {"Pump C", 2.6, 0.0012},
                      {"Pump D", 3.6, 0.0021},  {"Pump E", 5.0, 0.0019}, {"Pump F", 3.0, 0.0016}};
  static double flow[N_PUMPS + 1][N_POINTS], head[N_PUMPS + 1][N_POINTS];
  static ChartCurve curves[N_PUMPS + 1];
  static ChartData data;
  const double lift_m = 1.15, loss = 1.1e6;
  for (unsigned i = 0; i <= N_PUMPS; i++)
    for (unsigned k = 0; k < N_POINTS; k++) {
      double most = i < N_PUMPS ? pumps[i].most_m3s : 0.0022, share = (double) k / (N_POINTS - 1);
      flow[i][k] = share * most;
      head[i][k] = i < N_PUMPS ? pumps[i].shut_off_m * (1 - 0.9 * pow (share, 1.8))
                               : lift_m + loss * flow[i][k] * flow[i][k];
    }
  for (unsigned i = 0; i <= N_PUMPS; i++) {
    curves[i] = (ChartCurve){.kind = CHART_PUMP, .n = N_POINTS, .flow_m3s = flow[i], .head_m = head[i]};
    curves[i].name = i < N_PUMPS ? pumps[i].name : "Loop";
    curves[i].duty_flow_m3s = curves[i].duty_head_m = (double) NAN;
    for (unsigned k = 1; k < N_POINTS && i < N_PUMPS; k++)
      if (head[i][k] < lift_m + loss * flow[i][k] * flow[i][k] && isnan (curves[i].duty_flow_m3s)) {
        curves[i].duty_flow_m3s = flow[i][k];
        curves[i].duty_head_m = head[i][k];
      }
  }
  curves[N_PUMPS].kind = CHART_LOOP;
  data = (ChartData){N_PUMPS + 1, curves, 0, 0.00155, 0.0006, 0.0009};
  return &data;
}
