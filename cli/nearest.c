#include "options.h"

#include <string.h>

enum { MOST = 40 };

static int least_of(int a, int b, int c)
{
    int least = a < b ? a : b;
    return least < c ? least : c;
}

/* Edits (insert, delete, replace) from a to b, both at most MOST bytes. */
static int edits(const char *a, size_t a_length, const char *b, size_t b_length)
{
    int row[MOST + 1];
    for (size_t j = 0; j <= b_length; j++) {
        row[j] = (int)j;
    }
    for (size_t i = 1; i <= a_length; i++) {
        int diagonal = row[0];
        row[0] = (int)i;
        for (size_t j = 1; j <= b_length; j++) {
            int above = row[j];
            row[j] = least_of(above + 1, row[j - 1] + 1, diagonal + (a[i - 1] != b[j - 1]));
            diagonal = above;
        }
    }
    return row[b_length];
}

/* Fewer than this many edits are taken for a slip: a third of the word, and one at least. A name
 * that goes on where the word stops ("width" for "width-mm") counts as one. */
static int distance(const char *word, const char *name)
{
    size_t word_length = strlen(word), name_length = strlen(name);
    if (word_length > MOST || name_length > MOST) {
        return MOST;
    }
    if (word_length >= 3 && strncmp(word, name, word_length) == 0) {
        return 1;
    }
    return edits(word, word_length, name, name_length);
}

const char *cli_nearest(const char *word, const char *(*next)(const void *context, int i),
                        const void *context)
{
    const char *best = NULL;
    int limit = (int)strlen(word) / 3;
    int best_distance = (limit < 1 ? 1 : limit) + 1;
    const char *name = NULL;
    for (int i = 0; (name = next(context, i)) != NULL; i++) {
        int d = distance(word, name);
        if (d < best_distance) {
            best = name;
            best_distance = d;
        }
    }
    return best;
}
