#include "sheet/page_look.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

/* The middle of a run of text, where ink must not meet ink: without the leading and a little of the
 * sides. */
static lw_extent core_of(const lw_display_list *list, const lw_mark *mark,
                         const lw_metrics *metrics)
{
    lw_extent box = lw_mark_extent(list, mark, metrics);
    double height = box.bottom - box.top;
    return (lw_extent){box.left + 0.5, box.top + 0.3 * height, box.right - 0.5,
                       box.bottom - 0.3 * height};
}

static bool overlap(lw_extent a, lw_extent b)
{
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

void page_look_apart(const lw_display_list *list, const lw_metrics *metrics, const char *name)
{
    lw_extent *boxes = malloc((list->mark_count + 1) * sizeof *boxes);
    assert_non_null(boxes);
    for (size_t i = 0; i < list->mark_count; i++) {
        if (list->marks[i].kind == LW_MARK_TEXT) {
            boxes[i] = core_of(list, &list->marks[i], metrics);
        }
    }
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *a = &list->marks[i];
        for (size_t k = i + 1; k < list->mark_count && a->kind == LW_MARK_TEXT; k++) {
            const lw_mark *b = &list->marks[k];
            if (b->kind == LW_MARK_TEXT && a->page == b->page && overlap(boxes[i], boxes[k])) {
                fail_msg("%s, page %d: \"%s\" lies over \"%s\"", name, a->page + 1,
                         list->text + a->first, list->text + b->first);
            }
        }
    }
    free(boxes);
}

void page_look_within(const lw_display_list *list, const lw_metrics *metrics, double border,
                      const char *name)
{
    for (size_t page = 0; page < list->page_count; page++) {
        lw_extent box = lw_list_extent(list, (int)page, metrics);
        lw_page size = list->pages[page];
        if (box.left < border || box.top < border || box.right > size.width - border ||
            box.bottom > size.height - border) {
            fail_msg("%s, page %zu: %.1f %.1f .. %.1f %.1f on %.1f x %.1f", name, page + 1,
                     box.left, box.top, box.right, box.bottom, size.width, size.height);
        }
    }
}
