#include "parallel.h"

#include <assert.h>
#include <pthread.h>
#include <signal.h>
#include <unistd.h>

/* Pieces are handed out by rising number, and one that was handed out is done: so when one fails,
 * all before it have been handed out too, and the failure with the lowest number is the same one on
 * every run. */
typedef struct job {
    const lw_parallel *how;
    int count;
    lw_piece piece;
    void *context;
    atomic_int next; /* to be handed out */
    atomic_bool stop;
    pthread_mutex_t lock; /* of all below */
    pthread_cond_t one_done;
    int done;         /* without failure */
    int at_work;      /* started threads that have not ended */
    int failed;       /* the lowest number; count: none */
    lw_status status; /* its */
} job;

typedef struct worker {
    job *job;
    int number;
    pthread_t thread;
} worker;

static bool is_cancelled(const job *j)
{
    return j->how->cancel != NULL && atomic_load_explicit(j->how->cancel, memory_order_relaxed);
}

/* Does the next piece. False when there is none, or none is to be begun. */
static bool do_next(job *j, int number)
{
    if (atomic_load(&j->stop) || is_cancelled(j)) {
        return false;
    }
    int piece = atomic_fetch_add(&j->next, 1);
    if (piece >= j->count) {
        atomic_store(&j->stop, true);
        return false;
    }
    lw_status status = j->piece(j->context, piece, number);
    pthread_mutex_lock(&j->lock);
    if (status == LW_OK) {
        j->done++;
    } else if (piece < j->failed) {
        j->failed = piece;
        j->status = status;
    }
    if (status != LW_OK) {
        atomic_store(&j->stop, true);
    }
    pthread_cond_signal(&j->one_done);
    pthread_mutex_unlock(&j->lock);
    return true;
}

static void *work(void *given)
{
    worker *w = given;
    while (do_next(w->job, w->number)) {
    }
    pthread_mutex_lock(&w->job->lock);
    w->job->at_work--;
    pthread_cond_signal(&w->job->one_done);
    pthread_mutex_unlock(&w->job->lock);
    return NULL;
}

/* Starts workers 1 and up, as many as the system gives; they leave signals to the caller. */
static int start(job *j, worker workers[], int threads)
{
    sigset_t all, before;
    sigfillset(&all);
    if (pthread_sigmask(SIG_SETMASK, &all, &before) != 0) {
        return 1;
    }
    int started = 1;
    for (; started < threads; started++) {
        workers[started] = (worker){.job = j, .number = started};
        pthread_mutex_lock(&j->lock);
        j->at_work++;
        pthread_mutex_unlock(&j->lock);
        if (pthread_create(&workers[started].thread, NULL, work, &workers[started]) != 0) {
            pthread_mutex_lock(&j->lock);
            j->at_work--;
            pthread_mutex_unlock(&j->lock);
            break;
        }
    }
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return started;
}

static void tell(const job *j, int done)
{
    if (j->how->progress != NULL) {
        j->how->progress(j->how->progress_context, done, j->count);
    }
}

/* Takes pieces until there are none, then waits for the others; tells how far things are. */
static void work_and_tell(job *j)
{
    int told = 0;
    bool more = true;
    for (;;) {
        more = more && do_next(j, 0);
        pthread_mutex_lock(&j->lock);
        while (!more && j->at_work > 0 && j->done == told) {
            pthread_cond_wait(&j->one_done, &j->lock);
        }
        int done = j->done;
        bool ended = !more && j->at_work == 0;
        pthread_mutex_unlock(&j->lock);
        if (done != told) {
            tell(j, done);
            told = done;
        }
        if (ended) {
            return;
        }
    }
}

static int threads_for(const lw_parallel *how, int count)
{
    assert(how->threads >= 0);
    int threads = how->threads > 0 ? how->threads : lw_parallel_processors();
    threads = threads < count ? threads : count;
    return threads < LW_PARALLEL_MOST ? threads : LW_PARALLEL_MOST;
}

lw_status lw_parallel_do(const lw_parallel *how, int count, lw_piece piece, void *context)
{
    assert(count >= 0);
    if (count == 0) {
        return LW_OK;
    }
    job j = {.how = how, .count = count, .piece = piece, .context = context, .failed = count};
    atomic_init(&j.next, 0);
    atomic_init(&j.stop, false);
    if (pthread_mutex_init(&j.lock, NULL) != 0) {
        return LW_NO_MEMORY;
    }
    if (pthread_cond_init(&j.one_done, NULL) != 0) {
        pthread_mutex_destroy(&j.lock);
        return LW_NO_MEMORY;
    }
    worker workers[LW_PARALLEL_MOST];
    int started = start(&j, workers, threads_for(how, count));
    work_and_tell(&j);
    for (int i = 1; i < started; i++) {
        pthread_join(workers[i].thread, NULL);
    }
    pthread_cond_destroy(&j.one_done);
    pthread_mutex_destroy(&j.lock);
    if (j.failed < count) {
        return j.status;
    }
    return j.done == count ? LW_OK : LW_CANCELLED;
}

int lw_parallel_processors(void)
{
    long online = sysconf(_SC_NPROCESSORS_ONLN);
    if (online < 1) {
        return 1;
    }
    return online < LW_PARALLEL_MOST ? (int)online : LW_PARALLEL_MOST;
}
