#include "light/measures.h"

#include <assert.h>

lw_light_options lw_light_defaults(double index)
{
    return (lw_light_options){.index = {index, index, index},
                              .head_deg = 10.0,
                              .bound = LW_LIGHT_BOUND,
                              .most_surfaces = 1000};
}

static bool is_within(double value, double low, double high)
{
    return value >= low && value <= high; /* false for NaN */
}

bool lw_light_options_sound(const lw_light_options *options)
{
    return is_within(options->index.yellow, 1.0, 10.0) &&
           is_within(options->index.blue, 1.0, 10.0) && is_within(options->index.red, 1.0, 10.0) &&
           is_within(options->absorption, 0.0, 1e12) && is_within(options->tilt_deg, 0.0, 90.0) &&
           options->tilt_deg < 90.0 && is_within(options->turn_deg, -1e6, 1e6) &&
           is_within(options->head_deg, -1e6, 90.0) && is_within(options->bound, 1e-300, 1.0) &&
           options->most_surfaces > 0;
}

lw_surroundings lw_light_surroundings(const lw_light_options *options)
{
    lw_light_place even = lw_light_place_even_sky();
    const lw_light_place *place = options->place == NULL ? &even : options->place;
    return lw_surroundings_pose(place, options->tilt_deg, options->turn_deg, options->head_deg);
}

/* ---- sums ---------------------------------------------------------------- */

/* Areas times shares; facets only where asked for. */
typedef struct tally {
    const lw_surroundings *surroundings;
    double brightness, glare, window, leak, extinction;
    double reflected, sent, absorbed, unresolved, given_up;
    double squares;           /* of brightness, point by point */
    double fire, fire_weight; /* degrees x weight, and weight */
    /* of the pieces that rays finished, e their energy and b their brightness as a share of it:
       sums of e^2, e^4, e^2 b, e^2 b^2, and of squares of what their pairs of rays differ by,
       halved */
    double rest_squares, rest_fourths, rest_first, rest_second, doubts;
    lw_facet_light *facets; /* NULL, or by the solid's facets */
} tally;

static void on_entry(void *context, const lw_beam_entry *entry)
{
    tally *t = context;
    double radiance = lw_surroundings_radiance(t->surroundings, entry->mirrored);
    t->reflected += entry->area * entry->reflected;
    t->glare += entry->area * entry->reflected * radiance;
    if (t->facets != NULL)
        t->facets[entry->facet].face += entry->area;
}

static void count_facets(tally *t, const lw_beam_part *part, double seen, bool down, bool head)
{
    lw_facet_light *entry = &t->facets[part->trail->entry];
    lw_facet_light *here = &t->facets[part->facet];
    double sent = part->area * part->weight;
    here->met += part->area * part->met;
    here->turned += part->area * part->inside;
    here->lights += seen;
    here->leaks += down ? sent : 0.0;
    entry->bright += seen;
    entry->window += down && part->trail->surfaces == 1 ? sent : 0.0;
    entry->extinction += head ? sent : 0.0;
}

static void on_part(void *context, const lw_beam_part *part)
{
    tally *t = context;
    t->absorbed += part->area * part->absorbed;
    double sent = part->area * part->weight;
    double seen = sent * part->radiance;
    bool leaves = part->weight > 0.0;
    bool down = leaves && part->way.z < 0.0;
    bool head = leaves && lw_surroundings_is_head(t->surroundings, part->way);
    if (t->facets != NULL)
        count_facets(t, part, seen, down, head);
    t->sent += sent;
    t->brightness += seen;
    t->leak += down ? sent : 0.0;
    t->window += down && part->trail->surfaces == 1 ? sent : 0.0;
    t->extinction += head ? sent : 0.0;
    if (seen > 0.0 && part->spread_deg >= 0.0) {
        t->fire += seen * part->spread_deg;
        t->fire_weight += seen;
    }
}

