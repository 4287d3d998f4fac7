/* Light against POV-Ray: first single surfaces whose figures are worked out by hand, so that it is
 * known to be told the right things; then whole stones, picture against picture.
 *
 * LW_LONG in the environment: all cases, in larger pictures. */
#include "povray/cases.h"
#include "povray/compare.h"

#include "builtin.h"
#include "cut/read.h"
#include "cut/solve.h"
#include "geom/angle.h"
#include "light/near.h"
#include "light/shape.h"

#include <stdlib.h>

/* Its picture has 16 bits: half a step, and rounding in single precision, of the full scale. */
#define STEP (0.6 / 65535.0)

/* Asked for is 1e-3. What is seen is a hundredth of this. */
#define MEAN_WITHIN 1e-4
/* Pixels, in shares of the brightest radiance: edges of weak beams that make no more than
 * COMPARE_STEADY a quarter of a pixel off may run through the middle, and rounding there decides.
 * Nearly all differ by the rounding of 16 bits alone: their root mean square is held to a step
 * (worked: 1 / (65535 POVRAY_BRIGHTEST sqrt 12) = 5.5e-6). */
#define PIXEL_WITHIN (COMPARE_STEADY + STEP / POVRAY_BRIGHTEST)
#define RMS_WITHIN 1e-5

/* A path that POV-Ray drops takes less than this of a pixel with it. */
#define BAILOUT 1e-8

/* ---- single surfaces ---------------------------------------------------- */

enum { FEW = 4 }; /* pixels a side: flat faces look the same all over */

typedef struct look {
    lw_light_options options;
    lw_surroundings around;
    povray_scene scene;
} look;

/* Clear, no head, tilted; the sky pales toward the zenith so that no two directions are alike. */
static void look_at(const shape *solid, double index, double tilt_deg, povray_form form, look *out)
{
    *out = (look){.options = lw_light_defaults(index)};
    out->options.tilt_deg = tilt_deg;
    out->options.head_deg = 0.0;
    out->around = lw_light_surroundings(&out->options);
    out->around.patches[0].even = 0.3;
    out->around.patches[0].slope = 0.6;
    lw_screen screen = lw_screen_for(out->around.eye, 0.0);
    out->scene = (povray_scene){.solid = &solid->optic,
                                .form = form,
                                .view = povray_view_of(&solid->optic, screen, FEW),
                                .index = index,
                                .surroundings = &out->around,
                                .levels = POVRAY_LEVELS,
                                .bailout = BAILOUT};
}

/* The picture's middle: row and column 2 of 4 have it half a pixel off, on a face as wide as this.
 */
static double middle_of(const povray_scene *scene)
{
    double picture[FEW * FEW];
    assert_true(povray_render(scene, picture, NULL));
    return picture[2 * FEW + 2];
}

/* worked: Fresnel's laws of sines and tangents (Born & Wolf 7th ed., 1.5.2, eq. 21a), averaged. */
static double reflectance(double index, double angle_deg)
{
    if (angle_deg == 0.0)
        return (index - 1.0) * (index - 1.0) / ((index + 1.0) * (index + 1.0));
    double beyond = lw_asin_deg(lw_sincos_deg(angle_deg).sin / index);
    double s = lw_sincos_deg(angle_deg - beyond).sin / lw_sincos_deg(angle_deg + beyond).sin;
    double p = lw_tan_deg(angle_deg - beyond) / lw_tan_deg(angle_deg + beyond);
    return 0.5 * (s * s + p * p);
}

/* worked: of light on a plate R returns at once, and T R T + T R^3 T + … by way of the other side;
 * T T + T R^2 T + … passes; going down it meets the dark. */
static void plate(void **state)
{
    (void)state;
    shape solid = shape_box(20.0, 20.0, 1.0);
    const double rows[][2] = {
        {1.544, 0.0}, {1.544, 40.0}, {1.77, 25.0}, {2.417, 0.0}, {2.417, 60.0}};
    for (int i = 0; i < 5; i++) {
        look l;
        look_at(&solid, rows[i][0], rows[i][1], i % 2 ? POVRAY_MESH : POVRAY_PLANES, &l);
        double r = reflectance(rows[i][0], rows[i][1]);
        double level = 0.3 + 0.6 * lw_sincos_deg(rows[i][1]).cos;
        double expected = level * (r + (1.0 - r) * (1.0 - r) * r / (1.0 - r * r));
        assert_near(middle_of(&l.scene), expected, STEP * povray_full_scale(&l.scene));
    }
    shape_destroy(&solid);
}

