#include "sheet/wheel_picture.h"

#include "geom/angle.h"
#include "sheet/phrase.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Numbers on the picture stand at least this far apart, as a share of its radius. */
#define NUMBER_APART 0.34

/* A place on the picture: turned clockwise from the top by deg, at a share of the radius. */
static lw_spot place(lw_spot middle, double radius, double deg, double share)
{
    lw_sincos at = lw_sincos_deg(deg);
    return (lw_spot){middle.x + radius * share * at.sin, middle.y - radius * share * at.cos};
}

/* Where a position on the dial stands, clockwise from the top. */
static double turned_deg(const lw_wheel_picture *picture, double position)
{
    const lw_dial *first = &picture->dials[0];
    double tooth_deg = 360.0 / (double)picture->kit->wheel;
    double ahead = (position - (double)first->number) * tooth_deg - first->cheater_deg;
    bool clockwise = picture->kit->counts == LW_COUNTS_CLOCKWISE;
    return picture->pointer_deg + (clockwise ? ahead : -ahead);
}

static double dial_deg(const lw_wheel_picture *picture, const lw_dial *dial)
{
    double tooth_deg = 360.0 / (double)picture->kit->wheel;
    return turned_deg(picture, (double)dial->number + dial->cheater_deg / tooth_deg);
}

/* Every tooth, or every fifth or tenth where a whole wheel of them would run together. */
static void draw_teeth(const lw_wheel_picture *picture, lw_display_list *list, lw_spot middle,
                       double radius)
{
    int wheel = picture->kit->wheel;
    int every = wheel <= 130 ? 1 : wheel <= 600 ? 5 : 10;
    lw_style tick = {.line_width = 0.4, .line = lw_grey(0.35)};
    for (int tooth = 0; tooth < wheel; tooth += every) {
        double deg = turned_deg(picture, (double)tooth);
        lw_list_line(list, place(middle, radius, deg, 1.0), place(middle, radius, deg, 0.93),
                     &tick);
    }
}

/* Marks that crowd the rim are drawn finer, so that they stay apart. */
static void draw_mark(const lw_wheel_picture *picture, lw_display_list *list, lw_spot middle,
                      double radius, double deg)
{
    double room = 2.0 * LW_PI * radius / (double)picture->count;
    lw_style bar = {.line_width = fmin(1.8, 0.4 * room), .line = lw_grey(0.0)};
    lw_list_line(list, place(middle, radius, deg, 1.0), place(middle, radius, deg, 0.83), &bar);
}

static bool is_free(const lw_spot *taken, int count, lw_spot at, double apart)
{
    for (int i = 0; i < count; i++) {
        if (hypot(taken[i].x - at.x, taken[i].y - at.y) < apart) {
            return false;
        }
    }
    return true;
}

static void draw_number(lw_display_list *list, const lw_metrics *metrics, lw_spot at,
                        const lw_type *type, const char *text)
{
    lw_text_size size = metrics->measure(metrics->context, type, text, strlen(text));
    lw_spot base = {at.x, at.y + 0.5 * (size.ascent - size.descent)};
    lw_list_text(list, base, LW_ALIGN_MIDDLE, type, text, strlen(text));
}

/* Numbers beside the marks, the first always, the others where there is room. */
static void draw_numbers(const lw_wheel_picture *picture, lw_display_list *list,
                         const lw_metrics *metrics, lw_spot middle, double radius)
{
    enum { MOST_NUMBERS = 24 };
    lw_spot taken[MOST_NUMBERS];
    int count = 0;
    for (int i = 0; i < picture->count && count < MOST_NUMBERS; i++) {
        lw_spot at = place(middle, radius, dial_deg(picture, &picture->dials[i]), 0.68);
        if (!is_free(taken, count, at, NUMBER_APART * radius)) {
            continue;
        }
        lw_phrase number;
        lw_phrase_clear(&number);
        lw_phrase_whole(&number, picture->dials[i].number);
        lw_type type = {i == 0 ? LW_FACE_BOLD : LW_FACE_PLAIN, radius * 0.2, lw_grey(0.0)};
        draw_number(list, metrics, at, &type, number.text);
        taken[count++] = at;
    }
}

static void draw_pointer(const lw_wheel_picture *picture, lw_display_list *list, lw_spot middle,
                         double radius)
{
    lw_spot tip = place(middle, radius, picture->pointer_deg, 1.01);
    lw_spot left = place(middle, radius, picture->pointer_deg - 4.5, 1.16);
    lw_spot right = place(middle, radius, picture->pointer_deg + 4.5, 1.16);
    const lw_spot wedge[3] = {tip, left, right};
    lw_style solid = {.filled = true, .fill = lw_grey(0.0)};
    lw_list_polygon(list, wedge, 3, &solid);
}

/* An arc with a head, the way the numbers rise. */
static void draw_sense(const lw_wheel_picture *picture, lw_display_list *list, lw_spot middle,
                       double radius)
{
    double way = picture->kit->counts == LW_COUNTS_CLOCKWISE ? 1.0 : -1.0;
    lw_path_spot arc[10];
    for (int i = 0; i < 10; i++) {
        lw_spot at = place(middle, radius, way * (-110.0 + 22.0 * i), 0.3);
        arc[i] = (lw_path_spot){i == 0 ? LW_PATH_MOVE : LW_PATH_LINE, at};
    }
    lw_style line = {.line_width = 0.9, .line = lw_grey(0.25)};
    lw_list_path(list, arc, 10, &line);
    const lw_spot head[3] = {place(middle, radius, way * 116.0, 0.3),
                             place(middle, radius, way * 86.0, 0.38),
                             place(middle, radius, way * 86.0, 0.22)};
    lw_style solid = {.filled = true, .fill = lw_grey(0.25)};
    lw_list_polygon(list, head, 3, &solid);
}

void lw_wheel_draw(const lw_wheel_picture *picture, lw_display_list *list,
                   const lw_metrics *metrics, lw_spot middle, double radius)
{
    assert(picture->count >= 1);
    lw_style rim = {.line_width = 0.8, .line = lw_grey(0.0)};
    lw_list_circle(list, middle, radius, &rim);
    draw_teeth(picture, list, middle, radius);
    for (int i = 0; i < picture->count; i++) {
        draw_mark(picture, list, middle, radius, dial_deg(picture, &picture->dials[i]));
    }
    draw_numbers(picture, list, metrics, middle, radius);
    draw_pointer(picture, list, middle, radius);
    draw_sense(picture, list, middle, radius);
}
