/* Which facets a beam falls on, and which piece of it on which.
 *
 * Seen along the beam the far facets tile the stone's outline without a gap: the cell of a facet is
 * where its plane is reached before its neighbours'. From any far facet the way leads over every
 * edge that cuts the polygon; where the polygon lies wholly beyond an edge, over that edge alone,
 * and so nearer, because cells of a lower envelope are convex. A facet to begin at that lies under
 * the polygon saves these steps, no more.
 */
#include "light/beam_parts.h"

#include "geom/tolerance.h"

#include <assert.h>

/* What is held for each facet. */
#define SPLITTER_BYTES (sizeof(lw_facing) + sizeof(long) + sizeof(int))

static const lw_facing *facing_of(lw_splitter *splitter, const lw_beam *beam, int facet)
{
    lw_facing *facing = &splitter->facing[facet];
    if (facing->stamp == splitter->stamp)
        return facing;
    lw_vec3 normal = lw_optic_solid_normal(splitter->solid, facet);
    facing->stamp = splitter->stamp;
    facing->speed = lw_vec3_dot(normal, beam->way);
    facing->slack = (lw_slope){splitter->solid->distance[facet] - lw_vec3_dot(normal, beam->foot),
                               -lw_vec3_dot(normal, beam->across), -lw_vec3_dot(normal, beam->up)};
    return facing;
}

lw_slope lw_splitter_length(const lw_splitter *splitter, int facet)
{
    const lw_facing *facing = &splitter->facing[facet];
    assert(facing->stamp == splitter->stamp && facing->speed > 0.0);
    double per = 1.0 / facing->speed;
    return (lw_slope){facing->slack.at * per, facing->slack.a * per, facing->slack.b * per};
}

/* Above 0 where the neighbour's plane is reached sooner than the facet's. */
static lw_slope sooner(const lw_facing *facet, const lw_facing *neighbour)
{
    return (lw_slope){
        facet->slack.at * neighbour->speed - neighbour->slack.at * facet->speed,
        facet->slack.a * neighbour->speed - neighbour->slack.a * facet->speed,
        facet->slack.b * neighbour->speed - neighbour->slack.b * facet->speed,
    };
}

/* The facet that faces the beam most: it is approached from inside. */
static int some_far_facet(const lw_splitter *splitter, const lw_beam *beam)
{
    int best = 0;
    double most = -1.0;
    for (int i = 0; i < splitter->solid->facet_count; i++) {
        double speed = lw_vec3_dot(lw_optic_solid_normal(splitter->solid, i), beam->way);
        if (speed > most) {
            most = speed;
            best = i;
        }
    }
    return best;
}

static void add_todo(lw_splitter *splitter, int facet)
{
    if (splitter->visited[facet] == splitter->stamp)
        return;
    splitter->visited[facet] = splitter->stamp;
    splitter->todo[splitter->todo_count++] = facet;
}

void lw_splitter_start(lw_splitter *splitter, const lw_beam *beam, const lw_spot2 *corners,
                       int facet)
{
    splitter->stamp++;
    splitter->todo_count = 0;
    splitter->whole = corners;
    if (facing_of(splitter, beam, facet)->speed <= LW_GRAZING)
        facet = some_far_facet(splitter, beam);
    add_todo(splitter, facet);
}

static void swap(lw_ring *a, lw_ring *b)
{
    lw_ring kept = *a;
    *a = *b;
    *b = kept;
}

/* The beam's polygon over one facet; neighbours over whose edge it reaches are put on the list. */
static bool clip_to(lw_splitter *splitter, const lw_beam *beam, int facet)
{
    const lw_optic_solid *solid = splitter->solid;
    int first = solid->ring_start[facet], last = solid->ring_start[facet + 1];
    size_t room = beam->corner_count + (size_t)(last - first) + 1;
    lw_ring *piece = &splitter->piece, *spare = &splitter->spare;
    if (!lw_ring_reserve(&splitter->memory, piece, room) ||
        !lw_ring_reserve(&splitter->memory, spare, room))
        return false;
    piece->count = beam->corner_count;
    for (size_t i = 0; i < piece->count; i++)
        piece->corners[i] = splitter->whole[i];
    splitter->cut = false;
    const lw_facing *own = facing_of(splitter, beam, facet);
    for (int side = first; side < last && piece->count > 0; side++) {
        int next = solid->across[side];
        const lw_facing *other = facing_of(splitter, beam, next);
        if (other->speed <= 0.0)
            continue;
        if (lw_ring_clip(piece, sooner(own, other), splitter->sliver, spare)) {
            swap(piece, spare);
            splitter->cut = true;
            add_todo(splitter, next);
        }
    }
    return true;
}

int lw_splitter_next(lw_splitter *splitter, const lw_beam *beam)
{
    while (splitter->todo_count > 0) {
        int facet = splitter->todo[--splitter->todo_count];
        if (!clip_to(splitter, beam, facet))
            return -2;
        if (splitter->piece.count >= 3)
            return facet;
    }
    return -1;
}

lw_status lw_splitter_make(const lw_memory *memory, const lw_optic_solid *solid, lw_splitter *out)
{
    size_t count = (size_t)solid->facet_count;
    void *block = NULL;
    lw_status status = lw_memory_new(memory, count, SPLITTER_BYTES, &block);
    if (status != LW_OK)
        return status;
    *out = (lw_splitter){.memory = *memory,
                         .solid = solid,
                         .facing = block,
                         .sliver = LW_SLIVER * solid->half_extent};
    out->visited = (long *)(out->facing + count);
    out->todo = (int *)(out->visited + count);
    return LW_OK;
}

static void free_ring(const lw_memory *memory, lw_ring *ring)
{
    lw_memory_free(memory, ring->corners, ring->capacity, sizeof *ring->corners);
}

void lw_splitter_destroy(lw_splitter *splitter)
{
    size_t count = splitter->solid != NULL ? (size_t)splitter->solid->facet_count : 0;
    lw_memory_free(&splitter->memory, splitter->facing, count, SPLITTER_BYTES);
    free_ring(&splitter->memory, &splitter->piece);
    free_ring(&splitter->memory, &splitter->spare);
    *splitter = (lw_splitter){0};
}
