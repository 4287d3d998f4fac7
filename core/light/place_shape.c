/* From what a line says to patches of light. */
#include "light/place_parts.h"

#include "geom/angle.h"

#include <stdio.h>

static double value(const lw_place_line *line, lw_place_clause clause)
{
    return line->value[clause];
}

static bool has(const lw_place_line *line, lw_place_clause clause)
{
    return (line->has & (1u << clause)) != 0;
}

static void set_glow(double told, lw_glow *glow, double *kelvin)
{
    *glow = told == LW_GLOW_IS_DAYLIGHT ? LW_GLOW_DAYLIGHT
            : told == LW_GLOW_IS_EVEN   ? LW_GLOW_EVEN
                                        : LW_GLOW_BLACKBODY;
    *kelvin = *glow == LW_GLOW_BLACKBODY ? told : 0.0;
}

static lw_status add_patch(lw_place_reader *r, const lw_place_line *line, lw_patch patch)
{
    if (r->place.patch_count == LW_LIGHT_MOST_PATCHES)
        return lw_problem_set(r->problem, LW_TOO_LARGE, r->line, line->kind->column,
                              "more lights than a place can have",
                              "at most 32 skies, floors, windows and lamps",
                              "each lamp of a row or ring counts");
    if (has(line, LW_CLAUSE_LIGHT_HIGH)) {
        patch.even = value(line, LW_CLAUSE_LIGHT_LEVEL);
        patch.slope = value(line, LW_CLAUSE_LIGHT_HIGH) - patch.even;
    } else {
        patch.even = value(line, LW_CLAUSE_LIGHT);
    }
    set_glow(value(line, LW_CLAUSE_GLOW), &patch.glow, &patch.kelvin);
    r->place.patches[r->place.patch_count++] = patch;
    return LW_OK;
}

/* ---- directions --------------------------------------------------------- */

/* Level, that many degrees clockwise from ahead; and what is to its right for who faces it. */
static lw_vec3 toward_side(double side_deg)
{
    lw_sincos a = lw_sincos_deg(side_deg);
    return (lw_vec3){a.sin, a.cos, 0.0};
}

static lw_vec3 right_of(double side_deg)
{
    lw_sincos a = lw_sincos_deg(side_deg);
    return (lw_vec3){a.cos, -a.sin, 0.0};
}

static lw_vec3 raised(lw_vec3 level, double up_deg)
{
    lw_sincos e = lw_sincos_deg(up_deg);
    return (lw_vec3){level.x * e.cos, level.y * e.cos, e.sin};
}

static lw_vec3 direction_of(const lw_place_line *line)
{
    if (has(line, LW_CLAUSE_VERTICAL))
        return (lw_vec3){0.0, 0.0, value(line, LW_CLAUSE_VERTICAL)};
    return raised(toward_side(value(line, LW_CLAUSE_SIDE)), value(line, LW_CLAUSE_UP_DEG));
}

/* ---- discs -------------------------------------------------------------- */

/* Of the half-angle of a disc that faces the stone. */
static double disc_cosine(double across, double away)
{
    return away / sqrt(away * away + 0.25 * across * across);
}

static lw_status add_disc(lw_place_reader *r, const lw_place_line *line)
{
    double least_cos =
        has(line, LW_CLAUSE_ACROSS_DEG)
            ? lw_sincos_deg(0.5 * value(line, LW_CLAUSE_ACROSS_DEG)).cos
            : disc_cosine(value(line, LW_CLAUSE_ACROSS), value(line, LW_CLAUSE_AWAY));
    return add_patch(r, line, (lw_patch){.toward = direction_of(line), .least_cos = least_cos});
}

static lw_status add_disc_at(lw_place_reader *r, const lw_place_line *line, lw_vec3 at)
{
    double away = lw_vec3_length(at);
    lw_patch patch = {.toward = lw_vec3_scale(at, 1.0 / away),
                      .least_cos = disc_cosine(value(line, LW_CLAUSE_ACROSS), away)};
    return add_patch(r, line, patch);
}

