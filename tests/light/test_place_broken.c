/* Broken places: each must give exactly its message, and leave the place untouched. The messages
 * are ours, read one by one before they were kept. */
#include "light/near.h"

#include "light/place.h"

#include <locale.h>
#include <stdlib.h>
#include <string.h>

static const char *const broken[][2] = {
    {"windw ahead", "1:1: found 'windw'; expected a line that begins with title, note, bright, "
                    "eye, head, tilting, room, sky, ceiling, floor, bench, window, bar, panel, "
                    "card, candle, lamp, sun, row or ring (did you mean 'window'?)"},
    {"Window ahead, 20 cm wide",
     "1:1: found 'Window'; expected a line that begins with title, note, bright, eye, head, "
     "tilting, room, sky, ceiling, floor, bench, window, bar, panel, card, candle, lamp, sun, row "
     "or ring (did you mean 'window'?)"},
    {"20 cm wide",
     "1:1: found '20'; expected a line that begins with title, note, bright, eye, head, tilting, "
     "room, sky, ceiling, floor, bench, window, bar, panel, card, candle, lamp, sun, row or ring"},
    {"\"Bench\"", "1:1: found \"Bench\"; expected a line that begins with title, note, bright, "
                  "eye, head, tilting, room, sky, ceiling, floor, bench, window, bar, panel, card, "
                  "candle, lamp, sun, row or ring"},
    {", ahead",
     "1:1: found ','; expected a line that begins with title, note, bright, eye, head, tilting, "
     "room, sky, ceiling, floor, bench, window, bar, panel, card, candle, lamp, sun, row or ring"},
    {"title Bench", "1:7: found 'Bench'; expected words in quotes"},
    {"title \"\"", "1:7: found \"\"; expected a title of 1 to 63 bytes"},
    {"title \"A title that goes on and on until it is longer than anyone could want it\"",
     "1:7: found a quoted text; expected a title of 1 to 63 bytes"},
    {"title \"Bench\" today", "1:15: found 'today'; expected the end of the line"},
    {"title \"Bench", "1:7: found a quoted text without an end; expected a closing \" on the same "
                      "line (inside the text use ' for a quote)"},
    {"title \"a\"\ntitle \"b\"", "2:1: found 'title'; expected only one line 'title'"},
    {"note Bench", "1:6: found 'Bench'; expected words in quotes"},
    {"tilting", "1:8: found the end of the line; expected 'the stone' or 'the eye'"},
    {"tilting stone", "1:9: found 'stone'; expected 'the stone' or 'the eye'"},
    {"tilting the sky", "1:13: found 'sky'; expected 'the stone' or 'the eye'"},
    {"tilting the eye today", "1:17: found 'today'; expected the end of the line"},
    {"bright 3000", "1:12: found the end of the line; expected a unit behind the number: deg, mm, "
                    "cm, m, km, cd/m2 or K"},
    {"bright 3000 cd",
     "1:13: found 'cd'; expected a unit behind the number: deg, mm, cm, m, km, cd/m2 or K"},
    {"bright 3000 deg",
     "1:16: found the end of the line; expected up, down, across, wide or tall behind an angle"},
    {"bright 3000 lux",
     "1:13: found 'lux'; expected a unit behind the number: deg, mm, cm, m, km, cd/m2 or K"},
    {"bright 0 cd/m2", "1:8: found '0 cd/m2'; expected a luminance of at least 0.001 cd/m2"},
    {"bright 2e10 cd/m2", "1:8: found '2e10 cd/m2'; expected a luminance from 0 to 1e10 cd/m2"},
    {"bright 1e400 cd/m2", "1:8: found a number that is too long or too large; expected a number "
                           "of at most 64 digits and below 1e308"},
    {"bright 3 cd/m2\nbright 4 cd/m2", "2:1: found 'bright'; expected only one line 'bright'"},
    {"bright",
     "1:7: found the end of the line; expected a clause such as '80 cm wide' or 'daylight'"},
    {"eye 20 deg down", "1:5: found '20 deg down'; expected an eye that is not below the stone"},
    {"eye 95 deg up", "1:5: found '95 deg'; expected an angle from 0 to 90 deg"},
    {"eye 50 cm up", "1:5: found '50 cm up'; expected an eye with '… deg up'"},
    {"eye beneath", "1:5: found 'beneath'; expected an eye that is not below the stone"},
    {"eye ahead", "1:5: found 'ahead'; expected an eye with '… deg up'"},
    {"eye 50 deg up, 40 deg up", "1:16: found '40 deg up'; expected only one of '… deg up'"},
    {"head 20 deg across", "1:19: found the end of the line; expected '… cd/m2' too (a head with "
                           "'… deg across', '… cd/m2' and 'daylight', 'even' or '… K')"},
    {"head none, 20 deg across", "1:12: found '20 deg across'; expected a head with 'none'"},
    {"head 190 deg across, 1 cd/m2, even",
     "1:6: found '190 deg'; expected an angle from 0.01 to 180 deg"},
    {"head 20 deg across, 60 cd/m2, daylight, 3000 K",
     "1:41: found '3000 K'; expected only one of 'daylight', 'even' or '… K'"},
    {"sky -5 cd/m2, daylight",
     "1:5: found '-'; expected a word, a number, a quoted text or a comma (what lies the other way "
     "is told in words: down, left, behind)"},
    {"sky 5 cd/m2", "1:12: found the end of the line; expected 'daylight', 'even' or '… K' too (a "
                    "sky with '… cd/m2' and 'daylight', 'even' or '… K')"},
    {"sky overhead 5 cd/m2, daylight",
     "1:31: found the end of the line; expected 'level … cd/m2' too (a sky with 'overhead … "
     "cd/m2', 'level … cd/m2' and 'daylight', 'even' or '… K')"},
    {"sky overhead 5 cd/m2, level 3 K, daylight",
     "1:31: found 'K'; expected cd/m2 behind the number"},
    {"sky overhead 5 cd/m2, level daylight", "1:29: found 'daylight'; expected a number of cd/m2"},
    {"sky 5 cd/m2, dayligt",
     "1:14: found 'dayligt'; expected a number with its unit, or a word that says where it stands "
     "or what light it gives (did you mean 'daylight'?)"},
    {"sky 5 cd/m2, 300 K",
     "1:14: found '300 K'; expected a colour temperature from 1000 to 40000 K"},
    {"sky 5 cd/m2, 3000 k", "1:19: found 'k'; expected a unit behind the number: deg, mm, cm, m, "
                            "km, cd/m2 or K (kelvin are written K)"},
    {"sky 5 cd/m2, daylight, from 10 deg",
     "1:35: found the end of the line; expected 'up' or 'down'"},
    {"sky 5 cd/m2, daylight, from 10 cm up", "1:32: found 'cm'; expected deg behind the number"},
    {"sky 5 cd/m2, daylight, from 95 deg up",
     "1:29: found '95 deg'; expected an angle from 0 to 89 deg"},
    {"sky 5 cd/m2, daylight; from 5 deg up",
     "1:22: found ';'; expected a word, a number, a quoted text or a comma"},
    {"room 5 cd/m2, 3000 K, 2 m away",
     "1:23: found '2 m away'; expected a room with '… cd/m2' and 'daylight', 'even' or '… K'"},
    {"room overhead 8 cd/m2, level 3 cd/m2, 3000 K",
     "1:6: found 'overhead 8 cd/m2'; expected a room with '… cd/m2' and 'daylight', 'even' or '… "
     "K'"},
    {"window ahead, 80 cm wide",
     "1:25: found the end of the line; expected 'sill … cm up' too (a window with a side, such as "
     "'ahead', 'sill … cm up', '… cm wide', '… cm tall', '… cm away', '… cd/m2' and 'daylight', "
     "'even' or '… K')"},
    {"window ahead 80 cm wide",
     "1:17: found 'cm'; expected deg behind the number (clauses are parted by commas)"},
    {"window ahead 30 deg behind, 5 cm wide",
     "1:21: found 'behind'; expected 'left' or 'right': to which side of that"},
    {"window left 30 deg right",
     "1:20: found 'right'; expected 'ahead' or 'behind': to which side of that"},
    {"window left 30 cm ahead",
     "1:16: found 'cm'; expected deg behind the number (clauses are parted by commas)"},
    {"window left 95 deg ahead", "1:13: found '95 deg'; expected an angle from 0 to 90 deg"},
    {"window ahead, 20,5 cm wide", "1:17: found ','; expected a unit behind the number: deg, mm, "
                                   "cm, m, km, cd/m2 or K (the decimal sign is a point)"},
    {"window ahead, 80 cm broad",
     "1:21: found 'broad'; expected up, down, across, wide, tall, long, away, out, apart, left, "
     "right, ahead or behind, after a length"},
    {"window ahead, 80 cm",
     "1:20: found the end of the line; expected up, down, across, wide, tall, long, away, out, "
     "apart, left, right, ahead or behind, after a length"},
    {"window ahead, 80 deg wid", "1:22: found 'wid'; expected up, down, across, wide or tall "
                                 "behind an angle (did you mean 'wide'?)"},
    {"window ahead, 80 deg",
     "1:21: found the end of the line; expected up, down, across, wide or tall behind an angle"},
    {"window ahead, 0 cm wide", "1:15: found '0 cm'; expected a length from 1 mm to 10 km"},
    {"window ahead, 20 km wide", "1:15: found '20 km'; expected a length from 1 mm to 10 km"},
    {"window ahead, 175 deg wide", "1:15: found '175 deg'; expected an angle from 0.01 to 170 deg"},
    {"window ahead, 80 cm wide, 90 cm wide",
     "1:27: found '90 cm wide'; expected only one of '… cm wide'"},
    {"window ahead, 80 cm wide, 1 m tall, 90 cm away, sill 5 cm, 9 cd/m2, even",
     "1:58: found ','; expected 'up' or 'down'"},
    {"window ahead, 80 cm wide, 1 m tall, 90 cm away, sill up, 9 cd/m2, even",
     "1:54: found 'up'; expected a length"},
    {"window ahead, 80 cm wide, 1 m tall, 90 cm away, 30 deg up, 9 cd/m2, even",
     "1:49: found '30 deg up'; expected a window with a side, such as 'ahead', 'sill … cm up', '… "
     "cm wide', '… cm tall', '… cm away', '… cd/m2' and 'daylight', 'even' or '… K'"},
    {"window ahead,, 80 cm wide",
     "1:14: found ','; expected a clause such as '80 cm wide' or 'daylight'"},
    {"window ahead, 80 cm wide,",
     "1:26: found the end of the line; expected a clause such as '80 cm wide' or 'daylight'"},
    {"panel overhead, 60 cm wide, 120 cm tall, 2 m away, 8 cd/m2, even",
     "1:29: found '120 cm tall'; expected a panel with 'overhead', '… cm wide', '… cm long', '… cm "
     "away', '… cd/m2' and 'daylight', 'even' or '… K'"},
    {"lamp left, 5 deg up, 5 cm across, 30 cd/m2, even",
     "1:49: found the end of the line; expected '… cm away' too (a lamp with a side, such as "
     "'ahead', '… deg up', '… cm across', '… cm away', '… cd/m2' and 'daylight', 'even' or '… K')"},
    {"lamp overhead 3000 cd/m2, 3 deg across, even",
     "1:6: found 'overhead 3000 cd/m2'; expected a lamp with 'overhead', '… deg across', '… cd/m2' "
     "and 'daylight', 'even' or '… K'"},
    {"sun ahead, 30 deg up, 8 cm across, 8 m away, 4 cd/m2, even",
     "1:23: found '8 cm across'; expected a sun with a side, such as 'ahead', '… deg up', '… deg "
     "across', '… cd/m2' and 'daylight', 'even' or '… K'"},
    {"candle ahead, 5 deg up, 3 cm across, 40 cm away, 40 cd/m2, 1900 K",
     "1:25: found '3 cm across'; expected a candle with a side, such as 'ahead', '… deg up', '… cm "
     "wide', '… cm tall', '… cm away', '… cd/m2' and 'daylight', 'even' or '… K'"},
    {"row 6 lamps, ahead", "1:5: found '6'; expected 'of … lamps' (for example: of 6 lamps)"},
    {"row of lamps", "1:8: found 'lamps'; expected a whole number of lamps from 2 to 32"},
    {"row of 1 lamps, ahead", "1:8: found '1'; expected a whole number of lamps from 2 to 32"},
    {"row of 2.5 lamps, ahead", "1:8: found '2.5'; expected a whole number of lamps from 2 to 32"},
    {"row of 33 lamps, ahead", "1:8: found '33'; expected a whole number of lamps from 2 to 32"},
    {"row of 6 candles, ahead", "1:10: found 'candles'; expected 'lamps'"},
    {"row of 6 lamps, ahead, 2 m up, 5 cm across, 90 cd/m2, even",
     "1:59: found the end of the line; expected '… cm out' too (a row with a side, such as "
     "'ahead', '… cm up', '… cm across', '… cm out', '… cm apart', '… cd/m2' and 'daylight', "
     "'even' or '… K')"},
    {"ring of 32 lamps, 2 m up, 1 m out, 5 cm across, 9 cd/m2, even\nroom 4 cd/m2, even",
     "2:1: found more lights than a place can have; expected at most 32 skies, floors, windows and "
     "lamps (each lamp of a row or ring counts)"},
    {"“Bench”",
     "1:1: found '“'; expected a word, a number, a quoted text or a comma (quotes are plain: \")"},
    {"sky 5 cd/m2, daylight, . up", "1:24: found '.'; expected a word or a number"},
    {"sky 5 cd/m2, daylight, averyveryverylongwordthatgoesonandonandonandon",
     "1:24: found a very long word; expected a number with its unit, or a word that says where it "
     "stands or what light it gives"},
};
enum { COUNT = sizeof broken / sizeof broken[0] };

