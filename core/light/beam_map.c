#include "light/beam_map.h"

typedef struct mapper {
    lw_beam_map map;
    const lw_optic_solid *solid;
    const lw_surroundings *surroundings;
    bool failed;
} mapper;

static bool grow(lw_beam_map *map, size_t corners)
{
    void *patches = map->patches, *spots = map->corners;
    bool got = lw_memory_reserve(&map->memory, &patches, &map->patch_capacity, map->patch_count + 1,
                                 sizeof *map->patches) == LW_OK;
    map->patches = patches;
    got = got && lw_memory_reserve(&map->memory, &spots, &map->corner_capacity,
                                   map->corner_count + corners, sizeof *map->corners) == LW_OK;
    map->corners = spots;
    return got;
}

static void begin_patch(mapper *m, const lw_beam_part *part)
{
    lw_beam_map *map = &m->map;
    const lw_beam_trail *trail = part->trail;
    if (!grow(map, (size_t)part->count)) {
        m->failed = true;
        return;
    }
    bool leaves = trail->strongest > 0.0;
    lw_beam_patch *patch = &map->patches[map->patch_count++];
    *patch = (lw_beam_patch){
        .first = map->corner_count,
        .count = part->count,
        .area = part->area,
        .brightness = part->area * trail->seen,
        .strongest = trail->strongest,
        .radiance = leaves ? lw_surroundings_radiance(m->surroundings, trail->strongest_way) : 0.0,
        .way = trail->strongest_way,
        .head = leaves && lw_surroundings_is_head(m->surroundings, trail->strongest_way),
        .surfaces = trail->strongest_surfaces,
        .exit = leaves ? m->solid->plane[trail->strongest_facet] : -1,
        .entry = m->solid->plane[trail->entry]};
    for (int i = 0; i < part->count; i++)
        map->corners[map->corner_count++] = part->corners[i];
    part->trail->mark = (long)map->patch_count;
}

static void on_part(void *context, const lw_beam_part *part)
{
    mapper *m = context;
    if (m->failed)
        return;
    if (part->trail->mark > 0)
        m->map.patches[part->trail->mark - 1].brightness +=
            part->area * part->weight * part->radiance;
    else if (part->last || part->inside <= part->trail->strongest)
        begin_patch(m, part);
}

static void on_end(void *context, const lw_beam_end *end)
{
    mapper *m = context;
    if (!m->failed && end->trail->mark > 0)
        m->map.patches[end->trail->mark - 1].brightness += end->area * end->brightness;
}

static void finish(lw_beam_map *map, double face)
{
    for (size_t i = 0; i < map->patch_count; i++) {
        map->patches[i].brightness /= map->patches[i].area;
        map->patches[i].area /= face;
    }
}

static lw_status follow(const lw_memory *memory, const lw_light_options *options, mapper *m)
{
    lw_symmetry stone = lw_symmetry_of_solid(m->solid);
    lw_beam_job job = {.solid = m->solid,
                       .symmetry = &stone,
                       .screen = m->map.screen,
                       .surroundings = m->surroundings,
                       .index = options->index,
                       .absorption = options->absorption,
                       .unpolarised = options->unpolarised,
                       .bound = options->bound,
                       .most_surfaces = options->most_surfaces};
    lw_beam_watch watch = {.context = m, .part = on_part, .end = on_end};
    lw_beam_totals totals;
    lw_status status = lw_beams_follow(memory, &job, &watch, &totals);
    if (status == LW_OK && m->failed)
        status = LW_NO_MEMORY;
    if (status == LW_OK)
        finish(&m->map, totals.area);
    return status;
}

lw_status lw_beam_map_make(const lw_memory *memory, const lw_polyhedron *polyhedron,
                           const lw_light_options *options, lw_beam_map *out)
{
    if (!lw_light_options_sound(options))
        return LW_BAD_INPUT;
    lw_optic_solid solid;
    lw_status status = lw_optic_solid_make(memory, polyhedron, &solid);
    if (status != LW_OK)
        return status;
    lw_surroundings surroundings = lw_light_surroundings(options);
    mapper m = {
        .map = {.memory = *memory, .screen = lw_screen_for(surroundings.eye, options->turn_deg)},
        .solid = &solid,
        .surroundings = &surroundings};
    status = follow(memory, options, &m);
    lw_optic_solid_destroy(&solid);
    if (status == LW_OK)
        *out = m.map;
    else
        lw_beam_map_destroy(&m.map);
    return status;
}

void lw_beam_map_destroy(lw_beam_map *map)
{
    lw_memory_free(&map->memory, map->patches, map->patch_capacity, sizeof *map->patches);
    lw_memory_free(&map->memory, map->corners, map->corner_capacity, sizeof *map->corners);
    *map = (lw_beam_map){0};
}

lw_patch_source lw_patch_source_of(const lw_beam_patch *patch)
{
    if (patch->exit < 0)
        return LW_PATCH_NOTHING;
    if (patch->head)
        return LW_PATCH_HEAD;
    if (patch->radiance > 0.0)
        return LW_PATCH_LIT;
    return patch->way.z < 0.0 ? LW_PATCH_BELOW : LW_PATCH_DARK;
}
