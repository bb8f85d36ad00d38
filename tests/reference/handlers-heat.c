/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

const Handler heat_handlers[] = {
    {NULL, NULL},
};
