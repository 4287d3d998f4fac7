#include "light/picture/picture.h"

#include "geom/tolerance.h"

#include <assert.h>

/* A tile is looked at with a margin of one pixel, for what neighbours tell of one another. */
enum { BATCH = 4096, SIDE = LW_PICTURE_TILE + 2, MOST_PIXELS = SIDE * SIDE };

/* What is known of a pixel so far. */
typedef struct pixel {
    double sum[3];                   /* of the samples' X, Y and Z */
    double seen[3], seen_squares[3]; /* and of red, green and blue as shown */
    int hits;
} pixel;

struct lw_picture_room {
    pixel pixels[MOST_PIXELS];
    int busy[MOST_PIXELS]; /* numbers of those that take more samples */
    int of[BATCH];         /* the pixel of each ray */
    lw_vec3 from[BATCH];
    lw_wide_light light[BATCH];
    bool hit[BATCH];
    double xyz[BATCH][3];
};

lw_status lw_picture_room_make(const lw_memory *memory, lw_picture_room **out)
{
    void *room;
    lw_status status = lw_memory_new(memory, 1, sizeof(lw_picture_room), &room);
    if (status == LW_OK)
        *out = room;
    return status;
}

void lw_picture_room_destroy(const lw_memory *memory, lw_picture_room *room)
{
    lw_memory_free(memory, room, 1, sizeof *room);
}

/* ---- where samples lie -------------------------------------------------- */

/* A number made from a pixel's place that looks like chance: the finishing steps of MurmurHash3 (A.
 * Appleby, public domain). */
static uint32_t scramble(uint32_t x)
{
    x ^= x >> 16;
    x *= 0x85ebca6bU;
    x ^= x >> 13;
    x *= 0xc2b2ae35U;
    return x ^ (x >> 16);
}

/* Digits of i in base 2 mirrored at the point: van der Corput's sequence, in 2^-32. */
static uint32_t mirrored(uint32_t i)
{
    uint32_t out = 0;
    for (uint32_t digit = 0x80000000U; i != 0; i >>= 1, digit >>= 1)
        out ^= i & 1 ? digit : 0;
    return out;
}

/* Sobol's second dimension: direction numbers of the polynomial x + 1. */
static uint32_t second(uint32_t i)
{
    uint32_t out = 0;
    for (uint32_t digit = 0x80000000U; i != 0; i >>= 1, digit ^= digit >> 1)
        out ^= i & 1 ? digit : 0;
    return out;
}

static double share(uint32_t x)
{
    return ((double)x + 0.5) / 4294967296.0;
}

/* Where in the picture, in pixels from its top left corner. */
static void sample_at(const lw_picture *picture, int x, int y, int sample, double at[2])
{
    if (picture->most_samples == 1) {
        at[0] = x + 0.5;
        at[1] = y + 0.5;
        return;
    }
    uint32_t place = scramble(((uint32_t)y << 16) ^ (uint32_t)x ^ 0x9e3779b9U);
    uint32_t other = scramble(place ^ 0x7f4a7c15U);
    at[0] = x + share(mirrored((uint32_t)sample) ^ place);
    at[1] = y + share(second((uint32_t)sample) ^ other);
}

/* ---- a batch of rays ---------------------------------------------------- */

static void aim(const lw_picture_scene *scene, lw_picture_room *room, int ray, const double at[2])
{
    double side = scene->picture.pixel;
    lw_vec3 from = lw_vec3_add(scene->corner, lw_vec3_scale(scene->picture.right, at[0] * side));
    room->from[ray] = lw_vec3_sub(from, lw_vec3_scale(scene->up, at[1] * side));
}

static lw_wide_job job_of(const lw_picture_scene *scene, int band)
{
    return (lw_wide_job){.solid = &scene->solid,
                         .index = scene->optics.index[band],
                         .absorption = scene->optics.absorption[band],
                         .unpolarised = scene->picture.unpolarised,
                         .surroundings = &scene->surroundings,
                         .patch_scale = scene->scale[band].of,
                         .least_energy = scene->least_energy,
                         .most_surfaces = scene->picture.most_surfaces};
}

