/* Facets by the names that a cutter gives them, from the tooth being cut. */
#include "cut/solver.h"

#include "cut/teeth.h"
#include "geom/tolerance.h"

#include <stdio.h>

/* Where a name is looked for, in this order: what is cut already, the tier in hand, what comes
 * later. */
typedef enum scope { SCOPE_EARLIER, SCOPE_PRESENT, SCOPE_LATER, SCOPE_COUNT } scope;

typedef enum answer { ANSWER_ONE, ANSWER_NONE, ANSWER_MANY } answer;

typedef struct search {
    lw_solver *solver;
    lw_cutting now;
    const lw_facet_ref *ref;
    const int *facets; /* all of that name, by tooth */
    int count;
    lw_side side; /* LW_SIDE_NONE: either */
    scope scope;
    double own; /* the tooth being cut, as the text counts */
} search;

static bool of_side(const search *look, const lw_facet *facet)
{
    return look->side == LW_SIDE_NONE || facet->side == LW_SIDE_GIRDLE || facet->side == look->side;
}

static bool fits(const search *look, int facet)
{
    const lw_facet *f = &look->solver->facets[facet];
    scope where = f->step < look->now.step    ? SCOPE_EARLIER
                  : f->step == look->now.step ? SCOPE_PRESENT
                                              : SCOPE_LATER;
    return where == look->scope && of_side(look, f);
}

