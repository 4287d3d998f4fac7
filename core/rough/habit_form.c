#include "rough/habit_form.h"

#include "geom/angle.h"

#include <assert.h>

/* Adds the half-space n . p <= d, n of any length. */
static void add(lw_form *form, double nx, double ny, double nz, double d, const char *what)
{
    assert(form->count < LW_FORM_MOST_FACES);
    double length = sqrt(nx * nx + ny * ny + nz * nz);
    lw_plane plane = {{nx / length, ny / length, nz / length}, d / length};
    form->faces[form->count++] = (lw_rough_face){plane, what};
}

/* Both half-spaces |n . p| <= d. */
static void add_pair(lw_form *form, lw_vec3 n, double d, const char *what)
{
    add(form, n.x, n.y, n.z, d, what);
    add(form, -n.x, -n.y, -n.z, d, what);
}

static void add_box(lw_form *form, const double half[3], const char *what)
{
    add_pair(form, (lw_vec3){1, 0, 0}, half[0], what);
    add_pair(form, (lw_vec3){0, 1, 0}, half[1], what);
    add_pair(form, (lw_vec3){0, 0, 1}, half[2], what);
}

/* One band of the inner polyhedron of the ellipsoid with these half axes, between two parallels of
 * the unit sphere. Its corners lie on the ellipsoid: those of one facet are an isosceles trapezoid
 * on the sphere, so they share a plane, and stretching the axes keeps that. */
static void add_band(lw_form *form, const double half[3], lw_sincos low, lw_sincos high,
                     double middle_z, const char *what)
{
    double shrink = lw_sincos_turns(0.5 / LW_FORM_SECTORS).cos;
    /* in the (r, z) half plane through a facet's middle: from (r0, z0) to (r1, z1) */
    double r0 = low.cos * shrink, r1 = high.cos * shrink;
    double nr = high.sin - low.sin, nz = r0 - r1;
    double d = nr * r0 + nz * low.sin;
    for (int i = 0; i < LW_FORM_SECTORS; i++) {
        lw_sincos at = lw_sincos_turns((i + 0.5) / LW_FORM_SECTORS);
        double az = nz / half[2];
        add(form, nr * at.cos / half[0], nr * at.sin / half[1], az, d + az * middle_z, what);
    }
}

static void add_upper_half(lw_form *form, const double half[3], double middle_z, double sign)
{
    for (int band = 0; band < LW_FORM_QUARTER_BANDS; band++) {
        lw_sincos low = lw_sincos_turns(0.25 * band / LW_FORM_QUARTER_BANDS);
        lw_sincos high = lw_sincos_turns(0.25 * (band + 1) / LW_FORM_QUARTER_BANDS);
        double upright[3] = {half[0], half[1], sign * half[2]};
        add_band(form, upright, low, high, middle_z, "the worn skin");
    }
}

static void add_half_pebble(lw_form *form, const double half[3])
{
    double dome[3] = {half[0], half[1], 2.0 * half[2]};
    add_upper_half(form, dome, -half[2], 1.0);
    add(form, 0, 0, -1, half[2], "the flat side");
}

static void add_cobbed(lw_form *form, const double half[3])
{
    add_box(form, half, "a broken side");
    for (int corner = 0; corner < 8; corner++) {
        add(form, (corner & 1 ? -1 : 1) / half[0], (corner & 2 ? -1 : 1) / half[1],
            (corner & 4 ? -1 : 1) / half[2], 1.4, "a broken corner");
    }
}

static void add_plate(lw_form *form, const double half[3])
{
    double shrink = lw_sincos_turns(0.5 / LW_FORM_SECTORS).cos;
    for (int i = 0; i < LW_FORM_SECTORS; i++) {
        lw_sincos at = lw_sincos_turns((i + 0.5) / LW_FORM_SECTORS);
        add(form, at.cos / half[0], at.sin / half[1], 0, shrink, "the rim");
    }
    add_pair(form, (lw_vec3){0, 0, 1}, half[2], "a level face");
}

/* The six sides around x: corners at +-half[1] in y, flats at +-half[2] in z, all angles 120. lean
 * tilts them toward +x, as the faces of a point: sides reach the axis at x = tip. */
static void add_sides(lw_form *form, const double half[3], double lean_sin, double lean_cos,
                      double tip, const char *what)
{
    bool upright = lean_cos == 0.0;
    for (int i = 0; i < 6; i++) {
        lw_sincos at = lw_sincos_turns((2 * i + 1) / 12.0);
        bool flat = i == 1 || i == 4;
        double across = flat ? half[2] : half[1] * lw_sincos_deg(30).cos;
        double d = upright ? across : lean_cos * tip;
        add(form, lean_cos, lean_sin * at.cos, lean_sin * at.sin, d, what);
    }
}

