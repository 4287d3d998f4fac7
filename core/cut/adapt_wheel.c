/* The same stone, its cut stated for another wheel. */
#include "cut/adapt_parts.h"

#include "cut/teeth.h"
#include "geom/angle.h"
#include "geom/tolerance.h"

#include <math.h>

typedef struct wheel_job {
    lw_edit *edit;
    const lw_cut *cut;     /* as it was */
    const lw_stone *stone; /* as it was */
    int to;
    bool in_figures;        /* every step says angle, teeth and distance */
    double offset;          /* of the text's teeth, in teeth of the new wheel */
    lw_tooth_image *images; /* scratch: a step's teeth */
    lw_step *steps;
    int *of; /* the old step of each new one */
    int step_count;
    lw_facet *facets; /* expected, in the order of the new steps */
    int facet_count;
} wheel_job;

static double moved_tooth(const wheel_job *j, double tooth)
{
    double moved = lw_wheel_tooth(tooth, j->cut->wheel, j->to) + j->offset;
    double whole = floor(moved + 0.5);
    moved = fabs(moved - whole) <= LW_SAME_TOOTH ? whole : moved;
    return lw_written_tooth(lw_tooth_wrap(moved, j->to), j->to);
}

static void move_ref(const void *context, lw_facet_ref *ref)
{
    if (ref->relation == LW_RELATION_TOOTH) {
        ref->tooth = moved_tooth(context, ref->tooth);
    }
}

/* For steps that cut what were mirror images. */
static void move_mirrored_ref(const void *context, lw_facet_ref *ref)
{
    const wheel_job *j = context;
    lw_ref_swap(NULL, ref);
    if (ref->relation == LW_RELATION_TOOTH) {
        ref->tooth = moved_tooth(j, lw_tooth_wrap(-ref->tooth, j->cut->wheel));
    }
}

/* The old facet where it stands now. */
static lw_facet moved_facet(const wheel_job *j, int at)
{
    lw_facet facet = j->stone->facets[at];
    double offset = j->cut->left_handed ? -j->offset : j->offset;
    facet.tooth = lw_tooth_wrap(lw_wheel_tooth(facet.tooth, j->cut->wheel, j->to) + offset, j->to);
    if (offset != 0.0) {
        lw_sincos turn = lw_sincos_turns(offset / (double)j->to);
        lw_vec3 n = facet.plane.normal;
        facet.plane.normal.x = n.x * turn.cos - n.y * turn.sin;
        facet.plane.normal.y = n.x * turn.sin + n.y * turn.cos;
    }
    return facet;
}

/* Which of a step's teeth a new step takes. */
typedef enum share_of_tier { ALL_TEETH, PLAIN_TEETH, MIRRORED_TEETH } share_of_tier;

static bool takes(share_of_tier share, const lw_tooth_image *image)
{
    return share == ALL_TEETH || image->mirrored == (share == MIRRORED_TEETH);
}

/* Adds a step for these of the teeth; as a list unless the step can stay as it is written. */
static void add_step(wheel_job *j, int at, share_of_tier share, bool as_list)
{
    lw_tooth_image *images = j->images;
    lw_step step = j->cut->steps[at];
    int count = lw_step_teeth(j->cut, &step, images, LW_CUT_MOST_FACETS);
    int most = count > step.tooth_count ? count : step.tooth_count;
    double *teeth = lw_edit_new(j->edit, (size_t)most, sizeof *teeth);
    int written = 0;
    int first = j->facet_count;
    for (int i = 0; i < count && teeth != NULL; i++) {
        if (takes(share, &images[i])) {
            teeth[written++] = moved_tooth(j, images[i].tooth);
            j->facets[j->facet_count++] = moved_facet(j, j->stone->tiers[at].first + i);
        }
    }
    if (step.tooth_count > 0 && teeth != NULL) {
        step.teeth = teeth;
        step.tooth_count = as_list || step.listed ? written : 1;
        step.listed = as_list || step.listed;
        /* The start is the first of the images, which are counted upward from it. */
    }
    if (j->in_figures && j->facet_count > first) {
        lw_edit_explicit_step(j->edit, &step, &j->facets[first], j->facet_count - first);
    }
    lw_edit_change_refs(j->edit, &step, share == MIRRORED_TEETH ? move_mirrored_ref : move_ref, j);
    j->of[j->step_count] = at;
    j->steps[j->step_count++] = step;
}

