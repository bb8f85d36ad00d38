/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/solver/stage.h"

#include "tests/solver/fixture.h"

Stage
stage_of (Draft *draft)
{
  Stage stage = {
      .system = fixture_compile (draft), .evaluation = evaluation_new (), .rehearsal = rehearsal_new ()};

  stage.workspace = workspace_new (stage.system);
  stage.rehearser = rehearser_new (stage.system);
  stage.trace = rehearsal_trace_new (4000);
  evaluate (stage.system, stage.workspace, NULL, stage.evaluation);
  rehearsal_plan_init (&stage.plan);
  return stage;
}

void
stage_clear (Stage *stage)
{
  rehearsal_trace_free (stage->trace);
  rehearsal_free (stage->rehearsal);
  rehearser_free (stage->rehearser);
  evaluation_free (stage->evaluation);
  workspace_free (stage->workspace);
  system_free (stage->system);
}
