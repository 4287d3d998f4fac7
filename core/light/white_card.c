/* The light that falls on a card under the stone, to the last digits whatever hides what.
 *
 * On the unit sphere every edge of a patch lies on a circle, where a plane n . w = c cuts it: a
 * cone has one, a pane four, and where a patch's slope takes it below nothing there is another; the
 * card's own plane is the last. Seen from straight above the card, radiance x cosine over the half
 * space is radiance over the flat unit disk (Nusselt's analogue), and Green's theorem turns its
 * integral into one along the circles: of what is on the left of each less what is on its right.
 * Between two crossings neither changes, so one look at the middle of each arc tells both; the
 * circle itself tells on which side of its own patches each side is, so that nothing hangs on
 * rounding.
 *
 *     integral of dx dy       = integral along the edge of (x dy - y dx) / 2
 *     integral of w_x dx dy   =                            x^2 / 2 dy
 *     integral of w_y dx dy   =                            -y^2 / 2 dx
 *     integral of w_z dx dy   =                            (1 + z + z^2) / (3 (1 + z)) (x dy - y
 * dx)
 *
 * with z = sqrt(1 - x^2 - y^2); the last from integrating along the radius. Each is taken by
 * Gauss's rule of 8 points over short arcs, on which all of them are as good as polynomials.
 *
 * Sampling the half space lost: 1e-9 takes 1e9 directions where a window's edge crosses it.
 */
#include "light/surroundings.h"

#include "geom/angle.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <stdbool.h>

enum {
    MOST_EDGES = 5, /* of one patch */
    MOST_CIRCLES = LW_LIGHT_MOST_PATCHES * MOST_EDGES + 1,
    MOST_CROSSINGS = 2 * MOST_CIRCLES,
    CARD = 0 /* the circle of the card's own plane */
};

typedef struct circle {
    lw_vec3 normal; /* length 1 */
    double distance;
} circle;

/* normal . w > distance, told by a circle: as it stands, or turned round. */
typedef struct side {
    int circle;
    bool turned;
} side;

typedef struct region {
    bool nothing; /* covers no direction */
    int side_count;
    side sides[MOST_EDGES];
    bool fades; /* shines only inside this one: elsewhere its level is below 0 */
    side shining;
} region;

typedef struct scene {
    const lw_surroundings *around;
    int circle_count;
    circle circles[MOST_CIRCLES];
    region regions[LW_LIGHT_MOST_PATCHES];
} scene;

/* What a direction's patch shines with: even + slope (zenith . w). */
typedef struct level {
    double even, slope;
} level;

/* ---- the circles -------------------------------------------------------- */

static bool is_same(circle a, circle b, double sign)
{
    return lw_vec3_length(lw_vec3_sub(a.normal, lw_vec3_scale(b.normal, sign))) <
               LW_SAME_BOUNDARY &&
           fabs(a.distance - sign * b.distance) < LW_SAME_BOUNDARY;
}

static side side_of(scene *s, circle c)
{
    for (int i = 0; i < s->circle_count; i++) {
        if (is_same(s->circles[i], c, 1.0))
            return (side){i, false};
        if (is_same(s->circles[i], c, -1.0))
            return (side){i, true};
    }
    s->circles[s->circle_count] = c;
    return (side){s->circle_count++, false};
}

static circle pane_edge(const lw_patch *patch, lw_vec3 axis, double tangent, double sign)
{
    lw_vec3 inward = lw_vec3_add(lw_vec3_scale(patch->toward, tangent), lw_vec3_scale(axis, sign));
    return (circle){lw_vec3_scale(inward, 1.0 / lw_vec3_length(inward)), 0.0};
}

static void add_cone(scene *s, const lw_patch *patch, region *out)
{
    out->nothing = patch->least_cos >= 1.0;
    if (patch->least_cos > -1.0 && patch->least_cos < 1.0)
        out->sides[out->side_count++] = side_of(s, (circle){patch->toward, patch->least_cos});
}

