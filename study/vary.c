#include "vary.h"

#include "cut/check.h"
#include "cut/read.h"
#include "cut/write.h"
#include "geom/angle.h"
#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

/* ---- the start ---- */

static lw_status count_faults(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                              int *out)
{
    lw_check check;
    lw_check_options options = {0};
    lw_status status = lw_cut_check(memory, cut, stone, &options, &check);
    if (status != LW_OK) {
        return status;
    }
    int faults = 0;
    for (int i = 0; i < check.finding_count; i++) {
        faults += check.findings[i].fault ? 1 : 0;
    }
    lw_check_destroy(&check);
    *out = faults;
    return LW_OK;
}

lw_status lw_vary_make(const lw_memory *memory, const lw_cut *cut, const lw_solve_options *options,
                       lw_vary *out, lw_problem *problem)
{
    lw_vary made = {.memory = *memory, .size = *options};
    lw_status status = lw_adapt_settings(memory, cut, options->overrides, options->override_count,
                                         &made.cut, problem);
    made.size.overrides = NULL;
    made.size.override_count = 0;
    if (status == LW_OK) {
        status = lw_cut_solve(memory, &made.cut, &made.size, &made.stone, problem);
    }
    if (status == LW_OK && options->size_kind != LW_SIZE_NONE) {
        made.size.size_kind = LW_SIZE_WIDTH_MM;
        made.size.size = made.stone.measures.width * made.stone.unit_mm;
    }
    if (status == LW_OK) {
        status = count_faults(memory, &made.cut, &made.stone, &made.faults);
    }
    if (status != LW_OK) {
        lw_vary_destroy(&made);
        return status;
    }
    *out = made;
    return LW_OK;
}

void lw_vary_destroy(lw_vary *vary)
{
    lw_stone_destroy(&vary->stone);
    lw_cut_destroy(&vary->cut);
}

double lw_flattest_pavilion_deg(const lw_stone *stone)
{
    double flattest = 90.0;
    double no_area = LW_NO_AREA * stone->measures.width * stone->measures.width;
    for (int i = 0; i < stone->facet_count; i++) {
        const lw_facet *f = &stone->facets[i];
        if (f->side == LW_SIDE_PAVILION && f->angle_deg > LW_SAME_ANGLE_DEG &&
            f->angle_deg < flattest && lw_polyhedron_face_area(&stone->solid, i) > no_area) {
            flattest = f->angle_deg;
        }
    }
    return flattest;
}

/* ---- one stone ---- */

/* The cut with settings and steps as the handles say, sides as they were. Its text is vary->cut's:
 * only the steps are the borrower's own. */
typedef struct borrowed {
    lw_cut cut;
    lw_step *steps;
    lw_expr angles[LW_VARY_MOST];
    lw_override settings[LW_VARY_MOST];
    int setting_count;
    double side_deg[2]; /* pavilion, crown; 0: as they come */
} borrowed;

static lw_status borrow(const lw_vary *vary, const lw_memory *memory, const lw_handle *handles,
                        const double *values, int count, borrowed *out)
{
    void *steps = NULL;
    size_t step_count = (size_t)vary->cut.step_count;
    lw_status status = lw_memory_new(memory, step_count, sizeof(lw_step), &steps);
    if (status != LW_OK) {
        return status;
    }
    *out = (borrowed){.cut = vary->cut, .steps = steps};
    memcpy(out->steps, vary->cut.steps, step_count * sizeof(lw_step));
    out->cut.steps = out->steps;
    for (int i = 0; i < count; i++) {
        const lw_handle *h = &handles[i];
        if (h->kind == LW_HANDLE_SETTING) {
            out->settings[out->setting_count++] =
                (lw_override){.name = vary->cut.settings[h->which].name, .value = values[i]};
        } else if (h->kind == LW_HANDLE_STEP) {
            out->angles[i] =
                (lw_expr){.kind = LW_EXPR_NUMBER, .value = values[i], .unit = LW_UNIT_DEG};
            out->steps[h->which].angle = &out->angles[i];
        } else {
            out->side_deg[h->kind == LW_HANDLE_CROWN] = values[i];
        }
    }
    return LW_OK;
}

static void give_back(const lw_vary *vary, const lw_memory *memory, borrowed *b)
{
    lw_memory_free(memory, b->steps, (size_t)vary->cut.step_count, sizeof(lw_step));
}

static bool is_changed(const lw_handle *handles, const double *values, int count)
{
    for (int i = 0; i < count; i++) {
        bool side = handles[i].kind == LW_HANDLE_PAVILION || handles[i].kind == LW_HANDLE_CROWN;
        if (!side && values[i] != handles[i].start) {
            return true;
        }
    }
    return false;
}

static double side_ratio(const lw_cut *cut, const lw_stone *stone, lw_side side, double deg)
{
    int step = lw_main_step(cut, stone, side);
    if (deg == 0.0 || step < 0 || stone->tiers[step].angle_deg == deg) {
        return 1.0;
    }
    lw_sincos old = lw_sincos_deg(stone->tiers[step].angle_deg);
    lw_sincos new = lw_sincos_deg(deg);
    return new.sin *old.cos / (new.cos *old.sin);
}

