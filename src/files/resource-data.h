/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The data that is built into the program: schema, catalogues, demo designs (resources/resources.gresource.xml). */
#pragma once

#include <glib.h>

#define RESOURCE_PREFIX      "/io/github/downcomer/Downcomer/"
#define RESOURCE_SCHEMA      RESOURCE_PREFIX "downcomer.rng"
#define RESOURCE_PIPES       RESOURCE_PREFIX "catalogue/pipes.xml"
#define RESOURCE_FITTINGS    RESOURCE_PREFIX "catalogue/fittings.xml"
#define RESOURCE_PUMPS       RESOURCE_PREFIX "catalogue/pumps.xml"
#define RESOURCE_DEMO_SOUND  RESOURCE_PREFIX "demo/sound.downcomer"
#define RESOURCE_DEMO_FAULTY RESOURCE_PREFIX "demo/faulty.downcomer"
/* What a new window begins with; see app/starter.h. */
#define RESOURCE_STARTER_METRIC RESOURCE_PREFIX "demo/starter-metric.downcomer"
#define RESOURCE_STARTER_US     RESOURCE_PREFIX "demo/starter-us.downcomer"

/* The bytes of a built-in file; a path that is not built in is a mistake of the caller and ends the program. */
GBytes *resource_data (const char *path);
