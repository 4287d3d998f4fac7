#include "light/place_parts.h"

#include "geom/angle.h"

#include <stdio.h>
#include <string.h>

/* ---- what each clause is ------------------------------------------------ */

typedef struct bounds {
    const char *text; /* as it reads */
    double lowest, highest;
    const char *expected;
} bounds;

#define ELEVATION "an angle from 0 to 90 deg"
#define OPENING "an angle from 0.01 to 170 deg"
#define LENGTH "a length from 1 mm to 10 km"
#define OFFSET "a length up to 10 km"
#define LUMINANCE "a luminance from 0 to 1e10 cd/m2"

static const bounds clauses[LW_CLAUSE_COUNT] = {
    [LW_CLAUSE_SIDE] = {"a side, such as 'ahead'", 0.0, 90.0, ELEVATION},
    [LW_CLAUSE_VERTICAL] = {"'overhead'", 0.0, 0.0, ""},
    [LW_CLAUSE_UP_DEG] = {"'… deg up'", 0.0, 90.0, ELEVATION},
    [LW_CLAUSE_FROM_DEG] = {"'from … deg up'", 0.0, 89.0, "an angle from 0 to 89 deg"},
    [LW_CLAUSE_ACROSS_DEG] = {"'… deg across'", 0.01, 180.0, "an angle from 0.01 to 180 deg"},
    [LW_CLAUSE_WIDE_DEG] = {"'… deg wide'", 0.01, 170.0, OPENING},
    [LW_CLAUSE_TALL_DEG] = {"'… deg tall'", 0.01, 170.0, OPENING},
    [LW_CLAUSE_UP] = {"'… cm up'", 0.0, 1e4, OFFSET},
    [LW_CLAUSE_SILL] = {"'sill … cm up'", 0.0, 1e4, OFFSET},
    [LW_CLAUSE_ACROSS] = {"'… cm across'", 1e-3, 1e4, LENGTH},
    [LW_CLAUSE_WIDE] = {"'… cm wide'", 1e-3, 1e4, LENGTH},
    [LW_CLAUSE_TALL] = {"'… cm tall'", 1e-3, 1e4, LENGTH},
    [LW_CLAUSE_LONG] = {"'… cm long'", 1e-3, 1e4, LENGTH},
    [LW_CLAUSE_AWAY] = {"'… cm away'", 1e-3, 1e4, LENGTH},
    [LW_CLAUSE_OUT] = {"'… cm out'", 1e-3, 1e4, LENGTH},
    [LW_CLAUSE_APART] = {"'… cm apart'", 1e-3, 1e4, LENGTH},
    [LW_CLAUSE_ASIDE] = {"'… cm right'", 0.0, 1e4, OFFSET},
    [LW_CLAUSE_FORTH] = {"'… cm ahead'", 0.0, 1e4, OFFSET},
    [LW_CLAUSE_LIGHT] = {"'… cd/m2'", 0.0, 1e10, LUMINANCE},
    [LW_CLAUSE_LIGHT_HIGH] = {"'overhead … cd/m2'", 0.0, 1e10, LUMINANCE},
    [LW_CLAUSE_LIGHT_LEVEL] = {"'level … cd/m2'", 0.0, 1e10, LUMINANCE},
    [LW_CLAUSE_GLOW] = {"'daylight', 'even' or '… K'", 1000.0, 40000.0,
                        "a colour temperature from 1000 to 40000 K"},
    [LW_CLAUSE_NONE] = {"'none'", 0.0, 0.0, ""},
};

const char *lw_place_clause_text(lw_place_clause clause)
{
    return clauses[clause].text;
}

static lw_status put(lw_place_reader *r, lw_place_line *line, lw_place_clause clause,
                     const lw_place_token *at, double value)
{
    if ((line->has & (1u << clause)) != 0) {
        char expected[LW_PROBLEM_TEXT];
        snprintf(expected, sizeof expected, "only one of %s", clauses[clause].text);
        return lw_place_fail_clause(r, at, expected, "");
    }
    line->has |= 1u << clause;
    line->value[clause] = value;
    line->at[clause] = at;
    return LW_OK;
}

/* size: before its sign. */
static lw_status check_range(lw_place_reader *r, lw_place_clause clause, double size,
                             const lw_place_token *at)
{
    if (size >= clauses[clause].lowest && size <= clauses[clause].highest)
        return LW_OK;
    return lw_place_fail_range(r, at, clauses[clause].expected);
}

