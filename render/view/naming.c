/* naming.c  Ids and names as words. */
#include "view/naming.h"

#include <stdio.h>
#include <string.h>

void naming_capital(char *words)
{
    if (words[0] >= 'a' && words[0] <= 'z')
        words[0] = (char)(words[0] - 'a' + 'A');
}

const char *naming_words(const char *name, bool capital, char *room, int size)
{
    snprintf(room, (size_t)size, "%s", name);
    for (char *c = room; *c; c++)
        if (*c == '-' || *c == '_')
            *c = ' ';
    if (capital)
        naming_capital(room);
    return room;
}

const char *naming_part(const struct ullage_model *model, int part, bool capital, char *room, int size)
{
    const char *label = ullage_model_part(model, part).label;
    snprintf(room, (size_t)size, "%s%s", strlen(label) == 1 ? "leak " : "", label);
    if (capital)
        naming_capital(room);
    return room;
}
