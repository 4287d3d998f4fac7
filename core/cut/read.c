#include "cut/read.h"

#include "base/line.h"
#include "cut/read_parts.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static const char *const line_words[] = {
    "title", "maker", "note",  "suits",    "wheel",   "fold",     "hand",  "setting",
    "let",   "dop",   "redop", "transfer", "adapter", "pavilion", "crown", "temporary"};
enum { LINE_WORD_COUNT = sizeof line_words / sizeof line_words[0] };

static const char line_expected[] =
    "a step ('main at 43 on 96 to …'), or a line that begins with title, maker, note, suits, "
    "wheel, "
    "fold, hand, setting, let, pavilion, crown, dop, transfer, redop or adapter";

static lw_status concave(lw_reader *r, const lw_token *token)
{
    char found[LW_PROBLEM_TEXT];
    snprintf(found, sizeof found, "'%.*s'", token->length, token->text);
    return lw_read_fail_as(r, LW_UNSUPPORTED, (lw_place){r->line, token->column}, found,
                           "a flat facet", "Lapwing cuts no concave or cylindrical facets");
}

/* A line whose first word is none of ours and is not followed by "at". */
static lw_status unknown_line(lw_reader *r)
{
    const lw_token *first = lw_read_token(r);
    const lw_token *second = lw_read_ahead(r, 1);
    char hint[LW_PROBLEM_TEXT];
    lw_nearest_hint(first, line_words, LINE_WORD_COUNT, hint);
    bool given = lw_token_is_sign(second, '=');
    if (first->kind != LW_TOKEN_WORD || second->kind == LW_TOKEN_END ||
        (hint[0] != '\0' && !given)) {
        return lw_read_fail(r, first, line_expected, hint);
    }
    if (given) {
        snprintf(hint, sizeof hint, "a value is given with setting or let");
    } else if (lw_token_is(lw_read_ahead(r, 2), "at")) {
        snprintf(hint, sizeof hint, "a step's name is one word: %.*s-%.*s", first->length,
                 first->text, second->length, second->text);
    } else {
        lw_nearest_hint(second, (const char *const[]){"at"}, 1, hint);
    }
    return lw_read_fail(r, second, "'at' behind a step's name", hint);
}

/* pavilion | crown, alone on the line */
static lw_status read_side(lw_reader *r, lw_line *line, bool *done)
{
    const lw_token *token = lw_read_token(r);
    *done = lw_token_is(token, "pavilion") || lw_token_is(token, "crown");
    if (!*done) {
        return LW_OK;
    }
    r->side = lw_token_is(token, "crown") ? LW_SIDE_CROWN : LW_SIDE_PAVILION;
    r->at++;
    line->kind = LW_LINE_SIDE;
    line->side = r->side;
    const lw_token *next = lw_read_token(r);
    if (next->kind == LW_TOKEN_WORD && lw_token_is(lw_read_ahead(r, 1), "at")) {
        return lw_read_fail(r, next, "the end of the line",
                            "the side stands on a line of its own, the step on the next");
    }
    return lw_read_want_end(r, "the end of the line");
}

static bool is_step(const lw_reader *r)
{
    int name = lw_token_is(lw_read_token(r), "temporary") ? 1 : 0;
    return lw_token_is(lw_read_ahead(r, name + 1), "at");
}

static lw_status read_content(lw_reader *r, lw_line *line)
{
    const lw_token *first = lw_read_token(r);
    bool temporary = lw_token_is(first, "temporary");
    const lw_token *word = temporary ? lw_read_ahead(r, 1) : first;
    bool done = false;
    /* Words that lack their quotes are told by the header. */
    bool quoted =
        lw_token_is(first, "title") || lw_token_is(first, "maker") || lw_token_is(first, "note");
    lw_status status = quoted ? LW_OK : lw_read_check_capitals(r);
    if (status != LW_OK) {
        return status;
    }
    if (lw_word_is_concave(word)) {
        return concave(r, word);
    }
    if (is_step(r)) {
        return lw_read_step(r, line);
    }
    if (temporary) {
        return lw_read_fail(r, word, "a step behind 'temporary'", "only steps are temporary");
    }
    if (lw_token_is(first, "setting") || lw_token_is(first, "let")) {
        return lw_read_setting(r, line);
    }
    status = lw_read_header(r, line, &done);
    if (status == LW_OK && !done) {
        status = lw_read_action(r, line, &done);
    }
    if (status == LW_OK && !done) {
        status = read_side(r, line, &done);
    }
    return status != LW_OK || done ? status : unknown_line(r);
}

static lw_status keep_line(lw_reader *r, lw_line *line)
{
    const lw_line *lines = r->lines.items;
    bool again = r->lines.count == 0 || lines[r->lines.count - 1].kind == LW_LINE_BLANK;
    if (line->kind == LW_LINE_BLANK && again) {
        return LW_OK; /* one blank line is as good as many */
    }
    if (r->lexer.comment != NULL) {
        line->comment =
            lw_arena_text(&r->cut.arena, r->lexer.comment, (size_t)r->lexer.comment_length);
        if (line->comment == NULL) {
            return lw_read_no_memory(r);
        }
    }
    lw_status status = lw_read_add(r, &r->line_numbers, &r->line, sizeof r->line);
    return status == LW_OK ? lw_read_add(r, &r->lines, line, sizeof *line) : status;
}

