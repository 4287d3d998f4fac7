/* How a set of numbers is spread. */
#ifndef LW_TESTS_DATA_SPREAD_H
#define LW_TESTS_DATA_SPREAD_H

typedef struct spread {
    int count;
    double percent_1, quarter, median, three_quarters, percent_99;
    double median_size; /* of the absolute values */
} spread;

/* Sorts values in place. */
spread spread_of(double *values, int count);

#endif
