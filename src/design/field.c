/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/field.h"

#include <glib.h>
#include <string.h>

#include "design/choices-private.h"
#include "design/choices.h"
#include "design/field-rules.h"

#define N_(text)  text
#define BIT(kind) (1u << PART_##kind)

#define NUMBER(kind_, id_, word, label_, quantity_, least, most, default_, rule_, basis_, help_)             \
  [FIELD_##kind_##_##id_] = {.id = FIELD_##kind_##_##id_,                                                    \
                             .kind = PART_##kind_,                                                           \
                             .type = FIELD_NUMBER,                                                           \
                             .name = word,                                                                   \
                             .label = label_,                                                                \
                             .quantity = quantity_,                                                          \
                             .min = least,                                                                   \
                             .max = most,                                                                    \
                             .fallback = default_,                                                           \
                             .rule = rule_,                                                                  \
                             .basis = basis_,                                                                \
                             .help = help_},
#define CHOICE(kind_, id_, word, label_, choices_, default_, rule_, basis_, help_)                           \
  [FIELD_##kind_##_##id_] = {.id = FIELD_##kind_##_##id_,                                                    \
                             .kind = PART_##kind_,                                                           \
                             .type = FIELD_CHOICE,                                                           \
                             .name = word,                                                                   \
                             .label = label_,                                                                \
                             .choices = choices_,                                                            \
                             .fallback = default_,                                                           \
                             .rule = rule_,                                                                  \
                             .basis = basis_,                                                                \
                             .help = help_},
#define FLAG(kind_, id_, word, label_, default_, basis_, help_)                                              \
  [FIELD_##kind_##_##id_] = {.id = FIELD_##kind_##_##id_,                                                    \
                             .kind = PART_##kind_,                                                           \
                             .type = FIELD_FLAG,                                                             \
                             .name = word,                                                                   \
                             .label = label_,                                                                \
                             .choices = choices_flag,                                                        \
                             .fallback = default_,                                                           \
                             .basis = basis_,                                                                \
                             .help = help_},
#define TEXT(kind_, id_, word, label_, type_, default_, basis_, help_)                                       \
  [FIELD_##kind_##_##id_] = {.id = FIELD_##kind_##_##id_,                                                    \
                             .kind = PART_##kind_,                                                           \
                             .type = type_,                                                                  \
                             .name = word,                                                                   \
                             .label = label_,                                                                \
                             .fallback_text = default_,                                                      \
                             .basis = basis_,                                                                \
                             .help = help_},
#define REF(kind_, id_, word, label_, refers, rule_, basis_, help_)                                          \
  [FIELD_##kind_##_##id_] = {.id = FIELD_##kind_##_##id_,                                                    \
                             .kind = PART_##kind_,                                                           \
                             .type = FIELD_REF,                                                              \
                             .name = word,                                                                   \
                             .label = label_,                                                                \
                             .refers_to = refers,                                                            \
                             .text_rule = rule_,                                                             \
                             .basis = basis_,                                                                \
                             .help = help_},

static const FieldInfo fields[N_FIELDS] = {
#include "design/field-table.inc"
};

#undef NUMBER
#undef CHOICE
#undef FLAG
#undef TEXT
#undef REF

typedef struct {
  FieldId first; /* the rows of a kind follow each other in the order of PART_KINDS */
  unsigned owners;
  unsigned limit;
  bool required;
} KindInfo;

