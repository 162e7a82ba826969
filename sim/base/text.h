/* sim/base/text.h  Text as bytes: UTF-8, and shortening for messages. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Bytes of the character at `at`, of which `left` bytes may be read, and its code point; 0 where it is no UTF-8 (cut,
 * overlong, a surrogate, beyond U+10FFFF). left > 0. */
size_t utf8_read(const char *at, size_t left, uint32_t *code);

/* May stand in a file: no control character but tab and line ends, no character that is none. */
bool code_is_text(uint32_t code);

/* `text` in at most 44 bytes for a message: cut between characters and then ending in "..."; what would move a
 * terminal is shown as "?". Returns room. */
enum { TEXT_SHORT = 48 };
const char *text_short(const char *text, char room[TEXT_SHORT]);

/* Replaces what would move a terminal by "?", in place. */
void text_tame(char *text);

#endif
