/* lapwing light, in parts: what is asked for, what is found, how it is told and drawn. */
#ifndef LW_CLI_LIGHT_H
#define LW_CLI_LIGHT_H

#include "stone.h"
#include "text.h"

#include "light/beam_map.h"
#include "tilt.h"

#include <jansson.h>

/* How far stones are tilted for what tilting does. */
#define CLI_LIGHT_MOST_TILT_DEG 40.0

typedef struct cli_light {
    const cli_args *args;
    cli_stone stone;
    const lw_material *material; /* as chosen; NULL for an index alone */
    bool placed;                 /* --place was given */
    lw_light_place place;
    lw_light_options look;
    lw_light_measures measures; /* as asked for */
    lw_light_measures face_up;  /* untilted */
    lw_tilt_window window;
    lw_tilt_map rings;      /* every ten degrees */
    lw_facet_light *facets; /* by planes of the solid, of --steps; else NULL */
} cli_light;

/* Who draws: a program of its own, since lapwing links nothing that paints. Each fails with one
 * line on standard error. */
typedef struct cli_light_painter {
    bool (*beams)(const cli_light *light, const lw_beam_map *map, const char *path);
    bool (*tilt)(const cli_light *light, const lw_tilt_map *map, const char *path);
} cli_light_painter;

/* The verb; painter NULL: nothing is drawn, and no picture may be asked for. */
cli_exit cli_light_run(const cli_args *args, const cli_light_painter *painter);

/* Whether a picture is asked for that needs a painter. */
bool cli_light_draws(const cli_args *args);

/* ---- its parts ------------------------------------------------------------ */

/* Fails with one line on standard error. Destroy takes a zeroed one, and twice. */
bool cli_light_ask(const cli_args *args, cli_light *out);
bool cli_light_find(cli_light *light);
void cli_light_destroy(cli_light *light);

/* "Round brilliant in diamond"; "seen straight from above", "seen 15 degrees off, from tooth 12".
 * Same return as snprintf. */
size_t cli_light_stone_words(const cli_light *light, char *text, size_t capacity);
size_t cli_light_view_words(const cli_light *light, char *text, size_t capacity);

/* "the table", "the crown main (step 6)": of a plane of the solid. */
enum { CLI_LIGHT_FACET = 128 };
void cli_light_facet_words(const cli_light *light, int plane, char text[CLI_LIGHT_FACET]);

/* "tooth 12", "between teeth 3 and 4". */
void cli_light_direction_words(const cli_light *light, double turn_deg, char text[CLI_NUMBER_TEXT]);

/* What tilting does, in a sentence without its full stop; and what is weak. */
enum { CLI_LIGHT_WORDS = 1024 };
void cli_light_tilt_words(const cli_light *light, char text[CLI_LIGHT_WORDS]);
void cli_light_ring_words(const cli_light *light, char text[CLI_LIGHT_WORDS]);
void cli_light_weak_words(const cli_light *light, char text[CLI_LIGHT_WORDS]);
json_t *cli_light_tilt_json(const cli_light *light);

/* What each step does. */
json_t *cli_light_steps_json(const cli_light *light);
void cli_light_steps_say(const cli_light *light);

/* Where in the cut a plane of the solid comes from: {"step": 7, "name": "star", "tooth": 6}; null
 * for none (below 0). */
json_t *cli_light_facet_json(const cli_light *light, int plane);

/* The whole of what is told. */
json_t *cli_light_json(const cli_light *light);
void cli_light_say(const cli_light *light);

/* The least number of spokes, from least on, that the cut's fold divides. */
int cli_light_spokes(const cli_light *light, int least);

/* Puts face_up where a map has no tilt. */
void cli_light_set_face_up(const cli_light *light, lw_tilt_map *map);

/* The maps of --beam-map and --tilt-map, to their files. Fails with one line on standard error. */
bool cli_light_maps(const cli_light *light, const cli_light_painter *painter);

#endif
