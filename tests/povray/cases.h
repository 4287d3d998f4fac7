/* Which stones, of what, seen how and where: what is compared with POV-Ray. */
#ifndef LW_TESTS_POVRAY_CASES_H
#define LW_TESTS_POVRAY_CASES_H

#include "light/measures.h"

/* Places made for these tests: each has edges where a mistake would show. */
typedef enum case_sky {
    CASE_EVEN,     /* the default: 1 above the girdle plane, a head of 10 degrees */
    CASE_LAMP,     /* a dim room, a lamp of 5 that comes 22 degrees about a slanting direction; the
                      place stays when the stone tilts; a pale face of 0.2 */
    CASE_WINDOW,   /* the eye 30 degrees off the zenith, before a window: a pane of 1, its wall and
                      what is below of 0.05 */
    CASE_GRADIENT, /* a sky that pales from 0.25 at the horizon to 1 overhead, over a ground of
                      0.1, stays too; no head */
    CASE_SKIES
} case_sky;

typedef struct light_case {
    const char *cut;
    const char *material; /* for people */
    double index, absorption;
    case_sky sky;
    double tilt_deg, turn_deg;
    bool quick; /* among those of every check */
} light_case;

extern const light_case light_cases[];
extern const int light_case_count;

lw_light_place case_place(case_sky sky);
const char *case_sky_text(case_sky sky);

#endif
