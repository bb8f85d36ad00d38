/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/difference.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "units/parse.h"

char *
difference_option_name (const Project *project, unsigned option)
{
  const char *label = project_option_label (project, option);

  return label != NULL ? g_strdup (label) : g_strdup_printf (_ ("Option %u"), option + 1);
}

static void
row_free (void *data)
{
  DifferenceRow *row = data;

  g_free (row->path);
  g_free (row->what);
  g_free (row->before);
  g_free (row->after);
  g_free (row);
}

/* Takes all texts. */
static void
add_row (GPtrArray *rows, DifferenceKind kind, char *path, char *what, char *before, char *after)
{
  DifferenceRow *row = g_new (DifferenceRow, 1);

  *row = (DifferenceRow){.kind = kind, .path = path, .what = what, .before = before, .after = after};
  g_ptr_array_add (rows, row);
}

static char *
what_of (const Design *design, const Part *part, const char *field)
{
  g_autofree char *name = words_part (design, part);

  return words_fill (_ ("{part}: {field}"), "part", name, "field", field, NULL);
}

static bool
value_equal (const Part *a, const Part *b, FieldId field)
{
  const FieldValue x = part_value (a, field), y = part_value (b, field);

  return x.given == y.given && x.number == y.number && g_strcmp0 (x.text, y.text) == 0;
}

static char *
value_words (const Design *design, const Catalogue *catalogue, const Part *part, FieldId field,
             const NumberStyle *style)
{
  char *value = words_value (design, catalogue, part, field, style);

  if (!part_is_given (part, field)) {
    char *assumed = words_fill (_ ("{value} (assumed)"), "value", value, NULL);

    g_free (value);
    return assumed;
  }
  return value;
}

static char *
text_or_none (const char *text)
{
  return g_strdup (text != NULL ? text : _ ("no name"));
}

static void
compare_part (GPtrArray *rows, const Design *before, const Part *a, const Design *after, const Part *b,
              const Catalogue *catalogue, const NumberStyle *style)
{
  const PartKind kind = part_kind (b);

  if (g_strcmp0 (part_label (a), part_label (b)) != 0)
    add_row (rows, DIFFERENCE_CHANGED, g_strdup (part_key (b)), what_of (after, b, _ ("name")),
             text_or_none (part_label (a)), text_or_none (part_label (b)));
  if (g_strcmp0 (part_owner (a), part_owner (b)) != 0)
    add_row (rows, DIFFERENCE_CHANGED, g_strdup (part_key (b)), what_of (after, b, _ ("belongs to")),
             words_part (before, design_owner (before, a)), words_part (after, design_owner (after, b)));
  for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++)
    if (!value_equal (a, b, id))
      add_row (rows, DIFFERENCE_CHANGED, g_strconcat (part_key (b), ".", field_info (id)->name, NULL),
               what_of (after, b, words_field (id)), value_words (before, catalogue, a, id, style),
               value_words (after, catalogue, b, id, style));
}

/* The part of the same key and kind in the other design, or NULL. */
static const Part *
counterpart (const Design *design, const Part *part)
{
  const Part *other = design_find (design, part_key (part));

  return other != NULL && part_kind (other) == part_kind (part) ? other : NULL;
}

/* Whether a part that the other design lacks is told of by that of its owner. */
static bool
owner_is_told (const Design *design, const Part *part, const Design *other)
{
  const Part *owner = design_owner (design, part);

  return owner != NULL && counterpart (other, owner) == NULL;
}

/* Parts of a kind that both have, in the order of one of them: by their labels or keys, as a name without label is that of
 * a place. */
static char *
order_words (const Design *design, const Design *other, PartKind kind, GString *keys)
{
  GString *names = g_string_new (NULL);

  for (unsigned i = 0; i < design_count (design, kind); i++) {
    const Part *part = design_nth (design, kind, i);

    if (counterpart (other, part) == NULL)
      continue;
    g_string_append_printf (names, "%s%s", names->len > 0 ? " · " : "",
                            part_label (part) != NULL ? part_label (part) : part_key (part));
    g_string_append_printf (keys, "%s ", part_key (part));
  }
  return g_string_free (names, FALSE);
}

