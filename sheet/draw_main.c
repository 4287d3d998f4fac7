/* lapwing-draw: paints what a job on standard input asks for.
 *
 * Run as a child by lapwing. Exit 0: the file is there, whole. Exit 2: one line on standard error,
 * and no file was touched: the drawing goes to a temporary name beside the output and is renamed
 * when it is done. */
#define _POSIX_C_SOURCE 200809L

#include "cut/check.h"
#include "cut/read.h"
#include "cut/solve.h"
#include "sheet/draw_job.h"
#include "sheet/paint_cairo.h"
#include "sheet/sheet.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* All that is made on the way, so that there is one place where it is given back. */
typedef struct work {
    lw_memory memory;
    lw_arena arena;
    lw_draw_job job;
    lw_values values;
    lw_cut cut;
    lw_stone stone;
    lw_check check;
    lw_display_list list;
    lw_painter *painter;
} work;

static bool complain(const char *what, const char *why)
{
    fprintf(stderr, "lapwing-draw: %s%s%s\n", what, why[0] != '\0' ? ": " : "", why);
    return false;
}

static bool complain_problem(const char *what, lw_status status, const lw_problem *problem)
{
    char text[1024];
    if (problem->status == LW_OK) {
        return complain(what, lw_status_text(status));
    }
    (void)lw_problem_write(problem, text, sizeof text);
    return complain(what, text);
}

static bool read_input(work *w)
{
    char *text = lw_arena_new(&w->arena, LW_DRAW_JOB_MOST_BYTES + 1, 1);
    if (text == NULL) {
        return complain("job", lw_status_text(LW_NO_MEMORY));
    }
    size_t length = fread(text, 1, LW_DRAW_JOB_MOST_BYTES + 1, stdin);
    if (ferror(stdin) || length > LW_DRAW_JOB_MOST_BYTES) {
        return complain("job", ferror(stdin) ? strerror(errno) : "too long");
    }
    lw_problem problem = {0};
    lw_status status = lw_draw_job_read(&w->arena, text, length, &w->job, &problem);
    return status == LW_OK || complain_problem("job", status, &problem);
}

static bool make_stone(work *w)
{
    const lw_draw_job *job = &w->job;
    lw_problem problem = {0};
    if (job->map != NULL) {
        return true; /* of many stones, which are in the job as numbers */
    }
    lw_status status =
        lw_cut_read(&w->memory, job->cut_text, strlen(job->cut_text), &w->cut, &problem);
    if (status == LW_OK) {
        status = lw_values_make(&w->cut, job->overrides, job->override_count, &w->values, &problem);
    }
    if (status == LW_OK) {
        lw_solve_options options = {.overrides = job->overrides,
                                    .override_count = job->override_count,
                                    .size_kind = job->size_kind,
                                    .size = job->size,
                                    .specific_gravity = job->specific_gravity};
        status = lw_cut_solve(&w->memory, &w->cut, &options, &w->stone, &problem);
    }
    if (status == LW_OK) {
        lw_check_options options = {.critical_angle_deg = job->critical_angle_deg};
        status = lw_cut_check(&w->memory, &w->cut, &w->stone, &options, &w->check);
    }
    return status == LW_OK || complain_problem("cut", status, &problem);
}

static bool compose_map(work *w, const lw_metrics *metrics)
{
    lw_status status = lw_heat_map_compose(w->job.map, metrics, &w->list);
    if (status != LW_OK) {
        return complain("map", status == LW_BAD_INPUT ? "none of its values is a number"
                                                      : lw_status_text(status));
    }
    return true;
}

static bool compose_sheet(work *w, const lw_metrics *metrics)
{
    const lw_draw_job *job = &w->job;
    lw_sheet_facts facts = {.cut = &w->cut,
                            .stone = &w->stone,
                            .values = &w->values,
                            .check = &w->check,
                            .material = job->material,
                            .refractive_index = job->refractive_index,
                            .critical_angle_deg = job->critical_angle_deg,
                            .specific_gravity = job->specific_gravity,
                            .polish = job->polish,
                            .cautions = job->cautions,
                            .caution_count = job->caution_count,
                            .remarks = job->remarks,
                            .remark_count = job->remark_count,
                            .counts = job->counts,
                            .zero_at = job->zero_at,
                            .pointer_deg = job->pointer_deg};
    lw_paper paper = job->paper == LW_DRAW_LETTER ? LW_PAPER_LETTER : LW_PAPER_A4;
    lw_status status = lw_sheet_compose(&w->memory, &facts, paper, metrics, &w->list);
    return status == LW_OK || complain("sheet", lw_status_text(status));
}

