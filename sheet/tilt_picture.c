#include "sheet/tilt_picture.h"

#include "geom/angle.h"
#include "sheet/compass.h"
#include "sheet/phrase.h"
#include "sheet/strength.h"
#include "sheet/text_flow.h"

#include <assert.h>
#include <math.h>

/* Points. */
#define PAGE_WIDTH 684.0
#define PAGE_HEIGHT 490.0
#define MARGIN 24.0
#define MAP_RADIUS 182.0
#define MAP_LEFT (MARGIN + 22.0)
#define MAP_TOP 88.0
#define COLUMN_LEFT 474.0
#define COLUMN_WIDTH (PAGE_WIDTH - MARGIN - COLUMN_LEFT)
/* Between two rings and spokes that were worked out the map is drawn in so many pieces each way. */
enum { PIECES = 3 };

static const lw_spot middle = {MAP_LEFT + MAP_RADIUS, MAP_TOP + MAP_RADIUS};
static const lw_type bold = {LW_FACE_BOLD, 9.5, {0.0, 0.0, 0.0}};
static const lw_type plain = {LW_FACE_PLAIN, 8.5, {0.1, 0.1, 0.1}};
static const lw_type small = {LW_FACE_PLAIN, 7.5, {0.1, 0.1, 0.1}};

/* A place on the map's grid, whole numbers where values are known. */
typedef struct grid_spot {
    double ring, spoke;
} grid_spot;

static double most_deg(const lw_tilt_picture *picture)
{
    return picture->tilt_deg[picture->rings - 1];
}

/* What the ends of the scale stand for, in tenths: all there is, and at least four tenths. */
typedef struct scale {
    double low, high;
} scale;

static scale scale_of(const lw_tilt_picture *picture)
{
    double low = 1.0, high = 0.0;
    for (int i = 0; i < picture->rings * picture->spokes; i++) {
        low = fmin(low, picture->brightness[i]);
        high = fmax(high, picture->brightness[i]);
    }
    low = fmax(floor(10.0 * low), 0.0);
    high = fmin(ceil(10.0 * high), 10.0);
    while (high - low < 4.0) {
        high = fmin(high + 1.0, 10.0);
        low = high - low < 4.0 ? fmax(low - 1.0, 0.0) : low;
    }
    return (scale){0.1 * low, 0.1 * high};
}

static double tilt_at(const lw_tilt_picture *picture, double ring)
{
    int low = (int)fmin(floor(ring), picture->rings - 2);
    double share = ring - low;
    return picture->tilt_deg[low] + share * (picture->tilt_deg[low + 1] - picture->tilt_deg[low]);
}

static lw_spot on_page(const lw_tilt_picture *picture, grid_spot at)
{
    double radius = MAP_RADIUS * tilt_at(picture, at.ring) / most_deg(picture);
    return lw_compass_spot(middle, radius, 360.0 * at.spoke / picture->spokes);
}

/* Between the four values around. */
static double value_at(const lw_tilt_picture *picture, const double *values, grid_spot at)
{
    int ring = (int)fmin(floor(at.ring), picture->rings - 2);
    int spoke = (int)floor(at.spoke) % picture->spokes;
    int next = (spoke + 1) % picture->spokes;
    double out = at.ring - ring, round = at.spoke - floor(at.spoke);
    const double *near = values + ring * picture->spokes;
    const double *far = near + picture->spokes;
    double inner = near[spoke] + round * (near[next] - near[spoke]);
    double outer = far[spoke] + round * (far[next] - far[spoke]);
    return inner + out * (outer - inner);
}

/* Over spokes first, first + step, … */
static double mean_of(const lw_tilt_picture *picture, const double *values, int ring, int first,
                      int step)
{
    double sum = 0.0;
    int count = 0;
    for (int spoke = first; spoke < picture->spokes; spoke += step) {
        sum += values[ring * picture->spokes + spoke];
        count++;
    }
    return sum / count;
}

/* ---- the map ------------------------------------------------------------- */

