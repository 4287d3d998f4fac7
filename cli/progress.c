#include "progress.h"

#include <signal.h>
#include <stdio.h>
#include <unistd.h>

static atomic_bool stopped;

static void stop(int signal_number)
{
    (void)signal_number;
    atomic_store(&stopped, true);
}

const atomic_bool *cli_stop_on_interrupt(void)
{
    static const int signals[] = {SIGINT, SIGTERM, SIGHUP};
    struct sigaction action = {.sa_handler = stop, .sa_flags = SA_RESTART};
    sigemptyset(&action.sa_mask);
    for (size_t i = 0; i < sizeof signals / sizeof *signals; i++) {
        struct sigaction before;
        if (sigaction(signals[i], NULL, &before) == 0 && before.sa_handler != SIG_IGN) {
            sigaction(signals[i], &action, NULL);
        }
    }
    return &stopped;
}

cli_progress cli_progress_make(const char *what)
{
    return (cli_progress){.what = what, .shown = isatty(STDERR_FILENO) == 1, .percent = -1};
}

void cli_progress_show(cli_progress *progress, double share)
{
    int percent = (int)(100.0 * share);
    if (progress->shown && percent != progress->percent) {
        fprintf(stderr, "\r%s %3d %%", progress->what, percent);
        fflush(stderr);
        progress->percent = percent;
    }
}

void cli_progress_clear(cli_progress *progress)
{
    if (progress->shown && progress->percent >= 0) {
        fputs("\r\033[K", stderr);
        fflush(stderr);
        progress->percent = -1;
    }
}
