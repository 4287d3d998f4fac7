/* A cut stretched to another length over width.
 *
 * A linear map in plan takes planes to planes and meets to meets. Normals turn, so that teeth
 * become fractions, and a tier falls apart into as many as it has different angles. */
#include "cut/adapt_stretch.h"

#include "cut/outline.h"
#include "geom/tolerance.h"

#include <math.h>

/* The greatest stretch that is tried: beyond it a stone leaves the rough. */
static const double most_stretch = 6.0;
enum { MOST_HALVINGS = 80 };

typedef struct plan {
    const lw_stone *stone;
    lw_vec3 *points; /* scratch, one a vertex */
    bool along_y;
} plan;

/* Length over width when the longer axis is stretched. */
static double shape_when(plan *p, double stretch)
{
    const lw_polyhedron *solid = &p->stone->solid;
    double width = 0.0;
    double length = 0.0;
    for (int v = 0; v < solid->vertex_count; v++) {
        lw_vec3 at = solid->vertices[v];
        p->points[v] = p->along_y ? (lw_vec3){at.x, at.y * stretch, 0.0}
                                  : (lw_vec3){at.x * stretch, at.y, 0.0};
    }
    lw_plan_widths(p->points, solid->vertex_count, &width, &length);
    return length / width;
}

/* Finds two stretches with the wanted shape between them: on the branch where stretching makes the
 * stone longer. */
static bool bracket(plan *p, double wanted, double *low, double *high)
{
    const double stride = 1.02;
    *high = 1.0;
    while (shape_when(p, *high) < wanted) {
        *high *= stride;
        if (*high > most_stretch) {
            return false;
        }
    }
    *low = *high;
    double shape = shape_when(p, *low);
    while (shape > wanted) {
        double next = *low / stride;
        double next_shape = shape_when(p, next);
        if (next_shape >= shape) {
            return false;
        }
        *low = next;
        shape = next_shape;
    }
    return true;
}

static bool find_stretch(plan *p, double wanted, double *out)
{
    double low = 0.0;
    double high = 0.0;
    if (!bracket(p, wanted, &low, &high)) {
        return false;
    }
    for (int i = 0; i < MOST_HALVINGS; i++) {
        double middle = 0.5 * (low + high);
        if (shape_when(p, middle) < wanted) {
            low = middle;
        } else {
            high = middle;
        }
    }
    *out = 0.5 * (low + high);
    return true;
}

static double extent(const lw_polyhedron *solid, lw_vec3 axis)
{
    return lw_polyhedron_support(solid, axis, NULL) +
           lw_polyhedron_support(solid, lw_vec3_scale(axis, -1.0), NULL);
}

/* Works out the ratios of x and y. */
static lw_status ratios(const lw_memory *memory, const lw_stone *stone, double wanted,
                        double *x_ratio, double *y_ratio, lw_problem *problem)
{
    void *points = NULL;
    size_t count = (size_t)stone->solid.vertex_count;
    lw_status status = lw_memory_new(memory, count, sizeof(lw_vec3), &points);
    if (status != LW_OK) {
        return status;
    }
    double x = extent(&stone->solid, (lw_vec3){1.0, 0.0, 0.0});
    double y = extent(&stone->solid, (lw_vec3){0.0, 1.0, 0.0});
    plan p = {.stone = stone, .points = points, .along_y = y > x + LW_MEET_HOLDS};
    double stretch = 1.0;
    bool found = find_stretch(&p, wanted, &stretch);
    lw_memory_free(memory, points, count, sizeof(lw_vec3));
    if (!found) {
        return lw_problem_set(problem, LW_NO_SOLUTION, 0, 0,
                              "a length over width that no stretch of this outline gives",
                              "a ratio nearer to the stone's own", "");
    }
    *x_ratio = p.along_y ? 1.0 : stretch;
    *y_ratio = p.along_y ? stretch : 1.0;
    return LW_OK;
}

