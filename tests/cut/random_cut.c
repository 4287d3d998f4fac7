#include "cut/random_cut.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

typedef struct maker {
    uint64_t state;
    char *text;
    size_t capacity, length;
    int let_count;
} maker;

/* SplitMix64 (G. Steele, D. Lea, C. Flood 2014). */
static unsigned dice(maker *m, unsigned sides)
{
    uint64_t z = m->state += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (unsigned)((z ^ (z >> 31)) % sides);
}

__attribute__((format(printf, 2, 3))) static void put(maker *m, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    int written = vsnprintf(m->text + m->length, m->capacity - m->length, format, list);
    va_end(list);
    m->length += written > 0 ? (size_t)written : 0;
    if (m->length > m->capacity - 1) {
        m->length = m->capacity - 1;
    }
}

static void blank(maker *m)
{
    static const char *const blanks[] = {"", "", " ", "  ", "\t"};
    put(m, "%s", blanks[dice(m, 5)]);
}

static void sign(maker *m, const char *text)
{
    blank(m);
    put(m, "%s", text);
    blank(m);
}

static void number(maker *m)
{
    switch (dice(m, 6)) {
    case 0:
        put(m, "%u", dice(m, 90));
        break;
    case 1:
        put(m, "%u.%u", dice(m, 90), dice(m, 100000));
        break;
    case 2:
        put(m, ".%u", 1 + dice(m, 1000));
        break;
    case 3:
        put(m, "%u.%09u%09u", dice(m, 10), dice(m, 1000000000), dice(m, 1000000000));
        break;
    case 4:
        put(m, "%u.%ue%u", dice(m, 10), dice(m, 100000), dice(m, 20));
        break;
    default:
        put(m, "%ue-%u", 1 + dice(m, 100), dice(m, 30));
        break;
    }
}

static void expression(maker *m, int depth)
{
    static const char *const signs[] = {" + ", " - ", " * ", "/", "^"};
    static const char *const functions[] = {"sin", "cos", "tan", "atan", "sqrt", "abs"};
    unsigned kind = depth == 0 ? dice(m, 3) : dice(m, 9);
    if (kind == 0 && m->let_count > 0) {
        put(m, "let-%u", dice(m, (unsigned)m->let_count));
    } else if (kind <= 2) {
        number(m);
        put(m, "%s", dice(m, 3) == 0 ? " %" : "");
    } else if (kind == 3) {
        put(m, "(");
        expression(m, depth - 1);
        put(m, ")");
    } else if (kind == 4) {
        put(m, "-");
        expression(m, depth - 1);
    } else if (kind == 5) {
        put(m, "%s(", functions[dice(m, 6)]);
        expression(m, depth - 1);
        put(m, ")");
    } else if (kind == 6) {
        put(m, "%s(", dice(m, 2) ? "min" : "max");
        expression(m, depth - 1);
        sign(m, ",");
        expression(m, depth - 1);
        put(m, ")");
    } else {
        expression(m, depth - 1);
        put(m, "%s", signs[dice(m, 5)]);
        expression(m, depth - 1);
    }
}

static void length(maker *m)
{
    static const char *const units[] = {" %", "%", " mm"};
    put(m, "%u.%u%s", dice(m, 90), 1 + dice(m, 9999), units[dice(m, 3)]);
}

static void facet(maker *m, const char *name)
{
    static const char *const relations[] = {"own ",        "left ", "right ",
                                            "opposite ",   "next ", "2nd left ",
                                            "11th right ", "",      "3rd left crown "};
    unsigned relation = dice(m, 10);
    if (relation == 9) {
        put(m, "%s", name);
        sign(m, "@");
        put(m, "%u.%u", dice(m, 96), dice(m, 100));
    } else {
        put(m, "%s%s", relations[relation], name);
    }
}

static void facets(maker *m, int count)
{
    static const char *const names[] = {"girdle", "crest", "rim", "table"};
    for (int i = 0; i < count; i++) {
        if (i > 0) {
            sign(m, ",");
        }
        facet(m, names[i]);
    }
}

static void point(maker *m, int depth)
{
    switch (dice(m, depth > 0 ? 5 : 3)) {
    case 0:
        put(m, "apex");
        break;
    case 1:
        put(m, "line ");
        facets(m, 2);
        break;
    case 2:
        put(m, "meet ");
        facets(m, 2 + (int)dice(m, 3));
        break;
    case 3:
        put(m, "(");
        point(m, depth - 1);
        put(m, ")");
        break;
    default:
        put(m, "share %u %% from ", dice(m, 101));
        point(m, depth - 1);
        put(m, " towards ");
        point(m, depth - 1);
        break;
    }
}