/* The reader gets no NUL behind the text. */
static lw_status read_untouched(const char *text, size_t length, lw_problem *problem)
{
    lw_light_place place, before;
    char *exact = malloc(length > 0 ? length : 1);
    memcpy(exact, text, length);
    memset(&place, 0xA5, sizeof place);
    memcpy(&before, &place, sizeof place);
    lw_status status = lw_light_place_read(exact, length, &place, problem);
    assert_memory_equal(&place, &before, sizeof place);
    free(exact);
    return status;
}

static void check_message(const char *text, size_t length, lw_status expected_status,
                          const char *expected)
{
    lw_problem problem = {0};
    char message[4 * LW_PROBLEM_TEXT];
    lw_status status = read_untouched(text, length, &problem);
    lw_problem_write(&problem, message, sizeof message);
    if (strcmp(message, expected) != 0)
        fail_msg("%s\n  gives:    %s\n  expected: %s", text, message, expected);
    assert_int_equal(status, problem.status);
    assert_int_equal(status, expected_status);
    assert_int_equal(read_untouched(text, length, NULL), status);
}

static void test_messages(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT; i++) {
        bool many = strstr(broken[i][1], "more lights") != NULL;
        check_message(broken[i][0], strlen(broken[i][0]), many ? LW_TOO_LARGE : LW_BAD_INPUT,
                      broken[i][1]);
    }
}

