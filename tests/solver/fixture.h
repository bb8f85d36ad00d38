/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Designs and a small catalogue for the tests of the solver: a sound system of a 1500 x 600 x 600 mm tank with an inside
 * box, throttled siphon, trickle channel and dry emergency, and a 40 W pump. Everything in it is invented. */
#pragma once

#include "solver/system.h"
#include "tests/design/must.h"

Catalogue *fixture_catalogue (void);

/* The sound system as a draft to be changed, and committed. */
Draft *fixture_draft (void);
Design *fixture_commit (Draft *draft);

/* More of a kind, added to the sound draft. */
void fixture_add_second_overflow (Draft *draft);
void fixture_add_second_tank (Draft *draft);
void fixture_add_fed_device (Draft *draft); /* a reactor on a branch from a tee in the return run */

/* The least well-formed design: every field unknown. */
Draft *fixture_bare_draft (void);

/* Evaluates what the draft holds; consumes the draft. */
Evaluation *fixture_evaluate (Draft *draft);
Evaluation *fixture_evaluate_traced (Draft *draft, Trace *trace);

/* Compiles what the draft holds; consumes the draft. Free with system_free. */
System *fixture_compile (Draft *draft);

/* Index of a part of the sound design by its key. */
int fixture_part (const char *key);

/* Prints every finding of an evaluation as a test message. */
void fixture_show (const Evaluation *evaluation);
