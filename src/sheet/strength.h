/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside this folder only: what panes, rails and floor bear, for whoever checks them. */
#pragma once

#include "sheet/build.h"
#include "sheet/weight.h"

void build_strength (Build *build, const Part *stand, const Weights *weights);
