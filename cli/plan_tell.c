#include "plan_say.h"

#include "plan_words.h"
#include "text.h"

#include <stdio.h>
#include <string.h>

enum { SENTENCE = 1000, NAME_COLUMN = 13 };

void cli_plan_line(const char *name, const char *text)
{
    printf("  %-*s", NAME_COLUMN - 2, name);
    cli_fill_from(stdout, text, NAME_COLUMN, NAME_COLUMN);
}

/* ---- the rough ---- */

static void tell_weight(const lw_plan *plan)
{
    const lw_plan_request *asked = lw_plan_asked(plan);
    double likely = lw_rough_weight_ct(lw_plan_rough(plan), asked->material->sg);
    char text[SENTENCE];
    if (asked->rough_ct == 0.0) {
        snprintf(text, sizeof text, "about %s ct, from the readings and a specific gravity of %s",
                 CLI_FIXED(likely, 1), CLI_SHORT(asked->material->sg));
    } else {
        double more = 100.0 * (asked->rough_ct / likely - 1.0);
        const char *word = more > 0.0 ? "more" : "less";
        snprintf(text, sizeof text,
                 "%s ct on the balance, %s %% %s than the readings make likely%s",
                 CLI_SHORT(asked->rough_ct), CLI_FIXED(fabs(more), 0), word,
                 fabs(more) > 25.0 ? ": is it that material and that shape?" : "");
    }
    cli_plan_line("Weight", text);
}

static void tell_margins(const lw_plan *plan)
{
    const lw_allowances *allowances = &lw_plan_asked(plan)->allowances;
    char text[SENTENCE];
    snprintf(text, sizeof text,
             "%s mm off each side for preforming, a slip and polish (%s when all goes well, %s "
             "when little does); readings good to %s mm. The ranges below follow from these.",
             CLI_FIXED(lw_allowance_margin_mm(allowances, LW_CASE_LIKELY), 2),
             CLI_FIXED(lw_allowance_margin_mm(allowances, LW_CASE_MOST), 2),
             CLI_FIXED(lw_allowance_margin_mm(allowances, LW_CASE_LEAST), 2),
             CLI_SHORT(allowances->caliper_mm));
    cli_plan_line("Counted", text);
}

void cli_plan_tell_rough(const lw_plan *plan)
{
    const lw_plan_request *asked = lw_plan_asked(plan);
    const lw_habit_words *words = lw_habit_describe(asked->habit);
    const double *mm = asked->readings.mm;
    printf("Rough: %s, %s x %s x %s mm, habit %s.\n", asked->material->name, CLI_SHORT(mm[0]),
           CLI_SHORT(mm[1]), CLI_SHORT(mm[2]), words->key);
    cli_plan_line("Taken as", words->note);
    char text[SENTENCE];
    snprintf(text, sizeof text, "first %s; second %s; third %s.", words->readings[0],
             words->readings[1], words->readings[2]);
    cli_plan_line("Readings", text);
    tell_weight(plan);
}

/* ---- the best ---- */

static void tell_size(const lw_plan_entry *e)
{
    char text[SENTENCE];
    snprintf(text, sizeof text, "%s mm wide (%s to %s), %s mm long, %s mm deep",
             CLI_FIXED(e->width_mm.value[1], 1), CLI_FIXED(e->width_mm.value[0], 1),
             CLI_FIXED(e->width_mm.value[2], 1), CLI_FIXED(e->length_mm.value[1], 1),
             CLI_FIXED(e->depth_mm.value[1], 1));
    cli_plan_line("Size", text);
    snprintf(text, sizeof text, "%s ct (%s to %s): %s %% of the rough (%s to %s %%)",
             CLI_FIXED(e->weight_ct.value[1], 2), CLI_FIXED(e->weight_ct.value[0], 2),
             CLI_FIXED(e->weight_ct.value[2], 2), CLI_FIXED(100.0 * e->yield.value[1], 0),
             CLI_FIXED(100.0 * e->yield.value[0], 0), CLI_FIXED(100.0 * e->yield.value[2], 0));
    cli_plan_line("Weight", text);
}