/* On a straight line at right angles to the side, its middle there. */
static lw_status add_row(lw_place_reader *r, const lw_place_line *line)
{
    double side = value(line, LW_CLAUSE_SIDE);
    lw_vec3 middle = lw_vec3_scale(toward_side(side), value(line, LW_CLAUSE_OUT));
    lw_status status = LW_OK;
    middle.z = value(line, LW_CLAUSE_UP);
    for (int i = 0; i < line->lamps && status == LW_OK; i++) {
        double along = (i - 0.5 * (line->lamps - 1)) * value(line, LW_CLAUSE_APART) +
                       value(line, LW_CLAUSE_ASIDE);
        status = add_disc_at(r, line, lw_vec3_add(middle, lw_vec3_scale(right_of(side), along)));
    }
    return status;
}

/* On a level circle around the stone's upright, the first one ahead or where it says. */
static lw_status add_ring(lw_place_reader *r, const lw_place_line *line)
{
    lw_status status = LW_OK;
    for (int i = 0; i < line->lamps && status == LW_OK; i++) {
        double side = value(line, LW_CLAUSE_SIDE) + 360.0 * i / line->lamps;
        lw_vec3 at = lw_vec3_scale(toward_side(side), value(line, LW_CLAUSE_OUT));
        at.z = value(line, LW_CLAUSE_UP);
        status = add_disc_at(r, line, at);
    }
    return status;
}

/* ---- panes -------------------------------------------------------------- */

/* In a wall: its middle lies off the foot of the stone's level line to it. */
static lw_status add_wall(lw_place_reader *r, const lw_place_line *line)
{
    double side = value(line, LW_CLAUSE_SIDE), away = value(line, LW_CLAUSE_AWAY);
    double tall = value(line, LW_CLAUSE_TALL);
    double up = value(line, LW_CLAUSE_SILL) + 0.5 * tall;
    lw_vec3 toward = toward_side(side), right = right_of(side), above = {0.0, 0.0, 1.0};
    lw_patch patch = {
        .shape = LW_PATCH_PANE,
        .toward = toward,
        .right = lw_vec3_sub(right, lw_vec3_scale(toward, value(line, LW_CLAUSE_ASIDE) / away)),
        .above = lw_vec3_sub(above, lw_vec3_scale(toward, up / away)),
        .tan_width = 0.5 * value(line, LW_CLAUSE_WIDE) / away,
        .tan_tall = 0.5 * tall / away};
    return add_patch(r, line, patch);
}

/* Level, overhead or beneath: wide from left to right, long from the viewer away. */
static lw_status add_level(lw_place_reader *r, const lw_place_line *line)
{
    double away = value(line, LW_CLAUSE_AWAY);
    lw_vec3 toward = direction_of(line), right = {1.0, 0.0, 0.0}, ahead = {0.0, 1.0, 0.0};
    lw_patch patch = {
        .shape = LW_PATCH_PANE,
        .toward = toward,
        .right = lw_vec3_sub(right, lw_vec3_scale(toward, value(line, LW_CLAUSE_ASIDE) / away)),
        .above = lw_vec3_sub(ahead, lw_vec3_scale(toward, value(line, LW_CLAUSE_FORTH) / away)),
        .tan_width = 0.5 * value(line, LW_CLAUSE_WIDE) / away,
        .tan_tall = 0.5 * value(line, LW_CLAUSE_LONG) / away};
    return add_patch(r, line, patch);
}

static double half_tangent(const lw_place_line *line, lw_place_clause angle, lw_place_clause length)
{
    if (has(line, angle))
        return lw_tan_deg(0.5 * value(line, angle));
    return 0.5 * value(line, length) / value(line, LW_CLAUSE_AWAY);
}

