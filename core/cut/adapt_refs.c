/* Other names for the facets that a step's rules speak of. */
#include "cut/adapt_parts.h"

#include <string.h>

typedef struct rename_job {
    lw_edit *edit;
    lw_ref_change *change;
    const void *context;
} rename_job;

static const lw_facet_ref *changed_refs(const rename_job *job, const lw_facet_ref *refs, int count)
{
    lw_facet_ref *copy = lw_edit_new(job->edit, (size_t)count, sizeof *copy);
    for (int i = 0; copy != NULL && i < count; i++) {
        copy[i] = refs[i];
        job->change(job->context, &copy[i]);
    }
    return copy;
}

static const lw_point *changed_point(const rename_job *job, const lw_point *point)
{
    lw_point *copy = lw_edit_new(job->edit, 1, sizeof *copy);
    if (copy == NULL) {
        return NULL;
    }
    *copy = *point;
    copy->facets = changed_refs(job, point->facets, point->facet_count);
    copy->from = point->from != NULL ? changed_point(job, point->from) : NULL;
    copy->towards = point->towards != NULL ? changed_point(job, point->towards) : NULL;
    return copy;
}

static void change_edge(const rename_job *job, lw_edge *edge)
{
    edge->first = edge->first != NULL ? changed_refs(job, edge->first, 1) : NULL;
    edge->second = edge->second != NULL ? changed_refs(job, edge->second, 1) : NULL;
}

void lw_edit_change_refs(lw_edit *edit, lw_step *step, lw_ref_change *change, const void *context)
{
    rename_job job = {edit, change, context};
    for (int r = 0; r < step->rule_count; r++) {
        lw_rule *rule = &step->rules[r];
        rule->point = rule->point != NULL ? changed_point(&job, rule->point) : NULL;
        rule->facets = changed_refs(&job, rule->facets, rule->facet_count);
        change_edge(&job, &rule->edges[0]);
        change_edge(&job, &rule->edges[1]);
    }
}

void lw_ref_swap(const void *context, lw_facet_ref *ref)
{
    (void)context;
    if (ref->relation == LW_RELATION_LEFT) {
        ref->relation = LW_RELATION_RIGHT;
    } else if (ref->relation == LW_RELATION_RIGHT) {
        ref->relation = LW_RELATION_LEFT;
    }
}
