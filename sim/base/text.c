/* sim/base/text.c  UTF-8 as [RFC3629] has it, and text made safe to print. */
#include "base/text.h"

#include <string.h>

/* Smallest code point that needs `length` bytes. */
static const uint32_t utf8_least[5] = {0, 0, 0x80, 0x800, 0x10000};

static size_t utf8_length(unsigned char first)
{
    if (first < 0x80)
        return 1;
    if (first >= 0xC2 && first < 0xE0)
        return 2;
    if (first >= 0xE0 && first < 0xF0)
        return 3;
    return first >= 0xF0 && first < 0xF5 ? 4 : 0;
}

size_t utf8_read(const char *at, size_t left, uint32_t *code)
{
    const unsigned char first = (unsigned char)at[0];
    const size_t length = utf8_length(first);
    if (length == 0 || length > left)
        return 0;
    uint32_t value = length == 1 ? first : first & (0xFFu >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        const unsigned char next = (unsigned char)at[i];
        if ((next & 0xC0) != 0x80)
            return 0;
        value = value << 6 | (next & 0x3Fu);
    }
    const bool surrogate = value >= 0xD800 && value < 0xE000;
    if (value < utf8_least[length] || surrogate || value > 0x10FFFF)
        return 0;
    *code = value;
    return length;
}

bool code_is_text(uint32_t code)
{
    if (code < 0x20)
        return code == '\t' || code == '\n' || code == '\r';
    const bool control = code >= 0x7F && code < 0xA0;
    const bool line_end = code == 0x2028 || code == 0x2029; /* editors do not count a line there, YAML does */
    const bool none = code == 0xFEFF || code == 0xFFFE || code == 0xFFFF;
    return !control && !line_end && !none;
}

void text_tame(char *text)
{
    size_t left = strlen(text);
    while (left > 0) {
        uint32_t code = 0;
        size_t length = utf8_read(text, left, &code);
        if (length == 0 || code < 0x20 || !code_is_text(code)) {
            length = length == 0 ? 1 : length;
            memset(text, '?', length);
        }
        text += length;
        left -= length;
    }
}

const char *text_short(const char *text, char room[TEXT_SHORT])
{
    static const char dots[] = "...";
    const size_t most = TEXT_SHORT - sizeof dots;
    size_t length = strlen(text);
    const bool cut = length >= most;
    if (cut)
        length = most - 1;
    while (cut && length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80)
        length--; /* not inside a character */
    memcpy(room, text, length);
    memcpy(room + length, cut ? dots : "", cut ? sizeof dots : 1);
    text_tame(room);
    return room;
}
