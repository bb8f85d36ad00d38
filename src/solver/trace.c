/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/trace.h"

#include <string.h>

struct _Trace {
  GArray *steps;
};

Trace *
trace_new (void)
{
  Trace *trace = g_new0 (Trace, 1);

  trace->steps = g_array_new (FALSE, TRUE, sizeof (Step));
  return trace;
}

void
trace_free (Trace *trace)
{
  if (trace == NULL)
    return;
  g_array_unref (trace->steps);
  g_free (trace);
}

void
trace_clear (Trace *trace)
{
  g_array_set_size (trace->steps, 0);
}

unsigned
trace_n_steps (const Trace *trace)
{
  return trace->steps->len;
}

const Step *
trace_step (const Trace *trace, unsigned index)
{
  return index < trace->steps->len ? &g_array_index (trace->steps, Step, index) : NULL;
}

void
trace_add (Trace *trace, StepId id, Scenario scenario, int part, const double *values)
{
  Step step = {.id = id, .scenario = scenario, .part = part};

  if (trace == NULL)
    return;
  memcpy (step.values, values, step_n_symbols (id) * sizeof *values);
  g_array_append_val (trace->steps, step);
}
