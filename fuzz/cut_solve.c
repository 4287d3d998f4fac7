/* A cut from any bytes, solved and checked, with and without a size. What has a stone has the same
 * one, to the last bit, after it was written and read again; what has none has a problem that tells
 * where and why. Its time is bounded: see LW_SOLVER_MOST_WORK. */
#include "fuzz.h"

#include "cut/check.h"
#include "cut/read.h"
#include "cut/solve.h"
#include "cut/write.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void check_problem(lw_status status, const lw_problem *problem)
{
    char text[4 * LW_PROBLEM_TEXT];
    LW_FUZZ_HOLDS(status == problem->status);
    LW_FUZZ_HOLDS(status > LW_NO_MEMORY && status < LW_STATUS_COUNT);
    LW_FUZZ_HOLDS(problem->line > 0 && problem->column > 0);
    LW_FUZZ_HOLDS(problem->found[0] != '\0' && problem->expected[0] != '\0');
    LW_FUZZ_HOLDS(lw_problem_write(problem, text, sizeof text) < sizeof text);
}

static void check_stone(const lw_stone *stone)
{
    const lw_measures *m = &stone->measures;
    LW_FUZZ_HOLDS(lw_polyhedron_fault(&stone->solid) == NULL);
    LW_FUZZ_HOLDS(m->mass.volume > 0.0 && isfinite(m->mass.volume));
    LW_FUZZ_HOLDS(m->width > 0.0 && m->width <= m->length && m->width <= m->length_across);
    LW_FUZZ_HOLDS(m->length <= m->diameter * (1.0 + 1e-12));
    LW_FUZZ_HOLDS(m->depth > 0.0 && m->facet_count + m->girdle_facet_count >= 4);
    for (int i = 0; i < stone->facet_count; i++) {
        const lw_facet *f = &stone->facets[i];
        LW_FUZZ_HOLDS(isfinite(f->plane.distance));
        LW_FUZZ_HOLDS(f->angle_deg >= 0.0 && f->angle_deg <= 90.0 && f->tooth >= 0.0);
        LW_FUZZ_HOLDS((f->side == LW_SIDE_GIRDLE) == (f->angle_deg == 90.0));
        LW_FUZZ_HOLDS((f->side == LW_SIDE_GIRDLE) == (f->plane.normal.z == 0.0));
    }
}

/* Whatever the answers are, each finding can be said. */
static void check_the_check(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone)
{
    lw_check check = {0};
    lw_check_options options = {.critical_angle_deg = 40.0, .margin_deg = 1.0};
    lw_status status = lw_cut_check(memory, cut, stone, &options, &check);
    LW_FUZZ_HOLDS(status == LW_OK || status == LW_TOO_LARGE);
    bool faults = false;
    for (int i = 0; i < check.finding_count; i++) {
        char text[400];
        LW_FUZZ_HOLDS(lw_finding_write(cut, stone, &check.findings[i], text, sizeof text) <
                      sizeof text);
        faults = faults || check.findings[i].fault;
    }
    if (status == LW_OK) {
        bool passes = check.closed && check.every_facet && check.every_meet && check.cuttable;
        LW_FUZZ_HOLDS(check.step_count == cut->step_count && passes == !faults);
    }
    lw_check_destroy(&check);
}

static bool same_bytes(const void *a, const void *b, int count, size_t size)
{
    return count == 0 || memcmp(a, b, (size_t)count * size) == 0;
}

static void check_same(const lw_stone *a, const lw_stone *b)
{
    LW_FUZZ_HOLDS(a->facet_count == b->facet_count);
    for (int i = 0; i < a->facet_count; i++) {
        const lw_facet *f = &a->facets[i], *g = &b->facets[i];
        LW_FUZZ_HOLDS(f->step == g->step && f->side == g->side && f->temporary == g->temporary);
        LW_FUZZ_HOLDS(same_bytes(&f->tooth, &g->tooth, 1, sizeof f->tooth));
        LW_FUZZ_HOLDS(same_bytes(&f->angle_deg, &g->angle_deg, 1, sizeof f->angle_deg));
        LW_FUZZ_HOLDS(same_bytes(&f->plane, &g->plane, 1, sizeof f->plane));
    }
    LW_FUZZ_HOLDS(a->solid.vertex_count == b->solid.vertex_count);
    LW_FUZZ_HOLDS(same_bytes(a->solid.vertices, b->solid.vertices, a->solid.vertex_count,
                             sizeof *a->solid.vertices));
    LW_FUZZ_HOLDS(same_bytes(&a->unit_mm, &b->unit_mm, 1, sizeof a->unit_mm));
}

static lw_status solve(const lw_memory *memory, const lw_cut *cut, const lw_solve_options *options,
                       lw_stone *stone)
{
    lw_problem problem = {0};
    lw_status status = lw_cut_solve(memory, cut, options, stone, &problem);
    if (status != LW_OK) {
        check_problem(status, &problem);
    }
    return status;
}

static char *written(const lw_cut *cut, size_t *length)
{
    *length = lw_cut_write(cut, NULL, 0);
    char *text = malloc(*length + 1);
    LW_FUZZ_HOLDS(text != NULL);
    LW_FUZZ_HOLDS(lw_cut_write(cut, text, *length + 1) == *length);
    return text;
}

static void solve_both(const lw_memory *memory, const lw_cut *cut, const lw_cut *again,
                       const lw_solve_options *options)
{
    lw_stone stone = {0}, other = {0};
    lw_status status = solve(memory, cut, options, &stone);
    LW_FUZZ_HOLDS(solve(memory, again, options, &other) == status);
    if (status == LW_OK) {
        check_stone(&stone);
        check_the_check(memory, cut, &stone);
        check_same(&stone, &other);
    }
    lw_stone_destroy(&stone);
    lw_stone_destroy(&other);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const lw_solve_options sized = {.size_kind = LW_SIZE_WIDTH_MM, .size = 8.0};
    static const lw_solve_options weighed = {
        .size_kind = LW_SIZE_WEIGHT_CT, .size = 2.5, .specific_gravity = 2.65};
    lw_memory memory = lw_memory_standard();
    lw_cut cut = {0}, again = {0};
    size_t length = 0;
    if (lw_cut_read(&memory, (const char *)data, size, &cut, NULL) != LW_OK) {
        return 0;
    }
    char *text = written(&cut, &length);
    LW_FUZZ_HOLDS(lw_cut_read(&memory, text, length, &again, NULL) == LW_OK);
    solve_both(&memory, &cut, &again, NULL);
    solve_both(&memory, &cut, &again, size % 2 == 0 ? &sized : &weighed);
    free(text);
    lw_cut_destroy(&cut);
    lw_cut_destroy(&again);
    return 0;
}