static void edge(maker *m)
{
    bool with = dice(m, 2) == 0;
    put(m, with ? "with " : "between ");
    facets(m, with ? 1 : 2);
}

static void value_rule(maker *m)
{
    static const char *const words[] = {"width ", "distance ", "point ", "temporary point "};
    put(m, "%s", words[dice(m, 4)]);
    length(m);
}

static void sloping_rule(maker *m)
{
    switch (dice(m, 9)) {
    case 0:
        put(m, "girdle 2.%u %%", dice(m, 1000));
        break;
    case 1:
        put(m, "level on ");
        facets(m, 1);
        if (dice(m, 2) == 0) {
            put(m, " by ");
            point(m, 2);
        }
        break;
    case 2:
        put(m, "reach %u %% along ", dice(m, 50));
        facets(m, 2);
        break;
    case 3:
        put(m, "edge with ");
        facets(m, 1);
        put(m, " ");
        length(m);
        break;
    case 4:
        put(m, "equal ");
        edge(m);
        put(m, " as ");
        edge(m);
        break;
    case 5:
        put(m, "match ");
        facets(m, 1);
        break;
    case 6:
        put(m, "share 1/%u from ", 1 + dice(m, 9));
        point(m, 2);
        put(m, " towards ");
        point(m, 2);
        put(m, " on ");
        facets(m, 1);
        break;
    case 7:
        value_rule(m);
        break;
    default:
        point(m, 3);
        break;
    }
}

static void teeth(maker *m)
{
    static const char *const symmetries[] = {"",        " x4",    " x 3 mirror", " x1mirror",
                                             " mirror", " plain", " only",       ""};
    put(m, "%u.%u", dice(m, 32), dice(m, 1000));
    if (dice(m, 3) == 0) {
        put(m, ", %u, %u.%u", 33 + dice(m, 20), 60 + dice(m, 30), dice(m, 7));
    } else {
        put(m, "%s", symmetries[dice(m, 8)]);
    }
}

static void step(maker *m)
{
    static const char *const names[] = {"crest", "rim", "main", "a-rather-long-name-for-a-step"};
    put(m, "%s%s at ", dice(m, 5) == 0 ? "temporary " : "", names[dice(m, 4)]);
    bool free = dice(m, 6) == 0;
    if (free) {
        put(m, "free%s", dice(m, 2) ? " near 4e1" : "");
    } else {
        put(m, "%u.%u%s", 1 + dice(m, 88), dice(m, 100000), dice(m, 2) ? " deg" : "");
    }
    put(m, " on ");
    teeth(m);
    put(m, " to %s", dice(m, 5) == 0 ? "each " : "");
    if (free) {
        point(m, 2);
        put(m, " and ");
        point(m, 1);
    } else {
        sloping_rule(m);
    }
    put(m, "%s", dice(m, 4) == 0 ? "  \"a word, with # in it \xC3\xA9\"" : "");
}

static void line_end(maker *m)
{
    static const char *const ends[] = {"\n",   "\n",       "\r\n",   "  # a remark  \n",
                                       " #\n", "#  x\r\n", "\n\n\n", "\n# alone\n\n"};
    put(m, "%s", ends[dice(m, 8)]);
}

static void settings(maker *m)
{
    put(m, "setting s = 43 deg from 41 to 47.%u \"main\"", dice(m, 100));
    line_end(m);
    int count = (int)dice(m, 3);
    for (int i = 0; i < count; i++) {
        put(m, "let let-%d = ", i);
        expression(m, 3);
        line_end(m);
        m->let_count++;
    }
}

size_t random_cut(uint64_t seed, char *text, size_t capacity)
{
    static const char *const folds[] = {"", "fold 8 mirror", "fold 3", "fold mirror", "fold none"};
    maker m = {.state = seed, .text = text, .capacity = capacity};
    put(&m, "title \"T%u\"", dice(&m, 10));
    line_end(&m);
    put(&m, "wheel 96");
    line_end(&m);
    put(&m, "%s", folds[dice(&m, 5)]);
    line_end(&m);
    settings(&m);
    put(&m, "dop %s", dice(&m, 2) ? "crown" : "pavilion");
    line_end(&m);
    put(&m,
        "pavilion\ngirdle at 90 on 3 to size\ncrest at s on 96 to point\nrim at 9 on 5 to apex");
    line_end(&m);
    put(&m, "crown\ncrest at 40 on 96 to girdle 2 %%\nrim at 20 on 6 to apex\n");
    put(&m, "table at 0 to height 20 %%\n");
    for (unsigned i = dice(&m, 6); i > 0; i--) {
        step(&m);
        line_end(&m);
    }
    return m.length;
}
