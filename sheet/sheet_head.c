/* The head of a sheet: what is going to be cut, in sentences. */
#include "cut/check.h"
#include "geom/angle.h"
#include "geom/mass.h"
#include "sheet/figure.h"
#include "sheet/sheet_parts.h"

#include <math.h>
#include <string.h>

/* Letters of a title beyond which it is set smaller, and bytes at which it is cut off. */
#define LONG_TITLE 60
#define MOST_TITLE 300
/* Bytes of all the maker's notes together. */
#define MOST_NOTES 900
#define MOST_REMARK 300
#define MOST_REMARKS 8
#define PICTURE 132.0

static void say_fold(const lw_strip *strip, lw_phrase *phrase)
{
    static const char *const folds[13] = {"",           "",          "two-fold", "three-fold",
                                          "four-fold",  "five-fold", "six-fold", "seven-fold",
                                          "eight-fold", "nine-fold", "ten-fold", "eleven-fold",
                                          "twelve-fold"};
    const lw_cut *cut = strip->facts->cut;
    if (cut->fold >= 2 && cut->fold <= 12) {
        lw_phrase_add(phrase, ", ");
        lw_phrase_add(phrase, folds[cut->fold]);
    } else if (cut->fold > 12) {
        lw_phrase_add(phrase, ", ");
        lw_phrase_whole(phrase, cut->fold);
        lw_phrase_add(phrase, "-fold");
    }
    lw_phrase_add(phrase, cut->mirror ? (cut->fold >= 2 ? " and mirrored" : ", mirrored") : "");
    lw_phrase_add(phrase, cut->left_handed ? ", left-handed" : "");
}

void lw_say_counts(const lw_strip *strip, lw_phrase *phrase)
{
    const lw_measures *m = &strip->facts->stone->measures;
    lw_phrase_whole(phrase, m->facet_count);
    lw_phrase_add(phrase, m->facet_count == 1 ? " facet" : " facets");
    if (m->girdle_facet_count > 0) {
        lw_phrase_add(phrase, " and ");
        lw_phrase_whole(phrase, m->girdle_facet_count);
        lw_phrase_add(phrase, " on the girdle");
    }
}

/* A circle of flats is told by its flats and its corners. Six percent is between a circle of nine
 * flats and the shortest oval; on a circle the greatest width is the diameter, on a triangle not.
 */
#define ROUND 1.065
#define CENTRED 1.01
/* Below half a percent the second figure says nothing. */
#define SQUARE_ENOUGH 1.005

void lw_say_outline(const lw_scene *scene, lw_phrase *phrase, double width, double length,
                    double diameter)
{
    bool flats = length < ROUND * width && diameter < CENTRED * length;
    lw_say_length(scene, phrase, width);
    lw_phrase_add(phrase, " across");
    if (length >= SQUARE_ENOUGH * width) {
        lw_phrase_add(phrase, flats ? " the flats, " : ", ");
        lw_say_length(scene, phrase, length);
        lw_phrase_add(phrase, flats ? " over the corners" : " at its longest");
    }
}

void lw_say_size(const lw_strip *strip, lw_phrase *phrase)
{
    lw_scene scene = lw_strip_scene(strip, 0);
    const lw_sheet_facts *facts = strip->facts;
    const lw_measures *m = &facts->stone->measures;
    lw_say_outline(&scene, phrase, m->width, m->length, m->diameter);
    lw_phrase_add(phrase, " and ");
    lw_say_length(&scene, phrase, m->depth);
    lw_phrase_add(phrase, " deep");
    if (facts->stone->unit_mm > 0.0 && facts->specific_gravity > 0.0) {
        lw_phrase_add(phrase, ", ");
        lw_phrase_number(phrase, lw_stone_weight_ct(facts->stone, facts->specific_gravity), 2);
        lw_phrase_add(phrase, "\u00a0ct");
    }
}

static void head_title(const lw_strip *strip, lw_flow *flow)
{
    const char *title = strip->facts->cut->title;
    lw_type type = LW_TYPE_TITLE;
    type.size = strlen(title) > LONG_TITLE ? 15.0 : type.size;
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add_start(&phrase, title, MOST_TITLE);
    lw_flow_add(flow, &type, phrase.length > 0 ? phrase.text : "A cut without a title");
    lw_flow_break(flow);
    flow->y += 3.0;
}

static void head_counts(const lw_strip *strip, lw_flow *flow)
{
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_say_counts(strip, &phrase);
    say_fold(strip, &phrase);
    lw_phrase_add(&phrase, ", on a ");
    lw_phrase_whole(&phrase, strip->facts->cut->wheel);
    lw_phrase_add(&phrase, " wheel. Finished it is ");
    lw_say_size(strip, &phrase);
    if (strip->facts->material != NULL) {
        lw_phrase_add(&phrase, " in ");
        lw_phrase_add_name(&phrase, strip->facts->material, LW_MOST_MATERIAL);
    }
    lw_phrase_add(&phrase, ".");
    lw_flow_add(flow, &LW_TYPE_STRONG, phrase.text);
    lw_flow_break(flow);
    flow->y += 3.0;
}

