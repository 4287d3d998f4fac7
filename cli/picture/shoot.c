#include "picture/shoot.h"

#include "picture/pfm.h"
#include "progress.h"

#include "whole_picture.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* All that is needed on the way. */
typedef struct shooting {
    const picture_request *request;
    picture_shots *shots;
    lw_picture_optics optics;
    lw_picture_extent extent; /* of all frames */
    lw_parallel how;
    cli_progress progress;
    int frame;
    float *numbers;
    uint8_t *rgb;     /* of a frame, or of the sheet */
    int across, down; /* frames in rgb */
} shooting;

static void hear(void *context, int done, int count)
{
    shooting *s = context;
    double share = (s->frame + (double)done / count) / s->request->frames;
    cli_progress_show(&s->progress, share);
}

/* The same frame around all of them, so that the stone moves and not the picture. */
static void measure_extent(shooting *s)
{
    lw_picture_extent all = {HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < s->request->frames; i++) {
        lw_picture_pose pose = picture_pose_at(s->request, i);
        lw_vec3 right;
        lw_surroundings around =
            lw_picture_posed(&s->request->place, &pose, s->request->head_deg, &right);
        lw_picture_extent one = lw_picture_extent_of(&s->request->solid, around.eye, right);
        all.left = fmin(all.left, one.left);
        all.right = fmax(all.right, one.right);
        all.below = fmin(all.below, one.below);
        all.above = fmax(all.above, one.above);
    }
    s->extent = all;
}

/* Exposed for a card that lies square to the eye, and so the same in all frames. */
static lw_status prepare_light(shooting *s)
{
    const picture_request *r = s->request;
    lw_picture_pose level = {0};
    lw_vec3 right;
    lw_surroundings around = lw_picture_posed(&r->place, &level, r->head_deg, &right);
    lw_picture_stone stone = picture_stone_of(r);
    lw_status status = lw_picture_optics_make(&stone, &around, r->bands, &s->optics);
    if (status != LW_OK) {
        return status;
    }
    s->shots->card = lw_picture_card(&s->optics).y;
    return LW_OK;
}

static lw_status reserve(shooting *s)
{
    const lw_picture *p = &s->request->picture;
    bool sheet = s->request->form == PICTURE_SHEET && s->request->frames > 1;
    int count = s->request->frames;
    s->across = sheet ? count <= 5 ? count : (int)ceil(sqrt(count)) : 1;
    s->down = sheet ? (count + s->across - 1) / s->across : 1;
    if (s->across * p->width > LW_PICTURE_MOST_SIDE || s->down * p->height > LW_PICTURE_MOST_SIDE) {
        return LW_TOO_LARGE;
    }
    size_t pixels = (size_t)p->width * (size_t)p->height;
    s->shots->count = sheet ? 1 : count;
    s->shots->width = s->across * p->width;
    s->shots->height = s->down * p->height;
    s->numbers = malloc(pixels * LW_PICTURE_NUMBERS * sizeof *s->numbers);
    s->rgb = calloc(pixels * (size_t)(s->across * s->down), 3);
    s->shots->frames = calloc((size_t)s->shots->count, sizeof *s->shots->frames);
    bool good = s->numbers != NULL && s->rgb != NULL && s->shots->frames != NULL;
    return good ? LW_OK : LW_NO_MEMORY;
}

static lw_status trace_scene(shooting *s, const lw_picture_scene *scene)
{
    lw_status status = lw_picture_trace_all(&s->request->stone.memory, &s->how, scene, s->numbers);
    if (status == LW_OK && s->frame == 0) {
        lw_picture_summary summary = lw_picture_summarise(scene, s->numbers);
        s->shots->cover = summary.cover;
        s->shots->radiance = summary.radiance;
    }
    return status;
}

static lw_status trace_frame(shooting *s)
{
    const picture_request *r = s->request;
    lw_picture_pose pose = picture_pose_at(r, s->frame);
    lw_picture picture = r->picture;
    lw_surroundings around = lw_picture_posed(&r->place, &pose, r->head_deg, &picture.right);
    lw_picture_frame(&picture, around.eye, &s->extent, r->fill);
    lw_picture_scene *scene = malloc(sizeof *scene); /* large for a stack */
    if (scene == NULL) {
        return LW_NO_MEMORY;
    }
    lw_status status =
        lw_picture_scene_make(&r->stone.memory, &r->solid, &picture, &s->optics, &around, scene);
    if (status == LW_OK) {
        status = trace_scene(s, scene);
        lw_picture_scene_destroy(&r->stone.memory, scene);
    }
    free(scene);
    return status;
}

/* Into its place in rgb. */
static void develop_frame(shooting *s)
{
    size_t width = (size_t)s->request->picture.width, height = (size_t)s->request->picture.height;
    size_t row = width * (size_t)s->across * 3;
    size_t place = s->across > 1 ? (size_t)s->frame : 0;
    size_t left = place % (size_t)s->across * width * 3;
    size_t top = place / (size_t)s->across * height;
    for (size_t y = 0; y < height; y++) {
        for (size_t x = 0; x < width; x++) {
            const float *seen = s->numbers + (y * width + x) * LW_PICTURE_NUMBERS + LW_PICTURE_SEEN;
            lw_rgb rgb = {(double)seen[0], (double)seen[1], (double)seen[2]};
            lw_srgb_bytes(rgb, s->rgb + (top + y) * row + left + 3 * x);
        }
    }
}

static lw_status keep_frame(shooting *s)
{
    bool last = s->frame == s->request->frames - 1;
    int at = s->shots->count > 1 ? s->frame : 0;
    if (s->request->output == NULL || (s->shots->count == 1 && !last)) {
        return LW_OK;
    }
    bool good = picture_png(s->rgb, s->shots->width, s->shots->height, &s->shots->frames[at]);
    return good ? LW_OK : LW_NO_MEMORY;
}

static lw_status shoot_frame(shooting *s)
{
    lw_status status = trace_frame(s);
    if (status != LW_OK) {
        return status;
    }
    const lw_picture *p = &s->request->picture;
    if (s->request->raw != NULL && !picture_pfm(s->numbers, p->width, p->height, &s->shots->raw)) {
        return LW_NO_MEMORY;
    }
    develop_frame(s);
    return keep_frame(s);
}

lw_status picture_shoot(const picture_request *request, picture_shots *out)
{
    *out = (picture_shots){0};
    shooting s = {.request = request, .shots = out, .progress = cli_progress_make("picture")};
    s.how = (lw_parallel){.threads = request->threads,
                          .cancel = request->stopped,
                          .progress = hear,
                          .progress_context = &s};
    measure_extent(&s);
    lw_status status = reserve(&s);
    if (status == LW_OK) {
        status = prepare_light(&s);
    }
    for (s.frame = 0; status == LW_OK && s.frame < request->frames; s.frame++) {
        status = shoot_frame(&s);
    }
    cli_progress_clear(&s.progress);
    free(s.numbers);
    free(s.rgb);
    if (status != LW_OK) {
        picture_shots_drop(out);
    }
    return status;
}

void picture_shots_drop(picture_shots *shots)
{
    for (int i = 0; shots->frames != NULL && i < shots->count; i++) {
        picture_bytes_drop(&shots->frames[i]);
    }
    free(shots->frames);
    picture_bytes_drop(&shots->raw);
    *shots = (picture_shots){0};
}
