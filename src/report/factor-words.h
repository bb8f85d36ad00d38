/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What is uncertain, in words: the shared factors behind the bands of the margins, their size and source. */
#pragma once

#include "report/words.h"
#include "solver/band.h"

/* Name of a factor in the reader's language; never NULL. */
const char *factor_name (FactorId factor);

/* How bands come about, then one line a factor: name, ends and source. Free with g_ptr_array_unref. */
GPtrArray *factor_lines (const NumberStyle *style);
