#include "sheet/heat_map.h"

#include "sheet/heat_map_parts.h"
#include "sheet/phrase.h"
#include "sheet/strength.h"
#include "sheet/text_flow.h"

#include <math.h>
#include <string.h>

/* The page, in points. */
static const double page_width = 520.0;
static const double margin = 28.0;
static const double left_room = 44.0, right_room = 70.0, below_room = 40.0;
static const double plot_side = 360.0;
static const lw_type heading_type = {LW_FACE_BOLD, 11.0, {0.1, 0.1, 0.1}};
static const lw_type axis_type = {LW_FACE_PLAIN, 9.0, {0.1, 0.1, 0.1}};
static const lw_type note_type = {LW_FACE_PLAIN, 9.0, {0.2, 0.2, 0.2}};
static const lw_style frame_style = {.line_width = 0.7, .line = {0.2, 0.2, 0.2}};
static const lw_style tick_style = {.line_width = 0.7, .line = {0.2, 0.2, 0.2}};

/* ---- ticks ---- */

lw_ticks lw_ticks_for(double low, double high, int most)
{
    double rough = (high - low) / most, power = pow(10.0, floor(log10(rough)));
    static const double steps[] = {1.0, 2.0, 5.0, 10.0};
    int s = 0;
    while (s < 3 &&
           (floor(high / (steps[s] * power)) - ceil(low / (steps[s] * power)) + 1.0 > most)) {
        s++;
    }
    double apart = steps[s] * power;
    double from = ceil(low / apart - 1e-9), to = floor(high / apart + 1e-9);
    int decimals = (int)ceil(-log10(apart) - 1e-9);
    return (lw_ticks){.first = from * apart,
                      .apart = apart,
                      .count = to < from ? 0 : (int)(to - from) + 1,
                      .decimals = decimals < 0   ? 0
                                  : decimals > 6 ? 6
                                                 : decimals};
}

static void tick_text(const lw_ticks *ticks, int i, char *text, size_t capacity)
{
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_number(&phrase, ticks->first + i * ticks->apart, ticks->decimals);
    size_t length = strlen(phrase.text) < capacity ? strlen(phrase.text) : capacity - 1;
    memcpy(text, phrase.text, length);
    text[length] = '\0';
}

/* ---- where things are ---- */

/* Half a square lies beyond the first and the last value, so that all squares are whole. */
static lw_heat_axis with_rims(const lw_heat_axis *axis)
{
    double half = 0.5 * (axis->high - axis->low) / (axis->count - 1);
    return (lw_heat_axis){axis->title, axis->low - half, axis->high + half, axis->count};
}

static void lay_out(lw_heat_plot *p, double top)
{
    p->x = with_rims(&p->map->x);
    p->y = with_rims(&p->map->y);
    p->left = margin + left_room;
    p->top = top;
    p->width = page_width - 2.0 * margin - left_room - right_room;
    p->height = plot_side;
}

lw_spot lw_heat_spot(const lw_heat_plot *p, double x, double y)
{
    return (lw_spot){p->left + p->width * (x - p->x.low) / (p->x.high - p->x.low),
                     p->top + p->height * (p->y.high - y) / (p->y.high - p->y.low)};
}

/* ---- squares ---- */

static bool find_range(lw_heat_plot *p)
{
    p->least = INFINITY;
    p->most = -INFINITY;
    for (int i = 0; i < p->map->x.count * p->map->y.count; i++) {
        double value = p->map->values[i];
        if (!isnan(value)) {
            p->least = fmin(p->least, value);
            p->most = fmax(p->most, value);
        }
    }
    return p->least <= p->most;
}

double lw_heat_strength(const lw_heat_plot *p, double value)
{
    return p->most > p->least ? (value - p->least) / (p->most - p->least) : 0.5;
}

/* Each reaches a little over the next ones, which are painted after it, so that no gap shows. */
static void draw_squares(const lw_heat_plot *p, lw_display_list *list)
{
    int columns = p->map->x.count, rows = p->map->y.count;
    double width = p->width / columns, height = p->height / rows, over = 1.0;
    for (int row = rows - 1; row >= 0; row--) {
        for (int column = 0; column < columns; column++) {
            double value = p->map->values[row * columns + column];
            lw_spot corner = {p->left + column * width, p->top + (rows - 1 - row) * height};
            if (!isnan(value)) {
                lw_style style = {.filled = true,
                                  .fill = lw_strength_ink(lw_heat_strength(p, value))};
                lw_list_rectangle(list, corner, width + (column + 1 < columns ? over : 0.0),
                                  height + (row > 0 ? over : 0.0), &style);
            }
        }
    }
}

/* Where there is no value: white, with a slanted line in every square. */
static void draw_holes(const lw_heat_plot *p, lw_display_list *list)
{
    static const lw_style white = {.filled = true, .fill = {1.0, 1.0, 1.0}};
    static const lw_style slant = {.line_width = 0.6, .line = {0.45, 0.45, 0.45}};
    int columns = p->map->x.count, rows = p->map->y.count;
    double width = p->width / columns, height = p->height / rows;
    for (int i = 0; i < columns * rows; i++) {
        if (isnan(p->map->values[i])) {
            int column = i % columns, row = i / columns;
            double left = p->left + column * width, top = p->top + (rows - 1 - row) * height;
            lw_list_rectangle(list, (lw_spot){left, top}, width, height, &white);
            lw_list_line(list, (lw_spot){left, top + height}, (lw_spot){left + width, top}, &slant);
        }
    }
}

/* ---- axes and scale ---- */

