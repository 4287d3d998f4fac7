#include "stone.h"

#include "text.h"

#include "geom/mass.h"
#include "geom/tolerance.h"

#include <stdio.h>

bool cli_stone_prepare(const cli_args *args, cli_stone *out, lw_solve_options *options)
{
    out->memory = lw_memory_standard();
    out->name = args->operands[0];
    if (!cli_solve_options(args, out->overrides, options) || !cli_material(args, &out->found) ||
        !cli_cut_load(&out->memory, out->name, &out->cut)) {
        return false;
    }
    out->material = out->found.material;
    out->override_count = options->override_count;
    return true;
}

bool cli_stone_make(const cli_args *args, cli_stone *out)
{
    lw_solve_options options = {0};
    lw_problem problem = {0};
    *out = (cli_stone){0};
    if (!cli_stone_prepare(args, out, &options)) {
        cli_stone_destroy(out);
        return false;
    }
    if (lw_cut_solve(&out->memory, &out->cut, &options, &out->stone, &problem) != LW_OK) {
        cli_fail_problem(out->name, &problem);
        cli_stone_destroy(out);
        return false;
    }
    return true;
}

void cli_stone_destroy(cli_stone *stone)
{
    lw_stone_destroy(&stone->stone);
    lw_cut_destroy(&stone->cut);
}

const char *cli_side_text(lw_side side)
{
    static const char *const names[] = {"pavilion", "crown", "girdle"};
    return (unsigned)side < sizeof names / sizeof names[0] ? names[side] : "";
}

double cli_tooth_said(const lw_cut *cut, double tooth)
{
    return tooth == 0.0 ? (double)cut->wheel : tooth;
}

double cli_azimuth_deg(const lw_cut *cut, const lw_facet *facet)
{
    return facet->angle_deg == 0.0 ? 0.0 : 360.0 * facet->tooth / cut->wheel;
}

bool cli_facet_is_there(const lw_stone *stone, int facet)
{
    double width = stone->measures.width;
    return lw_polyhedron_face_area(&stone->solid, facet) > LW_NO_AREA * width * width;
}

static const char *number_word(int number)
{
    static const char *const words[] = {"no",    "one",   "two",  "three", "four",   "five",  "six",
                                        "seven", "eight", "nine", "ten",   "eleven", "twelve"};
    return number >= 0 && number <= 12 ? words[number] : NULL;
}

size_t cli_stone_sentence(const cli_stone *stone, char *text, size_t capacity)
{
    char fold[48] = "";
    const lw_measures *m = &stone->stone.measures;
    const char *word = number_word(stone->cut.fold);
    if (stone->cut.fold > 1 && word != NULL) {
        snprintf(fold, sizeof fold, ", %s-fold", word);
    } else if (stone->cut.fold > 1) {
        snprintf(fold, sizeof fold, ", %d-fold", stone->cut.fold);
    }
    int length = snprintf(text, capacity, "%d facets and %d on the girdle%s, on a %d wheel",
                          m->facet_count, m->girdle_facet_count, fold, stone->cut.wheel);
    return length < 0 ? 0 : (size_t)length;
}
