#include "tilt.h"

#include "geom/angle.h"

#include <assert.h>
#include <math.h>

static bool is_sound(const lw_tilt_request *request)
{
    return request->most_deg > 0.0 && request->most_deg < 90.0 && request->tilt_step_deg > 0.0 &&
           request->most_deg / request->tilt_step_deg <= LW_TILT_MOST_RINGS - 1 &&
           request->spokes >= 1 && request->spokes <= LW_TILT_MOST_SPOKES;
}

/* ---- directions that are alike ------------------------------------------- */

static double turn_of(int spokes, int spoke)
{
    return 360.0 * spoke / spokes;
}

static int wrap(double turn_deg, int spokes)
{
    double spoke = turn_deg * spokes / 360.0;
    double nearest = round(spoke);
    if (fabs(spoke - nearest) > 1e-6)
        return -1;
    return (int)(fmod(nearest, spokes) + spokes) % spokes;
}

/* like[spoke]: the first spoke that looks the same. Under a sky that goes with the stone alone. */
static void find_alike(const lw_tilt_request *request, const lw_symmetry *stone, int like[])
{
    bool even = request->look.place == NULL || request->look.place->with_stone;
    double mirror_deg = 0.0;
    if (stone->mirrored)
        mirror_deg = lw_atan2_deg(stone->mirror.y, stone->mirror.x);
    for (int spoke = 0; spoke < request->spokes; spoke++) {
        double turn = turn_of(request->spokes, spoke);
        like[spoke] = spoke;
        for (int k = 0; even && k < stone->turns; k++) {
            double step = 360.0 * k / stone->turns;
            int turned = wrap(turn + step, request->spokes);
            int mirrored =
                stone->mirrored ? wrap(2.0 * mirror_deg - turn + step, request->spokes) : -1;
            if (turned >= 0 && turned < like[spoke])
                like[spoke] = turned;
            if (mirrored >= 0 && mirrored < like[spoke])
                like[spoke] = mirrored;
        }
    }
}

static lw_status symmetry_of(const lw_memory *memory, const lw_polyhedron *polyhedron,
                             lw_symmetry *out)
{
    lw_optic_solid solid;
    lw_status status = lw_optic_solid_make(memory, polyhedron, &solid);
    if (status != LW_OK)
        return status;
    *out = lw_symmetry_of_solid(&solid);
    lw_optic_solid_destroy(&solid);
    return LW_OK;
}

/* ---- the map ------------------------------------------------------------- */

typedef struct sweep {
    const lw_tilt_request *request;
    lw_tilt_map map;
    int like[LW_TILT_MOST_SPOKES];
} sweep;

static lw_status one_ring_and_spoke(void *context, int piece, int worker)
{
    (void)worker;
    sweep *s = context;
    int ring = piece / s->map.spokes, spoke = piece % s->map.spokes;
    if (s->like[spoke] != spoke || (ring == 0 && spoke > 0))
        return LW_OK;
    lw_memory own = lw_memory_standard(); /* a thread's own: the caller's may not be shared */
    lw_light_options look = s->request->look;
    look.tilt_deg = s->map.tilt_deg[ring];
    look.turn_deg = turn_of(s->map.spokes, spoke);
    return lw_light_measure(&own, s->request->solid, &look, &s->map.light[piece]);
}

static void copy_alike(sweep *s)
{
    for (int ring = 0; ring < s->map.rings; ring++) {
        lw_light_measures *row = s->map.light + ring * s->map.spokes;
        for (int spoke = 1; spoke < s->map.spokes; spoke++)
            row[spoke] = row[ring == 0 ? 0 : s->like[spoke]];
    }
}

static lw_status reserve(const lw_memory *memory, const lw_tilt_request *request, lw_tilt_map *out)
{
    int rings = 1 + (int)ceil(request->most_deg / request->tilt_step_deg - 1e-9);
    lw_tilt_map map = {.memory = *memory, .rings = rings, .spokes = request->spokes};
    void *tilts = NULL, *light = NULL;
    size_t cells = (size_t)rings * (size_t)request->spokes;
    lw_status status = lw_memory_new(memory, (size_t)rings, sizeof *map.tilt_deg, &tilts);
    if (status == LW_OK)
        status = lw_memory_new(memory, cells, sizeof *map.light, &light);
    map.tilt_deg = tilts;
    map.light = light;
    for (int i = 0; status == LW_OK && i < rings; i++)
        map.tilt_deg[i] = fmin(i * request->tilt_step_deg, request->most_deg);
    if (status == LW_OK)
        *out = map;
    else
        lw_memory_free(memory, tilts, (size_t)rings, sizeof *map.tilt_deg);
    return status;
}

lw_status lw_tilt_map_make(const lw_memory *memory, const lw_tilt_request *request,
                           const lw_parallel *how, lw_tilt_map *out)
{
    lw_symmetry stone;
    if (!is_sound(request))
        return LW_BAD_INPUT;
    lw_status status = symmetry_of(memory, request->solid, &stone);
    if (status != LW_OK)
        return status;
    sweep s = {.request = request};
    status = reserve(memory, request, &s.map);
    if (status != LW_OK)
        return status;
    find_alike(request, &stone, s.like);
    status = lw_parallel_do(how, s.map.rings * s.map.spokes, one_ring_and_spoke, &s);
    if (status != LW_OK) {
        lw_tilt_map_destroy(&s.map);
        return status;
    }
    copy_alike(&s);
    *out = s.map;
    return LW_OK;
}

