/* What lies over the squares of a heat map: lines and marked places with their names. */
#include "sheet/heat_map_parts.h"

#include <math.h>
#include <string.h>

static const lw_type label_type = {LW_FACE_BOLD, 8.5, {0.05, 0.05, 0.05}};
static const double ring_radius = 4.5;

/* Every line and ring is drawn twice: broad and white, then dark; so that it stands out on any
 * square. */
static const lw_style under = {.line_width = 3.2, .line = {1.0, 1.0, 1.0}};

/* One path as far as it fits, so that dashes run on from corner to corner. */
enum { PATH_SPOTS = 256 };

static void polyline(const lw_heat_plot *p, const lw_heat_line *line, const lw_style *style,
                     lw_display_list *list)
{
    lw_path_spot path[PATH_SPOTS];
    for (int from = 0; from + 1 < line->count; from += PATH_SPOTS - 1) {
        int left = line->count - from;
        int count = left < PATH_SPOTS ? left : PATH_SPOTS;
        for (int i = 0; i < count; i++) {
            const lw_spot *s = &line->spots[from + i];
            path[i] =
                (lw_path_spot){i == 0 ? LW_PATH_MOVE : LW_PATH_LINE, lw_heat_spot(p, s->x, s->y)};
        }
        lw_list_path(list, path, (size_t)count, style);
    }
}

/* A tick every so often along the line, from the first half distance on. */
static void draw_ticks(const lw_heat_plot *p, const lw_heat_line *line, lw_display_list *list)
{
    static const double apart = 15.0, tall = 5.0;
    static const lw_style over = {.line_width = 1.3, .line = {0.05, 0.05, 0.05}};
    double left = 0.5 * apart; /* to the next tick */
    for (int i = 0; i + 1 < line->count; i++) {
        lw_spot a = lw_heat_spot(p, line->spots[i].x, line->spots[i].y);
        lw_spot b = lw_heat_spot(p, line->spots[i + 1].x, line->spots[i + 1].y);
        double x = b.x - a.x, y = b.y - a.y, length = hypot(x, y);
        for (; left < length; left += apart) {
            lw_spot at = {a.x + x * left / length, a.y + y * left / length};
            lw_spot end = {at.x + y * tall / length, at.y - x * tall / length};
            lw_list_line(list, at, end, &under);
            lw_list_line(list, at, end, &over);
        }
        left -= length;
    }
}

/* ---- labels ---- */

typedef struct taken {
    int count;
    lw_extent boxes[LW_HEAT_MOST_LINES + 2 * LW_HEAT_MOST_MARKS];
} taken;

static bool overlap(const lw_extent *a, const lw_extent *b)
{
    return a->left < b->right && b->left < a->right && a->top < b->bottom && b->top < a->bottom;
}

static bool is_open(const lw_heat_plot *p, const taken *t, const lw_extent *box)
{
    bool open = box->left >= p->left + 1.0 && box->right <= p->left + p->width - 1.0 &&
                box->top >= p->top + 1.0 && box->bottom <= p->top + p->height - 1.0;
    for (int i = 0; i < t->count && open; i++) {
        open = !overlap(&t->boxes[i], box);
    }
    return open;
}

/* Whether a line other than number own runs through the box. */
static bool covers_line(const lw_heat_plot *p, const lw_extent *box, int own)
{
    for (int i = 0; i < p->map->line_count; i++) {
        const lw_heat_line *line = &p->map->lines[i];
        for (int k = 0; k < line->count && i != own; k++) {
            lw_spot s = lw_heat_spot(p, line->spots[k].x, line->spots[k].y);
            if (s.x > box->left && s.x < box->right && s.y > box->top && s.y < box->bottom) {
                return true;
            }
        }
    }
    return false;
}

static lw_extent box_at(lw_spot middle, lw_text_size size)
{
    const double rim = 2.0;
    double half = 0.5 * size.width + rim, tall = 0.5 * (size.ascent + size.descent) + rim;
    return (lw_extent){middle.x - half, middle.y - tall, middle.x + half, middle.y + tall};
}

/* What is to be named. */
typedef struct named {
    const char *text;
    lw_spot at;
    double away;
    int line; /* its number; -1: a mark */
} named;

static void set_label(const named *n, taken *t, const lw_extent *box, lw_text_size size,
                      lw_display_list *list)
{
    static const lw_style ground = {.filled = true, .fill = {1.0, 1.0, 1.0}};
    lw_spot base = {0.5 * (box->left + box->right),
                    0.5 * (box->top + box->bottom + size.ascent - size.descent)};
    t->boxes[t->count++] = *box;
    lw_list_rectangle(list, (lw_spot){box->left, box->top}, box->right - box->left,
                      box->bottom - box->top, &ground);
    lw_list_text(list, base, LW_ALIGN_MIDDLE, &label_type, n->text, strlen(n->text));
}