/* A piece reaches a little under those that are drawn after it, so that no gap shows. */
static void draw_piece(const lw_tilt_picture *picture, lw_display_list *list, const scale *range,
                       grid_spot from, double step)
{
    double out = fmin(from.ring + 1.2 * step, picture->rings - 1.0);
    double on = from.spoke + 1.2 * step;
    const grid_spot corners[4] = {from, {out, from.spoke}, {out, on}, {from.ring, on}};
    grid_spot centre = {from.ring + 0.5 * step, from.spoke + 0.5 * step};
    double value = value_at(picture, picture->brightness, centre);
    double strength = (value - range->low) / (range->high - range->low);
    lw_style style = {.filled = true, .fill = lw_strength_ink(strength)};
    lw_spot spots[4];
    for (int i = 0; i < 4; i++) {
        spots[i] = on_page(picture, corners[i]);
    }
    lw_list_polygon(list, spots, 4, &style);
}

static void draw_brightness(const lw_tilt_picture *picture, lw_display_list *list)
{
    const double step = 1.0 / PIECES;
    scale range = scale_of(picture);
    /* where a painter blends the sides of pieces with what lies under them, that is like them */
    for (int ring = picture->rings - 1; ring > 0; ring--) {
        double mean = mean_of(picture, picture->brightness, ring - 1, 0, 1);
        lw_ink ink = lw_strength_ink((mean - range.low) / (range.high - range.low));
        lw_style under = {.filled = true, .fill = ink};
        double radius = MAP_RADIUS * picture->tilt_deg[ring] / most_deg(picture);
        lw_list_circle(list, middle, radius, &under);
    }
    for (int ring = 0; ring < (picture->rings - 1) * PIECES; ring++) {
        for (int spoke = 0; spoke < picture->spokes * PIECES; spoke++) {
            draw_piece(picture, list, &range, (grid_spot){ring * step, spoke * step}, step);
        }
    }
}

/* ---- the window's line --------------------------------------------------- */

/* Ticks stand at least this far apart (points). */
#define TICKS_APART 9.0
enum { MOST_TICKS = 400 };

typedef struct line_drawer {
    const lw_tilt_picture *picture;
    lw_display_list *list;
    lw_style style;
    bool begun;
    int tick_count;
    lw_spot ticks[MOST_TICKS]; /* feet */
} line_drawer;

static void put_line(line_drawer *d, lw_spot from, lw_spot to)
{
    if (d->begun) {
        lw_list_extend(d->list, from, to);
    } else {
        lw_list_line(d->list, from, to, &d->style);
    }
    d->begun = true;
}

/* The line's two ends in a piece of the grid that it crosses, by its sides. */
static int crossings(const lw_tilt_picture *picture, const grid_spot corners[4], grid_spot ends[4])
{
    int found = 0;
    for (int i = 0; i < 4; i++) {
        grid_spot p = corners[i], q = corners[(i + 1) % 4];
        double a = value_at(picture, picture->window, p) - picture->window_shows;
        double b = value_at(picture, picture->window, q) - picture->window_shows;
        if ((a < 0.0) == (b < 0.0)) {
            continue;
        }
        double share = a / (a - b);
        ends[found++] =
            (grid_spot){p.ring + share * (q.ring - p.ring), p.spoke + share * (q.spoke - p.spoke)};
    }
    return found;
}

static bool is_free(line_drawer *d, lw_spot foot)
{
    for (int i = 0; i < d->tick_count; i++) {
        if (hypot(d->ticks[i].x - foot.x, d->ticks[i].y - foot.y) < TICKS_APART) {
            return false;
        }
    }
    if (d->tick_count == MOST_TICKS) {
        return false;
    }
    d->ticks[d->tick_count++] = foot;
    return true;
}

