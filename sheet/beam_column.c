/* What stands beside the face in the picture of beams: the sky's dial, and what the signs mean. */
#include "geom/angle.h"
#include "sheet/beam_picture_parts.h"
#include "sheet/compass.h"
#include "sheet/phrase.h"
#include "sheet/strength.h"
#include "sheet/text_flow.h"

#include <math.h>
#include <stdlib.h>

/* Points. */
#define SKY_RADIUS 76.0
/* Radius of a dot that brings one hundredth of the stone's brightness. */
#define HUNDREDTH 2.2
/* The smallest that is drawn. */
#define LEAST_DOT 0.25

static const lw_type bold = {LW_FACE_BOLD, 9.5, {0.0, 0.0, 0.0}};
static const lw_type plain = {LW_FACE_PLAIN, 8.5, {0.1, 0.1, 0.1}};
static const lw_type small = {LW_FACE_PLAIN, 7.0, {0.25, 0.25, 0.25}};

/* ---- the dots ------------------------------------------------------------ */

typedef struct dot {
    lw_vec3 way;
    long place_x, place_y; /* of its direction on a grid fine enough to part all that differ */
    bool below;
    double weight; /* what it brings, of the light on the face */
} dot;

static int by_place(const void *a, const void *b)
{
    const dot *p = a, *q = b;
    if (p->below != q->below) {
        return p->below ? 1 : -1;
    }
    if (p->place_x != q->place_x) {
        return p->place_x < q->place_x ? -1 : 1;
    }
    return (p->place_y > q->place_y) - (p->place_y < q->place_y);
}

/* The largest first. */
static int by_weight(const void *a, const void *b)
{
    const dot *p = a, *q = b;
    if (p->weight != q->weight) {
        return p->weight > q->weight ? -1 : 1;
    }
    return by_place(a, b);
}

static size_t gather(const lw_beam_map *map, dot *dots)
{
    size_t count = 0;
    for (size_t i = 0; i < map->patch_count; i++) {
        const lw_beam_patch *patch = &map->patches[i];
        double weight = patch->area * patch->strongest * patch->radiance;
        if (lw_patch_source_of(patch) == LW_PATCH_LIT) {
            dots[count++] = (dot){.way = patch->way,
                                  .place_x = lround(2000.0 * patch->way.x),
                                  .place_y = lround(2000.0 * patch->way.y),
                                  .below = patch->way.z < 0.0,
                                  .weight = weight};
        }
    }
    return count;
}

static size_t merge(dot *dots, size_t count)
{
    size_t kept = 0;
    qsort(dots, count, sizeof *dots, by_place);
    for (size_t i = 0; i < count; i++) {
        if (kept > 0 && by_place(&dots[kept - 1], &dots[i]) == 0) {
            dots[kept - 1].weight += dots[i].weight;
        } else {
            dots[kept++] = dots[i];
        }
    }
    qsort(dots, kept, sizeof *dots, by_weight);
    return kept;
}

static double sum(const dot *dots, size_t count)
{
    double all = 0.0;
    for (size_t i = 0; i < count; i++) {
        all += dots[i].weight;
    }
    return all;
}

/* What comes from below the girdle stands on the rim, as a ring. */
static void draw_dots(lw_display_list *list, lw_spot middle, const dot *dots, size_t count)
{
    double all = sum(dots, count);
    lw_ink ink = lw_strength_ink(0.22);
    for (size_t i = 0; i < count; i++) {
        double radius = HUNDREDTH * sqrt(100.0 * dots[i].weight / all);
        if (radius < LEAST_DOT) {
            continue;
        }
        lw_vec3 way = dots[i].way;
        double level = sqrt(way.x * way.x + way.y * way.y);
        if (dots[i].below && level > 0.0) {
            way = (lw_vec3){way.x / level, way.y / level, 0.0};
        }
        lw_style full = {.filled = true, .fill = ink, .line_width = 0.35, .line = lw_grey(1.0)};
        lw_style ring = {.line_width = 0.8, .line = ink};
        lw_list_circle(list, lw_compass_sky(middle, SKY_RADIUS, way), radius,
                       dots[i].below ? &ring : &full);
    }
}

/* ---- the dial ------------------------------------------------------------ */

