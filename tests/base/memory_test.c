/* The allocator hook, growing arrays and arenas: sizes, refusals, and nothing left behind. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"
#include "base/memory.h"

#include <stdlib.h>
#include <string.h>

typedef struct counter {
    long asked, refuse_at;
    size_t held;
} counter;

static void *counted(void *context, void *block, size_t old_size, size_t new_size)
{
    counter *c = context;
    assert_true(block == NULL || old_size > 0); /* the old size is always told */
    if (new_size == 0) {
        c->held -= old_size;
        free(block);
        return NULL;
    }
    if (++c->asked == c->refuse_at) {
        return NULL;
    }
    c->held += new_size - old_size;
    void *fresh = realloc(block, new_size);
    assert_non_null(fresh);
    memset((char *)fresh + old_size, 0xA5, new_size - old_size); /* what is new is not zero yet */
    return fresh;
}

static void blocks_are_zeroed(void **state)
{
    (void)state;
    counter c = {0};
    lw_memory memory = {counted, &c};
    void *block = NULL;
    assert_int_equal(lw_memory_new(&memory, 100, 8, &block), LW_OK);
    for (int i = 0; i < 800; i++) {
        assert_int_equal(((char *)block)[i], 0);
    }
    assert_int_equal(c.held, 800);
    lw_memory_free(&memory, block, 100, 8);
    lw_memory_free(&memory, NULL, 100, 8);
    assert_int_equal(c.held, 0);
    block = &c;
    assert_int_equal(lw_memory_new(&memory, 0, 8, &block), LW_OK);
    assert_null(block);
}

static void absurd_sizes_are_told(void **state)
{
    (void)state;
    counter c = {0};
    lw_memory memory = {counted, &c};
    void *block = &c;
    assert_int_equal(lw_memory_new(&memory, SIZE_MAX / 4, 8, &block), LW_TOO_LARGE);
    assert_ptr_equal(block, &c);
    size_t capacity = 0;
    void *items = NULL;
    assert_int_equal(lw_memory_reserve(&memory, &items, &capacity, SIZE_MAX / 2, 16), LW_TOO_LARGE);
    assert_true(items == NULL && capacity == 0);
    assert_int_equal(c.asked, 0);
}

static void arrays_grow_and_keep(void **state)
{
    (void)state;
    counter c = {0};
    lw_memory memory = {counted, &c};
    void *items = NULL;
    size_t capacity = 0;
    for (size_t n = 1; n <= 1000; n++) {
        assert_int_equal(lw_memory_reserve(&memory, &items, &capacity, n, sizeof(int)), LW_OK);
        assert_true(capacity >= n);
        int *at = (int *)items + (n - 1);
        assert_int_equal(*at, 0);
        *at = (int)n;
    }
    for (size_t n = 1; n <= 1000; n++) {
        assert_int_equal(((int *)items)[n - 1], (int)n);
    }
    assert_true(c.asked < 12); /* it doubles */
    c.refuse_at = c.asked + 1;
    void *before = items;
    size_t had = capacity;
    assert_int_equal(lw_memory_reserve(&memory, &items, &capacity, 5000, sizeof(int)),
                     LW_NO_MEMORY);
    assert_true(items == before && capacity == had && ((int *)items)[999] == 1000);
    lw_memory_free(&memory, items, capacity, sizeof(int));
    assert_int_equal(c.held, 0);
}

static void standard_memory_works(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    void *block = NULL;
    assert_int_equal(lw_memory_new(&memory, 3, 5, &block), LW_OK);
    lw_memory_free(&memory, block, 3, 5);
}

static void arenas_give_aligned_zeroed_blocks(void **state)
{
    (void)state;
    counter c = {0};
    lw_memory memory = {counted, &c};
    lw_arena arena = lw_arena_make(&memory);
    assert_int_equal(c.asked, 0);
    for (size_t size = 0; size < 40000; size = size * 3 / 2 + 1) {
        char *block = lw_arena_new(&arena, 1, size == 0 ? 1 : size);
        assert_non_null(block);
        assert_int_equal((uintptr_t)block % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++) {
            assert_int_equal(block[i], 0);
        }
        memset(block, 1, size);
    }
    assert_string_equal(lw_arena_text(&arena, "table and star", 5), "table");
    assert_non_null(lw_arena_new(&arena, 0, 8));
    assert_null(lw_arena_new(&arena, SIZE_MAX / 4, 8));
    lw_arena_destroy(&arena);
    lw_arena_destroy(&arena);
    assert_int_equal(c.held, 0);
    assert_non_null(lw_arena_new(&arena, 4, 4)); /* usable again */
    lw_arena_destroy(&arena);
    assert_int_equal(c.held, 0);
}

static void arenas_survive_refusal(void **state)
{
    (void)state;
    counter c = {.refuse_at = 2};
    lw_memory memory = {counted, &c};
    lw_arena arena = lw_arena_make(&memory);
    char *first = lw_arena_text(&arena, "kept", 4);
    assert_non_null(first);
    assert_null(lw_arena_new(&arena, 1, 100000));
    assert_string_equal(first, "kept");
    assert_non_null(lw_arena_new(&arena, 1, 100000));
    lw_arena_destroy(&arena);
    assert_int_equal(c.held, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blocks_are_zeroed),
        cmocka_unit_test(absurd_sizes_are_told),
        cmocka_unit_test(arrays_grow_and_keep),
        cmocka_unit_test(standard_memory_works),
        cmocka_unit_test(arenas_give_aligned_zeroed_blocks),
        cmocka_unit_test(arenas_survive_refusal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
