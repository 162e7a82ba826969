/* tests/unit/base/text.c  UTF-8: every code point there and back, and what is none. */
#include "base/text.h"

#include "support/near.h"

#include <stdbool.h>

/* An encoder of the test's own, from the table of RFC 3629, section 3. */
static size_t encoded(uint32_t code, char *into)
{
    unsigned char byte[4] = {(unsigned char)code, 0, 0, 0};
    size_t length = 1;
    if (code >= 0x10000) {
        byte[0] = (unsigned char)(0xF0 | code >> 18);
        byte[1] = (unsigned char)(0x80 | (code >> 12 & 0x3F));
        byte[2] = (unsigned char)(0x80 | (code >> 6 & 0x3F));
        byte[3] = (unsigned char)(0x80 | (code & 0x3F));
        length = 4;
    } else if (code >= 0x800) {
        byte[0] = (unsigned char)(0xE0 | code >> 12);
        byte[1] = (unsigned char)(0x80 | (code >> 6 & 0x3F));
        byte[2] = (unsigned char)(0x80 | (code & 0x3F));
        length = 3;
    } else if (code >= 0x80) {
        byte[0] = (unsigned char)(0xC0 | code >> 6);
        byte[1] = (unsigned char)(0x80 | (code & 0x3F));
        length = 2;
    }
    memcpy(into, byte, 4);
    return length;
}

static void every_character_is_read(void **unused)
{
    (void)unused;
    for (uint32_t code = 0; code <= 0x110000; code++) {
        char text[4];
        uint32_t got = 0;
        const size_t length = encoded(code, text);
        const bool character = code <= 0x10FFFF && !(code >= 0xD800 && code < 0xE000);
        assert_int_equal(utf8_read(text, length, &got), character ? length : 0);
        if (character)
            assert_int_equal(got, code);
        if (length > 1)
            assert_int_equal(utf8_read(text, length - 1, &got), 0); /* cut */
    }
}

/* RFC 3629, section 10: overlong forms must not be taken. */
static void overlong_and_stray_bytes_are_none(void **unused)
{
    (void)unused;
    static const char *const none[] = {"\xc0\x80", "\xc1\xbf", "\xe0\x80\xaf", "\xf0\x80\x80\xaf", "\x80",
                                       "\xbf",     "\xff",     "\xfe",         "\xf8\x88\x80\x80", "\xc3("};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        uint32_t code = 0;
        assert_int_equal(utf8_read(none[i], strlen(none[i]), &code), 0);
    }
}

static void controls_are_no_text(void **unused)
{
    (void)unused;
    static const uint32_t none[] = {0,    1,    8,      0x0B,   0x0C,   0x1B,   0x7F,  0x80,
                                    0x85, 0x9F, 0x2028, 0x2029, 0xFEFF, 0xFFFE, 0xFFFF};
    static const uint32_t some[] = {'\t', '\n', '\r', ' ', '~', 0xA0, 0xB0, 0x2027, 0xFFFD, 0x1F600};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        assert_false(code_is_text(none[i]));
    for (size_t i = 0; i < sizeof some / sizeof some[0]; i++)
        assert_true(code_is_text(some[i]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_character_is_read),
        cmocka_unit_test(overlong_and_stray_bytes_are_none),
        cmocka_unit_test(controls_are_no_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