/* worked: the same over a bright ground under a dark sky tells what passes: T^2 / (1 - R^2), each
 * crossing of a plate of thickness t at the angle b inside taking exp(-a t / cos b). */
static void plate_that_absorbs(void **state)
{
    (void)state;
    shape solid = shape_box(20.0, 20.0, 1.0);
    const double tilts[] = {0.0, 35.0};
    for (int i = 0; i < 2; i++) {
        look l;
        look_at(&solid, 1.62, tilts[i], i ? POVRAY_MESH : POVRAY_PLANES, &l);
        l.scene.absorption = 0.25;
        l.around.patches[0].toward.z = -1.0;
        l.around.patches[0].slope = 0.0;
        double r = reflectance(1.62, tilts[i]);
        double inside = lw_asin_deg(lw_sincos_deg(tilts[i]).sin / 1.62);
        double passes = exp(-0.25 * 2.0 / lw_sincos_deg(inside).cos);
        double expected = 0.3 * (1.0 - r) * (1.0 - r) * passes / (1.0 - r * r * passes * passes);
        assert_near(middle_of(&l.scene), expected, STEP * povray_full_scale(&l.scene));
    }
    shape_destroy(&solid);
}

/* worked: a roof of 45 degrees sends everything back to where it came from, by total reflection
 * twice, so that all of what the zenith is comes back. */
static void roof(void **state)
{
    (void)state;
    shape solid = shape_trough(45.0);
    for (int form = POVRAY_PLANES; form <= POVRAY_MESH; form++) {
        look l;
        look_at(&solid, 1.544, 0.0, (povray_form)form, &l);
        l.scene.view.half = 0.5; /* clear of the ends */
        assert_near(middle_of(&l.scene), 0.9, STEP * povray_full_scale(&l.scene));
    }
    shape_destroy(&solid);
}

/* worked: on a plate with light of its own direction all around, each further surface inside adds a
 * term R^k T of what entered, below and above in turns; two levels less than surfaces. */
static void levels_are_surfaces(void **state)
{
    (void)state;
    shape solid = shape_box(20.0, 20.0, 1.0);
    double r = reflectance(2.417, 30.0), slope = 0.6 * lw_sincos_deg(30.0).cos;
    double expected = r * (0.7 + slope), inside = 1.0 - r;
    for (int levels = 2; levels < 9; levels++) {
        look l;
        look_at(&solid, 2.417, 30.0, POVRAY_MESH, &l);
        l.around.patches[0].least_cos = -2.0;
        l.around.patches[0].even = 0.7;
        l.scene.levels = levels;
        if (povray_surfaces(levels) > 0) {
            expected += inside * (1.0 - r) * (levels % 2 ? 0.7 - slope : 0.7 + slope);
            inside *= r;
        }
        assert_near(middle_of(&l.scene), expected, STEP * povray_full_scale(&l.scene));
    }
    assert_int_equal(povray_surfaces(8), 6);
    assert_true(inside < 1e-4);
    shape_destroy(&solid);
}

/* ---- whole stones ------------------------------------------------------- */

typedef struct posed {
    lw_memory memory;
    lw_cut cut;
    lw_stone stone;
    lw_optic_solid solid;
    lw_light_place place;
    lw_light_options options;
    lw_surroundings around;
    povray_scene scene;
} posed;

static void pose(const light_case *c, posed *out)
{
    *out = (posed){.memory = lw_memory_standard(), .place = case_place(c->sky)};
    const lw_builtin *text = lw_builtin_find(c->cut);
    assert_non_null(text);
    assert_int_equal(lw_cut_read(&out->memory, text->text, text->length, &out->cut, NULL), LW_OK);
    assert_int_equal(lw_cut_solve(&out->memory, &out->cut, NULL, &out->stone, NULL), LW_OK);
    assert_int_equal(lw_optic_solid_make(&out->memory, &out->stone.solid, &out->solid), LW_OK);
    out->options = lw_light_defaults(c->index);
    out->options.absorption = c->absorption;
    out->options.tilt_deg = c->tilt_deg;
    out->options.turn_deg = c->turn_deg;
    out->options.head_deg = -1.0;
    out->options.place = &out->place;
    out->options.unpolarised = true;
    out->options.most_surfaces = povray_surfaces(POVRAY_LEVELS);
    out->around = lw_light_surroundings(&out->options);
    assert_int_equal(out->around.patch_count, out->place.patch_count);
    out->scene = (povray_scene){.solid = &out->solid,
                                .index = c->index,
                                .absorption = c->absorption,
                                .surroundings = &out->around,
                                .levels = POVRAY_LEVELS,
                                .bailout = BAILOUT};
}

