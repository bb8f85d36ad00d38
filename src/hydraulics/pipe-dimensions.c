/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/pipe.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#define INCH_SIZE(nominal, outside_in, wall_in)                                                              \
  {                                                                                                          \
    nominal, (outside_in) *0.0254, (wall_in) *0.0254, ((outside_in) -2.0 * (wall_in)) * 0.0254               \
  }
#define METRIC_SIZE(nominal, wall_mm)                                                                        \
  {                                                                                                          \
    nominal, (nominal) *1e-3, (wall_mm) *1e-3, ((nominal) -2.0 * (wall_mm)) * 1e-3                           \
  }

/* ASTM D1785, Table 1 (outside diameters) and Table 2 (minimum walls), inches as printed. */
static const PipeDimensions schedule_40[] = {
    INCH_SIZE (0.125, 0.405, 0.068), INCH_SIZE (0.25, 0.540, 0.088),  INCH_SIZE (0.375, 0.675, 0.091),
    INCH_SIZE (0.5, 0.840, 0.109),   INCH_SIZE (0.75, 1.050, 0.113),  INCH_SIZE (1.0, 1.315, 0.133),
    INCH_SIZE (1.25, 1.660, 0.140),  INCH_SIZE (1.5, 1.900, 0.145),   INCH_SIZE (2.0, 2.375, 0.154),
    INCH_SIZE (2.5, 2.875, 0.203),   INCH_SIZE (3.0, 3.500, 0.216),   INCH_SIZE (3.5, 4.000, 0.226),
    INCH_SIZE (4.0, 4.500, 0.237),   INCH_SIZE (5.0, 5.563, 0.258),   INCH_SIZE (6.0, 6.625, 0.280),
    INCH_SIZE (8.0, 8.625, 0.322),   INCH_SIZE (10.0, 10.750, 0.365), INCH_SIZE (12.0, 12.750, 0.406),
};

static const PipeDimensions schedule_80[] = {
    INCH_SIZE (0.125, 0.405, 0.095), INCH_SIZE (0.25, 0.540, 0.119),  INCH_SIZE (0.375, 0.675, 0.126),
    INCH_SIZE (0.5, 0.840, 0.147),   INCH_SIZE (0.75, 1.050, 0.154),  INCH_SIZE (1.0, 1.315, 0.179),
    INCH_SIZE (1.25, 1.660, 0.191),  INCH_SIZE (1.5, 1.900, 0.200),   INCH_SIZE (2.0, 2.375, 0.218),
    INCH_SIZE (2.5, 2.875, 0.276),   INCH_SIZE (3.0, 3.500, 0.300),   INCH_SIZE (3.5, 4.000, 0.318),
    INCH_SIZE (4.0, 4.500, 0.337),   INCH_SIZE (5.0, 5.563, 0.375),   INCH_SIZE (6.0, 6.625, 0.432),
    INCH_SIZE (8.0, 8.625, 0.500),   INCH_SIZE (10.0, 10.750, 0.593), INCH_SIZE (12.0, 12.750, 0.687),
};

/* EN ISO 1452-2:2009, Table 2 (nominal walls, mm). */
static const PipeDimensions sdr_21[] = {
    METRIC_SIZE (25.0, 1.5),  METRIC_SIZE (32.0, 1.6),  METRIC_SIZE (40.0, 1.9),  METRIC_SIZE (50.0, 2.4),
    METRIC_SIZE (63.0, 3.0),  METRIC_SIZE (75.0, 3.6),  METRIC_SIZE (90.0, 4.3),  METRIC_SIZE (110.0, 5.3),
    METRIC_SIZE (125.0, 6.0), METRIC_SIZE (140.0, 6.7), METRIC_SIZE (160.0, 7.7),
};

static const PipeDimensions sdr_13_6[] = {
    METRIC_SIZE (20.0, 1.5),  METRIC_SIZE (25.0, 1.9),  METRIC_SIZE (32.0, 2.4),   METRIC_SIZE (40.0, 3.0),
    METRIC_SIZE (50.0, 3.7),  METRIC_SIZE (63.0, 4.7),  METRIC_SIZE (75.0, 5.6),   METRIC_SIZE (90.0, 6.7),
    METRIC_SIZE (110.0, 8.1), METRIC_SIZE (125.0, 9.2), METRIC_SIZE (140.0, 10.3), METRIC_SIZE (160.0, 11.8),
};

typedef struct {
  double nominal, depth_m;
} Socket;

/* ASTM D2466 and ASTM D2467, minimum socket length, inches as printed. */
static const Socket d2466[] = {
    {0.5, 0.688 * 0.0254}, {0.75, 0.719 * 0.0254}, {1.0, 0.875 * 0.0254}, {1.25, 0.938 * 0.0254},
    {1.5, 1.094 * 0.0254}, {2.0, 1.156 * 0.0254},  {2.5, 1.750 * 0.0254}, {3.0, 1.875 * 0.0254},
    {4.0, 2.000 * 0.0254}, {6.0, 3.000 * 0.0254},  {8.0, 4.000 * 0.0254},
};

static const Socket d2467[] = {
    {0.5, 0.875 * 0.0254}, {0.75, 1.000 * 0.0254}, {1.0, 1.125 * 0.0254}, {1.25, 1.250 * 0.0254},
    {1.5, 1.375 * 0.0254}, {2.0, 1.500 * 0.0254},  {2.5, 1.750 * 0.0254}, {3.0, 1.875 * 0.0254},
    {4.0, 2.250 * 0.0254}, {6.0, 3.000 * 0.0254},  {8.0, 4.000 * 0.0254},
};

