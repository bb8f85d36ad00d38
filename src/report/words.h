/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Words for people: what a design and its evaluation say, as sentences and texts in the reader's language and units.
 * This folder knows no drawing and no toolkit; texts are newly allocated UTF-8 unless they are const.
 * words.h names parts and fields, finding-words.h puts findings into sentences, explain.h the calculation, tables.h the
 * lists of the sheets, advice.h cautions and commissioning. */
#pragma once

#include "design/catalogue.h"
#include "design/design.h"
#include "solver/evaluation.h"
#include "units/format.h"

/* The name of a part: its label, else what it is ("Throttled siphon", "Chamber 2, skimmer"). Numbered where there are
 * several of its kind, a label too where several have it; a drain has the name of its tank where others drain in the same
 * role. `part` NULL gives "The system". */
char *words_part (const Design *design, const Part *part);

/* The same where it is seen which one is meant, as beside the part on a drawing: a drain by its role alone. */
char *words_part_brief (const Design *design, const Part *part);

/* Translated label, help and basis of a field, and the name of a grade ("Stop", "Caution", "Note"). */
const char *words_field (FieldId field);
const char *words_help (FieldId field);
const char *words_basis (FieldId field);
const char *words_grade (Grade grade);

/* Translated name of a fitting of the built-in catalogue by its key ("Gate valve"); "Fitting" for another one. */
const char *words_fitting (const char *key);

/* The name of a choice of a field by its index. */
const char *words_choice (FieldId field, int index);

/* The value of a field as a person reads it (given or assumed): with its unit, the name of its choice, the name of the
 * part or size it refers to. Never NULL. */
char *words_value (const Design *design, const Catalogue *catalogue, const Part *part, FieldId field,
                   const NumberStyle *style);

/* The number style that a design asks for (its units), with the separators of `signs`, a style of the locale. */
NumberStyle words_style (const Design *design, const NumberStyle *signs);

/* Replaces each {name} of a translated sentence by its value: names and values alternate and end with NULL. A name that
 * is not given stays as it is. */
char *words_fill (const char *sentence, ...) G_GNUC_NULL_TERMINATED;
