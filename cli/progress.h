/* Long work at a terminal: how far it is, and a way to stop it. */
#ifndef LW_CLI_PROGRESS_H
#define LW_CLI_PROGRESS_H

#include <stdatomic.h>
#include <stdbool.h>

/* From now on an interrupt from the keyboard (or SIGTERM, SIGHUP) sets the flag that is given back,
 * in place of ending the program. One that was ignored when the program was started stays so. */
const atomic_bool *cli_stop_on_interrupt(void);

/* A line on the terminal behind standard error that is written over; nothing where that is none. */
typedef struct cli_progress {
    const char *what; /* "map" */
    bool shown;
    int percent; /* last shown; -1: nothing */
} cli_progress;

cli_progress cli_progress_make(const char *what);
void cli_progress_show(cli_progress *progress, double share);
void cli_progress_clear(cli_progress *progress);

#endif
