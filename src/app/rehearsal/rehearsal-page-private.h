/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The inside of the page of rehearsals, for rehearsal-page.c (what is computed and listed) and rehearsal-player.c (the
 * moment that is shown). */
#pragma once

#include "app/common/latest-job.h"
#include "app/rehearsal/rehearsal-page.h"
#include "app/rehearsal/rehearsal-row.h"
#include "app/rehearsal/rehearsal-stage.h"
#include "app/rehearsal/rehearsal-traces.h"

struct _RehearsalPage {
  GtkBox parent_instance;

  Document *document;
  LatestJob *all_job, *play_job;
  RehearsalPlay *play, *beside; /* NULL until computed */
  Evaluation *moment;           /* for the stage */
  FailureId failure;
  double now_s;
  guint tick;
  gint64 tick_us;
  gboolean stale, filling;

  GtkListBox *list, *events;
  GtkLabel *summary, *verdict, *time, *now_label;
  GtkBox *remedies;
  GtkWidget *second_slot, *second_label, *beside_slot, *beside_label, *speed_slot;
  GtkDropDown *second, *beside_choice, *speed;
  GtkButton *play_button;
  GtkRange *scale;
  RehearsalStage *stage;
  RehearsalTraces *traces;
};

/* rehearsal-player.c: another play is shown; the moment moves to `time_s`; the actions of the player. */
void rehearsal_player_load (RehearsalPage *self);
void rehearsal_player_seek (RehearsalPage *self, double time_s);
void rehearsal_player_stop (RehearsalPage *self);
void rehearsal_player_toggle (RehearsalPage *self);
void rehearsal_player_step (RehearsalPage *self, gboolean forward);

void rehearsal_player_fill_speeds (RehearsalPage *self);