/* Adds a band to what the rays have seen. */
static void see_band(const lw_picture_scene *scene, lw_picture_room *room, int count, int band)
{
    lw_wide_job job = job_of(scene, band);
    lw_vec3 away = lw_vec3_scale(scene->surroundings.eye, -1.0);
    lw_wide_look(scene->picture.lanes, &job, away, count, room->from, room->light, room->hit);
    lw_xyz weight = scene->optics.bands.weight[band];
    for (int i = 0; i < count; i++) {
        double radiance = (double)room->light[i].brightness + (double)room->light[i].glare;
        room->xyz[i][0] += radiance * weight.x;
        room->xyz[i][1] += radiance * weight.y;
        room->xyz[i][2] += radiance * weight.z;
    }
}

static void add_sample(const lw_develop *develop, const double xyz[3], pixel *p)
{
    lw_rgb rgb = lw_develop_seen(develop, xyz);
    double seen[3] = {rgb.red, rgb.green, rgb.blue};
    for (int k = 0; k < 3; k++) {
        p->sum[k] += xyz[k];
        p->seen[k] += seen[k];
        p->seen_squares[k] += seen[k] * seen[k];
    }
}

static void book(const lw_picture_scene *scene, lw_picture_room *room, int count)
{
    double background[3] = {scene->background.x, scene->background.y, scene->background.z};
    for (int i = 0; i < count; i++) {
        pixel *p = &room->pixels[room->of[i]];
        p->hits += room->hit[i];
        add_sample(&scene->develop, room->hit[i] ? room->xyz[i] : background, p);
    }
}

static void trace_batch(const lw_picture_scene *scene, lw_picture_room *room, int count)
{
    for (int i = 0; i < count; i++)
        room->xyz[i][0] = room->xyz[i][1] = room->xyz[i][2] = 0.0;
    for (int band = 0; band < scene->optics.bands.count; band++)
        see_band(scene, room, count, band);
    book(scene, room, count);
}

/* ---- a tile ------------------------------------------------------------- */

/* A tile with its margin, as far as the picture goes; its pixels are numbered row by row. */
typedef struct region {
    int x, y, width, height;
} region;

static region around(const lw_picture *picture, const lw_picture_tile *tile, int margin)
{
    int left = tile->x > margin ? tile->x - margin : 0;
    int top = tile->y > margin ? tile->y - margin : 0;
    int right = tile->x + tile->width + margin, bottom = tile->y + tile->height + margin;
    right = right < picture->width ? right : picture->width;
    bottom = bottom < picture->height ? bottom : picture->height;
    return (region){left, top, right - left, bottom - top};
}

/* Samples first..last - 1 of all busy pixels. */
static void sample_busy(const lw_picture_scene *scene, lw_picture_room *room, const region *r,
                        int busy, int first, int last)
{
    int count = 0;
    for (int k = 0; k < busy; k++) {
        int x = r->x + room->busy[k] % r->width, y = r->y + room->busy[k] / r->width;
        for (int sample = first; sample < last; sample++) {
            double at[2];
            sample_at(&scene->picture, x, y, sample, at);
            aim(scene, room, count, at);
            room->of[count] = room->busy[k];
            if (++count == BATCH) {
                trace_batch(scene, room, count);
                count = 0;
            }
        }
    }
    trace_batch(scene, room, count);
}

/* How far samples may lie apart, as shown, for a mean of count to be good enough. The error of n
 * stratified samples at an edge falls as n^(-3/4) (D. P. Mitchell, Consequences of stratified
 * sampling in graphics, SIGGRAPH 1996); what is tolerated grows with the light, as the eye's own
 * threshold does. */
static double tolerated(double mean, int count)
{
    double n = count;
    return LW_PICTURE_SETTLED * (fabs(mean) + LW_PICTURE_DARK) * sqrt(n) * sqrt(sqrt(n));
}

static bool is_settled(const pixel *p, int count)
{
    for (int k = 0; k < 3; k++) {
        double mean = p->seen[k] / count;
        double variance = p->seen_squares[k] / count - mean * mean;
        double most = tolerated(mean, count);
        if (variance > most * most)
            return false;
    }
    return true;
}

static bool is_alike(const pixel *a, const pixel *b, int count)
{
    for (int k = 0; k < 3; k++) {
        double one = a->seen[k] / count, other = b->seen[k] / count;
        if (fabs(one - other) > tolerated(fmin(one, other), count))
            return false;
    }
    return true;
}

/* Whether a pixel looks like those around it. Where it does not an edge runs between them, and may
 * cut off a corner that its first samples have missed. */
