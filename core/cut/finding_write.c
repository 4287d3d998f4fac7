/* What a check found, in sentences. */
#include "cut/check.h"

#include "base/number.h"
#include "cut/teeth.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

/* The number that text says in the locale's own way, said with a point. */
static void plain(const char *local, char text[LW_NUMBER_TEXT])
{
    lw_number_write(strtod(local, NULL), text);
}

/* A length in micrometres where the stone has a size, else as a share of the width. */
static void write_length(const lw_stone *stone, double length, char *text, size_t capacity)
{
    bool sized = stone->unit_mm > 0.0;
    double value =
        sized ? length * stone->unit_mm * 1000.0 : 100.0 * length / stone->measures.width;
    char local[LW_NUMBER_TEXT], number[LW_NUMBER_TEXT] = "";
    if (isfinite(value)) {
        snprintf(local, sizeof local, "%.2e", value);
        plain(local, number);
    }
    snprintf(text, capacity, "%s %s", number, sized ? "um" : "% of the width");
}

/* "line 7, main at tooth 12" */
static void write_place(const lw_cut *cut, const lw_stone *stone, int step, int facet, char *text,
                        size_t capacity)
{
    const lw_step *s = &cut->steps[step];
    if (facet < 0 || stone->facets[facet].angle_deg == 0.0) {
        snprintf(text, capacity, "line %d, %s", s->place.line, s->name);
        return;
    }
    double tooth = stone->facets[facet].tooth;
    char number[LW_NUMBER_TEXT];
    lw_number_write(tooth == 0.0 ? (double)cut->wheel : tooth, number);
    snprintf(text, capacity, "line %d, %s at tooth %s", s->place.line, s->name, number);
}

static void write_margin(double angle_deg, double margin_deg, char *text, size_t capacity)
{
    char local[LW_NUMBER_TEXT], angle[LW_NUMBER_TEXT], margin[LW_NUMBER_TEXT];
    snprintf(local, sizeof local, "%.2f", angle_deg);
    plain(local, angle);
    snprintf(local, sizeof local, "%.2f", fabs(margin_deg));
    plain(local, margin);
    snprintf(text, capacity, "%s degrees stands %s degrees %s the critical angle", angle, margin,
             margin_deg < 0.0 ? "below" : "above");
}

static void write_what(const lw_cut *cut, const lw_stone *stone, const lw_finding *finding,
                       char *text, size_t capacity)
{
    char length[64];
    write_length(stone, finding->amount, length, sizeof length);
    switch (finding->kind) {
    case LW_FINDING_NOT_CLOSED:
        snprintf(text, capacity, "the stone does not close");
        return;
    case LW_FINDING_NO_AREA:
        snprintf(text, capacity, "nothing of this facet is left on the finished stone");
        return;
    case LW_FINDING_MEET_MISSED:
        if (isnan(finding->amount)) {
            snprintf(text, capacity, "what its rule names is not there at this tooth");
        } else {
            snprintf(text, capacity, "misses its meet by %s", length);
        }
        return;
    case LW_FINDING_NEAR_MISS: {
        int other = finding->other;
        snprintf(text, capacity, "an edge of only %s with %s (line %d)", length,
                 cut->steps[stone->facets[other].step].name,
                 cut->steps[stone->facets[other].step].place.line);
        return;
    }
    case LW_FINDING_BLIND:
        snprintf(text, capacity, "nothing on the stone tells when to stop");
        return;
    case LW_FINDING_DOPPED_SIDE:
        snprintf(text, capacity, "lies on the side that the dop holds");
        return;
    case LW_FINDING_TEMPORARY_STAYS:
        snprintf(text, capacity, "is temporary, and still there at the end");
        return;
    case LW_FINDING_POINT_STAYS:
        snprintf(text, capacity, "%s",
                 "its centre point ends otherwise than it says (temporary or final)");
        return;
    case LW_FINDING_NO_ADAPTER:
        snprintf(text, capacity, "is level, and the 45 degree adapter is not on");
        return;
    case LW_FINDING_BELOW_CRITICAL:
        write_margin(stone->tiers[finding->step].angle_deg, finding->amount, text, capacity);
        return;
    }
}

size_t lw_finding_write(const lw_cut *cut, const lw_stone *stone, const lw_finding *finding,
                        char *text, size_t capacity)
{
    char place[LW_CUT_MOST_NAME + 64] = "the stone";
    char what[200] = "";
    if (finding->step >= 0) {
        write_place(cut, stone, finding->step, finding->facet, place, sizeof place);
    }
    write_what(cut, stone, finding, what, sizeof what);
    int length = snprintf(text, capacity, "%s: %s", place, what);
    return length < 0 ? 0 : (size_t)length;
}