static bool is_mirrored(const lw_cut *cut, const lw_step *step)
{
    return step->tooth_count > 0 && !step->listed && !step->tooth_free &&
           (step->own_symmetry ? step->mirror : cut->mirror);
}

static void move_step(wheel_job *j, int at)
{
    const lw_step *step = &j->cut->steps[at];
    if (step->kind != LW_STEP_FACETS) {
        j->of[j->step_count] = at;
        j->steps[j->step_count++] = *step;
        return;
    }
    bool as_list = j->offset != 0.0 && is_mirrored(j->cut, step);
    /* Depths of their own, from facets named left and right, which the mirror changes over. */
    if (as_list && step->each && step->rules[0].kind != LW_RULE_DISTANCE) {
        add_step(j, at, PLAIN_TEETH, true);
        add_step(j, at, MIRRORED_TEETH, true);
    } else {
        add_step(j, at, ALL_TEETH, as_list);
    }
}

static lw_note note_of(const lw_wheel_fit *fit, int from, double offset)
{
    lw_note note = {.length = 0};
    lw_note_words(&note, "Stated for a wheel of ");
    lw_note_number(&note, fit->wheel);
    lw_note_words(&note, " teeth, from one of ");
    lw_note_number(&note, from);
    if (offset != 0.0) {
        lw_note_words(&note, ", the stone turned by ");
        lw_note_number(&note, offset);
        lw_note_words(&note, fabs(offset) < 1.0 ? " of a tooth" : " teeth");
    }
    if (!fit->whole) {
        lw_note_words(&note, "; fractions of a tooth are the cheater's, ");
        lw_note_number(&note, fit->greatest_cheater_deg);
        lw_note_words(&note, " deg at most");
    }
    lw_note_words(&note, ".");
    return note;
}

/* Every step moved; memory that runs out is the edit's to tell. */
static void move_all(wheel_job *j)
{
    size_t steps = 2 * (size_t)j->cut->step_count;
    j->images = lw_edit_new(j->edit, LW_CUT_MOST_FACETS, sizeof *j->images);
    j->steps = lw_edit_new(j->edit, steps, sizeof *j->steps);
    j->of = lw_edit_new(j->edit, steps, sizeof *j->of);
    j->facets = lw_edit_new(j->edit, (size_t)j->stone->facet_count, sizeof *j->facets);
    if (j->edit->out_of_memory) {
        return;
    }
    for (int i = 0; i < j->cut->step_count && !j->edit->out_of_memory; i++) {
        move_step(j, i);
    }
    lw_edit_replace_steps(j->edit, j->steps, j->of, j->step_count);
    j->edit->cut.wheel = j->to;
    j->edit->cut.mirror = j->edit->cut.mirror && j->offset == 0.0;
}

/* One way to write the cut: with its rules, or all in figures. */
static lw_status write_cut(const lw_memory *memory, wheel_job job, const lw_wheel_fit *fit,
                           lw_adapted *out, lw_problem *problem)
{
    lw_edit edit;
    lw_status status = lw_edit_begin(memory, job.cut, &edit, problem);
    if (status != LW_OK) {
        return status;
    }
    job.edit = &edit;
    move_all(&job);
    if (!edit.out_of_memory) {
        lw_edit_drop_unused(&edit);
        lw_edit_note(&edit, note_of(fit, job.cut->wheel, fit->offset).text);
    }
    status = lw_edit_finish(&edit, job.stone, job.facets, job.facet_count, out, problem);
    lw_edit_destroy(&edit);
    return status;
}

lw_status lw_adapt_to_wheel(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                            const lw_wheel_fit *fit, lw_adapted *out, lw_problem *problem)
{
    lw_adapted adapted;
    double offset = cut->left_handed ? -fit->offset : fit->offset;
    wheel_job job = {.cut = cut, .stone = stone, .to = fit->wheel, .offset = offset};
    lw_status status = write_cut(memory, job, fit, &adapted, problem);
    if (status == LW_OK && !(adapted.deviation <= LW_MEET_HOLDS)) {
        lw_adapted_destroy(&adapted);
        status = LW_NO_SOLUTION;
    }
    /* Two steps in place of one may cut away each other's points. */
    if (status != LW_OK && status != LW_NO_MEMORY) {
        job.in_figures = true;
        status = write_cut(memory, job, fit, &adapted, problem);
    }
    if (status == LW_OK) {
        adapted.exact = adapted.deviation <= LW_MEET_HOLDS;
        *out = adapted;
    }
    return status;
}
