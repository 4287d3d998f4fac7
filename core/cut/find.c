/* Facets by the names that a cutter gives them, from the tooth being cut. */
#include "cut/solver.h"
#include "cut/teeth.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Where a name is looked for, in this order: what is cut already, the tier in hand, what comes
 * later. */
typedef enum scope { SCOPE_EARLIER, SCOPE_PRESENT, SCOPE_LATER, SCOPE_COUNT } scope;

typedef struct search {
    lw_solver *solver;
    lw_cutting now;
    const lw_facet_ref *ref;
    lw_side side; /* LW_SIDE_NONE: either */
    scope scope;
    double own; /* the tooth being cut, as the text counts */
} search;

static bool in_scope(const search *look, int step)
{
    switch (look->scope) {
    case SCOPE_EARLIER:
        return step < look->now.step;
    case SCOPE_PRESENT:
        return step == look->now.step;
    default:
        return step > look->now.step;
    }
}

static bool fits(const search *look, int facet)
{
    const lw_facet *f = &look->solver->facets[facet];
    const lw_step *step = &look->solver->cut->steps[f->step];
    bool of_side = look->side == LW_SIDE_NONE || f->side == LW_SIDE_GIRDLE || f->side == look->side;
    return of_side && in_scope(look, f->step) && strcmp(step->name, look->ref->name) == 0;
}

/* The facet of that name at a tooth: the last one cut before this step, or the first one after. -1
 * when there is none. */
static int at_tooth(const search *look, double tooth)
{
    int found = -1;
    for (int i = 0; i < look->solver->facet_count; i++) {
        if (fits(look, i) &&
            lw_tooth_same(lw_solver_text_tooth(look->solver, i), tooth, look->solver->cut->wheel)) {
            if (found < 0 || look->scope == SCOPE_EARLIER) {
                found = i;
            }
        }
    }
    return found;
}

static bool any_fits(const search *look)
{
    for (int i = 0; i < look->solver->facet_count; i++) {
        if (fits(look, i)) {
            return true;
        }
    }
    return false;
}

/* The tooth of that name next beyond a tooth, counting up or down; false when there is none but
 * where we stand. */
static bool next_tooth(const search *look, double from, bool up, double *tooth)
{
    int wheel = look->solver->cut->wheel;
    double best = (double)wheel;
    for (int i = 0; i < look->solver->facet_count; i++) {
        if (!fits(look, i)) {
            continue;
        }
        double here = lw_solver_text_tooth(look->solver, i);
        double away = up ? lw_tooth_up(from, here, wheel) : lw_tooth_up(here, from, wheel);
        if (away > 0.0 && away < best) {
            best = away;
            *tooth = here;
        }
    }
    return best < (double)wheel;
}

/* "main at 96, 12, 24 and more": the teeth that carry the name, the first few. */
static void list_candidates(const search *look, char *text, size_t capacity)
{
    double shown[6];
    int count = 0;
    bool more = false;
    for (int i = 0; i < look->solver->facet_count; i++) {
        double tooth = lw_solver_text_tooth(look->solver, i);
        bool known = !fits(look, i);
        for (int k = 0; k < count; k++) {
            known = known || shown[k] == tooth;
        }
        if (!known && count < 6) {
            shown[count++] = tooth;
        } else if (!known) {
            more = true;
        }
    }
    int length = snprintf(text, capacity, "%s at tooth ", look->ref->name);
    for (int k = 0; k < count && length > 0 && (size_t)length < capacity; k++) {
        double written = shown[k] == 0.0 ? (double)look->solver->cut->wheel : shown[k];
        length +=
            snprintf(text + length, capacity - (size_t)length, "%s%.10g", k ? ", " : "", written);
    }
    if (more && length > 0 && (size_t)length < capacity) {
        snprintf(text + length, capacity - (size_t)length, " and more");
    }
}

