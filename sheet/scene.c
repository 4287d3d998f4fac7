#include "sheet/scene.h"

#include "cut/teeth.h"
#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

lw_side lw_scene_facing(const lw_scene *scene)
{
    for (int i = scene->step; i < scene->cut->step_count; i++) {
        const lw_step *step = &scene->cut->steps[i];
        if (step->kind == LW_STEP_FACETS) {
            return step->side == LW_SIDE_CROWN ? LW_SIDE_CROWN : LW_SIDE_PAVILION;
        }
    }
    return LW_SIDE_PAVILION;
}

lw_dial lw_scene_dial(const lw_scene *scene, int facet)
{
    return lw_dial_of(&scene->kit, lw_scene_facing(scene), scene->stone->facets[facet].tooth);
}

bool lw_scene_in_adapter(const lw_scene *scene)
{
    bool on = false;
    for (int i = 0; i < scene->step; i++) {
        lw_step_kind kind = scene->cut->steps[i].kind;
        if (kind == LW_STEP_ADAPTER) {
            on = !scene->cut->steps[i].off;
        } else if (kind != LW_STEP_FACETS) {
            on = false;
        }
    }
    return on;
}

bool lw_scene_opens(const lw_scene *scene)
{
    const lw_tier *tier = lw_scene_tier(scene);
    if (tier->count == 0) {
        return false;
    }
    lw_side side = scene->stone->facets[tier->first].side;
    for (int i = 0; i < tier->first; i++) {
        if (scene->stone->facets[i].side == side) {
            return false;
        }
    }
    return true;
}

/* ---- names ---- */

typedef enum scope { EARLIER, PRESENT, LATER, SCOPES } scope;

typedef struct search {
    const lw_scene *scene;
    const char *name;
    lw_side side; /* NONE: either */
    scope when;
    double own;
} search;

/* A left-handed stone's text counts the other way. */
static double text_tooth(const lw_scene *scene, int facet)
{
    double tooth = scene->stone->facets[facet].tooth;
    return scene->cut->left_handed ? lw_tooth_wrap(-tooth, scene->cut->wheel) : tooth;
}

static bool fits(const search *look, int facet)
{
    const lw_facet *f = &look->scene->stone->facets[facet];
    int now = look->scene->step;
    bool then = look->when == EARLIER   ? f->step < now
                : look->when == PRESENT ? f->step == now
                                        : f->step > now;
    bool there = look->side == LW_SIDE_NONE || f->side == LW_SIDE_GIRDLE || f->side == look->side;
    return then && there && strcmp(look->scene->cut->steps[f->step].name, look->name) == 0;
}

/* The facet of that name at a tooth, the last that was cut before or the first that comes. */
static int at_tooth(const search *look, double tooth)
{
    int found = -1;
    for (int i = 0; i < look->scene->stone->facet_count; i++) {
        if (fits(look, i) &&
            lw_tooth_same(text_tooth(look->scene, i), tooth, look->scene->cut->wheel) &&
            (found < 0 || look->when == EARLIER)) {
            found = i;
        }
    }
    return found;
}

static int beside(const search *look, bool up, int count)
{
    int wheel = look->scene->cut->wheel;
    double from = look->own;
    for (int k = 0; k < count; k++) {
        double best = (double)wheel;
        double tooth = from;
        for (int i = 0; i < look->scene->stone->facet_count; i++) {
            double here = fits(look, i) ? text_tooth(look->scene, i) : from;
            double away = up ? lw_tooth_up(from, here, wheel) : lw_tooth_up(here, from, wheel);
            if (away > LW_SAME_TOOTH && away < best) {
                best = away;
                tooth = here;
            }
        }
        if (best >= (double)wheel) {
            return -1;
        }
        from = tooth;
    }
    return at_tooth(look, from);
}

static int nearest(const search *look)
{
    int left = beside(look, false, 1);
    int right = beside(look, true, 1);
    if (left < 0 || right < 0) {
        return left < 0 ? right : left;
    }
    int wheel = look->scene->cut->wheel;
    double below = lw_tooth_up(text_tooth(look->scene, left), look->own, wheel);
    double above = lw_tooth_up(look->own, text_tooth(look->scene, right), wheel);
    return above < below ? right : left;
}

