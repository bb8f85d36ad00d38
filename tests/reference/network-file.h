/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Reads a network in the form that tables/network.md describes. */

#include "hydraulics/network.h"

#include <glib.h>

typedef struct {
  Network *network;
  GPtrArray *node_names, *link_names; /* char *, owned, by index */
} NetworkFile;

/* NULL and @ret_complaint (to be freed) if the file is not such a network. */
NetworkFile *network_file_read (const char *path, char **ret_complaint);
void network_file_free (NetworkFile *file);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (NetworkFile, network_file_free)

/* Index of a name, or NETWORK_NONE. */
guint network_file_node (const NetworkFile *file, const char *name);
guint network_file_link (const NetworkFile *file, const char *name);
