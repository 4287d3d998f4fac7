#include "povray/scene.h"

/* ---- where from --------------------------------------------------------- */

povray_view povray_view_of(const lw_optic_solid *solid, lw_screen screen, int pixels)
{
    double low[2] = {HUGE_VAL, HUGE_VAL}, high[2] = {-HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < solid->corner_count; i++) {
        double at[2] = {lw_vec3_dot(solid->corners[i], screen.across),
                        lw_vec3_dot(solid->corners[i], screen.up)};
        for (int k = 0; k < 2; k++) {
            low[k] = fmin(low[k], at[k]);
            high[k] = fmax(high[k], at[k]);
        }
    }
    return (povray_view){.screen = screen,
                         .middle_a = 0.5 * (low[0] + high[0]),
                         .middle_b = 0.5 * (low[1] + high[1]),
                         .half = 0.505 * fmax(high[0] - low[0], high[1] - low[1]),
                         .before =
                             lw_vec3_dot(solid->middle, screen.eye) + 3.0 * solid->half_extent,
                         .pixels = pixels};
}

static lw_vec3 on_screen(const povray_view *view, double a, double b)
{
    lw_vec3 from = lw_vec3_scale(view->screen.eye, view->before);
    from = lw_vec3_add(from, lw_vec3_scale(view->screen.across, view->middle_a + a));
    return lw_vec3_add(from, lw_vec3_scale(view->screen.up, view->middle_b + b));
}

lw_vec3 povray_ray(const povray_view *view, double column, double row)
{
    double a = view->half * (2.0 * column / view->pixels - 1.0);
    double b = view->half * (1.0 - 2.0 * row / view->pixels);
    return on_screen(view, a, b);
}

/* ---- what is around ----------------------------------------------------- */

double povray_full_scale(const povray_scene *scene)
{
    if (scene->form == POVRAY_FACETS)
        return 1.0;
    double most = scene->surroundings->head_radiance;
    for (int i = 0; i < scene->surroundings->patch_count; i++) {
        const lw_patch *patch = &scene->surroundings->patches[i];
        most = fmax(most, patch->even + fabs(patch->slope));
    }
    return most / POVRAY_BRIGHTEST;
}

/* v . (x, y, z) */
static void write_dot(FILE *file, lw_vec3 v)
{
    fprintf(file, "((%.17g)*x+(%.17g)*y+(%.17g)*z)", v.x, v.y, v.z);
}

/* What is >= 0 inside a patch and < 0 outside. */
static void write_inside(FILE *file, const lw_patch *patch)
{
    if (patch->shape == LW_PATCH_CONE) {
        write_dot(file, patch->toward);
        fprintf(file, "-(%.17g)", patch->least_cos);
        return;
    }
    fprintf(file, "min((%.17g)*", patch->tan_width);
    write_dot(file, patch->toward);
    fprintf(file, "-abs");
    write_dot(file, patch->right);
    fprintf(file, ",(%.17g)*", patch->tan_tall);
    write_dot(file, patch->toward);
    fprintf(file, "-abs");
    write_dot(file, patch->above);
    fprintf(file, ")");
}

/* Layer upon layer: L0 is dark, each further one shows what it covers and else the one before. */
static void write_sky(FILE *file, const lw_surroundings *around, double scale)
{
    fprintf(file, "#declare L0 = function(x,y,z) { 0 }\n");
    for (int i = 0; i < around->patch_count; i++) {
        const lw_patch *patch = &around->patches[i];
        fprintf(file, "#declare L%d = function(x,y,z) { select(", i + 1);
        write_inside(file, patch);
        fprintf(file, ", L%d(x,y,z), max(0, %.17g+(%.17g)*", i, patch->even / scale,
                patch->slope / scale);
        write_dot(file, around->zenith);
        fprintf(file, ")) }\n");
    }
    fprintf(file, "#declare Sky = function(x,y,z) { select(");
    write_dot(file, around->eye);
    fprintf(file, "-(%.17g), L%d(x,y,z), %.17g) }\n", around->cos_head, around->patch_count,
            around->head_radiance / scale);
    fprintf(file, "sky_sphere { pigment { function { Sky(x,y,z) } "
                  "colour_map { [0 rgb 0] [1 rgb 1] } } }\n");
}

