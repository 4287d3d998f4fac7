/* One step of a sheet. */
#include "sheet/sheet_parts.h"

#include <math.h>
#include <string.h>

#define NUMBER_COLUMN 58.0
#define PICTURES (LW_PICTURE_STONE + 8.0 + LW_PICTURE_WHEEL)
/* Under a step's number begins what stands below it. */
#define STEP_NUMBER_HEIGHT 34.0
/* Bytes of a remark. */
#define MOST_REMARK 300
/* Teeth on one strip: with the smallest letters they fill a page. */
#define MOST_TEETH 500
#define MOST_CHEATED 160

static double draw_step_number(const lw_strip *strip, int step)
{
    lw_type type = LW_TYPE_NUMBER;
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_whole(&phrase, step + 1);
    type.size = phrase.length > 2 ? 19.0 : phrase.length > 1 ? 25.0 : type.size;
    lw_text_size size =
        strip->metrics->measure(strip->metrics->context, &type, phrase.text, phrase.length);
    lw_list_text(strip->list, (lw_spot){0.0, size.ascent - 5.0}, LW_ALIGN_LEFT, &type, phrase.text,
                 phrase.length);
    return size.ascent + size.descent;
}

/* Under the step's number: room to write the height that the tier came to, and boxes to tick. */
static double draw_ticks(const lw_strip *strip, double top)
{
    static const char *const labels[2] = {"cut", "polished"};
    lw_type type = {LW_FACE_PLAIN, 8.0, lw_grey(0.0)};
    lw_style line = {.line_width = 0.6, .line = lw_grey(0.2)};
    double base = top + 8.0;
    lw_list_text(strip->list, (lw_spot){0.0, base}, LW_ALIGN_LEFT, &type, "height", 6);
    base += 17.0;
    lw_list_line(strip->list, (lw_spot){0.0, base}, (lw_spot){NUMBER_COLUMN - 10.0, base}, &line);
    for (int i = 0; i < 2; i++) {
        base += 14.0;
        lw_list_rectangle(strip->list, (lw_spot){0.3, base - 7.5}, 8.0, 8.0, &line);
        lw_list_text(strip->list, (lw_spot){11.0, base}, LW_ALIGN_LEFT, &type, labels[i],
                     strlen(labels[i]));
    }
    return base + 3.0;
}

static void add(lw_flow *flow, lw_type type, const char *text)
{
    lw_flow_add(flow, &type, text);
}

/* ---- teeth ---- */

static double teeth_size(int count)
{
    return count <= 8     ? 17.0
           : count <= 16  ? 15.5
           : count <= 32  ? 14.0
           : count <= 64  ? 11.5
           : count <= 128 ? 9.5
                          : 8.0;
}

static bool any_cheated(const lw_scene *scene)
{
    const lw_tier *tier = lw_scene_tier(scene);
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        if (lw_scene_dial(scene, i).cheater_deg != 0.0) {
            return true;
        }
    }
    return false;
}

/* Facets of a tier that do not all lie as deep have their distances told beside their teeth. */
static bool has_own_depths(const lw_scene *scene)
{
    const lw_step *step = lw_scene_step(scene);
    return step->rule_count > 0 && step->rules[0].kind == LW_RULE_DISTANCE &&
           step->rules[0].value_count > 1;
}

static void add_teeth(const lw_scene *scene, lw_flow *flow, const int *order, int from, int past)
{
    const lw_tier *tier = lw_scene_tier(scene);
    lw_type type = {LW_FACE_BOLD, teeth_size(tier->count), lw_grey(0.0)};
    bool own_depths = has_own_depths(scene);
    for (int i = from; i < past; i++) {
        int facet = tier->first + order[i];
        lw_phrase phrase;
        lw_phrase_clear(&phrase);
        lw_say_dial(&phrase, lw_scene_dial(scene, facet));
        lw_phrase_add(&phrase, i + 1 < tier->count && !own_depths ? "," : "");
        lw_flow_add(flow, &type, phrase.text);
        if (own_depths) {
            lw_phrase_clear(&phrase);
            lw_phrase_add(&phrase, "at\u00a0");
            lw_say_length(scene, &phrase, scene->stone->facets[facet].plane.distance);
            lw_phrase_add(&phrase, i + 1 < tier->count ? "," : "");
            lw_type small = type;
            small.face = LW_FACE_PLAIN;
            small.size *= 0.8;
            lw_flow_add(flow, &small, phrase.text);
        }
    }
}