/* The head's cone as it lies on the dial, where all of it is above the horizon; lined like the
 * patches that show it. */
static void draw_head(const lw_beam_picture *picture, lw_display_list *list, lw_spot middle)
{
    enum { CORNERS = 48 };
    double cosine = picture->surroundings->cos_head;
    lw_vec3 eye = picture->surroundings->eye, side = lw_compass_level(picture->turn_deg + 90.0);
    lw_vec3 third = lw_vec3_cross(eye, side);
    lw_spot spots[CORNERS];
    if (cosine >= 1.0) {
        return;
    }
    double sine = sqrt(1.0 - cosine * cosine);
    for (int i = 0; i < CORNERS; i++) {
        lw_sincos at = lw_sincos_deg(360.0 * i / CORNERS);
        lw_vec3 rim = lw_vec3_add(lw_vec3_scale(side, at.cos), lw_vec3_scale(third, at.sin));
        lw_vec3 way = lw_vec3_add(lw_vec3_scale(eye, cosine), lw_vec3_scale(rim, sine));
        if (way.z < 0.0) {
            way = lw_vec3_scale((lw_vec3){way.x, way.y, 0.0}, 1.0 / sqrt(1.0 - way.z * way.z));
        }
        spots[i] = lw_compass_sky(middle, SKY_RADIUS, way);
    }
    lw_style style = {
        .filled = true, .fill = lw_grey(1.0), .line_width = 0.6, .line = lw_strength_ink(0.1)};
    lw_list_polygon(list, spots, CORNERS, &style);
    lw_beam_hatch(list, spots, CORNERS, LW_PATCH_HEAD, 1.0);
}

static void draw_rings(lw_display_list *list, const lw_metrics *metrics, lw_spot middle, int wheel)
{
    lw_style rim = {.line_width = 0.9, .line = lw_grey(0.0)};
    lw_style ring = {.line_width = 0.4, .line = lw_grey(0.55), .dash = 2.0};
    lw_list_circle(list, middle, SKY_RADIUS, &rim);
    for (int up = 30; up <= 60; up += 30) {
        lw_vec3 way = {lw_sincos_deg(up).cos, 0.0, lw_sincos_deg(up).sin};
        double radius = middle.y - lw_compass_sky(middle, SKY_RADIUS, way).y;
        lw_list_circle(list, middle, radius, &ring);
    }
    lw_compass_teeth(list, metrics, middle, SKY_RADIUS, 12.0, wheel);
}

static void label_rings(lw_display_list *list, const lw_metrics *metrics, lw_spot middle)
{
    static const char *const texts[] = {"60\u00B0 up", "30\u00B0 up"};
    for (int i = 0; i < 2; i++) {
        lw_sincos up = lw_sincos_deg(60.0 - 30.0 * i);
        lw_spot at = lw_compass_sky(middle, SKY_RADIUS, (lw_vec3){0.0, 0.0, 1.0});
        at.y += SKY_RADIUS * sqrt(1.0 - up.sin);
        lw_compass_label(list, metrics, at, &small, texts[i], true);
    }
}

static lw_status draw_sky(const lw_memory *memory, const lw_beam_picture *picture,
                          const lw_metrics *metrics, lw_spot middle, lw_display_list *list)
{
    void *room = NULL;
    size_t most = picture->map->patch_count;
    lw_status status = lw_memory_new(memory, most, sizeof(dot), &room);
    if (status != LW_OK) {
        return status;
    }
    dot *dots = room;
    draw_rings(list, metrics, middle, picture->wheel);
    draw_head(picture, list, middle);
    draw_dots(list, middle, dots, merge(dots, gather(picture->map, dots)));
    label_rings(list, metrics, middle);
    lw_memory_free(memory, room, most, sizeof(dot));
    return LW_OK;
}

/* ---- the words ----------------------------------------------------------- */

static double share_of(const lw_beam_map *map, lw_patch_source source)
{
    double share = 0.0;
    for (size_t i = 0; i < map->patch_count; i++) {
        share += lw_patch_source_of(&map->patches[i]) == source ? map->patches[i].area : 0.0;
    }
    return share;
}

static double brightest(const lw_beam_map *map)
{
    double most = 0.0;
    for (size_t i = 0; i < map->patch_count; i++) {
        most = fmax(most, map->patches[i].brightness);
    }
    return most;
}

