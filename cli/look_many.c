#include "look_many.h"

#include "text.h"

/* The yellow line, where all measures but fire are taken. */
static const double yellow_nm = 589.3;

static bool colour(const cli_args *args, const cli_stone *stone, lw_light_options *light)
{
    lw_absorption absorption;
    if (!cli_colour(args, &absorption)) {
        return false;
    }
    if (absorption.coloured && stone->stone.unit_mm <= 0.0) {
        cli_fail("%s: --colour: found no size; expected --width-mm or another, since a larger "
                 "stone is darker",
                 args->verb->name);
        return false;
    }
    if (absorption.coloured) {
        light->absorption = lw_absorption_at(&absorption, yellow_nm) * stone->stone.unit_mm;
    }
    return true;
}

bool cli_look_many(const cli_args *args, const cli_stone *stone, const lw_material **material,
                   lw_light_place *place, lw_look *out)
{
    lw_look look = {.light = lw_light_defaults(1.0)};
    if (!cli_look(args, stone, material, &look.light.index) || !colour(args, stone, &look.light) ||
        !cli_place_make(args, place)) {
        return false;
    }
    if (cli_has(args, "place")) {
        look.light.place = place;
        look.light.head_deg = -1.0;
    }
    look.light.head_deg = cli_number(args, "head-deg", look.light.head_deg);
    look.light.unpolarised = cli_has(args, "unpolarised");
    look.light.bound = LW_LIGHT_COARSE;
    *out = look;
    return true;
}

int cli_threads(const cli_args *args)
{
    return (int)cli_number(args, "threads", 0.0);
}
