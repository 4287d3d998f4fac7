/* A picture over threads. Run under the thread sanitizer too (label: threads). */
#include "whole_picture.h"

#include "builtin.h"
#include "cut/read.h"
#include "cut/solve.h"
#include "light/measures.h"
#include "light/picture/pose.h"
#include "matter/refraction.h"
#include "meter.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { SIZE = 70 };

typedef struct studio {
    lw_memory memory;
    lw_cut cut;
    lw_stone stone;
    lw_optic_solid solid;
    lw_picture_scene scene;
    float numbers[SIZE * SIZE * LW_PICTURE_NUMBERS];
} studio;

static void make_stone(studio *s)
{
    const lw_builtin *builtin = lw_builtin_find("round-brilliant");
    lw_problem problem = {0};
    lw_solve_options options = {0};
    assert_int_equal(
        lw_cut_read(&s->memory, builtin->text, strlen(builtin->text), &s->cut, &problem), LW_OK);
    assert_int_equal(lw_cut_solve(&s->memory, &s->cut, &options, &s->stone, &problem), LW_OK);
    assert_int_equal(lw_optic_solid_make(&s->memory, &s->stone.solid, &s->solid), LW_OK);
}

/* Diamond in two bands, tilted. */
static int set_up(void **state)
{
    studio *s = calloc(1, sizeof *s);
    assert_non_null(s);
    s->memory = lw_memory_standard();
    make_stone(s);
    lw_light_place place = lw_light_place_even_sky();
    lw_picture picture = lw_picture_defaults(SIZE, SIZE);
    picture.samples = 2;
    picture.most_samples = 8;
    lw_picture_pose pose = {13.0, 70.0, 0.0};
    lw_surroundings around = lw_picture_posed(&place, &pose, -1.0, &picture.right);
    lw_picture_stone made_of = {.material = lw_material_by_key("diamond")};
    lw_picture_optics optics;
    assert_int_equal(lw_picture_optics_make(&made_of, &around, 2, &optics), LW_OK);
    lw_picture_extent extent = lw_picture_extent_of(&s->solid, around.eye, picture.right);
    lw_picture_frame(&picture, around.eye, &extent, 0.9);
    assert_int_equal(
        lw_picture_scene_make(&s->memory, &s->solid, &picture, &optics, &around, &s->scene), LW_OK);
    *state = s;
    return 0;
}

static int tear_down(void **state)
{
    studio *s = *state;
    lw_picture_scene_destroy(&s->memory, &s->scene);
    lw_optic_solid_destroy(&s->solid);
    lw_stone_destroy(&s->stone);
    lw_cut_destroy(&s->cut);
    free(s);
    return 0;
}

static void threads_and_tiles_leave_no_trace(void **state)
{
    studio *s = *state;
    static const int threads[] = {1, 2, 5}, tiles[] = {32, 11, 24};
    float *first = malloc(sizeof s->numbers);
    assert_non_null(first);
    for (int i = 0; i < 3; i++) {
        lw_parallel how = {.threads = threads[i]};
        memset(s->numbers, 0, sizeof s->numbers);
        assert_int_equal(lw_picture_trace_tiles(&s->memory, &how, &s->scene, tiles[i], s->numbers),
                         LW_OK);
        if (i == 0) {
            memcpy(first, s->numbers, sizeof s->numbers);
        }
        assert_memory_equal(first, s->numbers, sizeof s->numbers);
    }
    free(first);
}

typedef struct heard {
    int done, count;
    atomic_bool cancel;
    int cancel_at;
} heard;

static void hear(void *context, int done, int count)
{
    heard *h = context;
    h->done = done;
    h->count = count;
    if (done >= h->cancel_at) {
        atomic_store(&h->cancel, true);
    }
}

/* worked: 70 pixels are three tiles of 32 either way. */
static void tells_how_far_it_is(void **state)
{
    studio *s = *state;
    heard h = {.cancel_at = 1000};
    lw_parallel how = {.threads = 2, .progress = hear, .progress_context = &h};
    assert_int_equal(lw_picture_trace_all(&s->memory, &how, &s->scene, s->numbers), LW_OK);
    assert_int_equal(h.done, 9);
    assert_int_equal(h.count, 9);
}

static void can_be_cancelled(void **state)
{
    studio *s = *state;
    heard h = {.cancel_at = 3};
    lw_parallel how = {.threads = 1, .cancel = &h.cancel, .progress = hear, .progress_context = &h};
    assert_int_equal(lw_picture_trace_all(&s->memory, &how, &s->scene, s->numbers), LW_CANCELLED);
    assert_int_equal(h.done, 3);
}

static void any_allocation_may_fail(void **state)
{
    studio *s = *state;
    lw_parallel how = {.threads = 3};
    for (long at = 1; at <= 3; at++) {
        meter m = {.refuse_at = at};
        lw_memory memory = meter_memory(&m);
        assert_int_equal(lw_picture_trace_all(&memory, &how, &s->scene, s->numbers), LW_NO_MEMORY);
        assert_int_equal(m.held, 0);
    }
}

/* The stone's own light: the background that shows in pixels of the outline is taken off, so that
 * the mean is the same before any ground. Held against the exact beams in the yellow line. */
static void summary_is_of_the_stone_alone(void **state)
{
    studio *s = *state;
    lw_parallel how = {.threads = 2};
    assert_int_equal(lw_picture_trace_all(&s->memory, &how, &s->scene, s->numbers), LW_OK);
    lw_picture_summary summary = lw_picture_summarise(&s->scene, s->numbers);
    double n = 0.0;
    assert_int_equal(lw_material_mean_index(lw_material_by_key("diamond"), LW_LINE_D_UM, &n),
                     LW_OK);
    lw_light_options options = lw_light_defaults(n);
    options.tilt_deg = 13.0;
    options.turn_deg = 70.0;
    lw_light_measures m;
    assert_int_equal(lw_light_measure(&s->memory, &s->stone.solid, &options, &m), LW_OK);
    assert_true(fabs(summary.radiance - m.brightness - m.glare) < 4e-3);
    assert_true(summary.cover > 0.5 && summary.cover < 0.7);
}

#define T(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        T(threads_and_tiles_leave_no_trace), T(tells_how_far_it_is),           T(can_be_cancelled),
        T(any_allocation_may_fail),          T(summary_is_of_the_stone_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
