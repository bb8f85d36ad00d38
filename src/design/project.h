/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A project: one document, with the options of one job. Immutable and reference-counted like the designs in it; the
 * undo history of the window is a list of projects. */
#pragma once

#include "design/draft.h"

typedef struct _Project Project;

#define MAX_OPTIONS 50

/* A project of one option named `label` (may be NULL; a bad one gives NULL) with key "option-1". */
Project *project_new (Design *design, const char *label);

/* The same with a key of its own, as read from a file; NULL for a bad key. */
Project *project_new_with_key (Design *design, const char *key, const char *label);
Project *project_ref (Project *project);
void project_unref (Project *project);

unsigned project_n_options (const Project *project);
Design *project_design (const Project *project, unsigned option);
const char *project_option_key (const Project *project, unsigned option);
const char *project_option_label (const Project *project, unsigned option);

/* The option in work: index and its design. */
unsigned project_active (const Project *project);
Design *project_active_design (const Project *project);

/* New projects: with the active design replaced; with another option active; with an option added behind the others
 * (key NULL makes one; NULL returned for a bad or duplicate key, a bad label or too many options). */
Project *project_with_design (const Project *project, Design *design);
Project *project_with_active (const Project *project, unsigned option);
Project *project_with_option (const Project *project, const char *key, const char *label, Design *design);

/* A copy of the active option behind the others, labelled and active; NULL for a bad label or too many options. */
Project *project_with_variant (const Project *project, const char *label);

/* With another label of an option (NULL or empty: none), NULL for a bad one; without an option, NULL where it is the only
 * one (the one after it, else before it, becomes active where it was); with an option moved to another place. */
Project *project_with_label (const Project *project, unsigned option, const char *label);
Project *project_without_option (const Project *project, unsigned option);
Project *project_with_place (const Project *project, unsigned option, unsigned place);

/* The option of this key, else of this label, or -1. */
int project_find_option (const Project *project, const char *name);

bool project_equal (const Project *a, const Project *b);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Project, project_unref)