static void head_parts(const lw_strip *strip, const lw_replay *preform, lw_flow *flow)
{
    lw_scene scene = lw_strip_scene(strip, 0);
    const lw_measures *m = &strip->facts->stone->measures;
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add(&phrase, "Pavilion ");
    lw_say_length(&scene, &phrase, m->pavilion);
    lw_phrase_add(&phrase, ", girdle ");
    lw_say_length(&scene, &phrase, m->girdle_thick);
    if (m->girdle_thick - m->girdle_thin > 1e-3) {
        lw_phrase_add(&phrase, " where it is thick and ");
        lw_say_length(&scene, &phrase, m->girdle_thin);
        lw_phrase_add(&phrase, " where it is thin");
    }
    lw_phrase_add(&phrase, ", crown ");
    lw_say_length(&scene, &phrase, m->crown);
    if (m->table > 0.0) {
        lw_phrase_add(&phrase, ", table ");
        lw_say_length(&scene, &phrase, m->table);
        lw_phrase_add(&phrase, " wide");
    }
    lw_phrase_add(&phrase, ". The preform needs ");
    lw_say_outline(&scene, &phrase, m->width, m->length, 2.0 * m->diameter);
    lw_phrase_add(&phrase, ", and ");
    lw_say_length(&scene, &phrase, preform->needs_height);
    lw_phrase_add(&phrase, " in height, with something over to grind away.");
    lw_flow_add(flow, &LW_TYPE_BODY, phrase.text);
    lw_flow_break(flow);
}

/* The least inclined facet of the pavilion decides whether one sees through the stone. */
static double lowest_pavilion_deg(const lw_stone *stone)
{
    double lowest = 90.0;
    for (int i = 0; i < stone->facet_count; i++) {
        const lw_facet *f = &stone->facets[i];
        bool there = stone->solid.face_start[i + 1] > stone->solid.face_start[i];
        if (there && f->side == LW_SIDE_PAVILION && f->angle_deg > 1.0) {
            lowest = fmin(lowest, f->angle_deg);
        }
    }
    return lowest;
}

static void head_material(const lw_strip *strip, lw_flow *flow)
{
    const lw_sheet_facts *facts = strip->facts;
    if (facts->material == NULL || facts->refractive_index <= 0.0) {
        return;
    }
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add_start(&phrase, facts->material, LW_MOST_MATERIAL);
    lw_phrase_capital(&phrase);
    lw_phrase_add(&phrase, ": refractive index ");
    lw_phrase_number(&phrase, facts->refractive_index, 3);
    if (facts->specific_gravity > 0.0) {
        lw_phrase_add(&phrase, ", specific gravity ");
        lw_phrase_number(&phrase, facts->specific_gravity, 2);
    }
    if (facts->critical_angle_deg > 0.0) {
        double margin = lowest_pavilion_deg(facts->stone) - facts->critical_angle_deg;
        lw_phrase_add(&phrase, "; its critical angle is ");
        lw_phrase_degrees(&phrase, facts->critical_angle_deg);
        lw_phrase_add(&phrase, ", and the flattest pavilion facets lie ");
        lw_phrase_degrees(&phrase, fabs(margin));
        lw_phrase_add(&phrase, margin >= 0.0 ? " above it" : " below it: the stone has a window");
    }
    if (facts->polish != NULL && facts->polish[0] != '\0') {
        lw_phrase_add(&phrase, ". Usually polished with ");
        lw_phrase_add_start(&phrase, facts->polish, LW_MOST_MATERIAL);
    }
    lw_phrase_add(&phrase, ".");
    lw_flow_add(flow, &LW_TYPE_BODY, phrase.text);
    lw_flow_break(flow);
}

static void head_machine(const lw_strip *strip, lw_flow *flow)
{
    const lw_sheet_facts *facts = strip->facts;
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_add(&phrase, "Teeth are what the dial shows, in the order to cut them, on a wheel "
                           "that counts ");
    lw_phrase_add(&phrase, lw_counts_text(facts->counts));
    lw_phrase_add(&phrase, " seen from behind the quill; the wheel is drawn as seen from there, "
                           "the first tooth at the pointer, the stone as it is seen turned up to "
                           "you. Grey is what the step has just cut; the ring marks the point "
                           "to reach, at the first tooth.");
    lw_flow_add(flow, &LW_TYPE_SMALL, phrase.text);
    lw_flow_break(flow);
}

