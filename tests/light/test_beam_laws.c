/* What physics says of whole beams: the way back, mirrors, troughs, and what polarisation does. */
#include "geom/angle.h"
#include "light/built_in.h"
#include "light/field.h"
#include "light/follow.h"
#include "light/fresnel.h"
#include "light/near.h"
#include "light/shape.h"

#include <stdlib.h>

static const double indices[] = {1.544, 1.77, 2.417};

static lw_light_measures measure(const lw_polyhedron *solid, const lw_light_options *options)
{
    lw_memory memory = lw_memory_standard();
    lw_light_measures out;
    assert_int_equal(lw_light_measure(&memory, solid, options, &out), LW_OK);
    return out;
}

/* Every part that leaves, kept. */
typedef struct left {
    int entry, facet, surfaces;
    lw_vec3 way;
    double area, weight;
} left;

typedef struct pile {
    left *parts;
    size_t count, capacity;
} pile;

static void keep(void *context, const lw_beam_part *part)
{
    pile *p = context;
    if (p->count == p->capacity) {
        p->capacity = p->capacity * 2 + 1024;
        p->parts = realloc(p->parts, p->capacity * sizeof *p->parts);
        assert_non_null(p->parts);
    }
    p->parts[p->count++] = (left){part->trail->entry, part->facet, part->trail->surfaces,
                                  part->way,          part->area,  part->weight};
}

static pile all_from(const lw_optic_solid *solid, const lw_light_options *options, lw_vec3 eye)
{
    pile p = {0};
    lw_beam_watch watch = {.context = &p, .part = keep};
    follow_from(solid, options, eye, &watch);
    return p;
}

/* ---- each beam as a ray --------------------------------------------------- */

typedef struct fielded {
    const lw_optic_solid *solid;
    double index;
    lw_screen screen;
    int compared;
} fielded;

static void against_field(void *context, const lw_beam_part *part)
{
    fielded *f = context;
    if (part->area < 1e-6)
        return;
    double a = 0.0, b = 0.0, weights[8];
    for (int i = 0; i < part->count; i++) {
        a += part->corners[i].a / part->count;
        b += part->corners[i].b / part->count;
    }
    lw_vec3 from = lw_vec3_scale(f->screen.eye, 5.0);
    from = lw_vec3_add(from, lw_vec3_scale(f->screen.across, a));
    from = lw_vec3_add(from, lw_vec3_scale(f->screen.up, b));
    int surfaces = part->trail->surfaces;
    field_trace(f->solid, f->index, from, lw_vec3_scale(f->screen.eye, -1.0), surfaces, weights,
                NULL);
    assert_near(part->weight, weights[surfaces - 1], 1e-11);
    f->compared += part->weight > 1e-6;
}

/* worked: the weight of every beam is that of a ray through its middle, followed as an electric
 * field in three-space (field.h), which knows neither beams nor Stokes parameters. */
static void beams_against_fields(void **state)
{
    (void)state;
    shape round = shape_round(40.8, 33.2, 0.56, 0.5, 0.78);
    for (int i = 0; i < 6; i++) {
        lw_light_options options = lw_light_defaults(indices[i % 3]);
        options.bound = 1e-9;
        options.most_surfaces = 8;
        lw_vec3 eye = lw_eye_direction(i < 3 ? 0.0 : 19.0, 33.0);
        fielded f = {&round.optic, indices[i % 3], lw_screen_for(eye, lw_atan2_deg(eye.y, eye.x)),
                     0};
        lw_beam_watch watch = {.context = &f, .part = against_field};
        follow_from(&round.optic, &options, eye, &watch);
        assert_true(f.compared > 500);
    }
    shape_destroy(&round);
}

/* ---- the way back --------------------------------------------------------- */

/* Energy that goes by these facets after so many surfaces toward one direction. */
static double energy_toward(const pile *p, int entry, int facet, int surfaces, lw_vec3 way)
{
    double sum = 0.0;
    for (size_t i = 0; i < p->count; i++) {
        const left *l = &p->parts[i];
        if (l->entry == entry && l->facet == facet && l->surfaces == surfaces && l->weight > 0.0 &&
            lw_vec3_length(lw_vec3_sub(l->way, way)) < 1e-9)
            sum += l->area * l->weight;
    }
    return sum;
}

/* By how much the cross-section of parallel light grows as it passes out of a facet. */
static double widening(const lw_optic_solid *solid, int facet, double index, lw_vec3 outside)
{
    double cos_out = fabs(lw_vec3_dot(lw_optic_solid_normal(solid, facet), outside));
    double cos_in = sqrt(1.0 - (1.0 - cos_out * cos_out) / (index * index));
    return cos_out / cos_in;
}

