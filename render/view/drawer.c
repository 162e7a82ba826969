/* drawer.c  What the drawer lists, and how keys and clicks change that. */
#include "view/drawer.h"

#include "view/intent.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

void drawer_begin(struct drawer *drawer)
{
    *drawer = (struct drawer){.part = -1, .row = -1, .time = -1, .times = times_usual()};
}

/* ---- what it lists ------------------------------------------------------------------------------------------------- */
static bool holds_word(const char *text, const char *word, size_t length)
{
    for (; *text; text++)
        if (!strncasecmp(text, word, length))
            return true;
    return false;
}

/* Every word that is searched for stands somewhere in its name, its place or how it comes about. */
static bool found(const struct fault_row *row, const char *search)
{
    while (*search) {
        const size_t length = strcspn(search, " ");
        if (length && !holds_word(row->name, search, length) && !holds_word(row->place, search, length) &&
            !holds_word(row->comes, search, length))
            return false;
        search += length;
        search += strspn(search, " ");
    }
    return true;
}

static bool matches(const struct drawer *drawer, const struct fault_row *row)
{
    return (drawer->part < 0 || row->part == drawer->part || row->hole == drawer->part) && found(row, drawer->search);
}

void drawer_lines(const struct drawer *drawer, const struct faults *faults, struct drawer_lines *lines)
{
    lines->count = 0;
    for (int k = 0; k < faults->count && lines->count < DRAWER_LINES; k++)
        if (fault_put_in(&faults->row[k]))
            lines->row[lines->count++] = k;
    lines->wrong = lines->count;
    for (int k = 0; k < faults->count && lines->count < DRAWER_LINES; k++)
        if (!fault_put_in(&faults->row[k]) && matches(drawer, &faults->row[k]))
            lines->row[lines->count++] = k;
}

int drawer_top(int cursor, int count, int lines)
{
    const int last = count > lines ? count - lines : 0, wanted = cursor - lines / 2;
    return wanted < 0 ? 0 : wanted > last ? last : wanted;
}

int drawer_row(const struct drawer *drawer, const struct faults *faults)
{
    struct drawer_lines lines;
    if (drawer->row >= 0)
        return drawer->row < faults->count ? drawer->row : -1;
    drawer_lines(drawer, faults, &lines);
    return drawer->cursor >= 0 && drawer->cursor < lines.count ? lines.row[drawer->cursor] : -1;
}

/* ---- what changes it ----------------------------------------------------------------------------------------------- */
/* The cursor onto a row, wherever it is listed now. */
static void cursor_to(struct drawer *drawer, const struct faults *faults, int row)
{
    struct drawer_lines lines;
    drawer_lines(drawer, faults, &lines);
    for (int k = 0; k < lines.count; k++)
        if (lines.row[k] == row)
            drawer->cursor = k;
}

void drawer_choose(struct drawer *drawer, const struct faults *faults, int row)
{
    if (drawer->row != row)
        drawer_list(drawer);
    drawer->row = row;
    drawer->searching = false;
    cursor_to(drawer, faults, row);
}

void drawer_list(struct drawer *drawer)
{
    drawer->row = -1;
    drawer->time = -1;
    drawer->times = times_usual();
    drawer->searching = false;
}

struct ullage_course drawer_course(const struct drawer *drawer, const struct fault_row *row, double now)
{
    struct ullage_course course = fault_put_in(row) ? times_of(row) : drawer->times;
    if (!(course.from > now))
        course.from = (double)NAN;
    if (!(course.until > now))
        course.until = (double)INFINITY;
    return course;
}

void drawer_times(struct drawer *drawer, bool open)
{
    drawer->time = open ? 0 : -1;
}

void drawer_part(struct drawer *drawer, const struct faults *faults, int part)
{
    int own = 0, only = -1;
    drawer_begin(drawer);
    for (int k = 0; part >= 0 && k < faults->count; k++)
        if (faults->row[k].part == part || faults->row[k].hole == part) {
            own++;
            only = k;
        }
    if (!own)
        return;
    drawer->part = part;
    struct drawer_lines lines;
    drawer_lines(drawer, faults, &lines);
    drawer->cursor = lines.wrong < lines.count ? lines.wrong : 0;
    if (own == 1)
        drawer_choose(drawer, faults, only);
}

void drawer_move(struct drawer *drawer, const struct faults *faults, int by)
{
    struct drawer_lines lines;
    drawer_lines(drawer, faults, &lines);
    const int wanted = drawer->cursor + by;
    drawer->cursor = wanted < 0 ? 0 : wanted >= lines.count ? lines.count - 1 : wanted;
    if (drawer->cursor < 0)
        drawer->cursor = 0;
}

void drawer_search(struct drawer *drawer)
{
    drawer_list(drawer);
    drawer->cursor = 0;
    drawer->searching = true;
    drawer->search[0] = '\0';
}

bool drawer_search_key(struct drawer *drawer, int key)
{
    const size_t used = strlen(drawer->search);
    if (key == KEY_ENTER)
        drawer->searching = false;
    else if (key == KEY_ESCAPE) {
        drawer->searching = false;
        drawer->search[0] = '\0';
    } else if (key == KEY_BACKSPACE && used)
        drawer->search[used - 1] = '\0';
    else if (key < 128 && isprint(key) && used < SEARCH_MOST) {
        drawer->search[used] = (char)key;
        drawer->search[used + 1] = '\0';
    } else
        return key == KEY_BACKSPACE;
    drawer->cursor = key == KEY_ENTER ? drawer->cursor : 0;
    return true;
}
