#include "cut/adapt_stretch.h"

#include "geom/tolerance.h"

#include <math.h>

/* Facets of one old tier that stay alike: one new step. */
typedef struct group {
    int count;
    int facets[LW_CUT_MOST_FACETS]; /* the leader first */
} group;

double lw_stretched_tooth(const lw_stretch_job *job, double tooth)
{
    int wheel = job->cut->wheel;
    lw_sincos azimuth = lw_tooth_sincos(tooth, wheel);
    lw_facet facet = {.plane.normal = {azimuth.cos, azimuth.sin, 0.0}};
    lw_facet_stretch(&facet, wheel, job->x_ratio, job->y_ratio);
    double moved = job->whole_teeth ? floor(facet.tooth + 0.5) : facet.tooth;
    return lw_written_tooth(lw_tooth_wrap(moved, wheel), wheel);
}

static void stretch_ref(const void *context, lw_facet_ref *ref)
{
    if (ref->relation == LW_RELATION_TOOTH) {
        ref->tooth = lw_stretched_tooth(context, ref->tooth);
    }
}

static bool alike(const lw_facet *a, const lw_facet *b)
{
    return fabs(a->angle_deg - b->angle_deg) <= LW_SAME_ANGLE_DEG &&
           fabs(a->plane.distance - b->plane.distance) <= LW_MEET_HOLDS;
}

/* Takes the first facet that is left and all that are like it; false when none is left. The leader,
 * from whose tooth the rules are read, is no mirror image: the mirror holds an axis, so each group
 * has facets of both kinds. */
static bool next_group(const lw_stretch_job *job, int step, const lw_tooth_image *images,
                       bool *taken, group *out)
{
    const lw_tier *tier = &job->stone->tiers[step];
    const lw_facet *facets = job->image->facets + tier->first;
    int first = 0;
    while (first < tier->count && taken[first]) {
        first++;
    }
    if (first == tier->count) {
        return false;
    }
    int leader = -1;
    out->count = 0;
    for (int i = first; i < tier->count; i++) {
        if (taken[i] || !alike(&facets[first], &facets[i])) {
            continue;
        }
        taken[i] = true;
        leader = leader < 0 && !images[i].mirrored ? out->count : leader;
        out->facets[out->count++] = i;
    }
    if (leader > 0) {
        int kept = out->facets[0];
        out->facets[0] = out->facets[leader];
        out->facets[leader] = kept;
    }
    return true;
}

/* Whether the group's teeth are those that its leader has under the new default symmetry; puts the
 * group in their order. */
static bool is_symmetric(const lw_stretch_job *job, const double *teeth, group *g)
{
    lw_tooth_image *images = job->probed;
    int *order = job->order;
    const lw_cut *cut = &job->edit->cut;
    lw_step probe = {.teeth = teeth, .tooth_count = 1};
    if (lw_step_teeth(cut, &probe, images, LW_CUT_MOST_FACETS) != g->count) {
        return false;
    }
    for (int i = 0; i < g->count; i++) {
        order[i] = -1;
        for (int k = 0; k < g->count; k++) {
            if (lw_tooth_same(images[i].tooth, teeth[k], cut->wheel)) {
                order[i] = g->facets[k];
            }
        }
        if (order[i] < 0) {
            return false;
        }
    }
    for (int i = 0; i < g->count; i++) {
        g->facets[i] = order[i];
    }
    return true;
}

static void place_teeth(lw_stretch_job *job, const lw_tooth_image *images, group *g, lw_step *step)
{
    double *teeth = lw_edit_new(job->edit, (size_t)g->count, sizeof *teeth);
    if (teeth == NULL) {
        return;
    }
    for (int i = 0; i < g->count; i++) {
        teeth[i] = lw_stretched_tooth(job, images[g->facets[i]].tooth);
    }
    step->own_symmetry = false;
    step->tooth_free = false;
    step->teeth = teeth;
    step->listed = !is_symmetric(job, teeth, g);
    step->tooth_count = step->listed ? g->count : 1;
}

/* Three facets make a point; with teeth rounded, a fourth passes it by. */
static void three_to_a_meet(lw_stretch_job *job, lw_step *step)
{
    for (int r = 0; r < step->rule_count; r++) {
        const lw_point *point = step->rules[r].point;
        if (point == NULL || point->kind != LW_POINT_MEET || point->facet_count <= 3) {
            continue;
        }
        lw_point *three = lw_edit_new(job->edit, 1, sizeof *three);
        if (three != NULL) {
            *three = *point;
            three->facet_count = 3;
            step->rules[r].point = three;
        }
    }
}

/* The middle of a face, weighted by area; false without one. */
static bool face_centre(const lw_polyhedron *solid, int plane, lw_vec3 *out)
{
    int first = solid->face_start[plane];
    int end = solid->face_start[plane + 1];
    lw_vec3 sum = {0.0, 0.0, 0.0};
    double area = 0.0;
    for (int k = first + 1; k + 1 < end; k++) {
        lw_vec3 a = solid->vertices[solid->face_vertex[first]];
        lw_vec3 b = solid->vertices[solid->face_vertex[k]];
        lw_vec3 c = solid->vertices[solid->face_vertex[k + 1]];
        lw_vec3 across = lw_vec3_cross(lw_vec3_sub(b, a), lw_vec3_sub(c, a));
        double part = lw_vec3_length(across);
        sum = lw_vec3_add(sum, lw_vec3_scale(lw_vec3_add(a, lw_vec3_add(b, c)), part / 3.0));
        area += part;
    }
    if (area <= 0.0) {
        return false;
    }
    *out = lw_vec3_scale(sum, 1.0 / area);
    return true;
}

