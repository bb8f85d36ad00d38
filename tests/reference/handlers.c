/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include <string.h>

#define HANDLER_TABLE_MEMBER(name) name##_handlers,
static const Handler *const tables[] = {HANDLER_TABLES (HANDLER_TABLE_MEMBER)};
#undef HANDLER_TABLE_MEMBER

const Handler *
handler_find (const char *quantity)
{
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++) {
    for (const Handler *handler = tables[i]; handler->quantity != NULL; handler++) {
      if (strcmp (handler->quantity, quantity) == 0)
        return handler;
    }
  }
  return NULL;
}
