/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "files/resource-data.h"

#include <gio/gio.h>

#include "files/downcomer-data.h"

GBytes *
resource_data (const char *path)
{
  /* Asked by its own handle: a bundle in a static library is linked only where something refers to it. */
  GBytes *bytes =
      g_resource_lookup_data (downcomer_data_get_resource (), path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  g_assert (bytes != NULL);
  return bytes;
}
