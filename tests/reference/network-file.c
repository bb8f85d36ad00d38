/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "network-file.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

static guint
index_of (const GPtrArray *names, const char *name)
{
  for (guint i = 0; name != NULL && i < names->len; i++) {
    if (strcmp (g_ptr_array_index (names, i), name) == 0)
      return i;
  }
  return NETWORK_NONE;
}

guint
network_file_node (const NetworkFile *file, const char *name)
{
  return index_of (file->node_names, name);
}

guint
network_file_link (const NetworkFile *file, const char *name)
{
  return index_of (file->link_names, name);
}

void
network_file_free (NetworkFile *file)
{
  if (file == NULL)
    return;
  network_free (file->network);
  g_ptr_array_unref (file->node_names);
  g_ptr_array_unref (file->link_names);
  g_free (file);
}

static const char *
word (JsonObject *object, const char *key)
{
  return json_object_get_string_member_with_default (object, key, "");
}

static double
number (JsonObject *object, const char *key)
{
  return json_object_get_double_member_with_default (object, key, NAN);
}

static NetworkNode
read_node (NetworkFile *file, JsonObject *object)
{
  g_ptr_array_add (file->node_names, g_strdup (word (object, "name")));
  if (strcmp (word (object, "type"), "level") == 0)
    return (NetworkNode){.kind = NETWORK_LEVEL, .level_m = number (object, "level_m")};
  return (NetworkNode){.kind = NETWORK_JUNCTION};
}

/* "No pump runs backwards": a pump has a check valve of its own in these files. */
static NetworkLink
read_link (NetworkFile *file, JsonObject *object)
{
  guint from = network_file_node (file, word (object, "from")),
        to = network_file_node (file, word (object, "to"));
  NetworkLink link;

  g_ptr_array_add (file->link_names, g_strdup (word (object, "name")));
  if (strcmp (word (object, "type"), "pump") == 0) {
    JsonArray *curve = json_object_get_array_member (object, "curve");
    PumpCurve law = {0};
    pump_curve_from_power_law (json_array_get_double_element (curve, 0),
                               json_array_get_double_element (curve, 1),
                               json_array_get_double_element (curve, 2), &law);
    link = network_link_pump (from, to, &law, number (object, "speed"), 1.0);
    link.check = true;
    return link;
  }
  link = network_link_pipe (from, to, number (object, "length_m"), number (object, "inside_diameter_m"),
                            number (object, "roughness_m"), number (object, "k"));
  link.check = json_object_get_boolean_member_with_default (object, "check", FALSE);
  return link;
}

static HydraulicsStatus
read_network (NetworkFile *file, JsonObject *root)
{
  JsonArray *nodes = json_object_get_array_member (root, "nodes");
  JsonArray *links = json_object_get_array_member (root, "links");
  JsonObject *fluid_object = json_object_get_object_member (root, "fluid");
  guint n_nodes = json_array_get_length (nodes), n_links = json_array_get_length (links);
  g_autofree NetworkNode *node = g_new (NetworkNode, n_nodes);
  g_autofree NetworkLink *link = g_new (NetworkLink, n_links);
  Fluid fluid = {.density_kgm3 = number (fluid_object, "density_kg_per_m3"),
                 .dynamic_viscosity_pas = number (fluid_object, "dynamic_viscosity_pa_s")};

  for (guint i = 0; i < n_nodes; i++)
    node[i] = read_node (file, json_array_get_object_element (nodes, i));
  for (guint i = 0; i < n_links; i++)
    link[i] = read_link (file, json_array_get_object_element (links, i));
  return network_new (node, n_nodes, link, n_links, NULL, 0, &fluid, &file->network, NULL);
}

NetworkFile *
network_file_read (const char *path, char **ret_complaint)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (NetworkFile) file = g_new0 (NetworkFile, 1);

  file->node_names = g_ptr_array_new_with_free_func (g_free);
  file->link_names = g_ptr_array_new_with_free_func (g_free);
  if (!json_parser_load_from_file (parser, path, &error)) {
    *ret_complaint = g_strdup (error->message);
    return NULL;
  }
  HydraulicsStatus status = read_network (file, json_node_get_object (json_parser_get_root (parser)));
  if (status != HYDRAULICS_OK) {
    *ret_complaint = g_strdup (hydraulics_status_text (status));
    return NULL;
  }
  return g_steal_pointer (&file);
}
