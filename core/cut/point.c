/* Points on the stone, from the facets that come together in them. */
#include "cut/solver.h"
#include "cut/write.h"

#include "geom/tolerance.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static double determinant(lw_vec3 a, lw_vec3 b, lw_vec3 c)
{
    return lw_vec3_dot(a, lw_vec3_cross(b, c));
}

static lw_vec3 common_point(const lw_plane *a, const lw_plane *b, const lw_plane *c)
{
    double det = determinant(a->normal, b->normal, c->normal);
    lw_vec3 sum = lw_vec3_scale(lw_vec3_cross(b->normal, c->normal), a->distance);
    sum = lw_vec3_add(sum, lw_vec3_scale(lw_vec3_cross(c->normal, a->normal), b->distance));
    sum = lw_vec3_add(sum, lw_vec3_scale(lw_vec3_cross(a->normal, b->normal), c->distance));
    return lw_vec3_scale(sum, 1.0 / det);
}

/* The three of the planes that stand best to one another. Gives their determinant's size. */
static double best_three(const lw_plane *planes, int count, int three[3])
{
    double best = 0.0;
    for (int i = 0; i < count; i++) {
        for (int j = i + 1; j < count; j++) {
            for (int k = j + 1; k < count; k++) {
                double det =
                    fabs(determinant(planes[i].normal, planes[j].normal, planes[k].normal));
                /* The first of equals: a tie broken by rounding would differ between twins. */
                if (det > best * (1.0 + LW_MEET_HOLDS)) {
                    best = det;
                    three[0] = i;
                    three[1] = j;
                    three[2] = k;
                }
            }
        }
    }
    return best;
}

static lw_outcome no_meet(lw_solver *solver, const lw_point *point, const char *hint)
{
    char text[LW_PROBLEM_TEXT];
    char found[LW_PROBLEM_TEXT + 40];
    (void)lw_point_write(point, text, sizeof text);
    snprintf(found, sizeof found, "%s, which do not come together", text);
    return lw_solver_fail(solver, LW_NOT_FOUND, point->place, found, "a meet that exists", hint);
}

/* Whether all the facets are on the stone, so that the meet must be there to be seen. */
static bool all_cut(const lw_solver *solver, const int *facets, int count)
{
    bool all = !lw_solver_lacks(solver) && !solver->tentative;
    for (int i = 0; i < count; i++) {
        all = all && lw_solver_is_cut(solver, facets[i]);
    }
    return all;
}

static lw_outcome must_be_there(lw_solver *solver, const lw_point *point, lw_vec3 p)
{
    int cut_by = 0;
    if (lw_solver_holds(solver, p, &cut_by)) {
        return LW_GOT;
    }
    char hint[LW_PROBLEM_TEXT];
    const lw_facet *f = &solver->facets[cut_by];
    const lw_step *step = &solver->cut->steps[f->step];
    snprintf(hint, sizeof hint, "it is cut away by %s of line %d", step->name, step->place.line);
    return no_meet(solver, point, hint);
}

static lw_outcome misses(lw_solver *solver, const lw_point *point, int nth, double miss)
{
    char hint[LW_PROBLEM_TEXT];
    char name[LW_CUT_MOST_NAME + 64];
    char number[LW_SOLVER_FIGURE];
    (void)lw_facet_ref_write(&point->facets[nth], name, sizeof name);
    snprintf(hint, sizeof hint, "%s misses the others' point by %s %% of the width", name,
             lw_solver_figure(100.0 * fabs(miss), 3, number));
    return no_meet(solver, point, hint);
}

static lw_outcome meet_of_planes(lw_solver *solver, const lw_point *point, const int *facets,
                                 int count, lw_vec3 *out)
{
    lw_plane planes[LW_CUT_MOST_MEET];
    for (int i = 0; i < count; i++) {
        planes[i] = solver->facets[facets[i]].plane;
    }
    int three[3] = {0, 1, 2};
    lw_solver_spend(solver, count * count * count / 128.0);
    if (best_three(planes, count, three) < LW_RUNS_ALIKE) {
        return no_meet(solver, point, "they are parallel, or share a line");
    }
    lw_vec3 p = common_point(&planes[three[0]], &planes[three[1]], &planes[three[2]]);
    if (all_cut(solver, facets, count)) {
        for (int i = 0; i < count; i++) {
            double miss = lw_plane_height(planes[i], p);
            if (fabs(miss) > LW_MEET_HOLDS) {
                return misses(solver, point, i, miss);
            }
        }
        if (must_be_there(solver, point, p) != LW_GOT) {
            return LW_FAILED;
        }
    }
    *out = p;
    return LW_GOT;
}

