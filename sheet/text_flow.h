/* Running text of mixed sizes: words set one after the other, lines broken at blanks, every line as
 * high as its largest letters and all of its words on one baseline.
 *
 * Points; y is the top of the next line. A no-break space (U+00A0) holds words together. A word
 * wider than the whole measure is broken between characters. Nothing is allocated: a line that
 * passes LW_FLOW_MOST_WORDS or LW_FLOW_MOST_BYTES is set as it stands and goes on below.
 */
#ifndef LW_SHEET_TEXT_FLOW_H
#define LW_SHEET_TEXT_FLOW_H

#include "sheet/display_list.h"

enum { LW_FLOW_MOST_WORDS = 128, LW_FLOW_MOST_BYTES = 1024 };

typedef struct lw_flow_word {
    lw_type type;
    size_t first, length; /* in text */
    lw_text_size size;
    double gap; /* the blank in front of it; 0 at a line's start and where it is glued on */
} lw_flow_word;

typedef struct lw_flow {
    lw_display_list *list;
    const lw_metrics *metrics;
    double left, width, y;
    double narrow_above; /* below this y a line may be as wide as: */
    double wide;
    double leading; /* put between lines */
    double taken;   /* of the line in hand */
    int word_count;
    size_t byte_count;
    lw_flow_word words[LW_FLOW_MOST_WORDS];
    char text[LW_FLOW_MOST_BYTES];
} lw_flow;

/* Begins a text with its top left corner at left, top. */
void lw_flow_begin(lw_flow *flow, lw_display_list *list, const lw_metrics *metrics, double left,
                   double top, double width);
/* Lines that begin at or below y are that wide instead: text that runs on under a picture beside
 * it.
 */
void lw_flow_widen(lw_flow *flow, double y, double width);
/* Adds text, with a blank between it and what came before unless it begins with a closing mark of
 * punctuation. */
void lw_flow_add(lw_flow *flow, const lw_type *type, const char *text);
/* Sets the line in hand; the next word begins a line. Nothing when no word waits. */
void lw_flow_break(lw_flow *flow);
/* Sets the last line and gives the y below it. */
double lw_flow_end(lw_flow *flow);

#endif
