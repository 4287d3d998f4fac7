#include "sheet/bench.h"

#include "cut/read.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void must(lw_status status, const lw_problem *problem)
{
    if (status != LW_OK) {
        char text[1024];
        (void)lw_problem_write(problem, text, sizeof text);
        fail_msg("%s: %s", lw_status_text(status), text);
    }
}

void sheet_bench_make(const char *text, double width_mm, sheet_bench *out)
{
    *out = (sheet_bench){0};
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    must(lw_cut_read(&memory, text, strlen(text), &out->cut, &problem), &problem);
    must(lw_values_make(&out->cut, NULL, 0, &out->values, &problem), &problem);
    lw_solve_options options = {.size_kind = width_mm > 0.0 ? LW_SIZE_WIDTH_MM : LW_SIZE_NONE,
                                .size = width_mm};
    must(lw_cut_solve(&memory, &out->cut, &options, &out->stone, &problem), &problem);
    lw_check_options check = {0};
    must(lw_cut_check(&memory, &out->cut, &out->stone, &check, &out->check), &problem);
}

void sheet_bench_file(const char *path, double width_mm, sheet_bench *out)
{
    size_t length = 0;
    char *text = sheet_bench_read(path, &length);
    sheet_bench_make(text, width_mm, out);
    out->text = text;
}

void sheet_bench_drop(sheet_bench *made)
{
    lw_check_destroy(&made->check);
    lw_stone_destroy(&made->stone);
    lw_cut_destroy(&made->cut);
    free(made->text);
}

lw_sheet_facts sheet_bench_facts(const sheet_bench *made)
{
    static const char *const cautions[] = {"A caution of the stone's own."};
    return (lw_sheet_facts){.cut = &made->cut,
                            .stone = &made->stone,
                            .values = &made->values,
                            .check = &made->check,
                            .material = "Quartz",
                            .refractive_index = 1.544,
                            .critical_angle_deg = 40.37,
                            .specific_gravity = 2.65,
                            .polish = "cerium oxide",
                            .cautions = cautions,
                            .caution_count = 1};
}

char *sheet_bench_read(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        fail_msg("cannot open %s", path);
    }
    size_t room = 1 << 16;
    size_t used = 0;
    char *text = malloc(room + 1);
    assert_non_null(text);
    for (size_t got = 1; got > 0; used += got) {
        if (used == room) {
            room *= 2;
            text = realloc(text, room + 1);
            assert_non_null(text);
        }
        got = fread(text + used, 1, room - used, file);
    }
    fclose(file);
    text[used] = '\0';
    *length = used;
    return text;
}

static lw_text_size plain_size(void *context, const lw_type *type, const char *text, size_t length)
{
    (void)context;
    size_t characters = 0;
    for (size_t i = 0; i < length; i++) {
        characters += ((unsigned char)text[i] & 0xC0u) != 0x80u;
    }
    return (lw_text_size){0.6 * type->size * (double)characters, 0.8 * type->size,
                          0.2 * type->size};
}

lw_metrics sheet_bench_metrics(void)
{
    return (lw_metrics){.measure = plain_size};
}

static void *scarce_resize(void *context, void *block, size_t old_size, size_t new_size)
{
    scarce *state = context;
    lw_memory plain = lw_memory_standard();
    if (new_size == 0) {
        state->granted -= block != NULL;
        return plain.resize(plain.context, block, old_size, 0);
    }
    if (state->left <= 0) {
        return NULL;
    }
    state->left--;
    void *fresh = plain.resize(plain.context, block, old_size, new_size);
    state->granted += block == NULL && fresh != NULL;
    return fresh;
}

lw_memory scarce_memory(scarce *state)
{
    return (lw_memory){.resize = scarce_resize, .context = state};
}