/* A tick from the middle of the line toward the side where the window shows. */
static void put_tick(line_drawer *d, grid_spot a, grid_spot b)
{
    const lw_tilt_picture *picture = d->picture;
    grid_spot at = {0.5 * (a.ring + b.ring), 0.5 * (a.spoke + b.spoke)};
    lw_spot p = on_page(picture, a), q = on_page(picture, b), m = on_page(picture, at);
    double length = hypot(q.x - p.x, q.y - p.y);
    if (length <= 0.0 || !is_free(d, m)) {
        return;
    }
    lw_spot across = {(q.y - p.y) / length, (p.x - q.x) / length};
    double out = 0.02, radius = hypot(m.x - middle.x, m.y - middle.y);
    double outward =
        (across.x * (m.x - middle.x) + across.y * (m.y - middle.y)) / fmax(radius, 1.0);
    grid_spot further = {fmin(at.ring + out, picture->rings - 1.0), at.spoke};
    bool rises = value_at(picture, picture->window, further) > picture->window_shows;
    double way = (outward >= 0.0) == rises ? 1.0 : -1.0;
    put_line(d, m, (lw_spot){m.x + 4.0 * way * across.x, m.y + 4.0 * way * across.y});
}

static void draw_line(line_drawer *d, bool ticks)
{
    const lw_tilt_picture *picture = d->picture;
    const double step = 1.0 / PIECES;
    for (int ring = 0; ring < (picture->rings - 1) * PIECES; ring++) {
        for (int spoke = 0; spoke < picture->spokes * PIECES; spoke++) {
            double r = ring * step, s = spoke * step;
            const grid_spot corners[4] = {
                {r, s}, {r + step, s}, {r + step, s + step}, {r, s + step}};
            grid_spot ends[4];
            int found = crossings(picture, corners, ends);
            for (int i = 0; i + 1 < found; i += 2) {
                put_line(d, on_page(picture, ends[i]), on_page(picture, ends[i + 1]));
                if (ticks) {
                    put_tick(d, ends[i], ends[i + 1]);
                }
            }
        }
    }
}

/* Whether there is a line at all. Dark on a pale ground, so that it is seen on any ink. */
static bool draw_window(const lw_tilt_picture *picture, lw_display_list *list)
{
    line_drawer ground = {
        .picture = picture, .list = list, .style = {.line_width = 3.0, .line = lw_grey(1.0)}};
    line_drawer line = {
        .picture = picture, .list = list, .style = {.line_width = 1.3, .line = lw_grey(0.0)}};
    draw_line(&ground, false);
    draw_line(&line, true);
    return line.begun;
}

/* ---- around it ----------------------------------------------------------- */

static void draw_rings(const lw_tilt_picture *picture, const lw_metrics *metrics,
                       lw_display_list *list)
{
    lw_style rim = {.line_width = 0.9, .line = lw_grey(0.0)};
    lw_style ring = {.line_width = 0.5, .line = lw_grey(0.0), .dash = 1.5};
    lw_list_circle(list, middle, MAP_RADIUS, &rim);
    for (double tilt = 10.0; tilt < most_deg(picture); tilt += 10.0) {
        lw_list_circle(list, middle, MAP_RADIUS * tilt / most_deg(picture), &ring);
    }
    lw_compass_teeth(list, metrics, middle, MAP_RADIUS, 14.0, picture->wheel);
}

/* On a spoke between two numbers of teeth. */
static void label_rings(const lw_tilt_picture *picture, const lw_metrics *metrics,
                        lw_display_list *list)
{
    for (double tilt = 10.0; tilt <= most_deg(picture) + 1e-9; tilt += 10.0) {
        lw_phrase text;
        lw_phrase_clear(&text);
        lw_phrase_number(&text, tilt, 0);
        lw_phrase_add(&text, "\u00B0");
        lw_spot at = lw_compass_spot(middle, MAP_RADIUS * tilt / most_deg(picture), 337.5);
        lw_compass_label(list, metrics, at, &small, text.text, true);
    }
}