static void add_pane(scene *s, const lw_patch *patch, region *out)
{
    for (double sign = -1.0; sign <= 1.0; sign += 2.0) {
        out->sides[out->side_count++] =
            side_of(s, pane_edge(patch, patch->right, patch->tan_width, sign));
        out->sides[out->side_count++] =
            side_of(s, pane_edge(patch, patch->above, patch->tan_tall, sign));
    }
}

static void add_patch(scene *s, const lw_patch *patch, region *out)
{
    *out = (region){0};
    if (patch->shape == LW_PATCH_CONE)
        add_cone(s, patch, out);
    else
        add_pane(s, patch, out);
    double least = fabs(patch->even) < fabs(patch->slope) ? -patch->even / patch->slope : 1.0;
    out->fades = least < 1.0;
    if (!out->fades)
        return;
    double sign = patch->slope > 0.0 ? 1.0 : -1.0;
    out->shining = side_of(s, (circle){lw_vec3_scale(s->around->zenith, sign), sign * least});
}

static void lay_out(scene *s, const lw_surroundings *around)
{
    s->around = around;
    s->circles[CARD] = (circle){{0.0, 0.0, 1.0}, 0.0};
    s->circle_count = 1;
    for (int i = 0; i < around->patch_count; i++)
        add_patch(s, &around->patches[i], &s->regions[i]);
}

/* ---- what stands there -------------------------------------------------- */

/* A point on circle `on`, looked at from its inner or outer side. */
typedef struct look {
    lw_vec3 at;
    int on;
    bool inside;
} look;

static bool is_within(const scene *s, look l, side part)
{
    const circle *c = &s->circles[part.circle];
    bool above = part.circle == l.on ? l.inside : lw_vec3_dot(c->normal, l.at) > c->distance;
    return above != part.turned;
}

static bool is_covered(const scene *s, look l, const region *r)
{
    for (int i = 0; i < r->side_count; i++) {
        if (!is_within(s, l, r->sides[i]))
            return false;
    }
    return !r->nothing;
}

static level level_at(const scene *s, look l)
{
    if (l.on == CARD && !l.inside)
        return (level){0};
    for (int i = s->around->patch_count - 1; i >= 0; i--) {
        const lw_patch *patch = &s->around->patches[i];
        if (!is_covered(s, l, &s->regions[i]))
            continue;
        /* A level that fades nowhere is above 0 everywhere, or below 0 everywhere. */
        bool shines = s->regions[i].fades ? is_within(s, l, s->regions[i].shining)
                                          : patch->even + fabs(patch->slope) > 0.0;
        return shines ? (level){patch->even, patch->slope} : (level){0};
    }
    return (level){0};
}

/* ---- along one circle --------------------------------------------------- */

/* w(t) = middle + u cos t + v sin t, counter-clockwise round the normal. */
typedef struct curve {
    lw_vec3 middle, u, v;
} curve;

static curve curve_of(const circle *c)
{
    lw_vec3 n = c->normal;
    lw_vec3 other = fabs(n.z) < 0.7 ? (lw_vec3){0.0, 0.0, 1.0} : (lw_vec3){1.0, 0.0, 0.0};
    lw_vec3 u = lw_vec3_cross(other, n);
    double radius = sqrt((1.0 - c->distance) * (1.0 + c->distance));
    u = lw_vec3_scale(u, radius / lw_vec3_length(u));
    return (curve){lw_vec3_scale(n, c->distance), u, lw_vec3_cross(n, u)};
}

static lw_vec3 along(const curve *c, lw_sincos t)
{
    return lw_vec3_add(c->middle,
                       lw_vec3_add(lw_vec3_scale(c->u, t.cos), lw_vec3_scale(c->v, t.sin)));
}

/* Where another circle crosses it, in radians. */
static int crossings(const curve *c, const circle *other, double out[2])
{
    double a = lw_vec3_dot(other->normal, c->u);
    double b = lw_vec3_dot(other->normal, c->v);
    double rest = other->distance - lw_vec3_dot(other->normal, c->middle);
    double room = a * a + b * b - rest * rest;
    if (room <= 0.0)
        return 0;
    double middle = lw_atan2(b, a);
    double half = lw_atan2(sqrt(room), rest);
    out[0] = middle - half;
    out[1] = middle + half;
    return 2;
}

