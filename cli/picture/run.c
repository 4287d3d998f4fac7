#include "picture/run.h"

#include "file.h"
#include "json.h"
#include "picture/shoot.h"
#include "progress.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Hundredths of a second that a frame of a moving picture stays: twelve a second. */
enum { FRAME_TIME = 8, PATH_MOST = 4096 };

/* ---- files -------------------------------------------------------------- */

static bool is_many(const picture_request *r)
{
    return r->motion != PICTURE_STILL && r->form == PICTURE_FILES;
}

/* STONE.png becomes STONE-001.png. False where that is too long. */
static bool name_of_frame(const char *path, int frame, char out[PATH_MOST])
{
    const char *slash = strrchr(path, '/');
    const char *dot = strrchr(path, '.');
    bool ends = dot != NULL && dot > path && (slash == NULL || dot > slash + 1);
    size_t stem = ends ? (size_t)(dot - path) : strlen(path);
    int length = snprintf(out, PATH_MOST, "%.*s-%03d%s", (int)stem, path, frame + 1, path + stem);
    if (length < 0 || length >= PATH_MOST) {
        cli_fail("%s: found a path too long; expected fewer than %d bytes", path, PATH_MOST);
        return false;
    }
    return true;
}

/* Whether a file can be put there: better known before a minute of tracing than after. */
static bool try_place(const char *path)
{
    cli_file_out out;
    if (!cli_file_begin(path, &out)) {
        return false;
    }
    cli_file_drop(&out);
    return true;
}

static bool try_places(const picture_request *r)
{
    char name[PATH_MOST];
    if (r->raw != NULL && !try_place(r->raw)) {
        return false;
    }
    if (r->output == NULL) {
        return true;
    }
    if (!is_many(r)) {
        return try_place(r->output);
    }
    return name_of_frame(r->output, 0, name) && try_place(name);
}

static bool write_bytes(const char *path, const picture_bytes *bytes)
{
    return cli_file_write(path, (const char *)bytes->bytes, bytes->length);
}

static bool write_moving(const picture_request *r, const picture_shots *shots)
{
    picture_bytes moving;
    if (!picture_png_moving(shots->frames, shots->count, FRAME_TIME, &moving)) {
        cli_fail("out of memory");
        return false;
    }
    bool good = write_bytes(r->output, &moving);
    picture_bytes_drop(&moving);
    return good;
}

static bool write_many(const picture_request *r, const picture_shots *shots)
{
    char name[PATH_MOST];
    for (int i = 0; i < shots->count; i++) {
        if (!name_of_frame(r->output, i, name) || !write_bytes(name, &shots->frames[i])) {
            return false;
        }
    }
    return true;
}

static bool write_shots(const picture_request *r, const picture_shots *shots)
{
    if (r->raw != NULL && !write_bytes(r->raw, &shots->raw)) {
        return false;
    }
    if (r->output == NULL) {
        return true;
    }
    if (shots->count == 1) {
        return write_bytes(r->output, &shots->frames[0]);
    }
    return is_many(r) ? write_many(r, shots) : write_moving(r, shots);
}

/* ---- what is said ------------------------------------------------------- */

static json_t *names_written(const picture_request *r, const picture_shots *shots)
{
    json_t *names = json_array();
    char name[PATH_MOST];
    if (r->output != NULL && !is_many(r)) {
        json_array_append_new(names, json_string(r->output));
    }
    for (int i = 0; r->output != NULL && is_many(r) && i < shots->count; i++) {
        if (name_of_frame(r->output, i, name)) {
            json_array_append_new(names, json_string(name));
        }
    }
    if (r->raw != NULL) {
        json_array_append_new(names, json_string(r->raw));
    }
    return names;
}

static json_t *to_json(const cli_args *args, const picture_request *r, const picture_shots *shots)
{
    const lw_picture *p = &r->picture;
    json_t *object = json_pack(
        "{s:s, s:s?, s:f, s:s, s:o, s:i, s:i, s:i, s:f, s:f, s:b}", "cut", args->operands[0],
        "material", r->material != NULL ? r->material->key : NULL, "refractive_index", r->index,
        "place", r->place.name, "written", names_written(r, shots), "width_px", shots->width,
        "height_px", shots->height, "frames", r->frames, "tilt_deg", r->pose.tilt_deg, "turn_deg",
        r->pose.turn_deg, "unpolarised", (int)p->unpolarised);
    json_t *how =
        json_pack("{s:i, s:i, s:i, s:i, s:s, s:f, s:f, s:f, s:f}", "samples", p->samples,
                  "samples_most", p->most_samples, "bands", r->bands, "threads", r->threads,
                  "lanes", lw_lanes_text(p->lanes), "ground", p->ground, "card_radiance",
                  shots->card, "stone_share", shots->cover, "stone_radiance", shots->radiance);
    if (object == NULL || how == NULL || json_object_update_new(object, how) != 0) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static void say(const cli_args *args, const picture_request *r, const picture_shots *shots)
{
    printf("%s%s%s in %s, ", args->operands[0], r->material != NULL ? ", " : "",
           r->material != NULL ? r->material->name : "", r->place.name);
    printf("%d x %d pixels", shots->width, shots->height);
    if (r->frames > 1) {
        printf(", %d frames", r->frames);
    }
    printf(".\nOn average the stone is %s times as bright as a white card beside it.\n",
           CLI_FIXED(shots->card > 0.0 ? shots->radiance / shots->card : 0.0, 2));
    if (r->output != NULL && is_many(r)) {
        char first[PATH_MOST], last[PATH_MOST];
        if (name_of_frame(r->output, 0, first) && name_of_frame(r->output, r->frames - 1, last)) {
            printf("Written to %s … %s.\n", first, last);
        }
    } else {
        printf("Written to %s.\n", r->output != NULL ? r->output : r->raw);
    }
}

/* ---- the work ----------------------------------------------------------- */

static cli_exit failed(lw_status status)
{
    switch (status) {
    case LW_CANCELLED:
        return cli_fail("picture: stopped; nothing was written");
    case LW_TOO_LARGE:
        return cli_fail("picture: found more than %d pixels on a side; expected fewer frames or a "
                        "smaller --size",
                        LW_PICTURE_MOST_SIDE);
    case LW_NO_MEMORY:
        return cli_fail("out of memory");
    default:
        return cli_fail("picture: %s", lw_status_text(status));
    }
}

static cli_exit shoot(const cli_args *args, const picture_request *r)
{
    if (!try_places(r)) {
        return CLI_WRONG;
    }
    picture_shots shots;
    lw_status status = picture_shoot(r, &shots);
    if (status != LW_OK) {
        return failed(status);
    }
    cli_exit result = write_shots(r, &shots) ? CLI_DONE : CLI_WRONG;
    if (result == CLI_DONE && args->json) {
        result = cli_json_print(to_json(args, r, &shots));
    } else if (result == CLI_DONE) {
        say(args, r, &shots);
    }
    picture_shots_drop(&shots);
    return result;
}

cli_exit cli_picture_run(const cli_args *args)
{
    static picture_request request; /* large for a stack */
    const atomic_bool *stopped = cli_stop_on_interrupt();
    if (!picture_ask(args, &request)) {
        return CLI_WRONG;
    }
    request.stopped = stopped;
    cli_exit result = shoot(args, &request);
    picture_request_destroy(&request);
    return result;
}