static double say(lw_display_list *list, const lw_metrics *metrics, const lw_type *type,
                  lw_spot corner, double width, const char *text)
{
    lw_flow flow;
    lw_flow_begin(&flow, list, metrics, corner.x, corner.y, width);
    lw_flow_add(&flow, type, text);
    return lw_flow_end(&flow);
}

static double draw_scale(const lw_beam_picture *picture, lw_spot corner, double width,
                         lw_display_list *list)
{
    bool over = brightest(picture->map) > 1.0;
    const char *full =
        picture->place == NULL ? "as bright as the sky itself" : "what the place calls bright";
    lw_strength_bar(list, corner, width, 10.0);
    lw_spot under = {corner.x, corner.y + 20.0};
    lw_list_text(list, under, LW_ALIGN_LEFT, &small, "dark", 4);
    under.x += width;
    lw_phrase text;
    lw_phrase_clear(&text);
    lw_phrase_add(&text, full);
    lw_phrase_add(&text, over ? ", or more" : "");
    lw_list_text(list, under, LW_ALIGN_RIGHT, &small, text.text, text.length);
    return corner.y + 28.0;
}

/* A swatch of a sign with its words; nothing where no patch has it. */
static double draw_sign(const lw_beam_picture *picture, const lw_metrics *metrics,
                        lw_patch_source source, const char *words, lw_spot corner, double width,
                        lw_display_list *list)
{
    double share = share_of(picture->map, source);
    if (share < 5e-4) {
        return corner.y;
    }
    const lw_spot box[4] = {corner,
                            {corner.x + 26.0, corner.y},
                            {corner.x + 26.0, corner.y + 16.0},
                            {corner.x, corner.y + 16.0}};
    lw_style style = {.filled = true, .fill = lw_strength_ink(0.12)};
    lw_list_polygon(list, box, 4, &style);
    lw_beam_hatch(list, box, 4, source, 0.12);
    lw_phrase text;
    lw_phrase_clear(&text);
    lw_phrase_add(&text, words);
    lw_phrase_number(&text, 100.0 * share, 1);
    lw_phrase_add(&text, "\u00A0% of the face");
    lw_spot beside = {corner.x + 34.0, corner.y - 2.0};
    double y = say(list, metrics, &plain, beside, width - 34.0, text.text);
    return fmax(y, corner.y + 16.0) + 7.0;
}

static double draw_key(const lw_beam_picture *picture, const lw_metrics *metrics, lw_spot corner,
                       double width, lw_display_list *list)
{
    corner.y = say(list, metrics, &bold, corner, width, "What the patches show") + 4.0;
    corner.y = draw_scale(picture, corner, width, list);
    corner.y = draw_sign(picture, metrics, LW_PATCH_HEAD, "lined: most of all the viewer's head; ",
                         corner, width, list);
    return draw_sign(picture, metrics, LW_PATCH_BELOW,
                     "crossed: most of all what lies below the girdle; ", corner, width, list);
}

static const char *sky_words(const lw_beam_picture *picture)
{
    if (picture->place == NULL) {
        return "The sky over the stone, its middle straight above the table. Light comes from each "
               "dot; the larger the dot, the more of the stone's brightness it brings. The lined "
               "disc is the viewer's head.";
    }
    return "What stands over the stone, the middle straight above the table. Light comes from each "
           "dot; the larger the dot, the more of the stone's brightness it brings. A ring at the "
           "edge: from below the girdle plane. The lined disc is the viewer's head.";
}

lw_status lw_beam_column_draw(const lw_memory *memory, const lw_beam_picture *picture,
                              const lw_metrics *metrics, double left, double top, double width,
                              lw_display_list *list)
{
    lw_spot corner = {left, top};
    corner.y = say(list, metrics, &bold, corner, width, "Where the light comes from");
    lw_spot middle = {left + 0.5 * width, corner.y + SKY_RADIUS + 20.0};
    lw_status status = draw_sky(memory, picture, metrics, middle, list);
    corner.y = middle.y + SKY_RADIUS + 20.0;
    corner.y = say(list, metrics, &plain, corner, width, sky_words(picture)) + 12.0;
    draw_key(picture, metrics, corner, width, list);
    return status;
}
