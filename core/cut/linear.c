#include "cut/linear.h"

#include "geom/tolerance.h"

#include <math.h>

static void swap(double *a, double *b)
{
    double kept = *a;
    *a = *b;
    *b = kept;
}

static void swap_rows(lw_linear *l, int n, int a, int b)
{
    for (int c = 0; c < n && a != b; c++) {
        swap(&l->matrix[a][c], &l->matrix[b][c]);
    }
    swap(&l->right[a], &l->right[b]);
}

static void swap_columns(lw_linear *l, int n, int a, int b, int *order)
{
    for (int r = 0; r < n; r++) {
        swap(&l->matrix[r][a], &l->matrix[r][b]);
    }
    int kept = order[a];
    order[a] = order[b];
    order[b] = kept;
}

static double find_pivot(const lw_linear *l, int n, int from, int *row, int *column)
{
    double largest = 0.0;
    for (int r = from; r < n; r++) {
        for (int c = from; c < n; c++) {
            if (fabs(l->matrix[r][c]) > largest) {
                largest = fabs(l->matrix[r][c]);
                *row = r;
                *column = c;
            }
        }
    }
    return largest;
}

static void clear_below(lw_linear *l, int n, int pivot)
{
    for (int r = pivot + 1; r < n; r++) {
        double factor = l->matrix[r][pivot] / l->matrix[pivot][pivot];
        for (int c = pivot; c < n; c++) {
            l->matrix[r][c] -= factor * l->matrix[pivot][c];
        }
        l->right[r] -= factor * l->right[pivot];
    }
}

static void back_substitute(const lw_linear *l, int rank, int n, const int *order, double *out)
{
    double solved[LW_JOINT_MOST] = {0};
    for (int r = rank - 1; r >= 0; r--) {
        double sum = -l->right[r];
        for (int c = r + 1; c < rank; c++) {
            sum -= l->matrix[r][c] * solved[c];
        }
        solved[r] = sum / l->matrix[r][r];
    }
    for (int i = 0; i < n; i++) {
        out[order[i]] = solved[i];
    }
}

int lw_linear_solve(lw_linear *linear, int count, double *out, bool *consistent)
{
    int order[LW_JOINT_MOST];
    double first = 0.0;
    int rank = 0;
    for (int i = 0; i < count; i++) {
        order[i] = i;
    }
    for (; rank < count; rank++) {
        int row = rank;
        int column = rank;
        double pivot = find_pivot(linear, count, rank, &row, &column);
        first = rank == 0 ? pivot : first;
        if (pivot <= LW_OPEN_PIVOT * first) {
            break;
        }
        swap_rows(linear, count, rank, row);
        swap_columns(linear, count, rank, column, order);
        clear_below(linear, count, rank);
    }
    *consistent = true;
    for (int r = rank; r < count; r++) {
        *consistent = *consistent && fabs(linear->right[r]) < LW_MEET_HOLDS;
    }
    back_substitute(linear, rank, count, order, out);
    return rank;
}