/* The facet as its step will cut it: where its tooth is rounded, turned about the middle of its
 * face, so that it stays where it is. */
static lw_facet placed_facet(const lw_stretch_job *job, int at, const lw_step *step)
{
    lw_facet facet = job->image->facets[at];
    lw_vec3 centre = {0.0, 0.0, 0.0};
    if (!job->whole_teeth || step->tooth_count == 0 ||
        !face_centre(&job->image->solid, at, &centre)) {
        return facet;
    }
    lw_vec3 *n = &facet.plane.normal;
    double wide = sqrt(n->x * n->x + n->y * n->y);
    lw_sincos azimuth = lw_tooth_sincos(floor(facet.tooth + 0.5), job->cut->wheel);
    *n = (lw_vec3){wide * azimuth.cos, wide * azimuth.sin, n->z};
    facet.plane.distance = lw_vec3_dot(*n, centre);
    return facet;
}

/* A depth in figures: the width across for an upright facet, else its distance. */
static void explicit_depth(lw_stretch_job *job, lw_step *step, const lw_facet *facet)
{
    lw_edit_explicit_distance(job->edit, step, facet, 1);
    if (facet->plane.normal.z == 0.0) {
        double across = 200.0 * facet->plane.distance;
        step->rules[0].kind = LW_RULE_SIZE;
        step->rules[0].value = lw_edit_number(job->edit, across, LW_UNIT_PERCENT);
    }
}

/* The step's rules, or what it has given up in figures. */
static void place_rules(lw_stretch_job *job, int at, const group *g, lw_step *step)
{
    lw_facet facet = placed_facet(job, job->stone->tiers[at].first + g->facets[0], step);
    int given_up = job->given_up != NULL ? job->given_up[job->step_count] : 2;
    bool free_angle = step->angle == NULL && step->rule_count == 2 && given_up == 0;
    const lw_expr *angle = lw_edit_number(job->edit, facet.angle_deg, LW_UNIT_NUMBER);
    step->each = false;
    step->angle = free_angle ? NULL : angle;
    step->angle_near = free_angle ? angle : NULL;
    step->rule_count = free_angle ? 2 : 1;
    if (given_up == 2) {
        explicit_depth(job, step, &facet);
    }
    if (job->whole_teeth) {
        three_to_a_meet(job, step);
    }
    lw_edit_change_refs(job->edit, step, stretch_ref, job);
}

static void add_group(lw_stretch_job *job, int at, const lw_tooth_image *images, group *g)
{
    lw_step step = job->cut->steps[at];
    bool level = step.tooth_count == 0;
    if (!level) {
        place_teeth(job, images, g, &step);
    }
    place_rules(job, at, g, &step);
    for (int i = 0; i < g->count; i++) {
        job->facets[job->facet_count++] =
            job->image->facets[job->stone->tiers[at].first + g->facets[i]];
    }
    job->of[job->step_count] = at;
    job->steps[job->step_count++] = step;
}

static void split_step(lw_stretch_job *job, int at, group *g)
{
    lw_tooth_image *images = job->images;
    bool taken[LW_CUT_MOST_FACETS] = {false};
    const lw_step *step = &job->cut->steps[at];
    (void)lw_step_teeth(job->cut, step, images, LW_CUT_MOST_FACETS);
    if (step->tooth_free) {
        const lw_facet *facet = &job->stone->facets[job->stone->tiers[at].first];
        images[0].tooth =
            job->cut->left_handed ? lw_tooth_wrap(-facet->tooth, job->cut->wheel) : facet->tooth;
    }
    while (!job->edit->out_of_memory && next_group(job, at, images, taken, g)) {
        add_group(job, at, images, g);
    }
}

size_t lw_stretch_most_steps(const lw_stretch_job *job)
{
    return (size_t)(job->cut->step_count + job->stone->facet_count);
}

void lw_stretch_steps(lw_stretch_job *job)
{
    size_t steps = lw_stretch_most_steps(job);
    group *g = lw_edit_new(job->edit, 1, sizeof *g);
    job->images = lw_edit_new(job->edit, LW_CUT_MOST_FACETS, sizeof *job->images);
    job->probed = lw_edit_new(job->edit, LW_CUT_MOST_FACETS, sizeof *job->probed);
    job->order = lw_edit_new(job->edit, LW_CUT_MOST_FACETS, sizeof *job->order);
    job->steps = lw_edit_new(job->edit, steps, sizeof *job->steps);
    job->of = lw_edit_new(job->edit, steps, sizeof *job->of);
    job->facets = lw_edit_new(job->edit, (size_t)job->stone->facet_count, sizeof *job->facets);
    for (int i = 0; i < job->cut->step_count && !job->edit->out_of_memory; i++) {
        if (job->cut->steps[i].kind == LW_STEP_FACETS) {
            split_step(job, i, g);
        } else {
            job->of[job->step_count] = i;
            job->steps[job->step_count++] = job->cut->steps[i];
        }
    }
}
