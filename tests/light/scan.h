/* A round brilliant of diamond over crown and pavilion angles, looked at in the ways that published
 * studies of it did and that ours does. */
#ifndef LW_TESTS_LIGHT_SCAN_H
#define LW_TESTS_LIGHT_SCAN_H

#include "light/measures.h"
#include "parallel.h"

/* Degrees, and percent as gem laboratories state them. */
typedef struct proportions {
    double crown, pavilion, table, star, lower, girdle;
} proportions;

typedef enum view {
    VIEW_HEAD,     /* brightness from straight above, head of 10 degrees */
    VIEW_NO_HEAD,  /* and without a head: what the head hides is seen too */
    VIEW_WEIGHTED, /* what leaves by the crown in all directions of the upper half space, weighted
                      by the square of the cosine from the axis, without a head, of the same of a
                      white disc as large as the outline from above that shines evenly */
    VIEW_COSINE,   /* the same weighted by the cosine */
    VIEW_FIRE,     /* fire_deg from straight above */
    VIEW_SPREAD,   /* brightness x fire_deg: spread light, not spread a piece of light */
    VIEW_ROCKED, /* VIEW_FIRE as the mean over the directions of VIEW_WEIGHTED within 40 degrees */
    VIEWS
} view;
const char *view_text(view v);

typedef struct seen {
    double of[VIEWS];
} seen;

/* How finely directions are taken. */
typedef struct directions {
    int tilts, turns;  /* Gauss-Legendre points over the cosine (1..12); points over 22.5 degrees */
    double bound;      /* for them … */
    double face_bound; /* … and straight from above */
} directions;

/* The built-in round-brilliant, past the limits of its settings. */
lw_status look_at_round(const proportions *p, const lw_light_index *index, const directions *how,
                        seen *out);

typedef struct scan {
    int crowns, pavilions;
    double crown_from, crown_step, pavilion_from, pavilion_step;
    seen *cells; /* [crowns * pavilions] */
} scan;

/* rest: what is not scanned. All but cells of *out is filled in, and cells has room. */
lw_status scan_round(const proportions *rest, const lw_light_index *index, const directions *how,
                     const lw_parallel *parallel, scan *out);

/* The best pavilion for a crown, and its value. */
typedef struct peak {
    double crown, pavilion, value;
} peak;
peak best_at_crown(const scan *s, view v, int crown);
peak best_of_all(const scan *s, view v);
/* Of one pavilion, which lies on the grid. */
peak best_at_pavilion(const scan *s, view v, double pavilion);

#endif
