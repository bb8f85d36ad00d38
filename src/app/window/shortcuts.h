/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The keys of the actions: one table for the application and for the test of the help overlay (ui/help-overlay.ui). */
#pragma once

#include <glib.h>

typedef struct {
  const char *action;  /* detailed name */
  const char *keys[4]; /* accelerators, ended by NULL */
} Shortcut;

/* The n-th row, or NULL after the last. */
const Shortcut *shortcut_nth (guint n);