static lw_status add_facing(lw_place_reader *r, const lw_place_line *line)
{
    lw_vec3 toward = direction_of(line), right = right_of(value(line, LW_CLAUSE_SIDE));
    lw_patch patch = {.shape = LW_PATCH_PANE,
                      .toward = toward,
                      .right = right,
                      .above = lw_vec3_cross(right, toward),
                      .tan_width = half_tangent(line, LW_CLAUSE_WIDE_DEG, LW_CLAUSE_WIDE),
                      .tan_tall = half_tangent(line, LW_CLAUSE_TALL_DEG, LW_CLAUSE_TALL)};
    return add_patch(r, line, patch);
}

/* ---- skies, floors, and who looks --------------------------------------- */

/* sign 1: all that is higher than an angle above the horizon; -1: all that is lower. */
static lw_status add_half(lw_place_reader *r, const lw_place_line *line, double sign)
{
    lw_patch patch = {.toward = {0.0, 0.0, sign},
                      .least_cos = sign * lw_sincos_deg(value(line, LW_CLAUSE_FROM_DEG)).sin};
    return add_patch(r, line, patch);
}

static lw_status set_eye(lw_place_reader *r, const lw_place_line *line)
{
    double up = has(line, LW_CLAUSE_VERTICAL) ? 90.0 * value(line, LW_CLAUSE_VERTICAL)
                                              : value(line, LW_CLAUSE_UP_DEG);
    if (up < 0.0) {
        lw_place_clause told =
            has(line, LW_CLAUSE_VERTICAL) ? LW_CLAUSE_VERTICAL : LW_CLAUSE_UP_DEG;
        return lw_place_fail_clause(r, line->at[told], "an eye that is not below the stone", "");
    }
    lw_sincos e = lw_sincos_deg(up);
    r->place.eye = up == 90.0 ? (lw_vec3){0.0, 0.0, 1.0} : (lw_vec3){0.0, -e.cos, e.sin};
    return LW_OK;
}

static lw_status set_head(lw_place_reader *r, const lw_place_line *line)
{
    if (has(line, LW_CLAUSE_NONE))
        return LW_OK;
    r->place.head_deg =
        has(line, LW_CLAUSE_ACROSS_DEG)
            ? 0.5 * value(line, LW_CLAUSE_ACROSS_DEG)
            : lw_atan2_deg(0.5 * value(line, LW_CLAUSE_ACROSS), value(line, LW_CLAUSE_AWAY));
    r->place.head_radiance = value(line, LW_CLAUSE_LIGHT);
    set_glow(value(line, LW_CLAUSE_GLOW), &r->place.head_glow, &r->place.head_kelvin);
    return LW_OK;
}

static lw_status set_bright(lw_place_reader *r, const lw_place_line *line)
{
    if (value(line, LW_CLAUSE_LIGHT) < 1e-3)
        return lw_place_fail_range(r, line->at[LW_CLAUSE_LIGHT],
                                   "a luminance of at least 0.001 cd/m2");
    r->bright = value(line, LW_CLAUSE_LIGHT);
    return LW_OK;
}

lw_status lw_place_add(lw_place_reader *r, lw_place_shape shape, const lw_place_line *line)
{
    switch (shape) {
    case LW_SHAPE_ROOM:
        return add_patch(r, line, (lw_patch){.toward = {0.0, 0.0, 1.0}, .least_cos = -2.0});
    case LW_SHAPE_SKY:
        return add_half(r, line, 1.0);
    case LW_SHAPE_FLOOR:
        return add_half(r, line, -1.0);
    case LW_SHAPE_WALL:
        return add_wall(r, line);
    case LW_SHAPE_FACING:
        return add_facing(r, line);
    case LW_SHAPE_LEVEL:
        return add_level(r, line);
    case LW_SHAPE_DISC:
        return add_disc(r, line);
    case LW_SHAPE_ROW:
        return add_row(r, line);
    case LW_SHAPE_RING:
        return add_ring(r, line);
    case LW_SHAPE_EYE:
        return set_eye(r, line);
    case LW_SHAPE_HEAD:
        return set_head(r, line);
    case LW_SHAPE_BRIGHT:
        break;
    }
    return set_bright(r, line);
}