static void
compare_order (GPtrArray *rows, const Design *before, const Design *after, PartKind kind)
{
  g_autoptr (GString) keys_before = g_string_new (NULL);
  g_autoptr (GString) keys_after = g_string_new (NULL);
  g_autofree char *a = order_words (before, after, kind, keys_before);
  g_autofree char *b = order_words (after, before, kind, keys_after);

  if (!g_string_equal (keys_before, keys_after))
    add_row (
        rows, DIFFERENCE_CHANGED, g_strdup (part_kind_word (kind)),
        words_fill (_ ("{part}: {field}"), "part", _ (part_kind_name (kind)), "field", _ ("order"), NULL),
        g_steal_pointer (&a), g_steal_pointer (&b));
}

GPtrArray *
difference_list (const Design *before, const Design *after, const Catalogue *catalogue,
                 const NumberStyle *style)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (row_free);

  for (unsigned i = 0; i < design_n_parts (after); i++) {
    const Part *part = design_part (after, i), *was = counterpart (before, part);

    if (was != NULL)
      compare_part (rows, before, was, after, part, catalogue, style);
    else if (!owner_is_told (after, part, before))
      add_row (rows, DIFFERENCE_ADDED, g_strdup (part_key (part)), words_part (after, part),
               g_strdup (_ ("not there")), g_strdup (_ ("there")));
  }
  for (unsigned i = 0; i < design_n_parts (before); i++) {
    const Part *part = design_part (before, i);

    if (counterpart (after, part) == NULL && !owner_is_told (before, part, after))
      add_row (rows, DIFFERENCE_REMOVED, g_strdup (part_key (part)), words_part (before, part),
               g_strdup (_ ("there")), g_strdup (_ ("not there")));
  }
  for (PartKind kind = 0; kind < N_PART_KINDS; kind++)
    compare_order (rows, before, after, kind);
  return rows;
}

/* Effects */

typedef enum { AS_QUANTITY, AS_PERCENT, AS_COUNT } EffectForm;

typedef struct {
  const char *word, *name;
  EffectForm form;
  Quantity quantity;
  int wanted; /* +1: more is better, -1: less is, 0: that depends */
  double value;
} Figure;

#define N_FIGURES 12

static void
figures_of (const Evaluation *evaluation, Figure ret_figures[N_FIGURES])
{
  static const Evaluation none;
  const Evaluation *e = evaluation != NULL ? evaluation : &none;
  const Totals *t = &e->totals;
  const DrainBack *back = &e->drain_back;
  const Figure figures[N_FIGURES] = {
      {"flow_m3_per_s", _ ("Flow returned to the display"), AS_QUANTITY, QUANTITY_FLOW, 0, t->flow_m3s},
      {"turnover_per_h", _ ("Turnover"), AS_QUANTITY, QUANTITY_TURNOVER, 0, t->turnover_per_h},
      {"drain_margin", _ ("Drain margin"), AS_PERCENT, QUANTITY_NONE, 1, t->drain_margin},
      {"flood_margin_m", _ ("Margin of the flood test"), AS_QUANTITY, QUANTITY_LENGTH, 1, t->flood_margin_m},
      {"freeboard_m", _ ("Freeboard of the display"), AS_QUANTITY, QUANTITY_LENGTH, 1, t->freeboard_m},
      {"drain_back_margin_m3", _ ("Room left in the sump after drain-back"), AS_QUANTITY, QUANTITY_VOLUME, 1,
       back->free_m3 - back->total_m3},
      {"sump_freeboard_m", _ ("Freeboard of the sump after a power cut"), AS_QUANTITY, QUANTITY_LENGTH, 1,
       back->freeboard_m},
      {"return_velocity_m_per_s", _ ("Largest velocity in the return"), AS_QUANTITY, QUANTITY_VELOCITY, 0,
       t->return_velocity_ms},
      {"pump_power_w", _ ("Electric power of the return"), AS_QUANTITY, QUANTITY_POWER, -1, t->pump_power_w},
      {"yearly_cost", _ ("Cost of a year"), AS_QUANTITY, QUANTITY_MONEY, -1, t->yearly_cost},
      {"stops", _ ("Stop findings"), AS_COUNT, QUANTITY_COUNT, -1, evaluation_count (e, GRADE_STOP)},
      {"cautions", _ ("Caution findings"), AS_COUNT, QUANTITY_COUNT, -1,
       evaluation_count (e, GRADE_CAUTION)}};

  for (unsigned i = 0; i < N_FIGURES; i++) {
    ret_figures[i] = figures[i];
    if (evaluation == NULL)
      ret_figures[i].value = NAN;
  }
}

