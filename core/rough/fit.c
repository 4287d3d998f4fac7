#include "rough/fit.h"

#include "geom/tolerance.h"
#include "rough/lp4.h"

#include <assert.h>

struct lw_fitter {
    lw_memory memory;
    const lw_rough *rough;
    const lw_fit_shape *shape;
    double margin_mm;
    int row_count; /* one a face, or two with a fixed girdle */
    size_t block_count;
    double *block;             /* all columns below, one allocation */
    double *cx, *cy, *cz;      /* the shape's corners */
    double *h, *x, *y, *z, *b; /* rows of the programme */
    double *loose_h, *loose_b; /* rows of the programme that centres */
};

static bool has_halves(const lw_fit_shape *shape)
{
    return shape->girdle_mm > 0.0;
}

static void lay_out(lw_fitter *fitter)
{
    double *at = fitter->block;
    size_t corners = (size_t)fitter->shape->corner_count, rows = (size_t)fitter->row_count;
    double **corner_columns[] = {&fitter->cx, &fitter->cy, &fitter->cz};
    double **row_columns[] = {&fitter->h, &fitter->x,       &fitter->y,      &fitter->z,
                              &fitter->b, &fitter->loose_h, &fitter->loose_b};
    for (size_t i = 0; i < sizeof corner_columns / sizeof *corner_columns; i++) {
        *corner_columns[i] = at;
        at += corners;
    }
    for (size_t i = 0; i < sizeof row_columns / sizeof *row_columns; i++) {
        *row_columns[i] = at;
        at += rows;
    }
    assert(at == fitter->block + fitter->block_count);
}

/* Columns that no rotation changes. */
static void fill_constants(lw_fitter *fitter)
{
    for (int i = 0; i < fitter->shape->corner_count; i++) {
        fitter->cx[i] = fitter->shape->corners[i].x;
        fitter->cy[i] = fitter->shape->corners[i].y;
        fitter->cz[i] = fitter->shape->corners[i].z;
    }
    for (int i = 0; i < fitter->row_count; i++) {
        lw_vec3 n = fitter->rough->faces[i % fitter->rough->face_count].plane.normal;
        fitter->x[i] = n.x;
        fitter->y[i] = n.y;
        fitter->z[i] = n.z;
    }
}

lw_status lw_fitter_new(const lw_memory *memory, const lw_rough *rough, const lw_fit_shape *shape,
                        double margin_mm, lw_fitter **out)
{
    assert(margin_mm >= 0.0 && shape->corner_count > 0 && shape->girdle_mm >= 0.0);
    assert(!has_halves(shape) ||
           (shape->crown_count > 0 && shape->crown_count < shape->corner_count));
    if (shape->corner_count > LW_FIT_MOST_CORNERS) {
        return LW_TOO_LARGE;
    }
    void *made = NULL;
    lw_status status = lw_memory_new(memory, 1, sizeof(lw_fitter), &made);
    if (status != LW_OK) {
        return status;
    }
    lw_fitter *fitter = made;
    int rows = rough->face_count * (has_halves(shape) ? 2 : 1);
    *fitter = (lw_fitter){.memory = *memory,
                          .rough = rough,
                          .shape = shape,
                          .margin_mm = margin_mm,
                          .row_count = rows};
    fitter->block_count = 3 * (size_t)shape->corner_count + 7 * (size_t)rows;
    void *block = NULL;
    status = lw_memory_new(memory, fitter->block_count, sizeof(double), &block);
    if (status != LW_OK) {
        lw_memory_free(memory, fitter, 1, sizeof *fitter);
        return status;
    }
    fitter->block = block;
    lay_out(fitter);
    fill_constants(fitter);
    *out = fitter;
    return LW_OK;
}

void lw_fitter_destroy(lw_fitter *fitter)
{
    if (fitter == NULL) {
        return;
    }
    lw_memory memory = fitter->memory;
    lw_memory_free(&memory, fitter->block, fitter->block_count, sizeof(double));
    lw_memory_free(&memory, fitter, 1, sizeof *fitter);
}

/* The transpose of the rotation times a direction of the rough: that direction in the stone. */
static lw_vec3 stone_from_rough(const double r[9], lw_vec3 a)
{
    return (lw_vec3){r[0] * a.x + r[3] * a.y + r[6] * a.z, r[1] * a.x + r[4] * a.y + r[7] * a.z,
                     r[2] * a.x + r[5] * a.y + r[8] * a.z};
}

/* The greatest n . corner over corners first .. end - 1. */
static double support(const lw_fitter *fitter, lw_vec3 n, int first, int end)
{
    const double *x = fitter->cx, *y = fitter->cy, *z = fitter->cz;
    double best = -HUGE_VAL;
    for (int i = first; i < end; i++) {
        double height = n.x * x[i] + n.y * y[i] + n.z * z[i];
        best = height > best ? height : best;
    }
    return best;
}

