/* Which clauses go together on a line. */
#include "light/place_parts.h"

#include <stdio.h>

#define HAS(clause) (1u << LW_CLAUSE_##clause)
#define SHINES (HAS(LIGHT) | HAS(GLOW))
#define WALL (HAS(SIDE) | HAS(WIDE) | HAS(TALL) | HAS(AWAY) | HAS(SILL) | SHINES)
#define FACING (HAS(SIDE) | HAS(UP_DEG) | HAS(WIDE) | HAS(TALL) | HAS(AWAY) | SHINES)
#define ANGLES (HAS(SIDE) | HAS(UP_DEG) | HAS(WIDE_DEG) | HAS(TALL_DEG) | SHINES)
#define LEVEL (HAS(VERTICAL) | HAS(WIDE) | HAS(LONG) | HAS(AWAY) | SHINES)
#define DISC_DEG (HAS(SIDE) | HAS(UP_DEG) | HAS(ACROSS_DEG) | SHINES)
#define DISC (HAS(SIDE) | HAS(UP_DEG) | HAS(ACROSS) | HAS(AWAY) | SHINES)
#define DISC_ABOVE_DEG (HAS(VERTICAL) | HAS(ACROSS_DEG) | SHINES)
#define DISC_ABOVE (HAS(VERTICAL) | HAS(ACROSS) | HAS(AWAY) | SHINES)

typedef struct form {
    const char *word;
    lw_place_shape shape;
    unsigned needs, may;
    bool once;
} form;

/* In the order in which they are named to who has none of them right. */
static const form forms[] = {
    {"bright", LW_SHAPE_BRIGHT, HAS(LIGHT), 0, true},
    {"eye", LW_SHAPE_EYE, HAS(UP_DEG), 0, true},
    {"eye", LW_SHAPE_EYE, HAS(VERTICAL), 0, true},
    {"head", LW_SHAPE_HEAD, HAS(ACROSS_DEG) | SHINES, 0, true},
    {"head", LW_SHAPE_HEAD, HAS(ACROSS) | HAS(AWAY) | SHINES, 0, true},
    {"head", LW_SHAPE_HEAD, HAS(NONE), 0, true},
    {"room", LW_SHAPE_ROOM, SHINES, 0, false},
    {"sky", LW_SHAPE_SKY, SHINES, HAS(FROM_DEG), false},
    {"sky", LW_SHAPE_SKY, HAS(LIGHT_HIGH) | HAS(LIGHT_LEVEL) | HAS(GLOW), HAS(FROM_DEG), false},
    {"ceiling", LW_SHAPE_SKY, SHINES, HAS(FROM_DEG), false},
    {"floor", LW_SHAPE_FLOOR, SHINES, HAS(FROM_DEG), false},
    {"bench", LW_SHAPE_FLOOR, SHINES, HAS(FROM_DEG), false},
    {"window", LW_SHAPE_WALL, WALL, HAS(ASIDE), false},
    {"window", LW_SHAPE_LEVEL, LEVEL, HAS(ASIDE) | HAS(FORTH), false},
    {"window", LW_SHAPE_FACING, ANGLES, 0, false},
    {"bar", LW_SHAPE_WALL, WALL, HAS(ASIDE), false},
    {"panel", LW_SHAPE_WALL, WALL, HAS(ASIDE), false},
    {"panel", LW_SHAPE_LEVEL, LEVEL, HAS(ASIDE) | HAS(FORTH), false},
    {"panel", LW_SHAPE_FACING, FACING, 0, false},
    {"panel", LW_SHAPE_FACING, ANGLES, 0, false},
    {"card", LW_SHAPE_FACING, FACING, 0, false},
    {"card", LW_SHAPE_FACING, ANGLES, 0, false},
    {"candle", LW_SHAPE_FACING, FACING, 0, false},
    {"lamp", LW_SHAPE_DISC, DISC, 0, false},
    {"lamp", LW_SHAPE_DISC, DISC_DEG, 0, false},
    {"lamp", LW_SHAPE_DISC, DISC_ABOVE, 0, false},
    {"lamp", LW_SHAPE_DISC, DISC_ABOVE_DEG, 0, false},
    {"sun", LW_SHAPE_DISC, DISC_DEG, 0, false},
    {"row", LW_SHAPE_ROW, HAS(SIDE) | HAS(UP) | HAS(OUT) | HAS(APART) | HAS(ACROSS) | SHINES,
     HAS(ASIDE), false},
    {"ring", LW_SHAPE_RING, HAS(UP) | HAS(OUT) | HAS(ACROSS) | SHINES, HAS(SIDE), false},
};
enum { FORM_COUNT = sizeof forms / sizeof forms[0] };

