#include "light/scan.h"

#include "builtin.h"
#include "geom/angle.h"
#include "light/built_in.h"
#include "light/follow.h"

#include <math.h>
#include <stdlib.h>

const char *view_text(view v)
{
    static const char *const texts[VIEWS] = {"head 10",      "no head", "weighted cos^2",
                                             "weighted cos", "fire",    "brightness x fire",
                                             "fire, rocked"};
    return texts[v];
}

/* ---- points and weights --------------------------------------------------- */

/* Roots of Legendre's polynomial by Newton's method, for 0..1 (Abramowitz & Stegun 25.4.29). */
static void gauss(int n, double at[], double weight[])
{
    for (int i = 0; i < n; i++) {
        double x = lw_sincos_deg(180.0 * (i + 0.75) / (n + 0.5)).cos, slope = 1.0;
        for (int steps = 0; steps < 60; steps++) {
            double p0 = 1.0, p1 = x;
            for (int k = 2; k <= n; k++) {
                double p2 = ((2 * k - 1) * x * p1 - (k - 1) * p0) / k;
                p0 = p1;
                p1 = p2;
            }
            slope = n * (x * p1 - p0) / (x * x - 1.0);
            x -= p1 / slope;
        }
        at[i] = 0.5 * (1.0 + x);
        weight[i] = 1.0 / ((1.0 - x * x) * slope * slope);
    }
}

/* ---- one stone ------------------------------------------------------------ */

static bool is_crown(const lw_polyhedron *solid, int plane)
{
    return solid->planes[plane].normal.z > 1e-9;
}

typedef struct looker {
    lw_memory memory;
    const lw_polyhedron *solid;
    lw_optic_solid optic;
    lw_light_options options;
    lw_facet_light facets[160];
} looker;

/* Brightness that is seen through the crown, x outline; and fire. */
static lw_status through_crown(looker *l, double *light, double *fire)
{
    lw_light_measures m;
    lw_status status = lw_light_measure_facets(&l->memory, l->solid, &l->options, &m, l->facets);
    if (status != LW_OK)
        return status;
    double crown = 0.0;
    for (int i = 0; i < l->solid->plane_count; i++)
        crown += is_crown(l->solid, i) ? l->facets[i].bright : 0.0;
    lw_vec3 eye = lw_eye_direction(l->options.tilt_deg, l->options.turn_deg);
    *light = crown * outline_area(&l->optic, eye);
    *fire = m.fire_deg;
    return LW_OK;
}

/* Means over the half space, from directions between a main and the next break. */
static lw_status look_around(looker *l, const directions *how, seen *out)
{
    double cosine[12], weight[12], disc = outline_area(&l->optic, (lw_vec3){0.0, 0.0, 1.0});
    double fire_sum = 0.0, fire_weight = 0.0;
    gauss(how->tilts, cosine, weight);
    for (int i = 0; i < how->tilts * how->turns; i++) {
        int tilt = i / how->turns, turn = i % how->turns;
        double c = cosine[tilt], share = how->turns == 1 ? 1.0 : 1.0 / (how->turns - 1);
        if (how->turns > 1 && (turn == 0 || turn == how->turns - 1))
            share *= 0.5;
        l->options.tilt_deg = lw_atan2_deg(sqrt(1.0 - c * c), c);
        l->options.turn_deg = how->turns == 1 ? 11.25 : 22.5 * turn / (how->turns - 1);
        double light, fire;
        lw_status status = through_crown(l, &light, &fire);
        if (status != LW_OK)
            return status;
        double w = weight[tilt] * share;
        /* the disc's own: the integrals of c^3 and of c^2 over 0..1 */
        out->of[VIEW_WEIGHTED] += w * c * c * light / disc / (1.0 / 4.0);
        out->of[VIEW_COSINE] += w * c * light / disc / (1.0 / 3.0);
        if (l->options.tilt_deg < 40.0) {
            fire_sum += w * c * c * fire;
            fire_weight += w * c * c;
        }
    }
    out->of[VIEW_ROCKED] = fire_weight > 0.0 ? fire_sum / fire_weight : 0.0;
    return LW_OK;
}

static lw_status look_down(looker *l, seen *out)
{
    lw_light_measures m;
    lw_status status = lw_light_measure(&l->memory, l->solid, &l->options, &m);
    if (status != LW_OK)
        return status;
    out->of[VIEW_HEAD] = m.brightness;
    out->of[VIEW_NO_HEAD] = m.brightness + m.extinction;
    out->of[VIEW_FIRE] = m.fire_deg;
    out->of[VIEW_SPREAD] = m.brightness * m.fire_deg;
    return LW_OK;
}

