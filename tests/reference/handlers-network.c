/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "network-file.h"

#include "handlers.h"

static HydraulicsStatus
solved_network (Given *given, NetworkFile **ret_file)
{
  g_autofree char *path = given_path (given, "file");
  g_autofree char *complaint = NULL;
  NetworkFile *file = network_file_read (path, &complaint);

  if (file == NULL) {
    given_complain (given, "%s: %s", path, complaint);
    return HYDRAULICS_INVALID_ARGUMENT;
  }
  *ret_file = file;
  return network_solve (file->network);
}

static HydraulicsStatus
flow_in_link (Given *given, double *ret_got)
{
  g_autoptr (NetworkFile) file = NULL;
  HydraulicsStatus status = solved_network (given, &file);

  if (status == HYDRAULICS_OK)
    *ret_got = network_flow (file->network, network_file_link (file, given_word (given, "link")));
  return status;
}

static HydraulicsStatus
head_at_node (Given *given, double *ret_got)
{
  g_autoptr (NetworkFile) file = NULL;
  HydraulicsStatus status = solved_network (given, &file);

  if (status == HYDRAULICS_OK)
    *ret_got = network_head (file->network, network_file_node (file, given_word (given, "node")));
  return status;
}

const Handler network_handlers[] = {
    {"network_flow", flow_in_link},
    {"network_head", head_at_node},
    {NULL, NULL},
};
