#include "geom/peer_stone.h"

#include <libqhull_r/qhull_ra.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_AT_VERTEX = 256 };

typedef struct corner_of_face {
    double angle;
    double x, y;
} corner_of_face;

/* Which vertices each plane has. */
typedef struct incidence {
    int plane, vertex;
} incidence;

static long double det3(const lw_plane *a, const lw_plane *b, const lw_plane *c)
{
    long double bx = b->normal.x, by = b->normal.y, bz = b->normal.z;
    long double cx = c->normal.x, cy = c->normal.y, cz = c->normal.z;
    return a->normal.x * (by * cz - bz * cy) + a->normal.y * (bz * cx - bx * cz) +
           a->normal.z * (bx * cy - by * cx);
}

/* Cramer's rule. */
static lw_vec3 meet(const lw_plane *a, const lw_plane *b, const lw_plane *c)
{
    const lw_plane *p[3] = {a, b, c};
    long double det = det3(a, b, c), sum[3] = {0.0L, 0.0L, 0.0L};
    for (int i = 0; i < 3; i++) {
        const lw_vec3 *u = &p[(i + 1) % 3]->normal, *v = &p[(i + 2) % 3]->normal;
        long double ux = u->x, uy = u->y, uz = u->z;
        sum[0] += p[i]->distance * (uy * v->z - uz * v->y);
        sum[1] += p[i]->distance * (uz * v->x - ux * v->z);
        sum[2] += p[i]->distance * (ux * v->y - uy * v->x);
    }
    return (lw_vec3){(double)(sum[0] / det), (double)(sum[1] / det), (double)(sum[2] / det)};
}

/* From the three planes that span most. */
static lw_vec3 best_meet(const lw_plane *planes, const int *at, int count)
{
    long double best = -1.0L;
    int pick[3] = {at[0], at[1], at[2]};
    for (int i = 0; i < count; i++) {
        for (int j = i + 1; j < count; j++) {
            for (int k = j + 1; k < count; k++) {
                long double size = fabsl(det3(&planes[at[i]], &planes[at[j]], &planes[at[k]]));
                if (size > best) {
                    best = size;
                    pick[0] = at[i], pick[1] = at[j], pick[2] = at[k];
                }
            }
        }
    }
    return meet(&planes[pick[0]], &planes[pick[1]], &planes[pick[2]]);
}

static int by_angle(const void *a, const void *b)
{
    double x = ((const corner_of_face *)a)->angle, y = ((const corner_of_face *)b)->angle;
    return (x > y) - (x < y);
}

static int by_plane(const void *a, const void *b)
{
    return ((const incidence *)a)->plane - ((const incidence *)b)->plane;
}

/* The area of a convex polygon from its corners in any order, by their angle about their mean. */
static double face_area(const lw_plane *plane, const peer_stone *stone, const incidence *list,
                        int count)
{
    static corner_of_face corners[PEER_MOST_VERTICES];
    lw_vec3 n = plane->normal;
    lw_vec3 aside = fabs(n.x) < 0.6 ? (lw_vec3){1.0, 0.0, 0.0} : (lw_vec3){0.0, 1.0, 0.0};
    lw_vec3 u = lw_vec3_cross(n, aside);
    u = lw_vec3_scale(u, 1.0 / lw_vec3_length(u));
    lw_vec3 v = lw_vec3_cross(n, u), mean = {0.0, 0.0, 0.0};
    for (int i = 0; i < count; i++) {
        mean = lw_vec3_add(mean, lw_vec3_scale(stone->vertices[list[i].vertex], 1.0 / count));
    }
    for (int i = 0; i < count; i++) {
        lw_vec3 p = lw_vec3_sub(stone->vertices[list[i].vertex], mean);
        corners[i].x = lw_vec3_dot(u, p);
        corners[i].y = lw_vec3_dot(v, p);
        corners[i].angle = atan2(corners[i].y, corners[i].x);
    }
    qsort(corners, (size_t)count, sizeof *corners, by_angle);
    double twice = 0.0;
    for (int i = 0; i < count; i++) {
        const corner_of_face *a = &corners[i], *b = &corners[(i + 1) % count];
        twice += a->x * b->y - a->y * b->x;
    }
    return 0.5 * twice;
}

/* Areas, and the volume as a sum of cones from the origin. */
static void measure(const lw_plane *planes, int count, incidence *list, int total, peer_stone *out)
{
    memset(out->area, 0, sizeof out->area);
    out->volume = 0.0;
    qsort(list, (size_t)total, sizeof *list, by_plane);
    for (int from = 0, to = 0; from < total; from = to) {
        int plane = list[from].plane;
        while (to < total && list[to].plane == plane) {
            to++;
        }
        if (plane < count && to - from >= 3) {
            out->area[plane] = face_area(&planes[plane], out, list + from, to - from);
            out->volume += planes[plane].distance * out->area[plane] / 3.0;
        }
    }
}

static bool gather(qhT *qh, const lw_plane *planes, int count, peer_stone *out)
{
    static incidence list[16 * PEER_MOST_VERTICES];
    int total = 0;
    facetT *facet;
    vertexT *vertex, **vertexp;
    out->vertex_count = 0;
    FORALLfacets
    {
        int at[MOST_AT_VERTEX], n = 0;
        FOREACHvertex_(facet->vertices)
        {
            if (n < MOST_AT_VERTEX) {
                at[n++] = qh_pointid(qh, vertex->point);
            }
        }
        if (n < 3 || n == MOST_AT_VERTEX || out->vertex_count == PEER_MOST_VERTICES) {
            return false;
        }
        for (int i = 0; i < n; i++) {
            list[total++] = (incidence){at[i], out->vertex_count};
        }
        out->vertices[out->vertex_count++] = best_meet(planes, at, n);
    }
    measure(planes, count, list, total, out);
    return true;
}

bool peer_stone_make(const lw_plane *planes, int count, peer_stone *out)
{
    static double rows[PEER_MOST_PLANES][4];
    static qhT state;
    static FILE *quiet;
    qhT *qh = &state;
    char command[] = "qhull H0,0,0";
    if (quiet == NULL) {
        quiet = fopen("/dev/null", "w");
    }
    for (int i = 0; i < count; i++) {
        rows[i][0] = planes[i].normal.x;
        rows[i][1] = planes[i].normal.y;
        rows[i][2] = planes[i].normal.z;
        rows[i][3] = -planes[i].distance;
    }
    qh_zero(qh, quiet);
    bool made = qh_new_qhull(qh, 4, count, &rows[0][0], False, command, NULL, quiet) == 0 &&
                gather(qh, planes, count, out);
    int left = 0, bytes = 0;
    qh_freeqhull(qh, !qh_ALL);
    qh_memfreeshort(qh, &left, &bytes);
    return made;
}
