#include "rough/lp4.h"

#include "geom/tolerance.h"

#include <math.h>
#include <stdbool.h>

/* Four rows of our own stand far outside in the directions of a regular tetrahedron: a basis to
 * start from. They have the numbers -1..-4. */
enum { UNKNOWNS = 4, MOST_STEPS_A_ROW = 50 };

/* How far outside, in the largest |b|. */
static const double fence_distance = 1e6;

typedef struct row4 {
    double g[UNKNOWNS];
    double b;
} row4;

typedef struct simplex {
    const lw_lp4 *rows;
    double largest_b, largest_h;
    int basis[UNKNOWNS];
    double inverse[UNKNOWNS][UNKNOWNS]; /* of the basis rows: inverse[k][i] is unknown k by row i */
    double point[UNKNOWNS];
} simplex;

static row4 get_row(const simplex *state, int row)
{
    static const double corner[UNKNOWNS][3] = {{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}};
    if (row < 0) {
        const double *n = corner[-row - 1];
        double third = 1.0 / sqrt(3.0);
        return (row4){{state->largest_h, n[0] * third, n[1] * third, n[2] * third},
                      fence_distance * state->largest_b};
    }
    const lw_lp4 *rows = state->rows;
    return (row4){{rows->h[row], rows->x[row], rows->y[row], rows->z[row]}, rows->b[row]};
}

static void swap_rows(double a[UNKNOWNS][2 * UNKNOWNS], int i, int k)
{
    for (int j = 0; j < 2 * UNKNOWNS; j++) {
        double keep = a[i][j];
        a[i][j] = a[k][j];
        a[k][j] = keep;
    }
}

/* Gauss and Jordan with the largest pivot of the column. False when the basis is singular. */
static bool invert(double a[UNKNOWNS][2 * UNKNOWNS])
{
    for (int c = 0; c < UNKNOWNS; c++) {
        int best = c;
        for (int i = c + 1; i < UNKNOWNS; i++) {
            if (fabs(a[i][c]) > fabs(a[best][c])) {
                best = i;
            }
        }
        if (a[best][c] == 0.0) {
            return false;
        }
        swap_rows(a, c, best);
        double scale = 1.0 / a[c][c];
        for (int j = c; j < 2 * UNKNOWNS; j++) {
            a[c][j] *= scale;
        }
        for (int i = 0; i < UNKNOWNS; i++) {
            double share = a[i][c];
            for (int j = c; i != c && share != 0.0 && j < 2 * UNKNOWNS; j++) {
                a[i][j] -= share * a[c][j];
            }
        }
    }
    return true;
}

/* point = inverse * b, then once more on what is left over. */
static void place_point(simplex *state, const row4 basis[UNKNOWNS])
{
    double rest[UNKNOWNS];
    for (int i = 0; i < UNKNOWNS; i++) {
        rest[i] = basis[i].b;
        state->point[i] = 0.0;
    }
    for (int pass = 0; pass < 2; pass++) {
        for (int k = 0; k < UNKNOWNS; k++) {
            for (int i = 0; i < UNKNOWNS; i++) {
                state->point[k] += state->inverse[k][i] * rest[i];
            }
        }
        for (int i = 0; i < UNKNOWNS; i++) {
            rest[i] = basis[i].b;
            for (int k = 0; k < UNKNOWNS; k++) {
                rest[i] -= basis[i].g[k] * state->point[k];
            }
        }
    }
}

static bool refresh(simplex *state)
{
    row4 basis[UNKNOWNS];
    double a[UNKNOWNS][2 * UNKNOWNS] = {{0}};
    for (int i = 0; i < UNKNOWNS; i++) {
        basis[i] = get_row(state, state->basis[i]);
        for (int k = 0; k < UNKNOWNS; k++) {
            a[i][k] = basis[i].g[k];
        }
        a[i][UNKNOWNS + i] = 1.0;
    }
    if (!invert(a)) {
        return false;
    }
    for (int k = 0; k < UNKNOWNS; k++) {
        for (int i = 0; i < UNKNOWNS; i++) {
            state->inverse[k][i] = a[k][UNKNOWNS + i];
        }
    }
    place_point(state, basis);
    return true;
}

