/* A drawing job goes over as text and comes back the same; what is not one is refused. */
#include "sheet/bench.h"
#include "sheet/draw_job.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static const lw_override overrides[2] = {{"table", LW_UNIT_PERCENT, 53.1},
                                         {"pavilion", LW_UNIT_DEG, 1.0 / 3.0}};
static const char *const cautions[2] = {"One \u00b5m.", "Two \"quoted\"."};
static const char *const remarks[1] = {"A remark."};

static lw_draw_job full_job(void)
{
    return (lw_draw_job){.cut_text = "wheel 96\n# \u00e9\n",
                         .overrides = overrides,
                         .override_count = 2,
                         .size_kind = LW_SIZE_DIAMETER_MM,
                         .size = 7.1,
                         .material = "Quartz",
                         .refractive_index = 1.544,
                         .critical_angle_deg = 40.37,
                         .specific_gravity = 2.65,
                         .polish = "cerium oxide",
                         .cautions = cautions,
                         .caution_count = 2,
                         .remarks = remarks,
                         .remark_count = 1,
                         .counts = LW_COUNTS_CLOCKWISE,
                         .zero_at = -0.25,
                         .pointer_deg = 90.0,
                         .paper = LW_DRAW_LETTER,
                         .format = LW_DRAW_SVG,
                         .page = 2,
                         .output = "a b.svg"};
}

static void same(const lw_draw_job *a, const lw_draw_job *b)
{
    assert_string_equal(a->cut_text, b->cut_text);
    assert_int_equal(a->override_count, b->override_count);
    for (int i = 0; i < a->override_count; i++) {
        assert_string_equal(a->overrides[i].name, b->overrides[i].name);
        assert_int_equal(a->overrides[i].unit, b->overrides[i].unit);
        assert_true(a->overrides[i].value == b->overrides[i].value);
    }
    assert_int_equal(a->size_kind, b->size_kind);
    assert_true(a->size == b->size);
    assert_string_equal(a->material, b->material);
    assert_true(a->refractive_index == b->refractive_index);
    assert_true(a->critical_angle_deg == b->critical_angle_deg);
    assert_true(a->specific_gravity == b->specific_gravity);
    assert_string_equal(a->polish, b->polish);
    assert_int_equal(a->caution_count, b->caution_count);
    for (int i = 0; i < a->caution_count; i++) {
        assert_string_equal(a->cautions[i], b->cautions[i]);
    }
    assert_int_equal(a->remark_count, b->remark_count);
    assert_string_equal(a->remarks[0], b->remarks[0]);
    assert_int_equal(a->counts, b->counts);
    assert_true(a->zero_at == b->zero_at && a->pointer_deg == b->pointer_deg);
    assert_int_equal(a->paper, b->paper);
    assert_int_equal(a->format, b->format);
    assert_int_equal(a->page, b->page);
    assert_string_equal(a->output, b->output);
}

static void test_round_trip(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_arena arena = lw_arena_make(&memory);
    lw_draw_job job = full_job();
    char *text = NULL;
    size_t length = 0;
    assert_int_equal(lw_draw_job_write(&job, &text, &length), LW_OK);
    lw_draw_job back;
    assert_int_equal(lw_draw_job_read(&arena, text, length, &back, NULL), LW_OK);
    same(&job, &back);
    free(text);
    lw_arena_destroy(&arena);
}

static void test_little_is_enough(void **state)
{
    (void)state;
    static const char text[] = "{\"cut\":\"wheel 96\",\"output\":\"x.PNG\"}";
    lw_memory memory = lw_memory_standard();
    lw_arena arena = lw_arena_make(&memory);
    lw_draw_job job;
    lw_draw_format format;
    assert_int_equal(lw_draw_job_read(&arena, text, strlen(text), &job, NULL), LW_OK);
    assert_null(job.material);
    assert_int_equal(job.size_kind, LW_SIZE_NONE);
    assert_int_equal(lw_draw_job_format(&job, &format), LW_OK);
    assert_int_equal(format, LW_DRAW_PNG);
    job.output = "x.pdf.txt";
    assert_int_equal(lw_draw_job_format(&job, &format), LW_BAD_INPUT);
    lw_arena_destroy(&arena);
}

