/* The pictures beside a step: the stone after it, and the wheel at its first tooth. */
#include "cut/teeth.h"
#include "sheet/figure.h"
#include "sheet/sheet_parts.h"
#include "sheet/wheel_picture.h"

#include <math.h>
#include <string.h>

/* Teeth of a tier up to which each has its number beside the stone. */
#define NUMBERED 16
/* Left around the stone for those numbers. */
#define RIM 14.0
/* How far a point may stand off the stone and still be on it: far below what a drawing shows. */
#define ON_STONE 1e-6

/* How far the solid reaches from its axis in a horizontal direction, at one height. */
static double reach_at(const lw_polyhedron *shape, lw_vec3 u, double z)
{
    double nearest = HUGE_VAL;
    for (int i = 0; i < shape->plane_count; i++) {
        const lw_plane *plane = &shape->planes[i];
        double lean = lw_vec3_dot(plane->normal, u);
        bool there = shape->face_start[i + 1] > shape->face_start[i];
        if (there && lean > 1e-9) {
            nearest = fmin(nearest, (plane->distance - plane->normal.z * z) / lean);
        }
    }
    return nearest == HUGE_VAL ? 0.0 : nearest;
}

/* The same at whatever height it reaches farthest: the solid is convex, so there is one top to
 * climb to. */
static double farthest_reach(const lw_polyhedron *shape, lw_vec3 u)
{
    double low = HUGE_VAL;
    double high = -HUGE_VAL;
    for (int i = 0; i < shape->vertex_count; i++) {
        low = fmin(low, shape->vertices[i].z);
        high = fmax(high, shape->vertices[i].z);
    }
    for (int i = 0; i < 24; i++) {
        double third = (high - low) / 3.0;
        if (reach_at(shape, u, low + third) < reach_at(shape, u, high - third)) {
            low += third;
        } else {
            high -= third;
        }
    }
    return reach_at(shape, u, 0.5 * (low + high));
}

static void put_number(const lw_strip *strip, lw_spot at, const lw_type *type, const char *text)
{
    lw_text_size size = strip->metrics->measure(strip->metrics->context, type, text, strlen(text));
    lw_spot base = {at.x, at.y + 0.5 * (size.ascent - size.descent)};
    lw_list_text(strip->list, base, LW_ALIGN_MIDDLE, type, text, strlen(text));
}

/* The numbers to dial, outside the outline where their facets lie; the first one strong. */
static void number_facets(const lw_strip *strip, const lw_figure *figure, const lw_scene *scene,
                          bool all)
{
    const lw_tier *tier = lw_scene_tier(scene);
    for (int i = tier->first; i < tier->first + (all ? tier->count : 1); i++) {
        const lw_facet *facet = &scene->stone->facets[i];
        lw_sincos at = lw_tooth_sincos(facet->tooth, scene->cut->wheel);
        lw_vec3 u = {at.cos, at.sin, 0.0};
        double reach = farthest_reach(figure->solid, u) + 8.0 / figure->scale;
        lw_phrase number;
        lw_phrase_clear(&number);
        lw_phrase_whole(&number, lw_scene_dial(scene, i).number);
        bool first = i == tier->first;
        lw_type type = {first ? LW_FACE_BOLD : LW_FACE_PLAIN, first ? 9.0 : 7.5, lw_grey(0.0)};
        put_number(strip, lw_figure_project(figure, lw_vec3_scale(u, reach)), &type, number.text);
    }
}

/* The first upright facet bears its number on its face, which looks at the reader. */
static void number_face(const lw_strip *strip, const lw_figure *figure, const lw_scene *scene)
{
    const lw_polyhedron *solid = figure->solid;
    int facet = lw_scene_tier(scene)->first;
    int plane = figure->preform + facet;
    int from = solid->face_start[plane];
    int count = solid->face_start[plane + 1] - from;
    if (count == 0) {
        return;
    }
    lw_vec3 sum = {0.0, 0.0, 0.0};
    double left = HUGE_VAL;
    double right = -HUGE_VAL;
    for (int i = from; i < from + count; i++) {
        lw_vec3 corner = solid->vertices[solid->face_vertex[i]];
        sum = lw_vec3_add(sum, corner);
        left = fmin(left, lw_figure_project(figure, corner).x);
        right = fmax(right, lw_figure_project(figure, corner).x);
    }
    lw_phrase number;
    lw_phrase_clear(&number);
    lw_phrase_whole(&number, lw_scene_dial(scene, facet).number);
    lw_type type = {LW_FACE_BOLD, 9.0, lw_grey(0.0)};
    double width =
        strip->metrics->measure(strip->metrics->context, &type, number.text, number.length).width;
    if (right - left < width + 3.0) {
        return; /* the wheel beside it has the number too */
    }
    lw_vec3 middle = lw_vec3_scale(sum, 1.0 / (double)count);
    put_number(strip, lw_figure_project(figure, middle), &type, number.text);
}

static bool is_upright(const lw_scene *scene)
{
    const lw_tier *tier = lw_scene_tier(scene);
    return tier->count > 0 && scene->stone->facets[tier->first].side == LW_SIDE_GIRDLE;
}

static bool is_level(const lw_scene *scene)
{
    const lw_tier *tier = lw_scene_tier(scene);
    return tier->count > 0 && fabs(scene->stone->facets[tier->first].plane.normal.z) > 1.0 - 1e-12;
}

