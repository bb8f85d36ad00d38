/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* "PATH=VALUE" as it is typed: numbers with a unit or bare in SI, choices and flags by word, keys, sizes, texts. */
#pragma once

#include "design/catalogue.h"
#include "design/design.h"

/* The changed design, or NULL with a sentence that says what was not understood or allowed, newly allocated. */
Design *assign_text (const Design *design, const Catalogue *catalogue, const char *assignment,
                     char **ret_sentence);
