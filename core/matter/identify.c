#include "matter/identify.h"

#include "matter/refraction.h"

#include <assert.h>
#include <math.h>
#include <string.h>

lw_readings lw_readings_none(void)
{
    return (lw_readings){.index_error = LW_INDEX_READING_ERROR,
                         .limit = LW_REFRACTOMETER_LIMIT,
                         .sg_error = LW_SG_READING_ERROR,
                         .accept = LW_ACCEPT};
}

const char *lw_clue_text(lw_clue clue)
{
    static const char *const texts[LW_CLUE_COUNT] = {
        [LW_CLUE_INDEX] = "refractive index",
        [LW_CLUE_INDEX_HIGHER] = "higher refractive index",
        [LW_CLUE_BIREFRINGENCE] = "birefringence",
        [LW_CLUE_OVER_LIMIT] = "over the refractometer's limit",
        [LW_CLUE_SG] = "specific gravity",
    };
    assert((unsigned)clue < LW_CLUE_COUNT);
    return texts[clue];
}

bool lw_clue_speaks_for(const lw_clue_result *clue)
{
    return clue->given && clue->off <= 1.0;
}

static bool positive(double value)
{
    return isfinite(value) && value > 0.0;
}

static lw_status refuse(lw_problem *problem, const char *found, const char *expected)
{
    return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, found, expected, "");
}

static bool is_index(double value)
{
    return value >= LW_INDEX_LEAST && value <= LW_INDEX_MOST;
}

static lw_status check(const lw_readings *r, lw_problem *problem)
{
    assert(r->index_count >= 0 && r->index_count <= 2);
    if (r->index_count == 0 && !r->over_limit && !r->has_sg) {
        return refuse(problem, "no reading", "a refractive index, a specific gravity or both");
    }
    if (r->index_count > 0 && r->over_limit) {
        return refuse(problem, "a refractive index and 'over the limit' together",
                      "one or the other");
    }
    for (int i = 0; i < r->index_count; i++) {
        if (!is_index(r->index[i])) {
            return refuse(problem, "a refractive index out of range", "1.05 to 4");
        }
    }
    if (r->over_limit && !is_index(r->limit)) {
        return refuse(problem, "a refractometer's limit out of range", "1.05 to 4");
    }
    if (r->has_sg && !(r->sg >= LW_SG_LEAST && r->sg <= LW_SG_MOST)) {
        return refuse(problem, "a specific gravity out of range", "0.5 to 25");
    }
    if (!positive(r->index_error) || !positive(r->sg_error) || !positive(r->accept)) {
        return refuse(problem, "an error that is not above 0", "how far the reading may be wrong");
    }
    return LW_OK;
}

static lw_clue_result compare(double reading, double error, double least, double typical,
                              double most)
{
    double outside = reading < least ? least - reading : reading > most ? reading - most : 0.0;
    return (lw_clue_result){true, reading, least, most, typical, error, outside / error};
}

/* Two readings: the lowest and the highest index of the species, each with its own spread, and
 * their difference. */
static void compare_pair(const lw_readings *r, const lw_material *material, lw_match *match)
{
    double lower = fmin(r->index[0], r->index[1]);
    double higher = fmax(r->index[0], r->index[1]);
    double low = lw_material_lowest_index(material);
    double high = lw_material_highest_index(material);
    double apart = high - low;
    double shift_up = fmax(material->index_most - high, 0.0);
    double shift_down = fmax(low - material->index_least, 0.0);
    match->clues[LW_CLUE_INDEX] =
        compare(lower, r->index_error, low - shift_down, low, low + shift_up);
    match->clues[LW_CLUE_INDEX_HIGHER] =
        compare(higher, r->index_error, high - shift_down, high, high + shift_up);
    match->clues[LW_CLUE_BIREFRINGENCE] =
        compare(higher - lower, r->index_error * sqrt(2.0), apart * (1.0 - LW_BIREFRINGENCE_SPREAD),
                apart, apart * (1.0 + LW_BIREFRINGENCE_SPREAD));
}

static void compare_material(const lw_readings *r, const lw_material *material, lw_match *match)
{
    *match = (lw_match){.material = material};
    double low = lw_material_lowest_index(material);
    double high = lw_material_highest_index(material);
    if (r->index_count == 1) {
        double nearest = fmin(fmax(r->index[0], low), high);
        match->clues[LW_CLUE_INDEX] = compare(r->index[0], r->index_error, material->index_least,
                                              nearest, material->index_most);
    } else if (r->index_count == 2) {
        compare_pair(r, material, match);
    }
    if (r->over_limit) {
        /* Any index from the limit up agrees: what counts is how far the highest lies below. */
        lw_clue_result over = compare(r->limit, r->index_error, 0.0, 0.0, material->index_most);
        over.least = material->index_least;
        over.typical = fmin(fmax(r->limit, low), high);
        match->clues[LW_CLUE_OVER_LIMIT] = over;
    }
    if (r->has_sg) {
        match->clues[LW_CLUE_SG] =
            compare(r->sg, r->sg_error, material->sg_low, material->sg, material->sg_high);
    }
}

static void weigh_clues(lw_match *match)
{
    double off = 0.0;
    match->plausible = match->material->seldom ? LW_SELDOM : 1.0;
    for (int clue = 0; clue < LW_CLUE_COUNT; clue++) {
        const lw_clue_result *result = &match->clues[clue];
        if (!result->given) {
            continue;
        }
        match->worst = fmax(match->worst, result->off);
        off += result->off * result->off;
        if (clue != LW_CLUE_OVER_LIMIT) {
            double unit = 0.5 * (result->most - result->least) + result->error;
            double away = (result->reading - result->typical) / unit;
            match->plausible *= result->error / unit / (1.0 + away * away);
        }
    }
    match->distance = sqrt(off);
}

static bool better(const lw_match *a, const lw_match *b)
{
    return a->distance < b->distance || (a->distance <= b->distance && a->plausible > b->plausible);
}

/* Puts one match in its place among those kept so far. */
static void insert(const lw_match *one, lw_match *matches, size_t capacity, size_t kept)
{
    size_t at = kept < capacity ? kept : capacity;
    while (at > 0 && better(one, &matches[at - 1])) {
        if (at < capacity) {
            matches[at] = matches[at - 1];
        }
        at--;
    }
    if (at < capacity) {
        matches[at] = *one;
    }
}

lw_status lw_identify(const lw_readings *readings, lw_match *matches, size_t capacity,
                      size_t *total, lw_problem *problem)
{
    lw_status status = check(readings, problem);
    if (status != LW_OK) {
        return status;
    }
    size_t count = 0;
    for (size_t i = 0; i < lw_material_count(); i++) {
        lw_match match;
        compare_material(readings, lw_material_at(i), &match);
        weigh_clues(&match);
        if (match.worst <= readings->accept) {
            insert(&match, matches, capacity, count);
            count++;
        }
    }
    *total = count;
    return LW_OK;
}
