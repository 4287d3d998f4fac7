/* A stone laid out for wide rays: its facets in single precision, and how it folds. */
#include "geom/angle.h"
#include "geom/tolerance.h"
#include "light/symmetry.h"
#include "light/wide/trace.h"

#include <stdint.h>
#include <string.h>

enum { ALIGNED = 64, LEAST_PADDED = 16 };

/* count floats that begin at a multiple of ALIGNED bytes. */
static float *new_floats(lw_wide_solid *made, int count)
{
    char *block = lw_arena_new(&made->arena, (size_t)count * sizeof(float) + ALIGNED, 1);
    if (block == NULL)
        return NULL;
    size_t past = (uintptr_t)block % ALIGNED;
    return (float *)(void *)(block + (past == 0 ? 0 : ALIGNED - past));
}

static int padded_to(int count, int step)
{
    return (count + step - 1) / step * step;
}

/* ---- facets ------------------------------------------------------------- */

static double distance_from_middle(const lw_optic_solid *solid, const lw_wide_solid *made,
                                   int facet)
{
    lw_vec3 normal = lw_optic_solid_normal(solid, facet);
    return solid->distance[facet] - lw_vec3_dot(normal, made->middle) + (double)made->skin;
}

static bool take_facets(const lw_optic_solid *solid, lw_wide_solid *made)
{
    int padded = padded_to(solid->facet_count, LW_WIDE_FACETS_AT_ONCE);
    float *numbers = new_floats(made, 4 * padded);
    if (numbers == NULL)
        return false;
    for (int i = 0; i < solid->facet_count; i++) {
        numbers[i] = (float)solid->x[i];
        numbers[padded + i] = (float)solid->y[i];
        numbers[2 * padded + i] = (float)solid->z[i];
        numbers[3 * padded + i] = (float)distance_from_middle(solid, made, i);
    }
    for (int i = solid->facet_count; i < padded; i++)
        numbers[3 * padded + i] = (float)solid->half_extent;
    made->facet_count = solid->facet_count;
    made->padded = padded;
    made->numbers = numbers;
    return true;
}

/* ---- folding ------------------------------------------------------------ */

typedef struct fold_plan {
    lw_vec3 mirror; /* horizontal, in the first plane */
    int folds;
    lw_vec3 sides[LW_WIDE_MOST_FOLDS];
} fold_plan;

/* Turned so that the mirror plane lies at y = 0, and back. */
static lw_vec3 straightened(lw_vec3 v, lw_vec3 mirror)
{
    return (lw_vec3){mirror.x * v.x + mirror.y * v.y, mirror.x * v.y - mirror.y * v.x, v.z};
}

static lw_vec3 unstraightened(lw_vec3 v, lw_vec3 mirror)
{
    return (lw_vec3){mirror.x * v.x - mirror.y * v.y, mirror.x * v.y + mirror.y * v.x, v.z};
}

/* Of turns mirror planes, half a turn / turns apart, the first leaves half of space, which is turns
 * wedges; each further one folds those that are left in two, or nearly. Sides are told with the
 * first plane at y = 0. Gives the number of folds, 0 where they would be too many. */
static int choose_folds(int turns, lw_vec3 sides[LW_WIDE_MOST_FOLDS])
{
    int folds = 0;
    sides[folds++] = (lw_vec3){0.0, -1.0, 0.0};
    for (int wedges = turns; wedges > 1; wedges = (wedges + 1) / 2) {
        if (folds == LW_WIDE_MOST_FOLDS)
            return 0;
        lw_sincos by = lw_sincos_share(0.5 * ((wedges + 1) / 2), turns);
        sides[folds++] = (lw_vec3){-by.sin, by.cos, 0.0};
    }
    return folds;
}

static lw_vec3 turned_over(lw_vec3 v, lw_vec3 side)
{
    return lw_vec3_sub(v, lw_vec3_scale(side, 2.0 * lw_vec3_dot(v, side)));
}

/* Whether a facet's normal lies in the wedge, its sides belonging to it. */
static bool stays(lw_vec3 normal, const fold_plan *plan)
{
    for (int k = 0; k < plan->folds; k++) {
        if (lw_vec3_dot(normal, plan->sides[k]) > LW_SAME_SHAPE)
            return false;
    }
    return true;
}

