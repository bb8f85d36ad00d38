/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A fragment: devices, fittings, drains and outlets copied out of a design, as an immutable, reference-counted value. It is
 * pasted into any design, the same or another; what it owns (corners, fittings) comes with it. */
#pragma once

#include "design/edit.h"

typedef struct _Fragment Fragment;

/* Copies the parts of these keys that can be copied (devices, fittings, drains, outlets), in the order given, at most
 * MAX_FRAGMENT_PARTS; a fitting of a drain that is copied too comes with the drain. NULL where none can be. */
#define MAX_FRAGMENT_PARTS 100
Fragment *fragment_new (Design *design, const char *const *keys, unsigned n);
Fragment *fragment_ref (Fragment *fragment);
void fragment_unref (Fragment *fragment);

/* The number of parts that a paste makes, without what they own. */
unsigned fragment_n_parts (const Fragment *fragment);

/* The design with the fragment in it. Each part goes to `target` where that may own it (or owns what may, as the owner of
 * a selected drain), else to where it was, else to the first that may own it. A device stands in the widest gap of its
 * chamber; a drain hangs in the widest gap of its box and leads to its chamber; a fitting keeps its place, aside from the
 * one it was copied from; an outlet is fed by a tee in the run of its tank.
 * `ret_keys` (may be NULL): the new parts, NULL-terminated, to be freed with g_strfreev. NULL with the problem, and
 * nothing in `ret_keys`, where one of them is refused. */
Design *fragment_paste (const Fragment *fragment, const Design *design, const char *target, char ***ret_keys,
                        Problem *ret_problem);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Fragment, fragment_unref)
