#include "sheet.h"

#include "child.h"
#include "kit.h"
#include "text.h"

#include "craft/kit.h"
#include "matter/refraction.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

const char *const cli_papers[] = {"A4", "Letter", NULL};

void cli_sheet_machine(const cli_args *args, lw_draw_job *job)
{
    job->counts = cli_counts_given(args);
    job->zero_at = cli_number(args, "zero-at", 0.0);
    job->pointer_deg = cli_number(args, "pointer-deg", 0.0);
    bool letter = strcmp(cli_text(args, "paper", cli_papers[0]), cli_papers[1]) == 0;
    job->paper = letter ? LW_DRAW_LETTER : LW_DRAW_A4;
}

void cli_sheet_material(const lw_found_material *found, cli_sheet_room *room, lw_draw_job *job)
{
    const lw_material *material = found->material;
    if (material == NULL) {
        return;
    }
    job->material = material->name;
    job->refractive_index = lw_mean_of_rays(material->ray_count, material->index);
    job->critical_angle_deg = lw_material_critical_angle_deg(material);
    job->specific_gravity = material->sg;
    unsigned polish = lw_polish_find(material->polish);
    if (polish != 0) {
        snprintf(room->polish, sizeof room->polish, "%s", lw_polish_text(polish));
        job->polish = room->polish;
    }
    unsigned cautions = lw_found_cautions(found);
    job->cautions = room->cautions;
    for (size_t i = 0; i < LW_CAUTION_COUNT; i++) {
        const lw_caution *caution = lw_caution_at(i);
        if ((cautions & caution->bit) != 0 && job->caution_count < LW_DRAW_JOB_MOST_TEXTS) {
            room->cautions[job->caution_count++] = caution->advice;
        }
    }
}

static bool ends_in(const char *path, const char *end)
{
    size_t length = strlen(path), tail = strlen(end);
    return length > tail && strcmp(path + length - tail, end) == 0;
}

static lw_draw_format format_of(const char *path)
{
    return ends_in(path, ".pdf")   ? LW_DRAW_PDF
           : ends_in(path, ".svg") ? LW_DRAW_SVG
           : ends_in(path, ".png") ? LW_DRAW_PNG
                                   : LW_DRAW_BY_NAME;
}

/* The place behind any links, malloc'd: what is drawn is moved there by name, and must neither
 * replace a link nor a device. NULL, with one line on standard error, when it cannot go there. */
static char *place_of(const char *path)
{
    struct stat about;
    bool there = stat(path, &about) == 0;
    if (there && !S_ISREG(about.st_mode)) {
        cli_fail("%s: found %s; expected a place for a file", path,
                 S_ISDIR(about.st_mode) ? "a folder" : "a device");
        return NULL;
    }
    char *place = there ? realpath(path, NULL) : strdup(path);
    if (place == NULL) {
        cli_fail("%s: cannot write: %s", path, strerror(errno));
    }
    return place;
}

cli_exit cli_sheet_write(const lw_draw_job *job, const char *path)
{
    lw_draw_job whole = *job;
    char *text = NULL;
    size_t length = 0;
    whole.format = format_of(path);
    if (whole.format == LW_DRAW_BY_NAME) {
        return cli_fail("%s: found no ending that tells what to draw; expected .pdf, .svg or .png",
                        path);
    }
    char *place = place_of(path);
    if (place == NULL) {
        return CLI_WRONG;
    }
    whole.output = place;
    lw_status status = lw_draw_job_write(&whole, &text, &length);
    cli_exit result = status == LW_OK ? cli_child_run("lapwing-draw", text, length)
                                      : cli_fail("%s: %s", path, lw_status_text(status));
    free(text);
    free(place);
    return result;
}