static void fill_rows(lw_fitter *fitter, const double rotation[9])
{
    const lw_fit_shape *shape = fitter->shape;
    int faces = fitter->rough->face_count;
    int crown_end = has_halves(shape) ? shape->crown_count : shape->corner_count;
    for (int i = 0; i < faces; i++) {
        lw_plane face = fitter->rough->faces[i].plane;
        lw_vec3 n = stone_from_rough(rotation, face.normal);
        double room = face.distance - fitter->margin_mm;
        fitter->h[i] = fmax(0.0, support(fitter, n, 0, crown_end));
        fitter->b[i] = room - 0.5 * shape->girdle_mm * n.z;
        if (has_halves(shape)) {
            fitter->h[faces + i] = fmax(0.0, support(fitter, n, crown_end, shape->corner_count));
            fitter->b[faces + i] = room + 0.5 * shape->girdle_mm * n.z;
        }
    }
}

static void assert_rotation(const double r[9])
{
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k < 3; k++) {
            double product = r[i] * r[k] + r[3 + i] * r[3 + k] + r[6 + i] * r[6 + k];
            assert(fabs(product - (i == k ? 1.0 : 0.0)) < 1e-9);
            (void)product;
        }
    }
}

lw_status lw_fitter_place(lw_fitter *fitter, const double rotation[9], lw_placement *out)
{
    assert_rotation(rotation);
    fill_rows(fitter, rotation);
    lw_lp4 rows = {fitter->row_count, fitter->h, fitter->x, fitter->y, fitter->z, fitter->b};
    lw_lp4_answer answer;
    lw_status status = lw_lp4_solve(&rows, &answer);
    if (status != LW_OK) {
        return status;
    }
    lw_placement placement = {.scale_mm = answer.s, .shift_mm = {answer.p, answer.q, answer.r}};
    for (int i = 0; i < 9; i++) {
        placement.rotation[i] = rotation[i];
    }
    *out = placement;
    return LW_OK;
}

/* The rows with the scale taken off: a.t + slack <= what is left. */
static void fill_loose_rows(lw_fitter *fitter, double scale)
{
    for (int i = 0; i < fitter->row_count; i++) {
        fitter->loose_h[i] = 1.0;
        fitter->loose_b[i] = fitter->b[i] - scale * fitter->h[i];
    }
}

/* Rows that hold the answer can gain no more: they keep the slack they have. */
static void settle(lw_fitter *fitter, const lw_lp4_answer *held, double slack)
{
    for (int i = 0; i < 4; i++) {
        if (held->weight[i] > LW_LP_PIVOT) {
            fitter->loose_b[held->row[i]] -= slack * fitter->loose_h[held->row[i]];
            fitter->loose_h[held->row[i]] = 0.0;
        }
    }
}

/* Makes the least slack as large as can be; then, with the rows that hold it settled, the least of
 * the rest, until no row can gain. */
void lw_fitter_center(lw_fitter *fitter, lw_placement *placement)
{
    enum { MOST_ROUNDS = 12 };
    fill_rows(fitter, placement->rotation);
    lw_lp4 rows = {fitter->row_count, fitter->h, fitter->x, fitter->y, fitter->z, fitter->b};
    lw_lp4_answer held;
    if (lw_lp4_solve(&rows, &held) != LW_OK) {
        return;
    }
    fill_loose_rows(fitter, fmin(placement->scale_mm, held.s));
    settle(fitter, &held, 0.0);
    rows.h = fitter->loose_h;
    rows.b = fitter->loose_b;
    for (int round = 0; round < MOST_ROUNDS && lw_lp4_solve(&rows, &held) == LW_OK; round++) {
        double slack = fmax(0.0, held.s);
        if (slack > LW_FIT_SOUND * fitter->rough->span_mm) {
            placement->shift_mm = (lw_vec3){held.p, held.q, held.r};
        }
        settle(fitter, &held, slack);
    }
}

lw_vec3 lw_fit_place_corner(const lw_fit_shape *shape, const lw_placement *placement, int corner)
{
    const double *r = placement->rotation;
    lw_vec3 p = lw_vec3_scale(shape->corners[corner], placement->scale_mm);
    if (has_halves(shape)) {
        p.z += corner < shape->crown_count ? 0.5 * shape->girdle_mm : -0.5 * shape->girdle_mm;
    }
    lw_vec3 turned = {r[0] * p.x + r[1] * p.y + r[2] * p.z, r[3] * p.x + r[4] * p.y + r[5] * p.z,
                      r[6] * p.x + r[7] * p.y + r[8] * p.z};
    return lw_vec3_add(turned, placement->shift_mm);
}

void lw_fit_verify(const lw_rough *rough, const lw_fit_shape *shape, double margin_mm,
                   const lw_placement *placement, int *touches, int most_touches,
                   lw_fit_evidence *out)
{
    lw_fit_evidence evidence = {.clearance_mm = HUGE_VAL};
    for (int face = 0; face < rough->face_count; face++) {
        double nearest = HUGE_VAL;
        for (int i = 0; i < shape->corner_count; i++) {
            lw_vec3 corner = lw_fit_place_corner(shape, placement, i);
            nearest = fmin(nearest, -lw_plane_height(rough->faces[face].plane, corner));
        }
        evidence.clearance_mm = fmin(evidence.clearance_mm, nearest);
        if (nearest - margin_mm < LW_FIT_TOUCH * rough->span_mm) {
            if (touches != NULL && evidence.touch_count < most_touches) {
                touches[evidence.touch_count] = face;
            }
            evidence.touch_count++;
        }
    }
    evidence.sound = evidence.clearance_mm >= margin_mm - LW_FIT_SOUND * rough->span_mm;
    *out = evidence;
}
