/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Why no design can be proposed, as one sentence. */
#pragma once

#include "solver/proposal.h"
#include "units/format.h"

/* One sentence with the limit and what was asked; newly allocated. */
char *proposal_sentence (const ProposalLimit *limit, const NumberStyle *style);
