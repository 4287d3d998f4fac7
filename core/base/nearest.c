#include "base/nearest.h"

#include <string.h>

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Letters to add, drop, change or swap with their neighbour (optimal string alignment: V.
 * Levenshtein 1966 and F. Damerau 1964, three rows of the table kept). Both at most
 * LW_NEAREST_MOST long. */
static int distance(const char *a, int a_length, const char *b, int b_length)
{
    int rows[3][LW_NEAREST_MOST + 1];
    for (int j = 0; j <= b_length; j++) {
        rows[0][j] = j;
    }
    for (int i = 1; i <= a_length; i++) {
        int *now = rows[i % 3];
        const int *last = rows[(i + 2) % 3];
        const int *before = rows[(i + 1) % 3];
        now[0] = i;
        for (int j = 1; j <= b_length; j++) {
            int change = last[j - 1] + (a[i - 1] != b[j - 1]);
            now[j] = least(change, least(last[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                now[j] = least(now[j], before[j - 2] + 1);
            }
        }
    }
    return rows[a_length % 3][b_length];
}

const char *lw_nearest(const char *text, size_t length, const char *const *words, int count)
{
    const char *best = NULL;
    int best_distance = length <= 3 ? 2 : length <= 7 ? 3 : 4; /* must be below */
    for (int i = 0; i < count && length <= LW_NEAREST_MOST; i++) {
        size_t size = strlen(words[i]);
        if (size > LW_NEAREST_MOST) {
            continue;
        }
        int away = distance(text, (int)length, words[i], (int)size);
        if (away < best_distance && (size_t)away < size) {
            best = words[i];
            best_distance = away;
        }
    }
    return best;
}
