#include "cut/dial.h"

#include "cut/teeth.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>

const char *lw_counts_text(lw_counts counts)
{
    return counts == LW_COUNTS_CLOCKWISE ? "clockwise" : "counter-clockwise";
}

static void assert_kit(const lw_dial_kit *kit, lw_side facing)
{
    assert(kit->wheel >= 1 && kit->wheel <= LW_CUT_MOST_TEETH);
    assert(facing == LW_SIDE_PAVILION || facing == LW_SIDE_CROWN);
    (void)kit;
    (void)facing;
}

/* Whether the dial's numbers fall where the stone's teeth rise. */
static bool runs_against(const lw_dial_kit *kit, lw_side facing)
{
    return (facing == LW_SIDE_CROWN) != (kit->counts == LW_COUNTS_CLOCKWISE);
}

double lw_dial_position(const lw_dial_kit *kit, lw_side facing, double tooth)
{
    assert_kit(kit, facing);
    double turned = runs_against(kit, facing) ? -tooth : tooth;
    return lw_tooth_wrap(turned + kit->zero_at, kit->wheel);
}

/* The nearest whole number; half way, the one nearer to 0 round the wheel. */
static double nearest_number(double position, int wheel)
{
    double lower = floor(position);
    double rest = position - lower;
    if (fabs(rest - 0.5) <= LW_SAME_TOOTH) {
        return position <= (double)wheel / 2.0 ? lower : lower + 1.0;
    }
    return rest < 0.5 ? lower : lower + 1.0;
}

lw_dial lw_dial_of(const lw_dial_kit *kit, lw_side facing, double tooth)
{
    double position = lw_dial_position(kit, facing, tooth);
    double number = nearest_number(position, kit->wheel);
    double rest = position - number;
    double cheater = fabs(rest) <= LW_SAME_TOOTH ? 0.0 : rest * 360.0 / (double)kit->wheel;
    return (lw_dial){.number = number == 0.0 ? kit->wheel : (int)number, .cheater_deg = cheater};
}

double lw_dial_tooth(const lw_dial_kit *kit, lw_side facing, lw_dial dial)
{
    assert_kit(kit, facing);
    double position = (double)dial.number + dial.cheater_deg * (double)kit->wheel / 360.0;
    double turned = position - kit->zero_at;
    return lw_tooth_wrap(runs_against(kit, facing) ? -turned : turned, kit->wheel);
}

/* ---- the order of a tier's teeth ---- */

/* The tier as it is being put in order. */
typedef struct queue {
    int count;
    double wheel;
    double position[LW_CUT_MOST_FACETS]; /* numbers above the first tooth's */
    double room[LW_CUT_MOST_FACETS];     /* distance to the nearest that is cut; < 0: cut */
} queue;

static double apart(const queue *tier, double a, double b)
{
    double d = fabs(a - b);
    return d < tier->wheel - d ? d : tier->wheel - d;
}

static void take(queue *tier, int at, int *order, int *taken)
{
    order[(*taken)++] = at;
    tier->room[at] = -1.0;
    for (int i = 0; i < tier->count; i++) {
        double d = apart(tier, tier->position[i], tier->position[at]);
        if (tier->room[i] >= 0.0 && d < tier->room[i]) {
            tier->room[i] = d;
        }
    }
}

/* How good it is to cut tooth i next: far from one tooth, or (from < 0) from all that are cut. */
static double gain_of(const queue *tier, int i, int from)
{
    return from < 0 ? tier->room[i] : apart(tier, tier->position[i], tier->position[from]);
}

/* The one still to cut that is farthest, the first round the wheel among equals; -1 for none. */
static int farthest_left(const queue *tier, int from)
{
    int best = -1;
    for (int i = 0; i < tier->count; i++) {
        if (tier->room[i] < 0.0) {
            continue;
        }
        double gain = best < 0 ? 1.0 : gain_of(tier, i, from) - gain_of(tier, best, from);
        if (gain > LW_SAME_TOOTH ||
            (gain >= -LW_SAME_TOOTH && tier->position[i] < tier->position[best])) {
            best = i;
        }
    }
    return best;
}

static void order_opening(queue *tier, int *order)
{
    int taken = 0;
    for (int next = 0; next >= 0; next = farthest_left(tier, -1)) {
        take(tier, next, order, &taken);
        int opposite = farthest_left(tier, next);
        if (opposite >= 0) {
            take(tier, opposite, order, &taken);
        }
    }
}

static void order_round(const queue *tier, int *order)
{
    for (int i = 0; i < tier->count; i++) {
        int place = i;
        while (place > 0 && tier->position[order[place - 1]] > tier->position[i]) {
            order[place] = order[place - 1];
            place--;
        }
        order[place] = i;
    }
}

void lw_dial_order(const lw_dial_kit *kit, lw_side facing, const double *teeth, int count,
                   bool opening, int *order)
{
    assert(count >= 0 && count <= LW_CUT_MOST_FACETS);
    queue tier = {.count = count, .wheel = (double)kit->wheel};
    for (int i = 0; i < count; i++) {
        double position = lw_dial_position(kit, facing, teeth[i]);
        double first = i == 0 ? position : lw_dial_position(kit, facing, teeth[0]);
        tier.position[i] = lw_tooth_up(first, position, kit->wheel);
        tier.room[i] = tier.wheel;
    }
    if (opening && count > 0) {
        order_opening(&tier, order);
    } else {
        order_round(&tier, order);
    }
}