static bool vertex_has(const lw_polyhedron *shape, int vertex, int plane)
{
    for (int k = shape->vertex_start[vertex]; k < shape->vertex_start[vertex + 1]; k++) {
        if (shape->vertex_plane[k] == plane) {
            return true;
        }
    }
    return false;
}

/* "girdle@3" for a third facet at a vertex, to tell the ends of an edge apart. */
static size_t third_facet(const lw_solver *solver, const lw_polyhedron *shape, int vertex,
                          const int planes[2], char *text, size_t capacity)
{
    for (int k = shape->vertex_start[vertex]; k < shape->vertex_start[vertex + 1]; k++) {
        int plane = shape->vertex_plane[k];
        if (plane != planes[0] && plane != planes[1] && plane < shape->plane_count) {
            int facet = solver->standing.facet_of[plane];
            int step = solver->facets[facet].step;
            double tooth = solver->text_teeth[facet];
            char number[LW_SOLVER_FIGURE];
            lw_solver_figure(tooth == 0.0 ? (double)solver->cut->wheel : tooth, 10, number);
            return (size_t)snprintf(text, capacity, "%s@%s", solver->cut->steps[step].name, number);
        }
    }
    return (size_t)snprintf(text, capacity, "the rough");
}

static lw_outcome two_ends(lw_solver *solver, const lw_point *point, const lw_polyhedron *shape,
                           const int ends[2], const int planes[2])
{
    char hint[LW_PROBLEM_TEXT] = "name a third facet: ";
    size_t used = strlen(hint);
    used += third_facet(solver, shape, ends[0], planes, hint + used, sizeof hint - used);
    used += (size_t)snprintf(hint + used, sizeof hint - used, " or ");
    (void)third_facet(solver, shape, ends[1], planes, hint + used, sizeof hint - used);
    return lw_solver_fail(solver, LW_AMBIGUOUS, point->place,
                          "two facets that share an edge with two ends", "one point", hint);
}

/* The vertex that two facets share. */
static lw_outcome meet_of_two(lw_solver *solver, const lw_point *point, const int *facets,
                              lw_vec3 *out)
{
    int planes[2];
    int ends[2] = {-1, -1};
    int count = 0;
    lw_outcome outcome = lw_solver_whole(solver);
    for (int i = 0; i < 2 && outcome == LW_GOT; i++) {
        planes[i] = lw_solver_plane(solver, facets[i]);
        if (planes[i] < 0) {
            return lw_solver_fail(solver, LW_NOT_FOUND, point->facets[i].place,
                                  "a facet that is not cut yet", "two facets that share a point",
                                  "of three facets or more, some may be cut later");
        }
    }
    if (outcome != LW_GOT) {
        return outcome;
    }
    const lw_polyhedron *shape = lw_solver_shape(solver);
    lw_solver_spend(solver, shape->vertex_count / 16.0);
    planes[0] = shape->same_as[planes[0]];
    planes[1] = shape->same_as[planes[1]];
    for (int v = 0; v < shape->vertex_count; v++) {
        if (vertex_has(shape, v, planes[0]) && vertex_has(shape, v, planes[1])) {
            ends[count < 2 ? count : 1] = v;
            count++;
        }
    }
    if (count == 0) {
        return no_meet(solver, point, "no point of the stone has both");
    }
    if (count > 1) {
        return two_ends(solver, point, shape, ends, planes);
    }
    *out = shape->vertices[ends[0]];
    return LW_GOT;
}

/* Finds all facets of a point; LW_WAITS when any is not known. */
static lw_outcome find_all(lw_solver *solver, lw_cutting now, const lw_point *point, int *facets)
{
    lw_outcome worst = LW_GOT;
    for (int i = 0; i < point->facet_count; i++) {
        lw_outcome outcome = lw_solver_find(solver, now, &point->facets[i], &facets[i]);
        if (outcome == LW_FAILED) {
            return LW_FAILED;
        }
        worst = outcome == LW_WAITS ? LW_WAITS : worst;
    }
    return worst;
}

bool lw_solver_line_is_level(lw_vec3 a, lw_vec3 b)
{
    lw_vec3 along = lw_vec3_cross(a, b);
    double run = sqrt(along.x * along.x + along.y * along.y);
    return run > LW_RUNS_ALIKE && fabs(along.z) < LW_LEVEL_LINE * run;
}

/* The direction from the axis in which the point of a line is looked for: straight out to a level
 * line, else along the own tooth. */
