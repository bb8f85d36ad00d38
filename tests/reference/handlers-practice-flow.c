/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

const Handler practice_flow_handlers[] = {
    {NULL, NULL},
};