/* The facet whose normal and distance come nearest. */
static int facet_like(const lw_optic_solid *solid, lw_vec3 normal, double distance)
{
    int best = 0;
    double best_apart = HUGE_VAL;
    for (int i = 0; i < solid->facet_count; i++) {
        lw_vec3 apart = lw_vec3_sub(lw_optic_solid_normal(solid, i), normal);
        double off = (solid->distance[i] - distance) / solid->half_extent;
        double size = lw_vec3_dot(apart, apart) + off * off;
        if (size < best_apart) {
            best = i;
            best_apart = size;
        }
    }
    return best;
}

/* Where a kind lies before the folding: it went through the folds in their order, so it comes back
 * through them in the other. */
static void place_kind(const lw_optic_solid *solid, const fold_plan *plan, int facet, int kind,
                       lw_wide_fold *fold)
{
    for (int bits = 0; bits < 1 << fold->folds; bits++) {
        lw_vec3 normal = straightened(lw_optic_solid_normal(solid, facet), plan->mirror);
        for (int k = fold->folds - 1; k >= 0; k--) {
            if ((bits >> (fold->folds - 1 - k) & 1) != 0)
                normal = turned_over(normal, plan->sides[k]);
        }
        normal = unstraightened(normal, plan->mirror);
        int like = facet_like(solid, normal, solid->distance[facet]);
        memcpy(&fold->facet[(bits << fold->kind_bits) + kind], &like, sizeof like);
    }
}

/* What of a normal counts; rounding makes a little of nothing. */
static float counting(double part)
{
    return fabs(part) < LW_SAME_SHAPE ? 0.0f : (float)part;
}

typedef enum kind_order { LEVEL, OWN_IMAGE, SLANTING, KIND_ORDERS } kind_order;

static kind_order order_of(lw_vec3 normal)
{
    if (counting(normal.y) != 0.0f)
        return SLANTING;
    return counting(normal.x) != 0.0f ? OWN_IMAGE : LEVEL;
}

static void take_kind(const lw_optic_solid *solid, const fold_plan *plan, int facet, uint32_t kind,
                      lw_wide_solid *made)
{
    lw_wide_fold *fold = &made->fold;
    lw_vec3 normal = straightened(lw_optic_solid_normal(solid, facet), plan->mirror);
    float *number = fold->numbers + kind;
    number[0] = counting(normal.x);
    number[fold->kinds_padded] = counting(normal.y);
    number[2 * fold->kinds_padded] = (float)normal.z;
    number[3 * fold->kinds_padded] = -(float)distance_from_middle(solid, made, facet);
    memcpy(&number[4 * fold->kinds_padded], &kind, sizeof kind);
    for (int row = 0; row < 5 && fold->kind_bits == LW_WIDE_FEW_BITS; row++)
        number[row * fold->kinds_padded + (1 << LW_WIDE_FEW_BITS)] =
            number[row * fold->kinds_padded];
    place_kind(solid, plan, facet, (int)kind, fold);
}

static void take_kinds(const lw_optic_solid *solid, const fold_plan *plan, lw_wide_solid *made)
{
    int ends[KIND_ORDERS], kind = 0;
    for (kind_order order = LEVEL; order < KIND_ORDERS; order++) {
        for (int i = 0; i < solid->facet_count; i++) {
            lw_vec3 normal = straightened(lw_optic_solid_normal(solid, i), plan->mirror);
            if (stays(normal, plan) && order_of(normal) == order)
                take_kind(solid, plan, i, (uint32_t)kind++, made);
        }
        ends[order] = kind;
    }
    made->fold.level = ends[LEVEL];
    made->fold.level_or_own = ends[OWN_IMAGE];
}

static void bound(const lw_optic_solid *solid, const fold_plan *plan, lw_wide_solid *made)
{
    double most[3] = {0.0, 0.0, 0.0};
    for (int i = 0; i < solid->corner_count; i++) {
        lw_vec3 at = straightened(lw_vec3_sub(solid->corners[i], made->middle), plan->mirror);
        most[0] = fmax(most[0], fabs(at.x));
        most[1] = fmax(most[1], fabs(at.y));
        most[2] = fmax(most[2], fabs(at.z));
    }
    for (int k = 0; k < 3; k++)
        made->fold.box[k] = (float)(most[k] + LW_WIDE_BOX * solid->half_extent);
}

static int count_kinds(const lw_optic_solid *solid, const fold_plan *plan)
{
    int count = 0;
    for (int i = 0; i < solid->facet_count; i++)
        count += stays(straightened(lw_optic_solid_normal(solid, i), plan->mirror), plan);
    return count;
}

static int count_own_images(const lw_optic_solid *solid, lw_vec3 mirror)
{
    int count = 0;
    for (int i = 0; i < solid->facet_count; i++)
        count += order_of(straightened(lw_optic_solid_normal(solid, i), mirror)) != SLANTING;
    return count;
}

