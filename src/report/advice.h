/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Cautions, settings and commissioning steps that go with every design: on the sheets and in the window's help. */
#pragma once

#include "report/words.h"

/* The usual cautions, translated; `advice_n_cautions` of them. They defer to local codes and licensed practice. */
unsigned advice_n_cautions (void);
const char *advice_caution (unsigned index);

/* One step of commissioning: what to do, and the predicted value with a blank to fill beside it ("" where none). */
typedef struct {
  char *action;
  char *predicted;
} AdviceStep;

/* Steps for this design, in order; array of AdviceStep with its free function set. */
GPtrArray *advice_commissioning (const Design *design, const Evaluation *evaluation,
                                 const NumberStyle *style);

/* Settings to mark and leave alone: levels, pump speed, valve; array of AdviceStep (setting and its value). */
GPtrArray *advice_settings (const Design *design, const Evaluation *evaluation, const NumberStyle *style);
