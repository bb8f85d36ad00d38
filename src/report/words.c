/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "design/choices.h"
#include "design/path.h"

const char *
words_field (FieldId field)
{
  return _ (field_info (field)->label);
}

const char *
words_help (FieldId field)
{
  return _ (field_info (field)->help);
}

const char *
words_basis (FieldId field)
{
  const char *basis = field_info (field)->basis;

  return basis[0] != '\0' ? _ (basis) : "";
}

const char *
words_choice (FieldId field, int index)
{
  return _ (field_info (field)->choices[index].name);
}

const char *
words_grade (Grade grade)
{
  switch (grade) {
  case GRADE_STOP:
    return C_ ("grade", "Stop");
  case GRADE_CAUTION:
    return C_ ("grade", "Caution");
  case GRADE_NOTE:
    return C_ ("grade", "Note");
  case N_GRADES:
  default:
    return "";
  }
}

/* Place of a part among all of its kind, from 1; 0 where it is the only one. */
static unsigned
ordinal (const Design *design, const Part *part)
{
  const PartKind kind = part_kind (part);

  if (design_count (design, kind) < 2)
    return 0;
  for (unsigned i = 0; i < design_count (design, kind); i++)
    if (design_nth (design, kind, i) == part)
      return i + 1;
  return 0;
}

/* Names of the fittings of the built-in catalogue, so that they are translated: the XML holds them in English. */
static const struct {
  const char *key, *name;
} fittings[] = {{"union", N_ ("Union")},
                {"coupling", N_ ("Coupling")},
                {"gate-valve", N_ ("Gate valve")},
                {"ball-valve", N_ ("Ball valve with unions")},
                {"diaphragm-valve", N_ ("Diaphragm valve")},
                {"check-valve", N_ ("Swing check valve")},
                {"spring-check-valve", N_ ("Spring check valve")},
                {"bulkhead", N_ ("Bulkhead")},
                {"strainer", N_ ("Slotted strainer, clean")},
                {"strainer-half", N_ ("Slotted strainer, half covered")},
                {"reducer", N_ ("Reducer, one size")},
                {"tee-run", N_ ("Tee, straight through")},
                {"hose-barb", N_ ("Hose barb")}};

const char *
words_fitting (const char *key)
{
  for (unsigned i = 0; i < G_N_ELEMENTS (fittings); i++)
    if (g_strcmp0 (fittings[i].key, key) == 0)
      return _ (fittings[i].name);
  return _ (part_kind_name (PART_FITTING));
}

/* What a part is by its own choice field, by its type, or by its kind. */
static const char *
kind_words (const Design *design, const Part *part)
{
  static const struct {
    PartKind kind;
    FieldId field;
  } by_choice[] = {{PART_DRAIN, FIELD_DRAIN_ROLE}, {PART_DEVICE, FIELD_DEVICE_KIND}};

  if (part_kind (part) == PART_FITTING)
    return words_fitting (design_text (design, part, FIELD_FITTING_TYPE));
  for (unsigned i = 0; i < G_N_ELEMENTS (by_choice); i++)
    if (part_kind (part) == by_choice[i].kind)
      return words_choice (by_choice[i].field, design_choice (design, part, by_choice[i].field));
  return _ (part_kind_name (part_kind (part)));
}

/* "Gate valve of Return run", "Corner 2 of Drain": numbered where the run has several that are called so. */
static char *
run_piece_words (const Design *design, const Part *part)
{
  g_autofree char *owner = words_part (design, design_owner (design, part));
  const char *kind = kind_words (design, part);
  const unsigned n = design_n_children (design, part_owner (part), part_kind (part));
  unsigned place = 0, alike = 0;

  for (unsigned i = 0; i < n; i++) {
    const Part *each = design_child (design, part_owner (part), part_kind (part), i);

    alike += g_str_equal (kind_words (design, each), kind);
    if (each == part)
      place = alike;
  }
  if (alike < 2)
    return g_strdup_printf (C_ ("part of a run", "%s of %s"), kind, owner);
  return g_strdup_printf (C_ ("part of a run", "%s %u of %s"), kind, place, owner);
}

/* Where drains of one role hang in several overflows: the tank of this one, or its overflow where the tank has several.
 * NULL where the role says enough. */
static const Part *
drain_place (const Design *design, const Part *drain)
{
  const Part *overflow = design_owner (design, drain);
  const char *role = kind_words (design, drain);

  for (unsigned i = 0; i < design_count (design, PART_DRAIN); i++) {
    const Part *other = design_nth (design, PART_DRAIN, i);

    if (g_strcmp0 (part_owner (other), part_owner (drain)) == 0 ||
        !g_str_equal (kind_words (design, other), role))
      continue;
    return design_n_children (design, part_owner (overflow), PART_OVERFLOW) > 1
               ? overflow
               : design_owner (design, overflow);
  }
  return NULL;
}

static bool
has_label (const Part *part)
{
  return part_label (part) != NULL && part_label (part)[0] != '\0';
}

