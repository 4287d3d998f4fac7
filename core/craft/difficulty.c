#include "craft/difficulty.h"

#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

/* ---- what hangs on what ------------------------------------------------- */

typedef struct chain_walk {
    const lw_cut *cut;
    int step;                      /* whose rules are looked at */
    int length[LW_CUT_MOST_STEPS]; /* of the run that ends in each earlier step */
    int longest;                   /* of those that this step's rules name */
} chain_walk;

/* The longest run of the earlier steps of that name on one side; 0 when there is none. */
static int run_of_name(const chain_walk *walk, const char *name, lw_side side)
{
    int longest = 0;
    for (int i = 0; i < walk->step; i++) {
        const lw_step *step = &walk->cut->steps[i];
        if (step->kind == LW_STEP_FACETS && step->side == side && strcmp(step->name, name) == 0 &&
            walk->length[i] > longest) {
            longest = walk->length[i];
        }
    }
    return longest;
}

/* A name without a side is the side's that is cut, else the other's. */
static void see_facet(chain_walk *walk, const lw_facet_ref *facet)
{
    if (facet == NULL) {
        return;
    }
    lw_side own = walk->cut->steps[walk->step].side;
    lw_side other = own == LW_SIDE_CROWN ? LW_SIDE_PAVILION : LW_SIDE_CROWN;
    int run = run_of_name(walk, facet->name, facet->side == LW_SIDE_NONE ? own : facet->side);
    if (run == 0 && facet->side == LW_SIDE_NONE) {
        run = run_of_name(walk, facet->name, other);
    }
    walk->longest = run > walk->longest ? run : walk->longest;
}

static void see_facets(chain_walk *walk, const lw_facet_ref *facets, int count)
{
    for (int i = 0; i < count; i++) {
        see_facet(walk, &facets[i]);
    }
}

/* A point's nesting is limited by LW_CUT_MOST_DEPTH. */
static void see_point(chain_walk *walk, const lw_point *point)
{
    if (point == NULL) {
        return;
    }
    see_facets(walk, point->facets, point->facet_count);
    see_point(walk, point->from);
    see_point(walk, point->towards);
}

static void see_rule(chain_walk *walk, const lw_rule *rule)
{
    see_point(walk, rule->point);
    see_facets(walk, rule->facets, rule->facet_count);
    if (rule->kind == LW_RULE_EQUAL || rule->kind == LW_RULE_EDGE) {
        for (int i = 0; i < 2; i++) {
            see_facet(walk, rule->edges[i].first);
            see_facet(walk, rule->edges[i].second);
        }
    }
}

static int longest_chain(const lw_cut *cut)
{
    chain_walk walk = {.cut = cut};
    int longest = 0;
    for (int i = 0; i < cut->step_count; i++) {
        const lw_step *step = &cut->steps[i];
        walk.step = i;
        walk.longest = 0;
        for (int k = 0; k < step->rule_count; k++) {
            see_rule(&walk, &step->rules[k]);
        }
        walk.length[i] = step->kind == LW_STEP_FACETS ? walk.longest + 1 : 0;
        longest = walk.length[i] > longest ? walk.length[i] : longest;
    }
    return longest;
}

/* ---- angles ------------------------------------------------------------- */

typedef struct angle_set {
    int count;
    lw_side side[LW_CUT_MOST_STEPS];
    double deg[LW_CUT_MOST_STEPS];
} angle_set;

/* Adds a step's angle unless its side has it already. */
static void add_angle(angle_set *set, lw_side side, double deg)
{
    for (int i = 0; i < set->count; i++) {
        if (set->side[i] == side && fabs(set->deg[i] - deg) <= LW_SAME_ANGLE_DEG) {
            return;
        }
    }
    set->side[set->count] = side;
    set->deg[set->count++] = deg;
}

static void collect_angles(const lw_cut *cut, const lw_stone *stone, angle_set *set)
{
    set->count = 0;
    for (int i = 0; i < cut->step_count && i < stone->tier_count; i++) {
        const lw_tier *tier = &stone->tiers[i];
        if (tier->count > 0) {
            add_angle(set, stone->facets[tier->first].side, tier->angle_deg);
        }
    }
}

static bool is_slanting(const angle_set *set, int i)
{
    return set->side[i] != LW_SIDE_GIRDLE && set->deg[i] > LW_SAME_ANGLE_DEG;
}

static double closest_deg(const angle_set *set)
{
    double closest = HUGE_VAL;
    for (int i = 0; i < set->count; i++) {
        for (int k = 0; k < i; k++) {
            if (is_slanting(set, i) && is_slanting(set, k) && set->side[i] == set->side[k]) {
                closest = fmin(closest, fabs(set->deg[i] - set->deg[k]));
            }
        }
    }
    return closest == HUGE_VAL ? 0.0 : closest;
}

/* ---- the number --------------------------------------------------------- */

static int count_facets(const lw_stone *stone)
{
    int temporary = 0;
    for (int i = 0; i < stone->facet_count; i++) {
        temporary += stone->facets[i].temporary ? 1 : 0;
    }
    return stone->measures.facet_count + stone->measures.girdle_facet_count + temporary;
}

lw_difficulty lw_difficulty_of(const lw_cut *cut, const lw_stone *stone)
{
    angle_set set;
    collect_angles(cut, stone, &set);
    lw_difficulty out = {.facets = count_facets(stone),
                         .settings = set.count,
                         .chain = longest_chain(cut),
                         .closest_deg = closest_deg(&set)};
    double runs = out.chain > 1 ? 0.5 * (out.chain - 1) : 0.0;
    double near_angles = out.closest_deg > 0.0 ? fmin(2.0, 2.0 / out.closest_deg) : 0.0;
    out.value = out.facets / 20.0 + out.settings / 4.0 + runs + near_angles;
    return out;
}

const char *lw_difficulty_text(double value)
{
    return value < 4.5    ? "a first stone"
           : value < 7.5  ? "an ordinary stone"
           : value < 11.0 ? "asks for practice"
                          : "for a patient hand";
}