static char *
figure_text (const Figure *figure, double value, const NumberStyle *style)
{
  if (!isfinite (value))
    return g_strdup (UNITS_NO_VALUE);
  if (figure->form == AS_COUNT)
    return g_strdup_printf ("%.0f", value);
  if (figure->form == AS_PERCENT)
    return g_strdup_printf ("%.0f" UNITS_SPACE "%%", value * 100);
  return units_format (value, figure->quantity, style, NULL, UNITS_MEASURE);
}

static void
effect_free (void *data)
{
  DifferenceEffect *effect = data;

  g_free (effect->before);
  g_free (effect->after);
  g_free (effect->change);
  g_free (effect);
}

/* The value as it is written, so that a change is that of the two numbers beside it. */
static double
as_written (const Figure *figure, const char *text, const NumberStyle *style)
{
  double value = figure->value;

  if (figure->form == AS_PERCENT)
    value = round (value * 100) / 100;
  else if (figure->form == AS_QUANTITY && isfinite (value))
    units_parse (text, figure->quantity, style, NULL, &value, NULL);
  return value;
}

static DifferenceEffect *
effect_of (const Figure *a, const Figure *b, const NumberStyle *style)
{
  DifferenceEffect *effect = g_new0 (DifferenceEffect, 1);
  g_autofree char *size = NULL;
  double change;

  *effect = (DifferenceEffect){.word = b->word,
                               .name = b->name,
                               .before_si = a->value,
                               .after_si = b->value,
                               .before = figure_text (a, a->value, style),
                               .after = figure_text (b, b->value, style)};
  change = as_written (b, effect->after, style) - as_written (a, effect->before, style);
  size = figure_text (b, fabs (change), style);
  if (!isfinite (change) || g_str_equal (effect->before, effect->after)) {
    effect->change = g_strdup ("");
    return effect;
  }
  effect->change = g_strconcat (change > 0 ? "+" : "\u2212", size, NULL);
  if (b->wanted != 0)
    effect->sense = (change > 0) == (b->wanted > 0) ? EFFECT_BETTER : EFFECT_WORSE;
  return effect;
}

GPtrArray *
difference_effects (const Evaluation *before, const Evaluation *after, const NumberStyle *style)
{
  GPtrArray *effects = g_ptr_array_new_with_free_func (effect_free);
  Figure a[N_FIGURES], b[N_FIGURES];

  figures_of (before, a);
  figures_of (after, b);
  for (unsigned i = 0; i < N_FIGURES; i++)
    g_ptr_array_add (effects, effect_of (&a[i], &b[i], style));
  return effects;
}

char *
difference_sentence (const GPtrArray *rows)
{
  unsigned count[3] = {0};

  for (guint i = 0; i < rows->len; i++)
    count[((const DifferenceRow *) g_ptr_array_index (rows, i))->kind]++;
  if (rows->len == 0)
    return g_strdup (_ ("The two designs are the same."));

  g_autofree char *changed =
      g_strdup_printf (ngettext ("%u value differs", "%u values differ", count[DIFFERENCE_CHANGED]),
                       count[DIFFERENCE_CHANGED]);
  g_autofree char *added = g_strdup_printf (
      ngettext ("%u part more", "%u parts more", count[DIFFERENCE_ADDED]), count[DIFFERENCE_ADDED]);
  g_autofree char *removed = g_strdup_printf (
      ngettext ("%u part fewer", "%u parts fewer", count[DIFFERENCE_REMOVED]), count[DIFFERENCE_REMOVED]);

  return g_strdup_printf ("%s · %s · %s", changed, added, removed);
}