/* worked: the tube of rays that goes from the eye in by one facet and out by another toward a
 * direction is, looked at from there, the tube that comes to the eye: the same weight, and the same
 * area but for how refraction widens a beam at both ends. Sums over all tubes between the same
 * facets and directions, for light that is polarised on its way and absorbed. 1e-9 of the energy:
 * refraction at up to 85 degrees magnifies rounding in a direction tenfold, and slivers below 1e-12
 * are cut off. */
static void the_way_back(void **state)
{
    (void)state;
    shape round = shape_round(40.8, 33.2, 0.56, 0.5, 0.78);
    int compared = 0, down = 0;
    for (int i = 0; i < 3; i++) {
        lw_light_options options = lw_light_defaults(indices[i]);
        options.absorption = 0.4;
        options.bound = 1e-13;
        options.most_surfaces = 6;
        lw_vec3 eye = lw_eye_direction(12.0, 20.0);
        pile there = all_from(&round.optic, &options, eye);
        for (size_t k = 0; k < there.count; k += 7) {
            left l = there.parts[k];
            double cos_out = lw_vec3_dot(lw_optic_solid_normal(&round.optic, l.facet), l.way);
            if (l.area * l.weight < 1e-5 || cos_out < 0.1)
                continue;
            pile back = all_from(&round.optic, &options, l.way);
            double out = energy_toward(&there, l.entry, l.facet, l.surfaces, l.way);
            double home = energy_toward(&back, l.facet, l.entry, l.surfaces, eye);
            double wider = widening(&round.optic, l.facet, indices[i], l.way) /
                           widening(&round.optic, l.entry, indices[i], eye);
            assert_near(home / (out * wider), 1.0, 1e-9);
            compared++;
            down += l.way.z < 0.0;
            free(back.parts);
        }
        free(there.parts);
    }
    print_message("%d tubes of light looked at from both ends, %d of them from below\n", compared,
                  down);
    assert_true(compared > 100 && down > 10 && down < compared);
    shape_destroy(&round);
}

/* A point of a round patch of sky, the i-th of count, evenly by solid angle. */
static lw_vec3 spot_of(lw_vec3 axis, double half_deg, int i, int count)
{
    lw_vec3 right = {-axis.y, axis.x, 0.0};
    right = lw_vec3_scale(right, 1.0 / lw_vec3_length(right));
    lw_vec3 up = lw_vec3_cross(axis, right);
    double z = 1.0 - (1.0 - lw_sincos_deg(half_deg).cos) * (i + 0.5) / count;
    double golden = 0.61803398874989485 * i;
    lw_sincos turn = lw_sincos_turns(golden - floor(golden));
    double r = sqrt(1.0 - z * z);
    lw_vec3 spot = lw_vec3_scale(axis, z);
    spot = lw_vec3_add(spot, lw_vec3_scale(right, r * turn.cos));
    return lw_vec3_add(spot, lw_vec3_scale(up, r * turn.sin));
}

/* What eyes all over one patch see of a stone that another patch lights: mean over the eyes of
 * outline x brightness, and the standard error of it. */
static void seen_from_patch(const shape *stone, double index, lw_vec3 eyes, lw_vec3 lamp,
                            double half_deg, double out[2])
{
    enum { EYES = 600 };
    lw_light_place place = lw_light_place_even_sky();
    place.patches[0].toward = lamp;
    place.patches[0].least_cos = lw_sincos_deg(half_deg).cos;
    lw_light_options options = lw_light_defaults(index);
    options.place = &place;
    options.head_deg = 0.0;
    options.bound = 1e-4;
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < EYES; i++) {
        lw_vec3 eye = spot_of(eyes, half_deg, i, EYES);
        options.tilt_deg = lw_atan2_deg(hypot(eye.x, eye.y), eye.z);
        options.turn_deg = lw_atan2_deg(eye.y, eye.x);
        double seen =
            outline_area(&stone->optic, eye) * measure(&stone->solid, &options).brightness;
        sum += seen;
        squares += seen * seen;
    }
    out[0] = sum / EYES;
    out[1] = sqrt((squares / EYES - out[0] * out[0]) / EYES);
}