/* "Set 43.0° and cut 96, 48, 24 …"; a level facet in the adapter is cut at 45. */
static void add_setting(const lw_scene *scene, lw_flow *flow, const int *order, int from, int past)
{
    const lw_tier *tier = lw_scene_tier(scene);
    bool level = scene->stone->facets[tier->first].angle_deg < 1e-9;
    bool adapter = lw_scene_in_adapter(scene) && level;
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_degrees(&phrase, adapter ? 45.0 : tier->angle_deg);
    add(flow, LW_TYPE_BODY, "Set");
    add(flow, LW_TYPE_ANGLE, phrase.text);
    if (adapter) {
        lw_phrase_clear(&phrase);
        lw_phrase_add(&phrase, "in the adapter, tooth ");
        lw_phrase_whole(&phrase, scene->kit.wheel);
        lw_phrase_add(&phrase, ", and cut");
        add(flow, LW_TYPE_BODY, phrase.text);
        return;
    }
    add(flow, LW_TYPE_BODY, "and cut");
    if (!level) {
        add_teeth(scene, flow, order, from, past);
    }
}

/* ---- what can be known afterwards ---- */

static const char *sight_sentence(lw_sight sight)
{
    switch (sight) {
    case LW_SIGHT_SEEN:
        return "The place to reach is there to be seen.";
    case LW_SIGHT_ITSELF:
        return "The point makes itself as the facets come in.";
    case LW_SIGHT_MEASURED:
        return "Nothing on the stone shows it: measure, or go by the height.";
    case LW_SIGHT_MATCHED:
        return "Compare it on the stone, by eye and loupe.";
    default:
        return "Nothing on the stone tells when to stop: this step is blind.";
    }
}

/* Two lengths that a caliper cannot tell apart, as a share of the width: 1 um on 10 mm. */
#define SAME_LENGTH 1e-4

/* Begins a new figure in the list, when the length is there and the step has changed it. */
static bool is_news(lw_phrase *phrase, double now, double before)
{
    if (now <= 0.0 || fabs(now - before) < SAME_LENGTH) {
        return false;
    }
    lw_phrase_add(phrase, phrase->length > 0 ? "; " : "");
    return true;
}

static void say_news(const lw_scene *scene, lw_phrase *phrase, double now, double before,
                     const char *what)
{
    if (is_news(phrase, now, before)) {
        lw_say_length(scene, phrase, now);
        lw_phrase_add(phrase, what);
    }
}

static void say_girdle_news(const lw_scene *scene, lw_phrase *phrase, const lw_bench_size *now,
                            const lw_bench_size *before)
{
    bool changed = fabs(now->girdle_thick - before->girdle_thick) >= SAME_LENGTH ||
                   fabs(now->girdle_thin - before->girdle_thin) >= SAME_LENGTH;
    if (now->girdle_thick <= 0.0 || !changed) {
        return;
    }
    lw_phrase_add(phrase, phrase->length > 0 ? "; girdle " : "girdle ");
    if (now->girdle_thick - now->girdle_thin > 1e-3) {
        lw_say_length(scene, phrase, now->girdle_thin);
        lw_phrase_add(phrase, " at its thinnest, ");
        lw_say_length(scene, phrase, now->girdle_thick);
        lw_phrase_add(phrase, " at its thickest");
    } else {
        lw_say_length(scene, phrase, now->girdle_thick);
        lw_phrase_add(phrase, " thick");
    }
}

