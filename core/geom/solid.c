#include "geom/solid.h"

#include "geom/solid_parts.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* One array of the block: where its pointer is kept, how many items, of which size. */
typedef struct part {
    void **place;
    size_t count, size;
} part;

enum { PART_COUNT = 21, ALIGNMENT = 64 };

static size_t part_bytes(part p)
{
    return (p.count * p.size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
}

/* During a cut the new corners and edges live beside those that they replace: twice the room. */
static void list_parts(lw_solid *s, part parts[PART_COUNT])
{
    size_t planes = (size_t)s->max_planes, faces = planes + LW_CUBE_FACES + 1;
    size_t corners = 4 * faces, edges = 12 * faces, touches = 16 * faces;
    s->corner_room = (int)corners;
    s->edge_room = (int)edges;
    s->touch_room = (int)touches;
    size_t incidences = 6 * faces + touches;
    const part list[PART_COUNT] = {
        {(void **)&s->planes, planes, sizeof(lw_plane)},
        {(void **)&s->same_as, planes, sizeof(int)},
        {(void **)&s->face_plane, faces, sizeof(lw_plane)},
        {(void **)&s->face_edge, faces, sizeof(int)},
        {(void **)&s->face_label, faces, sizeof(int)},
        {(void **)&s->face_stamp, faces, sizeof(int)},
        {(void **)&s->corners, corners, sizeof(lw_corner)},
        {(void **)&s->edges, edges, sizeof(lw_half_edge)},
        {(void **)&s->touches, touches, sizeof(lw_touch)},
        {(void **)&s->queue, corners, sizeof(int)},
        {(void **)&s->lost_edges, edges / 2, sizeof(int)},
        {(void **)&s->crossing, edges / 2 + 1, sizeof(int)},
        {(void **)&s->label_face, faces, sizeof(int)},
        {(void **)&s->out_vertices, corners / 2, sizeof(lw_vec3)},
        {(void **)&s->out_face_start, planes + 1, sizeof(int)},
        {(void **)&s->out_face_vertex, edges / 2, sizeof(int)},
        {(void **)&s->out_face_across, edges / 2, sizeof(int)},
        {(void **)&s->out_vertex_start, corners / 2 + 2, sizeof(int)},
        {(void **)&s->out_vertex_plane, incidences, sizeof(int)},
        {(void **)&s->corner_number, corners, sizeof(int)},
        {(void **)&s->cursor, corners / 2, sizeof(int)},
    };
    memcpy(parts, list, sizeof list);
}

lw_status lw_solid_new(const lw_memory *memory, int max_planes, lw_solid **out)
{
    assert(max_planes >= 1);
    if (max_planes > LW_SOLID_MOST_PLANES) {
        return LW_TOO_LARGE;
    }
    lw_solid *solid = NULL;
    lw_status status = lw_memory_new(memory, 1, sizeof *solid, (void **)&solid);
    if (status != LW_OK) {
        return status;
    }
    solid->memory = *memory;
    solid->max_planes = max_planes;
    part parts[PART_COUNT];
    list_parts(solid, parts);
    for (int i = 0; i < PART_COUNT; i++) {
        solid->block_bytes += part_bytes(parts[i]);
    }
    status = lw_memory_new(memory, solid->block_bytes + ALIGNMENT, 1, &solid->block);
    if (status != LW_OK) {
        lw_memory_free(memory, solid, 1, sizeof *solid);
        return status;
    }
    size_t misfit = (uintptr_t)solid->block % ALIGNMENT;
    char *at = (char *)solid->block + (misfit == 0 ? 0 : ALIGNMENT - misfit);
    for (int i = 0; i < PART_COUNT; i++) {
        *parts[i].place = at;
        at += part_bytes(parts[i]);
    }
    lw_solid_start(solid, 1.0);
    *out = solid;
    return LW_OK;
}

void lw_solid_destroy(lw_solid *solid)
{
    if (solid != NULL) {
        lw_memory memory = solid->memory;
        lw_memory_free(&memory, solid->block, solid->block_bytes + ALIGNMENT, 1);
        lw_memory_free(&memory, solid, 1, sizeof *solid);
    }
}

/* The start cube. Corner i has x, y, z positive where bits 0, 1, 2 of i are set; face 2a is the one
 * where coordinate a is positive, 2a + 1 where it is negative; their rings are
 * 1375, 0462, 2673, 0154, 4576, 0231. Half-edges as {next, prev, from, face}. */
static const lw_half_edge cube_edges[24] = {
    {2, 6, 1, 0},   {21, 19, 3, 5}, {4, 0, 3, 0},   {18, 16, 7, 2}, {6, 2, 7, 0},  {17, 23, 5, 4},
    {0, 4, 5, 0},   {22, 20, 1, 3}, {10, 14, 0, 1}, {20, 22, 4, 3}, {12, 8, 4, 1}, {23, 17, 6, 4},
    {14, 10, 6, 1}, {16, 18, 2, 2}, {8, 12, 2, 1},  {19, 21, 0, 5}, {3, 13, 6, 2}, {11, 5, 7, 4},
    {13, 3, 3, 2},  {1, 15, 2, 5},  {7, 9, 0, 3},   {15, 1, 1, 5},  {9, 7, 5, 3},  {5, 11, 4, 4}};

/* A half-edge of each corner, and of each face. */
static const int corner_edges[8] = {15, 21, 19, 1, 23, 5, 11, 17};
static const int face_edges[LW_CUBE_FACES] = {0, 8, 13, 20, 23, 15};

static void start_faces(lw_solid *solid)
{
    for (int face = 0; face < LW_CUBE_FACES; face++) {
        double sign = face % 2 == 0 ? 1.0 : -1.0;
        lw_vec3 normal = {face / 2 == 0 ? sign : 0.0, face / 2 == 1 ? sign : 0.0,
                          face / 2 == 2 ? sign : 0.0};
        solid->face_plane[face] = (lw_plane){normal, solid->half_extent};
        solid->face_edge[face] = face_edges[face];
        solid->face_label[face] = LW_NONE - 1 - face;
        solid->face_stamp[face] = 0;
    }
}

void lw_solid_start(lw_solid *solid, double half_extent)
{
    assert(half_extent > 0.0 && isfinite(half_extent));
    solid->half_extent = half_extent;
    solid->same_point = LW_SAME_POINT * half_extent;
    solid->rounding = LW_ROUNDING * half_extent;
    solid->near_depth = LW_PLATEAU * solid->same_point;
    solid->plane_count = 0;
    solid->face_count = LW_CUBE_FACES;
    solid->cube_left = LW_CUBE_FACES;
    solid->stamp = 0;
    solid->last = 0;
    solid->corner_used = 8;
    solid->edge_used = 24;
    memcpy(solid->edges, cube_edges, sizeof cube_edges);
    solid->touch_used = solid->touch_count = 0;
    solid->corner_free = solid->edge_free = solid->touch_free = LW_NONE;
    memset(solid->coarse_hint, 0xFF, sizeof solid->coarse_hint); /* LW_NONE */
    for (int i = 0; i < 8; i++) {
        double h = half_extent;
        solid->corners[i] = (lw_corner){
            .at = {(i & 1) != 0 ? h : -h, (i & 2) != 0 ? h : -h, (i & 4) != 0 ? h : -h},
            .edge = corner_edges[i],
            .touch = LW_NONE,
        };
    }
    start_faces(solid);
}

static void copy_part(void *to, const void *from, int count, size_t size)
{
    memcpy(to, from, (size_t)count * size);
}

void lw_solid_copy(lw_solid *to, const lw_solid *from)
{
    assert(to->max_planes == from->max_planes);
    if (to == from) {
        return;
    }
    to->half_extent = from->half_extent;
    to->same_point = from->same_point;
    to->rounding = from->rounding;
    to->near_depth = from->near_depth;
    to->plane_count = from->plane_count;
    to->face_count = from->face_count;
    to->stamp = from->stamp;
    to->last = from->last;
    to->cube_left = from->cube_left;
    to->corner_used = from->corner_used;
    to->corner_free = from->corner_free;
    to->edge_used = from->edge_used;
    to->edge_free = from->edge_free;
    to->touch_used = from->touch_used;
    to->touch_free = from->touch_free;
    to->touch_count = from->touch_count;
    memcpy(to->fine_hint, from->fine_hint, sizeof to->fine_hint);
    memcpy(to->coarse_hint, from->coarse_hint, sizeof to->coarse_hint);
    copy_part(to->planes, from->planes, from->plane_count, sizeof(lw_plane));
    copy_part(to->same_as, from->same_as, from->plane_count, sizeof(int));
    copy_part(to->face_plane, from->face_plane, from->face_count, sizeof(lw_plane));
    copy_part(to->face_edge, from->face_edge, from->face_count, sizeof(int));
    copy_part(to->face_label, from->face_label, from->face_count, sizeof(int));
    copy_part(to->face_stamp, from->face_stamp, from->face_count, sizeof(int));
    copy_part(to->corners, from->corners, from->corner_used, sizeof(lw_corner));
    copy_part(to->edges, from->edges, from->edge_used, sizeof(lw_half_edge));
    copy_part(to->touches, from->touches, from->touch_used, sizeof(lw_touch));
}

lw_status lw_solid_cut(lw_solid *solid, lw_plane plane, lw_cut_effect *effect)
{
    assert(isfinite(plane.distance));
    assert(fabs(lw_vec3_dot(plane.normal, plane.normal) - 1.0) < 2e-12);
    if (solid->plane_count == solid->max_planes) {
        return LW_TOO_LARGE;
    }
    lw_cut_effect what = LW_CUT_MISSED;
    solid->planes[solid->plane_count] = plane;
    lw_status status = lw_solid_insert(solid, &plane, solid->plane_count, &what);
    if (status != LW_OK) {
        return status;
    }
    solid->plane_count++;
    if (effect != NULL) {
        *effect = what;
    }
    return LW_OK;
}

bool lw_solid_is_closed(const lw_solid *solid)
{
    return solid->cube_left == 0;
}

/* Every corner is looked at: a walk uphill would be no faster on a stone of some eighty facets, and
 * could be stopped by rounding on nearly parallel planes. */
double lw_solid_height_above(const lw_solid *solid, lw_plane plane)
{
    double best = -HUGE_VAL;
    for (int i = 0; i < solid->corner_used; i++) {
        double height = lw_plane_height(plane, solid->corners[i].at);
        if (solid->corners[i].edge != LW_NONE && height > best) {
            best = height;
        }
    }
    return best;
}
