/* Lengths that only show once a tier is cut: edges, widths, culets. They are worked out from the
 * planes alone, one line or one face at a time, so that a depth can be looked for by trying. */
#include "cut/solver.h"

#include "cut/outline.h"
#include "geom/tolerance.h"

#include <math.h>

/* The planes that bound the stone once the tier in hand is cut, the rough's six last. */
typedef struct bounds {
    const lw_solver *solver;
    int step, first, end; /* the tier, or with "each" the one facet of it */
    int next;             /* facet to look at; from facet_count on a face of the rough */
} bounds;

static bounds bounds_of(const lw_solver *solver, lw_cutting now)
{
    const lw_tier *tier = &solver->tiers[now.step];
    bool each = solver->cut->steps[now.step].each;
    return (bounds){.solver = solver,
                    .step = now.step,
                    .first = each ? now.facet : tier->first,
                    .end = each ? now.facet + 1 : tier->first + tier->count};
}

static lw_plane rough_face(int nth)
{
    double turn = nth % 2 == 0 ? 1.0 : -1.0;
    return (lw_plane){
        {nth / 2 == 0 ? turn : 0.0, nth / 2 == 1 ? turn : 0.0, nth / 2 == 2 ? turn : 0.0},
        LW_ROUGH_HALF_EXTENT};
}

static bool next_plane(bounds *b, lw_plane *plane)
{
    const lw_solver *solver = b->solver;
    for (; b->next < solver->facet_count; b->next++) {
        int step = solver->facets[b->next].step;
        bool of_tier = b->next >= b->first && b->next < b->end;
        if (of_tier || (step < b->step && solver->known[step])) {
            *plane = solver->facets[b->next++].plane;
            return true;
        }
    }
    int nth = b->next - solver->facet_count;
    *plane = rough_face(nth % 6);
    b->next++;
    return nth < 6;
}

/* ---- an edge ------------------------------------------------------------ */

/* How much of the line of two planes lies within all others. */
static double edge_between(lw_solver *solver, bounds b, lw_plane one, lw_plane two)
{
    lw_vec3 along = lw_vec3_cross(one.normal, two.normal);
    double sine = lw_vec3_length(along);
    lw_plane plane;
    double low = -INFINITY;
    double high = INFINITY;
    if (sine < LW_SAME_DIRECTION) {
        return 0.0;
    }
    lw_vec3 start = lw_vec3_add(lw_vec3_scale(lw_vec3_cross(two.normal, along), one.distance),
                                lw_vec3_scale(lw_vec3_cross(along, one.normal), two.distance));
    start = lw_vec3_scale(start, 1.0 / (sine * sine));
    along = lw_vec3_scale(along, 1.0 / sine);
    while (next_plane(&b, &plane)) {
        double height = lw_plane_height(plane, start);
        double slope = lw_vec3_dot(plane.normal, along);
        if (slope > LW_SAME_DIRECTION) {
            high = fmin(high, -height / slope);
        } else if (slope < -LW_SAME_DIRECTION) {
            low = fmax(low, -height / slope);
        } else if (height > LW_MEET_HOLDS) {
            return 0.0;
        }
    }
    lw_solver_spend(solver, b.next / 32.0);
    return high > low ? high - low : 0.0;
}

/* ---- a face ------------------------------------------------------------- */

/* What is left of a flat convex outline under a plane. */
static int clip(const lw_vec3 *from, int count, lw_plane plane, lw_vec3 *to, int capacity)
{
    int kept = 0;
    for (int i = 0; i < count; i++) {
        lw_vec3 p = from[i];
        lw_vec3 q = from[i + 1 < count ? i + 1 : 0];
        double hp = lw_plane_height(plane, p);
        double hq = lw_plane_height(plane, q);
        if (hp <= 0.0 && kept < capacity) {
            to[kept++] = p;
        }
        if ((hp < 0.0 && hq > 0.0) || (hp > 0.0 && hq < 0.0)) {
            if (kept < capacity) {
                to[kept++] = lw_vec3_mix(p, q, hp / (hp - hq));
            }
        }
    }
    return kept;
}