/* What to put the caliper to: the sizes that the step has changed, and no others. */
static void say_all_news(const lw_scene *scene, lw_phrase *phrase, const lw_bench_size *now,
                         const lw_bench_size *before)
{
    lw_phrase_clear(phrase);
    if (is_news(phrase, now->width, before->width) ||
        is_news(phrase, now->length, before->length)) {
        lw_say_outline(scene, phrase, now->width, now->length, now->diameter);
    }
    say_girdle_news(scene, phrase, now, before);
    say_news(scene, phrase, now->pavilion, before->pavilion,
             " along the axis from the girdle's lower edge to the lowest point");
    if (now->depth <= 0.0) {
        say_news(scene, phrase, now->crown, before->crown,
                 " along the axis from the girdle's upper edge to the top");
    }
    say_news(scene, phrase, now->depth, before->depth, " deep, from top to bottom");
    say_news(scene, phrase, now->table, before->table, " across the table");
    say_news(scene, phrase, now->culet, before->culet, " across the culet");
}

/* True when there is something new to measure. */
static bool say_bench_size(const lw_scene *scene, const lw_bench_size *now,
                           const lw_bench_size *before, lw_phrase *phrase)
{
    lw_phrase news;
    say_all_news(scene, &news, now, before);
    double flats = 0.0;
    if (lw_scene_opposite(scene, &flats) && flats > (1.0 + SAME_LENGTH) * now->width) {
        say_news(scene, &news, flats, 0.0, " across these flats");
    }
    lw_phrase_clear(phrase);
    if (news.length > 0) {
        lw_phrase_add(phrase, "Then measure: ");
        lw_phrase_add(phrase, news.text);
        lw_phrase_add(phrase, ".");
        return true;
    }
    if (now->width <= 0.0) {
        lw_phrase_add(phrase, "Nothing to measure yet, the preform is still on the outside: keep "
                              "the height.");
        return false;
    }
    lw_phrase_add(phrase, "Sizes stay: ");
    lw_say_outline(scene, phrase, now->width, now->length, now->diameter);
    if (now->girdle_thick > 0.0) {
        lw_phrase_add(phrase, ", girdle ");
        lw_say_length(scene, phrase, now->girdle_thin);
    }
    if (now->depth > 0.0) {
        lw_phrase_add(phrase, ", ");
        lw_say_length(scene, phrase, now->depth);
        lw_phrase_add(phrase, " deep");
    }
    lw_phrase_add(phrase, ".");
    return false;
}

static void say_afterwards(const lw_strip *strip, const lw_scene *scene, const lw_replay *replay,
                           const lw_bench_size *before, lw_flow *flow)
{
    const lw_step *step = lw_scene_step(scene);
    const lw_check *check = strip->facts->check;
    lw_phrase phrase;
    lw_flow_break(flow);
    flow->y += 2.0;
    lw_bench_size now = lw_replay_size(replay);
    bool news = say_bench_size(scene, &now, before, &phrase);
    add(flow, news ? LW_TYPE_STRONG : LW_TYPE_BODY, phrase.text);
    lw_flow_break(flow);
    flow->y += 2.0;
    if (check != NULL && scene->step < check->step_count) {
        add(flow, LW_TYPE_ASIDE, sight_sentence(check->sights[scene->step]));
    }
    if (step->angle == NULL) {
        add(flow, LW_TYPE_ASIDE,
            "The angle follows from the meets: trust them over the "
            "protractor.");
    }
    if (step->temporary) {
        add(flow, LW_TYPE_ASIDE, "Later steps cut these facets away again.");
    }
    lw_flow_break(flow);
}

/* ---- strips ---- */

