#include "light/beam_finish.h"

#include "light/path.h"

typedef struct lw_leftover {
    lw_path path;
    double area, left, absorbed;
    lw_beam_trail trail;
} lw_leftover;

lw_status lw_finisher_make(const lw_memory *memory, const lw_beam_job *job,
                           const lw_beam_watch *watch, lw_finisher *out)
{
    void *waiting = NULL;
    lw_status status = lw_memory_new(memory, LW_FINISHER_WAITING, sizeof(lw_leftover), &waiting);
    if (status == LW_OK)
        *out = (lw_finisher){.job = job, .watch = watch, .memory = *memory, .waiting = waiting};
    return status;
}

void lw_finisher_destroy(lw_finisher *finisher)
{
    lw_memory_free(&finisher->memory, finisher->waiting,
                   finisher->waiting != NULL ? LW_FINISHER_WAITING : 0, sizeof(lw_leftover));
    *finisher = (lw_finisher){0};
}

/* Ends at LW_RAY_ENDS of what it began with. */
static void trace(const lw_finisher *finisher, lw_leftover *rest, lw_beam_end *end)
{
    const lw_beam_job *job = finisher->job;
    const lw_surroundings *around = job->surroundings;
    lw_optics optics = {job->index.yellow, job->absorption, job->unpolarised};
    double least = 1e-6 * rest->path.state.i;
    while (rest->path.state.i > least && rest->path.surfaces < job->most_surfaces) {
        lw_leaving part;
        lw_path_next(job->solid, &optics, &rest->path, &part);
        if (part.total)
            continue;
        end->sent += part.weight;
        end->brightness += part.weight * lw_surroundings_radiance(around, part.direction);
        end->leak += part.direction.z < 0.0 ? part.weight : 0.0;
        end->extinction += lw_surroundings_is_head(around, part.direction) ? part.weight : 0.0;
    }
    end->given_up = rest->path.state.i;
    end->absorbed = rest->path.absorbed;
}

lw_status lw_finisher_flush(lw_finisher *finisher)
{
    for (int i = 0; i < finisher->count; i++) {
        lw_leftover *rest = &finisher->waiting[i];
        lw_beam_end end = {.area = rest->area, .trail = &rest->trail};
        end.inside = rest->path.state.i;
        trace(finisher, rest, &end);
        if (finisher->watch->end != NULL)
            finisher->watch->end(finisher->watch->context, &end);
    }
    finisher->rays += finisher->count;
    finisher->count = 0;
    return LW_OK;
}

lw_status lw_finisher_add(lw_finisher *finisher, const lw_beam *beam, lw_vec3 at, double left)
{
    lw_leftover *rest = &finisher->waiting[finisher->count++];
    *rest = (lw_leftover){.area = beam->area, .trail = beam->trail};
    rest->path = (lw_path){.at = at,
                           .direction = beam->way,
                           .s = beam->s,
                           .state = lw_stokes_scale(beam->state, left),
                           .surfaces = beam->trail.surfaces};
    return finisher->count < LW_FINISHER_WAITING ? LW_OK : lw_finisher_flush(finisher);
}
