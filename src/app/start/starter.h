/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a new window begins with. */
#pragma once

#include <gio/gio.h>

#include "design/project.h"
#include "solver/proposal.h"

/* A common tank on a stand that fits it, in sizes that its units are sold in: 1.5 x 0.6 x 0.6 m, or 60 x 24 x 24 in. */
ProposalRequest starter_request (gboolean us);

/* The proposal for that request in the units of the settings (NULL: metric), newly referenced; the sound demo design
 * should it not be readable. Never NULL. It is read from the resources, where tests/app/write-starters puts it: to work it
 * out anew would take longer than all else until the first frame. */
Project *starter_project (Catalogue *catalogue, GSettings *settings);
