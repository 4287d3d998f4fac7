#include "rough/rough.h"

#include <assert.h>
#include <string.h>

/* Half of the start cube's edge: far enough out that a closed rough touches none of it. */
static double start_extent(const lw_rough_face *faces, int count)
{
    double farthest = 0.0;
    for (int i = 0; i < count; i++) {
        farthest = fmax(farthest, fabs(faces[i].plane.distance));
    }
    return 8.0 * farthest;
}

static double vertex_span(const lw_polyhedron *solid)
{
    double farthest = 0.0;
    for (int i = 0; i < solid->vertex_count; i++) {
        farthest = fmax(farthest, lw_vec3_length(solid->vertices[i]));
    }
    return 2.0 * farthest;
}

/* Cuts every face from a cube and keeps what is left in rough->solid. */
static lw_status build_solid(lw_rough *rough)
{
    double extent = start_extent(rough->faces, rough->face_count);
    if (!(extent > 0.0)) {
        return LW_EMPTY;
    }
    lw_solid *workshop = NULL;
    lw_status status = lw_solid_new(&rough->memory, rough->face_count, &workshop);
    if (status != LW_OK) {
        return status;
    }
    lw_solid_start(workshop, extent);
    for (int i = 0; i < rough->face_count && status == LW_OK; i++) {
        lw_cut_effect effect = LW_CUT_MISSED;
        status = lw_solid_cut(workshop, rough->faces[i].plane, &effect);
        if (status == LW_OK && effect == LW_CUT_EMPTIED) {
            status = LW_EMPTY;
        }
    }
    if (status == LW_OK && !lw_solid_is_closed(workshop)) {
        status = LW_NOT_CLOSED;
    }
    if (status == LW_OK) {
        lw_polyhedron view;
        lw_solid_extract(workshop, &view);
        status = lw_polyhedron_copy(&rough->memory, &view, &rough->solid);
    }
    lw_solid_destroy(workshop);
    return status;
}

lw_status lw_rough_make(const lw_memory *memory, const lw_rough_face *faces, int count,
                        lw_rough *out)
{
    assert(count > 0);
    if (count > LW_ROUGH_MOST_FACES) {
        return LW_TOO_LARGE;
    }
    lw_rough rough = {.memory = *memory, .face_count = count};
    void *block = NULL;
    lw_status status = lw_memory_new(memory, (size_t)count, sizeof *faces, &block);
    if (status != LW_OK) {
        return status;
    }
    rough.faces = block;
    memcpy(rough.faces, faces, (size_t)count * sizeof *faces);
    status = build_solid(&rough);
    if (status != LW_OK) {
        lw_rough_destroy(&rough);
        return status;
    }
    lw_mass mass;
    lw_polyhedron_mass(&rough.solid, &mass);
    rough.span_mm = vertex_span(&rough.solid);
    rough.volume_mm3 = mass.volume;
    rough.whole_mm3 = mass.volume;
    *out = rough;
    return LW_OK;
}

void lw_rough_destroy(lw_rough *rough)
{
    if (rough->faces == NULL) {
        return;
    }
    lw_polyhedron_destroy(&rough->memory, &rough->solid);
    lw_memory_free(&rough->memory, rough->faces, (size_t)rough->face_count, sizeof *rough->faces);
    *rough = (lw_rough){0};
}

double lw_rough_weight_ct(const lw_rough *rough, double specific_gravity)
{
    return rough->whole_mm3 * specific_gravity / 200.0;
}