void lw_tilt_map_destroy(lw_tilt_map *map)
{
    size_t rings = (size_t)map->rings;
    lw_memory_free(&map->memory, map->tilt_deg, rings, sizeof *map->tilt_deg);
    lw_memory_free(&map->memory, map->light, rings * (size_t)map->spokes, sizeof *map->light);
    *map = (lw_tilt_map){0};
}

/* Over spokes first, first + step, … */
static double mean_over(const lw_tilt_map *map, int ring, size_t offset, int first, int step)
{
    assert(ring >= 0 && ring < map->rings && offset < sizeof(lw_light_measures));
    double sum = 0.0;
    int count = 0;
    for (int spoke = first; spoke < map->spokes; spoke += step) {
        const char *at = (const char *)&map->light[ring * map->spokes + spoke];
        sum += *(const double *)(const void *)(at + offset);
        count++;
    }
    return sum / count;
}

double lw_tilt_ring_mean(const lw_tilt_map *map, int ring, size_t offset)
{
    return mean_over(map, ring, offset, 0, 1);
}

double lw_tilt_ring_unsettled(const lw_tilt_map *map, int ring, size_t offset)
{
    if (map->spokes < 2)
        return 0.0;
    return fabs(mean_over(map, ring, offset, 0, 2) - mean_over(map, ring, offset, 1, 2));
}

/* ---- the window ---------------------------------------------------------- */

typedef struct window_search {
    lw_memory memory;
    const lw_tilt_request *request;
    lw_facet_light *facets; /* [plane_count] */
    lw_status status;
} window_search;

/* Share of the face that is window; sticky failure. */
static double window_at(window_search *search, double tilt_deg, double turn_deg)
{
    lw_light_options look = search->request->look;
    look.tilt_deg = tilt_deg;
    look.turn_deg = turn_deg;
    look.most_surfaces = 1;
    lw_light_measures m = {0};
    if (search->status == LW_OK)
        search->status = lw_light_measure_facets(&search->memory, search->request->solid, &look, &m,
                                                 search->facets);
    return m.window;
}

/* The tilt at which the window shows in one direction, most_deg + 1 when it does not. */
static double opening(window_search *search, double turn_deg, double below_deg)
{
    double step = search->request->tilt_step_deg, closed = 0.0, open = 0.0;
    while (window_at(search, open, turn_deg) < LW_WINDOW_SHOWS) {
        closed = open;
        if (open >= below_deg || search->status != LW_OK)
            return below_deg + 1.0;
        open = fmin(open + step, below_deg);
    }
    while (open - closed > LW_TILT_CLEAR_DEG) {
        double middle = 0.5 * (open + closed);
        if (window_at(search, middle, turn_deg) < LW_WINDOW_SHOWS)
            closed = middle;
        else
            open = middle;
    }
    return closed;
}

static void describe(window_search *search, lw_tilt_window *found)
{
    double beyond = fmin(found->clear_to_deg + LW_TILT_BEYOND_DEG, 89.0);
    found->share = window_at(search, beyond, found->turn_deg);
    for (int i = 1; i < search->request->solid->plane_count; i++) {
        if (search->facets[i].window > search->facets[found->plane].window)
            found->plane = i;
        if (search->facets[i].leaks > search->facets[found->behind].leaks)
            found->behind = i;
    }
}

static void search_all(window_search *search, const int like[], lw_tilt_window *found)
{
    const lw_tilt_request *request = search->request;
    found->face_up = window_at(search, 0.0, 0.0);
    for (int spoke = 0; spoke < request->spokes && search->status == LW_OK; spoke++) {
        if (like[spoke] != spoke)
            continue;
        double turn = turn_of(request->spokes, spoke);
        double at = opening(search, turn, found->clear_to_deg);
        if (at < found->clear_to_deg || (!found->opens && at <= found->clear_to_deg)) {
            found->opens = true;
            found->clear_to_deg = at;
            found->turn_deg = turn;
        }
    }
    if (found->opens)
        describe(search, found);
}

lw_status lw_tilt_window_find(const lw_memory *memory, const lw_tilt_request *request,
                              lw_tilt_window *out)
{
    lw_symmetry stone;
    if (!is_sound(request))
        return LW_BAD_INPUT;
    lw_status status = symmetry_of(memory, request->solid, &stone);
    if (status != LW_OK)
        return status;
    int like[LW_TILT_MOST_SPOKES];
    find_alike(request, &stone, like);
    window_search search = {.memory = *memory, .request = request};
    size_t planes = (size_t)request->solid->plane_count;
    void *facets = NULL;
    status = lw_memory_new(memory, planes, sizeof *search.facets, &facets);
    if (status != LW_OK)
        return status;
    search.facets = facets;
    lw_tilt_window found = {.clear_to_deg = request->most_deg};
    search_all(&search, like, &found);
    lw_memory_free(memory, facets, planes, sizeof *search.facets);
    if (search.status == LW_OK)
        *out = found;
    return search.status;
}
