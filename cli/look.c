#include "look.h"

#include "text.h"

#include "matter/refraction.h"

static bool choose_material(const cli_args *args, const cli_stone *s, const lw_material **material)
{
    *material = s->material;
    if (s->material != NULL || cli_has(args, "refractive-index")) {
        return true;
    }
    if (s->cut.suit_count == 0) {
        cli_fail("%s: %s names no material that it suits; expected --material or "
                 "--refractive-index",
                 args->verb->name, s->name);
        return false;
    }
    *material = lw_material_by_key(s->cut.suits[0]);
    if (*material == NULL) {
        cli_fail("%s: suits: found '%.80s'; expected the key of a material (lapwing materials "
                 "lists them)",
                 s->name, s->cut.suits[0]);
    }
    return *material != NULL;
}

static bool index_of_material(const cli_args *args, const lw_material *material,
                              lw_light_index *index)
{
    lw_material own = *material;
    double given = cli_number(args, "refractive-index", 0.0);
    if (given > 0.0 && lw_material_with_index(material, given, &own) != LW_OK) {
        cli_fail("%s: --refractive-index: found %s; expected %s to %s beside a material",
                 args->verb->name, CLI_SHORT(given), CLI_SHORT(LW_INDEX_LEAST),
                 CLI_SHORT(LW_INDEX_MOST));
        return false;
    }
    lw_light_index made;
    if (lw_material_mean_index(&own, LW_LINE_D_UM, &made.yellow) != LW_OK ||
        lw_material_mean_index(&own, LW_LINE_G_UM, &made.blue) != LW_OK ||
        lw_material_mean_index(&own, LW_LINE_B_UM, &made.red) != LW_OK) {
        cli_fail("%s: %s has no index by wavelength", args->verb->name, material->key);
        return false;
    }
    *index = made;
    return true;
}

bool cli_look(const cli_args *args, const cli_stone *stone, const lw_material **material,
              lw_light_index *index)
{
    if (!choose_material(args, stone, material)) {
        return false;
    }
    double given = cli_number(args, "refractive-index", 1.0);
    if (*material == NULL) {
        *index = (lw_light_index){given, given, given};
        return true;
    }
    return index_of_material(args, *material, index);
}
