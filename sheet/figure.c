#include "sheet/figure.h"

#include "geom/angle.h"

#include <assert.h>
#include <math.h>

/* A face whose normal makes less than this with the view's plane (sine) is edge on. */
#define EDGE_ON 1e-6
/* Two sides of the preform whose normals agree better than this (cosine) are one round side. */
#define ROUND_SIDE 0.7

lw_view lw_view_of_side(lw_side side)
{
    assert(side == LW_SIDE_PAVILION || side == LW_SIDE_CROWN);
    double sign = side == LW_SIDE_CROWN ? 1.0 : -1.0;
    return (lw_view){.right = {0.0, -sign, 0.0}, .up = {1.0, 0.0, 0.0}, .toward = {0.0, 0.0, sign}};
}

lw_view lw_view_tipped(lw_side side, double azimuth_deg, double tilt_deg)
{
    assert(side == LW_SIDE_PAVILION || side == LW_SIDE_CROWN);
    double sign = side == LW_SIDE_CROWN ? 1.0 : -1.0;
    lw_sincos a = lw_sincos_deg(azimuth_deg);
    lw_sincos t = lw_sincos_deg(tilt_deg);
    lw_vec3 outward = {a.cos, a.sin, 0.0};
    lw_vec3 axis = {0.0, 0.0, sign};
    lw_vec3 toward = lw_vec3_add(lw_vec3_scale(axis, t.cos), lw_vec3_scale(outward, t.sin));
    lw_vec3 up = lw_vec3_sub(lw_vec3_scale(axis, t.sin), lw_vec3_scale(outward, t.cos));
    return (lw_view){.right = lw_vec3_cross(up, toward), .up = up, .toward = toward};
}

lw_spot lw_figure_project(const lw_figure *figure, lw_vec3 p)
{
    return (lw_spot){figure->middle.x + figure->scale * lw_vec3_dot(p, figure->view.right),
                     figure->middle.y - figure->scale * lw_vec3_dot(p, figure->view.up)};
}

lw_extent lw_figure_extent(const lw_figure *figure)
{
    lw_extent box = {HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < figure->solid->vertex_count; i++) {
        lw_spot at = lw_figure_project(figure, figure->solid->vertices[i]);
        box.left = fmin(box.left, at.x);
        box.right = fmax(box.right, at.x);
        box.top = fmin(box.top, at.y);
        box.bottom = fmax(box.bottom, at.y);
    }
    return box;
}

void lw_figure_fit(lw_figure *figure, double left, double top, double width, double height)
{
    figure->scale = 1.0;
    figure->middle = (lw_spot){0.0, 0.0};
    lw_extent box = lw_figure_extent(figure);
    if (box.right <= box.left || box.bottom <= box.top) {
        return;
    }
    figure->scale = fmin(width / (box.right - box.left), height / (box.bottom - box.top));
    figure->middle.x = left + 0.5 * width - 0.5 * (box.left + box.right) * figure->scale;
    figure->middle.y = top + 0.5 * height - 0.5 * (box.top + box.bottom) * figure->scale;
}

static bool faces_eye(const lw_figure *figure, int plane)
{
    const lw_polyhedron *solid = figure->solid;
    return plane < solid->plane_count &&
           lw_vec3_dot(solid->planes[plane].normal, figure->view.toward) > EDGE_ON;
}

static bool is_fresh(const lw_figure *figure, int plane)
{
    return plane >= figure->fresh_first && plane < figure->fresh_first + figure->fresh_count;
}

/* Light from the upper left, in front; a printer keeps greys apart between .55 and 1. */
static double lit_grey(const lw_figure *figure, int plane)
{
    lw_vec3 n = figure->solid->planes[plane].normal;
    double across = lw_vec3_dot(n, figure->view.right);
    double upward = lw_vec3_dot(n, figure->view.up);
    double toward = lw_vec3_dot(n, figure->view.toward);
    double lit = (-0.45 * across + 0.55 * upward + 0.7 * toward) / sqrt(0.995);
    return 0.62 + 0.38 * fmax(0.0, fmin(1.0, 0.5 + 0.5 * lit));
}

static double face_grey(const lw_figure *figure, int plane)
{
    if (is_fresh(figure, plane)) {
        return 0.72;
    }
    return figure->shaded ? lit_grey(figure, plane) : 1.0;
}