static void put_away(posed *p)
{
    lw_optic_solid_destroy(&p->solid);
    lw_stone_destroy(&p->stone);
    lw_cut_destroy(&p->cut);
}

/* Renders one form, holds it against ours and says what came out. */
static comparison held(const posed *p, povray_form form, const own_picture *ours)
{
    povray_scene scene = p->scene;
    scene.form = form;
    double *theirs = malloc(sizeof *theirs * (size_t)ours->pixels * (size_t)ours->pixels);
    assert_non_null(theirs);
    povray_time spent;
    assert_true(povray_render(&scene, theirs, &spent));
    double brightest = povray_full_scale(&scene) * POVRAY_BRIGHTEST;
    comparison c = compare_pictures(ours, theirs, brightest, PIXEL_WITHIN);
    print_message("  %-6s %3d^2: mean %.6f, ours %.6f (%+.1e); %4.1f %% of %ld pixels compared, "
                  "largest %.1e, rms %.1e; of all %ld off; %.1f s\n",
                  form == POVRAY_MESH ? "mesh" : "planes", ours->pixels, c.theirs, c.ours,
                  c.theirs / c.ours - 1.0, 100.0 * (double)c.compared / (double)c.face, c.face,
                  c.largest, c.rms, c.beyond_unsteady, spent.wall_s);
    free(theirs);
    assert_near(c.theirs / c.ours, 1.0, MEAN_WITHIN);
    assert_true(c.largest <= PIXEL_WITHIN && c.rms <= RMS_WITHIN);
    assert_true(c.compared > ours->pixels && c.beyond_unsteady <= c.face / 200);
    return c;
}

/* That both see the same facet at the same place: but for pixels whose middle lies on an edge. */
static void same_facets(const posed *p, const own_picture *ours)
{
    povray_scene scene = p->scene;
    scene.form = POVRAY_FACETS;
    double *theirs = malloc(sizeof *theirs * (size_t)ours->pixels * (size_t)ours->pixels);
    assert_non_null(theirs);
    assert_true(povray_render(&scene, theirs, NULL));
    assert_true(compare_facets(ours, theirs) <= 2);
    free(theirs);
}

/* A sum over a grid of n x n points misses of the mean of a picture of edges about n^-1.5 of its
 * contrast: 1e-3 at 320 is what was asked for, and twice what is seen. */
static double grid_within(int pixels)
{
    return 1e-3 * pow(320.0 / pixels, 1.5);
}

static void hold_case(const light_case *c, int planes_pixels, int mesh_pixels)
{
    posed p;
    pose(c, &p);
    print_message("%s, %s (%.3f, absorption %.1f), %s, tilt %.0f toward %.0f\n", c->cut,
                  c->material, c->index, c->absorption, case_sky_text(c->sky), c->tilt_deg,
                  c->turn_deg);
    lw_screen screen = lw_screen_for(p.around.eye, c->turn_deg);
    p.scene.view = povray_view_of(&p.solid, screen, planes_pixels);
    own_picture ours = own_picture_of(&p.solid, &p.options, &p.scene.view);
    same_facets(&p, &ours);
    held(&p, POVRAY_PLANES, &ours);
    own_picture_destroy(&ours);
    p.scene.view.pixels = mesh_pixels;
    ours = own_picture_of(&p.solid, &p.options, &p.scene.view);
    comparison mesh = held(&p, POVRAY_MESH, &ours);
    own_picture_destroy(&ours);
    lw_light_measures beams;
    assert_int_equal(lw_light_measure(&p.memory, &p.stone.solid, &p.options, &beams), LW_OK);
    double exact = beams.brightness + beams.glare;
    print_message("  beams %.6f (%+.1e)\n", exact, mesh.theirs / exact - 1.0);
    assert_near(mesh.theirs / exact, 1.0, grid_within(mesh_pixels));
    put_away(&p);
}

static void stones(void **state)
{
    (void)state;
    bool all = getenv("LW_LONG") != NULL;
    int held_up = 0;
    for (int i = 0; i < light_case_count; i++) {
        bool heavy = light_cases[i].index > 2.0;
        if (all)
            hold_case(&light_cases[i], heavy ? 160 : 240, heavy ? 320 : 400);
        else if (light_cases[i].quick)
            hold_case(&light_cases[i], heavy ? 64 : 100, heavy ? 160 : 320);
        held_up += all || light_cases[i].quick;
    }
    print_message("%d cases\n", held_up);
    assert_true(held_up >= (all ? 12 : 4));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plate),  cmocka_unit_test(plate_that_absorbs),
        cmocka_unit_test(roof),   cmocka_unit_test(levels_are_surfaces),
        cmocka_unit_test(stones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