static int last_of_name(const search *look)
{
    int found = -1;
    for (int i = 0; i < look->scene->stone->facet_count; i++) {
        if (fits(look, i) && (found < 0 || look->when == EARLIER)) {
            found = i;
        }
    }
    return found;
}

static int by_relation(const search *look, const lw_facet_ref *ref)
{
    switch (ref->relation) {
    case LW_RELATION_OWN:
        return at_tooth(look, look->own);
    case LW_RELATION_OPPOSITE:
        return at_tooth(look, look->own + 0.5 * (double)look->scene->cut->wheel);
    case LW_RELATION_TOOTH:
        return at_tooth(look, ref->tooth);
    case LW_RELATION_LEFT:
        return beside(look, false, ref->count);
    case LW_RELATION_RIGHT:
        return beside(look, true, ref->count);
    case LW_RELATION_NEXT:
        return nearest(look);
    default:
        return last_of_name(look);
    }
}

int lw_scene_find(const lw_scene *scene, const lw_facet_ref *ref)
{
    const lw_tier *tier = lw_scene_tier(scene);
    const lw_step *step = lw_scene_step(scene);
    if (tier->count == 0) {
        return -1;
    }
    search look = {.scene = scene, .name = ref->name, .own = text_tooth(scene, tier->first)};
    lw_side sides[2] = {ref->side != LW_SIDE_NONE ? ref->side : step->side, LW_SIDE_NONE};
    int side_count = ref->side != LW_SIDE_NONE ? 1 : 2;
    for (int s = 0; s < side_count; s++) {
        for (int k = 0; k < SCOPES; k++) {
            look.side = sides[s];
            look.when = (scope)k;
            int found = by_relation(&look, ref);
            if (found >= 0) {
                return found;
            }
        }
    }
    return -1;
}

/* ---- points ---- */

static bool common_point(const lw_plane *a, const lw_plane *b, const lw_plane *c, lw_vec3 *out)
{
    lw_vec3 bc = lw_vec3_cross(b->normal, c->normal);
    double det = lw_vec3_dot(a->normal, bc);
    if (fabs(det) < LW_MEET_HOLDS) {
        return false;
    }
    lw_vec3 sum = lw_vec3_scale(bc, a->distance);
    sum = lw_vec3_add(sum, lw_vec3_scale(lw_vec3_cross(c->normal, a->normal), b->distance));
    sum = lw_vec3_add(sum, lw_vec3_scale(lw_vec3_cross(a->normal, b->normal), c->distance));
    *out = lw_vec3_scale(sum, 1.0 / det);
    return true;
}

/* The named facets and the one being cut come together in one point. */
static bool meet_point(const lw_scene *scene, const lw_point *point, lw_vec3 *out)
{
    const lw_facet *facets = scene->stone->facets;
    int own = lw_scene_tier(scene)->first;
    int a = lw_scene_find(scene, &point->facets[0]);
    for (int i = 1; a >= 0 && i < point->facet_count; i++) {
        int b = lw_scene_find(scene, &point->facets[i]);
        if (b < 0) {
            return false;
        }
        if (common_point(&facets[a].plane, &facets[b].plane, &facets[own].plane, out)) {
            return true;
        }
        int c = i + 1 < point->facet_count ? lw_scene_find(scene, &point->facets[i + 1]) : -1;
        if (c >= 0 && common_point(&facets[a].plane, &facets[b].plane, &facets[c].plane, out)) {
            return true;
        }
    }
    return false;
}

/* Where the line of two facets crosses the upright plane through the axis and the tooth. */
static bool line_point(const lw_scene *scene, const lw_point *point, lw_vec3 *out)
{
    const lw_facet *facets = scene->stone->facets;
    int a = lw_scene_find(scene, &point->facets[0]);
    int b = lw_scene_find(scene, &point->facets[1]);
    if (a < 0 || b < 0) {
        return false;
    }
    lw_sincos at = lw_tooth_sincos(facets[lw_scene_tier(scene)->first].tooth, scene->cut->wheel);
    lw_plane upright = {.normal = {-at.sin, at.cos, 0.0}, .distance = 0.0};
    return common_point(&facets[a].plane, &facets[b].plane, &upright, out);
}

