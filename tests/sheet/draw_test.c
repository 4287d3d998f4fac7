/* lapwing-draw as a program: the file it leaves, and what it leaves when it fails. */
#define _POSIX_C_SOURCE 200809L

#include "sheet/bench.h"
#include "sheet/draw_job.h"
#include "sheet/phrase.h"
#include "sheet/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

static char folder[64];

static int make_folder(void **state)
{
    (void)state;
    snprintf(folder, sizeof folder, "/tmp/lapwing-draw-test-XXXXXX");
    return mkdtemp(folder) == NULL;
}

static int run(const char *command)
{
    int status = system(command);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static int drop_folder(void **state)
{
    (void)state;
    char command[128];
    snprintf(command, sizeof command, "rm -r %s", folder);
    return run(command);
}

static const char *in_folder(const char *name)
{
    static char paths[64][128];
    static int next;
    next = (next + 1) % 64;
    snprintf(paths[next], sizeof paths[next], "%s/%s", folder, name);
    return paths[next];
}

/* Hands a job to the program; its complaint goes to complaint.txt. */
static int draw_text(const char *text, size_t length)
{
    FILE *file = fopen(in_folder("job.json"), "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, length, file), length);
    fclose(file);
    char command[512];
    snprintf(command, sizeof command, "'%s' <%s 2>%s", LW_DRAW, in_folder("job.json"),
             in_folder("complaint.txt"));
    return run(command);
}

static int draw(const lw_draw_job *job)
{
    char *text = NULL;
    size_t length = 0;
    assert_int_equal(lw_draw_job_write(job, &text, &length), LW_OK);
    int result = draw_text(text, length);
    free(text);
    return result;
}

static char *contents(const char *name, size_t *length)
{
    return sheet_bench_read(in_folder(name), length);
}

static lw_draw_job job_for(const char *cut_text, const char *output)
{
    return (lw_draw_job){.cut_text = cut_text,
                         .size_kind = LW_SIZE_WIDTH_MM,
                         .size = 7.2,
                         .material = "Quartz",
                         .refractive_index = 1.544,
                         .critical_angle_deg = 40.37,
                         .specific_gravity = 2.65,
                         .output = output};
}

/* Blanks of every kind become one, so that lines and columns do not matter. */
static void squeeze(char *text)
{
    char *to = text;
    for (const char *from = text; *from != '\0';) {
        bool blank = strchr(" \n\r\t\f", *from) != NULL;
        bool hard = strncmp(from, "\u00a0", 2) == 0;
        if (blank || hard) {
            from += hard ? 2 : 1;
            if (to > text && to[-1] != ' ') {
                *to++ = ' ';
            }
        } else {
            *to++ = *from++;
        }
    }
    *to = '\0';
}

/* "93, 3, 9, …": the teeth of a step, in the order in which they are to be cut. */
static void teeth_of(const lw_scene *scene, lw_phrase *phrase)
{
    const lw_tier *tier = &scene->stone->tiers[scene->step];
    double teeth[LW_CUT_MOST_FACETS];
    int order[LW_CUT_MOST_FACETS];
    for (int i = 0; i < tier->count; i++) {
        teeth[i] = scene->stone->facets[tier->first + i].tooth;
    }
    lw_side facing = scene->cut->steps[scene->step].side;
    lw_dial_order(&scene->kit, facing, teeth, tier->count, lw_scene_opens(scene), order);
    lw_phrase_clear(phrase);
    for (int i = 0; i < tier->count; i++) {
        lw_phrase_add(phrase, i > 0 ? ", " : "");
        lw_say_dial(phrase, lw_dial_of(&scene->kit, facing, teeth[order[i]]));
    }
}

/* Finds a text behind a place; fails with the text's own words. */
static const char *find_after(const char *text, const char *place, const char *cut)
{
    lw_phrase wanted;
    lw_phrase_clear(&wanted);
    lw_phrase_add(&wanted, text);
    squeeze(wanted.text);
    const char *found = strstr(place, wanted.text);
    if (found == NULL) {
        fail_msg("%s: the sheet lacks \"%s\" behind \"%.60s\"", cut, wanted.text, place);
    }
    return found;
}

/* Every step of a cut stands in the PDF's text, in order, with the cut's own angle and the teeth
 * that the dial shows. */
static void all_steps_in_pdf(const char *path)
{
    sheet_bench made;
    sheet_bench_file(path, 7.2, &made);
    lw_draw_job job = job_for(made.text, in_folder("sheet.pdf"));
    assert_int_equal(draw(&job), 0);
    char command[400];
    snprintf(command, sizeof command, "pdftotext -raw %s %s", in_folder("sheet.pdf"),
             in_folder("sheet.txt"));
    assert_int_equal(run(command), 0);
    size_t length = 0;
    char *text = contents("sheet.txt", &length);
    squeeze(text);
    const char *place = text;
    for (int step = 0; step < made.cut.step_count; step++) {
        lw_scene scene = {.cut = &made.cut,
                          .stone = &made.stone,
                          .values = &made.values,
                          .kit = {.wheel = made.cut.wheel},
                          .step = step};
        const lw_tier *tier = &made.stone.tiers[step];
        if (tier->count == 0) {
            continue;
        }
        bool level = tier->angle_deg == 0.0;
        lw_phrase phrase;
        lw_say_title(&scene, &phrase);
        place = find_after(phrase.text, place, path);
        lw_phrase_clear(&phrase);
        lw_phrase_add(&phrase, "Set ");
        lw_phrase_degrees(&phrase, level && lw_scene_in_adapter(&scene) ? 45.0 : tier->angle_deg);
        place = find_after(phrase.text, place, path);
        if (!level) {
            teeth_of(&scene, &phrase);
            place = find_after(phrase.text, place, path);
        }
        lw_say_until(&scene, &phrase);
        place = find_after(phrase.text, place, path);
    }
    (void)find_after("The finished stone", place, path);
    (void)find_after("Local codes come first", place, path);
    free(text);
    sheet_bench_drop(&made);
}

static void test_every_step_is_printed(void **state)
{
    (void)state;
    all_steps_in_pdf("cuts/classic-quartz-round.cut");
    all_steps_in_pdf("cuts/round-brilliant.cut");
    all_steps_in_pdf("cuts/step-octagon.cut");
    all_steps_in_pdf("cuts/pear-brilliant.cut");
}

/* worked: a pear whose tip is at 24 has its crown's tip at 72 on the dial; on a wheel that counts
 * clockwise the two change places. A pear with its tip at 96 would hide a mistake. */
static void test_tip_through_transfer(void **state)
{
    (void)state;
    static const char pear[] = "wheel 96\ndop crown\npavilion\n"
                               "side at 43 on 8, 40, 60, 84 to distance 33 %\n"
                               "tip at 44 on 24 only to distance 41 %\n"
                               "girdle at 90 on 8, 40, 60, 84 to distance 45 %\n"
                               "girdle at 90 on 24 only to distance 55 %\n"
                               "girdle at 90 on 72 only to distance 45 %\n"
                               "back at 43 on 72 only to distance 33 %\n"
                               "transfer\ncrown\n"
                               "nose at 40 on 24 only to distance 40 %\n"
                               "adapter\ntable at 0 to height 10 %\n";
    static const char *const teeth[2][2] = {
        {"Set 44.0\u00b0 and cut 24 ", "Set 40.0\u00b0 and cut 72 "},
        {"Set 44.0\u00b0 and cut 72 ", "Set 40.0\u00b0 and cut 24 "}};
    for (int counts = 0; counts < 2; counts++) {
        lw_draw_job job = job_for(pear, in_folder("pear.pdf"));
        job.counts = (lw_counts)counts;
        assert_int_equal(draw(&job), 0);
        char command[400];
        snprintf(command, sizeof command, "pdftotext -raw %s %s", in_folder("pear.pdf"),
                 in_folder("pear.txt"));
        assert_int_equal(run(command), 0);
        size_t length = 0;
        char *text = contents("pear.txt", &length);
        squeeze(text);
        const char *place = find_after(teeth[counts][0], text, "pear");
        (void)find_after(teeth[counts][1], place, "pear");
        free(text);
    }
}

static void same_file_twice(const char *first, const char *second)
{
    size_t length = 0;
    char *text = sheet_bench_read("cuts/single-cut.cut", &length);
    lw_draw_job job = job_for(text, in_folder(first));
    assert_int_equal(draw(&job), 0);
    sleep(1); /* a stamp of the time would differ now */
    job.output = in_folder(second);
    assert_int_equal(draw(&job), 0);
    size_t lengths[2];
    char *files[2] = {contents(first, &lengths[0]), contents(second, &lengths[1])};
    assert_int_equal(lengths[0], lengths[1]);
    assert_true(lengths[0] > 2000);
    assert_memory_equal(files[0], files[1], lengths[0]);
    free(files[0]);
    free(files[1]);
    free(text);
}

static void test_same_bytes(void **state)
{
    (void)state;
    same_file_twice("a.pdf", "b.pdf");
    same_file_twice("a.svg", "b.svg");
    same_file_twice("a.png", "b.png");
}

static unsigned be32(const char *bytes)
{
    const unsigned char *b = (const unsigned char *)bytes;
    return (unsigned)b[0] << 24 | (unsigned)b[1] << 16 | (unsigned)b[2] << 8 | b[3];
}

/* ISO 15948 (PNG): signature, then IHDR with width and height. A4 at 150 dots an inch is 1240 by
 * 1754; the single cut's sheet has two pages or more, one below the other. */
static void test_png(void **state)
{
    (void)state;
    size_t length = 0;
    char *text = sheet_bench_read("cuts/single-cut.cut", &length);
    lw_draw_job job = job_for(text, in_folder("one.png"));
    job.page = 1;
    assert_int_equal(draw(&job), 0);
    size_t size = 0;
    char *png = contents("one.png", &size);
    assert_memory_equal(png, "\x89PNG\r\n\x1a\n", 8);
    assert_int_equal(be32(png + 16), 1240);
    assert_int_equal(be32(png + 20), 1754);
    free(png);
    job.page = 0;
    job.output = in_folder("all.png");
    assert_int_equal(draw(&job), 0);
    png = contents("all.png", &size);
    assert_int_equal(be32(png + 16), 1240);
    assert_true(be32(png + 20) >= 2 * 1754 - 1);
    free(png);
    free(text);
}

static bool is_there(const char *name)
{
    return access(in_folder(name), F_OK) == 0;
}

/* Exit 2, one line that names the matter, no file and no rest of one. */
static void refused(const lw_draw_job *job, const char *word)
{
    int result = draw(job);
    size_t length = 0;
    char *line = contents("complaint.txt", &length);
    if (result != 2 || strstr(line, word) == NULL || strchr(line, '\n') != line + length - 1) {
        fail_msg("exit %d, said: %s", result, line);
    }
    free(line);
    assert_false(is_there("no.pdf"));
    char command[200];
    snprintf(command, sizeof command, "ls %s | grep -q '^no'", folder);
    assert_int_equal(run(command), 1);
}

static void test_refusals(void **state)
{
    (void)state;
    size_t length = 0;
    char *text = sheet_bench_read("cuts/single-cut.cut", &length);
    lw_draw_job job = job_for("wheel 96\nmain at on 3\n", in_folder("no.pdf"));
    refused(&job, "2:");
    job.cut_text = text;
    job.page = 99;
    refused(&job, "page");
    job.page = 0;
    job.overrides = &(lw_override){"nosuch", LW_UNIT_DEG, 3.0};
    job.override_count = 1;
    refused(&job, "nosuch");
    job.override_count = 0;
    job.output = in_folder("no.txt");
    refused(&job, ".pdf");
    job.output = "/nowhere/at/all/no.pdf";
    refused(&job, "/nowhere");
    assert_int_equal(draw_text("{", 1), 2);
    free(text);
}

/* What was there before a failure is there after it. */
static void test_old_file_stays(void **state)
{
    (void)state;
    FILE *file = fopen(in_folder("old.pdf"), "wb");
    assert_non_null(file);
    fputs("old", file);
    fclose(file);
    lw_draw_job job = job_for("wheel 96\n", in_folder("old.pdf"));
    assert_int_equal(draw(&job), 2);
    size_t length = 0;
    char *kept = contents("old.pdf", &length);
    assert_string_equal(kept, "old");
    free(kept);
}

/* The locale's decimal comma stays out of the sheet. */
static void test_locale(void **state)
{
    (void)state;
    size_t length = 0;
    char *text = sheet_bench_read("cuts/single-cut.cut", &length);
    lw_draw_job job = job_for(text, in_folder("plain.pdf"));
    assert_int_equal(draw(&job), 0);
    (void)setenv("LC_ALL", "de_DE.UTF-8", 1);
    job.output = in_folder("comma.pdf");
    assert_int_equal(draw(&job), 0);
    (void)unsetenv("LC_ALL");
    size_t lengths[2];
    char *files[2] = {contents("plain.pdf", &lengths[0]), contents("comma.pdf", &lengths[1])};
    assert_int_equal(lengths[0], lengths[1]);
    assert_memory_equal(files[0], files[1], lengths[0]);
    free(files[0]);
    free(files[1]);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_step_is_printed),
        cmocka_unit_test(test_tip_through_transfer),
        cmocka_unit_test(test_same_bytes),
        cmocka_unit_test(test_png),
        cmocka_unit_test(test_refusals),
        cmocka_unit_test(test_old_file_stays),
        cmocka_unit_test(test_locale),
    };
    return cmocka_run_group_tests(tests, make_folder, drop_folder);
}
