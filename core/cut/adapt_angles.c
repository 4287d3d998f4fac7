/* A cut with other main angles: every other angle of the side by the tangent ratio.
 *
 * Scaling a side along the axis by k sends tan e to k tan e and keeps every meet, so rules that
 * name meets, lines and levels stay as they are. What is said along the axis (a point's depth, a
 * level facet's height) is scaled, a distance is worked out again, and an edge's length is measured
 * on the scaled stone. Where the text that comes of it does not solve to the scaled stone after
 * all, every step is put in figures. */
#include "cut/adapt_parts.h"

#include "cut/adapt_side.h"
#include "geom/tolerance.h"

#include <math.h>

/* What a side is to become; false where nothing changes. */
static lw_status plan_side(const lw_cut *cut, const lw_stone *stone, lw_side side, double new_deg,
                           lw_side_change *out, lw_problem *problem)
{
    *out = (lw_side_change){.side = side, .main_step = -1, .ratio = 1.0};
    if (new_deg == 0.0) {
        return LW_OK;
    }
    const char *name = side == LW_SIDE_CROWN ? "a crown" : "a pavilion";
    if (!(new_deg > LW_SAME_ANGLE_DEG && new_deg < 90.0 - LW_SAME_ANGLE_DEG)) {
        return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, "a main angle out of range",
                              "an angle between 0 and 90 degrees", "");
    }
    int main_step = lw_main_step(cut, stone, side);
    if (main_step < 0) {
        return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, name, "one with slanting facets",
                              "there is no angle to change");
    }
    if (fabs(stone->tiers[main_step].angle_deg - new_deg) <= LW_SAME_ANGLE_DEG) {
        return LW_OK;
    }
    out->main_step = main_step;
    out->old_deg = stone->tiers[main_step].angle_deg;
    out->new_deg = new_deg;
    out->ratio = lw_tangent_ratio(out->old_deg, new_deg);
    return LW_OK;
}

static void note_side(lw_note *note, const lw_cut *cut, const lw_side_change *change,
                      const char *start)
{
    if (change->main_step < 0) {
        return;
    }
    lw_note_words(note, note->length == 0 ? start : ", ");
    lw_note_words(note, change->side == LW_SIDE_CROWN ? "crown " : "pavilion ");
    lw_note_words(note, cut->steps[change->main_step].name);
    lw_note_words(note, " from ");
    lw_note_number(note, change->old_deg);
    lw_note_words(note, " to ");
    lw_note_number(note, change->new_deg);
    lw_note_words(note, " deg");
}

static lw_note note_of(const lw_angle_job *job)
{
    lw_note note = {.length = 0};
    note_side(&note, job->cut, &job->sides[0], "Angles changed: ");
    note_side(&note, job->cut, &job->sides[1], "Angles changed: ");
    lw_note_words(&note, job->image != NULL
                             ? ", the rest of the side by the tangent ratio."
                             : ", the rest of the side by the tangent ratio; depths solved again.");
    return note;
}

/* One way to write the cut: with its rules, or all in figures. */
static lw_status write_cut(const lw_memory *memory, const lw_angle_job *job, bool in_figures,
                           lw_adapted *out, lw_problem *problem)
{
    lw_edit edit;
    lw_status status = lw_edit_begin(memory, job->cut, &edit, problem);
    if (status != LW_OK) {
        return status;
    }
    for (int i = 0; i < edit.cut.step_count && in_figures; i++) {
        const lw_tier *tier = &job->stone->tiers[i];
        if (tier->count > 0) {
            lw_edit_explicit_step(&edit, &edit.steps[i], &job->image->facets[tier->first],
                                  tier->count);
        }
    }
    for (int s = 0; s < 2 && !in_figures && status == LW_OK; s++) {
        status = lw_edit_side(&edit, job, &job->sides[s], problem);
    }
    lw_edit_drop_unused(&edit);
    if (job->sides[0].main_step >= 0 || job->sides[1].main_step >= 0) {
        lw_edit_note(&edit, note_of(job).text);
    }
    if (status == LW_OK) {
        status = lw_edit_finish(&edit, job->stone, job->image != NULL ? job->image->facets : NULL,
                                job->stone->facet_count, out, problem);
    }
    lw_edit_destroy(&edit);
    return status;
}

static lw_status adapt(const lw_memory *memory, const lw_angle_job *job, lw_adapted *out,
                       lw_problem *problem)
{
    lw_adapted adapted;
    lw_status status = write_cut(memory, job, false, &adapted, problem);
    if (job->image == NULL || status == LW_NO_MEMORY) {
        if (status == LW_OK) {
            *out = adapted;
        }
        return status;
    }
    if (status == LW_OK && !(adapted.deviation <= LW_MEET_HOLDS)) {
        lw_adapted_destroy(&adapted);
        status = LW_NO_SOLUTION;
    }
    if (status != LW_OK) {
        status = write_cut(memory, job, true, &adapted, problem);
    }
    if (status == LW_OK) {
        adapted.exact = adapted.deviation <= LW_MEET_HOLDS;
        *out = adapted;
    }
    return status;
}

/* The facets scaled in the old stone's frame, and the whole image where there is one. */
static lw_status scale(const lw_memory *memory, lw_angle_job *job, lw_facet **facets,
                       lw_stone *image)
{
    lw_girdle_anchor(job->cut, job->stone, &job->levels);
    lw_status status = lw_facets_copy(memory, job->stone, facets);
    if (status != LW_OK) {
        return status;
    }
    int count = job->stone->facet_count;
    lw_facets_scale_side(*facets, count, -1.0, job->sides[0].ratio, job->levels.anchor_low);
    lw_facets_scale_side(*facets, count, 1.0, job->sides[1].ratio, job->levels.anchor_high);
    job->scaled = *facets;
    status = lw_stone_scale_sides(memory, job->cut, job->stone, job->sides[0].ratio,
                                  job->sides[1].ratio, image);
    job->image = status == LW_OK ? image : NULL;
    return status == LW_UNSUPPORTED ? LW_OK : status;
}

lw_status lw_adapt_to_angles(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                             const lw_adapt_angles *angles, lw_adapted *out, lw_problem *problem)
{
    lw_angle_job job = {.cut = cut, .stone = stone};
    lw_facet *facets = NULL;
    lw_stone image = {0};
    lw_status status =
        plan_side(cut, stone, LW_SIDE_PAVILION, angles->pavilion_deg, &job.sides[0], problem);
    if (status == LW_OK) {
        status = plan_side(cut, stone, LW_SIDE_CROWN, angles->crown_deg, &job.sides[1], problem);
    }
    if (status == LW_OK) {
        status = scale(memory, &job, &facets, &image);
    }
    if (status == LW_OK) {
        status = adapt(memory, &job, out, problem);
    }
    lw_memory_free(memory, facets, (size_t)stone->facet_count, sizeof *facets);
    if (image.facets != NULL) {
        lw_stone_destroy(&image);
    }
    return status;
}
