/* Inside the beam tracer: how a beam is held, how it is split over the facets it falls on, and how
 * what is left of it is finished. For beam*.c alone. */
#ifndef LW_LIGHT_BEAM_PARTS_H
#define LW_LIGHT_BEAM_PARTS_H

#include "light/beam.h"

/* A number that varies over the screen: at + a (…) + b (…). */
typedef struct lw_slope {
    double at, a, b;
} lw_slope;

static inline double lw_slope_at(lw_slope slope, lw_spot2 spot)
{
    return slope.at + slope.a * spot.a + slope.b * spot.b;
}

/* Light on its way from one facet to the next. The point of the present facet that a spot of the
 * screen stands for is foot + a across + b up. */
typedef struct lw_beam {
    lw_vec3 foot, across, up;
    lw_vec3 way;     /* direction, length 1 */
    lw_vec3 s;       /* the axis that state is told by, of any length */
    lw_stokes state; /* energy of light of energy 1, as if nothing were absorbed */
    lw_slope length; /* of the way inside the stone so far */
    lw_vec3 blue, red;
    double area;
    size_t corner_count;
    int facet; /* it comes from */
    lw_beam_trail trail;
} lw_beam;

/* What a facet is to the beam in hand: how fast its plane is approached (> 0: from inside), and how
 * far off it is along its normal. */
typedef struct lw_facing {
    double speed;
    lw_slope slack;
    long stamp; /* the beam for which the rest holds */
} lw_facing;

/* Growing arrays of corners that clipping goes to and fro between. */
typedef struct lw_ring {
    lw_spot2 *corners;
    size_t capacity, count;
} lw_ring;

typedef struct lw_splitter {
    lw_memory memory;
    const lw_optic_solid *solid;
    lw_facing *facing; /* [facet_count] */
    long *visited;     /* [facet_count] the beam that was last tried there */
    int *todo;         /* [facet_count] */
    int todo_count;
    long stamp;
    double sliver;         /* shorter than this is nothing */
    const lw_spot2 *whole; /* the polygon of the beam in hand, … */
    lw_ring piece, spare;  /* … its piece over one facet, … */
    bool cut;              /* … and whether that is less than the whole */
} lw_splitter;

lw_status lw_splitter_make(const lw_memory *memory, const lw_optic_solid *solid, lw_splitter *out);
void lw_splitter_destroy(lw_splitter *splitter);

/* Takes a beam in hand, with its corners, which must stay where they are while it is; facet: one
 * that it falls on, or any. */
void lw_splitter_start(lw_splitter *splitter, const lw_beam *beam, const lw_spot2 *corners,
                       int facet);

/* The next facet that a piece of it falls on, with that piece in splitter->piece; -1 when there is
 * none left, -2 when memory is out. */
int lw_splitter_next(lw_splitter *splitter, const lw_beam *beam);

/* How far the way to that facet is, over the screen. */
lw_slope lw_splitter_length(const lw_splitter *splitter, int facet);

/* Makes room for count corners, keeping those that are there. */
bool lw_ring_grow(const lw_memory *memory, lw_ring *ring, size_t count);
static inline bool lw_ring_reserve(const lw_memory *memory, lw_ring *ring, size_t count)
{
    return count <= ring->capacity || lw_ring_grow(memory, ring, count);
}

/* Keeps what lies where line <= 0; to must not be from. Whether anything was cut off. */
bool lw_ring_clip(const lw_ring *from, lw_slope line, double sliver, lw_ring *to);

/* count > 0 */
lw_spot2 lw_corners_mean(const lw_spot2 *corners, size_t count);

double lw_ring_area(const lw_ring *ring);
lw_spot2 lw_ring_middle(const lw_ring *ring, double area);

/* Mean over a polygon of exp(-f), f varying evenly over it. */
double lw_ring_mean_exp(const lw_ring *ring, lw_slope f);

#endif
