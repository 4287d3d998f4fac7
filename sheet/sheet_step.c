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

/* ---- sentences ---- */

static void add(lw_flow *flow, lw_type type, const char *text)
{
    lw_flow_add(flow, &type, text);
}

/* Half to seven tenths of the width: common practice of cutters. */
static void say_dop_width(const lw_scene *scene, lw_phrase *phrase)
{
    double width_mm = scene->stone->measures.width * scene->stone->unit_mm;
    if (width_mm > 0.0) {
        lw_phrase_number(phrase, 0.5 * width_mm, 1);
        lw_phrase_add(phrase, " to ");
        lw_phrase_number(phrase, 0.7 * width_mm, 1);
        lw_phrase_add(phrase, "\u00a0mm wide");
    } else {
        lw_phrase_add(phrase, "half to seven tenths as wide as the stone");
    }
}

/* A girdle flat that is there to align on, as it will be dialled; false when there is none yet. */
static bool say_alignment(const lw_scene *scene, lw_phrase *phrase)
{
    for (int i = 0; i < scene->stone->facet_count; i++) {
        const lw_facet *f = &scene->stone->facets[i];
        if (f->side == LW_SIDE_GIRDLE && f->step < scene->step && !f->temporary) {
            lw_phrase_add(phrase, "Before cutting, set 90.0\u00b0 and tooth ");
            lw_say_dial(phrase, lw_scene_dial(scene, i));
            lw_phrase_add(phrase, ": the girdle flat there must lie flush on the lap at rest; turn "
                                  "the cheater until it does.");
            return true;
        }
    }
    return false;
}

static const char *side_word(lw_side side)
{
    return side == LW_SIDE_CROWN ? "crown" : "pavilion";
}

static const char *other_side_word(lw_side side)
{
    return side == LW_SIDE_CROWN ? "pavilion" : "crown";
}

static void say_dop(const lw_scene *scene, lw_flow *flow)
{
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add(&phrase, "Fix the stone to the dop, level and centred, by ");
    lw_phrase_add(&phrase, scene->step == 0 ? "what will be its " : "its ");
    lw_phrase_add(&phrase, side_word(lw_scene_step(scene)->side));
    lw_phrase_add(&phrase, ". A dop ");
    say_dop_width(scene, &phrase);
    lw_phrase_add(&phrase, " holds it and stays clear of the lap.");
    add(flow, LW_TYPE_BODY, phrase.text);
    lw_phrase_clear(&phrase);
    if (say_alignment(scene, &phrase)) {
        add(flow, LW_TYPE_BODY, phrase.text);
    }
}

/* A tooth that shows the reversal: one that is not its own mirror image. */
static void say_reversal(const lw_scene *scene, lw_phrase *phrase)
{
    lw_side now = lw_scene_facing(scene);
    lw_side before = now == LW_SIDE_CROWN ? LW_SIDE_PAVILION : LW_SIDE_CROWN;
    double tooth = floor((double)scene->kit.wheel / 4.0);
    lw_phrase_add(phrase, "From here on the wheel counts the other way round the stone: what was "
                          "at ");
    lw_say_dial(phrase, lw_dial_of(&scene->kit, before, tooth));
    lw_phrase_add(phrase, " is now at ");
    lw_say_dial(phrase, lw_dial_of(&scene->kit, now, tooth));
    lw_phrase_add(phrase, ". The teeth below are told as the dial shows them.");
}

static void say_transfer(const lw_scene *scene, lw_flow *flow)
{
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_side facing = lw_scene_facing(scene);
    lw_phrase_add(&phrase, "In the transfer jig, fix a second dop to the ");
    lw_phrase_add(&phrase, other_side_word(facing));
    lw_phrase_add(&phrase, ", let it set, and free the first one: the ");
    lw_phrase_add(&phrase, side_word(facing));
    lw_phrase_add(&phrase, " is now open.");
    add(flow, LW_TYPE_BODY, phrase.text);
    lw_phrase_clear(&phrase);
    say_reversal(scene, &phrase);
    add(flow, LW_TYPE_BODY, phrase.text);
    lw_phrase_clear(&phrase);
    if (say_alignment(scene, &phrase)) {
        add(flow, LW_TYPE_BODY, phrase.text);
    }
}

static void say_redop(const lw_scene *scene, lw_flow *flow)
{
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add(&phrase, "Take the stone off and set it on another dop, held by the same side. "
                           "Heights start afresh. ");
    (void)say_alignment(scene, &phrase);
    add(flow, LW_TYPE_BODY, phrase.text);
}

static void say_adapter(const lw_scene *scene, lw_flow *flow)
{
    if (lw_scene_step(scene)->off) {
        add(flow, LW_TYPE_BODY,
            "Take the dop out of the 45\u00b0 adapter and put it back into the "
            "quill.");
        return;
    }
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add(&phrase, "Put the dop into the 45\u00b0 adapter and the adapter into the quill: "
                           "protractor 45.0\u00b0, tooth ");
    lw_phrase_whole(&phrase, scene->kit.wheel);
    lw_phrase_add(&phrase, ", cheater 0. A level facet then comes out level.");
    add(flow, LW_TYPE_BODY, phrase.text);
}

static const char *action_title(const lw_step *step)
{
    switch (step->kind) {
    case LW_STEP_DOP:
        return "Dop";
    case LW_STEP_TRANSFER:
        return "Transfer";
    case LW_STEP_REDOP:
        return "A new dop";
    default:
        return step->off ? "Out of the adapter" : "Into the 45\u00b0 adapter";
    }
}

static void say_action(const lw_scene *scene, lw_flow *flow)
{
    const lw_step *step = lw_scene_step(scene);
    add(flow, LW_TYPE_NAME, action_title(step));
    lw_flow_break(flow);
    switch (step->kind) {
    case LW_STEP_DOP:
        say_dop(scene, flow);
        break;
    case LW_STEP_TRANSFER:
        say_transfer(scene, flow);
        break;
    case LW_STEP_REDOP:
        say_redop(scene, flow);
        break;
    default:
        say_adapter(scene, flow);
        break;
    }
    lw_flow_break(flow);
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
    say_action(&scene, &flow);
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
