/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Findings in words: a title, one sentence with number, limit and margin, what it means, and what would mend it. */
#pragma once

#include "report/words.h"

/* A short heading of a check ("Sump floods when the power fails"), translated. */
const char *finding_title (CheckId check);

/* One sentence with number, limit and margin. */
char *finding_sentence (const Design *design, const Finding *finding, const NumberStyle *style);

/* What it means for the owner, and what would mend it in general, translated; "" where there is nothing to add. */
const char *finding_meaning (CheckId check);
const char *finding_advice (CheckId check);

/* The remedy as an order ("Set the crest height of Overflow to 540 mm."), or NULL where no single field mends it. */
char *finding_remedy (const Design *design, const Catalogue *catalogue, const Finding *finding,
                      const NumberStyle *style);
