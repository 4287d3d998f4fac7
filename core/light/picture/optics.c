#include "light/picture/optics.h"

#include "matter/refraction.h"

#include <assert.h>

static bool glows_with_colour(const lw_surroundings *surroundings)
{
    for (int i = 0; i < surroundings->patch_count; i++) {
        if (surroundings->patches[i].glow != LW_GLOW_DAYLIGHT)
            return true;
    }
    return surroundings->head_radiance > 0.0 && surroundings->head_glow != LW_GLOW_DAYLIGHT;
}

bool lw_picture_has_colour(const lw_picture_stone *stone, const lw_surroundings *surroundings)
{
    bool disperses = stone->material != NULL &&
                     lw_material_dispersion(stone->material, 0, LW_LINE_G_UM, LW_LINE_B_UM) != 0.0;
    return disperses || stone->absorption.coloured || glows_with_colour(surroundings);
}

void lw_picture_glows(const lw_surroundings *surroundings, const lw_bands *bands,
                      lw_picture_scale scale[])
{
    double of_glow[LW_SPECTRUM_MOST_BANDS];
    for (int i = 0; i <= surroundings->patch_count; i++) {
        bool is_head = i == surroundings->patch_count;
        const lw_patch *patch = &surroundings->patches[i];
        lw_glow glow = is_head ? surroundings->head_glow : patch->glow;
        double kelvin = is_head ? surroundings->head_kelvin : patch->kelvin;
        lw_bands_glow(bands, glow, kelvin, of_glow);
        for (int band = 0; band < bands->count; band++)
            scale[band].of[i] = of_glow[band];
    }
}

static bool glow_alike(const lw_patch *a, const lw_patch *b)
{
    return a->glow == b->glow && (a->glow != LW_GLOW_BLACKBODY || a->kelvin == b->kelvin);
}

/* The card's light from all patches that glow as one does; the others still stand before them. */
static double card_from(const lw_surroundings *surroundings, int like)
{
    lw_surroundings alone = *surroundings;
    for (int i = 0; i < alone.patch_count; i++) {
        if (!glow_alike(&alone.patches[i], &surroundings->patches[like]))
            alone.patches[i].even = alone.patches[i].slope = 0.0;
    }
    return lw_surroundings_white_card(&alone);
}

static bool is_first_of_its_glow(const lw_surroundings *surroundings, int patch)
{
    for (int i = 0; i < patch; i++) {
        if (glow_alike(&surroundings->patches[i], &surroundings->patches[patch]))
            return false;
    }
    return true;
}

/* A sum over the glows there are, so that the card is worked out once for each of them and not for
 * each band. */
static void light_card(const lw_surroundings *surroundings, lw_picture_optics *made)
{
    double of_glow[LW_SPECTRUM_MOST_BANDS];
    for (int i = 0; i < surroundings->patch_count; i++) {
        const lw_patch *patch = &surroundings->patches[i];
        if (!is_first_of_its_glow(surroundings, i))
            continue;
        double light = card_from(surroundings, i);
        lw_bands_glow(&made->bands, patch->glow, patch->kelvin, of_glow);
        for (int band = 0; band < made->bands.count; band++)
            made->card[band] += light * of_glow[band];
    }
}

lw_status lw_picture_optics_make(const lw_picture_stone *stone, const lw_surroundings *surroundings,
                                 int bands, lw_picture_optics *out)
{
    assert(stone->material != NULL || stone->index >= 1.0);
    assert(!stone->absorption.coloured || stone->mm > 0.0);
    lw_picture_optics made = {.bands = lw_bands_make(bands)};
    for (int i = 0; i < bands; i++) {
        double nm = made.bands.nm[i];
        made.index[i] = stone->index;
        if (stone->material != NULL) {
            lw_status status = lw_material_mean_index(stone->material, nm / 1000.0, &made.index[i]);
            if (status != LW_OK)
                return status;
        }
        if (stone->absorption.coloured)
            made.absorption[i] = lw_absorption_at(&stone->absorption, nm) * stone->mm;
    }
    light_card(surroundings, &made);
    *out = made;
    return LW_OK;
}

lw_xyz lw_picture_card(const lw_picture_optics *optics)
{
    lw_xyz card = {0}, white = {0};
    for (int i = 0; i < optics->bands.count; i++) {
        lw_xyz weight = optics->bands.weight[i];
        white = (lw_xyz){white.x + weight.x, white.y + weight.y, white.z + weight.z};
        card.x += weight.x * optics->card[i];
        card.y += weight.y * optics->card[i];
        card.z += weight.z * optics->card[i];
    }
    return card.y > 0.0 ? card : white;
}