static double action_strip(const lw_strip *strip, const lw_replay *replay, int step)
{
    lw_scene scene = lw_strip_scene(strip, step);
    double number = draw_step_number(strip, step);
    double left = strip->width - PICTURES;
    lw_flow flow;
    lw_flow_begin(&flow, strip->list, strip->metrics, NUMBER_COLUMN, 0.0,
                  strip->width - NUMBER_COLUMN - LW_PICTURE_STONE - 12.0);
    lw_say_action(&scene, &flow);
    if (lw_scene_step(&scene)->remark != NULL) {
        lw_phrase remark;
        lw_phrase_clear(&remark);
        lw_phrase_add_start(&remark, lw_scene_step(&scene)->remark, MOST_REMARK);
        add(&flow, LW_TYPE_ASIDE, remark.text);
    }
    double below = fmax(lw_flow_end(&flow), number);
    bool adapter = lw_scene_step(&scene)->kind == LW_STEP_ADAPTER;
    if (!adapter) {
        left = strip->width - LW_PICTURE_STONE;
        below = fmax(below, lw_strip_pictures(strip, replay, step, NULL, left, 0.0));
    }
    return below;
}

static void cutting_order(const lw_scene *scene, int *order)
{
    const lw_tier *tier = lw_scene_tier(scene);
    double teeth[LW_CUT_MOST_FACETS];
    for (int i = 0; i < tier->count; i++) {
        teeth[i] = scene->stone->facets[tier->first + i].tooth;
    }
    lw_dial_order(&scene->kit, lw_scene_facing(scene), teeth, tier->count, lw_scene_opens(scene),
                  order);
}

static double first_strip(const lw_strip *strip, const lw_replay *replay, const lw_scene *scene,
                          const lw_bench_size *before, const int *order, int past)
{
    const lw_tier *tier = lw_scene_tier(scene);
    lw_phrase phrase;
    lw_flow flow;
    double pictures =
        lw_strip_pictures(strip, replay, scene->step, order, strip->width - PICTURES, 0.0);
    lw_flow_begin(&flow, strip->list, strip->metrics, NUMBER_COLUMN, 0.0,
                  strip->width - NUMBER_COLUMN - PICTURES - 6.0);
    lw_flow_widen(&flow, pictures + 2.0, strip->width - NUMBER_COLUMN);
    lw_say_title(scene, &phrase);
    add(&flow, LW_TYPE_NAME, phrase.text);
    if (lw_scene_step(scene)->remark != NULL) {
        lw_phrase_clear(&phrase);
        lw_phrase_add_start(&phrase, lw_scene_step(scene)->remark, MOST_REMARK);
        add(&flow, LW_TYPE_ASIDE, phrase.text);
    }
    lw_flow_break(&flow);
    add_setting(scene, &flow, order, 0, past);
    if (past < tier->count) {
        add(&flow, LW_TYPE_BODY, "and more below");
    }
    lw_say_until(scene, &phrase);
    add(&flow, LW_TYPE_BODY, phrase.text);
    say_afterwards(strip, scene, replay, before, &flow);
    double ticks = draw_ticks(strip, STEP_NUMBER_HEIGHT);
    return fmax(fmax(lw_flow_end(&flow), ticks), pictures);
}

static double further_strip(const lw_strip *strip, const lw_scene *scene, const int *order,
                            int from, int past)
{
    lw_flow flow;
    lw_flow_begin(&flow, strip->list, strip->metrics, NUMBER_COLUMN, 0.0,
                  strip->width - NUMBER_COLUMN);
    add(&flow, LW_TYPE_BODY, "goes on with");
    add_teeth(scene, &flow, order, from, past);
    return lw_flow_end(&flow);
}

double lw_strip_step(const lw_strip *strip, const lw_replay *replay, const lw_bench_size *before,
                     int step, int from_tooth, int *next_tooth)
{
    lw_scene scene = lw_strip_scene(strip, step);
    int count = lw_scene_tier(&scene)->count;
    if (count == 0) {
        *next_tooth = 0;
        return action_strip(strip, replay, step);
    }
    int order[LW_CUT_MOST_FACETS];
    cutting_order(&scene, order);
    int most = any_cheated(&scene) || has_own_depths(&scene) ? MOST_CHEATED : MOST_TEETH;
    int past = count - from_tooth > most ? from_tooth + most : count;
    double number = draw_step_number(strip, step);
    *next_tooth = past;
    double below = from_tooth == 0 ? first_strip(strip, replay, &scene, before, order, past)
                                   : further_strip(strip, &scene, order, from_tooth, past);
    return fmax(below, number);
}
