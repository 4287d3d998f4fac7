/* Texts that read well and have no stone: tests/cut/broken/solve-NAME.cut must give exactly the
 * message in solve-NAME.expected, and no stone. With an argument "write" the program writes the
 * messages as they are now, to be looked through before they are kept. */
#include "cut/bench.h"

#include "cut/text_file.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static int seen;

static bool is_ours(const char *path)
{
    const char *name = strrchr(path, '/');
    return name != NULL && strncmp(name, "/solve-", 7) == 0;
}

/* The message of a text that must be read and must not be solved. */
static void message_of(const char *path, char *message, size_t capacity)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    lw_cut cut;
    lw_stone stone;
    lw_stone before;
    size_t length = 0;
    char *text = text_of_file(path, &length);
    assert_non_null(text);
    if (lw_cut_read(&memory, text, length, &cut, &problem) != LW_OK) {
        (void)lw_problem_write(&problem, message, capacity);
        fail_msg("%s is not read: %s", path, message);
    }
    memset(&stone, 0xA5, sizeof stone);
    memcpy(&before, &stone, sizeof stone);
    lw_status status = lw_cut_solve(&memory, &cut, NULL, &stone, &problem);
    if (status == LW_OK) {
        fail_msg("%s has a stone", path);
    }
    assert_memory_equal(&stone, &before, sizeof stone);
    (void)lw_problem_write(&problem, message, capacity);
    lw_cut_destroy(&cut);
    free(text);
}

static void path_of_message(const char *path, char name[512])
{
    snprintf(name, 512, "%.*s.expected", (int)(strlen(path) - strlen(".cut")), path);
}

static void compare(const char *path)
{
    char message[2000] = "";
    char name[512];
    size_t length = 0;
    if (!is_ours(path)) {
        return;
    }
    seen++;
    message_of(path, message, sizeof message - 2);
    strcat(message, "\n");
    path_of_message(path, name);
    char *expected = text_of_file(name, &length);
    if (expected == NULL || strcmp(expected, message) != 0) {
        fail_msg("%s\n  gives:    %s  expected: %s", path, message, expected ? expected : "-");
    }
    free(expected);
}

static void keep(const char *path)
{
    char message[2000] = "";
    char name[512];
    if (!is_ours(path)) {
        return;
    }
    message_of(path, message, sizeof message);
    path_of_message(path, name);
    FILE *file = fopen(name, "wb");
    assert_non_null(file);
    fprintf(file, "%s\n", message);
    fclose(file);
}

static void every_message_is_exact(void **state)
{
    (void)state;
    (void)each_file("tests/cut/broken", ".cut", compare);
    assert_true(seen >= 20);
}

static void write_messages(void **state)
{
    (void)state;
    (void)each_file("tests/cut/broken", ".cut", keep);
}

int main(int count, char **words)
{
    const struct CMUnitTest check[] = {cmocka_unit_test(every_message_is_exact)};
    const struct CMUnitTest write[] = {cmocka_unit_test(write_messages)};
    if (count > 1 && strcmp(words[1], "write") == 0) {
        return cmocka_run_group_tests(write, NULL, NULL);
    }
    return cmocka_run_group_tests(check, NULL, NULL);
}