static lw_note note_of(const lw_stretch_job *job, double wanted)
{
    lw_note note = {.length = 0};
    lw_note_words(&note, "Stretched until the length is ");
    lw_note_number(&note, wanted);
    lw_note_words(&note, " times the width, along tooth ");
    double tooth = job->y_ratio != 1.0 ? (double)job->cut->wheel / 4.0 : (double)job->cut->wheel;
    lw_note_number(&note, tooth);
    lw_note_words(&note, job->whole_teeth ? "; teeth rounded to the wheel, depths solved again."
                                          : "; fractions of a tooth are the cheater's.");
    return note;
}

/* What is left of the cut's symmetry: half a turn, and the mirror, which holds an axis. */
static void keep_symmetry(lw_edit *edit)
{
    edit->cut.fold = edit->cut.fold % 2 == 0 ? 2 : 1;
}

/* The step that a problem with the edit's text speaks of; -1 for none. */
static int step_of_line(const lw_edit *edit, int line)
{
    bool there = line >= 1 && line <= edit->cut.line_count;
    return there && edit->lines[line - 1].kind == LW_LINE_STEP ? edit->lines[line - 1].index : -1;
}

/* What keeps a cut from being the stretched stone: the first step that is not where it should be
 * and has something to give up. One that has nothing may be off because z = 0 is, which lies half
 * way between the girdle lines, and those are other steps'. */
typedef struct blame {
    int step; /* -1: no step can be named */
    bool free_angle;
} blame;

static int step_to_blame(const lw_stretch_job *job, const lw_stone *stone)
{
    for (int i = 0; stone->facet_count == job->facet_count && i < stone->facet_count; i++) {
        int step = stone->facets[i].step;
        bool open = job->given_up != NULL && job->given_up[step] < 2;
        if (open && lw_facet_off(stone, job->facets, i) > LW_MEET_HOLDS) {
            return step;
        }
    }
    return -1;
}

/* One way to write the cut. */
static lw_status write_cut(const lw_memory *memory, lw_stretch_job job, double wanted, blame *why,
                           lw_adapted *out, lw_problem *problem)
{
    lw_edit edit;
    lw_adapted adapted;
    lw_status status = lw_edit_begin(memory, job.cut, &edit, problem);
    if (status != LW_OK) {
        return status;
    }
    job.edit = &edit;
    keep_symmetry(&edit);
    lw_stretch_steps(&job);
    if (!edit.out_of_memory) {
        lw_edit_replace_steps(&edit, job.steps, job.of, job.step_count);
        lw_edit_drop_unused(&edit);
        lw_edit_note(&edit, note_of(&job, wanted).text);
    }
    const lw_facet *expected = job.whole_teeth ? NULL : job.facets;
    status = lw_edit_finish(&edit, job.image, expected, job.facet_count, &adapted, problem);
    why->step = status == LW_OK ? -1 : step_of_line(&edit, problem->line);
    if (status == LW_OK && !(adapted.deviation <= LW_MEET_HOLDS)) {
        why->step = step_to_blame(&job, &adapted.stone);
        lw_adapted_destroy(&adapted);
        status = LW_NO_SOLUTION;
    }
    why->free_angle = why->step >= 0 && edit.steps[why->step].angle == NULL;
    lw_edit_destroy(&edit);
    if (status == LW_OK) {
        *out = adapted;
    }
    return status;
}

/* Keeps as many rules as hold: a step that fails gives up its free angle, then its rule, and the
 * cut is written again. A point that the rules of a tier share is cut away by the first of the
 * tiers that it falls into. */
static lw_status keep_rules(const lw_memory *memory, lw_stretch_job job, double wanted,
                            unsigned char *given_up, lw_adapted *out, lw_problem *problem)
{
    lw_status status = LW_NO_SOLUTION;
    job.given_up = given_up;
    for (size_t i = 0; i <= 2 * lw_stretch_most_steps(&job); i++) {
        blame why = {.step = -1};
        status = write_cut(memory, job, wanted, &why, out, problem);
        if (status == LW_OK || status == LW_NO_MEMORY || why.step < 0 || given_up[why.step] == 2) {
            break;
        }
        given_up[why.step] = why.free_angle ? 1 : 2;
    }
    return status;
}