/* Whether an earlier step of this side has the same name and angle. */
static bool said_before(const lw_plan_entry *e, int step)
{
    const lw_cut *cut = &e->adapted.cut;
    const lw_tier *tiers = e->adapted.stone.tiers;
    for (int i = 0; i < step; i++) {
        if (tiers[i].count > 0 && cut->steps[i].side == cut->steps[step].side &&
            strcmp(cut->steps[i].name, cut->steps[step].name) == 0 &&
            fabs(tiers[i].angle_deg - tiers[step].angle_deg) < 0.005) {
            return true;
        }
    }
    return false;
}

/* "pavilion: main 43, girdle 90; crown: …", each once, in the order cut. */
static void tell_angles(const lw_plan_entry *e)
{
    const lw_cut *cut = &e->adapted.cut;
    char text[SENTENCE] = "";
    size_t used = 0;
    lw_side side = LW_SIDE_NONE;
    for (int i = 0; i < cut->step_count && used + 120 < sizeof text; i++) {
        const lw_step *step = &cut->steps[i];
        if (e->adapted.stone.tiers[i].count == 0 || said_before(e, i)) {
            continue;
        }
        const char *heading = step->side == LW_SIDE_PAVILION ? "pavilion: " : "crown: ";
        used += (size_t)snprintf(text + used, sizeof text - used, "%s%s%s %s",
                                 side == LW_SIDE_NONE ? ""
                                 : step->side == side ? ", "
                                                      : "; ",
                                 step->side == side ? "" : heading, step->name,
                                 CLI_FIXED(e->adapted.stone.tiers[i].angle_deg, 2));
        side = step->side;
    }
    cli_plan_line("Angles", text);
}

static void tell_change(const lw_plan_entry *e)
{
    char text[SENTENCE];
    bool changed = fabs(e->pavilion_deg - e->pavilion_was_deg) > 0.005;
    snprintf(text, sizeof text, "%s%s%s%s degrees %s the material's critical angle",
             changed ? "pavilion mains were " : "as the cut has them, ",
             changed ? CLI_FIXED(e->pavilion_was_deg, 2) : "",
             changed ? ", set for the material: now " : "",
             CLI_FIXED(fabs(e->critical_margin_deg), 1),
             e->critical_margin_deg < 0.0 ? "below" : "above");
    cli_plan_line("", text);
}

static void tell_light(const lw_plan_entry *e)
{
    char text[SENTENCE];
    snprintf(text, sizeof text,
             "%s %% of the sky's light comes back to the eye, %s %% of the face is window; %s%s%s",
             CLI_FIXED(100.0 * e->brightness, 0), CLI_FIXED(100.0 * e->window, 0),
             e->tilt_deg > 0.0 ? "it turns " : "no angle keeps this material from windowing",
             e->tilt_deg > 0.0 ? CLI_FIXED(e->tilt_deg, 0) : "",
             e->tilt_deg > 0.0 ? " degrees before it windows" : "");
    cli_plan_line("Light", text);
}

static void tell_wheel(const lw_plan_entry *e)
{
    char text[SENTENCE];
    const char *whose = e->wheel.own ? "the cut's own, as you named none" : "yours";
    if (e->wheel.fit.whole) {
        snprintf(text, sizeof text, "%d teeth, %s: every one that it asks for is there",
                 e->wheel.fit.wheel, whose);
    } else {
        snprintf(text, sizeof text,
                 "%d teeth, %s: some facets fall between two teeth, by up to %s degrees of cheater",
                 e->wheel.fit.wheel, whose, CLI_FIXED(e->wheel.fit.greatest_cheater_deg, 2));
    }
    cli_plan_line("Wheel", text);
}

static void tell_difficulty(const lw_plan_entry *e)
{
    char text[SENTENCE];
    const lw_difficulty *d = &e->difficulty;
    snprintf(text, sizeof text,
             "%s, %s: %d facets at %d angles, the longest run of meets %d steps%s%s%s",
             CLI_FIXED(d->value, 1), lw_difficulty_text(d->value), d->facets, d->settings, d->chain,
             d->closest_deg > 0.0 ? ", two angles only " : "",
             d->closest_deg > 0.0 ? CLI_FIXED(d->closest_deg, 1) : "",
             d->closest_deg > 0.0 ? " degrees apart" : "");
    cli_plan_line("Difficulty", text);
}

