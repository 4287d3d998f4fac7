/* How deep a step goes, in a sentence for every rule of the language. */
#include "cut/write.h"
#include "geom/tolerance.h"
#include "sheet/scene.h"

#include <math.h>
#include <string.h>

static bool value_of(const lw_scene *scene, const lw_expr *expr, lw_value *out)
{
    return expr != NULL && lw_value_of(scene->cut, scene->values, expr, out, NULL) == LW_OK;
}

/* A length that the cut states: millimetres or a share of the width. */
static void say_stated(const lw_scene *scene, lw_phrase *phrase, const lw_expr *expr)
{
    lw_value value;
    if (!value_of(scene, expr, &value)) {
        lw_phrase_add(phrase, "the stated length");
    } else if (value.unit == LW_UNIT_MM) {
        lw_phrase_number(phrase, value.value, 2);
        lw_phrase_add(phrase, "\u00a0mm");
    } else {
        lw_say_length(scene, phrase, value.value);
    }
}

static void say_percent(const lw_scene *scene, lw_phrase *phrase, const lw_expr *expr)
{
    lw_value value;
    if (value_of(scene, expr, &value)) {
        lw_phrase_number(phrase, 100.0 * value.value, 1);
        lw_phrase_add(phrase, "\u00a0%");
    }
}

static bool several(const lw_scene *scene)
{
    return lw_scene_tier(scene)->count > 1;
}

static const char *they(const lw_scene *scene)
{
    return several(scene) ? "they" : "it";
}

/* "they come", "it comes": a verb that takes an s for one. */
static void say_they(const lw_scene *scene, lw_phrase *phrase, const char *verb)
{
    lw_phrase_add(phrase, they(scene));
    lw_phrase_add(phrase, " ");
    lw_phrase_add(phrase, verb);
    bool hissing = verb[strlen(verb) - 1] == 'h';
    lw_phrase_add(phrase, several(scene) ? " " : hissing ? "es " : "s ");
}

/* "a place 45.0 % (1.52 mm) of the way" */
static void say_share(const lw_scene *scene, lw_phrase *phrase, const lw_point *point)
{
    lw_vec3 from;
    lw_vec3 place;
    lw_phrase_add(phrase, "a place ");
    say_percent(scene, phrase, point->share);
    if (scene->stone->unit_mm > 0.0 && lw_scene_place(scene, point->from, &from) &&
        lw_scene_place(scene, point, &place)) {
        lw_phrase_add(phrase, " (");
        lw_say_length(scene, phrase, lw_vec3_length(lw_vec3_sub(place, from)));
        lw_phrase_add(phrase, ")");
    }
}

static void say_point(const lw_scene *scene, lw_phrase *phrase, const lw_point *point)
{
    switch (point->kind) {
    case LW_POINT_MEET:
        lw_phrase_add(phrase, "the point where ");
        lw_say_facets(scene, phrase, point->facets, point->facet_count);
        lw_phrase_add(phrase, " meet");
        break;
    case LW_POINT_LINE:
        lw_phrase_add(phrase, "the edge between ");
        lw_say_facets(scene, phrase, point->facets, 2);
        break;
    case LW_POINT_APEX:
        lw_phrase_add(phrase, "the centre point");
        break;
    default:
        say_share(scene, phrase, point);
        lw_phrase_add(phrase, " of the way from ");
        say_point(scene, phrase, point->from);
        lw_phrase_add(phrase, " to ");
        say_point(scene, phrase, point->towards);
        break;
    }
}

/* Half the stated width is the facet's distance from the axis; opposite flats show the whole. */
static void say_size(const lw_scene *scene, lw_phrase *phrase)
{
    double apart = 0.0;
    if (lw_scene_opposite(scene, &apart)) {
        lw_phrase_add(phrase, "opposite flats are ");
        lw_say_length(scene, phrase, apart);
        lw_phrase_add(phrase, " apart");
    } else {
        say_they(scene, phrase, "lie");
        lw_say_length(scene, phrase,
                      scene->stone->facets[lw_scene_tier(scene)->first].plane.distance);
        lw_phrase_add(phrase, " from the axis");
    }
}

static void say_axis_point(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    int count = lw_scene_tier(scene)->count;
    if (count == 2) {
        lw_phrase_add(phrase, rule->temporary ? "both meet on the axis, in a temporary point"
                                              : "both meet on the axis");
    } else if (count > 2) {
        lw_phrase_add(phrase, "all ");
        lw_phrase_count(phrase, count);
        lw_phrase_add(phrase,
                      rule->temporary ? " run into one temporary point" : " run into one point");
    } else {
        lw_phrase_add(phrase, "it reaches the axis");
    }
    if (rule->value != NULL) {
        lw_phrase_add(phrase, ", ");
        say_stated(scene, phrase, rule->value);
        lw_phrase_add(phrase, lw_scene_facing(scene) == LW_SIDE_CROWN ? " above the girdle line"
                                                                      : " below the girdle line");
    }
}

/* A point that is named from the tooth in hand is told for the first tooth. */
static void say_through(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    say_they(scene, phrase, "reach");
    say_point(scene, phrase, rule->point);
}

static void say_level(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    lw_phrase_add(phrase, "the edge on ");
    lw_say_facets(scene, phrase, rule->facets, rule->facet_count);
    lw_phrase_add(phrase, " is level ");
    if (rule->point != NULL) {
        lw_phrase_add(phrase, "at the height of ");
        say_point(scene, phrase, rule->point);
    } else {
        lw_phrase_add(phrase, "at the girdle line");
    }
}

static void say_share_on(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    lw_phrase_add(phrase, "the edge on ");
    lw_say_facets(scene, phrase, rule->facets, rule->facet_count);
    lw_phrase_add(phrase, " lies at the height of ");
    say_point(scene, phrase, rule->point);
}

