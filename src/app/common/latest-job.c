/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/latest-job.h"

struct _LatestJob {
  gatomicrefcount references; /* the owner's, and one of the running task */
  const LatestJobKind *kind;
  gpointer owner;
  gpointer waiting;         /* the request to start next, or NULL */
  gboolean running, wanted; /* wanted: the running job is the newest */
};

static void
job_unref (LatestJob *job)
{
  if (g_atomic_ref_count_dec (&job->references))
    g_free (job);
}

/* A request on its way through a thread; it outlives the slot's owner. */
typedef struct {
  LatestJob *job;
  gpointer request;
} Errand;

static void
errand_free (gpointer data)
{
  Errand *errand = data;

  errand->job->kind->free_request (errand->request);
  job_unref (errand->job);
  g_free (errand);
}

static void
run (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Errand *errand = data;

  g_task_return_pointer (task, errand->job->kind->work (errand->request), errand->job->kind->free_answer);
}

static void start (LatestJob *job, gpointer request);

static void
on_finished (GObject *source, GAsyncResult *result, gpointer data)
{
  LatestJob *job = data;
  gpointer answer = g_task_propagate_pointer (G_TASK (result), NULL);
  const gboolean wanted = job->wanted;

  job->running = job->wanted = FALSE;
  if (job->waiting != NULL)
    start (job, g_steal_pointer (&job->waiting));
  else if (wanted)
    job->kind->done (answer, job->owner);
  if (answer != NULL)
    job->kind->free_answer (answer);
  job_unref (job);
}

static void
start (LatestJob *job, gpointer request)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, on_finished, job);
  Errand *errand = g_new0 (Errand, 1);

  g_atomic_ref_count_inc (&job->references); /* for on_finished */
  g_atomic_ref_count_inc (&job->references); /* for the errand */
  *errand = (Errand){job, request};
  job->running = job->wanted = TRUE;
  g_task_set_task_data (task, errand, errand_free);
  g_task_run_in_thread (task, run);
}

LatestJob *
latest_job_new (const LatestJobKind *kind, gpointer owner)
{
  LatestJob *job = g_new0 (LatestJob, 1);

  g_atomic_ref_count_init (&job->references);
  job->kind = kind;
  job->owner = owner;
  return job;
}

void
latest_job_free (LatestJob *job)
{
  if (job == NULL)
    return;
  latest_job_forget (job);
  job_unref (job);
}

void
latest_job_ask (LatestJob *job, gpointer request)
{
  latest_job_forget (job);
  if (job->running)
    job->waiting = request;
  else
    start (job, request);
}

void
latest_job_forget (LatestJob *job)
{
  job->wanted = FALSE;
  if (job->waiting != NULL)
    job->kind->free_request (g_steal_pointer (&job->waiting));
}

gboolean
latest_job_is_busy (LatestJob *job)
{
  return job->wanted || job->waiting != NULL;
}
