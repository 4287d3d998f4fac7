/* The parts of a sheet, each drawn on a strip of its own. Private to sheet/. */
#ifndef LW_SHEET_SHEET_PARTS_H
#define LW_SHEET_SHEET_PARTS_H

#include "sheet/replay.h"
#include "sheet/scene.h"
#include "sheet/sheet.h"
#include "sheet/text_flow.h"

/* What every part needs: the facts, and the strip that it draws on from (0, 0) downward. */
typedef struct lw_strip {
    const lw_sheet_facts *facts;
    const lw_metrics *metrics;
    lw_display_list *list;
    double width;  /* of the strip */
    double height; /* the most that a page can hold */
} lw_strip;

/* Letters. Measured against the eye: at 60 cm, letters of 11 points stand 13 minutes of arc high,
 * which is twice what a good eye needs. */
#define LW_TYPE_BODY ((lw_type){LW_FACE_PLAIN, 11.5, {0, 0, 0}})
#define LW_TYPE_STRONG ((lw_type){LW_FACE_BOLD, 11.5, {0, 0, 0}})
#define LW_TYPE_ASIDE ((lw_type){LW_FACE_SLANTED, 10.5, {0.15, 0.15, 0.15}})
#define LW_TYPE_SMALL ((lw_type){LW_FACE_PLAIN, 9.5, {0, 0, 0}})
#define LW_TYPE_NAME ((lw_type){LW_FACE_BOLD, 14.0, {0, 0, 0}})
#define LW_TYPE_NUMBER ((lw_type){LW_FACE_BOLD, 28.0, {0, 0, 0}})
#define LW_TYPE_ANGLE ((lw_type){LW_FACE_BOLD, 23.0, {0, 0, 0}})
#define LW_TYPE_TITLE ((lw_type){LW_FACE_BOLD, 23.0, {0, 0, 0}})

/* Bytes of a material's name or of what polishes it. */
enum { LW_MOST_MATERIAL = 120 };

lw_scene lw_strip_scene(const lw_strip *strip, int step);

/* Each gives the y below what it drew. */
double lw_strip_head(const lw_strip *strip, const lw_replay *preform);
double lw_strip_facts(const lw_strip *strip);
double lw_strip_machine(const lw_strip *strip);
double lw_strip_foot(const lw_strip *strip);
/* The material's own cautions, or those that hold for every stone. */
int lw_caution_count(const lw_strip *strip, bool of_material);
double lw_strip_caution(const lw_strip *strip, bool of_material, int i);

/* A step, or as much of it as one page holds: from_tooth is the place in the order of cutting to
 * begin at; *next_tooth becomes the place to go on from, or the tier's count when it is done. The
 * replay stands after the step, before is what could be measured ahead of it. */
double lw_strip_step(const lw_strip *strip, const lw_replay *replay, const lw_bench_size *before,
                     int step, int from_tooth, int *next_tooth);

/* The title and sentences of an action. */
void lw_say_action(const lw_scene *scene, lw_flow *flow);

/* The pictures of a step in a box at left, top: the stone, and for facets the wheel. Gives the y
 * below them. */
double lw_strip_pictures(const lw_strip *strip, const lw_replay *replay, int step, const int *order,
                         double left, double top);
#define LW_PICTURE_STONE 110.0
#define LW_PICTURE_WHEEL 88.0

/* "7.20 mm across the flats, 7.34 mm over the corners" of a circle of flats, else "8.00 mm across,
 * 9.36 mm at its longest". */
void lw_say_outline(const lw_scene *scene, lw_phrase *phrase, double width, double length,
                    double diameter);

/* "57 facets and 16 on the girdle", and the stone's size, shared by head and foot. */
void lw_say_counts(const lw_strip *strip, lw_phrase *phrase);
void lw_say_size(const lw_strip *strip, lw_phrase *phrase);

#endif
