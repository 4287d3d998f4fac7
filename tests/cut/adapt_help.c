#include "cut/adapt_help.h"

#include "cut/read.h"
#include "cut/text_file.h"
#include "cut/write.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

const char *const built_in_cuts[] = {"cuts/classic-quartz-round.cut",
                                     "cuts/crown-first-round.cut",
                                     "cuts/marquise-brilliant.cut",
                                     "cuts/oval-brilliant.cut",
                                     "cuts/pear-brilliant.cut",
                                     "cuts/pinwheel.cut",
                                     "cuts/round-brilliant.cut",
                                     "cuts/single-cut.cut",
                                     "cuts/square-cushion.cut",
                                     "cuts/step-octagon.cut",
                                     "cuts/table-first-square.cut",
                                     "cuts/triangle-brilliant.cut",
                                     NULL};

static void must(lw_status status, const lw_problem *problem)
{
    char text[4 * LW_PROBLEM_TEXT];
    if (status != LW_OK) {
        (void)lw_problem_write(problem, text, sizeof text);
        fail_msg("%s: %s", lw_status_text(status), text);
    }
}

static void solve_bytes(const char *text, size_t length, double width_mm, solved_cut *out)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    lw_solve_options options = {0};
    *out = (solved_cut){0};
    if (width_mm > 0.0) {
        options.size_kind = LW_SIZE_WIDTH_MM;
        options.size = width_mm;
    }
    must(lw_cut_read(&memory, text, length, &out->cut, &problem), &problem);
    must(lw_cut_solve(&memory, &out->cut, &options, &out->stone, &problem), &problem);
}

void solve_text(const char *text, double width_mm, solved_cut *out)
{
    solve_bytes(text, strlen(text), width_mm, out);
}

void solve_file(const char *path, double width_mm, solved_cut *out)
{
    size_t length = 0;
    char *text = text_of_file(path, &length);
    assert_non_null(text);
    solve_bytes(text, length, width_mm, out);
    free(text);
}

static char *text_of(const lw_cut *cut)
{
    size_t length = lw_cut_write(cut, NULL, 0);
    char *text = malloc(length + 1);
    assert_non_null(text);
    (void)lw_cut_write(cut, text, length + 1);
    return text;
}

void check_promises(const lw_adapted *adapted)
{
    solved_cut again;
    char *text = text_of(&adapted->cut);
    double width_mm = adapted->stone.unit_mm * adapted->stone.measures.width;
    solve_text(text, width_mm, &again);
    char *text_again = text_of(&again.cut);
    assert_string_equal(text, text_again);
    assert_true(planes_differ(&adapted->stone, &again.stone) <= 1e-14);
    assert_null(lw_polyhedron_fault(&adapted->stone.solid));
    free(text);
    free(text_again);
    lw_adapted_destroy(&again);
}

double planes_differ(const lw_stone *a, const lw_stone *b)
{
    double most = 0.0;
    assert_int_equal(a->facet_count, b->facet_count);
    for (int i = 0; i < a->facet_count; i++) {
        bool face_a = a->solid.face_start[i + 1] > a->solid.face_start[i];
        bool face_b = b->solid.face_start[i + 1] > b->solid.face_start[i];
        assert_int_equal(face_a, face_b);
        if (face_a) {
            lw_plane p = a->facets[i].plane;
            lw_plane q = b->facets[i].plane;
            most = fmax(most, lw_vec3_length(lw_vec3_sub(p.normal, q.normal)));
            most = fmax(most, fabs(p.distance - q.distance));
        }
    }
    return most;
}

double vertices_differ(const lw_stone *a, const lw_stone *b, vertex_map *map, const void *context)
{
    double most = 0.0;
    assert_int_equal(a->solid.vertex_count, b->solid.vertex_count);
    for (int i = 0; i < a->solid.vertex_count; i++) {
        lw_vec3 wanted = map(context, a->solid.vertices[i]);
        double nearest = INFINITY;
        for (int k = 0; k < b->solid.vertex_count; k++) {
            nearest = fmin(nearest, lw_vec3_length(lw_vec3_sub(wanted, b->solid.vertices[k])));
        }
        most = fmax(most, nearest);
    }
    return most;
}

bool text_has(const lw_cut *cut, const char *words)
{
    char *text = text_of(cut);
    bool has = strstr(text, words) != NULL;
    if (!has) {
        print_message("not there: %s\nin:\n%s\n", words, text);
    }
    free(text);
    return has;
}