static void say_edge(const lw_scene *scene, lw_phrase *phrase, const lw_edge *edge)
{
    lw_phrase_add(phrase, edge->second == NULL ? "the edge with " : "the edge between ");
    lw_say_facets(scene, phrase, edge->first, 1);
    if (edge->second != NULL) {
        lw_phrase_add(phrase, " and ");
        lw_say_facets(scene, phrase, edge->second, 1);
    }
}

static void say_distance(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    const lw_tier *tier = lw_scene_tier(scene);
    if (rule->value_count > 1) {
        lw_phrase_add(phrase, "each lies as far from the middle of the stone, straight out, as is "
                              "told with its tooth; the height on the mast shows it");
        return;
    }
    say_they(scene, phrase, "lie");
    lw_say_length(scene, phrase, scene->stone->facets[tier->first].plane.distance);
    lw_phrase_add(phrase, " from the middle of the stone, straight out; the height on the mast "
                          "shows it");
}

static void say_keel(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    lw_value value = {LW_UNIT_NUMBER, 1.0};
    say_they(scene, phrase, "reach");
    lw_phrase_add(phrase, "the line of ");
    lw_say_facets(scene, phrase, rule->facets, rule->facet_count);
    if (value_of(scene, rule->value, &value) && value.value == 0.0) {
        lw_phrase_add(phrase, " on the axis");
    } else {
        lw_phrase_add(phrase, ", ");
        say_stated(scene, phrase, rule->value);
        lw_phrase_add(phrase, " from the axis");
    }
}

static void say_table(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    lw_phrase_add(phrase, "it is ");
    say_percent(scene, phrase, rule->value);
    lw_phrase_add(phrase, " as wide as the stone, measured across ");
    lw_say_facets(scene, phrase, rule->facets, rule->facet_count);
}

/* The rules that state one length. */
static bool say_with_length(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    const char *after = "";
    switch (rule->kind) {
    case LW_RULE_GIRDLE:
        lw_phrase_add(phrase, "the girdle is ");
        after = several(scene) ? " thick where they come to it" : " thick where it comes to it";
        break;
    case LW_RULE_HEIGHT:
        say_they(scene, phrase, "lie");
        after = lw_scene_facing(scene) == LW_SIDE_CROWN ? " above the girdle line"
                                                        : " below the girdle line";
        break;
    case LW_RULE_WIDTH:
        lw_phrase_add(phrase, several(scene) ? "each is " : "it is ");
        after = " wide";
        break;
    case LW_RULE_CULET:
        lw_phrase_add(phrase, "it is ");
        after = " across";
        break;
    case LW_RULE_EDGE:
        lw_phrase_add(phrase, "the edge with ");
        lw_say_facets(scene, phrase, rule->facets, rule->facet_count);
        lw_phrase_add(phrase, " is ");
        after = " long";
        break;
    default:
        return false;
    }
    say_stated(scene, phrase, rule->value);
    lw_phrase_add(phrase, after);
    return true;
}

static void say_rule(const lw_scene *scene, lw_phrase *phrase, const lw_rule *rule)
{
    if (say_with_length(scene, phrase, rule)) {
        return;
    }
    switch (rule->kind) {
    case LW_RULE_SIZE:
        say_size(scene, phrase);
        break;
    case LW_RULE_POINT:
        say_axis_point(scene, phrase, rule);
        break;
    case LW_RULE_THROUGH:
        say_through(scene, phrase, rule);
        break;
    case LW_RULE_SHARE_ON:
        say_share_on(scene, phrase, rule);
        break;
    case LW_RULE_LEVEL:
        say_level(scene, phrase, rule);
        break;
    case LW_RULE_TABLE:
        say_table(scene, phrase, rule);
        break;
    case LW_RULE_REACH:
        say_keel(scene, phrase, rule);
        break;
    case LW_RULE_EQUAL:
        say_edge(scene, phrase, &rule->edges[0]);
        lw_phrase_add(phrase, " is as long as ");
        say_edge(scene, phrase, &rule->edges[1]);
        break;
    case LW_RULE_MATCH:
        lw_phrase_add(phrase, several(scene) ? "they are as deep as " : "it is as deep as ");
        lw_say_facets(scene, phrase, rule->facets, rule->facet_count);
        break;
    default:
        say_distance(scene, phrase, rule);
        break;
    }
}

/* Whether the rule names places that differ from tooth to tooth. */
static bool is_local(const lw_rule *rule)
{
    switch (rule->kind) {
    case LW_RULE_THROUGH:
        return rule->point->kind != LW_POINT_APEX;
    case LW_RULE_SHARE_ON:
    case LW_RULE_LEVEL:
    case LW_RULE_EDGE:
    case LW_RULE_EQUAL:
    case LW_RULE_MATCH:
        return true;
    default:
        return false;
    }
}

void lw_say_until(const lw_scene *scene, lw_phrase *phrase)
{
    const lw_step *step = lw_scene_step(scene);
    bool local = false;
    lw_phrase_clear(phrase);
    lw_phrase_add(phrase, "until ");
    for (int i = 0; i < step->rule_count; i++) {
        lw_phrase_add(phrase, i > 0 ? " and " : "");
        say_rule(scene, phrase, &step->rules[i]);
        local = local || is_local(&step->rules[i]);
    }
    if (local && several(scene)) {
        lw_phrase_add(phrase, " (told for tooth ");
        lw_say_dial(phrase, lw_scene_dial(scene, lw_scene_tier(scene)->first));
        lw_phrase_add(phrase, "; the others alike)");
    }
    lw_phrase_add(phrase, ".");
}
