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
    const struct ullage_part about = ullage_model_part(model, part);
    snprintf(room, (size_t)size, "%s%s", strlen(about.label) == 1 ? "leak " : "", about.label);
    if (about.latent) { /* "seal-leak tank.roof": the drawing shows where */
        const int length = (int)strcspn(about.label, " ");
        naming_words(about.label, false, room, size);
        room[length < size ? length : size - 1] = '\0';
    }
    if (capital)
        naming_capital(room);
    return room;
}
