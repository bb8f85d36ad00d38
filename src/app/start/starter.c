/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/start/starter.h"

#include "design/choices.h"
#include "files/document.h"
#include "files/resource-data.h"

#define INCH_M 0.0254

ProposalRequest
starter_request (gboolean us)
{
  if (us)
    return (ProposalRequest){.tank_m = {60 * INCH_M, 24 * INCH_M, 24 * INCH_M},
                             .stand_m = {57 * INCH_M, 22 * INCH_M, 32 * INCH_M},
                             .us = true};
  return (ProposalRequest){.tank_m = {1.5, 0.6, 0.6}, .stand_m = {1.45, 0.55, 0.8}, .us = false};
}

static Project *
built_in (const char *path, GError **error)
{
  g_autoptr (GBytes) bytes = resource_data (path);

  return document_from_bytes (bytes, path, error);
}

Project *
starter_project (Catalogue *catalogue, GSettings *settings)
{
  const gboolean us = settings != NULL && g_settings_get_enum (settings, "units") == UNITS_CHOICE_US;
  g_autoptr (GError) error = NULL;
  Project *project = built_in (us ? RESOURCE_STARTER_US : RESOURCE_STARTER_METRIC, NULL);

  if (project == NULL)
    project = built_in (RESOURCE_DEMO_SOUND, &error);
  if (project == NULL) /* a mistake of the build, not of the user */
    g_error ("%s", error->message);
  return project;
}
