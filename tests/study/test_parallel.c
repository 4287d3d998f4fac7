/* Work over threads. Run under the thread sanitizer too (label: threads). */
#include "parallel.h"

#include <pthread.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* How many more threads the system gives; linked in the place of pthread_create. */
static int threads_left;

int __real_pthread_create(pthread_t *thread, const pthread_attr_t *attributes,
                          void *(*start)(void *), void *given);
int __wrap_pthread_create(pthread_t *thread, const pthread_attr_t *attributes,
                          void *(*start)(void *), void *given);

int __wrap_pthread_create(pthread_t *thread, const pthread_attr_t *attributes,
                          void *(*start)(void *), void *given)
{
    if (threads_left <= 0) {
        return 11; /* EAGAIN */
    }
    threads_left--;
    return __real_pthread_create(thread, attributes, start, given);
}

enum { PIECES = 1000 };

typedef struct probe {
    int done[PIECES]; /* how often; one writer each */
    int results[PIECES];
    long by_worker[LW_PARALLEL_MOST]; /* one writer each, not atomic: the sanitizer watches */
    atomic_int most_worker;
    atomic_bool cancel;
    int cancel_at;             /* piece that sets it; -1: none */
    int fail_from, fail_every; /* pieces that fail; 0: none */
    pthread_t caller;
    int told, told_count, calls;
    bool told_falls, told_elsewhere;
} probe;

static int set_up(void **state)
{
    probe *p = calloc(1, sizeof *p);
    assert_non_null(p);
    p->cancel_at = -1;
    p->caller = pthread_self();
    threads_left = LW_PARALLEL_MOST;
    *state = p;
    return 0;
}

static int tear_down(void **state)
{
    free(*state);
    return 0;
}

static void note_worker(probe *p, int worker)
{
    int most = atomic_load(&p->most_worker);
    while (worker > most && !atomic_compare_exchange_weak(&p->most_worker, &most, worker)) {
    }
}

/* Some work of uneven length, so that threads overtake one another. */
static int uneven(int piece)
{
    unsigned x = (unsigned)piece * 2654435761U + 1;
    int turns = 20 + (piece % 37) * 200;
    for (int i = 0; i < turns; i++) {
        x = x * 1664525U + 1013904223U;
    }
    return (int)(x >> 8);
}

static lw_status do_piece(void *context, int piece, int worker)
{
    probe *p = context;
    p->by_worker[worker]++;
    note_worker(p, worker);
    p->results[piece] = uneven(piece);
    p->done[piece]++;
    if (piece == p->cancel_at) {
        atomic_store(&p->cancel, true);
    }
    while (p->cancel_at >= 0 && piece > p->cancel_at && !atomic_load(&p->cancel)) {
    } /* those that overtook it */
    if (p->fail_every > 0 && piece >= p->fail_from && (piece - p->fail_from) % p->fail_every == 0) {
        return piece == p->fail_from ? LW_BAD_INPUT : LW_NOT_CLOSED;
    }
    return LW_OK;
}

static void hear(void *context, int done, int count)
{
    probe *p = context;
    p->told_falls = p->told_falls || done <= p->told;
    p->told_elsewhere = p->told_elsewhere || !pthread_equal(pthread_self(), p->caller);
    p->told = done;
    p->told_count = count;
    p->calls++;
}

static lw_status go(probe *p, int threads)
{
    lw_parallel how = {
        .threads = threads, .cancel = &p->cancel, .progress = hear, .progress_context = p};
    return lw_parallel_do(&how, PIECES, do_piece, p);
}

static long sum(const probe *p)
{
    long all = 0;
    for (int i = 0; i < LW_PARALLEL_MOST; i++) {
        all += p->by_worker[i];
    }
    return all;
}

/* worked: every piece once, its result what its number says, whatever the threads. */
static void every_piece_is_done_once(void **state)
{
    static const int threads[] = {0, 1, 2, 3, 5, 16, 1000};
    for (size_t k = 0; k < sizeof threads / sizeof *threads; k++) {
        probe *p = *state;
        memset(p->done, 0, sizeof p->done);
        memset(p->by_worker, 0, sizeof p->by_worker);
        p->told = 0;
        threads_left = LW_PARALLEL_MOST;
        assert_int_equal(go(p, threads[k]), LW_OK);
        for (int i = 0; i < PIECES; i++) {
            assert_int_equal(p->done[i], 1);
            assert_int_equal(p->results[i], uneven(i));
        }
        assert_int_equal(sum(p), PIECES);
        assert_int_equal(p->told, PIECES);
        assert_int_equal(p->told_count, PIECES);
        assert_false(p->told_falls);
        assert_false(p->told_elsewhere);
    }
}

