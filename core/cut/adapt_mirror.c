/* The mirror image: the other hand. */
#include "cut/adapt_parts.h"

#include "geom/tolerance.h"

lw_status lw_adapt_to_mirror(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                             lw_adapted *out, lw_problem *problem)
{
    lw_edit edit;
    lw_stone image;
    lw_adapted adapted;
    lw_status status = lw_stone_mirror(memory, stone, cut->wheel, &image);
    if (status != LW_OK) {
        return status;
    }
    status = lw_edit_begin(memory, cut, &edit, problem);
    if (status == LW_OK) {
        edit.cut.left_handed = !cut->left_handed;
        lw_edit_need_line(&edit, LW_LINE_HAND, LW_LINE_FOLD);
        lw_edit_note(&edit, edit.cut.left_handed ? "The mirror image: left-handed."
                                                 : "The mirror image: right-handed.");
        status = lw_edit_finish(&edit, stone, image.facets, image.facet_count, &adapted, problem);
        lw_edit_destroy(&edit);
    }
    lw_stone_destroy(&image);
    if (status == LW_OK) {
        adapted.exact = adapted.deviation <= LW_MEET_HOLDS;
        *out = adapted;
    }
    return status;
}
