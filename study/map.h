/* A cut over a grid of pavilion and crown angles: what each stone's light is, what it weighs.
 *
 * Each place of the grid is a stone of its own, worked out from the cut as it stands, so that
 * places do not depend on one another and may be worked out in any order by any thread, or by the
 * page's workers one at a time.
 */
#ifndef LW_STUDY_MAP_H
#define LW_STUDY_MAP_H

#include "parallel.h"
#include "seen.h"
#include "vary.h"

typedef enum lw_map_measure {
    LW_MAP_BRIGHTNESS,
    LW_MAP_FIRE,
    LW_MAP_CONTRAST,
    LW_MAP_WINDOW,
    LW_MAP_LEAK,
    LW_MAP_EXTINCTION,
    LW_MAP_GLARE,
    LW_MAP_WEIGHT,
    LW_MAP_MEASURES
} lw_map_measure;

/* "brightness", "fire", … ; "weight" is over that of the cut as it stands. */
extern const char *const lw_map_names[LW_MAP_MEASURES];
/* Whether less of it is better. */
bool lw_map_less_is_better(lw_map_measure measure);

enum { LW_MAP_MOST = 201 }; /* places along a side */

typedef struct lw_map_axis {
    double low, high; /* degrees, low < high, both within 1..89 */
    int count;        /* of places, both ends among them: 2..LW_MAP_MOST */
} lw_map_axis;

double lw_map_angle(const lw_map_axis *axis, int i);

typedef struct lw_map_request {
    const lw_vary *vary;
    lw_handle handles[2]; /* pavilion and crown, of lw_vary_side */
    lw_map_axis pavilion, crown;
    lw_look look;
    double window_tilt_deg; /* where windows are looked for; 0: straight from above */
} lw_map_request;

typedef struct lw_map_place {
    bool there; /* it has a stone that passes its check */
    double values[LW_MAP_MEASURES];
    double window;       /* as looked for */
    double flattest_deg; /* the flattest facet of the pavilion */
} lw_map_place;

/* The place number crown row * pavilion.count + pavilion column. LW_NO_MEMORY alone is a failure.
 */
lw_status lw_map_at(const lw_memory *memory, const lw_map_request *request, int place,
                    lw_map_place *out);

/* The cut as it stands, looked at in the same way. LW_NO_MEMORY, LW_NOT_CLOSED, LW_BAD_INPUT. */
lw_status lw_map_own(const lw_memory *memory, const lw_map_request *request, lw_map_place *out);

/* All of them, into out[crown.count * pavilion.count]. memory must be safe with threads where there
 * is more than one. Fails as lw_parallel_do. */
lw_status lw_map_run(const lw_memory *memory, const lw_map_request *request, const lw_parallel *how,
                     lw_map_place *out);

/* The place with the best value of a measure, the first of equals; -1 when no place has a stone. */
int lw_map_best(const lw_map_request *request, const lw_map_place *places, lw_map_measure measure);

#endif
