/* From the workshop to the arrays that the rest reads. */
#include "geom/solid_parts.h"

#include <assert.h>
#include <string.h>

/* What a face is called outside: its label, the start cube's after all planes. */
static int outer_name(const lw_solid *solid, int face)
{
    int label = solid->face_label[face];
    return label >= 0 ? label : solid->plane_count + (LW_NONE - 1 - label);
}

static void list_faces_by_label(lw_solid *solid)
{
    for (int i = 0; i < solid->plane_count + LW_CUBE_FACES; i++) {
        solid->label_face[i] = LW_NONE;
    }
    for (int face = 0; face < solid->face_count; face++) {
        if (solid->face_edge[face] != LW_NONE) {
            solid->label_face[outer_name(solid, face)] = face;
        }
    }
}

static int number_of(lw_solid *solid, int corner, int *count)
{
    int number = solid->corner_number[corner];
    if (number == LW_NONE) {
        number = solid->corner_number[corner] = (*count)++;
        solid->out_vertices[number] = solid->corners[corner].at;
        solid->out_vertex_start[number + 1] = 0;
    }
    return number;
}

static void write_rings(lw_solid *solid, int *vertex_count)
{
    int written = 0;
    for (int label = 0; label < solid->plane_count; label++) {
        solid->out_face_start[label] = written;
        int face = solid->label_face[label];
        if (face == LW_NONE) {
            continue;
        }
        int first = solid->face_edge[face], h = first;
        do {
            const lw_half_edge *edge = &solid->edges[h];
            int number = number_of(solid, edge->from, vertex_count);
            solid->out_face_vertex[written] = number;
            solid->out_vertex_start[number + 1]++;
            solid->out_face_across[written] = outer_name(solid, solid->edges[h ^ 1].face);
            written++;
            h = edge->next;
        } while (h != first);
    }
    solid->out_face_start[solid->plane_count] = written;
}

/* Corners that only faces of the start cube have. */
static void number_the_rest(lw_solid *solid, int *vertex_count)
{
    for (int corner = 0; solid->cube_left > 0 && corner < solid->corner_used; corner++) {
        if (solid->corners[corner].edge != LW_NONE) {
            number_of(solid, corner, vertex_count);
        }
    }
}

/* Goes through all pairs of a vertex and a plane through it, ascending in the planes except for
 * those that only touch, and notes each: first how many a vertex has, then which. */
static void note(lw_solid *solid, int vertex, int name, bool counting)
{
    if (counting) {
        solid->out_vertex_start[vertex + 1]++;
    } else {
        solid->out_vertex_plane[solid->cursor[vertex]++] = name;
    }
}

static void note_rings(lw_solid *solid)
{
    for (int label = 0; label < solid->plane_count; label++) {
        int end = solid->out_face_start[label + 1];
        for (int i = solid->out_face_start[label]; i < end; i++) {
            note(solid, solid->out_face_vertex[i], label, false);
        }
    }
}

static void note_cube(lw_solid *solid, bool counting)
{
    for (int i = 0; i < LW_CUBE_FACES; i++) {
        int name = solid->plane_count + i, face = solid->label_face[name];
        if (face == LW_NONE) {
            continue;
        }
        int first = solid->face_edge[face], h = first;
        do {
            note(solid, solid->corner_number[solid->edges[h].from], name, counting);
            h = solid->edges[h].next;
        } while (h != first);
    }
}

static void note_touches(lw_solid *solid, bool counting)
{
    for (int i = 0; i < solid->corner_used; i++) {
        int touch = solid->corners[i].edge == LW_NONE ? LW_NONE : solid->corners[i].touch;
        for (; touch != LW_NONE; touch = solid->touches[touch].next) {
            int name = outer_name(solid, solid->touches[touch].face);
            note(solid, solid->corner_number[i], name, counting);
        }
    }
}

/* Insertion: the lists are short and all but sorted. */
static void sort_planes(int *planes, int count)
{
    for (int i = 1; i < count; i++) {
        int plane = planes[i], j = i;
        for (; j > 0 && planes[j - 1] > plane; j--) {
            planes[j] = planes[j - 1];
        }
        planes[j] = plane;
    }
}

static void note_rest(lw_solid *solid, bool counting)
{
    if (solid->cube_left > 0) {
        note_cube(solid, counting);
    }
    if (solid->touch_count > 0) {
        note_touches(solid, counting);
    }
}

/* Incidences of the rings are counted already. */
static void write_vertex_planes(lw_solid *solid, int vertex_count)
{
    int *start = solid->out_vertex_start;
    start[0] = 0;
    note_rest(solid, true);
    for (int i = 0; i < vertex_count; i++) {
        solid->cursor[i] = start[i];
        start[i + 1] += start[i];
    }
    note_rings(solid);
    note_rest(solid, false);
    for (int i = 0; i < vertex_count && solid->touch_count > 0; i++) {
        sort_planes(solid->out_vertex_plane + start[i], start[i + 1] - start[i]);
    }
}

/* Chains of coincident planes end at the one that has the face. */
static void settle_same(lw_solid *solid)
{
    for (int i = 0; i < solid->plane_count; i++) {
        solid->same_as[i] = solid->same_as[solid->same_as[i]];
    }
}

void lw_solid_extract(lw_solid *solid, lw_polyhedron *out)
{
    memset(solid->corner_number, 0xFF, (size_t)solid->corner_used * sizeof(int));
    settle_same(solid);
    list_faces_by_label(solid);
    int vertex_count = 0;
    write_rings(solid, &vertex_count);
    number_the_rest(solid, &vertex_count);
    write_vertex_planes(solid, vertex_count);
    *out = (lw_polyhedron){
        .plane_count = solid->plane_count,
        .vertex_count = vertex_count,
        .same_point = solid->same_point,
        .planes = solid->planes,
        .same_as = solid->same_as,
        .vertices = solid->out_vertices,
        .face_start = solid->out_face_start,
        .face_vertex = solid->out_face_vertex,
        .face_across = solid->out_face_across,
        .vertex_start = solid->out_vertex_start,
        .vertex_plane = solid->out_vertex_plane,
    };
}
