/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a path that leads nowhere may have meant. */
#pragma once

#include "design/design.h"

/* One sentence for a path that names no field of the design: up to three near paths, and where all are listed.
 * `path` is any bytes. Newly allocated UTF-8. */
char *near_path_sentence (const Design *design, const char *path);
