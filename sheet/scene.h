/* One step as the words and drawings of a sheet see it: the cut, the stone it came to, the machine,
 * and which step is in hand. */
#ifndef LW_SHEET_SCENE_H
#define LW_SHEET_SCENE_H

#include "cut/dial.h"
#include "cut/stone.h"
#include "cut/value.h"
#include "sheet/phrase.h"

typedef struct lw_scene {
    const lw_cut *cut;
    const lw_stone *stone;
    const lw_values *values;
    lw_dial_kit kit;
    int step;
} lw_scene;

static inline const lw_step *lw_scene_step(const lw_scene *scene)
{
    return &scene->cut->steps[scene->step];
}

static inline const lw_tier *lw_scene_tier(const lw_scene *scene)
{
    return &scene->stone->tiers[scene->step];
}

/* Which side is turned to the lap: that of the section which the step stands in. For an action, the
 * side of the next facets. */
lw_side lw_scene_facing(const lw_scene *scene);

/* What to dial for a facet of the stone while this step is cut. */
lw_dial lw_scene_dial(const lw_scene *scene, int facet);

/* Whether the 45 degree adapter is on. */
bool lw_scene_in_adapter(const lw_scene *scene);

/* Whether the step is the first tier of its kind: nothing of its side (for 90 degrees: of the
 * girdle) is cut yet, so that it opens with opposite teeth. */
bool lw_scene_opens(const lw_scene *scene);

/* The facet that a rule of this step names, as seen from the tier's first tooth; -1 when there is
 * none. */
int lw_scene_find(const lw_scene *scene, const lw_facet_ref *ref);

/* Where the tier's first facet has to come to, when its rule names a point and the point can be
 * told from the finished planes. */
bool lw_scene_point(const lw_scene *scene, const lw_rule *rule, lw_vec3 *out);

/* Whether the tier is upright and has flats opposite to its first, and how far these are apart. */
bool lw_scene_opposite(const lw_scene *scene, double *apart);

/* Where a named point lies, as seen from the tier's first tooth; false when that cannot be told. */
bool lw_scene_place(const lw_scene *scene, const lw_point *point, lw_vec3 *out);

/* ---- words ----------------------------------------------------------------------------------- */

/* "12", or "12 +1.25°" where the cheater is turned. */
void lw_say_dial(lw_phrase *phrase, lw_dial dial);
/* A length of the stone (unit: the width): "3.72 mm", or "51.6 % of the width" without a size. */
void lw_say_length(const lw_scene *scene, lw_phrase *phrase, double length);
/* "Pavilion mains", "Girdle flats", "Table". */
void lw_say_title(const lw_scene *scene, lw_phrase *phrase);
/* "main 12", "mains 96 and 12 and girdle flat 3": with the numbers that are on the dial now. */
void lw_say_facets(const lw_scene *scene, lw_phrase *phrase, const lw_facet_ref *refs, int count);
/* "until they run into one point on the axis": how deep the step goes, from all its rules. */
void lw_say_until(const lw_scene *scene, lw_phrase *phrase);

#endif