static bool in_basis(const simplex *state, int row)
{
    return row == state->basis[0] || row == state->basis[1] || row == state->basis[2] ||
           row == state->basis[3];
}

/* The row that the point breaks most; -1 when it breaks none. */
static int most_broken(const simplex *state)
{
    const lw_lp4 *rows = state->rows;
    const double *t = state->point;
    double reach = fabs(t[1]) + fabs(t[2]) + fabs(t[3]);
    double worst = LW_LP_SLACK * (state->largest_b + state->largest_h * fabs(t[0]) + reach);
    int found = -1;
    for (int i = 0; i < rows->count; i++) {
        double over = rows->h[i] * t[0] + rows->x[i] * t[1] + rows->y[i] * t[2] +
                      rows->z[i] * t[3] - rows->b[i];
        if (over > worst && !in_basis(state, i)) {
            worst = over;
            found = i;
        }
    }
    return found;
}

/* Whether basis row i, divided by its share, comes before row k in the dictionary's order. */
static bool comes_before(const simplex *state, int i, double share_i, int k, double share_k)
{
    for (int unknown = 0; unknown < UNKNOWNS; unknown++) {
        const double *numbers = state->inverse[unknown];
        double a = numbers[i] / share_i, b = numbers[k] / share_k;
        double largest = fmax(fmax(fabs(numbers[0]), fabs(numbers[1])),
                              fmax(fabs(numbers[2]), fabs(numbers[3])));
        if (fabs(a - b) > LW_LP_TIE * largest * (1.0 / share_i + 1.0 / share_k)) {
            return a < b;
        }
    }
    return share_i > share_k;
}

/* The place in the basis that gives way to the row; -1 when none can. */
static int gives_way(const simplex *state, const row4 *row)
{
    double share[UNKNOWNS], largest = 0.0;
    for (int i = 0; i < UNKNOWNS; i++) {
        share[i] = 0.0;
        for (int k = 0; k < UNKNOWNS; k++) {
            share[i] += row->g[k] * state->inverse[k][i];
        }
        largest = fmax(largest, fabs(share[i]));
    }
    int found = -1;
    for (int i = 0; i < UNKNOWNS; i++) {
        if (share[i] > LW_LP_PIVOT * largest &&
            (found < 0 || comes_before(state, i, share[i], found, share[found]))) {
            found = i;
        }
    }
    return found;
}

static void start(simplex *state, const lw_lp4 *rows)
{
    *state = (simplex){.rows = rows, .basis = {-1, -2, -3, -4}};
    for (int i = 0; i < rows->count; i++) {
        state->largest_b = fmax(state->largest_b, fabs(rows->b[i]));
        state->largest_h = fmax(state->largest_h, rows->h[i]);
    }
    if (state->largest_b == 0.0) {
        state->largest_b = 1.0;
    }
}

static lw_status finish(const simplex *state, int steps, lw_lp4_answer *out)
{
    lw_lp4_answer answer = {
        state->point[0], state->point[1], state->point[2], state->point[3], {0}, {0}, steps};
    for (int i = 0; i < UNKNOWNS; i++) {
        if (state->basis[i] < 0) {
            return LW_NOT_CLOSED;
        }
        answer.row[i] = state->basis[i];
        answer.weight[i] = fmax(0.0, state->inverse[0][i]);
    }
    *out = answer;
    return LW_OK;
}

lw_status lw_lp4_solve(const lw_lp4 *rows, lw_lp4_answer *out)
{
    simplex state;
    start(&state, rows);
    if (!(state.largest_h > 0.0)) {
        return LW_NOT_CLOSED;
    }
    int most_steps = MOST_STEPS_A_ROW * (rows->count + UNKNOWNS);
    for (int steps = 0; steps < most_steps; steps++) {
        if (!refresh(&state)) {
            return LW_NO_SOLUTION;
        }
        int entering = most_broken(&state);
        if (entering < 0) {
            return finish(&state, steps, out);
        }
        row4 row = get_row(&state, entering);
        int leaving = gives_way(&state, &row);
        if (leaving < 0) {
            return LW_NO_SOLUTION;
        }
        state.basis[leaving] = entering;
    }
    return LW_NO_SOLUTION;
}
