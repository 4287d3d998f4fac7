/* lapwing solve: the solid that a cut comes to. */
#include "json.h"
#include "stone.h"
#include "text.h"

#include "geom/mass.h"

#include <stdio.h>
#include <string.h>

/* Facets that are part of the solid, or should be: all but temporary ones that are gone. */
static bool counts(const lw_stone *stone, int facet)
{
    return !stone->facets[facet].temporary || cli_facet_is_there(stone, facet);
}

/* ---- what is wrong ---- */

/* One sentence for a facet that is not as it should be; false when it is. */
static bool facet_problem(const cli_stone *s, int i, char *text, size_t capacity)
{
    const lw_facet *facet = &s->stone.facets[i];
    const lw_step *step = &s->cut.steps[facet->step];
    bool there = cli_facet_is_there(&s->stone, i);
    if (there != facet->temporary) {
        return false;
    }
    snprintf(text, capacity, "line %d, %s at tooth %s: %s", step->place.line, step->name,
             CLI_SHORT(cli_tooth_said(&s->cut, facet->tooth)),
             there ? "temporary, and still there at the end" : "has no area");
    return true;
}

static json_t *problems_json(const cli_stone *s)
{
    json_t *list = json_array();
    char text[200];
    for (int i = 0; i < s->stone.facet_count; i++) {
        if (facet_problem(s, i, text, sizeof text)) {
            json_array_append_new(list, json_string(text));
        }
    }
    return list;
}

/* ---- JSON ---- */

/* A length or an area in mm; null without a size. */
static json_t *in_mm(const lw_stone *stone, double value, int power)
{
    if (stone->unit_mm == 0.0) {
        return json_null();
    }
    for (int i = 0; i < power; i++) {
        value *= stone->unit_mm;
    }
    return json_real(value);
}

static json_t *facet_json(const cli_stone *s, int i)
{
    const lw_facet *facet = &s->stone.facets[i];
    double area = lw_polyhedron_face_area(&s->stone.solid, i);
    return json_pack("{s:i, s:s, s:s, s:f, s:f, s:f, s:o, s:o, s:o}", "step", facet->step + 1,
                     "name", s->cut.steps[facet->step].name, "side", cli_side_text(facet->side),
                     "tooth", facet->tooth, "azimuth_deg", cli_azimuth_deg(&s->cut, facet),
                     "angle_deg", facet->angle_deg, "normal", cli_json_vec3(facet->plane.normal),
                     "distance_mm", in_mm(&s->stone, facet->plane.distance, 1), "area_mm2",
                     in_mm(&s->stone, area, 2));
}

static json_t *facets_json(const cli_stone *s)
{
    json_t *list = json_array();
    for (int i = 0; i < s->stone.facet_count; i++) {
        if (counts(&s->stone, i)) {
            json_array_append_new(list, facet_json(s, i));
        }
    }
    return list;
}

static json_t *faces_json(const lw_stone *stone)
{
    const lw_polyhedron *solid = &stone->solid;
    json_t *list = json_array();
    for (int i = 0; i < stone->facet_count; i++) {
        if (counts(stone, i)) {
            json_t *ring = json_array();
            for (int at = solid->face_start[i]; at < solid->face_start[i + 1]; at++) {
                json_array_append_new(ring, json_integer(solid->face_vertex[at]));
            }
            json_array_append_new(list, ring);
        }
    }
    return list;
}

static json_t *vertices_json(const lw_stone *stone, double scale)
{
    json_t *list = json_array();
    for (int i = 0; i < stone->solid.vertex_count; i++) {
        json_array_append_new(list, cli_json_vec3(lw_vec3_scale(stone->solid.vertices[i], scale)));
    }
    return list;
}

/* A measure by its key, in mm with a size, and as a share of the width without one. */
static void put_length(json_t *object, const lw_stone *stone, const char *key, double value)
{
    char text[40];
    snprintf(text, sizeof text, "%s_mm", key);
    json_object_set_new(object, text, in_mm(stone, value, 1));
    if (stone->unit_mm == 0.0) {
        snprintf(text, sizeof text, "%s_widths", key);
        json_object_set_new(object, text, json_real(value / stone->measures.width));
    }
}

static void put_measures(json_t *object, const cli_stone *s)
{
    const lw_stone *stone = &s->stone;
    const lw_measures *m = &stone->measures;
    put_length(object, stone, "width", m->width);
    put_length(object, stone, "length", m->length);
    put_length(object, stone, "diameter", m->diameter);
    put_length(object, stone, "depth", m->depth);
    put_length(object, stone, "crown", m->crown);
    put_length(object, stone, "pavilion", m->pavilion);
    put_length(object, stone, "girdle_thick", m->girdle_thick);
    put_length(object, stone, "girdle_thin", m->girdle_thin);
    put_length(object, stone, "table", m->table);
    put_length(object, stone, "table_corner", m->table_corner);
    put_length(object, stone, "culet", m->culet);
    json_object_set_new(object, "surface_mm2", in_mm(stone, m->mass.area, 2));
    json_object_set_new(object, "volume_mm3", in_mm(stone, m->mass.volume, 3));
    bool weighed = s->material != NULL && stone->unit_mm > 0.0;
    json_object_set_new(object, "weight_ct",
                        weighed ? json_real(lw_stone_weight_ct(stone, s->material->sg))
                                : json_null());
    json_object_set_new(object, "facet_count", json_integer(m->facet_count));
    json_object_set_new(object, "girdle_facet_count", json_integer(m->girdle_facet_count));
}