static double within_turn(double t)
{
    double turn = 2.0 * LW_PI;
    return t < 0.0 ? t + turn : t >= turn ? t - turn : t;
}

static int cuts_of(const scene *s, int number, const curve *c, double cuts[MOST_CROSSINGS])
{
    int count = 0;
    for (int i = 0; i < s->circle_count; i++) {
        double found[2];
        int found_count = i == number ? 0 : crossings(c, &s->circles[i], found);
        for (int k = 0; k < found_count; k++) {
            double t = within_turn(found[k]);
            int place = count++;
            for (; place > 0 && cuts[place - 1] > t; place--)
                cuts[place] = cuts[place - 1];
            cuts[place] = t;
        }
    }
    return count;
}

/* Green's integrand for a level at a point that moves by `step`. */
static double edge_part(const scene *s, level l, lw_vec3 w, lw_vec3 step)
{
    lw_vec3 zenith = s->around->zenith;
    double sweep = w.x * step.y - w.y * step.x;
    double tilted = 0.5 * zenith.x * w.x * w.x * step.y - 0.5 * zenith.y * w.y * w.y * step.x +
                    zenith.z * sweep * (1.0 + w.z + w.z * w.z) / (3.0 * (1.0 + w.z));
    return 0.5 * l.even * sweep + l.slope * tilted;
}

/* M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 25.4.30 and table 25.4, n = 8.
 */
static const double gauss[4][2] = {{0.183434642495649805, 0.362683783378361983},
                                   {0.525532409916328986, 0.313706645877887287},
                                   {0.796666477413626740, 0.222381034453374471},
                                   {0.960289856497536232, 0.101228536290376259}};

static double arc_part(const scene *s, level l, const curve *c, double from, double to)
{
    double middle = 0.5 * (from + to), half = 0.5 * (to - from);
    double sum = 0.0;
    for (int k = 0; k < 8; k++) {
        double at = middle + (k % 2 == 0 ? half : -half) * gauss[k / 2][0];
        lw_sincos t = lw_sincos_rad(at);
        lw_vec3 step = lw_vec3_sub(lw_vec3_scale(c->v, t.cos), lw_vec3_scale(c->u, t.sin));
        sum += gauss[k / 2][1] * edge_part(s, l, along(c, t), step);
    }
    return half * sum;
}

/* One arc between crossings: the level on its left less that on its right, along it. */
static double arc(const scene *s, int number, const curve *c, double from, double to)
{
    look l = {along(c, lw_sincos_rad(0.5 * (from + to))), number, true};
    if (number != CARD && l.at.z <= 0.0)
        return 0.0;
    level left = level_at(s, l);
    l.inside = false;
    level right = level_at(s, l);
    level less = {left.even - right.even, left.slope - right.slope};
    if (less.even == 0.0 && less.slope == 0.0)
        return 0.0;
    int pieces = 1 + (int)((to - from) / (LW_PI / 8.0));
    double sum = 0.0;
    for (int i = 0; i < pieces; i++)
        sum += arc_part(s, less, c, from + (to - from) * i / pieces,
                        from + (to - from) * (i + 1) / pieces);
    return sum;
}

static double all_round(const scene *s, int number)
{
    curve c = curve_of(&s->circles[number]);
    double cuts[MOST_CROSSINGS];
    int count = cuts_of(s, number, &c, cuts);
    if (count == 0)
        return arc(s, number, &c, 0.0, 2.0 * LW_PI);
    double sum = 0.0;
    for (int i = 0; i + 1 < count; i++)
        sum += arc(s, number, &c, cuts[i], cuts[i + 1]);
    return sum + arc(s, number, &c, cuts[count - 1], cuts[0] + 2.0 * LW_PI);
}

double lw_surroundings_white_card(const lw_surroundings *surroundings)
{
    assert(surroundings->patch_count >= 0 && surroundings->patch_count <= LW_LIGHT_MOST_PATCHES);
    scene s;
    lay_out(&s, surroundings);
    double sum = 0.0;
    for (int i = 0; i < s.circle_count; i++)
        sum += all_round(&s, i);
    return sum / LW_PI;
}