/* ---- numbers with their units ------------------------------------------- */

typedef enum unit_kind { UNIT_NONE, UNIT_ANGLE, UNIT_LENGTH, UNIT_LIGHT, UNIT_KELVIN } unit_kind;

static const struct {
    const char *word;
    unit_kind kind;
    double factor; /* to degrees, metres, cd/m2, K */
} units[] = {
    {"deg", UNIT_ANGLE, 1.0}, {"mm", UNIT_LENGTH, 1e-3},         {"cm", UNIT_LENGTH, 1e-2},
    {"m", UNIT_LENGTH, 1.0},  {"km", UNIT_LENGTH, 1e3},          {"cd/m2", UNIT_LIGHT, 1.0},
    {"K", UNIT_KELVIN, 1.0},  {"cd/m\xC2\xB2", UNIT_LIGHT, 1.0},
};

/* A number and its unit; want: UNIT_NONE for any. */
static lw_status read_amount(lw_place_reader *r, unit_kind want, const char *expected,
                             unit_kind *kind, double *amount)
{
    const lw_place_token *number = lw_place_next(r);
    if (number->kind != LW_PLACE_NUMBER)
        return lw_place_fail(r, number, expected, "");
    r->at++;
    const lw_place_token *unit = lw_place_next(r);
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        bool fits = want == UNIT_NONE || want == units[i].kind;
        if (fits && lw_place_is(unit, units[i].word)) {
            r->at++;
            *kind = units[i].kind;
            *amount = number->value * units[i].factor;
            return LW_OK;
        }
    }
    const char *hint = lw_place_is(unit, "k") ? "kelvin are written K" : "";
    return lw_place_fail(r, unit,
                         want == UNIT_ANGLE    ? "deg behind the number"
                         : want == UNIT_LENGTH ? "mm, cm, m or km behind the number"
                         : want == UNIT_LIGHT  ? "cd/m2 behind the number"
                                               : "a unit behind the number: deg, mm, cm, m, km, "
                                                 "cd/m2 or K",
                         hint);
}

/* What a number with a unit may be: by the word behind it. */
static const struct {
    unit_kind kind;
    const char *word;
    lw_place_clause clause;
    double sign;
} meanings[] = {
    {UNIT_ANGLE, "up", LW_CLAUSE_UP_DEG, 1.0},
    {UNIT_ANGLE, "down", LW_CLAUSE_UP_DEG, -1.0},
    {UNIT_ANGLE, "across", LW_CLAUSE_ACROSS_DEG, 1.0},
    {UNIT_ANGLE, "wide", LW_CLAUSE_WIDE_DEG, 1.0},
    {UNIT_ANGLE, "tall", LW_CLAUSE_TALL_DEG, 1.0},
    {UNIT_LENGTH, "up", LW_CLAUSE_UP, 1.0},
    {UNIT_LENGTH, "down", LW_CLAUSE_UP, -1.0},
    {UNIT_LENGTH, "across", LW_CLAUSE_ACROSS, 1.0},
    {UNIT_LENGTH, "wide", LW_CLAUSE_WIDE, 1.0},
    {UNIT_LENGTH, "tall", LW_CLAUSE_TALL, 1.0},
    {UNIT_LENGTH, "long", LW_CLAUSE_LONG, 1.0},
    {UNIT_LENGTH, "away", LW_CLAUSE_AWAY, 1.0},
    {UNIT_LENGTH, "out", LW_CLAUSE_OUT, 1.0},
    {UNIT_LENGTH, "apart", LW_CLAUSE_APART, 1.0},
    {UNIT_LENGTH, "right", LW_CLAUSE_ASIDE, 1.0},
    {UNIT_LENGTH, "left", LW_CLAUSE_ASIDE, -1.0},
    {UNIT_LENGTH, "ahead", LW_CLAUSE_FORTH, 1.0},
    {UNIT_LENGTH, "behind", LW_CLAUSE_FORTH, -1.0},
};
enum { MEANING_COUNT = sizeof meanings / sizeof meanings[0] };

static lw_status unknown_meaning(lw_place_reader *r, unit_kind kind)
{
    const char *words[MEANING_COUNT];
    char hint[LW_PROBLEM_TEXT];
    int count = 0;
    for (int i = 0; i < MEANING_COUNT; i++) {
        if (meanings[i].kind == kind)
            words[count++] = meanings[i].word;
    }
    lw_place_hint(lw_place_next(r), words, count, hint);
    return lw_place_fail(r, lw_place_next(r),
                         kind == UNIT_ANGLE ? "up, down, across, wide or tall behind an angle"
                                            : "up, down, across, wide, tall, long, away, out, "
                                              "apart, left, right, ahead or behind, after a length",
                         hint);
}

