/* A place from any bytes. What is read can be looked at from everywhere; what is not read has a
 * problem that tells where and why. */
#include "fuzz.h"

#include "light/place.h"

#include <math.h>
#include <string.h>

static bool is_unit(lw_vec3 v)
{
    return fabs(lw_vec3_length(v) - 1.0) < 1e-12;
}

static void check_patch(const lw_patch *patch)
{
    LW_FUZZ_HOLDS(is_unit(patch->toward));
    LW_FUZZ_HOLDS(isfinite(patch->even) && isfinite(patch->slope) && patch->even >= 0.0);
    LW_FUZZ_HOLDS(patch->glow != LW_GLOW_BLACKBODY ||
                  (patch->kelvin >= 1000.0 && patch->kelvin <= 40000.0));
    if (patch->shape == LW_PATCH_CONE) {
        LW_FUZZ_HOLDS(patch->least_cos == -2.0 ||
                      (patch->least_cos > -1.0 && patch->least_cos < 1.0));
    } else {
        LW_FUZZ_HOLDS(patch->tan_width > 0.0 && patch->tan_tall > 0.0);
        LW_FUZZ_HOLDS(isfinite(patch->tan_width) && isfinite(patch->tan_tall));
        LW_FUZZ_HOLDS(lw_vec3_length(patch->right) < 1e8 && lw_vec3_length(patch->above) < 1e8);
    }
}

static void check_place(const lw_light_place *place)
{
    LW_FUZZ_HOLDS(memchr(place->name, '\0', sizeof place->name) != NULL && place->name[0] != '\0');
    LW_FUZZ_HOLDS(is_unit(place->eye) && place->eye.z >= 0.0);
    LW_FUZZ_HOLDS(place->head_deg >= 0.0 && place->head_deg <= 90.0);
    LW_FUZZ_HOLDS(isfinite(place->head_radiance) && place->head_radiance >= 0.0);
    LW_FUZZ_HOLDS(place->patch_count > 0 && place->patch_count <= LW_LIGHT_MOST_PATCHES);
    double most = 0.0;
    for (int i = 0; i < place->patch_count; i++) {
        check_patch(&place->patches[i]);
        most += place->patches[i].even + fabs(place->patches[i].slope);
    }
    lw_surroundings s = lw_surroundings_pose(place, 23.0, 71.0, -1.0);
    double card = lw_surroundings_white_card(&s);
    LW_FUZZ_HOLDS(isfinite(card) && card > -1e-6 * most && card <= (1.0 + 1e-6) * most);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lw_light_place place, untouched;
    lw_problem problem = {0};
    memset(&place, 0xA5, sizeof place);
    memcpy(&untouched, &place, sizeof place);
    lw_status status = lw_light_place_read((const char *)data, size, &place, &problem);
    if (status == LW_OK) {
        check_place(&place);
        return 0;
    }
    char text[4 * LW_PROBLEM_TEXT];
    LW_FUZZ_HOLDS(status == problem.status);
    LW_FUZZ_HOLDS(status == LW_BAD_INPUT || status == LW_TOO_LARGE);
    LW_FUZZ_HOLDS(problem.line >= 0 && problem.column >= 0);
    LW_FUZZ_HOLDS(problem.found[0] != '\0' && problem.expected[0] != '\0');
    LW_FUZZ_HOLDS(lw_problem_write(&problem, text, sizeof text) < sizeof text);
    LW_FUZZ_HOLDS(memcmp(&place, &untouched, sizeof place) == 0);
    return 0;
}
