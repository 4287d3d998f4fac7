/* Exact beams through a convex stone.
 *
 * Facets are flat, so light from the eye that enters by one facet stays one beam of parallel light:
 * a convex polygon, a direction, a state of polarisation. Where the polygon falls on several
 * facets it is split, and each piece goes its own way; what each piece sends out at each surface
 * has one direction and one weight. Polygons are kept on the eye's screen all the way, for a point
 * of the screen and its place on the present facet are tied by an affine map that each surface only
 * changes: areas, which are what the measures weigh by, need no Jacobian, and the pieces of the
 * face are there to be drawn.
 *
 * A piece that carries less than a bound is finished by two rays (light/wide/), one through its
 * middle and one aside, whose difference tells how far they may be off; so the number of beams
 * stays in hand where total reflection multiplies them.
 *
 * By reciprocity what is followed from the eye outward weighs the light that comes in (see
 * light/polarisation.h). Source: the method is this project's; splitting a beam at edges of a
 * convex body goes back to P. S. Heckbert and P. Hanrahan, Beam Tracing Polygonal Objects,
 * Computer Graphics 18(3), 1984.
 */
#ifndef LW_LIGHT_BEAM_H
#define LW_LIGHT_BEAM_H

#include "light/optic_solid.h"
#include "light/polarisation.h"
#include "light/surroundings.h"
#include "light/symmetry.h"

/* A point of the eye's screen: lengths along its two axes, from the foot of the stone's origin. */
typedef struct lw_spot2 {
    double a, b;
} lw_spot2;

/* The eye's screen: three axes of length 1, right-handed (across, up, eye). */
typedef struct lw_screen {
    lw_vec3 across, up, eye;
} lw_screen;

/* For an eye tilted toward turn_deg: up is the azimuth that the eye leans away from, which for the
 * untilted eye is turn + 180 degrees turned by a quarter; across is level. */
lw_screen lw_screen_for(lw_vec3 eye, double turn_deg);

/* Refractive indices at the three lines; all equal where the dispersion is not known. */
typedef struct lw_light_index {
    double yellow; /* 589.3 nm: what the eye sees; all measures but fire_deg */
    double blue;   /* 430.8 nm (G) */
    double red;    /* 686.7 nm (B) */
} lw_light_index;

typedef struct lw_beam_job {
    const lw_optic_solid *solid;
    const lw_symmetry *symmetry; /* the solid's own */
    lw_screen screen;
    const lw_surroundings *surroundings;
    const lw_wedge *wedge; /* the part of the face to follow; NULL: all of it */
    lw_light_index index;
    double absorption; /* a length: exp(-absorption x length) of the energy passes */
    bool unpolarised;
    double bound;      /* a piece with less energy, as a share of the light that falls on the part
                          of the face followed, is finished by rays; > 0 */
    int most_surfaces; /* and so is one that has met so many; rays are given up there */
} lw_beam_job;

/* What is known of a piece's way so far; goes down to the pieces it is split into. */
typedef struct lw_beam_trail {
    int entry;              /* the facet that it entered by */
    int surfaces;           /* met inside, the present one included */
    double seen;            /* sum of weight x radiance so far */
    double strongest;       /* the largest weight of a part that has left, … */
    lw_vec3 strongest_way;  /* … where to, … */
    int strongest_facet;    /* … by which facet (-1: none yet) … */
    int strongest_surfaces; /* … and after how many surfaces */
    long mark;              /* the watcher's own; 0 at first */
} lw_beam_trail;

/* A piece of light that enters: what the outer surface returns. */
typedef struct lw_beam_entry {
    const lw_spot2 *corners;
    int count;
    double area; /* of the polygon on the screen */
    int facet;
    double reflected; /* share */
    lw_vec3 mirrored; /* direction */
} lw_beam_entry;

/* A piece at a surface inside. Shares are of the light that fell on this piece of the face. */
typedef struct lw_beam_part {
    const lw_spot2 *corners;
    int count;
    double area;
    int facet;
    double met;           /* energy that reaches the surface … */
    double absorbed;      /* … and that did not, since the last one */
    double weight;        /* energy that leaves there: 0 at a total reflection */
    double inside;        /* energy that goes on */
    double radiance;      /* of the surroundings, where it leaves to */
    double spread_deg;    /* between blue and red there; below 0 where one of them does not leave */
    lw_vec3 way;          /* direction in which it leaves, length 1; only where weight > 0 */
    bool last;            /* it is not followed further as a beam */
    lw_beam_trail *trail; /* this surface included; mark may be set */
} lw_beam_part;

/* A piece that is finished: nothing more comes of it than what is said here. */
typedef struct lw_beam_end {
    double area;
    const lw_beam_trail *trail; /* as the last surface left it */
    double inside;              /* energy when the rays took over */
    /* what they added, of the light that fell on the piece */
    double brightness, leak, extinction, sent, absorbed, given_up;
    double doubt; /* half of what they differ by in brightness */
} lw_beam_end;

/* Who is told. Any may be NULL. Pointers last for the call. */
typedef struct lw_beam_watch {
    void *context;
    void (*enter)(void *context, const lw_beam_entry *entry);
    void (*part)(void *context, const lw_beam_part *part);
    void (*end)(void *context, const lw_beam_end *end);
} lw_beam_watch;

typedef struct lw_beam_totals {
    double area; /* of the face that was followed */
    long beams;  /* pieces followed to their next surface */
    long rays;   /* that finished pieces, two each */
    double lost; /* energy of slivers too thin to follow, as a share of the whole */
} lw_beam_totals;

/* LW_NO_MEMORY, also when more than LW_BEAMS_MOST pieces wait. */
lw_status lw_beams_follow(const lw_memory *memory, const lw_beam_job *job,
                          const lw_beam_watch *watch, lw_beam_totals *out);

enum { LW_BEAMS_MOST = 1 << 22 };

#endif
