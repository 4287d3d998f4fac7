/* Taking away what a sweep found outside, and closing the hole with a new face. */
#include "geom/solid_parts.h"

#include <assert.h>
#include <math.h>

static void link_edges(lw_solid *solid, int first, int second)
{
    solid->edges[first].next = second;
    solid->edges[second].prev = first;
}

static int new_corner(lw_solid *solid)
{
    int corner = solid->corner_free;
    if (corner != LW_NONE) {
        solid->corner_free = solid->corners[corner].touch;
    } else {
        corner = solid->corner_used++;
        assert(corner < solid->corner_room);
    }
    lw_corner *c = &solid->corners[corner];
    c->mark = 0;
    c->touch = LW_NONE;
    return corner;
}

static int new_edge(lw_solid *solid)
{
    int edge = solid->edge_free;
    if (edge != LW_NONE) {
        solid->edge_free = solid->edges[edge].next;
    } else {
        edge = solid->edge_used;
        solid->edge_used += 2;
        assert(solid->edge_used <= solid->edge_room);
    }
    return edge;
}

static void free_edge(lw_solid *solid, int half_edge)
{
    int edge = half_edge & ~1;
    solid->edges[edge].next = solid->edge_free;
    solid->edge_free = edge;
}

static void free_corner(lw_solid *solid, int corner)
{
    lw_solid_drop_touches(solid, corner);
    solid->corners[corner].edge = LW_NONE;
    solid->corners[corner].touch = solid->corner_free;
    solid->corner_free = corner;
}

void lw_solid_add_touch(lw_solid *solid, int corner, int face)
{
    int touch = solid->touch_free;
    if (touch != LW_NONE) {
        solid->touch_free = solid->touches[touch].next;
    } else {
        touch = solid->touch_used++;
        assert(touch < solid->touch_room);
    }
    solid->touches[touch] = (lw_touch){face, solid->corners[corner].touch};
    solid->corners[corner].touch = touch;
    solid->touch_count++;
}

/* Takes the touch that *link leads to out of its list. */
static void unlink_touch(lw_solid *solid, int *link)
{
    int touch = *link;
    *link = solid->touches[touch].next;
    solid->touches[touch].next = solid->touch_free;
    solid->touch_free = touch;
    solid->touch_count--;
}

void lw_solid_drop_touches(lw_solid *solid, int corner)
{
    while (solid->corners[corner].touch != LW_NONE) {
        unlink_touch(solid, &solid->corners[corner].touch);
    }
}

void lw_solid_drop_touch(lw_solid *solid, int corner, int face)
{
    int *link = &solid->corners[corner].touch;
    while (*link != LW_NONE) {
        if (solid->touches[*link].face == face) {
            unlink_touch(solid, link);
        } else {
            link = &solid->touches[*link].next;
        }
    }
}

/* A plane that touches both ends of an edge touches all of it. */
static void inherit_touches(lw_solid *solid, int corner, int end, int other_end)
{
    int first = solid->corners[end].touch;
    for (int i = first; i != LW_NONE; i = solid->touches[i].next) {
        int j = solid->corners[other_end].touch;
        while (j != LW_NONE && solid->touches[j].face != solid->touches[i].face) {
            j = solid->touches[j].next;
        }
        if (j != LW_NONE) {
            lw_solid_add_touch(solid, corner, solid->touches[i].face);
        }
    }
}

/* Puts a new corner where the plane cuts a half-edge that leaves the outside: between its ends, by
 * their heights. */
static void place(lw_solid *solid, const lw_plane *plane, int half_edge, int corner)
{
    const lw_half_edge *h = &solid->edges[half_edge], *back = &solid->edges[half_edge ^ 1];
    const lw_corner *out = &solid->corners[h->from], *in = &solid->corners[back->from];
    double share = out->height / (out->height - in->height);
    if (!(in->height < 0.0) || !(out->height > 0.0)) { /* only after lw_solid_resweep */
        share = in->height < 0.0 ? 0.0 : 1.0;
    }
    lw_vec3 line =
        lw_vec3_cross(solid->face_plane[h->face].normal, solid->face_plane[back->face].normal);
    double det = lw_vec3_dot(line, plane->normal);
    lw_corner *c = &solid->corners[corner];
    bool ill_set = fabs(det) < LW_ILL_SET;
    c->ill_set = ill_set;
    if (ill_set && fabs(det) > LW_TOO_ILL_SET) {
        share = lw_solid_refined_share(solid, plane, half_edge, share, det);
    }
    c->at = (lw_vec3){out->at.x + share * (in->at.x - out->at.x),
                      out->at.y + share * (in->at.y - out->at.y),
                      out->at.z + share * (in->at.z - out->at.z)};
}

/* The corner of the new face on a half-edge that leaves the outside: a new one, or the one on the
 * plane that is there. */
static int border_corner(lw_solid *solid, const lw_plane *plane, int half_edge)
{
    int to = lw_edge_to(solid, half_edge);
    if (lw_corner_side_of(solid, to) != LW_SIDE_IN) {
        return to;
    }
    int corner = new_corner(solid);
    place(solid, plane, half_edge, corner);
    if (solid->touch_count > 0) {
        inherit_touches(solid, corner, solid->edges[half_edge].from, to);
    }
    return corner;
}

