/* Strength as ink: one hue from nearly black to nearly white.
 *
 * Equal steps of strength are equal steps of lightness in OKLab, at one hue, so that a scale reads
 * the same for every eye and in grey print. Published: B. Ottosson, A perceptual color space for
 * image processing, 2020 (the space and its matrices). The hue and the ends are ours.
 */
#ifndef LW_SHEET_STRENGTH_H
#define LW_SHEET_STRENGTH_H

#include "sheet/display_list.h"

/* 0 is dark, 1 is pale; held within. */
lw_ink lw_strength_ink(double strength);

/* An ink that is seen well on that one. */
lw_ink lw_strength_mark_ink(double strength);

/* A bar of the scale from 0 at its left to 1 at its right, outlined. */
void lw_strength_bar(lw_display_list *list, lw_spot corner, double width, double height);

#endif