static json_t *stone_json(const cli_stone *s)
{
    const lw_stone *stone = &s->stone;
    json_t *object =
        json_pack("{s:s, s:s, s:i}", "cut", s->name, "title", s->cut.title, "wheel", s->cut.wheel);
    if (object == NULL) {
        return NULL;
    }
    put_measures(object, s);
    json_object_set_new(object, "problems", problems_json(s));
    json_object_set_new(object, "facets", facets_json(s));
    bool sized = stone->unit_mm > 0.0;
    json_object_set_new(object, "vertices_mm",
                        sized ? vertices_json(stone, stone->unit_mm) : json_null());
    if (!sized) {
        json_object_set_new(object, "vertices_widths",
                            vertices_json(stone, 1.0 / stone->measures.width));
    }
    json_object_set_new(object, "faces", faces_json(stone));
    return object;
}

/* ---- for people ---- */

static void print_length(const lw_stone *stone, const char *name, double value)
{
    if (value == 0.0) {
        return;
    }
    printf("  %-16s", name);
    if (stone->unit_mm > 0.0) {
        printf("%8s mm ", CLI_FIXED(value * stone->unit_mm, 3));
    }
    printf("%7s %%\n", CLI_FIXED(100.0 * value / stone->measures.width, 2));
}

static void print_measures(const cli_stone *s)
{
    const lw_stone *stone = &s->stone;
    const lw_measures *m = &stone->measures;
    print_length(stone, "width", m->width);
    print_length(stone, "length", m->length);
    print_length(stone, "across corners", m->diameter);
    print_length(stone, "depth", m->depth);
    print_length(stone, "crown", m->crown);
    print_length(stone, "pavilion", m->pavilion);
    print_length(stone, "girdle, thick", m->girdle_thick);
    print_length(stone, "girdle, thin", m->girdle_thin);
    print_length(stone, "table", m->table);
    print_length(stone, "culet", m->culet);
    if (s->material != NULL && stone->unit_mm > 0.0) {
        printf("  %-16s%8s ct in %s\n", "weight",
               CLI_FIXED(lw_stone_weight_ct(stone, s->material->sg), 3), s->material->name);
    }
}

static void print_teeth(const cli_stone *s, const lw_tier *tier)
{
    for (int i = 0; i < tier->count; i++) {
        double tooth = s->stone.facets[tier->first + i].tooth;
        printf("%s%s", i == 0 ? "  " : " ", CLI_SHORT(cli_tooth_said(&s->cut, tooth)));
    }
}

static void print_steps(const cli_stone *s)
{
    for (int i = 0; i < s->stone.tier_count; i++) {
        const lw_tier *tier = &s->stone.tiers[i];
        const lw_step *step = &s->cut.steps[i];
        if (step->kind != LW_STEP_FACETS) {
            continue;
        }
        const lw_facet *first = &s->stone.facets[tier->first];
        printf("  %2d  %-8s  %-16s%7s deg", i + 1, cli_side_text(first->side), step->name,
               CLI_FIXED(tier->angle_deg, 2));
        if (tier->angle_deg != 0.0) {
            print_teeth(s, tier);
        }
        fputs("\n", stdout);
    }
}

static void print_stone(const cli_stone *s)
{
    char sentence[200], text[200];
    cli_stone_sentence(s, sentence, sizeof sentence);
    printf("%s: %s.\n\n", s->cut.title[0] != '\0' ? s->cut.title : s->name, sentence);
    print_measures(s);
    printf("\nSteps (teeth as on the stone; the pavilion's dial shows them so):\n");
    print_steps(s);
    for (int i = 0; i < s->stone.facet_count; i++) {
        if (facet_problem(s, i, text, sizeof text)) {
            printf("%s\n", text);
        }
    }
}

static cli_exit run(const cli_args *args)
{
    static cli_stone stone;
    if (!cli_stone_make(args, &stone)) {
        return CLI_WRONG;
    }
    cli_exit result = CLI_DONE;
    if (args->json) {
        result = cli_json_print(stone_json(&stone));
    } else {
        print_stone(&stone);
    }
    cli_stone_destroy(&stone);
    return result;
}

static const cli_option options[] = {CLI_CUT_OPTIONS, CLI_OPTIONS_END};

static const char *const examples[] = {
    "lapwing solve round-brilliant --width-mm 8 --material quartz",
    "lapwing solve mine.cut --set pavilion=42.5 --set \"table=57 %\" --json",
    NULL,
};

const cli_verb cli_verb_solve = {
    .name = "solve",
    .summary = "The solid that a cut comes to: facets, corners, measures",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "Works out every angle, tooth and depth of the cut and builds the stone. With a size the "
        "measures are in millimetres as well as in percent of the width, and with a material the "
        "stone is weighed. A rule in millimetres makes a cut's shape depend on its size; such a "
        "cut asks for one.\n\n"
        "Width is what a caliper reads, the least distance between parallel jaws; on a round with "
        "sixteen flats the diameter through the girdle's corners is 1.96 percent more.",
    .options = options,
    .examples = examples,
    .run = run,
};
