#include "exit_rays.h"

#include "geom/angle.h"
#include "geom/stones.h"
#include "light/path.h"

#include <stdlib.h>

void exit_stone_make(const lw_plane *planes, int count, exit_stone *out)
{
    lw_memory memory = lw_memory_standard();
    if (lw_solid_new(&memory, count, &out->workshop) != LW_OK ||
        lw_solid_build(out->workshop, 4.0, planes, count) != LW_OK)
        abort();
    lw_solid_extract(out->workshop, &out->polyhedron);
    if (lw_optic_solid_make(&memory, &out->polyhedron, &out->optic) != LW_OK)
        abort();
    lw_symmetry symmetry = lw_symmetry_of_solid(&out->optic);
    if (lw_wide_solid_make(&memory, &out->optic, &symmetry, &out->wide) != LW_OK)
        abort();
}

void exit_stone_destroy(exit_stone *stone)
{
    lw_memory memory = lw_memory_standard();
    lw_wide_solid_destroy(&memory, &stone->wide);
    lw_optic_solid_destroy(&stone->optic);
    lw_solid_destroy(stone->workshop);
}

static lw_vec3 anywhere(stone_random *random)
{
    double x = random_share(random), y = random_share(random), z = random_share(random);
    return (lw_vec3){x - 0.5, y - 0.5, z - 0.5};
}

void exit_rays_make(const exit_stone *stone, exit_rays *out)
{
    stone_random random = {7};
    lw_optics diamond = {.index = 2.417};
    const lw_optic_solid *solid = &stone->optic;
    for (int i = 0; i < EXIT_RAYS;) {
        lw_vec3 to = random_direction(&random);
        lw_vec3 from = lw_vec3_scale(to, -4.0 * solid->half_extent);
        from = lw_vec3_add(from, lw_vec3_scale(anywhere(&random), solid->half_extent));
        lw_path path;
        lw_leaving part;
        if (!lw_path_enter(solid, &diamond, lw_vec3_add(from, solid->middle), to, &path, &part))
            continue;
        for (int n = 1 + random_below(&random, 20); n > 0; n--)
            lw_path_next(solid, &diamond, &path, &part);
        lw_vec3 at = lw_vec3_sub(path.at, stone->wide.middle);
        const double numbers[6] = {
            at.x, at.y, at.z, path.direction.x, path.direction.y, path.direction.z};
        for (int k = 0; k < 6; k++)
            out->part[k][i] = (float)numbers[k];
        i++;
    }
}

int exit_tiers(int count, lw_plane planes[EXIT_MOST_FACETS])
{
    int tiers = (count - 2) / 16, n = 0;
    planes[n++] = (lw_plane){{0, 0, 1}, 0.7};
    planes[n++] = (lw_plane){{0, 0, -1}, 0.9};
    for (int t = 0; t < tiers; t++) {
        lw_sincos e = lw_sincos_deg(45.0 + 110.0 * (t + 0.5) / tiers);
        for (int i = 0; i < 16; i++) {
            lw_sincos a = lw_sincos_share(i + (t % 2 == 0 ? 0.0 : 0.5), 16.0);
            planes[n++] = (lw_plane){{e.sin * a.cos, e.sin * a.sin, e.cos}, 1.0};
        }
    }
    return n;
}