/* 80 cm wide; 3000 cd/m2; 2700 K */
static lw_status read_number_clause(lw_place_reader *r, lw_place_line *line)
{
    const lw_place_token *at = lw_place_next(r);
    unit_kind kind = UNIT_NONE;
    double amount = 0.0, sign = 1.0;
    lw_place_clause clause = LW_CLAUSE_COUNT;
    lw_status status = read_amount(r, UNIT_NONE, "a number", &kind, &amount);
    if (status != LW_OK)
        return status;
    if (kind == UNIT_LIGHT || kind == UNIT_KELVIN)
        clause = kind == UNIT_LIGHT ? LW_CLAUSE_LIGHT : LW_CLAUSE_GLOW;
    for (int i = 0; i < MEANING_COUNT && clause == LW_CLAUSE_COUNT; i++) {
        if (meanings[i].kind == kind && lw_place_is(lw_place_next(r), meanings[i].word)) {
            r->at++;
            clause = meanings[i].clause;
            sign = meanings[i].sign;
        }
    }
    if (clause == LW_CLAUSE_COUNT)
        return unknown_meaning(r, kind);
    status = check_range(r, clause, amount, at);
    return status == LW_OK ? put(r, line, clause, at, sign * amount) : status;
}

/* ---- words -------------------------------------------------------------- */

/* Clockwise from ahead, in quarters. */
static const char *const sides[] = {"ahead", "right", "behind", "left"};

/* Takes a side; false when none stands there. */
static bool take_side(lw_place_reader *r, int *quarter)
{
    for (int i = 0; i < 4; i++) {
        if (lw_place_is(lw_place_next(r), sides[i])) {
            r->at++;
            *quarter = i;
            return true;
        }
    }
    return false;
}

/* ahead; left 20 deg ahead: from the left that far toward ahead */
static lw_status read_side(lw_place_reader *r, lw_place_line *line, int quarter)
{
    const lw_place_token *at = lw_place_next(r) - 1;
    double turn = 0.0;
    if (lw_place_next(r)->kind == LW_PLACE_NUMBER) {
        const lw_place_token *number = lw_place_next(r);
        unit_kind kind;
        int toward = 0;
        if (number[1].kind == LW_PLACE_WORD && !lw_place_is(&number[1], "deg"))
            return lw_place_fail(r, &number[1], "deg behind the number",
                                 "clauses are parted by commas");
        lw_status status = read_amount(r, UNIT_ANGLE, "an angle", &kind, &turn);
        if (status == LW_OK)
            status = check_range(r, LW_CLAUSE_SIDE, turn, number);
        if (status != LW_OK)
            return status;
        const lw_place_token *word = lw_place_next(r);
        bool beside = take_side(r, &toward) && (toward - quarter) % 2 != 0;
        if (!beside)
            return lw_place_fail(r, word,
                                 quarter % 2 == 0 ? "'left' or 'right': to which side of that"
                                                  : "'ahead' or 'behind': to which side of that",
                                 "");
        turn = (toward - quarter + 4) % 4 == 1 ? turn : -turn;
    }
    return put(r, line, LW_CLAUSE_SIDE, at, 90.0 * quarter + turn);
}

/* overhead 6000 cd/m2; level 2000 cd/m2 */
static lw_status read_gradient(lw_place_reader *r, lw_place_line *line, lw_place_clause clause)
{
    const lw_place_token *at = lw_place_next(r) - 1;
    unit_kind kind;
    double amount = 0.0;
    lw_status status = read_amount(r, UNIT_LIGHT, "a number of cd/m2", &kind, &amount);
    if (status == LW_OK)
        status = check_range(r, clause, amount, at + 1);
    return status == LW_OK ? put(r, line, clause, at, amount) : status;
}

/* from 10 deg up; sill 20 cm down */
static lw_status read_edge(lw_place_reader *r, lw_place_line *line, lw_place_clause clause)
{
    const lw_place_token *at = lw_place_next(r) - 1;
    bool angle = clause == LW_CLAUSE_FROM_DEG;
    unit_kind kind;
    double amount = 0.0;
    lw_status status = read_amount(r, angle ? UNIT_ANGLE : UNIT_LENGTH,
                                   angle ? "an angle" : "a length", &kind, &amount);
    if (status == LW_OK)
        status = check_range(r, clause, amount, at + 1);
    if (status != LW_OK)
        return status;
    bool up = lw_place_is(lw_place_next(r), "up"), down = lw_place_is(lw_place_next(r), "down");
    if (!up && !down)
        return lw_place_fail(r, lw_place_next(r), "'up' or 'down'", "");
    r->at++;
    return put(r, line, clause, at, up ? amount : -amount);
}

