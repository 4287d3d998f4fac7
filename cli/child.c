#include "child.h"

#include "file.h"
#include "text.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

enum { PATH_BYTES = 4096 };

/* Seen from the folder that lapwing lies in: as built, as installed; or from another helper. */
static const char *const places[] = {"libexec", LW_LIBEXEC_FROM_BIN, "."};

static bool find_helper(const char *name, char path[PATH_BYTES])
{
    char self[PATH_BYTES];
    ssize_t length = readlink("/proc/self/exe", self, sizeof self - 1);
    if (length < 0) {
        cli_fail("cannot tell where lapwing lies: %s", strerror(errno));
        return false;
    }
    self[length] = '\0';
    *strrchr(self, '/') = '\0';
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        int needed = snprintf(path, PATH_BYTES, "%s/%s/%s", self, places[i], name);
        if (needed > 0 && needed < PATH_BYTES && access(path, X_OK) == 0) {
            return true;
        }
    }
    cli_fail("cannot find %s in %s/libexec", name, self);
    return false;
}

/* Starts path with the reading end of a pipe as its standard input. */
static bool start(const char *path, pid_t *child, int *to_child)
{
    int ends[2];
    char *words[] = {(char *)(size_t)path, NULL}; /* posix_spawn does not write to them */
    posix_spawn_file_actions_t actions;
    if (pipe(ends) != 0) {
        cli_fail("%s: cannot run: %s", path, strerror(errno));
        return false;
    }
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[0], STDIN_FILENO);
    posix_spawn_file_actions_addclose(&actions, ends[0]);
    posix_spawn_file_actions_addclose(&actions, ends[1]);
    int error = posix_spawn(child, path, &actions, NULL, words, environ);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[0]);
    if (error != 0) {
        close(ends[1]);
        cli_fail("%s: cannot run: %s", path, strerror(error));
        return false;
    }
    *to_child = ends[1];
    return true;
}

static cli_exit wait_for(const char *path, pid_t child)
{
    int status = 0;
    while (waitpid(child, &status, 0) < 0) {
        if (errno != EINTR) {
            return cli_fail("%s: cannot wait for it: %s", path, strerror(errno));
        }
    }
    if (!WIFEXITED(status)) {
        return cli_fail("%s: ended by signal %d", path, WTERMSIG(status));
    }
    int code = WEXITSTATUS(status);
    return code == 0 ? CLI_DONE : code == 1 ? CLI_NO : CLI_WRONG;
}

cli_exit cli_child_run(const char *name, const char *input, size_t length)
{
    char path[PATH_BYTES];
    pid_t child = 0;
    int to_child = -1;
    fflush(stdout);
    if (!find_helper(name, path) || !start(path, &child, &to_child)) {
        return CLI_WRONG;
    }
    /* A child that ends early shows in its exit status; the pipe it leaves must not end us. */
    void (*before)(int) = signal(SIGPIPE, SIG_IGN);
    (void)cli_write_all(to_child, input, length);
    close(to_child);
    signal(SIGPIPE, before);
    return wait_for(path, child);
}

cli_exit cli_child_become(const char *name, char **argv)
{
    char path[PATH_BYTES];
    fflush(stdout);
    if (!find_helper(name, path)) {
        return CLI_WRONG;
    }
    execv(path, argv);
    return cli_fail("%s: cannot run: %s", path, strerror(errno));
}