static void face_vanishes(lw_solid *solid, int face)
{
    solid->face_edge[face] = LW_NONE;
    solid->cube_left -= solid->face_label[face] < 0;
}

static void touch_if_numbered(lw_solid *solid, int corner, int face)
{
    if (solid->face_label[face] >= 0) {
        lw_solid_add_touch(solid, corner, face);
    }
}

/* A face that keeps an area gets a new side from a to b. Gives the new face's half of it. */
static int cut_across(lw_solid *solid, int enter, int leave, int a, int b, int face)
{
    lw_half_edge *edges = solid->edges;
    int before = enter ^ 1, after = leave, old = edges[enter ^ 1].face;
    if (edges[enter ^ 1].from == a) {
        before = edges[enter ^ 1].prev;
    }
    if (edges[leave ^ 1].from == b) {
        after = edges[leave].next;
    } else {
        edges[leave].from = b;
    }
    int side = new_edge(solid);
    edges[side] = (lw_half_edge){.next = after, .prev = before, .from = a, .face = old};
    edges[side + 1].from = b;
    edges[side + 1].face = face;
    edges[before].next = side;
    edges[after].prev = side;
    solid->face_edge[old] = side;
    solid->corners[a].edge = side; /* each corner of the new face is a, once */
    return side + 1;
}

/* A face that keeps only its edge from b to a, or only one corner: it goes, and touches there. */
static int face_gives_way(lw_solid *solid, int old, int along, int a, int b, int face)
{
    face_vanishes(solid, old);
    touch_if_numbered(solid, a, old);
    if (a == b) {
        return LW_NONE;
    }
    touch_if_numbered(solid, b, old);
    solid->edges[along].face = face;
    solid->corners[a].edge = along ^ 1;
    return along;
}

/* One step of the border, from a on the edge enter to b on leave. Gives the new face's half-edge on
 * it, from b to a; LW_NONE for a point. */
static int border_edge(lw_solid *solid, bool on_plane, int enter, int leave, int a, int b, int face)
{
    const lw_half_edge *edges = solid->edges;
    if (on_plane && edges[enter ^ 1].from == a && edges[leave ^ 1].from == b) {
        int along = edges[leave].next;
        if (a == b || edges[along ^ 1].from == a) {
            return face_gives_way(solid, edges[enter ^ 1].face, along, a, b, face);
        }
    }
    return cut_across(solid, enter, leave, a, b, face);
}

/* Goes round the border; the new face's ring runs against the walk. An edge from the outside to a
 * corner on the plane goes when both steps at it are done. */
static void close_hole(lw_solid *solid, const lw_sweep *sweep, int face)
{
    int enter = solid->crossing[0], start = border_corner(solid, &sweep->plane, enter), a = start;
    int first = LW_NONE, later = LW_NONE;
    for (int i = 1; i <= sweep->steps; i++) {
        int leave = solid->crossing[i];
        int b = i < sweep->steps ? border_corner(solid, &sweep->plane, leave) : start;
        int h = border_edge(solid, sweep->on > 0, enter, leave, a, b, face);
        if (sweep->on > 0 && i > 1 && lw_edge_to(solid, enter) == a) {
            free_edge(solid, enter);
        }
        if (h != LW_NONE && later != LW_NONE) {
            link_edges(solid, h, later);
        }
        first = first == LW_NONE ? h : first;
        later = h == LW_NONE ? later : h;
        enter = leave;
        a = b;
    }
    if (sweep->on > 0 && lw_edge_to(solid, enter) == start) {
        free_edge(solid, enter);
    }
    link_edges(solid, first, later);
    solid->face_edge[face] = later;
    solid->last = start;
}

/* When the outside corners and their edges form a tree, no face lay wholly among them. Corners on
 * the plane gain the new face even where its ring does not pass them. */
static void drop_outside(lw_solid *solid, const lw_sweep *sweep, int face)
{
    bool tree = sweep->lost < sweep->outside;
    for (int i = 0; i < sweep->lost; i++) {
        int h = solid->lost_edges[i];
        for (int half = h; half <= h + 1 && !tree; half++) {
            int old = solid->edges[half].face;
            if (solid->face_stamp[old] != solid->stamp && solid->face_edge[old] != LW_NONE) {
                face_vanishes(solid, old);
            }
        }
        free_edge(solid, h);
    }
    for (int i = 0; i < sweep->queued; i++) {
        int corner = solid->queue[i];
        lw_corner_side side = lw_corner_side_of(solid, corner);
        if (side == LW_SIDE_OUT) {
            free_corner(solid, corner);
            continue;
        }
        if (solid->corners[corner].ill_set && side != LW_SIDE_IN) {
            lw_solid_settle_corner(solid, corner, sweep->plane);
        }
        if (side == LW_SIDE_ON) {
            lw_solid_add_touch(solid, corner, face);
        }
    }
}

void lw_solid_trim(lw_solid *solid, lw_sweep *sweep, int face)
{
    close_hole(solid, sweep, face);
    drop_outside(solid, sweep, face);
}
