/* The index wheel as the cutter sees it at the machine: from behind, the stone beyond it, the first
 * tooth of the step under the machine's own pointer and the step's other teeth marked. */
#ifndef LW_SHEET_WHEEL_PICTURE_H
#define LW_SHEET_WHEEL_PICTURE_H

#include "cut/dial.h"
#include "sheet/display_list.h"

typedef struct lw_wheel_picture {
    const lw_dial_kit *kit;
    const lw_dial *dials; /* the first is under the pointer */
    int count;            /* at least 1 */
    double pointer_deg;   /* where the machine has its pointer: 0 at the top, clockwise */
} lw_wheel_picture;

/* radius is that of the wheel's rim; the pointer stands up to a sixth of it outside. */
void lw_wheel_draw(const lw_wheel_picture *picture, lw_display_list *list,
                   const lw_metrics *metrics, lw_spot middle, double radius);

#endif
