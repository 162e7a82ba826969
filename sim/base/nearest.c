/* sim/base/nearest.c  The name a person most likely meant: edit distance with swapped neighbours, optimal string
 * alignment [Damerau1964]. An edit costs 2, a letter in the wrong case 1. */
#include "base/problem.h"

#include <ctype.h>
#include <limits.h>
#include <string.h>
#include <strings.h>

enum { NEAREST_LONGEST = 48, EDIT = 2, CASE = 1 };

static int letter_cost(char a, char b)
{
    if (a == b)
        return 0;
    return tolower((unsigned char)a) == tolower((unsigned char)b) ? CASE : EDIT;
}

static int least_of(int a, int b)
{
    return a < b ? a : b;
}

/* Cost of making `name` out of `word`; both at most NEAREST_LONGEST bytes. Three rows of the table are enough. */
static int edit_cost(const char *word, int words, const char *name, int names)
{
    int table[3][NEAREST_LONGEST + 1];
    for (int j = 0; j <= names; j++)
        table[0][j] = EDIT * j;
    for (int i = 1; i <= words; i++) {
        int *row = table[i % 3];
        const int *above = table[(i + 2) % 3];
        const int *second = table[(i + 1) % 3];
        row[0] = EDIT * i;
        for (int j = 1; j <= names; j++) {
            row[j] = above[j - 1] + letter_cost(word[i - 1], name[j - 1]);
            row[j] = least_of(row[j], EDIT + least_of(above[j], row[j - 1]));
            const bool swapped = i > 1 && j > 1 && word[i - 1] == name[j - 2] && word[i - 2] == name[j - 1];
            if (swapped)
                row[j] = least_of(row[j], second[j - 2] + EDIT);
        }
    }
    return table[words % 3][names];
}

/* One edit in a short word, one more for every three letters. */
static int cost_allowed(int words)
{
    return words < 2 ? CASE : EDIT * ((words + 1) / 3);
}

const char *nearest_name(const char *word, const char *const *names, int count)
{
    const size_t length = strlen(word);
    if (length == 0 || length > NEAREST_LONGEST)
        return NULL;
    const int words = (int)length;
    int best = INT_MAX;
    const char *nearest = NULL;
    for (int i = 0; i < count; i++) {
        const size_t name_length = strlen(names[i]);
        if (name_length > NEAREST_LONGEST)
            continue;
        const bool begun = words >= 3 && strncmp(word, names[i], length) == 0; /* "temp" for "temperature" */
        const int allowed = cost_allowed(words);
        const bool same = strcasecmp(word, names[i]) == 0;
        const int edits = same ? CASE : edit_cost(word, words, names[i], (int)name_length);
        const int cost = begun ? least_of(edits, allowed) : edits;
        if (cost <= allowed && cost < best) {
            best = cost;
            nearest = names[i];
        }
    }
    return nearest;
}

const char *ullage_nearest(const char *word, const char *const *names, int count)
{
    return nearest_name(word, names, count);
}