/* worked: light from a small lamp to a small eye is what it is from a lamp at the eye's place to an
 * eye at the lamp's. From one eye a stone shows a small lamp or not, so that it is the mean over
 * eyes as widely spread as the lamp that is the same both ways (outline x brightness, for the light
 * that falls on the stone is in proportion to its outline). A sampled mean: four standard errors of
 * the difference, and the patch must be seen at all. */
static void eye_and_lamp_exchanged(void **state)
{
    (void)state;
    shape round = shape_round(43.0, 42.0, 0.52, 0.5, 0.8);
    const double lamps[][2] = {{35.0, 200.0}, {20.0, 95.0}, {60.0, 30.0}};
    for (int i = 0; i < 3; i++) {
        lw_vec3 eye = lw_eye_direction(12.0, 20.0);
        lw_vec3 lamp = lw_eye_direction(lamps[i][0], lamps[i][1]);
        double there[2], back[2];
        seen_from_patch(&round, 1.544, eye, lamp, 4.0, there);
        seen_from_patch(&round, 1.544, lamp, eye, 4.0, back);
        double error = hypot(there[1], back[1]);
        print_message("lamp at %2.0f deg: %.6f there, %.6f back, standard error %.6f\n",
                      lamps[i][0], there[0], back[0], error);
        assert_true(there[0] > 10.0 * there[1]);
        assert_near(there[0], back[0], 4.0 * error);
    }
    shape_destroy(&round);
}

/* ---- mirrors -------------------------------------------------------------- */

/* Three facets square to one another under a level top: a corner of a cube, its space diagonal
 * upright and its point at 0. */
static shape cube_corner(void)
{
    double angle = lw_atan2_deg(sqrt(2.0), 1.0); /* of its facets against the level */
    lw_plane planes[4] = {{{0, 0, 1}, 1.0}};
    for (int i = 0; i < 3; i++)
        planes[i + 1] = facet(angle, 120.0 * i, true, 0.0);
    return shape_of(planes, 4);
}

/* worked: what meets all three facets goes back the way it came, from whatever side it comes: to
 * the eye, through the same angle at the top. Straight from above that is where the triangle and
 * its image in the corner's point lie over one another, two thirds of it, with a weight of (1 - R)
 * squared however polarised it became. */
static void corner_of_a_cube(void **state)
{
    (void)state;
    shape corner = cube_corner();
    for (int i = 0; i < 12; i++) {
        double index = indices[i % 3], tilt = 3.0 * (i / 3);
        lw_light_options options = lw_light_defaults(index);
        options.bound = 1e-9;
        options.most_surfaces = 4;
        lw_vec3 eye = lw_eye_direction(tilt, 50.0 * i);
        pile p = all_from(&corner.optic, &options, eye);
        double back = 0.0, weight = 0.0, whole = outline_area(&corner.optic, eye);
        for (size_t k = 0; k < p.count; k++) {
            const left *l = &p.parts[k];
            if (l->surfaces != 4 || l->entry != l->facet || l->weight == 0.0 ||
                lw_vec3_dot(l->way, eye) < 0.999)
                continue;
            assert_near(lw_vec3_length(lw_vec3_sub(l->way, eye)), 0.0, 1e-13);
            back += l->area / whole;
            weight = l->weight;
            lw_fresnel f = lw_fresnel_at(1.0 / index, eye.z);
            double least = fmin(f.transmit_s, f.transmit_p);
            assert_true(weight > least * least - 1e-12 && weight < 1.0);
        }
        double r = (index - 1.0) * (index - 1.0) / ((index + 1.0) * (index + 1.0));
        if (tilt == 0.0) {
            assert_near(back, 2.0 / 3.0, 1e-12);
            assert_near(weight, (1.0 - r) * (1.0 - r), 1e-12);
        }
        assert_true(back > 0.3 && back < 2.0 / 3.0 + 1e-9);
        free(p.parts);
    }
    shape_destroy(&corner);
}

/* worked: without a head a roof of 90 degrees gives the eye all that it lets in, whatever the index
 * (as long as 45 degrees is beyond the critical angle) and at any tilt along the roof's ridge; with
 * one that covers the eye, nothing. */
static void roof(void **state)
{
    (void)state;
    shape trough = shape_trough(45.0);
    for (int i = 0; i < 3; i++) {
        double r = (indices[i] - 1.0) * (indices[i] - 1.0) / ((indices[i] + 1) * (indices[i] + 1));
        lw_light_options options = lw_light_defaults(indices[i]);
        options.bound = 1e-13;
        options.head_deg = 0.0;
        lw_light_measures m = measure(&trough.solid, &options);
        assert_near(m.brightness, 1.0 - r, 1e-12);
        options.head_deg = 0.01;
        m = measure(&trough.solid, &options);
        assert_near(m.brightness, 0.0, 0.0);
        assert_near(m.extinction, 1.0 - r, 1e-12);
    }
    shape_destroy(&trough);
}

