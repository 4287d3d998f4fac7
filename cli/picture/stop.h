/* Long work at a terminal: how far it is, and a way to stop it. */
#ifndef LW_CLI_PICTURE_STOP_H
#define LW_CLI_PICTURE_STOP_H

#include <stdatomic.h>
#include <stdbool.h>

/* From now on an interrupt from the keyboard (or SIGTERM, SIGHUP) sets the flag that is given back,
 * in place of ending the program. */
const atomic_bool *picture_stop_on_interrupt(void);

/* A line that stands on the terminal behind standard error and is written over; nothing where that
 * is none. */
typedef struct picture_progress {
    const char *what; /* "picture" */
    bool shown;
    int percent; /* last shown */
} picture_progress;

picture_progress picture_progress_make(const char *what);
void picture_progress_show(picture_progress *progress, double share);
void picture_progress_clear(picture_progress *progress);

#endif