/* What fails for reasons of memory is told apart from what has no stone. */
static lw_status no_stone(lw_status status)
{
    return status == LW_OK || status == LW_NO_MEMORY ? status : LW_NO_SOLUTION;
}

static lw_status refuse_faults(const lw_vary *vary, const lw_memory *memory, const lw_cut *cut,
                               const lw_stone *stone)
{
    int faults = 0;
    lw_status status = count_faults(memory, cut, stone, &faults);
    if (status != LW_OK) {
        return no_stone(status);
    }
    return faults > vary->faults ? LW_NO_SOLUTION : LW_OK;
}

/* The sides put to their angles from a solved stone: scaled, or the cut solved again. */
static lw_status set_sides(const lw_vary *vary, const lw_memory *memory, const lw_cut *cut,
                           const lw_stone *stone, const double side_deg[2], lw_stone *out)
{
    double pavilion = side_ratio(cut, stone, LW_SIDE_PAVILION, side_deg[0]);
    double crown = side_ratio(cut, stone, LW_SIDE_CROWN, side_deg[1]);
    lw_status status = lw_stone_scale_sides(memory, cut, stone, pavilion, crown, out);
    if (status != LW_UNSUPPORTED) {
        return no_stone(status);
    }
    lw_adapted made = {0};
    lw_adapt_angles angles = {.pavilion_deg = side_deg[0], .crown_deg = side_deg[1]};
    status = no_stone(lw_adapt_to_angles(memory, cut, stone, &angles, &made, NULL));
    if (status == LW_OK) {
        status = refuse_faults(vary, memory, &made.cut, &made.stone);
    }
    if (status == LW_OK) {
        *out = made.stone;
        made.stone = (lw_stone){0};
    }
    lw_adapted_destroy(&made);
    return status;
}

static lw_status solve_borrowed(const lw_vary *vary, const lw_memory *memory, const borrowed *b,
                                lw_stone *out)
{
    lw_solve_options options = vary->size;
    lw_stone stone;
    options.overrides = b->settings;
    options.override_count = b->setting_count;
    lw_status status = no_stone(lw_cut_solve(memory, &b->cut, &options, &stone, NULL));
    if (status != LW_OK) {
        return status;
    }
    status = refuse_faults(vary, memory, &b->cut, &stone);
    if (status == LW_OK) {
        status = set_sides(vary, memory, &b->cut, &stone, b->side_deg, out);
    }
    lw_stone_destroy(&stone);
    return status;
}

lw_status lw_vary_stone(const lw_vary *vary, const lw_memory *memory, const lw_handle *handles,
                        const double *values, int count, lw_stone *out)
{
    borrowed b;
    lw_status status = borrow(vary, memory, handles, values, count, &b);
    if (status != LW_OK) {
        return status;
    }
    status = is_changed(handles, values, count)
                 ? solve_borrowed(vary, memory, &b, out)
                 : set_sides(vary, memory, &vary->cut, &vary->stone, b.side_deg, out);
    give_back(vary, memory, &b);
    return status;
}

/* ---- the text ---- */

/* The cut written out and read again, so that it stands by itself. */
static lw_status own_copy(const lw_memory *memory, const lw_cut *cut, lw_cut *out,
                          lw_problem *problem)
{
    void *text = NULL;
    size_t length = lw_cut_write(cut, NULL, 0);
    lw_status status = lw_memory_new(memory, length + 1, 1, &text);
    if (status != LW_OK) {
        return status;
    }
    (void)lw_cut_write(cut, text, length + 1);
    status = lw_cut_read(memory, text, length, out, problem);
    lw_memory_free(memory, text, length + 1, 1);
    return status;
}

/* Text and stone with the settings and steps of b, sides as they come. */
static lw_status write_out(const lw_vary *vary, const borrowed *b, lw_adapted *out,
                           lw_problem *problem)
{
    lw_adapted made = {.note = ""};
    lw_cut with_steps;
    lw_status status = own_copy(&vary->memory, &b->cut, &with_steps, problem);
    if (status != LW_OK) {
        return status;
    }
    status = lw_adapt_settings(&vary->memory, &with_steps, b->settings, b->setting_count, &made.cut,
                               problem);
    lw_cut_destroy(&with_steps);
    if (status == LW_OK) {
        status = lw_cut_solve(&vary->memory, &made.cut, &vary->size, &made.stone, problem);
    }
    if (status != LW_OK) {
        lw_adapted_destroy(&made);
        return status;
    }
    *out = made;
    return LW_OK;
}

lw_status lw_vary_cut(const lw_vary *vary, const lw_handle *handles, const double *values,
                      int count, lw_adapted *out, lw_problem *problem)
{
    borrowed b;
    lw_adapted first = {0}, second = {0};
    lw_status status = borrow(vary, &vary->memory, handles, values, count, &b);
    if (status != LW_OK) {
        return status;
    }
    status = write_out(vary, &b, &first, problem);
    give_back(vary, &vary->memory, &b);
    if (status == LW_OK) {
        lw_adapt_angles angles = {.pavilion_deg = b.side_deg[0], .crown_deg = b.side_deg[1]};
        status =
            lw_adapt_to_angles(&vary->memory, &first.cut, &first.stone, &angles, &second, problem);
    }
    lw_adapted_destroy(&first);
    if (status == LW_OK) {
        *out = second;
    }
    return status;
}
