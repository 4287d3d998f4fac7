/* The end of a sheet: what the stone should come to, and what to mind. */
#include "sheet/sheet_parts.h"

#include <string.h>

#define MOST_CAUTIONS 24
#define MOST_CAUTION 500

/* Ours, and common practice everywhere. */
static const char *const common_cautions[] = {
    "Cut wet, always: water keeps the dust of the stone out of the air. Wipe splashes and rinse "
    "towels before they dry.",
    "Protect the eyes. Keep hair, sleeves, gloves and jewellery away from a turning lap; lift the "
    "quill clear before the chuck can touch it at 90\u00b0.",
    "Water and mains power: run the machine from an outlet with a residual-current device, and "
    "have wiring done by a licensed electrician.",
    "Wax, flame and solvents do not share a bench. Let fumes of glue and solvent out of the room, "
    "and follow the makers' safety sheets.",
    "Let a warm stone cool slowly. Collect the sludge; it does not belong in the drain.",
    "Local codes come first. Where health, wiring or the worth of a stone is in question, ask a "
    "doctor, an electrician or a gemmologist.",
};
enum { COMMON_CAUTIONS = sizeof common_cautions / sizeof common_cautions[0] };

static void foot_totals(const lw_strip *strip, lw_flow *flow)
{
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_flow_add(flow, &LW_TYPE_NAME, "The finished stone");
    lw_flow_break(flow);
    lw_say_counts(strip, &phrase);
    lw_phrase_add(&phrase, "; ");
    lw_say_size(strip, &phrase);
    lw_phrase_add(&phrase, "; ");
    lw_scene scene = lw_strip_scene(strip, 0);
    const lw_measures *m = &strip->facts->stone->measures;
    lw_phrase_add(&phrase, "girdle ");
    if (m->girdle_thick - m->girdle_thin > 1e-3) {
        lw_say_length(&scene, &phrase, m->girdle_thin);
        lw_phrase_add(&phrase, " to ");
    }
    lw_say_length(&scene, &phrase, m->girdle_thick);
    if (m->table > 0.0) {
        lw_phrase_add(&phrase, "; table ");
        lw_say_length(&scene, &phrase, m->table);
        lw_phrase_add(&phrase, " wide");
    }
    lw_phrase_add(&phrase, ".");
    lw_flow_add(flow, &LW_TYPE_STRONG, phrase.text);
    lw_flow_break(flow);
}

/* Where the eye takes two points for one, so that the cutter does not chase it. */
static void foot_near_misses(const lw_strip *strip, lw_flow *flow)
{
    const lw_check *check = strip->facts->check;
    if (check == NULL || check->near_miss_count == 0 || strip->facts->stone->unit_mm <= 0.0) {
        return;
    }
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_whole(&phrase, check->near_miss_count);
    lw_phrase_add(&phrase, check->near_miss_count == 1 ? " edge is" : " edges are");
    lw_phrase_add(&phrase, " so short that the eye takes the ends for one point, the shortest ");
    lw_phrase_number(&phrase, check->shortest_edge * strip->facts->stone->unit_mm * 1000.0, 0);
    lw_phrase_add(&phrase, "\u00a0\u00b5m: that is the cut's, not a slip of yours.");
    lw_flow_add(flow, &LW_TYPE_BODY, phrase.text);
    lw_flow_break(flow);
}

static double foot_blanks(const lw_strip *strip, double top)
{
    static const char *const labels[3] = {"across, mm", "deep, mm", "weight, ct"};
    lw_type type = LW_TYPE_SMALL;
    lw_style line = {.line_width = 0.6, .line = lw_grey(0.2)};
    double base = top + 18.0;
    for (int i = 0; i < 3; i++) {
        double x = (double)i * strip->width / 3.0;
        lw_list_text(strip->list, (lw_spot){x, base}, LW_ALIGN_LEFT, &type, labels[i],
                     strlen(labels[i]));
        lw_list_line(strip->list, (lw_spot){x + 62.0, base + 1.0},
                     (lw_spot){x + strip->width / 3.0 - 14.0, base + 1.0}, &line);
    }
    return base + 6.0;
}

double lw_strip_foot(const lw_strip *strip)
{
    lw_flow flow;
    lw_flow_begin(&flow, strip->list, strip->metrics, 0.0, 0.0, strip->width);
    foot_totals(strip, &flow);
    foot_near_misses(strip, &flow);
    lw_flow_add(&flow, &LW_TYPE_BODY,
                "Clean it, let it come to the room's warmth, measure and weigh it:");
    return foot_blanks(strip, lw_flow_end(&flow));
}

static void add_caution(lw_flow *flow, const char *text)
{
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add(&phrase, "\u2022\u00a0");
    lw_phrase_add_start(&phrase, text, MOST_CAUTION);
    lw_flow_add(flow, &LW_TYPE_SMALL, phrase.text);
    lw_flow_break(flow);
}

int lw_caution_count(const lw_strip *strip, bool of_material)
{
    int own = strip->facts->caution_count;
    return of_material ? (own < MOST_CAUTIONS ? own : MOST_CAUTIONS) : COMMON_CAUTIONS;
}

double lw_strip_caution(const lw_strip *strip, bool of_material, int i)
{
    const lw_sheet_facts *facts = strip->facts;
    lw_flow flow;
    lw_flow_begin(&flow, strip->list, strip->metrics, 0.0, 0.0, strip->width);
    if (i == 0) {
        lw_phrase phrase;
        lw_phrase_clear(&phrase);
        lw_phrase_add(&phrase, of_material ? "Mind, with " : "Mind, always");
        if (of_material) {
            lw_phrase_add_name(&phrase, facts->material != NULL ? facts->material : "this stone",
                               LW_MOST_MATERIAL);
        }
        lw_flow_add(&flow, &LW_TYPE_STRONG, phrase.text);
        lw_flow_break(&flow);
    }
    add_caution(&flow, of_material ? facts->cautions[i] : common_cautions[i]);
    return lw_flow_end(&flow);
}
