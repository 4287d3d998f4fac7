#include "contour.h"

#include <assert.h>
#include <math.h>

/* A line crosses an edge of the grid at most once, so an edge stands for its crossing: the edge
 * from a corner to the right has number 2 * corner, the one downward 2 * corner + 1. A crossing is
 * joined to at most two others, one through the square on either side of the edge. */
typedef struct tracing {
    const double *values;
    int columns, rows;
    double level;
    int *joined; /* [2 * corners * 2]; -1: nothing */
} tracing;

static double value_at(const tracing *t, int x, int y)
{
    return t->values[y * t->columns + x];
}

static void join(tracing *t, int a, int b)
{
    int *of_a = &t->joined[2 * a], *of_b = &t->joined[2 * b];
    of_a[of_a[0] < 0 ? 0 : 1] = b;
    of_b[of_b[0] < 0 ? 0 : 1] = a;
}

/* The segments of one square, whose corners are numbered 0 1 on its first row and 3 2 on its
 * second; edge i runs from corner i to the next. */
static void march(tracing *t, int x, int y)
{
    const double corners[4] = {value_at(t, x, y), value_at(t, x + 1, y), value_at(t, x + 1, y + 1),
                               value_at(t, x, y + 1)};
    int corner = y * t->columns + x;
    const int edges[4] = {2 * corner, 2 * (corner + 1) + 1, 2 * (corner + t->columns),
                          2 * corner + 1};
    int crossed[4], count = 0;
    for (int i = 0; i < 4; i++) {
        if (isnan(corners[i])) {
            return;
        }
    }
    for (int i = 0; i < 4; i++) {
        if ((corners[i] >= t->level) != (corners[(i + 1) % 4] >= t->level)) {
            crossed[count++] = edges[i];
        }
    }
    if (count == 2) {
        join(t, crossed[0], crossed[1]);
    } else if (count == 4) {
        double middle = 0.25 * (corners[0] + corners[1] + corners[2] + corners[3]);
        /* The middle goes with corners 0 and 2: the lines cut off corners 1 and 3. */
        bool with_first = (middle >= t->level) == (corners[0] >= t->level);
        join(t, edges[0], edges[with_first ? 1 : 3]);
        join(t, edges[2], edges[with_first ? 3 : 1]);
    }
}

static lw_contour_spot crossing(const tracing *t, int edge)
{
    int corner = edge / 2, x = corner % t->columns, y = corner / t->columns;
    bool down = edge % 2 == 1;
    double a = value_at(t, x, y), b = value_at(t, down ? x : x + 1, down ? y + 1 : y);
    double share = (t->level - a) / (b - a);
    return (lw_contour_spot){x + (down ? 0.0 : share), y + (down ? share : 0.0)};
}

/* ---- joining ---- */

static lw_status add_spot(lw_contour *c, lw_contour_spot spot)
{
    size_t room = (size_t)c->spot_room;
    void *items = c->spots;
    lw_status status =
        lw_memory_reserve(&c->memory, &items, &room, (size_t)c->spot_count + 1, sizeof *c->spots);
    c->spots = items;
    c->spot_room = (int)room;
    if (status == LW_OK) {
        c->spots[c->spot_count++] = spot;
        c->lines[c->line_count - 1].count++;
    }
    return status;
}

static lw_status add_line(lw_contour *c, bool closed)
{
    size_t room = (size_t)c->line_room;
    void *items = c->lines;
    lw_status status =
        lw_memory_reserve(&c->memory, &items, &room, (size_t)c->line_count + 1, sizeof *c->lines);
    c->lines = items;
    c->line_room = (int)room;
    if (status == LW_OK) {
        c->lines[c->line_count++] = (lw_contour_line){.first = c->spot_count, .closed = closed};
    }
    return status;
}

/* Takes the way out of a crossing that leads on, and forgets it from both sides; -1 at an end. */
static int leave(tracing *t, int edge)
{
    int *out = &t->joined[2 * edge];
    int which = out[0] >= 0 ? 0 : 1, to = out[which];
    if (to >= 0) {
        int *back = &t->joined[2 * to];
        out[which] = -1;
        back[back[0] == edge ? 0 : 1] = -1;
    }
    return to;
}

static lw_status follow(tracing *t, int edge, bool closed, lw_contour *c)
{
    lw_status status = add_line(c, closed);
    while (status == LW_OK && edge >= 0) {
        status = add_spot(c, crossing(t, edge));
        edge = leave(t, edge);
    }
    return status;
}

/* Open lines from their ends first; what is left goes round. */
static lw_status follow_all(tracing *t, int edges, lw_contour *c)
{
    lw_status status = LW_OK;
    for (int closed = 0; closed < 2; closed++) {
        for (int edge = 0; edge < edges && status == LW_OK; edge++) {
            int ways = (t->joined[2 * edge] >= 0) + (t->joined[2 * edge + 1] >= 0);
            if (ways == 1 + closed) {
                status = follow(t, edge, closed == 1, c);
            }
        }
    }
    return status;
}

lw_status lw_contour_trace(const lw_memory *memory, const double *values, int columns, int rows,
                           double level, lw_contour *out)
{
    assert(columns >= 2 && rows >= 2 && columns <= LW_CONTOUR_MOST && rows <= LW_CONTOUR_MOST);
    tracing t = {.values = values, .columns = columns, .rows = rows, .level = level};
    lw_contour made = {.memory = *memory};
    int edges = 2 * columns * rows;
    void *joined = NULL;
    lw_status status = lw_memory_new(memory, 2 * (size_t)edges, sizeof *t.joined, &joined);
    if (status != LW_OK) {
        return status;
    }
    t.joined = joined;
    for (int i = 0; i < 2 * edges; i++) {
        t.joined[i] = -1;
    }
    for (int y = 0; y + 1 < rows; y++) {
        for (int x = 0; x + 1 < columns; x++) {
            march(&t, x, y);
        }
    }
    status = follow_all(&t, edges, &made);
    lw_memory_free(memory, joined, 2 * (size_t)edges, sizeof *t.joined);
    if (status != LW_OK) {
        lw_contour_destroy(&made);
        return status;
    }
    *out = made;
    return LW_OK;
}

void lw_contour_destroy(lw_contour *contour)
{
    lw_memory_free(&contour->memory, contour->lines, (size_t)contour->line_room,
                   sizeof *contour->lines);
    lw_memory_free(&contour->memory, contour->spots, (size_t)contour->spot_room,
                   sizeof *contour->spots);
    *contour = (lw_contour){.memory = contour->memory};
}