static double say(lw_display_list *list, const lw_metrics *metrics, const lw_type *type,
                  lw_spot corner, double width, const char *text)
{
    lw_flow flow;
    lw_flow_begin(&flow, list, metrics, corner.x, corner.y, width);
    lw_flow_add(&flow, type, text);
    return lw_flow_end(&flow);
}

static bool is_settled(const lw_tilt_picture *picture, int ring)
{
    double half = mean_of(picture, picture->brightness, ring, 0, 2);
    double rest = mean_of(picture, picture->brightness, ring, 1, 2);
    return fabs(half - rest) <= picture->settled;
}

static void put_percent(lw_display_list *list, lw_spot at, double share, int decimals)
{
    lw_phrase text;
    lw_phrase_clear(&text);
    lw_phrase_number(&text, 100.0 * share, decimals);
    lw_phrase_add(&text, " %");
    lw_list_text(list, at, LW_ALIGN_RIGHT, &plain, text.text, text.length);
}

/* Brightness and window at each ten degrees, the mean over all directions. */
static double draw_table(const lw_tilt_picture *picture, const lw_metrics *metrics, lw_spot corner,
                         lw_display_list *list)
{
    double y = say(list, metrics, &bold, corner, COLUMN_WIDTH, "Mean over all directions") + 12.0;
    lw_list_text(list, (lw_spot){corner.x, y}, LW_ALIGN_LEFT, &plain, "tilt", 4);
    lw_list_text(list, (lw_spot){corner.x + 100.0, y}, LW_ALIGN_RIGHT, &plain, "brightness", 10);
    lw_list_text(list, (lw_spot){corner.x + 165.0, y}, LW_ALIGN_RIGHT, &plain, "window", 6);
    double due = 0.0;
    for (int ring = 0; ring < picture->rings; ring++) {
        double tilt = picture->tilt_deg[ring];
        if (tilt < due - 1e-9) {
            continue;
        }
        due = tilt + 10.0;
        y += 13.0;
        lw_phrase text;
        lw_phrase_clear(&text);
        lw_phrase_number(&text, tilt, fabs(tilt - round(tilt)) < 1e-9 ? 0 : 1);
        lw_phrase_add(&text, "\u00B0");
        lw_list_text(list, (lw_spot){corner.x, y}, LW_ALIGN_LEFT, &plain, text.text, text.length);
        lw_spot at = {corner.x + 100.0, y};
        if (is_settled(picture, ring)) {
            put_percent(list, at, mean_of(picture, picture->brightness, ring, 0, 1), 0);
        } else {
            lw_list_text(list, at, LW_ALIGN_RIGHT, &plain, "flashes", 7);
        }
        at.x += 65.0;
        put_percent(list, at, mean_of(picture, picture->window, ring, 0, 1), 1);
    }
    return y + 18.0;
}

static double draw_scale(const lw_tilt_picture *picture, const lw_metrics *metrics, lw_spot corner,
                         lw_display_list *list)
{
    corner.y = say(list, metrics, &bold, corner, COLUMN_WIDTH, "Brightness") + 4.0;
    lw_strength_bar(list, corner, COLUMN_WIDTH, 10.0);
    scale range = scale_of(picture);
    for (int i = 0; i < 3; i++) {
        lw_phrase number;
        lw_phrase_clear(&number);
        lw_phrase_number(&number, 100.0 * (range.low + 0.5 * i * (range.high - range.low)), 0);
        lw_phrase_add(&number, " %");
        lw_spot under = {corner.x + 0.5 * i * COLUMN_WIDTH, corner.y + 20.0};
        lw_align align = i == 0 ? LW_ALIGN_LEFT : i == 1 ? LW_ALIGN_MIDDLE : LW_ALIGN_RIGHT;
        lw_list_text(list, under, align, &small, number.text, number.length);
    }
    lw_phrase text;
    lw_phrase_clear(&text);
    lw_phrase_add(&text, "100\u00A0% is as bright as ");
    lw_phrase_add(&text, picture->place == NULL ? "the sky itself" : "what the place calls bright");
    corner.y =
        say(list, metrics, &plain, (lw_spot){corner.x, corner.y + 24.0}, COLUMN_WIDTH, text.text);
    return corner.y + 14.0;
}