/* ---- troughs -------------------------------------------------------------- */

/* Energy that leaves a trough, seen straight from above, at its first surfaces. */
typedef struct early {
    double sent[4], head[4]; /* by surface */
    double cos_head;
} early;

static void early_part(void *context, const lw_beam_part *part)
{
    early *e = context;
    int k = part->trail->surfaces;
    if (k > 3)
        return;
    e->sent[k] += part->area * part->weight;
    if (part->weight > 0.0 && part->way.z > e->cos_head)
        e->head[k] += part->area * part->weight;
}

static early early_of(double index, double pavilion_deg)
{
    shape trough = shape_trough(pavilion_deg);
    lw_light_options options = lw_light_defaults(index);
    options.bound = 1e-9;
    options.most_surfaces = 3;
    early e = {.cos_head = lw_sincos_deg(options.head_deg).cos};
    lw_beam_watch watch = {.context = &e, .part = early_part};
    lw_beam_totals totals = follow(&trough.optic, &options, &watch);
    for (int k = 0; k < 4; k++) {
        e.sent[k] /= totals.area;
        e.head[k] /= totals.area;
    }
    shape_destroy(&trough);
    return e;
}

/* worked, after M. Tolkowsky, Diamond Design, 1919: a ray along the axis meets one side of the
 * pavilion at P and the other at 180 - 3 P. Nothing at all leaves by the first two surfaces, over
 * the whole of the table, for critical <= P <= (180 - critical) / 3; a hundredth of a degree below
 * it the window is there, and a hundredth above it the second side leaks. */
static void tolkowskys_band(void **state)
{
    (void)state;
    for (double index = 1.42; index < 3.0; index += 0.053) {
        double low = lw_asin_deg(1.0 / index), high = (180.0 - low) / 3.0;
        assert_true(low < high);
        for (int k = 0; k <= 4; k++) {
            double within = k == 0   ? low + 1e-6
                            : k == 4 ? high - 1e-6
                                     : low + k * 0.25 * (high - low);
            early e = early_of(index, within);
            assert_near(e.sent[1] + e.sent[2], 0.0, 0.0);
        }
        early below = early_of(index, low - 0.01), above = early_of(index, high + 0.01);
        assert_true(below.sent[1] > 0.02);
        assert_near(above.sent[1], 0.0, 0.0);
        assert_true(above.sent[2] > 0.01);
    }
    /* below the root of 2 there is no such angle */
    for (double p = 30.0; p < 59.0; p += 0.25) {
        early e = early_of(1.41, p);
        assert_true(e.sent[1] + e.sent[2] > 0.0);
    }
}

/* worked, after B. Harding, Gems & Gemology, 1975 (the head hides what is sent back within
 * about 10 degrees): light along the axis that meets both sides of a trough leaves the table at
 * asin(n sin|180 - 4 P|), under the head for |45 - P| <= asin(sin 10 / n) / 4; corundum 43.59 to
 * 46.41. Inside the band the head is seen in it, outside it is not at all. */
static void hardings_band(void **state)
{
    (void)state;
    const double materials[] = {1.434, 1.544, 1.62, 1.77, 2.16, 2.417};
    for (int i = 0; i < 6; i++) {
        double half = lw_asin_deg(lw_sincos_deg(10.0).sin / materials[i]) / 4.0;
        for (int side = -1; side <= 1; side += 2) {
            double edge = 45.0 + side * half;
            early in = early_of(materials[i], edge - side * 0.001);
            early out = early_of(materials[i], edge + side * 0.001);
            double critical = lw_asin_deg(1.0 / materials[i]);
            bool reflects = edge > critical && edge < (180.0 - critical) / 3.0;
            print_message("n %.3f, band ends at %.2f: head %.3f in, %.3f out%s\n", materials[i],
                          edge, in.head[3], out.head[3], reflects ? "" : " (a side leaks there)");
            assert_near(out.head[3], 0.0, 0.0);
            assert_true(in.head[3] > (reflects ? 0.4 : 0.0));
        }
    }
    double half = lw_asin_deg(lw_sincos_deg(10.0).sin / 1.77) / 4.0;
    assert_near(45.0 - half, 43.59, 0.005);
    assert_near(45.0 + half, 46.41, 0.005);
}

