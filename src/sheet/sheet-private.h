/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside this folder and its tests: the pages as they were laid out. */
#pragma once

#include "sheet/page.h"
#include "sheet/sheet.h"

/* A page by its number from 0, or NULL. */
const Page *sheet_page (const Sheet *sheet, unsigned page);
