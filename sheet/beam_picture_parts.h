/* Within the picture of beams. */
#ifndef LW_SHEET_BEAM_PICTURE_PARTS_H
#define LW_SHEET_BEAM_PICTURE_PARTS_H

#include "sheet/beam_picture.h"

/* Lines for the head, crossed ones for what lies below. */
void lw_beam_hatch(lw_display_list *list, const lw_spot *corners, size_t count,
                   lw_patch_source source, double brightness);

/* The dial of the sky and the words beside the face. LW_NO_MEMORY. */
lw_status lw_beam_column_draw(const lw_memory *memory, const lw_beam_picture *picture,
                              const lw_metrics *metrics, double left, double top, double width,
                              lw_display_list *list);

#endif
