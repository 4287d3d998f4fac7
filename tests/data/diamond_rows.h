/* The open set of measured round diamonds: 53,940 rows of carat, cut grade, depth %, table %,
 * length, width and depth in mm (npm @observablehq/sample-datasets, diamonds.csv; the set that H.
 * Wickham's ggplot2 made known). Fetched, never copied into the project.
 *
 * The cleaning rule, stated before anything is predicted: a row is left out when
 *   1. a dimension is zero, or
 *   2. its depth % contradicts its own z by more than 0.5 points of (x + y) / 2.
 * Nothing else is left out, however odd.
 */
#ifndef LW_TESTS_DATA_DIAMOND_ROWS_H
#define LW_TESTS_DATA_DIAMOND_ROWS_H

#include <stdbool.h>

typedef enum diamond_grade {
    GRADE_FAIR,
    GRADE_GOOD,
    GRADE_VERY_GOOD,
    GRADE_PREMIUM,
    GRADE_IDEAL,
    GRADE_COUNT
} diamond_grade;

extern const char *const diamond_grade_names[GRADE_COUNT];

typedef struct diamond {
    double carat, depth_percent, table_percent, x, y, z;
    diamond_grade grade;
} diamond;

typedef enum diamond_fault {
    DIAMOND_SOUND,
    DIAMOND_ZERO,        /* rule 1 */
    DIAMOND_CONTRADICTED /* rule 2 */
} diamond_fault;

/* Reads the file; rows (malloc'd, the caller's to free) and how many, or -1 when the file cannot be
 * opened. A line that cannot be read is said on standard error and counts as -2. */
int diamonds_read(const char *path, diamond **rows);

diamond_fault diamond_check(const diamond *row);

/* z over the mean of x and y, in percent. */
double diamond_depth_by_z(const diamond *row);

#endif