/* The same words where the decimal sign is a comma. */
static void test_messages_with_decimal_commas(void **state)
{
    if (setlocale(LC_ALL, "de_DE.UTF-8") == NULL)
        skip();
    assert_string_equal(localeconv()->decimal_point, ",");
    test_messages(state);
    setlocale(LC_ALL, "C");
}

/* What only the end of the text tells, and what is no text. */
static void test_whole_texts(void **state)
{
    (void)state;
    static const char whole[] = "title \"T\"\nbright 5 cd/m2\neye 90 deg up\nhead none\n"
                                "tilting the eye\nsky 5 cd/m2, daylight\n";
    static const struct {
        const char *without, *message;
    } lines[] = {
        {"title", "5: found the end of the text; expected a line 'title \"…\"' (for example: title "
                  "\"My bench\")"},
        {"bright", "5: found the end of the text; expected a line 'bright … cd/m2' (the luminance "
                   "that counts as 1, for example: bright 3000 cd/m2)"},
        {"eye",
         "5: found the end of the text; expected a line 'eye …' (for example: eye 50 deg up)"},
        {"head", "5: found the end of the text; expected a line 'head …' (for example: head 20 deg "
                 "across, 60 cd/m2, daylight; or: head none)"},
        {"sky", "5: found the end of the text; expected a line that gives light (for example: sky "
                "3000 cd/m2, daylight)"},
    };
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        char text[sizeof whole];
        const char *from = strstr(whole, lines[i].without);
        const char *to = strchr(from, '\n') + 1;
        size_t before = (size_t)(from - whole);
        memcpy(text, whole, before);
        memcpy(text + before, to, strlen(to) + 1);
        check_message(text, strlen(text), LW_BAD_INPUT, lines[i].message);
    }
    lw_light_place place;
    assert_int_equal(lw_light_place_read(whole, sizeof whole - 1, &place, NULL), LW_OK);
    static const char off_axis[] = "title \"T\"\nbright 5 cd/m2\neye 40 deg up\nhead none\n"
                                   "tilting the eye\nsky 5 cd/m2, daylight\n";
    check_message(off_axis, sizeof off_axis - 1, LW_BAD_INPUT,
                  "6: found the end of the text; expected 'eye overhead' with 'tilting the eye' "
                  "(light that goes with the stone is told with the table up)");
}