static bool axis_point(const lw_scene *scene, lw_vec3 *out)
{
    const lw_plane *own = &scene->stone->facets[lw_scene_tier(scene)->first].plane;
    if (fabs(own->normal.z) < LW_MEET_HOLDS) {
        return false;
    }
    *out = (lw_vec3){0.0, 0.0, own->distance / own->normal.z};
    return true;
}

bool lw_scene_place(const lw_scene *scene, const lw_point *point, lw_vec3 *out)
{
    switch (point->kind) {
    case LW_POINT_MEET:
        return meet_point(scene, point, out);
    case LW_POINT_LINE:
        return line_point(scene, point, out);
    case LW_POINT_APEX:
        return axis_point(scene, out);
    default:
        break;
    }
    lw_value share;
    lw_vec3 from;
    lw_vec3 towards;
    if (lw_value_of(scene->cut, scene->values, point->share, &share, NULL) != LW_OK ||
        !lw_scene_place(scene, point->from, &from) ||
        !lw_scene_place(scene, point->towards, &towards)) {
        return false;
    }
    *out = lw_vec3_mix(from, towards, share.value);
    return true;
}

/* A length as the cut states it, in the unit; false for millimetres of a stone without a size. */
static bool length_of(const lw_scene *scene, const lw_expr *expr, double *out)
{
    lw_value value;
    double unit_mm = scene->stone->unit_mm;
    if (expr == NULL || lw_value_of(scene->cut, scene->values, expr, &value, NULL) != LW_OK ||
        (value.unit == LW_UNIT_MM && unit_mm <= 0.0)) {
        return false;
    }
    *out = value.unit == LW_UNIT_MM ? value.value / unit_mm : value.value;
    return true;
}

/* The point of two facets' common line that lies so far from the axis, on the own tooth's half of
 * it: |p + t d| = reach in plan. */
static bool reach_point(const lw_scene *scene, const lw_rule *rule, lw_vec3 *out)
{
    const lw_facet *facets = scene->stone->facets;
    int own = lw_scene_tier(scene)->first;
    int a = rule->facet_count == 2 ? lw_scene_find(scene, &rule->facets[0]) : -1;
    int b = rule->facet_count == 2 ? lw_scene_find(scene, &rule->facets[1]) : -1;
    double reach = 0.0;
    if (a < 0 || b < 0 || !length_of(scene, rule->value, &reach)) {
        return false;
    }
    lw_vec3 d = lw_vec3_cross(facets[a].plane.normal, facets[b].plane.normal);
    lw_plane upright = {.normal = {d.x, d.y, 0.0}, .distance = 0.0};
    lw_vec3 p; /* the line's nearest point to the axis */
    if (!common_point(&facets[a].plane, &facets[b].plane, &upright, &p)) {
        return false;
    }
    double along = d.x * d.x + d.y * d.y;
    double t = sqrt(fmax(0.0, (reach * reach - p.x * p.x - p.y * p.y) / along));
    lw_vec3 n = facets[own].plane.normal;
    *out = lw_vec3_add(p, lw_vec3_scale(d, d.x * n.x + d.y * n.y < 0.0 ? -t : t));
    return true;
}

bool lw_scene_point(const lw_scene *scene, const lw_rule *rule, lw_vec3 *out)
{
    if (lw_scene_tier(scene)->count == 0) {
        return false;
    }
    if (rule->kind == LW_RULE_POINT) {
        return axis_point(scene, out);
    }
    if (rule->kind == LW_RULE_REACH) {
        return reach_point(scene, rule, out);
    }
    return rule->kind == LW_RULE_THROUGH && rule->point != NULL &&
           lw_scene_place(scene, rule->point, out);
}

bool lw_scene_opposite(const lw_scene *scene, double *apart)
{
    const lw_tier *tier = lw_scene_tier(scene);
    const lw_facet *facets = scene->stone->facets;
    for (int i = tier->first + 1; i < tier->first + tier->count; i++) {
        const lw_plane *first = &facets[tier->first].plane;
        lw_vec3 sum = lw_vec3_add(facets[i].plane.normal, first->normal);
        if (facets[i].side == LW_SIDE_GIRDLE && hypot(sum.x, sum.y) < LW_MEET_HOLDS) {
            *apart = first->distance + facets[i].plane.distance;
            return true;
        }
    }
    return false;
}
