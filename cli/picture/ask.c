#include "picture/ask.h"

#include "colour.h"
#include "look.h"
#include "picture/picture_options.h"
#include "place.h"
#include "text.h"

#include "parallel.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* ---- the stone ---------------------------------------------------------- */

static bool ask_material(const cli_args *args, picture_request *r)
{
    lw_light_index index;
    if (!cli_look(args, &r->stone, &r->material, &index)) {
        return false;
    }
    r->index = index.yellow;
    if (r->material != NULL) {
        r->own = *r->material;
        if (cli_has(args, "refractive-index")) {
            /* cli_look has seen that it is within limits */
            (void)lw_material_with_index(r->material, index.yellow, &r->own);
        }
    }
    return true;
}

static bool ask_colour(const cli_args *args, picture_request *r)
{
    if (!cli_colour(args, &r->absorption)) {
        return false;
    }
    if (r->absorption.coloured && r->stone.stone.unit_mm <= 0.0) {
        cli_fail("picture: --colour: found no size; expected --width-mm or another, since a larger "
                 "stone is darker");
        return false;
    }
    return true;
}

static bool ask_stone(const cli_args *args, picture_request *r)
{
    if (!ask_material(args, r) || !ask_colour(args, r) || !cli_place_make(args, &r->place)) {
        return false;
    }
    lw_status status = lw_optic_solid_make(&r->stone.memory, &r->stone.stone.solid, &r->solid);
    if (status != LW_OK) {
        cli_fail("%s: %s", r->stone.name, lw_status_text(status));
        return false;
    }
    return true;
}

/* ---- how it is held ----------------------------------------------------- */

static picture_form form_of(const cli_args *args)
{
    const char *form = cli_text(args, "as", cli_picture_forms[0]);
    for (int i = 0; cli_picture_forms[i] != NULL; i++) {
        if (strcmp(form, cli_picture_forms[i]) == 0) {
            return (picture_form)i;
        }
    }
    assert(!"one of the choices");
    return PICTURE_MOVING;
}

/* The side that comes toward the eye is the near one on a turn-table, the right one else. */
static bool ask_motion(const cli_args *args, picture_request *r)
{
    bool turns = cli_has(args, "turntable"), rocks = cli_has(args, "rock");
    if (turns && rocks) {
        cli_fail("picture: found --turntable and --rock; expected one of them");
        return false;
    }
    if (!turns && !rocks && cli_has(args, "as")) {
        cli_fail("picture: found --as; expected --turntable or --rock with it");
        return false;
    }
    if (!rocks && cli_has(args, "rock-deg")) {
        cli_fail("picture: found --rock-deg; expected --rock with it");
        return false;
    }
    r->motion = turns ? PICTURE_TURNTABLE : rocks ? PICTURE_ROCKED : PICTURE_STILL;
    r->form = form_of(args);
    r->frames = (int)cli_number(args, turns ? "turntable" : "rock", 1.0);
    r->rock_deg = cli_number(args, "rock-deg", 20.0);
    r->pose.tilt_deg = cli_number(args, "tilt-deg", turns ? 20.0 : 0.0);
    r->pose.turn_deg = cli_number(args, "turn-deg", turns ? 270.0 : 0.0);
    r->head_deg = cli_number(args, "head-deg", -1.0);
    if (rocks && r->pose.tilt_deg + r->rock_deg > PICTURE_MOST_TILT_DEG) {
        cli_fail("picture: found a tilt of up to %s degrees; expected at most %d",
                 CLI_SHORT(r->pose.tilt_deg + r->rock_deg), PICTURE_MOST_TILT_DEG);
        return false;
    }
    return true;
}

lw_picture_pose picture_pose_at(const picture_request *request, int i)
{
    switch (request->motion) {
    case PICTURE_TURNTABLE:
        return lw_picture_turntable(&request->pose, i, request->frames);
    case PICTURE_ROCKED:
        return lw_picture_rocked(&request->pose, request->rock_deg, request->form != PICTURE_MOVING,
                                 i, request->frames);
    default:
        return request->pose;
    }
}

/* ---- the picture -------------------------------------------------------- */

