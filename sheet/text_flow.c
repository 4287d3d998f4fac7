#include "sheet/text_flow.h"

#include <math.h>
#include <string.h>

void lw_flow_begin(lw_flow *flow, lw_display_list *list, const lw_metrics *metrics, double left,
                   double top, double width)
{
    *flow = (lw_flow){
        .list = list, .metrics = metrics, .left = left, .width = width, .y = top, .leading = 1.5};
    lw_flow_widen(flow, HUGE_VAL, width);
}

void lw_flow_widen(lw_flow *flow, double y, double width)
{
    flow->narrow_above = y;
    flow->wide = width;
}

static double measure_of_line(const lw_flow *flow)
{
    return flow->y >= flow->narrow_above ? flow->wide : flow->width;
}

static bool same_type(const lw_type *a, const lw_type *b)
{
    return a->face == b->face && a->size == b->size && a->ink.red == b->ink.red &&
           a->ink.green == b->ink.green && a->ink.blue == b->ink.blue;
}

/* Words of one type that follow one another become one run, so that a reader of the file's text
 * finds sentences and not single words. */
static size_t gather_run(const lw_flow *flow, int from, char *run, int *past)
{
    const lw_flow_word *first = &flow->words[from];
    size_t length = 0;
    int i = from;
    for (; i < flow->word_count && same_type(&flow->words[i].type, &first->type); i++) {
        const lw_flow_word *word = &flow->words[i];
        if (i > from && word->gap > 0.0) {
            run[length++] = ' ';
        }
        memcpy(run + length, flow->text + word->first, word->length);
        length += word->length;
    }
    *past = i;
    return length;
}

void lw_flow_break(lw_flow *flow)
{
    double ascent = 0.0;
    double descent = 0.0;
    for (int i = 0; i < flow->word_count; i++) {
        ascent = fmax(ascent, flow->words[i].size.ascent);
        descent = fmax(descent, flow->words[i].size.descent);
    }
    double x = flow->left;
    int past = 0;
    for (int i = 0; i < flow->word_count; i = past) {
        char run[LW_FLOW_MOST_BYTES + LW_FLOW_MOST_WORDS];
        size_t length = gather_run(flow, i, run, &past);
        x += flow->words[i].gap;
        lw_list_text(flow->list, (lw_spot){x, flow->y + ascent}, LW_ALIGN_LEFT,
                     &flow->words[i].type, run, length);
        for (int k = i; k < past; k++) {
            x += flow->words[k].size.width + (k > i ? flow->words[k].gap : 0.0);
        }
    }
    if (flow->word_count > 0) {
        flow->y += ascent + descent + flow->leading;
    }
    flow->word_count = 0;
    flow->byte_count = 0;
    flow->taken = 0.0;
}

static lw_text_size measure(const lw_flow *flow, const lw_type *type, const char *text,
                            size_t length)
{
    return flow->metrics->measure(flow->metrics->context, type, text, length);
}

static void place_word(lw_flow *flow, const lw_type *type, const char *text, size_t length,
                       double gap, lw_text_size size)
{
    lw_flow_word *word = &flow->words[flow->word_count++];
    *word = (lw_flow_word){*type, flow->byte_count, length, size, gap};
    memcpy(flow->text + flow->byte_count, text, length);
    flow->byte_count += length;
    flow->taken += gap + size.width;
}

/* The longest start of text, at least one whole character, that is no wider than the measure. */
static size_t fitting_start(const lw_flow *flow, const lw_type *type, const char *text,
                            size_t length)
{
    size_t fits = 0;
    for (size_t end = 1; end <= length && end < LW_FLOW_MOST_BYTES; end++) {
        if (end < length && ((unsigned char)text[end] & 0xC0u) == 0x80u) {
            continue;
        }
        if (fits > 0 && measure(flow, type, text, end).width > measure_of_line(flow)) {
            break;
        }
        fits = end;
    }
    return fits;
}

/* The blank in front of a word: that of the smaller letters on its two sides. */
static double blank_before(const lw_flow *flow, const lw_type *type)
{
    const lw_type *last = &flow->words[flow->word_count - 1].type;
    const lw_type *smaller = last->size < type->size ? last : type;
    return measure(flow, smaller, " ", 1).width;
}

static void add_word(lw_flow *flow, const lw_type *type, const char *text, size_t length,
                     bool glued)
{
    while (length > 0) {
        double gap = flow->word_count == 0 || glued ? 0.0 : blank_before(flow, type);
        lw_text_size size = measure(flow, type, text, length);
        bool room = flow->word_count < LW_FLOW_MOST_WORDS &&
                    flow->byte_count + length <= LW_FLOW_MOST_BYTES;
        if (room && (glued || flow->taken + gap + size.width <= measure_of_line(flow))) {
            place_word(flow, type, text, length, gap, size);
            return;
        }
        if (flow->word_count > 0) {
            lw_flow_break(flow);
            glued = false;
            continue;
        }
        size_t start = fitting_start(flow, type, text, length);
        place_word(flow, type, text, start, 0.0, measure(flow, type, text, start));
        text += start;
        length -= start;
    }
}

void lw_flow_add(lw_flow *flow, const lw_type *type, const char *text)
{
    bool glued = text[0] != '\0' && strchr(".,;:)", text[0]) != NULL;
    while (*text != '\0') {
        size_t length = strcspn(text, " ");
        /* Only punctuation may hang over the measure's end. */
        add_word(flow, type, text, length, glued && length <= 1 && flow->word_count > 0);
        text += length;
        text += strspn(text, " ");
        glued = false;
    }
}

double lw_flow_end(lw_flow *flow)
{
    lw_flow_break(flow);
    return flow->y;
}