static bool list_needs(const lw_plan_entry *e, lw_have have, char text[SENTENCE])
{
    size_t used = 0;
    text[0] = '\0';
    for (int i = 0; i < e->need_count && used + LW_NEED_TEXT + 4 < SENTENCE; i++) {
        if (e->needs[i].have == have) {
            used += (size_t)snprintf(text + used, SENTENCE - used, "%s%s", used > 0 ? "; " : "",
                                     e->needs[i].text);
        }
    }
    return used > 0;
}

static void tell_needs(const lw_plan_entry *e)
{
    char text[SENTENCE];
    if (list_needs(e, LW_HAVE_NO, text)) {
        cli_plan_line("Missing", text);
    } else {
        cli_plan_line("Missing", "nothing that you told of");
    }
    if (list_needs(e, LW_HAVE_UNSAID, text)) {
        cli_plan_line("Have ready", text);
    }
}

static void tell_best(const lw_plan *plan)
{
    const lw_plan_entry *e = lw_plan_at(plan, 0);
    char text[SENTENCE];
    printf("\nBest: %s (%s)\n", e->adapted.cut.title, e->name);
    tell_size(e);
    tell_angles(e);
    tell_change(e);
    tell_light(e);
    tell_wheel(e);
    tell_difficulty(e);
    lw_plan_write_place(plan, e, text, sizeof text);
    cli_plan_line("Lies", text);
    const char *advice = lw_plan_orientation_advice(lw_plan_asked(plan)->material);
    if (advice[0] != '\0') {
        cli_plan_line("", advice);
    }
    tell_needs(e);
    lw_plan_write_why(plan, 0, text, sizeof text);
    cli_plan_line("Why", text);
    lw_plan_write_score(e, text, sizeof text);
    cli_plan_line("Score", text);
}

/* ---- the others ---- */

static void tell_row(const lw_plan *plan, int i)
{
    const lw_plan_entry *e = lw_plan_at(plan, i);
    char text[SENTENCE];
    printf("%3d  %-22s%5s mm %6s ct  %3s %%  %3s %%  %3s %%  %5s  %5d  %4s\n", i + 1, e->name,
           CLI_FIXED(e->width_mm.value[1], 1), CLI_FIXED(e->weight_ct.value[1], 2),
           CLI_FIXED(100.0 * e->yield.value[1], 0), CLI_FIXED(100.0 * e->brightness, 0),
           CLI_FIXED(100.0 * e->window, 0), CLI_FIXED(e->difficulty.value, 1), e->wheel.fit.wheel,
           CLI_FIXED(e->score.total, 0));
    lw_plan_write_why(plan, i, text, sizeof text);
    if (i > 0) {
        cli_fill(stdout, text, 5);
    }
}

static bool is_ranked(const lw_plan *plan, int i)
{
    return lw_plan_at(plan, i)->state <= LW_PLAN_NO_WHEEL;
}

static void tell_table(const lw_plan *plan)
{
    printf("\n     %-22s   width   weight   yield  bright window  hard  wheel score\n",
           "All that fit");
    for (int i = 0; i < lw_plan_count(plan) && is_ranked(plan, i); i++) {
        tell_row(plan, i);
    }
}

static void tell_left_out(const lw_plan *plan)
{
    char text[SENTENCE];
    bool headed = false;
    for (int i = 0; i < lw_plan_count(plan); i++) {
        if (!is_ranked(plan, i)) {
            printf("%s", headed ? "" : "\nLeft out\n");
            headed = true;
            lw_plan_write_why(plan, i, text, sizeof text);
            printf("     %s\n", lw_plan_at(plan, i)->name);
            cli_fill(stdout, text, 5);
        }
    }
}

void cli_plan_tell(const lw_plan *plan, const char *sheet)
{
    cli_plan_tell_rough(plan);
    tell_margins(plan);
    if (lw_plan_best(plan) != NULL) {
        tell_best(plan);
    } else {
        printf("\nNone of these cuts comes out of this rough as asked.\n");
    }
    if (lw_plan_count(plan) > 0 && is_ranked(plan, 0)) {
        tell_table(plan);
    }
    tell_left_out(plan);
    printf("\nSizes are of sound rough: flaws and colour are for your eye. What fits was searched "
           "for,\nnot proved: a little more may.\n");
    if (sheet != NULL) {
        printf("\nThe cutting sheet for %s is in %s.\n", lw_plan_at(plan, 0)->adapted.cut.title,
               sheet);
    }
}
