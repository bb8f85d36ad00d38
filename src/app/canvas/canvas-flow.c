/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/canvas/canvas-flow.h"

#include <glib/gi18n.h>

#include "design/geometry.h"
#include "report/words.h"

/* Order */

typedef struct {
  const Design *design;
  GArray *order;
  gboolean *walked; /* by index */
} Walk;

static void walk_run (Walk *walk, const Part *run);

/* False where it has been walked before. */
static gboolean
visit (Walk *walk, const Part *part)
{
  const int index = part != NULL ? design_index (walk->design, part_key (part)) : -1;

  if (index < 0 || walk->walked[index])
    return FALSE;
  walk->walked[index] = TRUE;
  g_array_append_val (walk->order, index);
  return TRUE;
}

static void
visit_children (Walk *walk, const Part *owner, PartKind kind)
{
  for (unsigned i = 0; i < design_n_children (walk->design, part_key (owner), kind); i++)
    visit (walk, design_child (walk->design, part_key (owner), kind, i));
}

static void
walk_end (Walk *walk, const Part *end)
{
  if (!visit (walk, end) || part_kind (end) != PART_TEE)
    return;
  for (unsigned i = 0; i < design_n_children (walk->design, part_key (end), PART_RETURN); i++)
    walk_run (walk, design_child (walk->design, part_key (end), PART_RETURN, i));
}

static void
walk_run (Walk *walk, const Part *run)
{
  if (!visit (walk, run))
    return;
  visit_children (walk, run, PART_FITTING);
  visit_children (walk, run, PART_CORNER);
  if (part_kind (run) == PART_RETURN)
    walk_end (walk, design_target (walk->design, run, FIELD_RETURN_TO));
}

static void
walk_tank (Walk *walk, const Part *tank)
{
  const Design *design = walk->design;

  visit (walk, tank);
  for (unsigned i = 0; i < design_n_children (design, part_key (tank), PART_OVERFLOW); i++) {
    const Part *overflow = design_child (design, part_key (tank), PART_OVERFLOW, i);

    visit (walk, overflow);
    for (unsigned k = 0; k < design_n_children (design, part_key (overflow), PART_DRAIN); k++)
      walk_run (walk, design_child (design, part_key (overflow), PART_DRAIN, k));
  }
}

static void
walk_sump (Walk *walk, const Part *sump)
{
  const Design *design = walk->design;

  visit (walk, sump);
  for (unsigned i = 0; i < design_n_children (design, part_key (sump), PART_CHAMBER); i++) {
    const Part *chamber = design_child (design, part_key (sump), PART_CHAMBER, i);

    visit (walk, chamber);
    visit_children (walk, chamber, PART_DEVICE);
    visit (walk, geometry_baffle_right (design, chamber));
  }
}

static void
walk_pump (Walk *walk, const Part *pump)
{
  visit (walk, pump);
  for (unsigned i = 0; i < design_n_children (walk->design, part_key (pump), PART_RETURN); i++)
    walk_run (walk, design_child (walk->design, part_key (pump), PART_RETURN, i));
}

GArray *
canvas_flow_order (const Design *design)
{
  g_autofree gboolean *walked = g_new0 (gboolean, design_n_parts (design) + 1);
  Walk walk = {design, g_array_new (FALSE, FALSE, sizeof (int)), walked};
  const Part *stand = design_nth (design, PART_STAND, 0);

  if (stand != NULL)
    walked[design_index (design, part_key (stand))] = TRUE; /* it holds everything: last */
  for (unsigned i = 0; i < design_count (design, PART_TANK); i++)
    walk_tank (&walk, design_nth (design, PART_TANK, i));
  for (unsigned i = 0; i < design_count (design, PART_SUMP); i++)
    walk_sump (&walk, design_nth (design, PART_SUMP, i));
  for (unsigned i = 0; i < design_count (design, PART_PUMP); i++)
    walk_pump (&walk, design_nth (design, PART_PUMP, i));
  for (unsigned i = 0; i < design_n_parts (design); i++)
    visit (&walk, design_part (design, i));
  if (stand != NULL) {
    walked[design_index (design, part_key (stand))] = FALSE;
    visit (&walk, stand);
  }
  return walk.order;
}

/* Words */

