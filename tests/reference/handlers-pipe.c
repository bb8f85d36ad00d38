/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

const Handler pipe_handlers[] = {
    {NULL, NULL},
};
