/* The steps that handle the stone and cut nothing: dop, transfer, a new dop, the adapter. */
#include "sheet/sheet_parts.h"

#include <math.h>

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

void lw_say_action(const lw_scene *scene, lw_flow *flow)
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
