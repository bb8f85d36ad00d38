/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The newest request wins: an answer that comes late, after a newer request, is dropped. */
#include "app/common/latest-job.h"

/* Work that waits until the test lets it go on. */
static GAsyncQueue *gate;
static gint n_worked, n_freed_requests, n_freed_answers;

static gpointer
work (gpointer request)
{
  g_async_queue_pop (gate);
  g_atomic_int_inc (&n_worked);
  return g_strdup_printf ("answer to %s", (const char *) request);
}

static void
free_request (gpointer request)
{
  g_free (request);
  g_atomic_int_inc (&n_freed_requests);
  g_main_context_wakeup (
      NULL); /* the thread may be the last to let go of a task, when the loop is asleep again */
}

static void
free_answer (gpointer answer)
{
  g_atomic_int_inc (&n_freed_answers);
  g_free (answer);
}

static void
done (gpointer answer, gpointer owner)
{
  g_ptr_array_add (owner, g_strdup (answer));
}

static const LatestJobKind kind = {work, done, free_request, free_answer};

static void
let_go (int n)
{
  const int before = g_atomic_int_get (&n_freed_requests);

  for (int i = 0; i < n; i++)
    g_async_queue_push (gate, GINT_TO_POINTER (1));
  while (g_atomic_int_get (&n_freed_requests) < before + n)
    g_main_context_iteration (NULL, TRUE);
}

typedef struct {
  LatestJob *job;
  GPtrArray *answers;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  n_worked = n_freed_requests = n_freed_answers = 0;
  gate = g_async_queue_new ();
  fixture->answers = g_ptr_array_new_with_free_func (g_free);
  fixture->job = latest_job_new (&kind, fixture->answers);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  latest_job_free (fixture->job);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_ptr_array_unref (fixture->answers);
  g_async_queue_unref (gate);
}

static void
test_one (Fixture *fixture, gconstpointer data)
{
  latest_job_ask (fixture->job, g_strdup ("a"));
  g_assert_true (latest_job_is_busy (fixture->job));
  let_go (1);
  g_assert_cmpuint (fixture->answers->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (fixture->answers, 0), ==, "answer to a");
  g_assert_false (latest_job_is_busy (fixture->job));
}

static void
test_late_is_dropped (Fixture *fixture, gconstpointer data)
{
  /* a runs, b and c wait in turn: b is never worked on, the answer to a comes late, only that to c is heard. */
  latest_job_ask (fixture->job, g_strdup ("a"));
  latest_job_ask (fixture->job, g_strdup ("b"));
  latest_job_ask (fixture->job, g_strdup ("c"));
  g_assert_cmpint (n_freed_requests, ==, 1);
  let_go (2);
  g_assert_cmpint (g_atomic_int_get (&n_worked), ==, 2);
  g_assert_cmpuint (fixture->answers->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (fixture->answers, 0), ==, "answer to c");
  g_assert_cmpint (n_freed_requests, ==, 3);
  g_assert_cmpint (n_freed_answers, ==, 2);
}

static void
test_forget (Fixture *fixture, gconstpointer data)
{
  latest_job_ask (fixture->job, g_strdup ("a"));
  latest_job_forget (fixture->job);
  g_assert_false (latest_job_is_busy (fixture->job));
  let_go (1);
  g_assert_cmpuint (fixture->answers->len, ==, 0);
  latest_job_ask (fixture->job, g_strdup ("b"));
  let_go (1);
  g_assert_cmpuint (fixture->answers->len, ==, 1);
}

static void
test_freed_while_running (Fixture *fixture, gconstpointer data)
{
  latest_job_ask (fixture->job, g_strdup ("a"));
  latest_job_ask (fixture->job, g_strdup ("b"));
  g_clear_pointer (&fixture->job, latest_job_free);
  let_go (1);
  g_assert_cmpuint (fixture->answers->len, ==, 0);
  g_assert_cmpint (n_freed_requests, ==, 2);
  g_assert_cmpint (n_freed_answers, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/latest-job/one", Fixture, NULL, set_up, test_one, tear_down);
  g_test_add ("/latest-job/late-is-dropped", Fixture, NULL, set_up, test_late_is_dropped, tear_down);
  g_test_add ("/latest-job/forget", Fixture, NULL, set_up, test_forget, tear_down);
  g_test_add ("/latest-job/freed-while-running", Fixture, NULL, set_up, test_freed_while_running, tear_down);
  return g_test_run ();
}
