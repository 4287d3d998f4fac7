#include "sheet/sheet.h"

#include "sheet/sheet_parts.h"

#include <string.h>

#define MARGIN 36.0
/* Under the margin's edge stands the foot line; the text ends this far above it. */
#define FOOT_LINE 16.0
#define BETWEEN 7.0

/* The sheet as it is being put together. */
typedef struct press {
    const lw_sheet_facts *facts;
    const lw_metrics *metrics;
    lw_paper paper;
    lw_display_list *list;
    lw_display_list scratch; /* one strip */
    lw_strip strip;
    double y;
    bool page_begun; /* something stands on the page */
} press;

lw_scene lw_strip_scene(const lw_strip *strip, int step)
{
    const lw_sheet_facts *facts = strip->facts;
    return (lw_scene){
        .cut = facts->cut,
        .stone = facts->stone,
        .values = facts->values,
        .kit = {.wheel = facts->cut->wheel, .counts = facts->counts, .zero_at = facts->zero_at},
        .step = step};
}

static void begin_page(press *p)
{
    lw_list_page(p->list, p->paper.width, p->paper.height);
    p->y = MARGIN;
    p->page_begun = false;
}

static void begin_strip(press *p)
{
    lw_list_clear(&p->scratch);
    lw_list_page(&p->scratch, p->strip.width, p->strip.height);
}

/* Puts the strip on the page, or on the next one where it does not fit. */
static void place_strip(press *p, double height, bool ruled)
{
    double gap = !p->page_begun ? 0.0 : ruled ? 2.0 * BETWEEN : 0.0;
    if (p->page_begun && p->y + gap + height > p->paper.height - MARGIN - FOOT_LINE) {
        begin_page(p);
        gap = 0.0;
    }
    if (gap > 0.0) {
        lw_style rule = {.line_width = 0.5, .line = lw_grey(0.45)};
        double y = p->y + BETWEEN;
        lw_list_line(p->list, (lw_spot){MARGIN, y}, (lw_spot){MARGIN + p->strip.width, y}, &rule);
    }
    lw_list_append(p->list, &p->scratch, MARGIN, p->y + gap);
    p->y += gap + height;
    p->page_begun = true;
}

static void place_cautions(press *p, bool of_material)
{
    for (int i = 0; i < lw_caution_count(&p->strip, of_material); i++) {
        begin_strip(p);
        place_strip(p, lw_strip_caution(&p->strip, of_material, i), i == 0);
    }
}

static lw_status place_steps(press *p, lw_replay *replay)
{
    for (int step = 0; step < p->facts->cut->step_count; step++) {
        lw_bench_size before = lw_replay_size(replay);
        lw_status status = lw_replay_next(replay);
        if (status != LW_OK) {
            return status;
        }
        int from = 0;
        do {
            begin_strip(p);
            place_strip(p, lw_strip_step(&p->strip, replay, &before, step, from, &from), true);
        } while (from < p->facts->stone->tiers[step].count && p->list->status == LW_OK);
    }
    return LW_OK;
}

/* Cuts text to what fits, with a mark of omission. */
static void foot_title(press *p, const char *title, double room, double y)
{
    lw_type type = {LW_FACE_PLAIN, 8.5, lw_grey(0.25)};
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add(&phrase, title);
    bool whole = true;
    while (phrase.length > 0 &&
           p->metrics->measure(p->metrics->context, &type, phrase.text, phrase.length).width >
               room) {
        size_t keep = phrase.length - (whole ? 0 : strlen("\u2026"));
        do {
            keep--;
        } while (keep > 0 && ((unsigned char)phrase.text[keep] & 0xC0u) == 0x80u);
        phrase.text[keep] = '\0';
        phrase.length = keep;
        phrase.full = false;
        lw_phrase_add(&phrase, "\u2026");
        whole = false;
    }
    lw_list_text(p->list, (lw_spot){MARGIN, y}, LW_ALIGN_LEFT, &type, phrase.text, phrase.length);
}

static void number_pages(press *p)
{
    int count = (int)p->list->page_count;
    double y = p->paper.height - MARGIN + 4.0;
    for (int page = 0; page < count && p->list->status == LW_OK; page++) {
        lw_list_turn_to(p->list, page);
        lw_phrase phrase;
        lw_phrase_clear(&phrase);
        lw_phrase_add(&phrase, "page ");
        lw_phrase_whole(&phrase, page + 1);
        lw_phrase_add(&phrase, " of ");
        lw_phrase_whole(&phrase, count);
        lw_type type = {LW_FACE_PLAIN, 8.5, lw_grey(0.25)};
        lw_list_text(p->list, (lw_spot){p->paper.width - MARGIN, y}, LW_ALIGN_RIGHT, &type,
                     phrase.text, phrase.length);
        foot_title(p, p->facts->cut->title, p->strip.width - 90.0, y);
    }
}

static lw_status press_all(press *p, lw_replay *replay)
{
    begin_page(p);
    begin_strip(p);
    place_strip(p, lw_strip_head(&p->strip, replay), true);
    begin_strip(p);
    place_strip(p, lw_strip_facts(&p->strip), false);
    begin_strip(p);
    place_strip(p, lw_strip_machine(&p->strip), false);
    lw_status status = place_steps(p, replay);
    if (status != LW_OK) {
        return status;
    }
    begin_strip(p);
    place_strip(p, lw_strip_foot(&p->strip), true);
    place_cautions(p, true);
    place_cautions(p, false);
    number_pages(p);
    return p->list->status;
}

lw_status lw_sheet_compose(const lw_memory *memory, const lw_sheet_facts *facts, lw_paper paper,
                           const lw_metrics *metrics, lw_display_list *list)
{
    press p = {.facts = facts, .metrics = metrics, .paper = paper, .list = list};
    lw_replay replay = {0};
    lw_status status = lw_replay_init(&replay, memory, facts->cut, facts->stone);
    if (status != LW_OK) {
        return status;
    }
    lw_list_clear(list);
    lw_list_init(&p.scratch, memory);
    p.strip = (lw_strip){.facts = facts,
                         .metrics = metrics,
                         .list = &p.scratch,
                         .width = paper.width - 2.0 * MARGIN,
                         .height = paper.height - 2.0 * MARGIN - FOOT_LINE};
    status = press_all(&p, &replay);
    lw_list_destroy(&p.scratch);
    lw_replay_destroy(&replay);
    return status;
}