static lw_status look_at_solid(const lw_polyhedron *solid, const lw_light_index *index,
                               const directions *how, seen *out)
{
    looker l = {.memory = lw_memory_standard(), .solid = solid};
    if (solid->plane_count > (int)(sizeof l.facets / sizeof l.facets[0]))
        return LW_TOO_LARGE;
    lw_status status = lw_optic_solid_make(&l.memory, solid, &l.optic);
    if (status != LW_OK)
        return status;
    seen s = {0};
    l.options = lw_light_defaults(1.0);
    l.options.index = *index;
    l.options.bound = how->face_bound;
    status = look_down(&l, &s);
    l.options.bound = how->bound;
    l.options.head_deg = 0.0;
    if (status == LW_OK && how->tilts > 0)
        status = look_around(&l, how, &s);
    lw_optic_solid_destroy(&l.optic);
    if (status == LW_OK)
        *out = s;
    return status;
}

static lw_status look_at_proportions(const lw_cut *cut, const proportions *p,
                                     const lw_light_index *index, const directions *how, seen *out)
{
    const lw_override overrides[] = {
        {.name = "crown", .value = p->crown}, {.name = "pavilion", .value = p->pavilion},
        {.name = "table", .value = p->table}, {.name = "star", .value = p->star},
        {.name = "lower", .value = p->lower}, {.name = "girdle", .value = p->girdle}};
    lw_memory memory = lw_memory_standard();
    lw_solve_options options = {.overrides = overrides, .override_count = 6};
    lw_stone stone;
    lw_status status = lw_cut_solve(&memory, cut, &options, &stone, NULL);
    if (status != LW_OK)
        return status;
    status = look_at_solid(&stone.solid, index, how, out);
    lw_stone_destroy(&stone);
    return status;
}

lw_status look_at_round(const proportions *p, const lw_light_index *index, const directions *how,
                        seen *out)
{
    lw_cut cut = built_in_cut("round-brilliant", true);
    lw_status status = look_at_proportions(&cut, p, index, how, out);
    lw_cut_destroy(&cut);
    return status;
}

/* ---- all stones ----------------------------------------------------------- */

typedef struct sweep {
    const lw_cut *cut;
    const proportions *rest;
    const lw_light_index *index;
    const directions *how;
    scan *out;
} sweep;

static lw_status one_cell(void *context, int piece, int worker)
{
    (void)worker;
    sweep *s = context;
    proportions p = *s->rest;
    p.crown = s->out->crown_from + s->out->crown_step * (piece / s->out->pavilions);
    p.pavilion = s->out->pavilion_from + s->out->pavilion_step * (piece % s->out->pavilions);
    return look_at_proportions(s->cut, &p, s->index, s->how, &s->out->cells[piece]);
}

lw_status scan_round(const proportions *rest, const lw_light_index *index, const directions *how,
                     const lw_parallel *parallel, scan *out)
{
    lw_cut cut = built_in_cut("round-brilliant", true);
    sweep s = {&cut, rest, index, how, out};
    lw_status status = lw_parallel_do(parallel, out->crowns * out->pavilions, one_cell, &s);
    lw_cut_destroy(&cut);
    return status;
}

static void improve(const scan *s, view v, int crown, int pavilion, peak *best)
{
    double value = s->cells[crown * s->pavilions + pavilion].of[v];
    if (value > best->value)
        *best = (peak){s->crown_from + s->crown_step * crown,
                       s->pavilion_from + s->pavilion_step * pavilion, value};
}

peak best_at_crown(const scan *s, view v, int crown)
{
    peak best = {.value = -1.0};
    for (int k = 0; k < s->pavilions; k++)
        improve(s, v, crown, k, &best);
    return best;
}

peak best_of_all(const scan *s, view v)
{
    peak best = {.value = -1.0};
    for (int i = 0; i < s->crowns * s->pavilions; i++)
        improve(s, v, i / s->pavilions, i % s->pavilions, &best);
    return best;
}

peak best_at_pavilion(const scan *s, view v, double pavilion)
{
    peak best = {.value = -1.0};
    int k = (int)lround((pavilion - s->pavilion_from) / s->pavilion_step);
    for (int i = 0; i < s->crowns; i++)
        improve(s, v, i, k, &best);
    return best;
}
