/* Names and numbers of a step, as a cutter would say them. */
#include "cut/write.h"
#include "geom/tolerance.h"
#include "sheet/scene.h"

#include <math.h>
#include <string.h>

void lw_say_dial(lw_phrase *phrase, lw_dial dial)
{
    lw_phrase_whole(phrase, dial.number);
    if (dial.cheater_deg != 0.0) {
        /* A no-break space keeps number and cheater on one line. */
        lw_phrase_add(phrase, dial.cheater_deg > 0.0 ? "\u00a0+" : "\u00a0");
        lw_phrase_number(phrase, dial.cheater_deg, 2);
        lw_phrase_add(phrase, "\u00b0");
    }
}

void lw_say_length(const lw_scene *scene, lw_phrase *phrase, double length)
{
    if (scene->stone->unit_mm > 0.0) {
        lw_phrase_number(phrase, length * scene->stone->unit_mm, 2);
        lw_phrase_add(phrase, "\u00a0mm");
    } else {
        lw_phrase_number(phrase, 100.0 * length, 1);
        lw_phrase_add(phrase, "\u00a0% of the width");
    }
}

static bool ends_with(const char *text, const char *end)
{
    size_t length = strlen(text);
    size_t tail = strlen(end);
    return length >= tail && strcmp(text + length - tail, end) == 0;
}

/* Names that say where and not what, so that they want a noun behind them. */
static bool is_mere_place(const char *name)
{
    static const char *const places[] = {"inner", "outer", "middle", "upper",
                                         "lower", "end",   "side"};
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        if (strcmp(name, places[i]) == 0) {
            return true;
        }
    }
    return false;
}

/* A step's name with its hyphens and underscores opened, in the plural where asked. */
static void say_name(lw_phrase *phrase, const char *name, bool plural)
{
    char open[LW_CUT_MOST_NAME + 1];
    size_t length = strlen(name);
    length = length < sizeof open ? length : sizeof open - 1;
    for (size_t i = 0; i < length; i++) {
        open[i] = name[i] == '-' || name[i] == '_' ? ' ' : name[i];
    }
    open[length] = '\0';
    if (strcmp(open, "girdle") == 0) {
        lw_phrase_add(phrase, plural ? "girdle flats" : "girdle flat");
        return;
    }
    if (is_mere_place(open)) {
        lw_phrase_add(phrase, open);
        lw_phrase_add(phrase, plural ? " facets" : " facet");
        return;
    }
    if (plural && ends_with(open, "half")) {
        open[length - 1] = '\0';
        lw_phrase_add(phrase, open);
        lw_phrase_add(phrase, "ves");
        return;
    }
    lw_phrase_add(phrase, open);
    if (plural) {
        bool hissing = ends_with(open, "s") || ends_with(open, "x") || ends_with(open, "sh") ||
                       ends_with(open, "ch");
        lw_phrase_add(phrase, hissing ? "es" : "s");
    }
}

static bool is_level(const lw_scene *scene, int facet)
{
    return scene->stone->facets[facet].angle_deg < LW_SAME_ANGLE_DEG;
}

void lw_say_title(const lw_scene *scene, lw_phrase *phrase)
{
    const lw_step *step = lw_scene_step(scene);
    const lw_tier *tier = lw_scene_tier(scene);
    lw_side side = tier->count > 0 ? scene->stone->facets[tier->first].side : step->side;
    bool level = tier->count > 0 && is_level(scene, tier->first);
    lw_phrase_clear(phrase);
    lw_phrase_add(phrase, step->temporary ? "temporary " : "");
    bool said = strstr(step->name, "pavilion") != NULL || strstr(step->name, "crown") != NULL;
    if (!said && !level && side != LW_SIDE_GIRDLE) {
        lw_phrase_add(phrase, side == LW_SIDE_CROWN ? "crown " : "pavilion ");
    }
    say_name(phrase, step->name, tier->count != 1);
    lw_phrase_capital(phrase);
}

/* ---- facets ---- */

/* A facet that no stone facet answers to, in the cut's own words. */
static void say_unknown(lw_phrase *phrase, const lw_facet_ref *ref)
{
    char text[LW_CUT_MOST_NAME + 64];
    (void)lw_facet_ref_write(ref, text, sizeof text);
    lw_phrase_add(phrase, "the ");
    lw_phrase_add(phrase, text);
}

static bool same_name(const lw_scene *scene, int a, int b)
{
    const lw_facet *facets = scene->stone->facets;
    const lw_step *steps = scene->cut->steps;
    return a >= 0 && b >= 0 && facets[a].side == facets[b].side &&
           strcmp(steps[facets[a].step].name, steps[facets[b].step].name) == 0;
}

/* "main ", "pavilion mains ": the name in front of the numbers, with its side where that is not the
 * one being cut. */
static void say_kind(const lw_scene *scene, lw_phrase *phrase, int facet, bool plural)
{
    const lw_facet *f = &scene->stone->facets[facet];
    const char *name = scene->cut->steps[f->step].name;
    if (is_level(scene, facet)) {
        lw_phrase_add(phrase, "the ");
        say_name(phrase, name, false);
        return;
    }
    bool other = f->side != LW_SIDE_GIRDLE && f->side != lw_scene_facing(scene);
    if (other && strstr(name, "crown") == NULL && strstr(name, "pavilion") == NULL) {
        lw_phrase_add(phrase, f->side == LW_SIDE_CROWN ? "crown " : "pavilion ");
    }
    say_name(phrase, name, plural);
    lw_phrase_add(phrase, "\u00a0");
}

/* Between the n-th of several things and the next: a comma, and before the last one "and". */
static void say_joint(lw_phrase *phrase, int n, int count)
{
    if (n > 0) {
        lw_phrase_add(phrase, n + 1 == count ? " and " : ", ");
    }
}

static int run_of_kind(const lw_scene *scene, const int *facets, int from, int count)
{
    int past = from + 1;
    while (past < count && same_name(scene, facets[from], facets[past]) &&
           !is_level(scene, facets[past])) {
        past++;
    }
    return past;
}

void lw_say_facets(const lw_scene *scene, lw_phrase *phrase, const lw_facet_ref *refs, int count)
{
    int facets[LW_CUT_MOST_MEET];
    int groups = 0;
    for (int i = 0; i < count; i++) {
        facets[i] = lw_scene_find(scene, &refs[i]);
    }
    for (int i = 0; i < count; i = run_of_kind(scene, facets, i, count)) {
        groups++;
    }
    int group = 0;
    for (int i = 0, past = 0; i < count; i = past, group++) {
        past = run_of_kind(scene, facets, i, count);
        say_joint(phrase, group, groups);
        if (facets[i] < 0) {
            say_unknown(phrase, &refs[i]);
            continue;
        }
        say_kind(scene, phrase, facets[i], past > i + 1);
        for (int k = i; k < past && !is_level(scene, facets[i]); k++) {
            say_joint(phrase, k - i, past - i);
            lw_say_dial(phrase, lw_scene_dial(scene, facets[k]));
        }
    }
}
