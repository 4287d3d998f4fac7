#include "sheet/beam_picture.h"

#include "geom/angle.h"
#include "sheet/beam_picture_parts.h"
#include "sheet/compass.h"
#include "sheet/figure.h"
#include "sheet/hatch.h"
#include "sheet/phrase.h"
#include "sheet/strength.h"
#include "sheet/text_flow.h"

#include <math.h>

/* Points. */
#define PAGE_WIDTH 684.0
#define PAGE_HEIGHT 500.0
#define MARGIN 24.0
#define FACE_TOP 62.0
#define FACE_SIZE 376.0
#define FACE_LEFT (MARGIN + TEETH_ROOM)
#define TEETH_ROOM 22.0
#define COLUMN_LEFT 470.0
#define COLUMN_WIDTH (PAGE_WIDTH - MARGIN - COLUMN_LEFT)

/* ---- the face ------------------------------------------------------------ */

/* The screen's axes turned so that tooth 0 stands at the top of the page. */
static lw_view view_of(const lw_beam_picture *picture)
{
    const lw_screen *screen = &picture->map->screen;
    lw_sincos turn = lw_sincos_deg(picture->turn_deg);
    lw_vec3 right =
        lw_vec3_sub(lw_vec3_scale(screen->up, turn.sin), lw_vec3_scale(screen->across, turn.cos));
    return (lw_view){right, lw_vec3_cross(screen->eye, right), screen->eye};
}

static lw_spot spot_of(const lw_beam_picture *picture, const lw_figure *figure, lw_spot2 at)
{
    const lw_screen *screen = &picture->map->screen;
    lw_vec3 p = lw_vec3_add(lw_vec3_scale(screen->across, at.a), lw_vec3_scale(screen->up, at.b));
    return lw_figure_project(figure, p);
}

static lw_figure face_figure(const lw_beam_picture *picture)
{
    lw_figure figure = {.solid = picture->solid, .view = view_of(picture)};
    lw_figure_fit(&figure, FACE_LEFT, FACE_TOP + TEETH_ROOM, FACE_SIZE, FACE_SIZE);
    return figure;
}

/* A patch on the page, in pieces of its corners where it has very many. */
static void draw_patch(const lw_beam_picture *picture, const lw_figure *figure,
                       const lw_beam_patch *patch, lw_display_list *list)
{
    enum { MOST = 64 };
    lw_spot spots[MOST];
    lw_ink ink = lw_strength_ink(patch->brightness);
    lw_style style = {.filled = true, .fill = ink, .line_width = 0.5, .line = ink};
    lw_patch_source source = lw_patch_source_of(patch);
    const lw_spot2 *corners = picture->map->corners + patch->first;
    for (int done = 1; done + 1 < patch->count; done += MOST - 2) {
        size_t count = 0;
        spots[count++] = spot_of(picture, figure, corners[0]);
        for (int i = done; i < patch->count && count < MOST; i++) {
            spots[count++] = spot_of(picture, figure, corners[i]);
        }
        lw_list_polygon(list, spots, count, &style);
        if (source == LW_PATCH_HEAD || source == LW_PATCH_BELOW) {
            lw_beam_hatch(list, spots, count, source, patch->brightness);
        }
    }
}

void lw_beam_hatch(lw_display_list *list, const lw_spot *corners, size_t count,
                   lw_patch_source source, double brightness)
{
    lw_hatch hatch = source == LW_PATCH_HEAD ? LW_HATCH_SLANTED : LW_HATCH_CROSSED;
    lw_hatch_draw(list, corners, count, hatch, 3.5, 0.55, lw_strength_mark_ink(brightness));
}

static bool faces_eye(const lw_figure *figure, int plane)
{
    return lw_vec3_dot(figure->solid->planes[plane].normal, figure->view.toward) > 1e-9;
}

/* All edges that the eye sees, as one mark. */
static void draw_edges(const lw_figure *figure, lw_display_list *list, const lw_style *style)
{
    const lw_polyhedron *solid = figure->solid;
    bool begun = false;
    for (int plane = 0; plane < solid->plane_count; plane++) {
        int from = solid->face_start[plane], count = solid->face_start[plane + 1] - from;
        for (int i = 0; i < count && faces_eye(figure, plane); i++) {
            int across = solid->face_across[from + i];
            if (across < plane && faces_eye(figure, across)) {
                continue;
            }
            lw_vec3 a = solid->vertices[solid->face_vertex[from + i]];
            lw_vec3 b = solid->vertices[solid->face_vertex[from + (i + 1) % count]];
            lw_spot p = lw_figure_project(figure, a), q = lw_figure_project(figure, b);
            if (begun) {
                lw_list_extend(list, p, q);
            } else {
                lw_list_line(list, p, q, style);
                begun = true;
            }
        }
    }
}

