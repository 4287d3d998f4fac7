#include "light/place_parts.h"

#include "base/line.h"
#include "light/spectrum.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

/* Bits of lw_place_reader.seen above those of the shapes. */
enum { SEEN_TITLE = 1 << 16, SEEN_TILTING = 1 << 17 };

/* ---- lines that are no lights ------------------------------------------- */

static lw_status want_end(lw_place_reader *r)
{
    const lw_place_token *token = lw_place_next(r);
    return token->kind == LW_PLACE_END ? LW_OK : lw_place_fail(r, token, "the end of the line", "");
}

static lw_status only_once(lw_place_reader *r, const lw_place_token *token, unsigned bit)
{
    if ((r->seen & bit) == 0) {
        r->seen |= bit;
        return LW_OK;
    }
    char expected[LW_PROBLEM_TEXT];
    snprintf(expected, sizeof expected, "only one line '%.*s'", token->length, token->text);
    return lw_place_fail(r, token, expected, "");
}

/* title "…"; note "…" */
static lw_status read_quoted(lw_place_reader *r, bool title)
{
    lw_status status = title ? only_once(r, lw_place_next(r), SEEN_TITLE) : LW_OK;
    if (status != LW_OK)
        return status;
    r->at++;
    const lw_place_token *text = lw_place_next(r);
    if (text->kind != LW_PLACE_TEXT)
        return lw_place_fail(r, text, "words in quotes", "");
    if (title && (text->length == 0 || text->length >= LW_LIGHT_PLACE_NAME))
        return lw_place_fail(r, text, "a title of 1 to 63 bytes", "");
    if (title) {
        memcpy(r->place.name, text->text, (size_t)text->length);
        r->place.name[text->length] = '\0';
    }
    r->at++;
    return want_end(r);
}

/* tilting the stone; tilting the eye */
static lw_status read_tilting(lw_place_reader *r)
{
    lw_status status = only_once(r, lw_place_next(r), SEEN_TILTING);
    if (status != LW_OK)
        return status;
    const lw_place_token *token = &r->tokens[++r->at];
    bool the = lw_place_is(token, "the");
    r->at += the;
    const lw_place_token *what = lw_place_next(r);
    bool stone = lw_place_is(what, "stone"), eye = lw_place_is(what, "eye");
    if (!the || (!stone && !eye))
        return lw_place_fail(r, the ? what : token, "'the stone' or 'the eye'", "");
    r->at++;
    r->place.with_stone = eye;
    return want_end(r);
}

static lw_status read_content(lw_place_reader *r)
{
    const lw_place_token *first = lw_place_next(r);
    if (lw_place_is(first, "title") || lw_place_is(first, "note"))
        return read_quoted(r, lw_place_is(first, "title"));
    return lw_place_is(first, "tilting") ? read_tilting(r) : lw_place_read_form(r);
}

static lw_status read_line(lw_place_reader *r, const char *text, size_t length)
{
    /* A file that is no text at all is better told so. */
    if (length > LW_PLACE_MOST_LINE && memchr(text, '\0', length) == NULL) {
        char found[LW_PROBLEM_TEXT];
        snprintf(found, sizeof found, "a line of %zu bytes", length);
        return lw_problem_set(r->problem, LW_TOO_LARGE, r->line, 1, found,
                              "lines of at most 500 bytes", "");
    }
    lw_status status = lw_line_bytes(text, length, r->line, r->problem);
    if (status == LW_OK)
        status = lw_place_lex(r, text, length);
    return status == LW_OK && r->count > 0 ? read_content(r) : status;
}

static lw_status read_lines(lw_place_reader *r, const char *text, size_t length)
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

/* ---- the whole ---------------------------------------------------------- */

static lw_status want_line(lw_place_reader *r, bool there, const char *expected, const char *hint)
{
    int line = r->line > 0 ? r->line : 1;
    return there ? LW_OK
                 : lw_problem_set(r->problem, LW_BAD_INPUT, line, 0, "the end of the text",
                                  expected, hint);
}

static lw_status check_whole(lw_place_reader *r)
{
    lw_status status = want_line(r, (r->seen & SEEN_TITLE) != 0, "a line 'title \"…\"'",
                                 "for example: title \"My bench\"");
    if (status == LW_OK)
        status = want_line(r, r->bright > 0.0, "a line 'bright … cd/m2'",
                           "the luminance that counts as 1, for example: bright 3000 cd/m2");
    if (status == LW_OK)
        status = want_line(r, (r->seen & 1u << LW_SHAPE_EYE) != 0, "a line 'eye …'",
                           "for example: eye 50 deg up");
    if (status == LW_OK)
        status = want_line(r, (r->seen & 1u << LW_SHAPE_HEAD) != 0, "a line 'head …'",
                           "for example: head 20 deg across, 60 cd/m2, daylight; or: head none");
    if (status == LW_OK)
        status = want_line(r, r->place.patch_count > 0, "a line that gives light",
                           "for example: sky 3000 cd/m2, daylight");
    bool above = r->place.eye.z == 1.0;
    if (status == LW_OK)
        status =
            want_line(r, !r->place.with_stone || above, "'eye overhead' with 'tilting the eye'",
                      "light that goes with the stone is told with the table up");
    return status;
}

/* From luminance to radiance at 560 nm, relative to what the place calls bright. */
static double radiance_of(const lw_place_reader *r, double luminance, lw_glow glow, double kelvin)
{
    return luminance / r->bright / lw_glow_colour(glow, kelvin).y;
}

static void scale_lights(lw_place_reader *r)
{
    lw_light_place *place = &r->place;
    for (int i = 0; i < place->patch_count; i++) {
        lw_patch *patch = &place->patches[i];
        patch->even = radiance_of(r, patch->even, patch->glow, patch->kelvin);
        patch->slope = radiance_of(r, patch->slope, patch->glow, patch->kelvin);
    }
    place->head_radiance =
        radiance_of(r, place->head_radiance, place->head_glow, place->head_kelvin);
}

lw_status lw_light_place_read(const char *text, size_t length, lw_light_place *out,
                              lw_problem *problem)
{
    assert(out != NULL && (text != NULL || length == 0));
    if (length > LW_PLACE_MOST_BYTES) {
        char found[LW_PROBLEM_TEXT];
        snprintf(found, sizeof found, "a text of %zu bytes", length);
        return lw_problem_set(problem, LW_TOO_LARGE, 0, 0, found, "at most 65536 bytes",
                              "a place is a short text");
    }
    lw_place_reader r = {.problem = problem};
    lw_status status = read_lines(&r, text, length);
    if (status == LW_OK)
        status = check_whole(&r);
    if (status != LW_OK)
        return status;
    scale_lights(&r);
    *out = r.place;
    return LW_OK;
}
