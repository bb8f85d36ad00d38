/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One slot for work beside the main loop, where the newest request wins: at most one job runs, at most one waits, and the
 * answer of a job is dropped once a newer one was asked for. Belongs to the thread that made it. */
#pragma once

#include <gio/gio.h>

typedef struct _LatestJob LatestJob;

/* What runs in another thread: gets the request, touches no object of the main thread, returns an answer or NULL. */
typedef gpointer (*LatestJobWork) (gpointer request);

/* What is called with the answer to the newest request, in the main context; `answer` belongs to the slot. */
typedef void (*LatestJobDone) (gpointer answer, gpointer owner);

typedef struct {
  LatestJobWork work;
  LatestJobDone done;
  GDestroyNotify free_request, free_answer;
} LatestJobKind;

/* `kind` must outlive the slot. Freeing does not wait: no answer comes afterwards. */
LatestJob *latest_job_new (const LatestJobKind *kind, gpointer owner);
void latest_job_free (LatestJob *job);

/* Asks for work on `request`, which is taken. */
void latest_job_ask (LatestJob *job, gpointer request);

/* Forgets what was asked for: no answer comes until the next request. */
void latest_job_forget (LatestJob *job);

/* Whether an answer is still to come. */
gboolean latest_job_is_busy (LatestJob *job);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (LatestJob, latest_job_free)
