/* Shared by the files that draw a heat map; nobody else includes this. */
#ifndef LW_SHEET_HEAT_MAP_PARTS_H
#define LW_SHEET_HEAT_MAP_PARTS_H

#include "sheet/heat_map.h"

typedef struct lw_heat_plot {
    const lw_heat_map *map;
    lw_heat_axis x, y; /* from rim to rim */
    double left, top, width, height;
    double least, most; /* of the values */
} lw_heat_plot;

/* A place of the axes on the page. */
lw_spot lw_heat_spot(const lw_heat_plot *plot, double x, double y);
/* A value from least to most as 0..1. */
double lw_heat_strength(const lw_heat_plot *plot, double value);

void lw_heat_draw_lines(const lw_heat_plot *plot, lw_display_list *list);
void lw_heat_draw_marks(const lw_heat_plot *plot, const lw_metrics *metrics, lw_display_list *list);

#endif
