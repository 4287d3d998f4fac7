#include "matter/lookup.h"

#include <assert.h>
#include <stdbool.h>
#include <string.h>

enum { MOST_LETTERS = 64, MOST_WORDS = 16 };

/* A name without what does not matter: lower-case words in alphabetical order, run together. */
typedef struct plain_name {
    size_t length; /* 0 when nothing is left or too much is */
    char text[MOST_LETTERS + 1];
} plain_name;

typedef struct word_list {
    size_t count, used;
    size_t start[MOST_WORDS], length[MOST_WORDS];
    char text[MOST_LETTERS];
} word_list;

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

/* Apostrophes join ("cat's" is "cats"), as do all bytes beyond ASCII; the rest separates words. */
static bool split(const char *name, word_list *words)
{
    bool inside = false;
    words->count = words->used = 0;
    for (; *name != '\0'; name++) {
        char c = lower(*name);
        if (c == '\'' || (unsigned char)c >= 0x80u) {
            continue;
        }
        if (!is_letter(c)) {
            inside = false;
            continue;
        }
        if (!inside) {
            if (words->count == MOST_WORDS) {
                return false;
            }
            words->start[words->count] = words->used;
            words->length[words->count++] = 0;
            inside = true;
        }
        if (words->used == MOST_LETTERS) {
            return false;
        }
        words->text[words->used++] = c;
        words->length[words->count - 1]++;
    }
    return true;
}

static bool word_before(const word_list *words, size_t a, size_t b)
{
    size_t shorter = words->length[a] < words->length[b] ? words->length[a] : words->length[b];
    int order = memcmp(words->text + words->start[a], words->text + words->start[b], shorter);
    return order < 0 || (order == 0 && words->length[a] < words->length[b]);
}

static void make_plain(const char *name, plain_name *plain)
{
    word_list words;
    plain->length = 0;
    if (split(name, &words)) {
        size_t order[MOST_WORDS];
        for (size_t i = 0; i < words.count; i++) {
            size_t at = i;
            for (; at > 0 && word_before(&words, i, order[at - 1]); at--) {
                order[at] = order[at - 1];
            }
            order[at] = i;
        }
        for (size_t i = 0; i < words.count; i++) {
            size_t word = order[i];
            memcpy(plain->text + plain->length, words.text + words.start[word], words.length[word]);
            plain->length += words.length[word];
        }
    }
    plain->text[plain->length] = '\0';
}

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Letters to put in, leave out, change or swap with the next (optimal string alignment; Boytsov,
 * ACM J. Exp. Algorithmics 16, 2011, section 2). */
static int letters_apart(const plain_name *a, const plain_name *b)
{
    int rows[3][MOST_LETTERS + 1];
    for (size_t j = 0; j <= b->length; j++) {
        rows[0][j] = (int)j;
    }
    for (size_t i = 1; i <= a->length; i++) {
        int *now = rows[i % 3];
        const int *before = rows[(i + 2) % 3];
        const int *earlier = rows[(i + 1) % 3];
        now[0] = (int)i;
        for (size_t j = 1; j <= b->length; j++) {
            int change = a->text[i - 1] == b->text[j - 1] ? 0 : 1;
            int cost = least(least(before[j] + 1, now[j - 1] + 1), before[j - 1] + change);
            if (i > 1 && j > 1 && a->text[i - 1] == b->text[j - 2] &&
                a->text[i - 2] == b->text[j - 1]) {
                cost = least(cost, earlier[j - 2] + 1);
            }
            now[j] = cost;
        }
    }
    return rows[a->length % 3][b->length];
}

/* How far one name lies from what was asked for; containing it counts as one letter. -1: too far.
 */
static int name_distance(const plain_name *asked, const char *name)
{
    plain_name own;
    make_plain(name, &own);
    if (own.length == asked->length && memcmp(own.text, asked->text, own.length) == 0) {
        return 0;
    }
    if (asked->length >= 3 && strstr(own.text, asked->text) != NULL) {
        return 1;
    }
    if (own.length >= 4 && strstr(asked->text, own.text) != NULL) {
        return 1;
    }
    int apart = letters_apart(asked, &own);
    int allowed = 1 + (int)(asked->length / 4);
    return apart <= allowed ? apart : -1;
}

/* The nearest of a material's names; false when none is near enough. */
static bool nearest_name(const lw_material *material, const plain_name *asked,
                         lw_found_material *found)
{
    const char *names[2] = {material->key, material->name};
    bool any = false;
    for (size_t i = 0; i < 2 + material->variety_count; i++) {
        const lw_variety *variety = i < 2 ? NULL : &material->varieties[i - 2];
        const char *name = variety == NULL ? names[i] : variety->name;
        int distance = name_distance(asked, name);
        if (distance >= 0 && (!any || distance < found->distance)) {
            *found = (lw_found_material){material, variety, name, distance};
            any = true;
        }
    }
    return any;
}

size_t lw_material_suggest(const char *name, lw_found_material *found, size_t capacity)
{
    plain_name asked;
    make_plain(name, &asked);
    size_t count = 0;
    for (size_t i = 0; asked.length > 0 && i < lw_material_count(); i++) {
        lw_found_material one;
        if (!nearest_name(lw_material_at(i), &asked, &one)) {
            continue;
        }
        size_t at = count;
        while (at > 0 && found[at - 1].distance > one.distance) {
            at--;
        }
        if (at == capacity) {
            continue;
        }
        count += count < capacity ? 1 : 0;
        memmove(found + at + 1, found + at, (count - 1 - at) * sizeof *found);
        found[at] = one;
    }
    return count;
}

lw_status lw_material_find(const char *name, lw_found_material *found)
{
    plain_name asked;
    plain_name key;
    lw_found_material nearest[2];
    size_t count = lw_material_suggest(name, nearest, 2);
    if (count == 0 || nearest[0].distance > 0) {
        return LW_NOT_FOUND;
    }
    make_plain(name, &asked);
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *material = lw_material_at(i);
        make_plain(material->key, &key);
        if (key.length == asked.length && memcmp(key.text, asked.text, key.length) == 0) {
            *found = (lw_found_material){material, NULL, material->key, 0};
            return LW_OK;
        }
    }
    if (count == 2 && nearest[1].distance == 0) {
        return LW_AMBIGUOUS;
    }
    *found = nearest[0];
    return LW_OK;
}

unsigned lw_found_cautions(const lw_found_material *found)
{
    assert(found->material != NULL);
    return found->material->cautions | (found->variety == NULL ? 0u : found->variety->cautions);
}
