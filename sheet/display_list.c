#include "sheet/display_list.h"

#include <assert.h>
#include <math.h>
#include <string.h>

void lw_list_init(lw_display_list *list, const lw_memory *memory)
{
    *list = (lw_display_list){.memory = *memory, .page = -1};
}

void lw_list_destroy(lw_display_list *list)
{
    const lw_memory *memory = &list->memory;
    lw_memory_free(memory, list->pages, list->page_room, sizeof *list->pages);
    lw_memory_free(memory, list->marks, list->mark_room, sizeof *list->marks);
    lw_memory_free(memory, list->spots, list->spot_room, sizeof *list->spots);
    lw_memory_free(memory, list->text, list->text_room, 1);
    *list = (lw_display_list){.memory = list->memory, .page = -1};
}

void lw_list_clear(lw_display_list *list)
{
    list->status = LW_OK;
    list->page = -1;
    list->page_count = list->mark_count = list->spot_count = list->text_count = 0;
}

/* Makes room for more items; false, and the list failed, when there is none. */
static bool grow(lw_display_list *list, void **items, size_t *room, size_t needed, size_t item_size)
{
    if (list->status == LW_OK) {
        list->status = lw_memory_reserve(&list->memory, items, room, needed, item_size);
    }
    return list->status == LW_OK;
}

static void fail(lw_display_list *list, lw_status status)
{
    if (list->status == LW_OK) {
        list->status = status;
    }
}

void lw_list_page(lw_display_list *list, double width, double height)
{
    if (list->page_count >= LW_LIST_MOST_PAGES) {
        fail(list, LW_TOO_LARGE);
    }
    void *pages = list->pages;
    bool room = grow(list, &pages, &list->page_room, list->page_count + 1, sizeof *list->pages);
    list->pages = pages;
    if (room) {
        list->page = (int)list->page_count;
        list->pages[list->page_count++] = (lw_page){width, height};
    }
}

void lw_list_turn_to(lw_display_list *list, int page)
{
    if (list->status == LW_OK) {
        assert(page >= 0 && (size_t)page < list->page_count);
        list->page = page;
    }
}

/* The next mark, kept out of the count until its content is in. NULL when the list failed. */
static lw_mark *new_mark(lw_display_list *list)
{
    if (list->mark_count >= LW_LIST_MOST_MARKS) {
        fail(list, LW_TOO_LARGE);
    }
    void *marks = list->marks;
    bool room = grow(list, &marks, &list->mark_room, list->mark_count + 1, sizeof *list->marks);
    list->marks = marks;
    if (!room) {
        return NULL;
    }
    assert(list->page >= 0);
    lw_mark *mark = &list->marks[list->mark_count];
    *mark = (lw_mark){.page = list->page};
    return mark;
}

void lw_list_path(lw_display_list *list, const lw_path_spot *spots, size_t count,
                  const lw_style *style)
{
    lw_mark *mark = count > 0 ? new_mark(list) : NULL;
    void *room = list->spots;
    bool fits = mark != NULL &&
                grow(list, &room, &list->spot_room, list->spot_count + count, sizeof *list->spots);
    list->spots = room;
    if (!fits) {
        return;
    }
    mark->kind = LW_MARK_PATH;
    mark->first = list->spot_count;
    mark->count = count;
    mark->style = *style;
    memcpy(list->spots + list->spot_count, spots, count * sizeof *spots);
    list->spot_count += count;
    list->mark_count++;
}

void lw_list_polygon(lw_display_list *list, const lw_spot *spots, size_t count,
                     const lw_style *style)
{
    lw_mark *mark = count > 1 ? new_mark(list) : NULL;
    void *room = list->spots;
    bool fits = mark != NULL && grow(list, &room, &list->spot_room, list->spot_count + count + 1,
                                     sizeof *list->spots);
    list->spots = room;
    if (!fits) {
        return;
    }
    mark->kind = LW_MARK_PATH;
    mark->first = list->spot_count;
    mark->count = count + 1;
    mark->style = *style;
    for (size_t i = 0; i < count; i++) {
        list->spots[list->spot_count++] =
            (lw_path_spot){i == 0 ? LW_PATH_MOVE : LW_PATH_LINE, spots[i]};
    }
    list->spots[list->spot_count++] = (lw_path_spot){LW_PATH_CLOSE, spots[0]};
    list->mark_count++;
}

void lw_list_line(lw_display_list *list, lw_spot from, lw_spot to, const lw_style *style)
{
    const lw_path_spot path[2] = {{LW_PATH_MOVE, from}, {LW_PATH_LINE, to}};
    lw_list_path(list, path, 2, style);
}

void lw_list_extend(lw_display_list *list, lw_spot from, lw_spot to)
{
    void *room = list->spots;
    bool fits = grow(list, &room, &list->spot_room, list->spot_count + 2, sizeof *list->spots);
    list->spots = room;
    if (!fits) {
        return;
    }
    assert(list->mark_count > 0);
    lw_mark *mark = &list->marks[list->mark_count - 1];
    assert(mark->kind == LW_MARK_PATH && mark->page == list->page);
    list->spots[list->spot_count++] = (lw_path_spot){LW_PATH_MOVE, from};
    list->spots[list->spot_count++] = (lw_path_spot){LW_PATH_LINE, to};
    mark->count += 2;
}