#define WORDS_MEMBER(member, standard, series) {standard, series},
static const struct {
  const char *standard, *series;
} pipe_words[] = {PIPE_SERIES (WORDS_MEMBER)}, socket_words[] = {SOCKET_SERIES (WORDS_MEMBER)};
#undef WORDS_MEMBER

HydraulicsStatus
pipe_series_from_key (const char *standard, const char *series, PipeSeries *ret_series)
{
  for (guint i = 0; i < N_PIPE_SERIES; i++) {
    if (strcmp (pipe_words[i].standard, standard) == 0 && strcmp (pipe_words[i].series, series) == 0) {
      *ret_series = (PipeSeries) i;
      return HYDRAULICS_OK;
    }
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

const char *
pipe_series_standard (PipeSeries series)
{
  return series < N_PIPE_SERIES ? pipe_words[series].standard : NULL;
}

const char *
pipe_series_key (PipeSeries series)
{
  return series < N_PIPE_SERIES ? pipe_words[series].series : NULL;
}

const PipeDimensions *
pipe_series_sizes (PipeSeries series, guint *ret_count)
{
  static const struct {
    const PipeDimensions *sizes;
    guint count;
  } tables[N_PIPE_SERIES] = {
      [PIPE_ASTM_D1785_SCHEDULE_40] = {schedule_40, G_N_ELEMENTS (schedule_40)},
      [PIPE_ASTM_D1785_SCHEDULE_80] = {schedule_80, G_N_ELEMENTS (schedule_80)},
      [PIPE_ISO_1452_SDR_21] = {sdr_21, G_N_ELEMENTS (sdr_21)},
      [PIPE_ISO_1452_SDR_13_6] = {sdr_13_6, G_N_ELEMENTS (sdr_13_6)},
  };

  if (series >= N_PIPE_SERIES) {
    *ret_count = 0;
    return NULL;
  }
  *ret_count = tables[series].count;
  return tables[series].sizes;
}

static bool
same_nominal (double a, double b)
{
  return fabs (a - b) <= 1e-6;
}

HydraulicsStatus
pipe_size (PipeSeries series, double nominal, PipeDimensions *ret_size)
{
  guint count;
  const PipeDimensions *sizes = pipe_series_sizes (series, &count);

  if (sizes == NULL || !isfinite (nominal))
    return HYDRAULICS_INVALID_ARGUMENT;
  for (guint i = 0; i < count; i++) {
    if (same_nominal (sizes[i].nominal, nominal)) {
      *ret_size = sizes[i];
      return HYDRAULICS_OK;
    }
  }
  return HYDRAULICS_OUT_OF_RANGE;
}

HydraulicsStatus
socket_series_from_key (const char *standard, const char *series, SocketSeries *ret_series)
{
  for (guint i = 0; i < N_SOCKET_SERIES; i++) {
    if (strcmp (socket_words[i].standard, standard) == 0 && strcmp (socket_words[i].series, series) == 0) {
      *ret_series = (SocketSeries) i;
      return HYDRAULICS_OK;
    }
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

const char *
socket_series_standard (SocketSeries series)
{
  return series < N_SOCKET_SERIES ? socket_words[series].standard : NULL;
}

const char *
socket_series_key (SocketSeries series)
{
  return series < N_SOCKET_SERIES ? socket_words[series].series : NULL;
}

SocketSeries
socket_series_for_pipe (PipeSeries series)
{
  switch (series) {
  case PIPE_ASTM_D1785_SCHEDULE_40:
    return SOCKET_ASTM_D2466_SCHEDULE_40;
  case PIPE_ASTM_D1785_SCHEDULE_80:
    return SOCKET_ASTM_D2467_SCHEDULE_80;
  case PIPE_ISO_1452_SDR_21:
  case PIPE_ISO_1452_SDR_13_6:
  case N_PIPE_SERIES:
    break;
  }
  return SOCKET_ISO_727_PVC_U;
}

/* The nominal outside diameters for which ISO 727-1 gives sockets, mm. */
static const double iso_727_sizes[] = {12.0, 16.0, 20.0, 25.0,  32.0,  40.0,  50.0,
                                       63.0, 75.0, 90.0, 110.0, 125.0, 140.0, 160.0};

static HydraulicsStatus
socket_depth_in (const Socket *sockets, guint count, double nominal, double *ret_depth_m)
{
  for (guint i = 0; i < count; i++) {
    if (same_nominal (sockets[i].nominal, nominal)) {
      *ret_depth_m = sockets[i].depth_m;
      return HYDRAULICS_OK;
    }
  }
  return HYDRAULICS_OUT_OF_RANGE;
}

HydraulicsStatus
socket_depth (SocketSeries series, double nominal, double *ret_depth_m)
{
  if (!isfinite (nominal))
    return HYDRAULICS_INVALID_ARGUMENT;
  switch (series) {
  case SOCKET_ASTM_D2466_SCHEDULE_40:
    return socket_depth_in (d2466, G_N_ELEMENTS (d2466), nominal, ret_depth_m);
  case SOCKET_ASTM_D2467_SCHEDULE_80:
    return socket_depth_in (d2467, G_N_ELEMENTS (d2467), nominal, ret_depth_m);
  case SOCKET_ISO_727_PVC_U:
    for (guint i = 0; i < G_N_ELEMENTS (iso_727_sizes); i++) {
      if (same_nominal (iso_727_sizes[i], nominal)) {
        *ret_depth_m = (0.5 * iso_727_sizes[i] + 6.0) * 1e-3;
        return HYDRAULICS_OK;
      }
    }
    return HYDRAULICS_OUT_OF_RANGE;
  case N_SOCKET_SERIES:
    break;
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}