static int bits_in(unsigned bits)
{
    int count = 0;
    for (; bits != 0; bits &= bits - 1)
        count++;
    return count;
}

/* The form of that word which the line is nearest to: what it has too much weighs more than what it
 * lacks. NULL when no line begins so. */
static const form *nearest_form(const lw_place_line *line)
{
    const form *best = NULL;
    int best_misses = 0;
    for (int i = 0; i < FORM_COUNT; i++) {
        const form *f = &forms[i];
        if (!lw_place_is(line->kind, f->word))
            continue;
        int misses = bits_in(f->needs & ~line->has) + 2 * bits_in(line->has & ~(f->needs | f->may));
        if (best == NULL || misses < best_misses) {
            best = f;
            best_misses = misses;
        }
    }
    return best;
}

static lw_place_clause first_of(unsigned bits)
{
    int i = 0;
    while ((bits & (1u << i)) == 0)
        i++;
    return (lw_place_clause)i;
}

/* "a, b and c": what a form needs. */
static void list_needs(const form *f, char text[LW_PROBLEM_TEXT])
{
    int used =
        snprintf(text, LW_PROBLEM_TEXT, "%s %s with", f->word[0] == 'e' ? "an" : "a", f->word);
    for (unsigned left = f->needs; left != 0; left &= left - 1) {
        const char *joint = left == f->needs ? "" : (left & (left - 1)) == 0 ? " and" : ",";
        used += snprintf(text + used, (size_t)(LW_PROBLEM_TEXT - used), "%s %s", joint,
                         lw_place_clause_text(first_of(left)));
        if (used >= LW_PROBLEM_TEXT)
            return;
    }
}

static lw_status check_form(lw_place_reader *r, const form *f, const lw_place_line *line)
{
    unsigned excess = line->has & ~(f->needs | f->may);
    unsigned missing = f->needs & ~line->has;
    char list[LW_PROBLEM_TEXT], expected[LW_PROBLEM_TEXT];
    if (excess == 0 && missing == 0)
        return LW_OK;
    list_needs(f, list);
    if (excess != 0)
        return lw_place_fail_clause(r, line->at[first_of(excess)], list, "");
    snprintf(expected, sizeof expected, "%s too", lw_place_clause_text(first_of(missing)));
    return lw_place_fail(r, &r->tokens[r->count], expected, list);
}

static lw_status unknown_word(lw_place_reader *r, const lw_place_token *token)
{
    const char *words[FORM_COUNT + 3] = {"title", "note", "tilting"};
    char hint[LW_PROBLEM_TEXT];
    int count = 3;
    for (int i = 0; i < FORM_COUNT; i++)
        words[count++] = forms[i].word;
    lw_place_hint(token, words, count, hint);
    return lw_place_fail(r, token,
                         "a line that begins with title, note, bright, eye, head, tilting, room, "
                         "sky, ceiling, floor, bench, window, bar, panel, card, candle, lamp, sun, "
                         "row or ring",
                         hint);
}

lw_status lw_place_read_form(lw_place_reader *r)
{
    lw_place_line line = {.kind = lw_place_next(r)};
    const form *f = nearest_form(&line);
    if (f == NULL)
        return unknown_word(r, line.kind);
    unsigned bit = 1u << f->shape;
    if (f->once && (r->seen & bit) != 0) {
        char expected[LW_PROBLEM_TEXT];
        snprintf(expected, sizeof expected, "only one line '%s'", f->word);
        return lw_place_fail(r, line.kind, expected, "");
    }
    r->seen |= bit;
    r->at++;
    lw_status status = lw_place_clauses(r, &line);
    if (status != LW_OK)
        return status;
    f = nearest_form(&line);
    status = check_form(r, f, &line);
    return status == LW_OK ? lw_place_add(r, f->shape, &line) : status;
}