static void on_end(void *context, const lw_beam_end *end)
{
    tally *t = context;
    double energy = end->area * end->inside;
    double bright = end->trail->seen + end->brightness;
    t->brightness += end->area * end->brightness;
    t->leak += end->area * end->leak;
    t->extinction += end->area * end->extinction;
    t->sent += end->area * end->sent;
    t->absorbed += end->area * end->absorbed;
    t->given_up += end->area * end->given_up;
    t->unresolved += energy;
    t->squares += end->area * bright * bright;
    if (energy > 0.0) {
        double square = energy * energy, share = end->brightness / end->inside;
        t->rest_squares += square;
        t->rest_fourths += square * square;
        t->rest_first += square * share;
        t->rest_second += square * share * share;
        t->doubts += end->area * end->doubt * end->area * end->doubt;
    }
    if (t->facets != NULL) {
        t->facets[end->trail->entry].bright += end->area * end->brightness;
        t->facets[end->trail->entry].extinction += end->area * end->extinction;
    }
}

/* Two rays speak for a piece. Were they drawn alike, half of what they differ by would be, in the
 * mean of squares, what their mean is off; pieces are many and each goes its own way, so that
 * errors add as squares. Where few pieces carry the most of it, their pairs may agree by luck: some
 * pieces more are thought to be as unsure as pieces differ from one another. 2.576: the normal
 * law's 99 %. What nothing followed, and what the rays' single precision loses, is added whole. */
static double error_of(const tally *t, double face, double lost)
{
    const double single = 1e-6, sceptical = 24.0;
    double spread = 0.0;
    if (t->rest_squares > 0.0) {
        double pieces = t->rest_squares * t->rest_squares / t->rest_fourths;
        double apart = t->rest_second - t->rest_first * t->rest_first / t->rest_squares;
        spread = (pieces * t->doubts + sceptical * fmax(apart, 0.0)) / (pieces + sceptical);
    }
    return 2.576 * sqrt(spread) / face + t->given_up / face + lost + single * t->unresolved / face;
}

static lw_light_measures summary(const tally *t, const lw_beam_totals *totals)
{
    double per = 1.0 / totals->area;
    double mean = t->brightness * per;
    return (lw_light_measures){.brightness = mean,
                               .glare = t->glare * per,
                               .window = t->window * per,
                               .leak = t->leak * per,
                               .extinction = t->extinction * per,
                               .contrast = sqrt(fmax(t->squares * per - mean * mean, 0.0)),
                               .fire_deg = t->fire_weight > 0.0 ? t->fire / t->fire_weight : 0.0,
                               .reflected = t->reflected * per,
                               .sent = t->sent * per,
                               .absorbed = t->absorbed * per,
                               .unresolved = t->unresolved * per + totals->lost,
                               .given_up = t->given_up * per + totals->lost,
                               .error_est = error_of(t, totals->area, totals->lost),
                               .beams = totals->beams,
                               .rays = totals->rays};
}

/* ---- facets -------------------------------------------------------------- */

void lw_facet_light_add(lw_facet_light *sum, const lw_facet_light *more)
{
    sum->face += more->face;
    sum->bright += more->bright;
    sum->window += more->window;
    sum->extinction += more->extinction;
    sum->met += more->met;
    sum->turned += more->turned;
    sum->lights += more->lights;
    sum->leaks += more->leaks;
}

static lw_facet_light scaled_facet(const lw_facet_light *facet, double by)
{
    return (lw_facet_light){facet->face * by,       facet->bright * by, facet->window * by,
                            facet->extinction * by, facet->met * by,    facet->turned * by,
                            facet->lights * by,     facet->leaks * by};
}

/* A wedge shows parts of some of the facets that are alike: each gets its share of them all. */
static void share_out(const lw_optic_solid *solid, const lw_symmetry *seen, double face,
                      const lw_facet_light facets[], int orbit[], int plane_count,
                      lw_facet_light of_planes[])
{
    lw_symmetry_orbits(solid, seen, orbit);
    for (int i = 0; i < plane_count; i++)
        of_planes[i] = (lw_facet_light){0};
    for (int i = 0; i < solid->facet_count; i++) {
        int alike = 0;
        lw_facet_light sum = {0};
        for (int k = 0; k < solid->facet_count; k++) {
            if (orbit[k] == orbit[i]) {
                alike++;
                lw_facet_light_add(&sum, &facets[k]);
            }
        }
        of_planes[solid->plane[i]] = scaled_facet(&sum, 1.0 / (alike * face));
    }
}

/* ---- the whole ----------------------------------------------------------- */

typedef struct outcome {
    lw_light_measures measures;
    double face;
    lw_symmetry seen;
} outcome;