static void draw_x_axis(const lw_heat_plot *p, lw_display_list *list)
{
    lw_ticks ticks = lw_ticks_for(p->map->x.low, p->map->x.high, 9);
    double bottom = p->top + p->height;
    char text[40];
    for (int i = 0; i < ticks.count; i++) {
        lw_spot at = lw_heat_spot(p, ticks.first + i * ticks.apart, p->y.low);
        lw_list_line(list, at, (lw_spot){at.x, at.y + 4.0}, &tick_style);
        tick_text(&ticks, i, text, sizeof text);
        lw_list_text(list, (lw_spot){at.x, bottom + 14.0}, LW_ALIGN_MIDDLE, &axis_type, text,
                     strlen(text));
    }
    lw_list_text(list, (lw_spot){p->left + 0.5 * p->width, bottom + 29.0}, LW_ALIGN_MIDDLE,
                 &axis_type, p->map->x.title, strlen(p->map->x.title));
}

/* Its title stands above it, level, as one reads it. */
static void draw_y_axis(const lw_heat_plot *p, lw_display_list *list)
{
    lw_ticks ticks = lw_ticks_for(p->map->y.low, p->map->y.high, 9);
    char text[40];
    for (int i = 0; i < ticks.count; i++) {
        lw_spot at = lw_heat_spot(p, p->x.low, ticks.first + i * ticks.apart);
        lw_list_line(list, at, (lw_spot){at.x - 4.0, at.y}, &tick_style);
        tick_text(&ticks, i, text, sizeof text);
        lw_list_text(list, (lw_spot){at.x - 7.0, at.y + 3.2}, LW_ALIGN_RIGHT, &axis_type, text,
                     strlen(text));
    }
    lw_list_text(list, (lw_spot){margin, p->top - 8.0}, LW_ALIGN_LEFT, &axis_type, p->map->y.title,
                 strlen(p->map->y.title));
}

static void draw_scale(const lw_heat_plot *p, lw_display_list *list)
{
    enum { STEPS = 96 };
    double left = p->left + p->width + 18.0, width = 14.0, step = p->height / STEPS;
    for (int i = 0; i < STEPS; i++) {
        lw_style style = {.filled = true, .fill = lw_strength_ink(1.0 - (i + 0.5) / STEPS)};
        lw_list_rectangle(list, (lw_spot){left, p->top + i * step}, width,
                          step + (i + 1 < STEPS ? 1.0 : 0.0), &style);
    }
    lw_list_rectangle(list, (lw_spot){left, p->top}, width, p->height, &frame_style);
    lw_list_text(list, (lw_spot){left + width, p->top - 8.0}, LW_ALIGN_RIGHT, &axis_type,
                 p->map->value_title, strlen(p->map->value_title));
    if (!(p->most > p->least)) {
        return;
    }
    lw_ticks ticks = lw_ticks_for(p->least, p->most, 9);
    char text[40];
    for (int i = 0; i < ticks.count; i++) {
        double share = lw_heat_strength(p, ticks.first + i * ticks.apart);
        lw_spot at = {left + width, p->top + p->height * (1.0 - share)};
        lw_list_line(list, at, (lw_spot){at.x + 4.0, at.y}, &tick_style);
        tick_text(&ticks, i, text, sizeof text);
        lw_list_text(list, (lw_spot){at.x + 7.0, at.y + 3.2}, LW_ALIGN_LEFT, &axis_type, text,
                     strlen(text));
    }
}

/* ---- the page ---- */

static double flow(lw_display_list *list, const lw_metrics *metrics, const lw_type *type,
                   double top, const char *const *texts, int count)
{
    lw_flow text;
    lw_flow_begin(&text, list, metrics, margin, top, page_width - 2.0 * margin);
    text.leading = 2.0;
    for (int i = 0; i < count; i++) {
        lw_flow_add(&text, type, texts[i]);
        lw_flow_break(&text);
    }
    return lw_flow_end(&text);
}

/* The page is as high as its notes are long, which is known when they have been set: a first
 * setting, on a list of its own, tells. */
static lw_status height_of(const lw_heat_map *map, const lw_metrics *metrics,
                           const lw_memory *memory, double *top, double *whole)
{
    lw_display_list trial;
    lw_list_init(&trial, memory);
    lw_list_page(&trial, page_width, page_width);
    *top = flow(&trial, metrics, &heading_type, margin, &map->heading, 1) + 30.0;
    *whole = *top + plot_side + below_room;
    *whole = flow(&trial, metrics, &note_type, *whole, map->notes, map->note_count) + margin;
    lw_status status = trial.status;
    lw_list_destroy(&trial);
    return status;
}

lw_status lw_heat_map_compose(const lw_heat_map *map, const lw_metrics *metrics,
                              lw_display_list *list)
{
    lw_heat_plot plot = {.map = map};
    double top = 0.0, height = 0.0;
    if (!find_range(&plot)) {
        return LW_BAD_INPUT;
    }
    lw_status status = height_of(map, metrics, &list->memory, &top, &height);
    if (status != LW_OK) {
        return status;
    }
    lay_out(&plot, top);
    lw_list_page(list, page_width, height);
    flow(list, metrics, &heading_type, margin, &map->heading, 1);
    draw_squares(&plot, list);
    draw_holes(&plot, list);
    lw_heat_draw_lines(&plot, list);
    lw_list_rectangle(list, (lw_spot){plot.left, plot.top}, plot.width, plot.height, &frame_style);
    draw_x_axis(&plot, list);
    draw_y_axis(&plot, list);
    draw_scale(&plot, list);
    lw_heat_draw_marks(&plot, metrics, list);
    flow(list, metrics, &note_type, plot.top + plot.height + below_room, map->notes,
         map->note_count);
    return list->status;
}