static const KindInfo kinds[N_PART_KINDS] = {
    [PART_JOB] = {.first = FIELD_JOB_TITLE, .owners = 0, .limit = 1, .required = true},
    [PART_ROOM] = {.first = FIELD_ROOM_WATER_TEMPERATURE, .owners = 0, .limit = 1, .required = true},
    [PART_STAND] = {.first = FIELD_STAND_LENGTH, .owners = 0, .limit = 1, .required = true},
    [PART_TANK] = {.first = FIELD_TANK_LENGTH, .owners = 0, .limit = 8, .required = true},
    [PART_OVERFLOW] = {.first = FIELD_OVERFLOW_KIND, .owners = BIT (TANK), .limit = 16, .required = true},
    [PART_DRAIN] = {.first = FIELD_DRAIN_ROLE, .owners = BIT (OVERFLOW), .limit = 48, .required = true},
    [PART_SUMP] = {.first = FIELD_SUMP_LENGTH, .owners = 0, .limit = 1, .required = true},
    [PART_CHAMBER] = {.first = FIELD_CHAMBER_ROLE, .owners = BIT (SUMP), .limit = 24, .required = true},
    [PART_BAFFLE] = {.first = FIELD_BAFFLE_KIND, .owners = BIT (SUMP), .limit = 23, .required = false},
    [PART_DEVICE] = {.first = FIELD_DEVICE_KIND, .owners = BIT (CHAMBER), .limit = 100, .required = false},
    [PART_PUMP] = {.first = FIELD_PUMP_CURVE, .owners = BIT (CHAMBER), .limit = 8, .required = true},
    [PART_RETURN] = {.first = FIELD_RETURN_TO,
                     .owners = BIT (PUMP) | BIT (TEE),
                     .limit = 40,
                     .required = true},
    [PART_TEE] = {.first = FIELD_TEE_X, .owners = 0, .limit = 20, .required = false},
    [PART_OUTLET] = {.first = FIELD_OUTLET_KIND, .owners = BIT (TANK), .limit = 20, .required = true},
    [PART_CORNER] = {.first = FIELD_CORNER_X,
                     .owners = BIT (DRAIN) | BIT (RETURN),
                     .limit = 600,
                     .required = false},
    [PART_FITTING] = {.first = FIELD_FITTING_TYPE,
                      .owners = BIT (DRAIN) | BIT (RETURN),
                      .limit = 400,
                      .required = false},
    [PART_RESERVOIR] = {.first = FIELD_RESERVOIR_LENGTH, .owners = 0, .limit = 1, .required = false},
    [PART_CANDIDATE] = {.first = FIELD_CANDIDATE_CURVE, .owners = 0, .limit = 100, .required = false},
};

static const char *const kind_words[N_PART_KINDS] = {
#define X(id, word, name) word,
    PART_KINDS (X)
#undef X
};

static const char *const kind_names[N_PART_KINDS] = {
#define X(id, word, name) name,
    PART_KINDS (X)
#undef X
};

const FieldInfo *
field_info (FieldId id)
{
  g_assert ((unsigned) id < N_FIELDS);
  return &fields[id];
}

FieldId
field_first (PartKind kind)
{
  g_assert ((unsigned) kind < N_PART_KINDS);
  return kinds[kind].first;
}

size_t
field_count (PartKind kind)
{
  const FieldId end = kind + 1 < N_PART_KINDS ? kinds[kind + 1].first : N_FIELDS;

  return (size_t) (end - field_first (kind));
}

bool
field_find (PartKind kind, const char *name, FieldId *ret_field)
{
  const FieldId first = field_first (kind);

  for (FieldId id = first; id < first + field_count (kind); id++)
    if (strcmp (fields[id].name, name) == 0) {
      *ret_field = id;
      return true;
    }
  return false;
}

int
field_choice_index (const FieldInfo *info, const char *word)
{
  for (int i = 0; info->choices != NULL && info->choices[i].word != NULL; i++)
    if (strcmp (info->choices[i].word, word) == 0)
      return i;
  return -1;
}

const char *
part_kind_word (PartKind kind)
{
  g_assert ((unsigned) kind < N_PART_KINDS);
  return kind_words[kind];
}

const char *
part_kind_name (PartKind kind)
{
  g_assert ((unsigned) kind < N_PART_KINDS);
  return kind_names[kind];
}

bool
part_kind_find (const char *word, PartKind *ret_kind)
{
  for (PartKind kind = 0; kind < N_PART_KINDS; kind++)
    if (strcmp (kind_words[kind], word) == 0) {
      *ret_kind = kind;
      return true;
    }
  return false;
}

unsigned
part_kind_owners (PartKind kind)
{
  g_assert ((unsigned) kind < N_PART_KINDS);
  return kinds[kind].owners;
}

unsigned
part_kind_limit (PartKind kind)
{
  g_assert ((unsigned) kind < N_PART_KINDS);
  return kinds[kind].limit;
}

bool
part_kind_required (PartKind kind)
{
  g_assert ((unsigned) kind < N_PART_KINDS);
  return kinds[kind].required;
}