static lw_status follow(const lw_memory *memory, const lw_optic_solid *solid,
                        const lw_light_options *options, lw_facet_light *facets, outcome *out)
{
    lw_surroundings surroundings = lw_light_surroundings(options);
    lw_symmetry stone = lw_symmetry_of_solid(solid), seen = {.turns = 1};
    if (!options->whole)
        seen = lw_symmetry_seen(&stone, &surroundings);
    lw_wedge wedge = lw_wedge_of(&seen);
    lw_beam_job job = {.solid = solid,
                       .symmetry = &stone,
                       .screen = lw_screen_for(surroundings.eye, options->turn_deg),
                       .surroundings = &surroundings,
                       .wedge = &wedge,
                       .index = options->index,
                       .absorption = options->absorption,
                       .unpolarised = options->unpolarised,
                       .bound = options->bound * wedge.copies,
                       .most_surfaces = options->most_surfaces};
    tally t = {.surroundings = &surroundings, .facets = facets};
    lw_beam_watch watch = {.context = &t, .enter = on_entry, .part = on_part, .end = on_end};
    lw_beam_totals totals;
    lw_status status = lw_beams_follow(memory, &job, &watch, &totals);
    if (status == LW_OK)
        *out = (outcome){summary(&t, &totals), totals.area, seen};
    return status;
}

static lw_status measure_facets(const lw_memory *memory, lw_optic_solid *solid,
                                const lw_light_options *options, outcome *out, int plane_count,
                                lw_facet_light of_planes[])
{
    size_t count = (size_t)solid->facet_count;
    lw_facet_light *facets = lw_arena_new(&solid->arena, count, sizeof *facets);
    int *orbit = lw_arena_new(&solid->arena, count, sizeof *orbit);
    if (facets == NULL || orbit == NULL)
        return LW_NO_MEMORY;
    lw_status status = follow(memory, solid, options, facets, out);
    if (status == LW_OK)
        share_out(solid, &out->seen, out->face, facets, orbit, plane_count, of_planes);
    return status;
}

/* of_planes NULL: the stone as a whole alone. */
static lw_status measure(const lw_memory *memory, const lw_polyhedron *polyhedron,
                         const lw_light_options *options, lw_light_measures *out,
                         lw_facet_light of_planes[])
{
    if (!lw_light_options_sound(options))
        return LW_BAD_INPUT;
    lw_optic_solid solid;
    lw_status status = lw_optic_solid_make(memory, polyhedron, &solid);
    if (status != LW_OK)
        return status;
    outcome found;
    if (of_planes != NULL)
        status =
            measure_facets(memory, &solid, options, &found, polyhedron->plane_count, of_planes);
    else
        status = follow(memory, &solid, options, NULL, &found);
    lw_optic_solid_destroy(&solid);
    if (status == LW_OK)
        *out = found.measures;
    return status;
}

lw_status lw_light_measure(const lw_memory *memory, const lw_polyhedron *polyhedron,
                           const lw_light_options *options, lw_light_measures *out)
{
    return measure(memory, polyhedron, options, out, NULL);
}

lw_status lw_light_measure_facets(const lw_memory *memory, const lw_polyhedron *polyhedron,
                                  const lw_light_options *options, lw_light_measures *out,
                                  lw_facet_light of_planes[])
{
    assert(of_planes != NULL);
    return measure(memory, polyhedron, options, out, of_planes);
}

/* error_est falls about as the bound does, somewhat slower where total reflection holds light in.
 */
lw_status lw_light_measure_to(const lw_memory *memory, const lw_polyhedron *polyhedron,
                              const lw_light_options *options, double error, lw_light_measures *out)
{
    assert(error > 0.0);
    lw_light_options next = *options;
    next.bound = LW_LIGHT_COARSE;
    for (;;) {
        lw_light_measures found;
        lw_status status = lw_light_measure(memory, polyhedron, &next, &found);
        if (status != LW_OK)
            return status;
        if (found.error_est <= error || next.bound <= LW_LIGHT_FINEST) {
            *out = found;
            return LW_OK;
        }
        double step = 0.5 * error / found.error_est;
        next.bound = fmax(next.bound * fmax(fmin(step * step, 0.25), 1e-2), LW_LIGHT_FINEST);
    }
}
