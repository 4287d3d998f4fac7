#include "light/beam_finish.h"

/* Rays are handed on so many at a time. */
enum { WAITING = 512 };

/* A ray gives up below this share of what it started with, which is little already. */
#define REST_ENDS 1e-5

typedef struct lw_leftovers {
    lw_wide_inside rays[WAITING];
    lw_wide_light lights[WAITING];
    double area[WAITING], inside[WAITING];
    lw_beam_trail trail[WAITING];
} lw_leftovers;

lw_status lw_finisher_make(const lw_memory *memory, const lw_beam_job *job,
                           const lw_beam_watch *watch, lw_finisher *out)
{
    lw_finisher made = {.job = job, .watch = watch, .memory = *memory, .lanes = lw_lanes_best()};
    lw_status status = lw_wide_solid_make(memory, job->solid, &made.solid);
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

/* The ray's shares are single; what it sent is told as all that it neither kept nor lost, so that
 * energies add up whatever rounding does. */
static lw_beam_end end_of(const lw_leftovers *waiting, int k)
{
    const lw_wide_light *light = &waiting->lights[k];
    double inside = waiting->inside[k];
    double gone = (double)light->absorbed + (double)light->given_up;
    return (lw_beam_end){.area = waiting->area[k],
                         .trail = &waiting->trail[k],
                         .inside = inside,
                         .brightness = inside * (double)light->brightness,
                         .leak = inside * (double)light->leak,
                         .extinction = inside * (double)light->extinction,
                         .sent = inside * (1.0 - gone),
                         .absorbed = inside * (double)light->absorbed,
                         .given_up = inside * (double)light->given_up};
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
    lw_wide_finish(finisher->lanes, &rays, finisher->count, waiting->rays, waiting->lights);
    for (int k = 0; k < finisher->count && finisher->watch->end != NULL; k++) {
        lw_beam_end end = end_of(waiting, k);
        finisher->watch->end(finisher->watch->context, &end);
    }
    finisher->rays += finisher->count;
    finisher->count = 0;
}

/* A piece with nothing left in it is at its end already: its ray would have no polarisation. */
static void end_here(const lw_finisher *finisher, const lw_beam *beam)
{
    lw_beam_end end = {.area = beam->area, .trail = &beam->trail};
    if (finisher->watch->end != NULL)
        finisher->watch->end(finisher->watch->context, &end);
}

void lw_finisher_add(lw_finisher *finisher, const lw_beam *beam, lw_vec3 at, double left)
{
    lw_stokes state = lw_stokes_scale(beam->state, left);
    if (!(state.i > 0.0)) {
        end_here(finisher, beam);
        return;
    }
    lw_leftovers *waiting = finisher->waiting;
    int k = finisher->count++;
    double per = 1.0 / state.i;
    waiting->rays[k] = (lw_wide_inside){.at = at,
                                        .direction = beam->way,
                                        .s = beam->s,
                                        .i = 1.0F,
                                        .q = (float)(state.q * per),
                                        .u = (float)(state.u * per),
                                        .v = (float)(state.v * per)};
    waiting->area[k] = beam->area;
    waiting->inside[k] = state.i;
    waiting->trail[k] = beam->trail;
    if (finisher->count == WAITING)
        lw_finisher_flush(finisher);
}