static void add_prism(lw_form *form, const double half[3], int points)
{
    lw_sincos lean = lw_sincos_deg(LW_FORM_QUARTZ_R_DEG);
    add_sides(form, half, 1.0, 0.0, 0.0, "a prism face");
    if (points >= 1) {
        add_sides(form, half, lean.sin, lean.cos, half[0], "a face of the point");
    } else {
        add(form, 1, 0, 0, half[0], "an end of the prism");
    }
    if (points >= 2) {
        add_sides(form, half, lean.sin, -lean.cos, -half[0], "a face of the point");
    } else {
        add(form, -1, 0, 0, half[0], "an end of the prism");
    }
}

static void add_barrel(lw_form *form, const double half[3])
{
    for (int i = 0; i < 6; i++) {
        lw_sincos at = lw_sincos_turns((2 * i + 1) / 12.0);
        bool flat = i == 1 || i == 4;
        double across = flat ? half[2] : half[1] * lw_sincos_deg(30).cos;
        double lean = 0.5 * across / half[0];
        add(form, lean, at.cos, at.sin, across, "a slanting side");
        add(form, -lean, at.cos, at.sin, across, "a slanting side");
    }
    add_pair(form, (lw_vec3){1, 0, 0}, half[0], "an end of the barrel");
}

/* a |x| + b |y| + c |z| <= d on the half axes, for every change of sign, each face once. */
static void add_signed(lw_form *form, const double half[3], double a, double b, double c, double d,
                       const char *what)
{
    for (int corner = 0; corner < 8; corner++) {
        bool repeats =
            (a == 0.0 && (corner & 1)) || (b == 0.0 && (corner & 2)) || (c == 0.0 && (corner & 4));
        if (!repeats) {
            add(form, (corner & 1 ? -a : a) / half[0], (corner & 2 ? -b : b) / half[1],
                (corner & 4 ? -c : c) / half[2], d, what);
        }
    }
}

static void add_isometric(lw_form *form, lw_habit habit, const double half[3])
{
    if (habit == LW_HABIT_OCTAHEDRON) {
        add_signed(form, half, 1, 1, 1, 1, "a face of the octahedron");
    } else if (habit == LW_HABIT_DODECAHEDRON) {
        add_signed(form, half, 1, 1, 0, 1, "a lozenge");
        add_signed(form, half, 1, 0, 1, 1, "a lozenge");
        add_signed(form, half, 0, 1, 1, 1, "a lozenge");
    } else {
        add_signed(form, half, 2, 1, 1, 2, "a kite");
        add_signed(form, half, 1, 2, 1, 2, "a kite");
        add_signed(form, half, 1, 1, 2, 2, "a kite");
    }
}

static lw_vec3 rhombohedron_normal(int i)
{
    lw_sincos lean = lw_sincos_deg(LW_FORM_CALCITE_R_DEG);
    lw_sincos at = lw_sincos_turns(i / 3.0);
    return (lw_vec3){lean.sin * at.cos, lean.sin * at.sin, lean.cos};
}

void lw_form_make(lw_habit habit, const lw_readings *readings, lw_form *form)
{
    const double *mm = readings->mm;
    double half[3] = {0.5 * mm[0], 0.5 * mm[1], 0.5 * mm[2]};
    assert(habit != LW_HABIT_COUNT);
    form->count = 0;
    form->has_c = habit >= LW_HABIT_HEXAGONAL_PRISM && habit <= LW_HABIT_BARREL;
    form->c_axis = (lw_vec3){1, 0, 0};
    switch (habit) {
    case LW_HABIT_PEBBLE:
        add_upper_half(form, half, 0.0, 1.0);
        add_upper_half(form, half, 0.0, -1.0);
        break;
    case LW_HABIT_HALF_PEBBLE:
        add_half_pebble(form, half);
        break;
    case LW_HABIT_COBBED:
        add_cobbed(form, half);
        break;
    case LW_HABIT_BLOCK:
        add_box(form, half, "a side of the block");
        break;
    case LW_HABIT_CUBE:
        add_box(form, half, "a cube face");
        break;
    case LW_HABIT_PLATE:
        add_plate(form, half);
        break;
    case LW_HABIT_HEXAGONAL_PRISM:
    case LW_HABIT_POINTED_PRISM:
    case LW_HABIT_DOUBLE_POINTED:
        add_prism(form, half, (int)habit - (int)LW_HABIT_HEXAGONAL_PRISM);
        break;
    case LW_HABIT_BARREL:
        add_barrel(form, half);
        break;
    case LW_HABIT_OCTAHEDRON:
    case LW_HABIT_DODECAHEDRON:
    case LW_HABIT_TRAPEZOHEDRON:
        add_isometric(form, habit, half);
        break;
    case LW_HABIT_RHOMBOHEDRON:
        for (int i = 0; i < 3; i++) {
            add_pair(form, rhombohedron_normal(i), half[i], "a cleavage face");
        }
        form->has_c = true;
        form->c_axis = (lw_vec3){0, 0, 1};
        break;
    case LW_HABIT_COUNT:
        break;
    }
}
