#define _POSIX_C_SOURCE 200809L

#include "povray/render.h"

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { FOLDER = 32, PATH = 64 };

static bool fail(const char *what)
{
    fprintf(stderr, "POV-Ray: %s\n", what);
    return false;
}

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Processor time of children that have ended. */
static double children_time(void)
{
    struct rusage used;
    getrusage(RUSAGE_CHILDREN, &used);
    return (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
           1e-6 * (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

/* ---- the child ---------------------------------------------------------- */

/* In the child: never returns. */
static void become_povray(const char *folder, int pixels)
{
    char width[32], height[32];
    snprintf(width, sizeof width, "+W%d", pixels);
    snprintf(height, sizeof height, "+H%d", pixels);
    if (chdir(folder) != 0)
        _exit(126);
    int log = open("log", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    int nothing = open("/dev/null", O_RDONLY);
    if (log < 0 || nothing < 0 || dup2(log, 1) < 0 || dup2(log, 2) < 0 || dup2(nothing, 0) < 0)
        _exit(126);
    char *const words[] = {"povray",
                           "+Iscene.pov",
                           "+Opicture.ppm",
                           "+FP16",
                           "File_Gamma=1.0",
                           width,
                           height,
                           "-A",
                           "-J",
                           "-D",
                           "-P",
                           "+WT1",
                           "+GS",
                           NULL};
    execvp("povray", words);
    _exit(127);
}

static bool run(const char *folder, int pixels)
{
    pid_t child = fork();
    if (child == 0)
        become_povray(folder, pixels);
    int status = 0;
    if (child < 0 || waitpid(child, &status, 0) != child)
        return fail("cannot start a child");
    if (WIFEXITED(status) && WEXITSTATUS(status) == 127)
        return fail("not installed (Debian package povray)");
    return (WIFEXITED(status) && WEXITSTATUS(status) == 0) || fail("ended with an error");
}

/* ---- what it leaves ----------------------------------------------------- */

/* The next number of a portable pixmap's head, past its remarks; -1 where there is none. */
static int read_number(FILE *file)
{
    int c = getc(file);
    while (c == '#' || c == ' ' || c == '\n') {
        while (c == '#' && (c = getc(file)) != '\n' && c != EOF)
            c = '#';
        c = getc(file);
    }
    int number = -1;
    for (; c >= '0' && c <= '9' && number < 100000; c = getc(file))
        number = (number < 0 ? 0 : 10 * number) + (c - '0');
    return number;
}

/* Two bytes, the high one first; the green of each pixel, for all three are alike. */
static bool read_picture(FILE *file, int pixels, double scale, double picture[])
{
    if (getc(file) != 'P' || getc(file) != '6' || read_number(file) != pixels ||
        read_number(file) != pixels || read_number(file) != 65535)
        return fail("no picture of 16 bits and the size asked for");
    for (int i = 0; i < pixels * pixels; i++) {
        unsigned char bytes[6];
        if (fread(bytes, 1, sizeof bytes, file) != sizeof bytes)
            return fail("its picture is cut short");
        picture[i] = (256 * bytes[2] + bytes[3]) / 65535.0 * scale;
    }
    return true;
}

/* "  Trace Time: … (1.234 seconds)" and in the next line "… with 1.230 CPU-seconds total". */
static bool read_time(FILE *log, povray_time *out)
{
    char line[512];
    while (fgets(line, sizeof line, log) != NULL) {
        const char *wall = strstr(line, "Trace Time:");
        if (wall == NULL || (wall = strchr(wall, '(')) == NULL)
            continue;
        out->wall_s = strtod(wall + 1, NULL);
        const char *cpu = fgets(line, sizeof line, log) == NULL ? NULL : strstr(line, "with ");
        if (cpu != NULL) {
            out->cpu_s = strtod(cpu + strlen("with "), NULL);
            return true;
        }
    }
    return fail("does not tell its time");
}

static FILE *open_in(const char *folder, const char *name, const char *mode)
{
    char path[PATH];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return fopen(path, mode);
}

static void clear(const char *folder)
{
    static const char *const names[] = {"scene.pov", "picture.ppm", "log"};
    for (int i = 0; i < 3; i++) {
        char path[PATH];
        snprintf(path, sizeof path, "%s/%s", folder, names[i]);
        unlink(path);
    }
    rmdir(folder);
}

static void show_log(const char *folder)
{
    FILE *log = open_in(folder, "log", "r");
    char line[512];
    while (log != NULL && fgets(line, sizeof line, log) != NULL) {
        if (strstr(line, "rror") != NULL)
            fprintf(stderr, "  %s", line);
    }
    if (log != NULL)
        fclose(log);
}

/* ---- all of it ---------------------------------------------------------- */

static bool write_scene(const char *folder, const povray_scene *scene)
{
    FILE *file = open_in(folder, "scene.pov", "w");
    if (file == NULL)
        return fail("cannot write its scene");
    povray_write(file, scene);
    return fclose(file) == 0 || fail("cannot write its scene");
}

static bool take(const char *folder, const povray_scene *scene, double picture[], povray_time *time)
{
    FILE *file = open_in(folder, "picture.ppm", "rb");
    if (file == NULL)
        return fail("left no picture");
    bool taken = read_picture(file, scene->view.pixels, povray_full_scale(scene), picture);
    fclose(file);
    FILE *log = taken ? open_in(folder, "log", "r") : NULL;
    if (log == NULL)
        return false;
    taken = read_time(log, time);
    fclose(log);
    return taken;
}

bool povray_render(const povray_scene *scene, double picture[], povray_time *time)
{
    char folder[FOLDER] = "/tmp/lapwing-povray-XXXXXX"; /* its own rules let it write there */
    if (mkdtemp(folder) == NULL)
        return fail("no scratch folder");
    povray_time spent = {0};
    bool done = write_scene(folder, scene);
    double start = now(), used = children_time();
    done = done && run(folder, scene->view.pixels);
    spent.all_s = now() - start;
    spent.all_cpu_s = children_time() - used;
    done = done && take(folder, scene, picture, &spent);
    if (!done)
        show_log(folder);
    clear(folder);
    if (done && time != NULL)
        *time = spent;
    return done;
}