static void test_no_text(void **state)
{
    (void)state;
    check_message("", 0, LW_BAD_INPUT,
                  "1: found the end of the text; expected a line 'title \"…\"' (for example: title "
                  "\"My bench\")");
    check_message("sky\0", 4, LW_BAD_INPUT,
                  "1:4: found a NUL byte; expected text in UTF-8 (this looks like no text file)");
    check_message(
        "note \"\xFF\"", 8, LW_BAD_INPUT,
        "1:7: found the byte FF, which is no UTF-8 here; expected text in UTF-8 (save the "
        "file as UTF-8)");
    char line[LW_PLACE_MOST_LINE + 2];
    memset(line, ' ', sizeof line);
    line[sizeof line - 1] = '\0';
    check_message(line, LW_PLACE_MOST_LINE + 1, LW_TOO_LARGE,
                  "1:1: found a line of 501 bytes; expected lines of at most 500 bytes");
    char *large = calloc(LW_PLACE_MOST_BYTES + 2, 1);
    memset(large, '#', LW_PLACE_MOST_BYTES + 1);
    check_message(large, LW_PLACE_MOST_BYTES + 1, LW_TOO_LARGE,
                  "found a text of 65537 bytes; expected at most 65536 bytes (a place is a short "
                  "text)");
    free(large);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_messages),
        cmocka_unit_test(test_messages_with_decimal_commas),
        cmocka_unit_test(test_whole_texts),
        cmocka_unit_test(test_no_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