/* Which of the mirror planes lies at y = 0: one in which many facets are their own images, those
 * being cheapest, and of these the one that needs least turning. */
static lw_vec3 choose_first(const lw_optic_solid *solid, const lw_symmetry *symmetry)
{
    lw_vec3 best = symmetry->mirror;
    int best_count = -1;
    for (int k = 0; k < symmetry->turns; k++) {
        lw_sincos by = lw_sincos_share(0.5 * k, symmetry->turns);
        lw_vec3 along = unstraightened(symmetry->mirror, (lw_vec3){by.cos, by.sin, 0.0});
        along = along.x < 0.0 ? lw_vec3_scale(along, -1.0) : along;
        if (fabs(along.y) < LW_SAME_SHAPE)
            along = (lw_vec3){1.0, 0.0, 0.0};
        int count = count_own_images(solid, along);
        if (count > best_count || (count == best_count && along.x > best.x)) {
            best = along;
            best_count = count;
        }
    }
    return best;
}

/* Whether looking at so many kinds in three or four steps takes less time than at all facets once:
 * a kind took about 5/4 of a facet's time on four, eight and sixteen lanes alike, and the steps
 * themselves that of 8. */
static bool pays(int kinds, int facets)
{
    return 5 * kinds + 4 * 8 < 4 * facets;
}

/* How many of the first mirror planes lie at y = 0, x = 0 and y = x. */
static int straight_folds(const lw_symmetry *symmetry)
{
    return symmetry->turns % 4 == 0 ? 3 : symmetry->turns % 2 == 0 ? 2 : 1;
}

static bool fold_up(const lw_optic_solid *solid, const lw_symmetry *symmetry, lw_wide_solid *made)
{
    fold_plan plan = {.mirror = choose_first(solid, symmetry)};
    plan.folds = choose_folds(symmetry->turns, plan.sides);
    int kinds = count_kinds(solid, &plan);
    if (plan.folds == 0 || !pays(kinds, solid->facet_count))
        return true;
    lw_wide_fold fold = {.folds = plan.folds,
                         .turn_cos = (float)plan.mirror.x,
                         .turn_sin = (float)plan.mirror.y,
                         .straight = straight_folds(symmetry),
                         .kinds = kinds,
                         .kind_bits = LW_WIDE_FEW_BITS};
    for (int k = 0; k < plan.folds; k++) {
        lw_wide_crease *crease = &fold.creases[k];
        crease->across = (float)plan.sides[k].x;
        crease->up = (float)plan.sides[k].y;
        crease->across_twice = 2.0f * crease->across;
        crease->up_twice = 2.0f * crease->up;
        uint32_t bit = 0x80000000u >> k;
        memcpy(&crease->bit, &bit, sizeof bit);
    }
    while (fold.kinds > 1 << fold.kind_bits)
        fold.kind_bits++;
    fold.kinds_padded = 1 << fold.kind_bits;
    fold.kinds_padded = fold.kinds_padded < LEAST_PADDED ? LEAST_PADDED : fold.kinds_padded;
    fold.numbers = new_floats(made, 5 * fold.kinds_padded);
    fold.facet = new_floats(made, 1 << (fold.kind_bits + fold.folds));
    if (fold.numbers == NULL || fold.facet == NULL)
        return false;
    made->fold = fold;
    take_kinds(solid, &plan, made);
    bound(solid, &plan, made);
    return true;
}

/* ---- all of it ---------------------------------------------------------- */

lw_status lw_wide_solid_make(const lw_memory *memory, const lw_optic_solid *solid,
                             const lw_symmetry *symmetry, lw_wide_solid *out)
{
    lw_wide_solid made = {.middle = solid->middle,
                          .skin = (float)(LW_WIDE_SKIN * solid->half_extent),
                          .arena = lw_arena_make(memory)};
    if (symmetry->mirrored)
        made.middle = (lw_vec3){0.0, 0.0, solid->middle.z};
    bool done =
        take_facets(solid, &made) && (!symmetry->mirrored || fold_up(solid, symmetry, &made));
    if (!done) {
        lw_arena_destroy(&made.arena);
        return LW_NO_MEMORY;
    }
    *out = made;
    return LW_OK;
}

void lw_wide_solid_destroy(const lw_memory *memory, lw_wide_solid *solid)
{
    (void)memory; /* the arena keeps its own */
    lw_arena_destroy(&solid->arena);
    *solid = (lw_wide_solid){0};
}