/* A step may have been blamed for what an earlier one did: each that gave something up is asked
 * once more, now that the others are right. */
static lw_status give_back(const lw_memory *memory, lw_stretch_job job, double wanted,
                           unsigned char *given_up, lw_adapted *adapted, lw_problem *problem)
{
    lw_status status = LW_OK;
    int count = adapted->cut.step_count;
    job.given_up = given_up;
    for (int i = 0; i < count && status != LW_NO_MEMORY; i++) {
        unsigned char kept = given_up[i];
        for (unsigned char less = 0; less < kept; less++) {
            blame why;
            lw_adapted better;
            given_up[i] = less;
            status = write_cut(memory, job, wanted, &why, &better, problem);
            if (status == LW_OK) {
                lw_adapted_destroy(adapted);
                *adapted = better;
                break;
            }
            given_up[i] = kept;
        }
    }
    return status == LW_NO_MEMORY ? status : LW_OK;
}

/* First with the teeth as they fall, where it can be told whether the rules that are kept give the
 * stretched stone; then, where that is asked for, with whole teeth. */
static lw_status adapt_with(const lw_memory *memory, lw_stretch_job job, double wanted,
                            unsigned char *given_up, lw_adapted *out, lw_problem *problem)
{
    lw_stretch_job plain = job;
    lw_adapted adapted = {0};
    blame why = {.step = -1};
    plain.whole_teeth = false;
    lw_status status = keep_rules(memory, plain, wanted, given_up, &adapted, problem);
    if (status == LW_OK) {
        status = give_back(memory, plain, wanted, given_up, &adapted, problem);
        if (status != LW_OK) {
            lw_adapted_destroy(&adapted);
            return status;
        }
    }
    if (job.whole_teeth && status == LW_OK) {
        lw_adapted_destroy(&adapted);
        status = keep_rules(memory, job, wanted, given_up, &adapted, problem);
    }
    if (status != LW_OK && status != LW_NO_MEMORY) {
        job.given_up = NULL;
        status = write_cut(memory, job, wanted, &why, &adapted, problem);
    }
    if (status == LW_OK) {
        adapted.exact = !job.whole_teeth;
        *out = adapted;
    }
    return status;
}

static lw_status adapt(const lw_memory *memory, lw_stretch_job job, double wanted, lw_adapted *out,
                       lw_problem *problem)
{
    size_t most = lw_stretch_most_steps(&job);
    void *given_up = NULL;
    lw_status status = lw_memory_new(memory, most, 1, &given_up);
    if (status == LW_OK) {
        status = adapt_with(memory, job, wanted, given_up, out, problem);
    }
    lw_memory_free(memory, given_up, most, 1);
    return status;
}

lw_status lw_adapt_to_outline(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                              double length_over_width, bool whole_teeth, lw_adapted *out,
                              lw_problem *problem)
{
    lw_stretch_job job = {.cut = cut, .stone = stone, .whole_teeth = whole_teeth};
    lw_problem own;
    lw_stone image;
    problem = problem != NULL ? problem : &own;
    if (!(length_over_width >= 1.0) || !isfinite(length_over_width)) {
        return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, "a length over width below 1",
                              "a number from 1 up", "");
    }
    lw_status status =
        ratios(memory, stone, length_over_width, &job.x_ratio, &job.y_ratio, problem);
    if (status == LW_OK) {
        status = lw_stone_stretch(memory, stone, cut->wheel, job.x_ratio, job.y_ratio, &image);
    }
    if (status != LW_OK) {
        return status;
    }
    job.image = &image;
    status = adapt(memory, job, length_over_width, out, problem);
    lw_stone_destroy(&image);
    return status;
}
