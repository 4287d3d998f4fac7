#include "light/beam_finish.h"

#include "light/path.h"

/* Pieces are handed on so many at a time, each with two rays. */
enum { WAITING = 256 };

/* A ray gives up below this share of what it started with, which is little already: so much of what
 * is unresolved goes into error_est. */
#define REST_ENDS 1e-5

typedef struct lw_leftovers {
    lw_wide_inside rays[2 * WAITING];
    lw_wide_light lights[2 * WAITING];
    double area[WAITING], inside[WAITING];
    lw_beam_trail trail[WAITING];
} lw_leftovers;

lw_status lw_finisher_make(const lw_memory *memory, const lw_beam_job *job,
                           const lw_beam_watch *watch, lw_finisher *out)
{
    lw_finisher made = {.job = job, .watch = watch, .memory = *memory, .lanes = lw_lanes_best()};
    lw_status status = lw_wide_solid_make(memory, job->solid, job->symmetry, &made.solid);
    if (status != LW_OK)
        return status;
    void *waiting = NULL;
    status = lw_memory_new(memory, 1, sizeof(lw_leftovers), &waiting);
    made.waiting = waiting;
    if (status == LW_OK)
        *out = made;
    else
        lw_wide_solid_destroy(memory, &made.solid);
    return status;
}

void lw_finisher_destroy(lw_finisher *finisher)
{
    if (finisher->waiting == NULL)
        return;
    lw_wide_solid_destroy(&finisher->memory, &finisher->solid);
    lw_memory_free(&finisher->memory, finisher->waiting, 1, sizeof(lw_leftovers));
    *finisher = (lw_finisher){0};
}

static double mean(float a, float b)
{
    return 0.5 * ((double)a + (double)b);
}

/* The rays' shares are single; what was sent is told as all that was neither kept nor lost, so that
 * energies add up whatever rounding does. */
static lw_beam_end end_of(const lw_leftovers *waiting, int k)
{
    const lw_wide_light *one = &waiting->lights[2 * k], *two = one + 1;
    double inside = waiting->inside[k];
    double absorbed = mean(one->absorbed, two->absorbed);
    double given_up = mean(one->given_up, two->given_up);
    return (lw_beam_end){.area = waiting->area[k],
                         .trail = &waiting->trail[k],
                         .inside = inside,
                         .brightness = inside * mean(one->brightness, two->brightness),
                         .doubt = inside * mean(one->brightness, -two->brightness),
                         .leak = inside * mean(one->leak, two->leak),
                         .extinction = inside * mean(one->extinction, two->extinction),
                         .sent = inside * (1.0 - absorbed - given_up),
                         .absorbed = inside * absorbed,
                         .given_up = inside * given_up};
}

void lw_finisher_flush(lw_finisher *finisher)
{
    const lw_beam_job *job = finisher->job;
    lw_leftovers *waiting = finisher->waiting;
    lw_wide_job rays = {.solid = &finisher->solid,
                        .index = job->index.yellow,
                        .absorption = job->absorption,
                        .unpolarised = job->unpolarised,
                        .surroundings = job->surroundings,
                        .least_energy = REST_ENDS,
                        .most_surfaces = job->most_surfaces};
    lw_wide_finish(finisher->lanes, &rays, 2 * finisher->count, waiting->rays, waiting->lights);
    for (int k = 0; k < finisher->count && finisher->watch->end != NULL; k++) {
        lw_beam_end end = end_of(waiting, k);
        finisher->watch->end(finisher->watch->context, &end);
    }
    finisher->rays += 2 * finisher->count;
    finisher->count = 0;
}

/* A piece with nothing left in it is at its end already: its rays would have no polarisation. */
static void end_here(const lw_finisher *finisher, const lw_beam *beam)
{
    lw_beam_end end = {.area = beam->area, .trail = &beam->trail};
    if (finisher->watch->end != NULL)
        finisher->watch->end(finisher->watch->context, &end);
}

static lw_wide_inside ray_of(const lw_beam *beam, lw_vec3 at)
{
    double per = 1.0 / beam->state.i;
    return (lw_wide_inside){.at = at,
                            .direction = beam->way,
                            .s = lw_of_length_1(beam->s),
                            .i = 1.0F,
                            .q = (float)(beam->state.q * per),
                            .u = (float)(beam->state.u * per),
                            .v = (float)(beam->state.v * per)};
}

void lw_finisher_add(lw_finisher *finisher, const lw_beam *beam, lw_vec3 middle, lw_vec3 aside,
                     double left)
{
    double inside = beam->state.i * left;
    if (!(inside > 0.0)) {
        end_here(finisher, beam);
        return;
    }
    lw_leftovers *waiting = finisher->waiting;
    int k = finisher->count++;
    waiting->rays[2 * k] = ray_of(beam, middle);
    waiting->rays[2 * k + 1] = ray_of(beam, aside);
    waiting->inside[k] = inside;
    waiting->area[k] = beam->area;
    waiting->trail[k] = beam->trail;
    if (finisher->count == WAITING)
        lw_finisher_flush(finisher);
}
