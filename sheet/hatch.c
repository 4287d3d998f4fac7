#include "sheet/hatch.h"

#include <math.h>

typedef struct hatcher {
    lw_display_list *list;
    const lw_spot *corners;
    size_t count;
    lw_style style;
    bool begun;
} hatcher;

/* Along a line of slope way (1 or -1): x + way y = level, from one side of the polygon to the
 * other.
 */
static void draw_line(hatcher *h, double way, double level)
{
    lw_spot ends[2];
    int found = 0;
    for (size_t i = 0; i < h->count && found < 2; i++) {
        lw_spot p = h->corners[i], q = h->corners[(i + 1) % h->count];
        double above = p.x + way * p.y - level, beyond = q.x + way * q.y - level;
        if ((above < 0.0) == (beyond < 0.0)) {
            continue;
        }
        double share = above / (above - beyond);
        ends[found++] = (lw_spot){p.x + share * (q.x - p.x), p.y + share * (q.y - p.y)};
    }
    if (found < 2) {
        return;
    }
    if (h->begun) {
        lw_list_extend(h->list, ends[0], ends[1]);
    } else {
        lw_list_line(h->list, ends[0], ends[1], &h->style);
        h->begun = true;
    }
}

static void draw_way(hatcher *h, double way, double apart)
{
    double low = HUGE_VAL, high = -HUGE_VAL, step = apart * sqrt(2.0);
    for (size_t i = 0; i < h->count; i++) {
        double level = h->corners[i].x + way * h->corners[i].y;
        low = fmin(low, level);
        high = fmax(high, level);
    }
    for (double k = ceil(low / step); k * step < high; k += 1.0) {
        draw_line(h, way, k * step);
    }
}

void lw_hatch_draw(lw_display_list *list, const lw_spot *corners, size_t count, lw_hatch hatch,
                   double apart, double line_width, lw_ink ink)
{
    hatcher h = {.list = list,
                 .corners = corners,
                 .count = count,
                 .style = {.line_width = line_width, .line = ink}};
    draw_way(&h, 1.0, apart);
    if (hatch == LW_HATCH_CROSSED) {
        draw_way(&h, -1.0, apart);
    }
}
