/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Invented designs to lay sheets out from, with a small catalogue. */
#pragma once

#include "design/draft.h"
#include "sheet/sheet.h"

Catalogue *sheet_fixture_catalogue (void);

/* A tank of 1.5 m with a siphon, a trickle and an emergency drain, four chambers, skimmer and heater, a return with two
 * outlets, and a filled title block. */
Design *sheet_fixture (bool us);

/* The same with as many drains, chambers and devices as a design may hold. */
Design *sheet_fixture_huge (bool us);

/* The same with three display tanks over one sump; the last has the key "tank-3". */
Design *sheet_fixture_three_tanks (bool us);

/* The same with names and texts as long as they may be. */
Design *sheet_fixture_long_names (bool us);

/* Evaluates the design with the fixture's catalogue and lays its sheets out. */
Sheet *sheet_fixture_lay_out (Design *design, bool us);

/* The same without evaluating it: with findings and steps of every kind, and as many lines of drain-back as there may be. */
Sheet *sheet_fixture_lay_out_full (Design *design, bool us);