static void workers_are_numbered_below_threads(void **state)
{
    probe *p = *state;
    assert_int_equal(go(p, 3), LW_OK);
    assert_in_range(atomic_load(&p->most_worker), 0, 2);
    assert_int_equal(LW_PARALLEL_MOST - threads_left, 2); /* the caller is the third */
}

static void one_thread_starts_none(void **state)
{
    probe *p = *state;
    assert_int_equal(go(p, 1), LW_OK);
    assert_int_equal(threads_left, LW_PARALLEL_MOST);
    assert_int_equal(p->by_worker[0], PIECES);
    assert_int_equal(p->calls, PIECES);
}

static void does_with_fewer_threads_than_asked_for(void **state)
{
    for (int given = 0; given < 3; given++) {
        probe *p = *state;
        memset(p->done, 0, sizeof p->done);
        p->told = 0;
        threads_left = given;
        assert_int_equal(go(p, 6), LW_OK);
        for (int i = 0; i < PIECES; i++) {
            assert_int_equal(p->done[i], 1);
        }
        assert_in_range(atomic_load(&p->most_worker), 0, given);
    }
}

/* worked: with one thread pieces go by number, so the one that cancels is the last. */
static void cancel_stops_before_the_next_piece(void **state)
{
    probe *p = *state;
    p->cancel_at = 100;
    assert_int_equal(go(p, 1), LW_CANCELLED);
    assert_int_equal(sum(p), 101);
    assert_int_equal(p->told, 101);
}

/* worked: each of the three others can have begun one piece before it sees the sign. */
static void cancel_stops_all_threads(void **state)
{
    probe *p = *state;
    p->cancel_at = 100;
    assert_int_equal(go(p, 4), LW_CANCELLED);
    for (int i = 0; i <= 100; i++) {
        assert_int_equal(p->done[i], 1);
    }
    assert_in_range(sum(p), 101, 104);
}

static void cancelled_beforehand_does_nothing(void **state)
{
    probe *p = *state;
    atomic_store(&p->cancel, true);
    assert_int_equal(go(p, 4), LW_CANCELLED);
    assert_int_equal(sum(p), 0);
    assert_int_equal(p->calls, 0);
}

/* Done is done: a sign that comes with the last piece takes nothing back. */
static void cancel_with_the_last_piece_is_too_late(void **state)
{
    probe *p = *state;
    p->cancel_at = PIECES - 1;
    assert_int_equal(go(p, 1), LW_OK);
    assert_int_equal(p->told, PIECES);
}

/* worked: piece 50 is the first that fails, with another status than the rest. */
static void tells_the_first_failure_by_number(void **state)
{
    for (int again = 0; again < 20; again++) {
        probe *p = *state;
        memset(p->done, 0, sizeof p->done);
        p->told = 0;
        p->fail_from = 50;
        p->fail_every = 1;
        assert_int_equal(go(p, 5), LW_BAD_INPUT);
        for (int i = 0; i <= 50; i++) {
            assert_int_equal(p->done[i], 1);
        }
        assert_true(p->told < PIECES);
    }
}

static void no_pieces_are_done_at_once(void **state)
{
    probe *p = *state;
    lw_parallel how = {.threads = 4};
    assert_int_equal(lw_parallel_do(&how, 0, do_piece, p), LW_OK);
    assert_int_equal(sum(p), 0);
}

static void needs_neither_cancel_nor_progress(void **state)
{
    probe *p = *state;
    lw_parallel how = {.threads = 2};
    assert_int_equal(lw_parallel_do(&how, PIECES, do_piece, p), LW_OK);
    assert_int_equal(sum(p), PIECES);
}

static void counts_processors(void **state)
{
    (void)state;
    assert_in_range(lw_parallel_processors(), 1, LW_PARALLEL_MOST);
}

#define T(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        T(every_piece_is_done_once),
        T(workers_are_numbered_below_threads),
        T(one_thread_starts_none),
        T(does_with_fewer_threads_than_asked_for),
        T(cancel_stops_before_the_next_piece),
        T(cancel_stops_all_threads),
        T(cancelled_beforehand_does_nothing),
        T(cancel_with_the_last_piece_is_too_late),
        T(tells_the_first_failure_by_number),
        T(no_pieces_are_done_at_once),
        T(needs_neither_cancel_nor_progress),
        T(counts_processors),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
