/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Edits as a user might make them in any order, by GLib's seeded generator. */
#pragma once

#include "design/edit.h"

/* One edit of several parts, of a kind and with values by chance, about the part with this key; most parts refuse most
 * edits. As the functions of design/edit.h: the new design, or NULL with the problem; `ret_key` is the new part. */
Design *random_edit (const Design *design, const char *key, char *ret_key, Problem *ret_problem);
