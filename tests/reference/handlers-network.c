/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

const Handler network_handlers[] = {
    {NULL, NULL},
};
