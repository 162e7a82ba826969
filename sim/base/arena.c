/* sim/base/arena.c  Memory that is given out in small pieces and taken back at once. */
#include "base/tree.h"

#include <assert.h>
#include <stdalign.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CHUNK_SMALLEST = 4096, CHUNK_LARGEST = 1 << 20 }; /* bytes; chunks double, so that few are needed */

struct chunk {
    struct chunk *before;
    size_t size, used; /* bytes of `room` */
    alignas(max_align_t) char room[];
};

struct arena {
    struct chunk *newest;
};

struct arena *arena_create(void)
{
    return calloc(1, sizeof(struct arena));
}

void arena_free(struct arena *arena)
{
    if (!arena)
        return;
    struct chunk *chunk = arena->newest;
    while (chunk) {
        struct chunk *before = chunk->before;
        free(chunk);
        chunk = before;
    }
    free(arena);
}

static struct chunk *arena_grow(struct arena *arena, size_t bytes)
{
    const struct chunk *newest = arena->newest;
    size_t size = newest ? 2 * newest->size : CHUNK_SMALLEST;
    size = size > CHUNK_LARGEST ? CHUNK_LARGEST : size;
    size = size < bytes ? bytes : size;
    struct chunk *chunk = calloc(1, sizeof *chunk + size);
    if (!chunk)
        return NULL;
    chunk->before = arena->newest;
    chunk->size = size;
    arena->newest = chunk;
    return chunk;
}

void *arena_take(struct arena *arena, size_t bytes)
{
    const size_t grain = alignof(max_align_t);
    if (bytes > PTRDIFF_MAX / 2)
        return NULL;
    const size_t rounded = (bytes + grain - 1) / grain * grain;
    struct chunk *chunk = arena->newest;
    if (!chunk || chunk->size - chunk->used < rounded)
        chunk = arena_grow(arena, rounded);
    if (!chunk)
        return NULL;
    void *taken = chunk->room + chunk->used;
    chunk->used += rounded;
    return taken;
}

char *arena_text(struct arena *arena, const char *text)
{
    const size_t size = strlen(text) + 1;
    char *copy = arena_take(arena, size);
    return copy ? memcpy(copy, text, size) : NULL;
}

char *arena_format(struct arena *arena, const char *format, ...)
{
    va_list values, again;
    va_start(values, format);
    va_copy(again, values);
    const int length = vsnprintf(NULL, 0, format, values);
    assert(length >= 0);
    char *text = arena_take(arena, (size_t)length + 1);
    if (text)
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    va_end(values);
    return text;
}
