/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pipe sizes as people write them: "1 1/2", `1-1/2"`, "50 mm", "sch80 1". Only a size field reads text so. */
#pragma once

#include "design/catalogue.h"

/* The size that a text names: by key, by name, or by its nominal size. Of several series with that nominal size the one
 * of `now` (a key, may be NULL) is taken; where that does not settle it, NULL, and `ret_choices` (newly allocated, always
 * set) lists the keys it could be, "" where there are none. */
const PipeSize *pipe_text_find (const Catalogue *catalogue, const char *text, const char *now,
                                char **ret_choices);