static lw_outcome missing(const search *look, const char *where)
{
    char found[LW_PROBLEM_TEXT];
    char hint[LW_PROBLEM_TEXT];
    snprintf(found, sizeof found, "no %s %s", look->ref->name, where);
    list_candidates(look, hint, sizeof hint);
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

static lw_outcome by_tooth(const search *look, double tooth, const char *where, int *facet)
{
    int found = at_tooth(look, tooth);
    if (found < 0) {
        return missing(look, where);
    }
    *facet = found;
    return LW_GOT;
}

static lw_outcome beside(const search *look, bool up, int *facet)
{
    double tooth = look->own;
    for (int k = 0; k < look->ref->count; k++) {
        if (!next_tooth(look, tooth, up, &tooth)) {
            return missing(look, "beside this one");
        }
    }
    return by_tooth(look, tooth, "there", facet);
}

static lw_outcome nearest(const search *look, int *facet)
{
    double up = 0.0;
    double down = 0.0;
    int wheel = look->solver->cut->wheel;
    if (!next_tooth(look, look->own, true, &up) || !next_tooth(look, look->own, false, &down)) {
        return missing(look, "next to this one");
    }
    double above = lw_tooth_up(look->own, up, wheel);
    double below = lw_tooth_up(down, look->own, wheel);
    if (lw_tooth_same(above, below, wheel) && !lw_tooth_same(up, down, wheel)) {
        return ambiguous(look);
    }
    return by_tooth(look, above < below ? up : down, "there", facet);
}

static lw_outcome only(const search *look, int *facet)
{
    int found = -1;
    for (int i = 0; i < look->solver->facet_count; i++) {
        if (!fits(look, i)) {
            continue;
        }
        if (found >= 0 &&
            !lw_tooth_same(lw_solver_text_tooth(look->solver, i),
                           lw_solver_text_tooth(look->solver, found), look->solver->cut->wheel)) {
            return ambiguous(look);
        }
        if (found < 0 || look->scope == SCOPE_EARLIER) {
            found = i;
        }
    }
    if (found < 0) {
        return missing(look, "here");
    }
    *facet = found;
    return LW_GOT;
}

static lw_outcome by_relation(const search *look, int *facet)
{
    double half = (double)look->solver->cut->wheel / 2.0;
    bool swapped = look->solver->mirrored[look->now.facet];
    double tooth = look->ref->tooth;
    switch (look->ref->relation) {
    case LW_RELATION_OWN:
        return by_tooth(look, look->own, "at this tooth", facet);
    case LW_RELATION_OPPOSITE:
        return by_tooth(look, look->own + half, "opposite this tooth", facet);
    case LW_RELATION_LEFT:
        return beside(look, swapped, facet);
    case LW_RELATION_RIGHT:
        return beside(look, !swapped, facet);
    case LW_RELATION_NEXT:
        return nearest(look, facet);
    case LW_RELATION_TOOTH:
        return by_tooth(look, swapped ? -tooth : tooth, "at that tooth", facet);
    default:
        return only(look, facet);
    }
}

/* Settles side and scope: the side being cut before the other, what is cut before what is not. */
static bool choose_place(search *look)
{
    static const lw_side none = LW_SIDE_NONE;
    const lw_step *step = &look->solver->cut->steps[look->now.step];
    lw_side sides[2] = {look->ref->side != none ? look->ref->side : step->side, none};
    int side_count = look->ref->side != none ? 1 : 2;
    for (int s = 0; s < side_count; s++) {
        for (int k = 0; k < SCOPE_COUNT; k++) {
            look->side = sides[s];
            look->scope = (scope)k;
            if (any_fits(look)) {
                return true;
            }
        }
    }
    return false;
}

lw_outcome lw_solver_find(lw_solver *solver, lw_cutting now, const lw_facet_ref *ref, int *facet)
{
    search look = {
        .solver = solver, .now = now, .ref = ref, .own = lw_solver_text_tooth(solver, now.facet)};
    if (!choose_place(&look)) {
        return missing(&look, "in this cut");
    }
    /* At its own tooth a name may have a facet further down though others stand above. */
    lw_outcome outcome = LW_FAILED;
    bool by_place = ref->relation == LW_RELATION_OWN || ref->relation == LW_RELATION_TOOTH ||
                    ref->relation == LW_RELATION_OPPOSITE;
    lw_problem kept = {0};
    lw_problem *problem = solver->problem;
    solver->problem = &kept;
    int found = -1;
    outcome = by_relation(&look, &found);
    if (outcome == LW_FAILED && by_place && look.scope != SCOPE_LATER) {
        search later = look;
        later.scope = SCOPE_LATER;
        int further = -1;
        lw_problem first = kept;
        outcome = by_relation(&later, &further);
        found = further;
        kept = first;
    }
    solver->problem = problem;
    if (outcome == LW_FAILED) {
        if (problem != NULL) {
            *problem = kept;
        }
        solver->status = kept.status;
        return LW_FAILED;
    }
    *facet = found;
    return solver->known[solver->facets[found].step] ? LW_GOT : LW_WAITS;
}