/* How far the outline reaches from the origin's place toward a direction of the page. */
static double reach(const lw_figure *figure, double across, double upward)
{
    double most = 0.0;
    for (int i = 0; i < figure->solid->vertex_count; i++) {
        lw_spot at = lw_figure_project(figure, figure->solid->vertices[i]);
        double along = (at.x - figure->middle.x) * across - (at.y - figure->middle.y) * upward;
        most = fmax(most, along);
    }
    return most;
}

/* How far from there the outline is left in that direction: by its tangents all round. */
static double way_out(const lw_figure *figure, double across, double upward)
{
    double least = HUGE_VAL;
    for (int deg = 0; deg < 360; deg += 2) {
        lw_sincos tangent = lw_sincos_deg(deg);
        double along = tangent.cos * across + tangent.sin * upward;
        if (along > 0.1) {
            least = fmin(least, reach(figure, tangent.cos, tangent.sin) / along);
        }
    }
    return least;
}

/* Numbers of teeth around the outline, at the quarters. */
static void draw_teeth(const lw_beam_picture *picture, const lw_figure *figure,
                       const lw_metrics *metrics, lw_display_list *list)
{
    lw_type type = {LW_FACE_PLAIN, 8.0, lw_grey(0.0)};
    lw_style tick = {.line_width = 0.6, .line = lw_grey(0.2)};
    for (int eighth = 0; eighth < 8; eighth += 2) {
        double azimuth_deg = 0.0;
        int tooth = lw_compass_tooth(picture->wheel, eighth, &azimuth_deg);
        lw_sincos at = lw_sincos_deg(azimuth_deg);
        lw_vec3 way = {at.cos, at.sin, 0.0};
        double x = lw_vec3_dot(way, figure->view.right), y = lw_vec3_dot(way, figure->view.up);
        double length = sqrt(x * x + y * y);
        double far = way_out(figure, x / length, y / length);
        lw_spot from = {figure->middle.x + x / length * (far + 3.0),
                        figure->middle.y - y / length * (far + 3.0)};
        lw_spot to = {from.x + x / length * 4.0, from.y - y / length * 4.0};
        lw_spot number = {from.x + x / length * 11.0, from.y - y / length * 11.0};
        lw_phrase text;
        lw_phrase_clear(&text);
        lw_phrase_whole(&text, tooth);
        lw_list_line(list, from, to, &tick);
        lw_compass_label(list, metrics, number, &type, text.text, false);
    }
}

static void draw_face(const lw_beam_picture *picture, const lw_metrics *metrics,
                      lw_display_list *list)
{
    lw_figure figure = face_figure(picture);
    for (size_t i = 0; i < picture->map->patch_count; i++) {
        draw_patch(picture, &figure, &picture->map->patches[i], list);
    }
    lw_style ground = {.line_width = 1.0, .line = lw_strength_ink(0.12)};
    lw_style line = {.line_width = 0.4, .line = lw_strength_ink(0.9)};
    draw_edges(&figure, list, &ground);
    draw_edges(&figure, list, &line);
    draw_teeth(picture, &figure, metrics, list);
}

/* ---- the page ------------------------------------------------------------ */

static double draw_heading(const lw_beam_picture *picture, const lw_metrics *metrics,
                           lw_display_list *list)
{
    lw_type bold = {LW_FACE_BOLD, 12.0, lw_grey(0.0)};
    lw_type plain = {LW_FACE_PLAIN, 9.0, lw_grey(0.15)};
    lw_flow flow;
    lw_flow_begin(&flow, list, metrics, MARGIN, MARGIN - 6.0, PAGE_WIDTH - 2.0 * MARGIN);
    lw_flow_add(&flow, &bold, picture->heading);
    lw_flow_break(&flow);
    lw_phrase text;
    lw_phrase_clear(&text);
    if (picture->place != NULL) {
        lw_phrase_add(&text, "In this place: ");
        lw_phrase_add_name(&text, picture->place, LW_LIGHT_PLACE_NAME);
        lw_phrase_add(&text, ". ");
    }
    lw_phrase_add(&text, "Refractive index ");
    lw_phrase_number(&text, picture->index, 4);
    lw_phrase_add(&text, ". Each patch sends one beam to the eye; pale is bright. The numbers are "
                         "teeth.");
    lw_flow_add(&flow, &plain, text.text);
    return lw_flow_end(&flow);
}

lw_status lw_beam_picture_compose(const lw_memory *memory, const lw_beam_picture *picture,
                                  const lw_metrics *metrics, lw_display_list *list)
{
    lw_list_page(list, PAGE_WIDTH, PAGE_HEIGHT);
    draw_heading(picture, metrics, list);
    draw_face(picture, metrics, list);
    lw_status status = lw_beam_column_draw(memory, picture, metrics, COLUMN_LEFT,
                                           FACE_TOP + TEETH_ROOM - 6.0, COLUMN_WIDTH, list);
    return status == LW_OK ? list->status : status;
}