static lw_vec3 line_direction(const lw_solver *solver, lw_cutting now, lw_vec3 a, lw_vec3 b)
{
    if (!lw_solver_line_is_level(a, b)) {
        return lw_solver_outward(solver, now.facet);
    }
    lw_vec3 along = lw_vec3_cross(a, b);
    double run = sqrt(along.x * along.x + along.y * along.y);
    return (lw_vec3){along.y / run, -along.x / run, 0.0};
}

lw_outcome lw_solver_level(lw_solver *solver, lw_cutting now, lw_place place, double *z)
{
    lw_outcome outcome = lw_solver_whole(solver);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (lw_solver_girdle_line(solver, lw_solver_sign(solver, now.step), z)) {
        return LW_GOT;
    }
    if (lw_solver_begun(solver)) {
        return lw_solver_fail(solver, LW_BAD_INPUT, place, "no girdle line on this side yet",
                              "a facet of this side that meets the girdle", "");
    }
    *z = 0.0;
    return LW_GOT;
}

/* Where the upright edge of two girdle facets stands at the girdle line. */
static lw_outcome outline_corner(lw_solver *solver, lw_cutting now, const lw_point *point,
                                 const lw_plane *a, const lw_plane *b, lw_vec3 *out)
{
    double det = a->normal.x * b->normal.y - a->normal.y * b->normal.x;
    double z = 0.0;
    if (fabs(det) < LW_RUNS_ALIKE) {
        return no_meet(solver, point, "they are parallel");
    }
    lw_outcome outcome = lw_solver_level(solver, now, point->place, &z);
    if (outcome == LW_GOT) {
        *out = (lw_vec3){(a->distance * b->normal.y - b->distance * a->normal.y) / det,
                         (a->normal.x * b->distance - b->normal.x * a->distance) / det, z};
    }
    return outcome;
}

static lw_outcome line_point(lw_solver *solver, lw_cutting now, const lw_point *point,
                             const int *facets, lw_vec3 *out)
{
    const lw_plane *a = &solver->facets[facets[0]].plane;
    const lw_plane *b = &solver->facets[facets[1]].plane;
    if (a->normal.z == 0.0 && b->normal.z == 0.0) {
        return outline_corner(solver, now, point, a, b, out);
    }
    lw_vec3 u = line_direction(solver, now, a->normal, b->normal);
    double ar = lw_vec3_dot(a->normal, u);
    double br = lw_vec3_dot(b->normal, u);
    double det = ar * b->normal.z - br * a->normal.z;
    if (fabs(det) < LW_RUNS_ALIKE) {
        return no_meet(solver, point, "their line does not cross this tooth's direction");
    }
    double r = (a->distance * b->normal.z - b->distance * a->normal.z) / det;
    double z = (ar * b->distance - br * a->distance) / det;
    *out = (lw_vec3){r * u.x, r * u.y, z};
    return LW_GOT;
}

static lw_outcome apex(lw_solver *solver, lw_cutting now, const lw_point *point, lw_vec3 *out)
{
    lw_outcome outcome = lw_solver_whole(solver);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (!lw_solver_apex(solver, lw_solver_sign(solver, now.step), out)) {
        return lw_solver_fail(solver, LW_NOT_FOUND, point->place, "no point on the axis yet",
                              "a point that an earlier step made", "");
    }
    return LW_GOT;
}

static lw_outcome share(lw_solver *solver, lw_cutting now, const lw_point *point, lw_vec3 *out)
{
    lw_vec3 from = {0.0, 0.0, 0.0};
    lw_vec3 towards = {0.0, 0.0, 0.0};
    double part = 0.0;
    lw_outcome outcome = lw_solver_bare(solver, point->share, &part);
    if (outcome == LW_GOT) {
        outcome = lw_solver_point(solver, now, point->from, &from);
    }
    if (outcome == LW_GOT) {
        outcome = lw_solver_point(solver, now, point->towards, &towards);
    }
    if (outcome == LW_GOT) {
        *out = lw_vec3_mix(from, towards, part);
    }
    return outcome;
}

lw_outcome lw_solver_point(lw_solver *solver, lw_cutting now, const lw_point *point, lw_vec3 *out)
{
    lw_solver_spend(solver, 1.0);
    if (point->kind == LW_POINT_APEX) {
        return apex(solver, now, point, out);
    }
    if (point->kind == LW_POINT_SHARE) {
        return share(solver, now, point, out);
    }
    int facets[LW_CUT_MOST_MEET] = {0};
    lw_outcome outcome = find_all(solver, now, point, facets);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (point->kind == LW_POINT_LINE) {
        return line_point(solver, now, point, facets, out);
    }
    if (point->facet_count == 2) {
        return meet_of_two(solver, point, facets, out);
    }
    return meet_of_planes(solver, point, facets, point->facet_count, out);
}
