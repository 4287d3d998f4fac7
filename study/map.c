#include "map.h"

#include <assert.h>

const char *const lw_map_names[LW_MAP_MEASURES] = {
    [LW_MAP_BRIGHTNESS] = "brightness",
    [LW_MAP_FIRE] = "fire",
    [LW_MAP_CONTRAST] = "contrast",
    [LW_MAP_WINDOW] = "window",
    [LW_MAP_LEAK] = "leak",
    [LW_MAP_EXTINCTION] = "extinction",
    [LW_MAP_GLARE] = "glare",
    [LW_MAP_WEIGHT] = "weight",
};

bool lw_map_less_is_better(lw_map_measure measure)
{
    return measure == LW_MAP_WINDOW || measure == LW_MAP_LEAK || measure == LW_MAP_EXTINCTION ||
           measure == LW_MAP_GLARE;
}

double lw_map_angle(const lw_map_axis *axis, int i)
{
    assert(axis->count >= 2 && i >= 0 && i < axis->count);
    /* Weighed from both ends, so that each end is met to the last bit. */
    double share = (double)i / (axis->count - 1);
    return axis->low * (1.0 - share) + axis->high * share;
}

static lw_status look_at(const lw_memory *memory, const lw_map_request *request,
                         const lw_stone *stone, lw_map_place *out)
{
    lw_seen seen;
    lw_map_place made = {.there = true};
    int fold = request->vary->cut.fold;
    const lw_look *look = &request->look;
    lw_status status = lw_look_at(memory, &stone->solid, fold, look, &seen);
    if (status != LW_OK) {
        return status;
    }
    made.values[LW_MAP_BRIGHTNESS] = seen.brightness;
    made.values[LW_MAP_FIRE] = seen.fire_deg;
    made.values[LW_MAP_CONTRAST] = seen.contrast;
    made.values[LW_MAP_WINDOW] = made.window = seen.window;
    made.values[LW_MAP_LEAK] = seen.leak;
    made.values[LW_MAP_EXTINCTION] = seen.extinction;
    made.values[LW_MAP_GLARE] = seen.glare;
    made.values[LW_MAP_WEIGHT] =
        stone->measures.mass.volume / request->vary->stone.measures.mass.volume;
    made.flattest_deg = lw_flattest_pavilion_deg(stone);
    if (request->window_tilt_deg > 0.0 || look->rock_deg > 0.0 || look->tilt_deg > 0.0) {
        status = lw_look_for_window(memory, &stone->solid, fold, look, request->window_tilt_deg,
                                    &made.window);
    }
    if (status == LW_OK) {
        *out = made;
    }
    return status;
}

lw_status lw_map_own(const lw_memory *memory, const lw_map_request *request, lw_map_place *out)
{
    return look_at(memory, request, &request->vary->stone, out);
}

lw_status lw_map_at(const lw_memory *memory, const lw_map_request *request, int place,
                    lw_map_place *out)
{
    const double values[2] = {
        lw_map_angle(&request->pavilion, place % request->pavilion.count),
        lw_map_angle(&request->crown, place / request->pavilion.count),
    };
    lw_map_place made = {.there = false};
    lw_stone stone;
    lw_status status = lw_vary_stone(request->vary, memory, request->handles, values, 2, &stone);
    if (status == LW_OK) {
        status = look_at(memory, request, &stone, &made);
        lw_stone_destroy(&stone);
    }
    if (status == LW_NO_MEMORY) {
        return status;
    }
    *out = made;
    return LW_OK;
}

typedef struct job {
    const lw_memory *memory;
    const lw_map_request *request;
    lw_map_place *out;
} job;

static lw_status piece(void *context, int number, int worker)
{
    const job *j = context;
    (void)worker;
    return lw_map_at(j->memory, j->request, number, &j->out[number]);
}

lw_status lw_map_run(const lw_memory *memory, const lw_map_request *request, const lw_parallel *how,
                     lw_map_place *out)
{
    job j = {.memory = memory, .request = request, .out = out};
    return lw_parallel_do(how, request->pavilion.count * request->crown.count, piece, &j);
}

int lw_map_best(const lw_map_request *request, const lw_map_place *places, lw_map_measure measure)
{
    int best = -1;
    double sign = lw_map_less_is_better(measure) ? -1.0 : 1.0;
    for (int i = 0; i < request->pavilion.count * request->crown.count; i++) {
        if (places[i].there &&
            (best < 0 || sign * places[i].values[measure] > sign * places[best].values[measure])) {
            best = i;
        }
    }
    return best;
}
