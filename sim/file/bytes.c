/* sim/file/bytes.c  What no file may hold, found before the YAML parser sees it: the parser gives such faults no place,
 * ends lines where editors do not, and needs seconds for thousands of directives. */
#include "base/text.h"
#include "file/yaml.h"

static bool directive(char first, struct ullage_place at, struct ullage_place origin)
{
    return first == '%' && at.column == 1 && origin.column == 1;
}

/* What is wrong with the character at `text`, or null; *length receives its bytes, *code its code point. */
static const char *character_fault(const char *text, size_t left, size_t *length, uint32_t *code)
{
    *length = utf8_read(text, left, code);
    if (*length == 0)
        return "this byte is no UTF-8";
    return code_is_text(*code) ? NULL : "a control character stands here";
}

bool bytes_good(const char *text, size_t size, struct ullage_place origin, struct ullage_problems *found)
{
    struct ullage_place at = origin;
    for (size_t i = 0; i < size;) {
        size_t length = 0;
        uint32_t code = 0;
        const char *fault = character_fault(text + i, size - i, &length, &code);
        if (fault) {
            problem_add(found, at, "write plain text in UTF-8", "%s", fault);
            return false;
        }
        if (directive(text[i], at, origin)) {
            problem_add(found, at, "leave it out, or put the word in quotes", "a line may not begin with %%");
            return false;
        }
        const bool pair = text[i] == '\r' && i + 1 < size && text[i + 1] == '\n'; /* CR LF is one end of line */
        const bool ends = text[i] == '\n' || (text[i] == '\r' && !pair);
        at = ends ? (struct ullage_place){at.file, at.line + 1, 1}
                  : (struct ullage_place){at.file, at.line, at.column + 1};
        i += length;
    }
    return true;
}
