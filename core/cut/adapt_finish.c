/* From a changed cut to one that is read, solved and compared with what was promised. */
#include "cut/adapt_parts.h"

#include "cut/read.h"
#include "cut/write.h"
#include "geom/tolerance.h"

#include <math.h>

void lw_adapted_destroy(lw_adapted *adapted)
{
    lw_stone_destroy(&adapted->stone);
    lw_cut_destroy(&adapted->cut);
    *adapted = (lw_adapted){0};
}

static double plane_difference(lw_plane a, lw_plane b)
{
    double turned = lw_vec3_length(lw_vec3_sub(a.normal, b.normal));
    return fmax(turned, fabs(a.distance - b.distance));
}

double lw_facet_off(const lw_stone *stone, const lw_facet *expected, int i)
{
    bool has_face = stone->solid.face_start[i + 1] > stone->solid.face_start[i];
    bool gone = stone->facets[i].temporary && !has_face;
    return gone ? 0.0 : plane_difference(stone->facets[i].plane, expected[i].plane);
}

/* The most that a facet is off; INFINITY where there are other facets. */
static double difference(const lw_stone *stone, const lw_facet *expected, int expected_count)
{
    double most = 0.0;
    if (stone->facet_count != expected_count) {
        return INFINITY;
    }
    for (int i = 0; i < expected_count; i++) {
        most = fmax(most, lw_facet_off(stone, expected, i));
    }
    return most;
}

/* Solves with the width that the first stone had, where it had a size. */
static lw_status solve_alike(const lw_memory *memory, const lw_cut *cut, const lw_stone *source,
                             lw_stone *out, lw_problem *problem)
{
    lw_solve_options options = {0};
    if (source->unit_mm > 0.0) {
        options.size_kind = LW_SIZE_WIDTH_MM;
        options.size = source->measures.width * source->unit_mm;
    }
    return lw_cut_solve(memory, cut, &options, out, problem);
}

lw_status lw_edit_finish(lw_edit *edit, const lw_stone *source, const lw_facet *expected,
                         int expected_count, lw_adapted *out, lw_problem *problem)
{
    const lw_memory memory = edit->cut.arena.memory;
    lw_adapted adapted = {0};
    lw_edit again;
    if (edit->out_of_memory) {
        return LW_NO_MEMORY;
    }
    lw_status status = lw_edit_begin(&memory, &edit->cut, &again, problem);
    if (status != LW_OK) {
        return status;
    }
    adapted.cut = again.cut;
    status = solve_alike(&memory, &adapted.cut, source, &adapted.stone, problem);
    if (status != LW_OK) {
        lw_cut_destroy(&adapted.cut);
        return status;
    }
    int notes = adapted.cut.note_count;
    adapted.note = edit->noted ? adapted.cut.notes[notes - 1] : "";
    adapted.deviation =
        expected != NULL ? difference(&adapted.stone, expected, expected_count) : 0.0;
    *out = adapted;
    return LW_OK;
}