typedef struct {
  const Design *design;
  const Part *from;
  GPtrArray *to; /* of Part */
} Way;

static void
goes_to (Way *way, const Part *part)
{
  if (part != NULL)
    g_ptr_array_add (way->to, (gpointer) part);
}

static void
goes_to_children (Way *way, const Part *owner, PartKind kind)
{
  for (unsigned i = 0; i < design_n_children (way->design, part_key (owner), kind); i++)
    goes_to (way, design_child (way->design, part_key (owner), kind, i));
}

/* The run that ends at a tee, outlet or device. */
static const Part *
run_to (const Design *design, const Part *end)
{
  for (unsigned i = 0; i < design_count (design, PART_RETURN); i++)
    if (design_target (design, design_nth (design, PART_RETURN, i), FIELD_RETURN_TO) == end)
      return design_nth (design, PART_RETURN, i);
  return NULL;
}

/* The chamber on one side of a baffle. */
static const Part *
chamber_beside (const Design *design, const Part *baffle, gboolean left)
{
  for (unsigned i = 0; i < design_count (design, PART_CHAMBER); i++) {
    const Part *chamber = design_nth (design, PART_CHAMBER, i);

    if ((left ? geometry_baffle_right (design, chamber) : geometry_baffle_left (design, chamber)) == baffle)
      return chamber;
  }
  return NULL;
}

static void
chamber_way (Way *way, const Part *chamber)
{
  const Part *left = geometry_baffle_left (way->design, chamber);

  way->from = left;
  for (unsigned i = 0; left == NULL && i < design_count (way->design, PART_DRAIN); i++) {
    const Part *drain = design_nth (way->design, PART_DRAIN, i);

    if (way->from == NULL && design_target (way->design, drain, FIELD_DRAIN_TO) == chamber)
      way->from = drain;
  }
  goes_to (way, geometry_baffle_right (way->design, chamber));
  goes_to_children (way, chamber, PART_PUMP);
}

static void
find_way (Way *way, const Part *part)
{
  switch ((int) part_kind (part)) {
  case PART_TANK:
    goes_to_children (way, part, PART_OVERFLOW);
    break;
  case PART_OVERFLOW:
    way->from = design_owner (way->design, part);
    goes_to_children (way, part, PART_DRAIN);
    break;
  case PART_DRAIN:
    way->from = design_owner (way->design, part);
    goes_to (way, design_target (way->design, part, FIELD_DRAIN_TO));
    break;
  case PART_CHAMBER:
    chamber_way (way, part);
    break;
  case PART_BAFFLE:
    way->from = chamber_beside (way->design, part, TRUE);
    goes_to (way, chamber_beside (way->design, part, FALSE));
    break;
  case PART_PUMP:
    way->from = design_owner (way->design, part);
    goes_to_children (way, part, PART_RETURN);
    break;
  case PART_RETURN:
    way->from = design_owner (way->design, part);
    goes_to (way, design_target (way->design, part, FIELD_RETURN_TO));
    break;
  case PART_TEE:
    way->from = run_to (way->design, part);
    goes_to_children (way, part, PART_RETURN);
    break;
  case PART_DEVICE:
    way->from = run_to (way->design, part);
    goes_to (way, way->from != NULL ? design_owner (way->design, part) : NULL);
    break;
  case PART_OUTLET:
    way->from = run_to (way->design, part);
    goes_to (way, design_owner (way->design, part));
    break;
  default:
    break;
  }
}

char *
canvas_flow_words (const Design *design, const Part *part)
{
  g_autoptr (GPtrArray) to = g_ptr_array_new ();
  g_autoptr (GString) names = g_string_new (NULL);
  g_autofree char *from = NULL;
  Way way = {design, NULL, to};

  find_way (&way, part);
  for (guint i = 0; i < to->len; i++) {
    g_autofree char *name = words_part (design, g_ptr_array_index (to, i));

    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", name);
  }
  from = way.from != NULL ? words_part (design, way.from) : NULL;
  if (from != NULL && names->len > 0)
    return g_strdup_printf (_ ("Water comes from %s and goes to %s"), from, names->str);
  if (from != NULL)
    return g_strdup_printf (_ ("Water comes from %s"), from);
  return names->len > 0 ? g_strdup_printf (_ ("Water goes to %s"), names->str) : NULL;
}
