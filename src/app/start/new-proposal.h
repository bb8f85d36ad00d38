/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A proposal with its evaluation, and the sentence that says what is proposed or what forbids it. */
#pragma once

#include "solver/proposal.h"
#include "units/format.h"

typedef struct {
  Design *design; /* NULL where `limit` forbids one */
  Evaluation *evaluation;
  ProposalLimit limit;
} NewProposal;

/* May run in any thread. */
NewProposal *new_proposal_make (const ProposalRequest *request, Catalogue *catalogue);
void new_proposal_free (NewProposal *proposal);

char *new_proposal_words (const NewProposal *proposal, const NumberStyle *style);
