/* Names of facets in rules against the names of the steps, once all of them are there: a rule may
 * point further down. */
#include "cut/read_parts.h"

#include "geom/tolerance.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ON_PAVILION = 1, ON_CROWN = 2 };

typedef struct entry {
    const char *name;
    unsigned sides;
} entry;

typedef struct name_list {
    lw_reader *r;
    entry *entries;
    int count;
} name_list;

static int by_name(const void *a, const void *b)
{
    return strcmp(((const entry *)a)->name, ((const entry *)b)->name);
}

/* A girdle facet belongs to both sides, and a free angle may turn out to be one. */
static unsigned sides_of(const lw_reader *r, const lw_step *step)
{
    lw_value angle = {LW_UNIT_DEG, 90.0};
    if (step->angle != NULL) {
        (void)lw_value_of(&r->cut, &r->values, step->angle, &angle, NULL);
    }
    if (angle.value > 90.0 - LW_SAME_ANGLE_DEG) {
        return ON_PAVILION | ON_CROWN;
    }
    return step->side == LW_SIDE_CROWN ? ON_CROWN : ON_PAVILION;
}

static lw_status make_index(lw_reader *r, name_list *out)
{
    const lw_step *steps = r->steps.items;
    out->r = r;
    out->count = 0;
    out->entries = lw_arena_new(&r->cut.arena, (size_t)r->steps.count, sizeof(entry));
    if (out->entries == NULL) {
        return lw_read_no_memory(r);
    }
    for (int i = 0; i < r->steps.count; i++) {
        if (steps[i].kind == LW_STEP_FACETS) {
            out->entries[out->count++] = (entry){steps[i].name, sides_of(r, &steps[i])};
        }
    }
    qsort(out->entries, (size_t)out->count, sizeof(entry), by_name);
    int kept = 0;
    for (int i = 0; i < out->count; i++) {
        if (kept > 0 && strcmp(out->entries[kept - 1].name, out->entries[i].name) == 0) {
            out->entries[kept - 1].sides |= out->entries[i].sides;
        } else {
            out->entries[kept++] = out->entries[i];
        }
    }
    out->count = kept;
    return LW_OK;
}

static lw_status unknown(const name_list *list, const lw_facet_ref *facet)
{
    const char *words[LW_CUT_MOST_STEPS];
    char found[LW_PROBLEM_TEXT], hint[LW_PROBLEM_TEXT] = "";
    for (int i = 0; i < list->count; i++) {
        words[i] = list->entries[i].name;
    }
    const char *best = lw_nearest(facet->name, strlen(facet->name), words, list->count);
    if (best != NULL) {
        snprintf(hint, sizeof hint, "did you mean '%s'?", best);
    }
    snprintf(found, sizeof found, "a facet called '%s'", facet->name);
    return lw_read_fail_as(list->r, LW_BAD_INPUT, facet->place, found, "the name of a step", hint);
}

static lw_status check_facet(const name_list *list, const lw_facet_ref *facet)
{
    entry key = {facet->name, 0};
    const entry *hit = bsearch(&key, list->entries, (size_t)list->count, sizeof(entry), by_name);
    if (hit == NULL) {
        return unknown(list, facet);
    }
    unsigned wanted = facet->side == LW_SIDE_PAVILION ? ON_PAVILION
                      : facet->side == LW_SIDE_CROWN  ? ON_CROWN
                                                      : ON_PAVILION | ON_CROWN;
    if ((hit->sides & wanted) != 0) {
        return LW_OK;
    }
    const char *side = facet->side == LW_SIDE_CROWN ? "crown" : "pavilion";
    const char *other = facet->side == LW_SIDE_CROWN ? "pavilion" : "crown";
    char found[LW_PROBLEM_TEXT], expected[LW_PROBLEM_TEXT];
    snprintf(found, sizeof found, "'%s' on the %s", facet->name, side);
    snprintf(expected, sizeof expected, "a side that has it: its steps are on the %s", other);
    return lw_read_fail_as(list->r, LW_BAD_INPUT, facet->place, found, expected, "");
}

static lw_status check_facets(const name_list *list, const lw_facet_ref *facets, int count)
{
    lw_status status = LW_OK;
    for (int i = 0; status == LW_OK && i < count; i++) {
        status = check_facet(list, &facets[i]);
    }
    return status;
}

static lw_status check_point(const name_list *list, const lw_point *point)
{
    lw_status status = check_facets(list, point->facets, point->facet_count);
    if (status == LW_OK && point->kind == LW_POINT_SHARE) {
        status = check_point(list, point->from);
        status = status == LW_OK ? check_point(list, point->towards) : status;
    }
    return status;
}

/* In the order of the text: the point of "level on F by P" follows its facet, that of a share
 * goes before it; which of two unknown names is told first matters little. */
static lw_status check_rule(const name_list *list, const lw_rule *rule)
{
    lw_status status = rule->point == NULL ? LW_OK : check_point(list, rule->point);
    if (status == LW_OK) {
        status = check_facets(list, rule->facets, rule->facet_count);
    }
    for (int i = 0; i < 2 && rule->kind == LW_RULE_EQUAL; i++) {
        const lw_facet_ref *second = rule->edges[i].second;
        status = status == LW_OK ? check_facet(list, rule->edges[i].first) : status;
        status = status == LW_OK && second != NULL ? check_facet(list, second) : status;
    }
    return status;
}

lw_status lw_read_check_names(lw_reader *r)
{
    name_list list = {0};
    lw_status status = make_index(r, &list);
    const lw_step *steps = r->steps.items;
    for (int i = 0; status == LW_OK && i < r->steps.count; i++) {
        for (int j = 0; status == LW_OK && j < steps[i].rule_count; j++) {
            status = check_rule(&list, &steps[i].rules[j]);
        }
    }
    return status;
}
