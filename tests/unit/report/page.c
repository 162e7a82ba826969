/* tests/unit/report/page.c  Words wrap at the page's width and hang below the head of their line. */
#include "report/page.h"

#include "support/near.h"

static char *text;
static size_t size;

static struct page page_open(void)
{
    FILE *to = open_memstream(&text, &size);
    assert_non_null(to);
    return (struct page){.to = to};
}

static void page_holds(struct page *page, const char *want)
{
    assert_int_equal(fclose(page->to), 0);
    assert_string_equal(text, want);
    free(text);
}

static void words_share_a_line(void **unused)
{
    (void)unused;
    struct page page = page_open();
    page_begin(&page, 9, "   0:00");
    page_put(&page, "Vent shut.");
    page_put(&page, "%s at %s.", "Nitrogen", "3 kPa");
    page_end(&page);
    page_holds(&page, "   0:00  Vent shut. Nitrogen at 3 kPa.\n");
}

static void nothing_put_is_nothing_printed(void **unused)
{
    (void)unused;
    struct page page = page_open();
    page_end(&page);
    page_put(&page, "%s", "");
    page_end(&page);
    page_holds(&page, "");
}

static void long_text_wraps_within_the_width(void **unused)
{
    (void)unused;
    struct page page = page_open();
    page_begin(&page, 4, "-");
    for (int i = 0; i < 60; i++)
        page_put(&page, "%s", "seven-°C\n"); /* a break in what is put is a space; ° is one column */
    page_end(&page);
    assert_int_equal(fclose(page.to), 0);
    int lines = 0;
    for (char *line = strtok(text, "\n"); line; line = strtok(NULL, "\n"), lines++) {
        assert_true(cell_width(line) <= PAGE_WIDTH);
        assert_int_equal(strncmp(line, lines ? "    seven-" : "-   seven-", 10), 0);
    }
    assert_int_equal(lines, 6); /* words of 8 columns and a space between: 11 fit into 110 - 4 */
    free(text);
}

static void a_word_longer_than_the_page_stands_alone(void **unused)
{
    (void)unused;
    char word[3000];
    char want[3100];
    memset(word, 'x', sizeof word - 1);
    word[sizeof word - 1] = '\0';
    struct page page = page_open();
    page_put(&page, "a %s b", word);
    page_end(&page);
    assert_int_equal(fclose(page.to), 0);
    snprintf(want, sizeof want, "a\n");
    assert_int_equal(strncmp(text, want, 2), 0);
    int count = 0;
    for (const char *c = text; *c; c++)
        count += *c == 'x';
    assert_int_equal(count, 2999); /* none is lost */
    free(text);
}

static void cells_count_characters(void **unused)
{
    (void)unused;
    struct page page = page_open();
    assert_int_equal(cell_width("20 °C"), 5);
    assert_int_equal(cell_wider(3, "20 °C"), 5);
    assert_int_equal(cell_wider(9, "20 °C"), 9);
    cell_put(page.to, "20 °C", 7);
    cell_put(page.to, "too wide", 3);
    page_holds(&page, "20 °C  too wide");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_share_a_line),
        cmocka_unit_test(nothing_put_is_nothing_printed),
        cmocka_unit_test(long_text_wraps_within_the_width),
        cmocka_unit_test(a_word_longer_than_the_page_stands_alone),
        cmocka_unit_test(cells_count_characters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