/* A point that a rule names may lie beyond the stone, on lines drawn on; there is nothing to see
 * there. */
static bool on_stone(const lw_polyhedron *shape, lw_vec3 point)
{
    for (int i = 0; i < shape->plane_count; i++) {
        bool there = shape->face_start[i + 1] > shape->face_start[i];
        if (there && lw_plane_height(shape->planes[i], point) > ON_STONE) {
            return false;
        }
    }
    return true;
}

static void ring_meet(const lw_strip *strip, const lw_figure *figure, const lw_scene *scene)
{
    const lw_step *step = lw_scene_step(scene);
    for (int i = 0; i < step->rule_count; i++) {
        lw_vec3 point;
        if (lw_scene_point(scene, &step->rules[i], &point) && on_stone(figure->solid, point)) {
            lw_figure_ring(figure, strip->list, point, false);
        }
    }
}

/* A tier seen from the side that is turned up; upright facets, which would be lines from there,
 * with the stone tipped so that the first of them faces the reader. */
static double draw_stone(const lw_strip *strip, const lw_replay *replay, const lw_scene *scene,
                         double left, double top)
{
    const lw_tier *tier = lw_scene_tier(scene);
    lw_side facing = lw_scene_facing(scene);
    bool upright = is_upright(scene);
    lw_figure figure = {.solid = &replay->shape,
                        .preform = replay->preform,
                        .fresh_first = replay->preform + tier->first,
                        .fresh_count = tier->count,
                        .view = lw_view_of_side(facing)};
    if (upright) {
        double tooth = scene->stone->facets[tier->first].tooth;
        figure.view = lw_view_tipped(facing, tooth * 360.0 / (double)scene->cut->wheel, 62.0);
    }
    double size = LW_PICTURE_STONE - (upright ? 4.0 : 2.0 * RIM);
    double inset = upright ? 2.0 : RIM;
    lw_figure_fit(&figure, left + inset, top + inset, size, size);
    lw_figure_draw(&figure, strip->list);
    ring_meet(strip, &figure, scene);
    if (upright) {
        number_face(strip, &figure, scene);
    } else if (!is_level(scene)) {
        number_facets(strip, &figure, scene, tier->count <= NUMBERED);
    }
    return lw_figure_extent(&figure).bottom + inset;
}

/* The stone upright on its dop, for the steps that handle it. */
static double draw_held(const lw_strip *strip, const lw_replay *replay, const lw_scene *scene,
                        double left, double top)
{
    lw_figure figure = {.solid = &replay->shape,
                        .preform = replay->preform,
                        .covers = true,
                        .view = lw_view_tipped(lw_scene_facing(scene), 11.0, 84.0)};
    lw_figure_fit(&figure, left + 12.0, top, LW_PICTURE_STONE - 24.0, 62.0);
    lw_extent box = lw_figure_extent(&figure);
    double middle = 0.5 * (box.left + box.right);
    double half = 0.22 * (box.right - box.left);
    double low = box.bottom + 26.0;
    /* The dop goes behind the stone, so that its cup is hidden by it. */
    double shaft = 0.5 * half;
    const lw_spot dop[8] = {{middle - half, box.bottom - 5.0},
                            {middle + half, box.bottom - 5.0},
                            {middle + half, box.bottom + 8.0},
                            {middle + shaft, low - 10.0},
                            {middle + shaft, low},
                            {middle - shaft, low},
                            {middle - shaft, low - 10.0},
                            {middle - half, box.bottom + 8.0}};
    lw_style metal = {
        .filled = true, .fill = lw_grey(0.85), .line_width = 0.7, .line = lw_grey(0.0)};
    lw_list_polygon(strip->list, dop, 8, &metal);
    lw_figure_draw(&figure, strip->list);
    return low;
}

static double draw_wheel(const lw_strip *strip, const lw_scene *scene, const int *order,
                         double left, double top)
{
    const lw_tier *tier = lw_scene_tier(scene);
    lw_dial dials[LW_CUT_MOST_FACETS];
    for (int i = 0; i < tier->count; i++) {
        dials[i] = lw_scene_dial(scene, tier->first + order[i]);
    }
    lw_wheel_picture picture = {.kit = &scene->kit,
                                .dials = dials,
                                .count = tier->count,
                                .pointer_deg = strip->facts->pointer_deg};
    double radius = 0.5 * LW_PICTURE_WHEEL / 1.2;
    lw_spot middle = {left + 0.5 * LW_PICTURE_WHEEL, top + 0.5 * LW_PICTURE_STONE};
    lw_wheel_draw(&picture, strip->list, strip->metrics, middle, radius);
    return middle.y + 0.5 * LW_PICTURE_WHEEL;
}

double lw_strip_pictures(const lw_strip *strip, const lw_replay *replay, int step, const int *order,
                         double left, double top)
{
    lw_scene scene = lw_strip_scene(strip, step);
    if (lw_scene_tier(&scene)->count == 0) {
        return draw_held(strip, replay, &scene, left, top);
    }
    double below = draw_stone(strip, replay, &scene, left, top);
    double wheel = draw_wheel(strip, &scene, order, left + LW_PICTURE_STONE + 8.0, top);
    return fmax(below, wheel);
}