static const char *const clause_words[] = {"ahead",    "right",    "behind", "left",
                                           "overhead", "beneath",  "from",   "sill",
                                           "level",    "daylight", "even",   "none"};

static lw_status read_word_clause(lw_place_reader *r, lw_place_line *line)
{
    const lw_place_token *at = lw_place_next(r);
    int quarter = 0;
    if (take_side(r, &quarter))
        return read_side(r, line, quarter);
    char hint[LW_PROBLEM_TEXT];
    r->at++;
    if (lw_place_is(at, "overhead") && lw_place_next(r)->kind == LW_PLACE_NUMBER)
        return read_gradient(r, line, LW_CLAUSE_LIGHT_HIGH);
    if (lw_place_is(at, "level"))
        return read_gradient(r, line, LW_CLAUSE_LIGHT_LEVEL);
    if (lw_place_is(at, "overhead") || lw_place_is(at, "beneath"))
        return put(r, line, LW_CLAUSE_VERTICAL, at, lw_place_is(at, "overhead") ? 1.0 : -1.0);
    if (lw_place_is(at, "from"))
        return read_edge(r, line, LW_CLAUSE_FROM_DEG);
    if (lw_place_is(at, "sill"))
        return read_edge(r, line, LW_CLAUSE_SILL);
    if (lw_place_is(at, "daylight"))
        return put(r, line, LW_CLAUSE_GLOW, at, LW_GLOW_IS_DAYLIGHT);
    if (lw_place_is(at, "even"))
        return put(r, line, LW_CLAUSE_GLOW, at, LW_GLOW_IS_EVEN);
    if (lw_place_is(at, "none"))
        return put(r, line, LW_CLAUSE_NONE, at, 0.0);
    r->at--;
    lw_place_hint(at, clause_words, sizeof clause_words / sizeof clause_words[0], hint);
    return lw_place_fail(r, at,
                         "a number with its unit, or a word that says where it stands or what "
                         "light it gives",
                         hint);
}

/* ---- the line ----------------------------------------------------------- */

/* of 6 lamps */
static lw_status read_lamps(lw_place_reader *r, lw_place_line *line)
{
    if (!lw_place_is(lw_place_next(r), "of"))
        return lw_place_fail(r, lw_place_next(r), "'of … lamps'", "for example: of 6 lamps");
    r->at++;
    const lw_place_token *number = lw_place_next(r);
    double count = number->value;
    bool whole = number->kind == LW_PLACE_NUMBER && count >= 2.0 &&
                 count <= LW_LIGHT_MOST_PATCHES && count == (double)(int)count;
    if (!whole)
        return lw_place_fail(r, number, "a whole number of lamps from 2 to 32", "");
    r->at++;
    if (!lw_place_is(lw_place_next(r), "lamps"))
        return lw_place_fail(r, lw_place_next(r), "'lamps'", "");
    r->at++;
    line->lamps = (int)count;
    return LW_OK;
}

lw_status lw_place_clauses(lw_place_reader *r, lw_place_line *line)
{
    lw_status status = LW_OK;
    if (lw_place_is(line->kind, "row") || lw_place_is(line->kind, "ring"))
        status = read_lamps(r, line);
    if (status == LW_OK && lw_place_next(r)->kind == LW_PLACE_COMMA)
        r->at++; /* may stand behind the first word too */
    while (status == LW_OK) {
        const lw_place_token *token = lw_place_next(r);
        if (token->kind == LW_PLACE_NUMBER)
            status = read_number_clause(r, line);
        else if (token->kind == LW_PLACE_WORD)
            status = read_word_clause(r, line);
        else
            status = lw_place_fail(r, token, "a clause such as '80 cm wide' or 'daylight'", "");
        if (status != LW_OK || lw_place_next(r)->kind == LW_PLACE_END)
            break;
        if (lw_place_next(r)->kind != LW_PLACE_COMMA)
            status = lw_place_fail(r, lw_place_next(r), "a comma, or the end of the line", "");
        else
            r->at++;
    }
    return status;
}
