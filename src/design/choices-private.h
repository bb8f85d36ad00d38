/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Words and names of each choice, in the order of the enums in choices.h; ended by a NULL word. */
#pragma once

#include "design/field.h"

extern const FieldChoice choices_units[];
extern const FieldChoice choices_paper[];
extern const FieldChoice choices_pane[];
extern const FieldChoice choices_overflow[];
extern const FieldChoice choices_weir[];
extern const FieldChoice choices_role[];
extern const FieldChoice choices_entry[];
extern const FieldChoice choices_chamber[];
extern const FieldChoice choices_baffle[];
extern const FieldChoice choices_service[];
extern const FieldChoice choices_device[];
extern const FieldChoice choices_placing[];
extern const FieldChoice choices_outlet[];
extern const FieldChoice choices_bend[];
extern const FieldChoice choices_cut_out[];
extern const FieldChoice choices_flag[];