static bool ask_lanes(const cli_args *args, lw_lanes *lanes)
{
    const char *name = cli_text(args, "lanes", NULL);
    for (int i = 0; name != NULL && i < LW_LANES_COUNT; i++) {
        if (strcmp(name, lw_lanes_text((lw_lanes)i)) == 0) {
            *lanes = (lw_lanes)i;
        }
    }
    if (!lw_lanes_usable(*lanes)) {
        cli_fail("picture: --lanes: found %s; expected what this machine has: %s", name,
                 lw_lanes_text(lw_lanes_best()));
        return false;
    }
    return true;
}

static bool ask_samples(const cli_args *args, lw_picture *picture)
{
    picture->samples = (int)cli_number(args, "samples", picture->samples);
    int most = picture->samples * 16 < LW_PICTURE_MOST_SAMPLES ? picture->samples * 16
                                                               : LW_PICTURE_MOST_SAMPLES;
    picture->most_samples = (int)cli_number(args, "samples-most", most);
    if (picture->most_samples < picture->samples) {
        cli_fail("picture: --samples-most: found %d; expected at least the %d of --samples",
                 picture->most_samples, picture->samples);
        return false;
    }
    return true;
}

/* Where the place has nothing behind the stone, a middling grey ground. */
static void ask_ground(const cli_args *args, picture_request *r)
{
    lw_vec3 right;
    lw_surroundings around = lw_picture_posed(&r->place, &r->pose, r->head_deg, &right);
    bool nothing = lw_surroundings_patch(&around, lw_vec3_scale(around.eye, -1.0)) == LW_ON_DARK;
    r->picture.with_ground = nothing || cli_has(args, "ground");
    r->picture.ground = cli_number(args, "ground", 18.0) / 100.0;
}

static void ask_bands(const cli_args *args, picture_request *r)
{
    lw_vec3 right;
    lw_surroundings around = lw_picture_posed(&r->place, &r->pose, r->head_deg, &right);
    lw_picture_stone stone = picture_stone_of(r);
    bool coloured = lw_picture_has_colour(&stone, &around);
    r->bands = coloured ? (int)cli_number(args, "bands", PICTURE_BANDS) : 1;
}

static bool ask_picture(const cli_args *args, picture_request *r)
{
    int count = 0;
    const double *size = cli_numbers(args, "size", &count);
    int width = count > 0 ? (int)size[0] : 600;
    r->picture = lw_picture_defaults(width, count > 1 ? (int)size[1] : width);
    r->picture.unpolarised = cli_has(args, "unpolarised");
    r->fill = cli_number(args, "fill", 86.0) / 100.0;
    r->picture.level = LW_DEVELOP_LEVEL * exp2(cli_number(args, "stops", 0.0));
    r->threads = (int)cli_number(args, "threads", lw_parallel_processors());
    ask_ground(args, r);
    ask_bands(args, r);
    return ask_lanes(args, &r->picture.lanes) && ask_samples(args, &r->picture);
}

static bool ask_files(const cli_args *args, picture_request *r)
{
    r->output = cli_text(args, "output", NULL);
    r->raw = cli_text(args, "raw", NULL);
    if (r->output == NULL && r->raw == NULL) {
        cli_fail("picture: found no --output; expected -o and a file");
        return false;
    }
    if (r->raw != NULL && r->motion != PICTURE_STILL) {
        cli_fail("picture: found --raw and a moving stone; expected --raw with a still picture");
        return false;
    }
    return true;
}

bool picture_ask(const cli_args *args, picture_request *out)
{
    *out = (picture_request){0};
    if (!cli_stone_make(args, &out->stone)) {
        return false;
    }
    if (ask_stone(args, out) && ask_motion(args, out) && ask_picture(args, out) &&
        ask_files(args, out)) {
        return true;
    }
    picture_request_destroy(out);
    return false;
}

lw_picture_stone picture_stone_of(const picture_request *request)
{
    return (lw_picture_stone){.material = request->material != NULL ? &request->own : NULL,
                              .index = request->index,
                              .absorption = request->absorption,
                              .mm = request->stone.stone.unit_mm};
}

void picture_request_destroy(picture_request *request)
{
    lw_optic_solid_destroy(&request->solid);
    cli_stone_destroy(&request->stone);
}