/* Beside its place, where nothing else is: further and further off, clear of lines at first and
 * then over them. Left out where there is no room at all. */
static void label(const lw_heat_plot *p, const lw_metrics *metrics, taken *t, const named *n,
                  lw_display_list *list)
{
    static const double ways[][2] = {{1, 0},  {-1, 0},  {0, -1}, {0, 1},
                                     {1, -1}, {-1, -1}, {1, 1},  {-1, 1}};
    enum { WAYS = sizeof ways / sizeof ways[0], ROUNDS = 4 };
    lw_text_size size = metrics->measure(metrics->context, &label_type, n->text, strlen(n->text));
    for (int i = 0; i < 2 * ROUNDS * WAYS; i++) {
        double far = n->away + 10.0 * (i / WAYS % ROUNDS);
        const double *way = ways[i % WAYS];
        lw_spot middle = {n->at.x + way[0] * (0.5 * size.width + far),
                          n->at.y + way[1] * (0.5 * size.ascent + far)};
        lw_extent box = box_at(middle, size);
        bool over_lines = i >= ROUNDS * WAYS;
        if (is_open(p, t, &box) && (over_lines || !covers_line(p, &box, n->line))) {
            set_label(n, t, &box, size, list);
            return;
        }
    }
}

/* ---- lines ---- */

/* Where along a line its name stands: a share of its spots that differs from line to line, so that
 * lines which run side by side are named at different heights. */
static lw_spot named_at(const lw_heat_plot *p, const lw_heat_line *line, int number)
{
    static const double shares[] = {0.8, 0.5, 0.2, 0.65, 0.35};
    double share = shares[number % (int)(sizeof shares / sizeof shares[0])];
    const lw_spot *s = &line->spots[(int)(share * (line->count - 1))];
    return lw_heat_spot(p, s->x, s->y);
}

void lw_heat_draw_lines(const lw_heat_plot *p, lw_display_list *list)
{
    for (int i = 0; i < p->map->line_count; i++) {
        const lw_heat_line *line = &p->map->lines[i];
        lw_style over = {
            .line_width = 1.5, .line = {0.05, 0.05, 0.05}, .dash = line->dashed ? 5.0 : 0.0};
        polyline(p, line, &under, list);
        if (line->ticked) {
            draw_ticks(p, line, list);
        }
        polyline(p, line, &over, list);
    }
}

/* ---- marks ---- */

static void draw_mark(const lw_heat_plot *p, const lw_heat_mark *mark, lw_display_list *list)
{
    static const lw_style ring_under = {.line_width = 3.6, .line = {1.0, 1.0, 1.0}};
    lw_style over = {.line_width = 1.6,
                     .line = {0.05, 0.05, 0.05},
                     .filled = mark->filled,
                     .fill = {0.05, 0.05, 0.05}};
    lw_spot at = lw_heat_spot(p, mark->x, mark->y);
    lw_list_circle(list, at, ring_radius, &ring_under);
    lw_list_circle(list, at, ring_radius, &over);
}

/* Marks first, so that names keep clear of all of them. */
void lw_heat_draw_marks(const lw_heat_plot *p, const lw_metrics *metrics, lw_display_list *list)
{
    taken t = {.count = 0};
    int names = 0;
    for (int i = 0; i < p->map->mark_count; i++) {
        const lw_heat_mark *mark = &p->map->marks[i];
        lw_spot at = lw_heat_spot(p, mark->x, mark->y);
        double room = ring_radius + 1.5;
        t.boxes[t.count++] = (lw_extent){at.x - room, at.y - room, at.x + room, at.y + room};
        draw_mark(p, mark, list);
    }
    for (int i = 0; i < p->map->mark_count; i++) {
        const lw_heat_mark *mark = &p->map->marks[i];
        named n = {mark->label, lw_heat_spot(p, mark->x, mark->y), ring_radius + 5.0, -1};
        label(p, metrics, &t, &n, list);
    }
    for (int i = 0; i < p->map->line_count; i++) {
        const lw_heat_line *line = &p->map->lines[i];
        if (line->label != NULL && line->count > 0) {
            named n = {line->label, named_at(p, line, names++), 8.0, i};
            label(p, metrics, &t, &n, list);
        }
    }
}
