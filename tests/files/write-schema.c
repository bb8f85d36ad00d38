/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Writes the schema that the field table asks for to its standard output: the content of resources/downcomer.rng. */
#include <stdio.h>

#include "files/schema.h"

int
main (void)
{
  g_autofree char *schema = schema_write ();

  return fputs (schema, stdout) == EOF || fflush (stdout) != 0;
}
