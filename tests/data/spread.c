#include "spread.h"

#include <math.h>
#include <stdlib.h>

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Between neighbours, in proportion. */
static double quantile(const double *sorted, int count, double share)
{
    double at = share * (count - 1);
    int below = (int)at;
    int above = below + 1 < count ? below + 1 : below;
    return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}

spread spread_of(double *values, int count)
{
    if (count == 0)
        return (spread){0};
    qsort(values, (size_t)count, sizeof *values, by_size);
    spread made = {.count = count,
                   .percent_1 = quantile(values, count, 0.01),
                   .quarter = quantile(values, count, 0.25),
                   .median = quantile(values, count, 0.5),
                   .three_quarters = quantile(values, count, 0.75),
                   .percent_99 = quantile(values, count, 0.99)};
    for (int i = 0; i < count; i++)
        values[i] = fabs(values[i]);
    qsort(values, (size_t)count, sizeof *values, by_size);
    made.median_size = quantile(values, count, 0.5);
    return made;
}