/* The facet's outline on the stone, in the solver's room for it. */
static int face_of(lw_solver *solver, lw_cutting now)
{
    lw_outline *outline = &solver->outline;
    bounds b = bounds_of(solver, now);
    lw_plane own = solver->facets[now.facet].plane;
    lw_vec3 u = lw_solver_outward(solver, now.facet);
    lw_vec3 across = {-u.y, u.x, 0.0};
    lw_vec3 up = lw_vec3_cross(own.normal, across);
    lw_vec3 middle = lw_vec3_scale(own.normal, own.distance);
    lw_plane plane;
    int count = 4;
    for (int i = 0; i < 4; i++) {
        double x = i == 0 || i == 3 ? -4.0 : 4.0;
        double y = i < 2 ? -4.0 : 4.0;
        lw_vec3 p = lw_vec3_add(lw_vec3_scale(across, x * LW_ROUGH_HALF_EXTENT),
                                lw_vec3_scale(up, y * LW_ROUGH_HALF_EXTENT));
        outline->points[i] = lw_vec3_add(middle, p);
    }
    while (count > 0 && next_plane(&b, &plane)) {
        if (lw_vec3_length(lw_vec3_cross(plane.normal, own.normal)) < LW_SAME_DIRECTION) {
            bool beyond = lw_vec3_dot(plane.normal, own.normal) < 0.0
                              ? own.distance + plane.distance < LW_MEET_HOLDS
                              : own.distance - plane.distance > LW_MEET_HOLDS;
            count = beyond ? 0 : count;
            continue;
        }
        lw_solver_spend(solver, count / 32.0);
        count = clip(outline->points, count, plane, outline->clipped, outline->capacity);
        lw_vec3 *kept = outline->points;
        outline->points = outline->clipped;
        outline->clipped = kept;
    }
    return count;
}

static double width_along(const lw_vec3 *points, int count, lw_vec3 along)
{
    double lowest = INFINITY;
    double highest = -INFINITY;
    for (int i = 0; i < count; i++) {
        double t = lw_vec3_dot(along, points[i]);
        lowest = fmin(lowest, t);
        highest = fmax(highest, t);
    }
    return highest > lowest ? highest - lowest : 0.0;
}

/* ---- the rules ---------------------------------------------------------- */

/* The plane that a reference names, of the stone or of the tier in hand. */
static lw_outcome named_plane(lw_solver *solver, lw_cutting now, const lw_facet_ref *ref,
                              lw_plane *plane)
{
    int facet = 0;
    bounds b = bounds_of(solver, now);
    lw_outcome outcome = lw_solver_find(solver, now, ref, &facet);
    if (outcome == LW_FAILED) {
        return LW_FAILED;
    }
    int step = solver->facets[facet].step;
    bool in_hand = facet >= b.first && facet < b.end;
    if (step >= now.step && !in_hand) {
        return lw_solver_fail(solver, LW_NOT_FOUND, ref->place, "a facet that is not cut yet",
                              "a facet whose edge is there to be measured", "");
    }
    if (!in_hand && outcome != LW_GOT) {
        return outcome;
    }
    *plane = solver->facets[facet].plane;
    return LW_GOT;
}

static lw_outcome edge_length(lw_solver *solver, lw_cutting now, const lw_facet_ref *first,
                              const lw_facet_ref *second, double *length)
{
    lw_plane one = solver->facets[now.facet].plane;
    lw_plane two;
    lw_outcome outcome = named_plane(solver, now, first, &two);
    if (outcome == LW_GOT && second != NULL) {
        one = two;
        outcome = named_plane(solver, now, second, &two);
    }
    if (outcome == LW_GOT) {
        *length = edge_between(solver, bounds_of(solver, now), one, two);
    }
    return outcome;
}

static lw_outcome equal_miss(lw_solver *solver, lw_cutting now, const lw_rule *rule, double *miss)
{
    double lengths[2] = {0.0, 0.0};
    for (int i = 0; i < 2; i++) {
        lw_outcome outcome =
            edge_length(solver, now, rule->edges[i].first, rule->edges[i].second, &lengths[i]);
        if (outcome != LW_GOT) {
            return outcome;
        }
    }
    *miss = lengths[0] - lengths[1];
    return LW_GOT;
}

lw_outcome lw_solver_shape_miss(lw_solver *solver, lw_cutting now, const lw_rule *rule,
                                double *miss)
{
    double wanted = 0.0;
    double length = 0.0;
    if (rule->kind == LW_RULE_EQUAL) {
        return equal_miss(solver, now, rule, miss);
    }
    lw_outcome outcome = lw_solver_length(solver, rule->value, &wanted);
    if (outcome == LW_GOT && rule->kind == LW_RULE_EDGE) {
        outcome = edge_length(solver, now, &rule->facets[0], NULL, &length);
    } else if (outcome == LW_GOT) {
        int count = face_of(solver, now);
        lw_vec3 u = lw_solver_outward(solver, now.facet);
        lw_widths widths = lw_widths_of(solver->outline.points, NULL, count);
        lw_solver_spend(solver, (double)count * count / 64.0);
        length = rule->kind == LW_RULE_WIDTH
                     ? width_along(solver->outline.points, count, (lw_vec3){-u.y, u.x, 0.0})
                     : widths.least;
    }
    if (outcome == LW_GOT) {
        *miss = length - wanted;
    }
    return outcome;
}