char *
words_part_brief (const Design *design, const Part *part)
{
  if (part != NULL && part_kind (part) == PART_DRAIN && !has_label (part))
    return g_strdup (kind_words (design, part));
  return words_part (design, part);
}

/* A label, with a number where more parts of the kind have it: two pumps of one make bear its name. */
static char *
label_words (const Design *design, const Part *part)
{
  unsigned alike = 0, place = 0;

  for (unsigned i = 0; i < design_count (design, part_kind (part)); i++) {
    const Part *each = design_nth (design, part_kind (part), i);

    alike += g_strcmp0 (part_label (each), part_label (part)) == 0;
    if (each == part)
      place = alike;
  }
  return alike < 2 ? g_strdup (part_label (part))
                   : g_strdup_printf (C_ ("one of several", "%s (%u)"), part_label (part), place);
}

char *
words_part (const Design *design, const Part *part)
{
  unsigned number;

  if (part == NULL)
    return g_strdup (_ ("The system"));
  if (has_label (part))
    return label_words (design, part);
  number = ordinal (design, part);
  if (part_kind (part) == PART_CHAMBER)
    return g_strdup_printf (
        _ ("Chamber %u, %s"), MAX (number, 1),
        words_choice (FIELD_CHAMBER_ROLE, design_choice (design, part, FIELD_CHAMBER_ROLE)));
  if (part_kind (part) == PART_CORNER || part_kind (part) == PART_FITTING)
    return run_piece_words (design, part);
  if (part_kind (part) == PART_DRAIN) {
    const Part *place = drain_place (design, part);
    g_autofree char *where = place != NULL ? words_part (design, place) : NULL;

    if (where == NULL)
      return g_strdup (kind_words (design, part));
    /* Translators: a drain by its role, and the tank or overflow that it drains. */
    return g_strdup_printf (C_ ("drain of a tank", "%s of %s"), kind_words (design, part), where);
  }
  if (number == 0)
    return g_strdup (kind_words (design, part));
  return g_strdup_printf (C_ ("numbered part", "%s %u"), kind_words (design, part), number);
}

char *
words_value (const Design *design, const Catalogue *catalogue, const Part *part, FieldId field,
             const NumberStyle *style)
{
  const FieldInfo *info = field_info (field);
  const char *text = NULL;

  switch (info->type) {
  case FIELD_NUMBER:
    return units_format (design_number (design, part, field), info->quantity, style, NULL, UNITS_BUILD);
  case FIELD_CHOICE:
  case FIELD_FLAG:
    return g_strdup (words_choice (field, design_choice (design, part, field)));
  case FIELD_REF: {
    const Part *target = design_target (design, part, field);

    return target != NULL ? words_part (design, target) : g_strdup (UNITS_NO_VALUE);
  }
  case FIELD_PIPE: {
    const PipeSize *size = catalogue_find_pipe (catalogue, design_text (design, part, field));

    text = size != NULL ? size->name : NULL;
    break;
  }
  case FIELD_PART: {
    const FittingType *type = catalogue_find_fitting (catalogue, design_text (design, part, field));

    text = type != NULL ? _ (type->name) : NULL;
    break;
  }
  case FIELD_TEXT:
  case FIELD_CURVE:
  case N_FIELD_TYPES:
  default:
    break;
  }
  if (text == NULL)
    text = design_text (design, part, field);
  return g_strdup (text != NULL && text[0] != '\0' ? text : UNITS_NO_VALUE);
}

NumberStyle
words_style (const Design *design, const NumberStyle *signs)
{
  const Part *job = design_nth (design, PART_JOB, 0);
  const bool us = job != NULL && design_choice (design, job, FIELD_JOB_UNITS) == UNITS_CHOICE_US;
  NumberStyle style = number_style_from_separators (us ? UNIT_SYSTEM_US : UNIT_SYSTEM_METRIC, signs->decimal,
                                                    signs->thousands);

  g_strlcpy (style.currency, signs->currency, sizeof style.currency);
  return style;
}

static void
append_value (GString *text, const char *name, size_t length, va_list values)
{
  const char *key;

  while ((key = va_arg (values, const char *)) != NULL) {
    const char *value = va_arg (values, const char *);

    if (strlen (key) == length && strncmp (key, name, length) == 0) {
      g_string_append (text, value != NULL ? value : UNITS_NO_VALUE);
      return;
    }
  }
  g_string_append_printf (text, "{%.*s}", (int) length, name);
}

char *
words_fill (const char *sentence, ...)
{
  GString *text = g_string_new (NULL);
  const char *at = sentence;

  while (*at != '\0') {
    const char *close = *at == '{' ? strchr (at, '}') : NULL;

    if (close != NULL) {
      va_list values;

      va_start (values, sentence);
      append_value (text, at + 1, (size_t) (close - at) - 1, values);
      va_end (values);
      at = close + 1;
    } else {
      g_string_append_c (text, *at++);
    }
  }
  return g_string_free (text, FALSE);
}
