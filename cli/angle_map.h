/* A map that was worked out, and how it is told: text, JSON, CSV, a picture. */
#ifndef LW_CLI_ANGLE_MAP_H
#define LW_CLI_ANGLE_MAP_H

#include "look_many.h"

#include "contour.h"
#include "map.h"

#include <jansson.h>

enum { CLI_MAP_LINES = 2 };

typedef struct cli_map {
    const cli_args *args;
    cli_stone stone;
    const lw_material *material; /* NULL: an index alone */
    lw_light_place place;
    lw_vary vary;
    lw_map_request request;
    lw_map_measure measure; /* that is shown */
    double critical_deg;
    lw_map_place *places;            /* [crown.count * pavilion.count] */
    lw_map_place own;                /* the cut as it stands */
    lw_contour lines[CLI_MAP_LINES]; /* where the window opens; where the pavilion is critical */
} cli_map;

int cli_map_count(const cli_map *map);
/* Pavilion and crown angle of a place. */
double cli_map_pavilion(const cli_map *map, int place);
double cli_map_crown(const cli_map *map, int place);
/* Of a line's spot. */
double cli_map_pavilion_at(const cli_map *map, double column);
double cli_map_crown_at(const cli_map *map, double row);

/* What people are shown of a measure: in hundredths where it is a share, else as it is. */
double cli_map_shown(lw_map_measure measure, double value);
/* "brightness, %", "fire, degrees" */
const char *cli_map_title(lw_map_measure measure);
/* "brightness 74.21 %" */
void cli_map_value_text(lw_map_measure measure, double value, char *text, size_t capacity);

/* "classic-quartz-round in quartz, refractive index 1.5443, seen straight from above" */
void cli_map_sentence(const cli_map *map, char *text, size_t capacity);

json_t *cli_map_json(const cli_map *map);
void cli_map_tell(const cli_map *map);
/* Writes the CSV whole or not at all, one line a place. Fails with one line on standard error. */
bool cli_map_csv(const cli_map *map, const char *path);
/* Draws it, by the ending of path. Fails with one line on standard error. */
cli_exit cli_map_draw(const cli_map *map, const char *path);

#endif