/* The line's sample with its words. */
static double draw_window_key(const lw_tilt_picture *picture, const lw_metrics *metrics,
                              lw_spot corner, bool any, lw_display_list *list)
{
    corner.y = say(list, metrics, &bold, corner, COLUMN_WIDTH, "Window") + 4.0;
    lw_phrase text;
    lw_phrase_clear(&text);
    if (!any) {
        lw_phrase_add(&text, "No line: ");
        lw_phrase_add(&text, picture->window[0] >= picture->window_shows
                                 ? "a window is open in every direction of the map."
                                 : "no direction of the map shows one.");
        return say(list, metrics, &plain, corner, COLUMN_WIDTH, text.text) + 14.0;
    }
    lw_style line = {.line_width = 1.3, .line = lw_grey(0.0)};
    lw_spot from = {corner.x, corner.y + 7.0};
    lw_list_line(list, from, (lw_spot){from.x + 26.0, from.y}, &line);
    for (int i = 0; i < 3; i++) {
        lw_spot foot = {from.x + 4.0 + 9.0 * i, from.y};
        lw_list_extend(list, foot, (lw_spot){foot.x, foot.y - 4.0});
    }
    lw_phrase_add(&text, "Here it comes to ");
    lw_phrase_number(&text, 100.0 * picture->window_shows, 0);
    lw_phrase_add(&text, "\u00A0% of the face; it is larger on the side that the ticks point to.");
    lw_spot beside = {corner.x + 34.0, corner.y};
    return say(list, metrics, &plain, beside, COLUMN_WIDTH - 34.0, text.text) + 14.0;
}

static void draw_heading(const lw_tilt_picture *picture, const lw_metrics *metrics,
                         lw_display_list *list)
{
    lw_type head = {LW_FACE_BOLD, 12.0, lw_grey(0.0)};
    lw_type words = {LW_FACE_PLAIN, 9.0, lw_grey(0.1)};
    lw_spot corner = {MARGIN, MARGIN - 6.0};
    corner.y = say(list, metrics, &head, corner, PAGE_WIDTH - 2.0 * MARGIN, picture->heading);
    lw_phrase text;
    lw_phrase_clear(&text);
    if (picture->place != NULL) {
        lw_phrase_add(&text, "In this place: ");
        lw_phrase_add_name(&text, picture->place, 64);
        lw_phrase_add(&text, ". ");
    }
    lw_phrase_add(&text, "Refractive index ");
    lw_phrase_number(&text, picture->index, 4);
    lw_phrase_add(&text, ". ");
    lw_phrase_add(&text, picture->sentence);
    say(list, metrics, &words, corner, PAGE_WIDTH - 2.0 * MARGIN, text.text);
}

lw_status lw_tilt_picture_compose(const lw_tilt_picture *picture, const lw_metrics *metrics,
                                  lw_display_list *list)
{
    assert(picture->rings >= 2 && picture->spokes >= 3);
    lw_list_page(list, PAGE_WIDTH, PAGE_HEIGHT);
    draw_heading(picture, metrics, list);
    draw_brightness(picture, list);
    draw_rings(picture, metrics, list);
    bool any = draw_window(picture, list);
    label_rings(picture, metrics, list);
    lw_spot corner = {COLUMN_LEFT, MAP_TOP - 6.0};
    corner.y = say(list, metrics, &bold, corner, COLUMN_WIDTH, "How to read it");
    corner.y = say(list, metrics, &plain, corner, COLUMN_WIDTH,
                   "In the middle the stone is seen straight from above. The further out, the "
                   "further the eye leans from there (rings), toward the tooth on the rim.") +
               14.0;
    corner.y = draw_scale(picture, metrics, corner, list);
    corner.y = draw_window_key(picture, metrics, corner, any, list);
    draw_table(picture, metrics, corner, list);
    return list->status;
}
