/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Catalogues of pipe sizes, fittings and candidate pumps from XML in namespace urn:downcomer:catalogue:1:
 *   <catalogue> of
 *   <pipe key name standard outside inside nominal-in socket/>   <hose key name outside inside nominal-in/>
 *   <fitting key name class k cracking length/>                  <pump key name curve watts least-speed length width height/>
 * Numbers are SI with a decimal point; a loss coefficient of 0 is taken from Crane TP-410 by the class. */
#pragma once

#include "design/catalogue.h"
#include "files/files-error.h"

#define CATALOGUE_NAMESPACE "urn:downcomer:catalogue:1"

/**
 * catalogue_read:
 * @catalogue: entries are added to it; on failure those before the faulty one stay
 * @name: how sentences name the file
 * @error: as xml_guard_parse(), FILES_ERROR_BAD_STRUCTURE or _BAD_VALUE
 */
gboolean catalogue_read (Catalogue *catalogue, GBytes *bytes, const char *name, GError **error);

/* The catalogues that are built into the program. Returns: (transfer full): never NULL. */
Catalogue *catalogue_built_in (void);
