/* sim/procedure/title.c  Plain words for parts and steps. */
#include "procedure/step.h"

#include <ctype.h>
#include <string.h>

char *capitalised(char *text)
{
    if (text && *text)
        text[0] = (char)toupper((unsigned char)text[0]);
    return text;
}

char *name_words(struct arena *arena, const char *name)
{
    char *words = arena_text(arena, name);
    for (char *c = words; c && *c; c++)
        if (*c == '_' || *c == '-')
            *c = ' ';
    return words;
}

const char *part_label(struct arena *arena, const struct part *part)
{
    return part->label && part->label[0] ? arena_text(arena, part->label) : name_words(arena, part->id);
}

const char *listed(struct arena *arena, const char *before, const char *next)
{
    if (!before || !next)
        return NULL;
    return *before ? arena_format(arena, "%s, %s", before, next) : next;
}
