/* A polyhedron with a life of its own. */
#include "geom/solid.h"

#include <stdint.h>
#include <string.h>

/* The arrays of a polyhedron, in one block: the widest items first, so that all are aligned. */
typedef struct layout {
    size_t planes, vertices, same_as, face_start, face_vertex, face_across, vertex_start,
        vertex_plane, total;
} layout;

static layout layout_of(const lw_polyhedron *p)
{
    size_t planes = (size_t)p->plane_count, vertices = (size_t)p->vertex_count;
    size_t sides = (size_t)p->face_start[planes];
    size_t incidences = (size_t)p->vertex_start[vertices];
    layout at = {.planes = 0};
    at.vertices = at.planes + planes * sizeof(lw_plane);
    at.same_as = at.vertices + vertices * sizeof(lw_vec3);
    at.face_start = at.same_as + planes * sizeof(int);
    at.face_vertex = at.face_start + (planes + 1) * sizeof(int);
    at.face_across = at.face_vertex + sides * sizeof(int);
    at.vertex_start = at.face_across + sides * sizeof(int);
    at.vertex_plane = at.vertex_start + (vertices + 1) * sizeof(int);
    at.total = at.vertex_plane + incidences * sizeof(int);
    return at;
}

static const void *put(char *block, size_t at, size_t end, const void *from)
{
    if (end > at) {
        memcpy(block + at, from, end - at);
    }
    return block + at;
}

lw_status lw_polyhedron_copy(const lw_memory *memory, const lw_polyhedron *from, lw_polyhedron *out)
{
    layout at = layout_of(from);
    void *memory_block = NULL;
    lw_status status = lw_memory_new(memory, at.total, 1, &memory_block);
    if (status != LW_OK) {
        return status;
    }
    char *block = memory_block;
    lw_polyhedron copy = *from;
    copy.planes = put(block, at.planes, at.vertices, from->planes);
    copy.vertices = put(block, at.vertices, at.same_as, from->vertices);
    copy.same_as = put(block, at.same_as, at.face_start, from->same_as);
    copy.face_start = put(block, at.face_start, at.face_vertex, from->face_start);
    copy.face_vertex = put(block, at.face_vertex, at.face_across, from->face_vertex);
    copy.face_across = put(block, at.face_across, at.vertex_start, from->face_across);
    copy.vertex_start = put(block, at.vertex_start, at.vertex_plane, from->vertex_start);
    copy.vertex_plane = put(block, at.vertex_plane, at.total, from->vertex_plane);
    *out = copy;
    return LW_OK;
}

void lw_polyhedron_destroy(const lw_memory *memory, lw_polyhedron *polyhedron)
{
    if (polyhedron->planes != NULL) {
        size_t bytes = layout_of(polyhedron).total;
        /* The block begins with the planes; lw_memory takes back what it gave, unqualified. */
        lw_memory_free(memory, (void *)(uintptr_t)polyhedron->planes, bytes, 1);
    }
    *polyhedron = (lw_polyhedron){.plane_count = 0};
}