static bool has_cheater(const lw_strip *strip)
{
    for (int i = 0; i < strip->facts->stone->facet_count; i++) {
        lw_scene scene = lw_strip_scene(strip, strip->facts->stone->facets[i].step);
        if (lw_scene_dial(&scene, i).cheater_deg != 0.0) {
            return true;
        }
    }
    return false;
}

/* Bounded: a text may have any number of notes. */
static void head_notes(const lw_strip *strip, lw_flow *flow)
{
    const lw_sheet_facts *facts = strip->facts;
    if (has_cheater(strip)) {
        lw_flow_add(flow, &LW_TYPE_SMALL,
                    "Degrees behind a tooth are the cheater's, + toward the higher tooth.");
        lw_flow_break(flow);
    }
    size_t left = MOST_NOTES;
    for (int i = 0; i < facts->cut->note_count && left > 0; i++) {
        lw_phrase phrase;
        lw_phrase_clear(&phrase);
        lw_phrase_add_start(&phrase, facts->cut->notes[i], left);
        left -= phrase.length < left ? phrase.length : left;
        lw_flow_add(flow, &LW_TYPE_ASIDE, phrase.text);
        lw_flow_break(flow);
    }
    for (int i = 0; i < facts->remark_count && i < MOST_REMARKS; i++) {
        lw_phrase phrase;
        lw_phrase_clear(&phrase);
        lw_phrase_add_start(&phrase, facts->remarks[i], MOST_REMARK);
        lw_flow_add(flow, &LW_TYPE_BODY, phrase.text);
        lw_flow_break(flow);
    }
}

/* What the check found wrong stands where it cannot be missed. */
static void head_faults(const lw_strip *strip, lw_flow *flow)
{
    const lw_check *check = strip->facts->check;
    int shown = 0;
    for (int i = 0; check != NULL && i < check->finding_count && shown < 6; i++) {
        if (!check->findings[i].fault) {
            continue;
        }
        char text[400];
        (void)lw_finding_write(strip->facts->cut, strip->facts->stone, &check->findings[i], text,
                               sizeof text);
        lw_flow_add(flow, &LW_TYPE_STRONG, shown == 0 ? "This cut does not pass its check:" : "");
        lw_flow_add(flow, &LW_TYPE_STRONG, text);
        lw_flow_break(flow);
        shown++;
    }
}

/* Turns the long way of the stone across the page, and a little on, so that no two facets hide
 * behind one another. */
static double picture_azimuth_deg(const lw_polyhedron *solid)
{
    double longest = 0.0;
    double at = 0.0;
    for (int deg = 0; deg < 180; deg += 3) {
        lw_sincos d = lw_sincos_deg((double)deg);
        lw_vec3 out = {d.cos, d.sin, 0.0};
        double width = lw_polyhedron_support(solid, out, NULL) +
                       lw_polyhedron_support(solid, lw_vec3_scale(out, -1.0), NULL);
        /* A round stone keeps its first direction: two percent is no length. */
        if (width > longest * 1.02) {
            longest = width;
            at = (double)deg;
        }
    }
    return at + 101.0;
}

static double head_picture(const lw_strip *strip, double left)
{
    lw_figure figure = {.solid = &strip->facts->stone->solid,
                        .shaded = true,
                        .view = lw_view_tipped(
                            LW_SIDE_CROWN, picture_azimuth_deg(&strip->facts->stone->solid), 52.0)};
    lw_figure_fit(&figure, left, 2.0, PICTURE, PICTURE * 0.8);
    lw_figure_draw(&figure, strip->list);
    return lw_figure_extent(&figure).bottom + 4.0;
}

double lw_strip_head(const lw_strip *strip, const lw_replay *preform)
{
    double text_width = strip->width - PICTURE - 16.0;
    double picture = head_picture(strip, text_width + 16.0);
    lw_flow flow;
    lw_flow_begin(&flow, strip->list, strip->metrics, 0.0, 0.0, text_width);
    head_title(strip, &flow);
    head_counts(strip, &flow);
    head_parts(strip, preform, &flow);
    return fmax(lw_flow_end(&flow), picture);
}

double lw_strip_facts(const lw_strip *strip)
{
    lw_flow flow;
    lw_flow_begin(&flow, strip->list, strip->metrics, 0.0, 2.0, strip->width);
    head_faults(strip, &flow);
    head_material(strip, &flow);
    head_notes(strip, &flow);
    return lw_flow_end(&flow);
}

double lw_strip_machine(const lw_strip *strip)
{
    lw_flow flow;
    lw_flow_begin(&flow, strip->list, strip->metrics, 0.0, 2.0, strip->width);
    head_machine(strip, &flow);
    return lw_flow_end(&flow);
}