/* The place among the facets of the first one at or above a tooth; count when all are below. */
static int place_of(const search *look, double tooth)
{
    int low = 0;
    int high = look->count;
    while (low < high) {
        int middle = (low + high) / 2;
        if (look->solver->text_teeth[look->facets[middle]] < tooth) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

/* The facet at a tooth: the last one cut before this step, or the first one after; -1 when there is
 * none. */
static int at_tooth(const search *look, double tooth)
{
    int found = -1;
    double here = lw_tooth_wrap(tooth, look->solver->cut->wheel);
    for (int k = place_of(look, here - LW_SAME_TOOTH); k < look->count; k++) {
        int facet = look->facets[k];
        if (look->solver->text_teeth[facet] > here + LW_SAME_TOOTH) {
            break;
        }
        bool nearer = look->scope == SCOPE_EARLIER ? facet > found : facet < found;
        if (fits(look, facet) && (found < 0 || nearer)) {
            found = facet;
        }
    }
    return found;
}

/* The tooth of that name next beyond a tooth, counting up or down; false when there is none but
 * where we stand. */
static bool next_tooth(const search *look, double from, bool up, double *tooth)
{
    int wheel = look->solver->cut->wheel;
    int start = place_of(look, from);
    for (int i = 0; i < look->count; i++) {
        int k = up ? (start + i) % look->count : (start - 1 - i + 2 * look->count) % look->count;
        double here = look->solver->text_teeth[look->facets[k]];
        if (fits(look, look->facets[k]) && !lw_tooth_same(here, from, wheel)) {
            lw_solver_spend(look->solver, i / 16.0);
            *tooth = here;
            return true;
        }
    }
    lw_solver_spend(look->solver, look->count / 16.0);
    return false;
}

static answer by_tooth(const search *look, double tooth, int *facet)
{
    int found = at_tooth(look, tooth);
    if (found < 0) {
        return ANSWER_NONE;
    }
    *facet = found;
    return ANSWER_ONE;
}

static answer beside(const search *look, bool up, int *facet)
{
    double tooth = look->own;
    for (int k = 0; k < look->ref->count; k++) {
        if (!next_tooth(look, tooth, up, &tooth)) {
            return ANSWER_NONE;
        }
    }
    return by_tooth(look, tooth, facet);
}

static answer nearest(const search *look, int *facet)
{
    double up = 0.0;
    double down = 0.0;
    int wheel = look->solver->cut->wheel;
    if (!next_tooth(look, look->own, true, &up) || !next_tooth(look, look->own, false, &down)) {
        return ANSWER_NONE;
    }
    double above = lw_tooth_up(look->own, up, wheel);
    double below = lw_tooth_up(down, look->own, wheel);
    if (lw_tooth_same(above, below, wheel) && !lw_tooth_same(up, down, wheel)) {
        return ANSWER_MANY;
    }
    return by_tooth(look, above < below ? up : down, facet);
}

static answer only(const search *look, int *facet)
{
    for (int k = 0; k < look->count; k++) {
        if (!fits(look, look->facets[k])) {
            continue;
        }
        double other = 0.0;
        double tooth = look->solver->text_teeth[look->facets[k]];
        return next_tooth(look, tooth, true, &other) ? ANSWER_MANY : by_tooth(look, tooth, facet);
    }
    return ANSWER_NONE;
}

static answer by_relation(const search *look, int *facet)
{
    double half = (double)look->solver->cut->wheel / 2.0;
    bool swapped = look->solver->mirrored[look->now.facet];
    double tooth = look->ref->tooth;
    switch (look->ref->relation) {
    case LW_RELATION_OWN:
        return by_tooth(look, look->own, facet);
    case LW_RELATION_OPPOSITE:
        return by_tooth(look, look->own + half, facet);
    case LW_RELATION_LEFT:
        return beside(look, swapped, facet);
    case LW_RELATION_RIGHT:
        return beside(look, !swapped, facet);
    case LW_RELATION_NEXT:
        return nearest(look, facet);
    case LW_RELATION_TOOTH:
        return by_tooth(look, swapped ? -tooth : tooth, facet);
    default:
        return only(look, facet);
    }
}

/* ---- what to say when it is not found ----------------------------------- */

/* "main at tooth 96, 12, 24 and more": the teeth that carry the name, the first few. */
static void list_candidates(const search *look, char *text, size_t capacity)
{
    enum { SHOWN = 6 };
    double last = -1.0;
    int count = 0;
    size_t used = (size_t)snprintf(text, capacity, "%s at tooth ", look->ref->name);
    for (int k = 0; k < look->count && count <= SHOWN && used < capacity; k++) {
        double tooth = look->solver->text_teeth[look->facets[k]];
        if (tooth == last || !of_side(look, &look->solver->facets[look->facets[k]])) {
            continue;
        }
        char number[LW_SOLVER_FIGURE];
        lw_solver_figure(tooth == 0.0 ? (double)look->solver->cut->wheel : tooth, 10, number);
        used += (size_t)snprintf(text + used, capacity - used, "%s%s",
                                 count == 0      ? ""
                                 : count < SHOWN ? ", "
                                                 : " and ",
                                 count < SHOWN ? number : "more");
        last = tooth;
        count++;
    }
}

static lw_outcome missing(const search *look, bool anywhere)
{
    static const char *const where[] = {[LW_RELATION_ONLY] = "here",
                                        [LW_RELATION_OWN] = "at this tooth",
                                        [LW_RELATION_LEFT] = "beside this one",
                                        [LW_RELATION_RIGHT] = "beside this one",
                                        [LW_RELATION_OPPOSITE] = "opposite this tooth",
                                        [LW_RELATION_NEXT] = "next to this one",
                                        [LW_RELATION_TOOTH] = "at that tooth"};
    char found[LW_PROBLEM_TEXT];
    char hint[LW_PROBLEM_TEXT] = "";
    snprintf(found, sizeof found, "no %s %s", look->ref->name,
             anywhere ? where[look->ref->relation] : "in this cut");
    if (anywhere) {
        list_candidates(look, hint, sizeof hint);
    }
    return lw_solver_fail(look->solver, LW_NOT_FOUND, look->ref->place, found,
                          "a facet that exists", hint);
}

static lw_outcome ambiguous(const search *look)
{
    char found[LW_PROBLEM_TEXT];
    char hint[LW_PROBLEM_TEXT];
    snprintf(found, sizeof found, "%s, which fits more than one facet", look->ref->name);
    list_candidates(look, hint, sizeof hint);
    return lw_solver_fail(look->solver, LW_AMBIGUOUS, look->ref->place, found,
                          "one facet: own, left, right, opposite, next or name@tooth", hint);
}

/* ---- looking ------------------------------------------------------------ */

/* Whether any facet of that name belongs to the side. */
static bool side_has_it(search *look, int name)
{
    const lw_names *names = &look->solver->names;
    for (int k = names->first_step[name]; k < names->first_step[name + 1]; k++) {
        const lw_tier *tier = &look->solver->tiers[names->steps[k]];
        if (tier->count > 0 && of_side(look, &look->solver->facets[tier->first])) {
            return true;
        }
    }
    return false;
}

/* The side that is named; else the one being cut, when it has facets of that name; else either. */
static bool choose_side(search *look, int name)
{
    look->side = look->ref->side;
    if (look->side != LW_SIDE_NONE) {
        return side_has_it(look, name);
    }
    look->side = look->solver->cut->steps[look->now.step].side;
    if (!side_has_it(look, name)) {
        look->side = LW_SIDE_NONE;
    }
    return true;
}

lw_outcome lw_solver_find(lw_solver *solver, lw_cutting now, const lw_facet_ref *ref, int *facet)
{
    search look = {.solver = solver, .now = now, .ref = ref, .own = solver->text_teeth[now.facet]};
    int name = lw_names_find(solver, ref->name);
    int found = -1;
    answer end = ANSWER_NONE;
    lw_solver_spend(solver, 1.0);
    if (name < 0 || !choose_side(&look, name)) {
        return missing(&look, false);
    }
    look.facets = solver->names.facets + solver->names.first_facet[name];
    look.count = solver->names.first_facet[name + 1] - solver->names.first_facet[name];
    for (int k = 0; k < SCOPE_COUNT && end == ANSWER_NONE; k++) {
        look.scope = (scope)k;
        end = by_relation(&look, &found);
    }
    if (end == ANSWER_MANY) {
        return ambiguous(&look);
    }
    if (end == ANSWER_NONE) {
        return missing(&look, true);
    }
    *facet = found;
    int step = solver->facets[found].step;
    return solver->known[step] ? LW_GOT : lw_solver_wait_for(solver, step);
}
