/* Rays on their way, and those that wait. Built once an instruction set.
 *
 * A ray is the column of a table of floats, one row a number; so is what has been seen of it so
 * far. A lane whose ray is done takes the next from the queue at once.
 */
#ifndef LW_LIGHT_WIDE_QUEUE_LANES_H
#define LW_LIGHT_WIDE_QUEUE_LANES_H

#include "light/wide/lanes.h"
#include "light/wide/parts.h"

#include <stdalign.h>
#include <string.h>

enum ray_row {
    AT_X,
    AT_Y,
    AT_Z,
    TO_X,
    TO_Y,
    TO_Z,
    S_X,
    S_Y,
    S_Z,
    STOKES_I,
    STOKES_Q,
    STOKES_U,
    STOKES_V,
    FRESH, /* 1 where it counts for the window at its first surface */
    REFLECTED,
    GLARE,
    STARTS, /* up to here a waiting ray has rows */
    SURFACES = STARTS,
    BRIGHTNESS,
    WINDOW,
    LEAK,
    EXTINCTION,
    SENT,
    ABSORBED,
    RAY_ROWS
};

enum { QUEUE_BLOCK = 128, NO_RAY = -1 };

/* Rays that wait, a block at a time; fill makes the next block and returns false when there is
 * none. */
typedef struct ray_queue ray_queue;
struct ray_queue {
    alignas(64) float rows[STARTS][QUEUE_BLOCK];
    int number[QUEUE_BLOCK]; /* of the caller's ray */
    int count, next;         /* of this block */
    int taken, total;        /* of the caller's rays */
    bool (*fill)(ray_queue *queue);
    const lw_wide_setup *job;
    void *source; /* the fill's own */
    lw_wide_light *out;
};

/* Rays under way. Lanes without one stand at the middle and carry nothing. */
typedef struct ray_pack {
    alignas(64) float rows[RAY_ROWS][LANES_ROWS * LANES];
    int number[LANES_ROWS * LANES];
} ray_pack;

static inline bool is_over(const lw_wide_setup *job, float energy, float surfaces)
{
    return energy < job->least_energy || surfaces >= job->most_surfaces;
}

static void hand_out(const ray_pack *pack, int lane, lw_wide_light *out)
{
    out[pack->number[lane]] = (lw_wide_light){.brightness = pack->rows[BRIGHTNESS][lane],
                                              .glare = pack->rows[GLARE][lane],
                                              .window = pack->rows[WINDOW][lane],
                                              .leak = pack->rows[LEAK][lane],
                                              .extinction = pack->rows[EXTINCTION][lane],
                                              .reflected = pack->rows[REFLECTED][lane],
                                              .sent = pack->rows[SENT][lane],
                                              .absorbed = pack->rows[ABSORBED][lane],
                                              .given_up = pack->rows[STOKES_I][lane]};
}

static void leave_empty(ray_pack *pack, int lane)
{
    for (int row = 0; row < RAY_ROWS; row++)
        pack->rows[row][lane] = 0.0f;
    pack->rows[TO_Z][lane] = pack->rows[S_X][lane] = 1.0f;
    pack->number[lane] = NO_RAY;
}

/* The next ray that is not over before it begins; those that are get handed out as they are. */
static void take_next(ray_queue *queue, ray_pack *pack, int lane)
{
    while (queue->next < queue->count || queue->fill(queue)) {
        int at = queue->next++;
        pack->number[lane] = queue->number[at];
        for (int row = 0; row < STARTS; row++)
            pack->rows[row][lane] = queue->rows[row][at];
        for (int row = STARTS; row < RAY_ROWS; row++)
            pack->rows[row][lane] = 0.0f;
        if (!is_over(queue->job, pack->rows[STOKES_I][lane], 0.0f))
            return;
        hand_out(pack, lane, queue->out);
    }
    leave_empty(pack, lane);
}

/* ---- rays that are inside already --------------------------------------- */

static void put(ray_queue *queue, int at, enum ray_row first, lw_vec3 a)
{
    queue->rows[first][at] = (float)a.x;
    queue->rows[first + 1][at] = (float)a.y;
    queue->rows[first + 2][at] = (float)a.z;
}

static bool fill_from_inside(ray_queue *queue)
{
    const lw_wide_inside *rays = *(const lw_wide_inside *const *)queue->source;
    queue->next = 0;
    queue->count = 0;
    while (queue->taken < queue->total && queue->count < QUEUE_BLOCK) {
        int at = queue->count++;
        const lw_wide_inside *ray = &rays[queue->taken];
        queue->number[at] = queue->taken++;
        put(queue, at, AT_X, lw_vec3_sub(ray->at, queue->job->solid->middle));
        put(queue, at, TO_X, ray->direction);
        put(queue, at, S_X, ray->s);
        queue->rows[STOKES_I][at] = 1.0f;
        queue->rows[STOKES_Q][at] = ray->q / ray->i;
        queue->rows[STOKES_U][at] = ray->u / ray->i;
        queue->rows[STOKES_V][at] = ray->v / ray->i;
        queue->rows[FRESH][at] = ray->first ? 1.0f : 0.0f;
        queue->rows[REFLECTED][at] = queue->rows[GLARE][at] = 0.0f;
    }
    return queue->count > 0;
}

#endif