static bool compose(work *w)
{
    lw_status status = lw_painter_new(&w->memory, &w->painter);
    if (status != LW_OK) {
        return complain("fonts", lw_status_text(status));
    }
    lw_metrics metrics = lw_painter_metrics(w->painter);
    lw_list_init(&w->list, &w->memory);
    if (!(w->job.map != NULL ? compose_map(w, &metrics) : compose_sheet(w, &metrics))) {
        return false;
    }
    if (w->job.page > (int)w->list.page_count) {
        return complain("page", "the sheet has fewer pages");
    }
    return true;
}

static bool to_file(void *context, const void *bytes, size_t length)
{
    return fwrite(bytes, 1, length, context) == length;
}

/* Every byte on the disk before the name changes hands. */
static bool close_whole(FILE *file)
{
    bool good = fflush(file) == 0 && fsync(fileno(file)) == 0;
    return fclose(file) == 0 && good;
}

static lw_status paint_to(work *w, FILE *file)
{
    static const lw_paint_format formats[] = {
        [LW_DRAW_PDF] = LW_PAINT_PDF, [LW_DRAW_SVG] = LW_PAINT_SVG, [LW_DRAW_PNG] = LW_PAINT_PNG};
    lw_draw_format format;
    const char *title = w->job.map != NULL ? w->job.map->value_title : w->cut.title;
    lw_status status = lw_draw_job_format(&w->job, &format);
    if (status != LW_OK) {
        return status;
    }
    return lw_paint(w->painter, &w->list, w->job.page - 1, formats[format], title, to_file, file);
}

/* The mode that a plain open would have given; mkstemp gives 0600. */
static void usual_mode(int file)
{
    mode_t mask = umask(0);
    (void)umask(mask);
    (void)fchmod(file, 0666 & ~mask);
}

static bool write_file(work *w)
{
    const char *output = w->job.output;
    size_t room = strlen(output) + 8;
    char *name = lw_arena_new(&w->arena, room, 1);
    if (name == NULL) {
        return complain(output, lw_status_text(LW_NO_MEMORY));
    }
    snprintf(name, room, "%s.XXXXXX", output);
    int handle = mkstemp(name);
    if (handle < 0) {
        return complain(output, strerror(errno));
    }
    usual_mode(handle);
    FILE *file = fdopen(handle, "wb");
    if (file == NULL) {
        (void)close(handle);
        (void)unlink(name);
        return complain(output, strerror(errno));
    }
    lw_status status = paint_to(w, file);
    int why = errno;
    bool closed = close_whole(file);
    if (status == LW_OK && closed && rename(name, output) == 0) {
        return true;
    }
    why = status == LW_OK ? errno : why;
    (void)unlink(name);
    return complain(output, status == LW_OK || status == LW_BAD_INPUT ? strerror(why)
                            : status == LW_TOO_LARGE
                                ? "too many pages for one picture; ask for one page, or for PDF"
                                : lw_status_text(status));
}

static bool known_format(work *w)
{
    lw_draw_format format;
    return lw_draw_job_format(&w->job, &format) == LW_OK ||
           complain(w->job.output, "expected a name that ends in .pdf, .svg or .png");
}

int main(void)
{
    work w = {.memory = lw_memory_standard()};
    w.arena = lw_arena_make(&w.memory);
    w.list = (lw_display_list){.memory = w.memory};
    bool done =
        read_input(&w) && known_format(&w) && make_stone(&w) && compose(&w) && write_file(&w);
    lw_painter_destroy(w.painter);
    lw_list_destroy(&w.list);
    lw_check_destroy(&w.check);
    lw_stone_destroy(&w.stone);
    lw_cut_destroy(&w.cut);
    lw_arena_destroy(&w.arena);
    return done ? 0 : 2;
}
