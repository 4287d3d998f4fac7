#include "diamond_rows.h"

#include "base/number.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *const diamond_grade_names[GRADE_COUNT] = {"Fair", "Good", "Very Good", "Premium",
                                                      "Ideal"};

enum { COLUMNS = 10 };

/* carat,cut,color,clarity,depth,table,price,x,y,z */
static bool read_row(char *line, diamond *out)
{
    char *cells[COLUMNS];
    int count = 0;
    for (char *at = line; at != NULL && count < COLUMNS; count++) {
        cells[count] = at;
        at = strchr(at, ',');
        if (at != NULL)
            *at++ = '\0';
    }
    diamond row = {.grade = GRADE_COUNT};
    for (int i = 0; i < GRADE_COUNT && count == COLUMNS; i++) {
        if (strcmp(cells[1], diamond_grade_names[i]) == 0)
            row.grade = (diamond_grade)i;
    }
    if (row.grade == GRADE_COUNT || !lw_number_read_all(cells[0], &row.carat) ||
        !lw_number_read_all(cells[4], &row.depth_percent) ||
        !lw_number_read_all(cells[5], &row.table_percent) ||
        !lw_number_read_all(cells[7], &row.x) || !lw_number_read_all(cells[8], &row.y) ||
        !lw_number_read_all(cells[9], &row.z))
        return false;
    *out = row;
    return true;
}

static int read_rows(FILE *file, diamond **rows)
{
    char line[256];
    int count = 0, room = 0;
    if (fgets(line, sizeof line, file) == NULL)
        return -2; /* the heading */
    while (fgets(line, sizeof line, file) != NULL) {
        line[strcspn(line, "\r\n")] = '\0';
        if (count == room) {
            room = room == 0 ? 1024 : 2 * room;
            diamond *more = realloc(*rows, (size_t)room * sizeof *more);
            if (more == NULL)
                return -2;
            *rows = more;
        }
        if (!read_row(line, &(*rows)[count])) {
            fprintf(stderr, "row %d cannot be read\n", count + 1);
            return -2;
        }
        count++;
    }
    return count;
}

int diamonds_read(const char *path, diamond **rows)
{
    FILE *file = fopen(path, "r");
    if (file == NULL)
        return -1;
    *rows = NULL;
    int count = read_rows(file, rows);
    fclose(file);
    return count;
}

double diamond_depth_by_z(const diamond *row)
{
    return 200.0 * row->z / (row->x + row->y);
}

diamond_fault diamond_check(const diamond *row)
{
    if (row->x == 0.0 || row->y == 0.0 || row->z == 0.0)
        return DIAMOND_ZERO;
    if (fabs(diamond_depth_by_z(row) - row->depth_percent) > 0.5)
        return DIAMOND_CONTRADICTED;
    return DIAMOND_SOUND;
}
