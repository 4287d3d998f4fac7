/* Scores, and the order that follows from them. The weights are stated in docs/plan.md. */
#include "plan_parts.h"

#include <string.h>

const double lw_plan_weights[LW_PLAN_PARTS] = {40.0, 30.0, 10.0, 15.0, 5.0};

static bool has_stone(const lw_plan_entry *entry)
{
    return entry->state <= LW_PLAN_TOO_SMALL;
}

static double light_of(const lw_plan_entry *entry)
{
    return fmax(0.0, entry->brightness - entry->window);
}

typedef struct plan_bests {
    double weight_ct, light, difficulty; /* heaviest, brightest, easiest */
} plan_bests;

static plan_bests find_bests(const lw_plan_entry *entries, int count)
{
    plan_bests bests = {0.0, 0.0, HUGE_VAL};
    for (int i = 0; i < count; i++) {
        if (has_stone(&entries[i])) {
            bests.weight_ct = fmax(bests.weight_ct, entries[i].weight_ct.value[LW_CASE_LIKELY]);
            bests.light = fmax(bests.light, light_of(&entries[i]));
            bests.difficulty = fmin(bests.difficulty, entries[i].difficulty.value);
        }
    }
    return bests;
}

static double share(double value, double of)
{
    return of > 0.0 ? value / of : 0.0;
}

static double bench_score(const lw_plan_entry *entry)
{
    double score = 1.0;
    for (int i = 0; i < entry->need_count; i++) {
        score -= entry->needs[i].have == LW_HAVE_NO ? 0.25 : 0.0;
    }
    score -= !entry->wheel.own && !entry->wheel.fit.whole ? 0.25 : 0.0;
    return fmax(0.0, score);
}

static double suits_score(const lw_plan_request *request, const lw_plan_entry *entry)
{
    for (int i = 0; i < entry->given->suit_count; i++) {
        if (strcmp(entry->given->suits[i], request->material->key) == 0) {
            return 1.0;
        }
    }
    return 0.0;
}

void lw_plan_score_all(const lw_plan_request *request, lw_plan_entry *entries, int count)
{
    plan_bests bests = find_bests(entries, count);
    for (int i = 0; i < count; i++) {
        lw_plan_entry *entry = &entries[i];
        if (!has_stone(entry)) {
            continue;
        }
        lw_plan_score score = {
            .size = share(entry->weight_ct.value[LW_CASE_LIKELY], bests.weight_ct),
            .light = share(light_of(entry), bests.light),
            .ease = share(bests.difficulty, entry->difficulty.value),
            .bench = bench_score(entry),
            .suits = suits_score(request, entry),
        };
        const double *weight = lw_plan_weights;
        score.total = weight[0] * score.size + weight[1] * score.light + weight[2] * score.ease +
                      weight[3] * score.bench + weight[4] * score.suits;
        entry->score = score;
    }
}

static bool comes_before(const lw_plan_entry *one, const lw_plan_entry *other)
{
    if (one->state != other->state) {
        return one->state < other->state;
    }
    if (one->score.total != other->score.total) {
        return one->score.total > other->score.total;
    }
    return strcmp(one->name, other->name) < 0;
}

/* By insertion: a plan has a few dozen entries. */
void lw_plan_order_all(lw_plan_entry *entries, int count)
{
    for (int i = 1; i < count; i++) {
        lw_plan_entry moving = entries[i];
        int at = i;
        while (at > 0 && comes_before(&moving, &entries[at - 1])) {
            entries[at] = entries[at - 1];
            at--;
        }
        entries[at] = moving;
    }
}
