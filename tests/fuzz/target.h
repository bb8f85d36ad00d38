/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What every fuzz target provides, by the name that libFuzzer calls. */
#pragma once

#include <glib.h>

/* Try one input of `size` bytes; aborts on a broken promise. Returns 0. */
int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);