void lw_list_circle(lw_display_list *list, lw_spot middle, double radius, const lw_style *style)
{
    /* The cubic's handle for a quarter turn: off the circle by 2.7e-4 of the radius at most. */
    const double handle = 0.5522847498307936 * radius;
    static const double quarter[5][2] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 0}};
    lw_path_spot path[14];
    size_t n = 0;
    path[n++] = (lw_path_spot){LW_PATH_MOVE, {middle.x + radius, middle.y}};
    for (int i = 0; i < 4; i++) {
        const double *a = quarter[i];
        const double *b = quarter[i + 1];
        lw_spot from = {middle.x + a[0] * radius, middle.y + a[1] * radius};
        lw_spot to = {middle.x + b[0] * radius, middle.y + b[1] * radius};
        lw_spot first = {from.x + b[0] * handle, from.y + b[1] * handle};
        lw_spot second = {to.x + a[0] * handle, to.y + a[1] * handle};
        path[n++] = (lw_path_spot){LW_PATH_CURVE, first};
        path[n++] = (lw_path_spot){LW_PATH_CURVE, second};
        path[n++] = (lw_path_spot){LW_PATH_CURVE, to};
    }
    path[n++] = (lw_path_spot){LW_PATH_CLOSE, middle};
    lw_list_path(list, path, n, style);
}

void lw_list_rectangle(lw_display_list *list, lw_spot corner, double width, double height,
                       const lw_style *style)
{
    const lw_spot spots[4] = {corner,
                              {corner.x + width, corner.y},
                              {corner.x + width, corner.y + height},
                              {corner.x, corner.y + height}};
    lw_list_polygon(list, spots, 4, style);
}

void lw_list_text(lw_display_list *list, lw_spot at, lw_align align, const lw_type *type,
                  const char *text, size_t length)
{
    lw_mark *mark = length > 0 ? new_mark(list) : NULL;
    void *room = list->text;
    bool fits =
        mark != NULL && grow(list, &room, &list->text_room, list->text_count + length + 1, 1);
    list->text = room;
    if (!fits) {
        return;
    }
    mark->kind = LW_MARK_TEXT;
    mark->first = list->text_count;
    mark->count = length;
    mark->type = *type;
    mark->align = align;
    mark->at = at;
    memcpy(list->text + list->text_count, text, length);
    list->text[list->text_count + length] = '\0';
    list->text_count += length + 1;
    list->mark_count++;
}

static void append_path(lw_display_list *list, const lw_display_list *from, const lw_mark *mark,
                        double dx, double dy)
{
    size_t first = list->spot_count;
    lw_list_path(list, from->spots + mark->first, mark->count, &mark->style);
    for (size_t i = first; i < list->spot_count; i++) {
        list->spots[i].at.x += dx;
        list->spots[i].at.y += dy;
    }
}

void lw_list_append(lw_display_list *list, const lw_display_list *from, double dx, double dy)
{
    assert(list != from);
    fail(list, from->status);
    for (size_t i = 0; i < from->mark_count && list->status == LW_OK; i++) {
        const lw_mark *mark = &from->marks[i];
        if (mark->page != 0) {
            continue;
        }
        if (mark->kind == LW_MARK_PATH) {
            append_path(list, from, mark, dx, dy);
        } else {
            lw_list_text(list, (lw_spot){mark->at.x + dx, mark->at.y + dy}, mark->align,
                         &mark->type, from->text + mark->first, mark->count);
        }
    }
}

static void include(lw_extent *box, double left, double top, double right, double bottom)
{
    box->left = fmin(box->left, left);
    box->top = fmin(box->top, top);
    box->right = fmax(box->right, right);
    box->bottom = fmax(box->bottom, bottom);
}

static const lw_extent nothing = {HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL};

lw_extent lw_mark_extent(const lw_display_list *list, const lw_mark *mark,
                         const lw_metrics *metrics)
{
    lw_extent box = nothing;
    if (mark->kind == LW_MARK_TEXT) {
        lw_text_size size =
            metrics->measure(metrics->context, &mark->type, list->text + mark->first, mark->count);
        double share = mark->align == LW_ALIGN_LEFT     ? 0.0
                       : mark->align == LW_ALIGN_MIDDLE ? 0.5
                                                        : 1.0;
        double left = mark->at.x - share * size.width;
        include(&box, left, mark->at.y - size.ascent, left + size.width, mark->at.y + size.descent);
        return box;
    }
    double half = 0.5 * mark->style.line_width;
    for (size_t i = mark->first; i < mark->first + mark->count; i++) {
        if (list->spots[i].op != LW_PATH_CLOSE) {
            lw_spot at = list->spots[i].at;
            include(&box, at.x - half, at.y - half, at.x + half, at.y + half);
        }
    }
    return box;
}

lw_extent lw_list_extent(const lw_display_list *list, int page, const lw_metrics *metrics)
{
    lw_extent box = nothing;
    for (size_t i = 0; i < list->mark_count; i++) {
        if (list->marks[i].page == page) {
            lw_extent one = lw_mark_extent(list, &list->marks[i], metrics);
            include(&box, one.left, one.top, one.right, one.bottom);
        }
    }
    return box;
}
