/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The sizes that a pipe can be had in: those of the catalogue with the same walls, from the thinnest to the thickest. */
#pragma once

#include "design/catalogue.h"

/* Bytes of a size's key that name its series: those of "sch40-" in "sch40-1-1/2", 0 where there are none. */
gsize pipe_series_length (const char *key);

/* The series of a key (may be NULL), by rising bore. Array of const PipeSize *, which the catalogue owns; empty where the
 * key is not in the catalogue. Free with g_ptr_array_unref. */
GPtrArray *pipe_series (const Catalogue *catalogue, const char *key);

/* The size `steps` further up (below 0: down) in the series of a key; NULL beyond its ends, or where the key is unknown. */
const PipeSize *pipe_series_step (const Catalogue *catalogue, const char *key, int steps);
