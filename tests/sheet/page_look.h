/* What must hold of any page: nothing cut off, no text over other text. */
#ifndef LW_TESTS_SHEET_PAGE_LOOK_H
#define LW_TESTS_SHEET_PAGE_LOOK_H

#include "sheet/display_list.h"

/* Fails the test where anything comes nearer than border (points) to the edge of its page. */
void page_look_within(const lw_display_list *list, const lw_metrics *metrics, double border,
                      const char *name);

/* Fails the test where two runs of text lie over one another. */
void page_look_apart(const lw_display_list *list, const lw_metrics *metrics, const char *name);

#endif