static void fill_face(const lw_figure *figure, lw_display_list *list, int plane)
{
    const lw_polyhedron *solid = figure->solid;
    int from = solid->face_start[plane];
    int count = solid->face_start[plane + 1] - from;
    lw_path_spot spots[64];
    /* A face of very many sides is filled as a fan of pieces; they join without a gap in print
     * because each is stroked with its own grey. */
    double grey = face_grey(figure, plane);
    lw_style style = {
        .filled = true, .fill = lw_grey(grey), .line_width = 0.25, .line = lw_grey(grey)};
    for (int done = 1; done + 1 < count; done += 60) {
        size_t n = 0;
        int last = done + 61 < count ? done + 61 : count;
        lw_vec3 hub = solid->vertices[solid->face_vertex[from]];
        spots[n++] = (lw_path_spot){LW_PATH_MOVE, lw_figure_project(figure, hub)};
        for (int i = done; i < last; i++) {
            lw_vec3 p = solid->vertices[solid->face_vertex[from + i]];
            spots[n++] = (lw_path_spot){LW_PATH_LINE, lw_figure_project(figure, p)};
        }
        spots[n++] = (lw_path_spot){LW_PATH_CLOSE, spots[0].at};
        lw_list_path(list, spots, n, &style);
    }
}

typedef enum weight { LINE_NONE, LINE_OLD, LINE_FRESH, LINE_OUTLINE, LINE_WEIGHTS } weight;

static const double line_widths[LINE_WEIGHTS] = {
    [LINE_OLD] = 0.45, [LINE_FRESH] = 0.8, [LINE_OUTLINE] = 1.1};

/* A drawing takes this many faces at full weight; more are drawn finer. */
#define FULL_WEIGHT_FACES 60
/* Below this share of the weight, lines between faces that lie nearly alike (cosine) are left out:
 * they would only make the drawing black. */
#define FINEST 0.3
#define ALIKE 0.985

static double fineness(const lw_figure *figure)
{
    int faces = 0;
    for (int i = figure->preform; i < figure->solid->plane_count; i++) {
        bool there = figure->solid->face_start[i + 1] > figure->solid->face_start[i];
        faces += there && faces_eye(figure, i);
    }
    return faces <= FULL_WEIGHT_FACES ? 1.0 : FULL_WEIGHT_FACES / (double)faces;
}

/* How heavy the line between two faces is. */
static weight weight_of(const lw_figure *figure, int plane, int across, double fine)
{
    if (!faces_eye(figure, across)) {
        return LINE_OUTLINE;
    }
    double along =
        lw_vec3_dot(figure->solid->planes[plane].normal, figure->solid->planes[across].normal);
    if (fine < FINEST && along > ALIKE) {
        return LINE_NONE;
    }
    bool round = plane < figure->preform && across < figure->preform;
    if (round && along > ROUND_SIDE) {
        return LINE_NONE;
    }
    return is_fresh(figure, plane) || is_fresh(figure, across) ? LINE_FRESH : LINE_OLD;
}

/* The lines of one weight around a face, each edge once; begun tells whether their mark is there.
 */
static void line_face(const lw_figure *figure, lw_display_list *list, int plane, weight want,
                      double fine, bool *begun)
{
    const lw_polyhedron *solid = figure->solid;
    int from = solid->face_start[plane];
    int count = solid->face_start[plane + 1] - from;
    lw_style style = {.line_width = line_widths[want] * (want == LINE_OUTLINE ? 1.0 : fine),
                      .line = lw_grey(0.0)};
    for (int i = 0; i < count; i++) {
        int across = solid->face_across[from + i];
        bool drawn = faces_eye(figure, across) && across < plane;
        if (drawn || weight_of(figure, plane, across, fine) != want) {
            continue;
        }
        lw_vec3 a = solid->vertices[solid->face_vertex[from + i]];
        lw_vec3 b = solid->vertices[solid->face_vertex[from + (i + 1) % count]];
        lw_spot ends[2] = {lw_figure_project(figure, a), lw_figure_project(figure, b)};
        if (*begun) {
            lw_list_extend(list, ends[0], ends[1]);
        } else {
            lw_list_line(list, ends[0], ends[1], &style);
            *begun = true;
        }
    }
}

void lw_figure_draw(const lw_figure *figure, lw_display_list *list)
{
    const lw_polyhedron *solid = figure->solid;
    for (int i = 0; i < solid->plane_count; i++) {
        bool shows = figure->covers || face_grey(figure, i) < 1.0;
        if (faces_eye(figure, i) && shows) {
            fill_face(figure, list, i);
        }
    }
    double fine = fineness(figure);
    for (int want = LINE_OLD; want < LINE_WEIGHTS; want++) {
        bool begun = false;
        for (int i = 0; i < solid->plane_count; i++) {
            if (faces_eye(figure, i)) {
                line_face(figure, list, i, (weight)want, fine, &begun);
            }
        }
    }
}

void lw_figure_ring(const lw_figure *figure, lw_display_list *list, lw_vec3 point, bool hidden)
{
    lw_spot at = lw_figure_project(figure, point);
    lw_style halo = {.line_width = 3.0, .line = lw_grey(1.0)};
    lw_style ring = {.line_width = 1.3, .line = lw_grey(0.0), .dash = hidden ? 2.0 : 0.0};
    lw_list_circle(list, at, 5.0, &halo);
    lw_list_circle(list, at, 5.0, &ring);
}