static lw_status read_line(lw_reader *r, const char *text, size_t length)
{
    lw_line line = {.kind = LW_LINE_BLANK, .side = LW_SIDE_NONE};
    /* A file that is no text at all is better told so. */
    if (length > LW_CUT_MOST_LINE && memchr(text, '\0', length) == NULL) {
        char found[LW_PROBLEM_TEXT];
        snprintf(found, sizeof found, "a line of %zu bytes", length);
        return lw_read_fail_as(r, LW_TOO_LARGE, (lw_place){r->line, 1}, found,
                               "lines of at most 2000 bytes", "");
    }
    lw_status status = lw_line_bytes(text, length, r->line, r->problem);
    if (status == LW_OK) {
        status = lw_lex_line(&r->lexer, text, length, r->line);
    }
    if (status != LW_OK) {
        return status;
    }
    r->at = 0;
    if (r->lexer.count > 0) {
        status = read_content(r, &line);
    } else if (r->lexer.comment != NULL) {
        line.kind = LW_LINE_COMMENT;
    }
    return status == LW_OK ? keep_line(r, &line) : status;
}

static lw_status read_lines(lw_reader *r, const char *text, size_t length)
{
    size_t at = length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    lw_status status = LW_OK;
    while (status == LW_OK && at < length) {
        const char *end = memchr(text + at, '\n', length - at);
        size_t size = end == NULL ? length - at : (size_t)(end - (text + at));
        size_t content = end != NULL && size > 0 && text[at + size - 1] == '\r' ? size - 1 : size;
        r->line++;
        status = read_line(r, text + at, content);
        at += size + 1;
    }
    return status;
}

/* What can be seen only when the last line is read. */
static lw_status check_whole(lw_reader *r)
{
    const lw_step *steps = r->steps.items;
    bool facets = false;
    for (int i = 0; i < r->steps.count; i++) {
        facets = facets || steps[i].kind == LW_STEP_FACETS;
    }
    lw_place end = {r->line > 0 ? r->line : 1, 0};
    if (r->cut.wheel == 0) {
        return lw_read_fail_as(r, LW_BAD_INPUT, end, "the end of the text", "a line 'wheel N'",
                               "for example: wheel 96");
    }
    if (!facets) {
        return lw_read_fail_as(r, LW_BAD_INPUT, end, "the end of the text", "a step",
                               "for example: main at 43 on 96 to point");
    }
    return lw_read_check_names(r);
}

/* Moves the lists to the arena. */
static lw_status keep_lists(lw_reader *r)
{
    const void *lines = NULL, *steps = NULL, *notes = NULL;
    const lw_line *list = r->lines.items;
    while (r->lines.count > 0 && list[r->lines.count - 1].kind == LW_LINE_BLANK) {
        r->lines.count--;
    }
    lw_status status = lw_read_keep(r, &r->lines, sizeof(lw_line), &lines);
    if (status == LW_OK) {
        status = lw_read_keep(r, &r->steps, sizeof(lw_step), &steps);
    }
    if (status == LW_OK) {
        status = lw_read_keep(r, &r->notes, sizeof(const char *), &notes);
    }
    r->cut.lines = lines;
    r->cut.line_count = r->lines.count;
    r->cut.steps = steps;
    r->cut.step_count = r->steps.count;
    r->cut.notes = notes;
    r->cut.note_count = r->notes.count;
    return status;
}

static void free_list(lw_reader *r, lw_list *list, size_t size)
{
    lw_memory_free(&r->memory, list->items, list->capacity, size);
}

static void free_scratch(lw_reader *r)
{
    lw_lexer_destroy(&r->lexer);
    free_list(r, &r->steps, sizeof(lw_step));
    free_list(r, &r->lines, sizeof(lw_line));
    free_list(r, &r->notes, sizeof(const char *));
    free_list(r, &r->teeth, sizeof(double));
    free_list(r, &r->facets, sizeof(lw_facet_ref));
    free_list(r, &r->values_list, sizeof(void *));
    free_list(r, &r->line_numbers, sizeof(int));
}

lw_status lw_cut_read(const lw_memory *memory, const char *text, size_t length, lw_cut *out,
                      lw_problem *problem)
{
    assert(memory != NULL && out != NULL && (text != NULL || length == 0));
    if (length > LW_CUT_MOST_BYTES) {
        char found[LW_PROBLEM_TEXT];
        snprintf(found, sizeof found, "a text of %zu bytes", length);
        return lw_problem_set(problem, LW_TOO_LARGE, 0, 0, found, "at most 1048576 bytes",
                              "a cut is a short text");
    }
    lw_reader r = {.memory = *memory,
                   .problem = problem,
                   .cut = {.arena = lw_arena_make(memory), .title = "", .fold = 1},
                   .lexer = {.memory = *memory, .problem = problem},
                   .side = LW_SIDE_NONE};
    lw_status status = read_lines(&r, text, length);
    if (status == LW_OK) {
        status = check_whole(&r);
    }
    if (status == LW_OK) {
        status = keep_lists(&r);
    }
    if (status == LW_OK) {
        status = lw_read_check_written(&r);
    }
    free_scratch(&r);
    if (status == LW_OK) {
        *out = r.cut;
    } else {
        lw_arena_destroy(&r.cut.arena);
    }
    return status;
}
