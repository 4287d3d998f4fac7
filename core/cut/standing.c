/* The stone before a step, cut as far as it is asked about. */
#include "cut/solver.h"

#include "geom/tolerance.h"

#include <math.h>

static int side_number(double sign)
{
    return sign > 0.0 ? 1 : 0;
}

void lw_solver_stand_before(lw_solver *solver, int step)
{
    solver->standing.before = step;
}

void lw_solver_changed(lw_solver *solver, int step)
{
    if (step < solver->standing.built) {
        solver->standing.built = -1;
    }
}

bool lw_solver_lacks(const lw_solver *solver)
{
    return solver->first_waiting < solver->standing.before;
}

lw_outcome lw_solver_whole(lw_solver *solver)
{
    return lw_solver_lacks(solver) ? lw_solver_wait_for(solver, solver->first_waiting) : LW_GOT;
}

static void start(lw_solver *solver)
{
    lw_standing *s = &solver->standing;
    lw_solid_start(s->solid, LW_ROUGH_HALF_EXTENT);
    s->built = 0;
    s->extracted = false;
    s->plane_count = 0;
    s->trouble = -1;
    lw_solver_spend(solver, 10.0);
}

static void note_trouble(lw_standing *s, int step, lw_status status)
{
    if (s->trouble < 0) {
        s->trouble = step;
        s->trouble_status = status;
    }
}

/* Cuts a step's facets, as long as the solid takes them. */
static void cut_step(lw_solver *solver, int step)
{
    lw_standing *s = &solver->standing;
    const lw_tier *tier = &solver->tiers[step];
    bool full = s->trouble >= 0 && s->trouble_status == LW_TOO_LARGE;
    s->first_plane[step] = -1;
    if (!solver->known[step] || full) {
        return;
    }
    s->first_plane[step] = s->plane_count;
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        lw_cut_effect effect = LW_CUT_MISSED;
        lw_status status = lw_solid_cut(s->solid, solver->facets[i].plane, &effect);
        if (status != LW_OK) {
            note_trouble(s, step, status);
            s->first_plane[step] = -1;
            return;
        }
        if (effect == LW_CUT_EMPTIED) {
            note_trouble(s, step, LW_EMPTY);
        }
        s->facet_of[s->plane_count++] = i;
    }
    lw_solver_spend(solver, tier->count);
    s->extracted = false;
}

static void cut_up(lw_solver *solver)
{
    lw_standing *s = &solver->standing;
    if (s->built < 0 || s->built > s->before) {
        start(solver);
    }
    for (; s->built < s->before; s->built++) {
        cut_step(solver, s->built);
    }
}

lw_outcome lw_solver_cut_up(lw_solver *solver)
{
    const lw_standing *s = &solver->standing;
    cut_up(solver);
    if (s->trouble < 0) {
        return LW_GOT;
    }
    lw_place place = solver->cut->steps[s->trouble].place;
    if (s->trouble_status == LW_EMPTY) {
        return lw_solver_fail(solver, LW_EMPTY, place, "a step that cuts the whole stone away",
                              "some stone left", "");
    }
    return lw_solver_fail(solver, s->trouble_status, place,
                          "too many facets that only touch the stone",
                          "facets that take something away", "");
}

/* ---- what is read off it ------------------------------------------------ */

/* Whether one of the planes through a vertex is a girdle facet, and whether some belong to the
 * pavilion and to the crown. */
static void planes_at(const lw_polyhedron *shape, int vertex, bool *girdle, bool side[2])
{
    *girdle = side[0] = side[1] = false;
    for (int k = shape->vertex_start[vertex]; k < shape->vertex_start[vertex + 1]; k++) {
        int plane = shape->vertex_plane[k];
        if (plane < shape->plane_count) {
            double nz = shape->planes[plane].normal.z;
            *girdle = *girdle || nz == 0.0;
            side[0] = side[0] || nz < 0.0;
            side[1] = side[1] || nz > 0.0;
        }
    }
}

/* Takes a vertex into the girdle line and the apex of a side. */
static void read_vertex(lw_standing *s, int vertex)
{
    bool girdle = false;
    bool side[2] = {false, false};
    lw_vec3 p = s->shape.vertices[vertex];
    bool on_axis = sqrt(p.x * p.x + p.y * p.y) < LW_MEET_HOLDS;
    planes_at(&s->shape, vertex, &girdle, side);
    for (int k = 0; k < 2; k++) {
        bool nearer = k == 1 ? p.z < s->line[k] : p.z > s->line[k];
        if (girdle && side[k] && (!s->has_line[k] || nearer)) {
            s->line[k] = p.z;
            s->has_line[k] = true;
        }
        if (on_axis && side[k] && !s->has_apex[k]) {
            s->apex[k] = p;
            s->has_apex[k] = true;
        }
    }
}

static void read_off(lw_standing *s)
{
    for (int k = 0; k < 2; k++) {
        s->begun[k] = s->has_line[k] = s->has_apex[k] = false;
    }
    for (int p = 0; p < s->shape.plane_count; p++) {
        double nz = s->shape.planes[p].normal.z;
        if (s->shape.face_start[p + 1] > s->shape.face_start[p] && nz != 0.0) {
            s->begun[side_number(nz)] = true;
        }
    }
    for (int v = 0; v < s->shape.vertex_count; v++) {
        read_vertex(s, v);
    }
}

/* The standing stone, cut, extracted and read. */
static lw_standing *stand(lw_solver *solver)
{
    lw_standing *s = &solver->standing;
    cut_up(solver);
    if (!s->extracted) {
        lw_solid_extract(s->solid, &s->shape);
        read_off(s);
        s->extracted = true;
        lw_solver_spend(solver, s->plane_count / 8.0);
    }
    return s;
}

const lw_polyhedron *lw_solver_shape(lw_solver *solver)
{
    return &stand(solver)->shape;
}

bool lw_solver_is_cut(const lw_solver *solver, int facet)
{
    int step = solver->facets[facet].step;
    return step < solver->standing.before && solver->known[step];
}

int lw_solver_plane(lw_solver *solver, int facet)
{
    int step = solver->facets[facet].step;
    if (!lw_solver_is_cut(solver, facet)) {
        return -1;
    }
    int first = stand(solver)->first_plane[step];
    return first < 0 ? -1 : first + facet - solver->tiers[step].first;
}

bool lw_solver_has_face(lw_solver *solver, int facet)
{
    int plane = lw_solver_plane(solver, facet);
    if (plane < 0) {
        return false;
    }
    const lw_polyhedron *shape = lw_solver_shape(solver);
    int same = shape->same_as[plane];
    return shape->face_start[same + 1] > shape->face_start[same];
}

bool lw_solver_girdle_line(lw_solver *solver, double sign, double *z)
{
    const lw_standing *s = stand(solver);
    int side = side_number(sign);
    if (s->has_line[side]) {
        *z = s->line[side];
    }
    return s->has_line[side];
}

bool lw_solver_side_begun(lw_solver *solver, double sign)
{
    return stand(solver)->begun[side_number(sign)];
}

bool lw_solver_begun(lw_solver *solver)
{
    const lw_standing *s = stand(solver);
    return s->begun[0] || s->begun[1];
}

bool lw_solver_apex(lw_solver *solver, double sign, lw_vec3 *point)
{
    const lw_standing *s = stand(solver);
    int side = side_number(sign);
    if (s->has_apex[side]) {
        *point = s->apex[side];
    }
    return s->has_apex[side];
}