/* ---- polarisation --------------------------------------------------------- */

/* The largest relative difference of a beam's weight among those that carry at least so much. */
static const double carries[] = {1e-4, 1e-3, 1e-2};
enum { CARRIES = 3 };

typedef struct apart {
    double most[CARRIES];
    double weight; /* the largest difference of a weight itself, of what fell on its piece */
    double moved;  /* sum of the differences, as a share of what is sent: light put elsewhere */
} apart;

/* Beams are the same pieces of the face either way as long as no bound is met: part k of one run
 * is part k of the other. */
static apart compare(const lw_optic_solid *solid, lw_light_options options)
{
    lw_vec3 eye = lw_eye_direction(options.tilt_deg, options.turn_deg);
    double whole = outline_area(solid, eye), sent = 0.0;
    options.bound = 1e-300; /* none but what has no area is cut off */
    options.most_surfaces = 9;
    pile carried = all_from(solid, &options, eye);
    options.unpolarised = true;
    pile averaged = all_from(solid, &options, eye);
    assert_int_equal(carried.count, averaged.count);
    apart found = {0};
    for (size_t k = 0; k < carried.count; k++) {
        const left *c = &carried.parts[k], *a = &averaged.parts[k];
        assert_true(c->facet == a->facet && c->area == a->area);
        double share = c->area * c->weight / whole, off = a->weight - c->weight;
        sent += share;
        found.moved += c->area / whole * fabs(off);
        if (share >= carries[0] && fabs(off) > fabs(found.weight))
            found.weight = off;
        for (int j = 0; j < CARRIES; j++) {
            if (share >= carries[j] && fabs(off) / c->weight > fabs(found.most[j]))
                found.most[j] = off / c->weight;
        }
    }
    found.moved /= sent;
    free(carried.parts);
    free(averaged.parts);
    return found;
}

/* The difference that averaging s and p at each surface makes, beam by beam. Printed;
 * docs/light.md has the figures. Held: that it is there, and of what size. */
static void polarisation_by_beam(void **state)
{
    (void)state;
    const struct {
        const char *material, *cut;
        double tilt_deg;
    } rows[] = {{"quartz", "classic-quartz-round", 0.0}, {"quartz", "classic-quartz-round", 13.0},
                {"corundum", "round-brilliant", 0.0},    {"corundum", "round-brilliant", 13.0},
                {"diamond", "round-brilliant", 0.0},     {"diamond", "round-brilliant", 13.0}};
    for (int i = 0; i < 6; i++) {
        lw_cut cut = built_in_cut(rows[i].cut, false);
        lw_stone stone = built_in_stone(&cut, NULL, 0);
        lw_memory memory = lw_memory_standard();
        lw_optic_solid solid;
        assert_int_equal(lw_optic_solid_make(&memory, &stone.solid, &solid), LW_OK);
        lw_light_options options = lw_light_defaults(built_in_index(rows[i].material).yellow);
        options.tilt_deg = rows[i].tilt_deg;
        options.turn_deg = 7.0;
        apart a = compare(&solid, options);
        options.bound = 1e-6;
        double carried = measure(&stone.solid, &options).brightness;
        options.unpolarised = true;
        double averaged = measure(&stone.solid, &options).brightness;
        print_message("%-9s %2.0f deg: beams off by up to %+.1f, %+.1f, %+.1f %% of themselves, "
                      "%+.2f %% of what falls on them; %.2f %% of the light elsewhere; brightness "
                      "%+.3f %%\n",
                      rows[i].material, rows[i].tilt_deg, 100.0 * a.most[0], 100.0 * a.most[1],
                      100.0 * a.most[2], 100.0 * a.weight, 100.0 * a.moved,
                      100.0 * (averaged / carried - 1.0));
        assert_true(fabs(a.most[0]) > 0.05 && fabs(a.most[0]) < 1.5);
        assert_true(a.moved > 0.002 && a.moved < 0.02);
        lw_optic_solid_destroy(&solid);
        lw_stone_destroy(&stone);
        lw_cut_destroy(&cut);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(beams_against_fields),
        cmocka_unit_test(the_way_back),
        cmocka_unit_test(eye_and_lamp_exchanged),
        cmocka_unit_test(corner_of_a_cube),
        cmocka_unit_test(roof),
        cmocka_unit_test(tolkowskys_band),
        cmocka_unit_test(hardings_band),
        cmocka_unit_test(polarisation_by_beam),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
