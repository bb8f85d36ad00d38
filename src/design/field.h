/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The field table: every kind of part and every field of it, with unit, range, default, basis and help. Inspector,
 * command line, file schema, findings and differences between options all read this one table (field-table.inc);
 * adding a field is one row there. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

#include "units/quantity.h"

typedef struct _Design Design;
typedef struct _Part Part;

/* Kinds in the order in which water and work flow through them; the same order is used in files and lists. */
#define PART_KINDS(X)                                                                                        \
  X (JOB, "job", N_ ("Job"))                                                                                 \
  X (ROOM, "room", N_ ("Room and water"))                                                                    \
  X (STAND, "stand", N_ ("Stand"))                                                                           \
  X (TANK, "tank", N_ ("Display tank"))                                                                      \
  X (OVERFLOW, "overflow", N_ ("Overflow"))                                                                  \
  X (DRAIN, "drain", N_ ("Drain"))                                                                           \
  X (SUMP, "sump", N_ ("Sump"))                                                                              \
  X (CHAMBER, "chamber", N_ ("Chamber"))                                                                     \
  X (BAFFLE, "baffle", N_ ("Baffle"))                                                                        \
  X (DEVICE, "device", N_ ("Device"))                                                                        \
  X (PUMP, "pump", N_ ("Return pump"))                                                                       \
  X (RETURN, "return", N_ ("Return run"))                                                                    \
  X (TEE, "tee", N_ ("Tee"))                                                                                 \
  X (OUTLET, "outlet", N_ ("Outlet"))                                                                        \
  X (CORNER, "corner", N_ ("Corner"))                                                                        \
  X (FITTING, "fitting", N_ ("Fitting"))                                                                     \
  X (RESERVOIR, "reservoir", N_ ("Top-off reservoir"))                                                       \
  X (CANDIDATE, "candidate", N_ ("Candidate pump"))

typedef enum {
#define X(id, word, name) PART_##id,
  PART_KINDS (X)
#undef X
      N_PART_KINDS
} PartKind;

/* What a value of the field is and how it is written. */
typedef enum {
  FIELD_NUMBER, /* a double in SI (turnover: per hour), within [min, max] */
  FIELD_CHOICE, /* one of `choices`, written as its word */
  FIELD_FLAG,   /* no or yes */
  FIELD_TEXT,   /* free text of at most MAX_TEXT_BYTES */
  FIELD_REF,    /* the key of another part of one of the kinds in `refers_to` */
  FIELD_PIPE,   /* a key of the catalogue of pipe sizes */
  FIELD_PART,   /* a key of the catalogue of fittings */
  FIELD_CURVE,  /* pump points "flow:head flow:head ..." in m3/s and m, flow rising and head not rising */
  N_FIELD_TYPES
} FieldType;

/* One choice: its word in files and on the command line, and its name for people (marked for translation). */
typedef struct {
  const char *word;
  const char *name;
} FieldChoice;

/* How the default of a numeric field (number, choice, flag) is found. */
typedef double (*FieldRule) (const Design *design, const Part *part);

/* How the default of a reference is found: the key of a part, or NULL. */
typedef const char *(*FieldTextRule) (const Design *design, const Part *part);

#define NUMBER(kind, id, ...) FIELD_##kind##_##id,
#define CHOICE(kind, id, ...) FIELD_##kind##_##id,
#define FLAG(kind, id, ...)   FIELD_##kind##_##id,
#define TEXT(kind, id, ...)   FIELD_##kind##_##id,
#define REF(kind, id, ...)    FIELD_##kind##_##id,
typedef enum {
#include "design/field-table.inc"
  N_FIELDS
} FieldId;
#undef NUMBER
#undef CHOICE
#undef FLAG
#undef TEXT
#undef REF

typedef struct {
  FieldId id;
  PartKind kind;
  FieldType type;
  const char *name;           /* word of the path: lower case with hyphens */
  const char *label;          /* for people, marked for translation */
  Quantity quantity;          /* of a number; QUANTITY_NONE otherwise */
  double min, max;            /* range of a number, inclusive */
  double fallback;            /* default where `rule` is NULL */
  FieldRule rule;             /* default that depends on earlier fields, or NULL */
  const char *fallback_text;  /* default of a text type, or NULL for none */
  FieldTextRule text_rule;    /* default of a reference, or NULL */
  const FieldChoice *choices; /* ended by a NULL word; NULL unless a choice */
  unsigned refers_to;         /* bits 1u << PartKind of a FIELD_REF */
  const char *basis;          /* where the default comes from, marked for translation */
  const char *help;           /* one sentence, marked for translation */
} FieldInfo;

/* The row of a field; never NULL for a valid id. */
const FieldInfo *field_info (FieldId id);

/* First field of a kind and the number of its fields; the ids of a kind are consecutive. */
FieldId field_first (PartKind kind);
size_t field_count (PartKind kind);

/* Looks a field up by its word within a kind. Returns false when the kind has no such field. */
bool field_find (PartKind kind, const char *name, FieldId *ret_field);

/* Index of a choice by its word, or -1. */
int field_choice_index (const FieldInfo *info, const char *word);

/* Word of a kind ("return-pump" is a key, "pump" the word of its kind) and its name for people. */
const char *part_kind_word (PartKind kind);
const char *part_kind_name (PartKind kind);
bool part_kind_find (const char *word, PartKind *ret_kind);

/* Kinds that may own a part of this kind, as bits; 0 when it stands by itself. */
unsigned part_kind_owners (PartKind kind);

/* Most parts of this kind in one design; whether a well-formed design needs at least one. */
unsigned part_kind_limit (PartKind kind);
bool part_kind_required (PartKind kind);