static bool is_like_neighbours(const lw_picture_room *room, const region *r, int at, int count)
{
    int x = at % r->width, y = at / r->width;
    for (int dy = -1; dy <= 1; dy++) {
        for (int dx = -1; dx <= 1; dx++) {
            if (x + dx < 0 || x + dx >= r->width || y + dy < 0 || y + dy >= r->height)
                continue;
            const pixel *there = &room->pixels[at + dy * r->width + dx];
            if (!is_alike(&room->pixels[at], there, count))
                return false;
        }
    }
    return true;
}

/* The first samples of a tile's pixels and of those around it. */
static void sample_first(const lw_picture_scene *scene, lw_picture_room *room, const region *r)
{
    int count = r->width * r->height;
    for (int i = 0; i < count; i++) {
        room->pixels[i] = (pixel){0};
        room->busy[i] = i;
    }
    sample_busy(scene, room, r, count, 0, scene->picture.samples);
}

/* Of the tile alone, those that take more samples. */
static int first_busy(const lw_picture_scene *scene, lw_picture_room *room,
                      const lw_picture_tile *tile, const region *r)
{
    int samples = scene->picture.samples, kept = 0;
    for (int y = tile->y; y < tile->y + tile->height; y++) {
        for (int x = tile->x; x < tile->x + tile->width; x++) {
            int at = (y - r->y) * r->width + x - r->x;
            if (!is_settled(&room->pixels[at], samples) ||
                !is_like_neighbours(room, r, at, samples))
                room->busy[kept++] = at;
        }
    }
    return kept;
}

static int keep_busy(lw_picture_room *room, int busy, int count)
{
    int kept = 0;
    for (int k = 0; k < busy; k++) {
        if (!is_settled(&room->pixels[room->busy[k]], count))
            room->busy[kept++] = room->busy[k];
    }
    return kept;
}

/* ---- what comes of it --------------------------------------------------- */

static void write_pixel(const pixel *p, int count, float *out)
{
    for (int k = 0; k < 3; k++) {
        out[k] = (float)(p->sum[k] / count);
        out[LW_PICTURE_SEEN + k] = (float)(p->seen[k] / count);
    }
    out[LW_PICTURE_COVER] = (float)p->hits / (float)count;
}

static void write_tile(const lw_picture_room *room, const lw_picture_tile *tile, const region *r,
                       int count, float *out, size_t stride)
{
    for (int y = 0; y < tile->height; y++) {
        for (int x = 0; x < tile->width; x++) {
            int at = (tile->y + y - r->y) * r->width + tile->x + x - r->x;
            write_pixel(&room->pixels[at], count,
                        out + (size_t)y * stride + (size_t)x * LW_PICTURE_NUMBERS);
        }
    }
}

static void write_busy(const lw_picture_room *room, const lw_picture_tile *tile, const region *r,
                       int busy, int count, float *out, size_t stride)
{
    for (int k = 0; k < busy; k++) {
        size_t x = (size_t)(r->x + room->busy[k] % r->width - tile->x);
        size_t y = (size_t)(r->y + room->busy[k] / r->width - tile->y);
        write_pixel(&room->pixels[room->busy[k]], count, out + y * stride + x * LW_PICTURE_NUMBERS);
    }
}

static void check_tile(const lw_picture *picture, const lw_picture_tile *tile)
{
    assert(tile->width >= 1 && tile->width <= LW_PICTURE_TILE);
    assert(tile->height >= 1 && tile->height <= LW_PICTURE_TILE);
    assert(tile->x >= 0 && tile->x + tile->width <= picture->width);
    assert(tile->y >= 0 && tile->y + tile->height <= picture->height);
    (void)picture;
    (void)tile;
}

void lw_picture_trace(const lw_picture_scene *scene, lw_picture_room *room,
                      const lw_picture_tile *tile, float *out, size_t stride)
{
    const lw_picture *picture = &scene->picture;
    check_tile(picture, tile);
    int done = picture->samples;
    region r = around(picture, tile, picture->most_samples > done ? 1 : 0);
    sample_first(scene, room, &r);
    write_tile(room, tile, &r, done, out, stride);
    if (picture->most_samples == done)
        return;
    int busy = first_busy(scene, room, tile, &r);
    while (busy > 0 && done < picture->most_samples) {
        int next = done <= picture->most_samples / 4 ? 4 * done : picture->most_samples;
        sample_busy(scene, room, &r, busy, done, next);
        write_busy(room, tile, &r, busy, next, out, stride);
        done = next;
        busy = keep_busy(room, busy, done);
    }
}
