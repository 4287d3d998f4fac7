/* A cutting sheet on paper, drawn by lapwing-draw. */
#ifndef LW_CLI_SHEET_H
#define LW_CLI_SHEET_H

#include "options.h"

#include "matter/lookup.h"
#include "sheet/draw_job.h"

/* Rows of a table of options: machine and paper. */
#define CLI_SHEET_OPTIONS                                                                          \
    {.name = "zero-at",                                                                            \
     .kind = CLI_NUMBER,                                                                           \
     .value = "T",                                                                                 \
     .lowest = 0,                                                                                  \
     .highest = LW_CUT_MOST_TEETH,                                                                 \
     .help = "where the stone's tooth 0 stands on the dial, in teeth"},                            \
        {.name = "pointer-deg",                                                                    \
         .kind = CLI_NUMBER,                                                                       \
         .value = "DEG",                                                                           \
         .unit = "deg",                                                                            \
         .lowest = 0,                                                                              \
         .highest = 360,                                                                           \
         .help = "where the machine's pointer stands, clockwise from the top, seen from behind "   \
                 "the quill"},                                                                     \
    {                                                                                              \
        .name = "paper", .kind = CLI_CHOICE, .value = "SIZE", .choices = cli_papers,               \
        .help = "A4 unless given"                                                                  \
    }

extern const char *const cli_papers[];

/* What --counts, --zero-at, --pointer-deg and --paper say. */
void cli_sheet_machine(const cli_args *args, lw_draw_job *job);

/* Room for what a job borrows. */
typedef struct cli_sheet_room {
    char polish[32];
    const char *cautions[LW_DRAW_JOB_MOST_TEXTS];
} cli_sheet_room;

/* Name, indices, weight, polish and cautions of the material; nothing for none. */
void cli_sheet_material(const lw_found_material *found, cli_sheet_room *room, lw_draw_job *job);

/* Draws the job to path, whole or not at all: PDF, SVG or PNG by the ending of its name. Fails with
 * one line on standard error. */
cli_exit cli_sheet_write(const lw_draw_job *job, const char *path);

#endif