/* ---- the stone ---------------------------------------------------------- */

static void write_vec3(FILE *file, lw_vec3 v, double scale)
{
    fprintf(file, "<%.17g,%.17g,%.17g>", v.x * scale, v.y * scale, v.z * scale);
}

int povray_surfaces(int levels)
{
    return levels - 2;
}

double povray_facet_level(int facet)
{
    return (facet + 1) / 256.0;
}

static void write_planes(FILE *file, const lw_optic_solid *solid, double scale, bool shining)
{
    fprintf(file, "intersection {\n");
    for (int i = 0; i < solid->facet_count; i++) {
        fprintf(file, "  plane { ");
        write_vec3(file, lw_optic_solid_normal(solid, i), 1.0);
        fprintf(file, ", %.17g", solid->distance[i] * scale);
        if (shining)
            fprintf(file, " pigment { rgb %.17g } finish { emission 1 ambient 0 diffuse 0 }",
                    povray_facet_level(i));
        fprintf(file, " }\n");
    }
}

static void write_triangles(FILE *file, const lw_optic_solid *solid, double scale)
{
    fprintf(file, "mesh {\n");
    for (int i = 0; i < solid->facet_count; i++) {
        const int *ring = solid->corner + solid->ring_start[i];
        int sides = solid->ring_start[i + 1] - solid->ring_start[i];
        for (int k = 1; k + 1 < sides; k++) {
            fprintf(file, "  triangle { ");
            write_vec3(file, solid->corners[ring[0]], scale);
            fprintf(file, ", ");
            write_vec3(file, solid->corners[ring[k]], scale);
            fprintf(file, ", ");
            write_vec3(file, solid->corners[ring[k + 1]], scale);
            fprintf(file, " }\n");
        }
    }
}

static void write_matter(FILE *file, const povray_scene *scene, double scale)
{
    fprintf(file,
            "  pigment { rgbt 1 }\n"
            "  finish { ambient 0 emission 0 diffuse 0 reflection { 0, 1 fresnel on } "
            "conserve_energy }\n"
            "  interior { ior %.17g%s",
            scene->index, scene->absorption > 0.0 ? " media { absorption " : " }\n");
    if (scene->absorption > 0.0)
        fprintf(file, "%.17g } }\n  hollow\n", scene->absorption / scale);
}

/* ---- all of it ---------------------------------------------------------- */

static void write_camera(FILE *file, const povray_view *view, double scale)
{
    fprintf(file, "camera { orthographic location ");
    write_vec3(file, on_screen(view, 0.0, 0.0), scale);
    fprintf(file, " direction ");
    write_vec3(file, view->screen.eye, -1.0);
    fprintf(file, " right ");
    write_vec3(file, view->screen.across, 2.0 * view->half * scale);
    fprintf(file, " up ");
    write_vec3(file, view->screen.up, 2.0 * view->half * scale);
    fprintf(file, " }\n");
}

void povray_write(FILE *file, const povray_scene *scene)
{
    double size = scene->form == POVRAY_MESH ? POVRAY_MESH_SIZE : POVRAY_PLANES_SIZE;
    double scale = size / scene->solid->half_extent;
    bool shining = scene->form == POVRAY_FACETS;
    fprintf(file,
            "#version 3.7;\nglobal_settings { assumed_gamma 1.0 ambient_light 0 "
            "max_trace_level %d adc_bailout %.17g }\n",
            scene->levels, scene->bailout);
    write_camera(file, &scene->view, scale);
    if (!shining)
        write_sky(file, scene->surroundings, povray_full_scale(scene));
    if (scene->form == POVRAY_MESH)
        write_triangles(file, scene->solid, scale);
    else
        write_planes(file, scene->solid, scale, shining);
    if (!shining)
        write_matter(file, scene, scale);
    fprintf(file, "}\n");
}