/* Each is refused, names what is wrong, and leaves the job as it was. */
static void test_refusals(void **state)
{
    (void)state;
    static const char *const texts[][2] = {
        {"", "JSON"},
        {"[]", "JSON"},
        {"{\"cut\":\"\"}", "output"},
        {"{\"output\":\"x.pdf\"}", "cut"},
        {"{\"cut\":\"\",\"output\":\"\"}", "output"},
        {"{\"cut\":1,\"output\":\"x.pdf\"}", "cut"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"colour\":1}", "colour"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"page\":1.5}", "page"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"page\":-1}", "page"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"page\":1e9}", "page"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"paper\":\"A3\"}", "A3"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"format\":\"GIF\"}", "GIF"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"size\":{\"kind\":\"width_mm\",\"value\":0}}",
         "size"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"size\":{\"kind\":\"width\",\"value\":3}}", "width"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"size\":7}", "size"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"kit\":{\"zero_at\":1e9}}", "kit"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"kit\":{\"counts\":\"sideways\"}}", "sideways"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"settings\":[{\"value\":1}]}", "name"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"settings\":[3]}", "name"},
        {"{\"cut\":\"\",\"output\":\"x.pdf\",\"remarks\":[3]}", "remarks"},
        {"{\"cut\":\"\",\"cut\":\"\",\"output\":\"x.pdf\"}", "JSON"},
        {"{\"cut\":\"a\\u0000b\",\"output\":\"x.pdf\"}", "JSON"},
    };
    lw_memory memory = lw_memory_standard();
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        lw_arena arena = lw_arena_make(&memory);
        lw_draw_job job = {.page = 77};
        lw_problem problem = {0};
        lw_status status =
            lw_draw_job_read(&arena, texts[i][0], strlen(texts[i][0]), &job, &problem);
        char words[1024];
        (void)lw_problem_write(&problem, words, sizeof words);
        if (status == LW_OK || strstr(words, texts[i][1]) == NULL) {
            fail_msg("%s\ngave: %s", texts[i][0], words);
        }
        assert_int_equal(job.page, 77);
        lw_arena_destroy(&arena);
    }
}

/* Every start of a job short of the whole is refused; reading past its end would show under the
 * address sanitizer. */
static void test_cut_off(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_draw_job job = full_job();
    char *text = NULL;
    size_t length = 0;
    assert_int_equal(lw_draw_job_write(&job, &text, &length), LW_OK);
    for (size_t part = 0; part < length; part++) {
        char *piece = malloc(part + 1);
        assert_non_null(piece);
        memcpy(piece, text, part);
        lw_arena arena = lw_arena_make(&memory);
        lw_draw_job back;
        assert_int_equal(lw_draw_job_read(&arena, piece, part, &back, NULL), LW_BAD_INPUT);
        lw_arena_destroy(&arena);
        free(piece);
    }
    free(text);
}

static void test_unwritable(void **state)
{
    (void)state;
    lw_draw_job job = full_job();
    char *text = NULL;
    size_t length = 0;
    job.cut_text = "\xff\xfe";
    assert_int_equal(lw_draw_job_write(&job, &text, &length), LW_BAD_INPUT);
    job = full_job();
    job.size = 1e308 * 10.0;
    assert_int_equal(lw_draw_job_write(&job, &text, &length), LW_BAD_INPUT);
    assert_null(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_round_trip), cmocka_unit_test(test_little_is_enough),
        cmocka_unit_test(test_refusals),   cmocka_unit_test(test_cut_off),
        cmocka_unit_test(test_unwritable),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
