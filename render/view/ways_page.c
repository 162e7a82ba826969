/* ways_page.c  The list of branches: each with its number, as on its bar, its name, when it parted and how far it went. */
#include "view/ways_page.h"

#include "view/column.h"
#include "view/naming.h"
#include "view/steps.h"

#include <stdio.h>

#define LINE 38.0 /* u from one to the next */
#define MARK 6.0  /* u wide: the bar beside the one under the cursor */
#define HINT_SIZE 20.0

int ways_cursor(const struct scene *scene)
{
    const int cursor = scene->view->ways.cursor, last = scene->branches ? scene->branches->count - 1 : 0;
    return cursor < 0 ? 0 : cursor > last ? last : cursor;
}

static void span_words(const struct scene *scene, const struct branch_line *line, char *room, int size)
{
    char from[32], to[32];
    double tick;
    const double whole = plan_whole(scene->plan, scene->now, &tick);
    snprintf(room, (size_t)size, "%s to %s", clock_text(line->parted_at, whole, from, sizeof from),
             clock_text(line->latest, whole, to, sizeof to));
}

static void line_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline, int branch)
{
    const bool present = branch == scene->branches->present, chosen = branch == ways_cursor(scene);
    const struct text_style style = {26.0, present ? 700 : 400, COLOUR_INK, 0.0}, soft = {22.0, 400, COLOUR_SOFT, 1.0};
    const struct branch_line *line = &scene->branches->line[branch];
    char text[96], span[72];
    span_words(scene, line, span, sizeof span);
    const double right = x1 - frame_text(frame, x1, baseline, soft, span) - 14.0;
    if (chosen && scene->view->ways.naming)
        snprintf(text, sizeof text, "%d  %s|", branch + 1, scene->view->ways.name);
    else
        snprintf(text, sizeof text, "%d  %s", branch + 1, line->name);
    column_fitted(frame, x0, baseline, right - x0, style, text);
    if (chosen)
        frame_bar(frame, x0 - 16.0, baseline - 24.0, MARK, 32.0, COLOUR_INK);
    frame_spot(frame, SPOT_WAY, branch, (struct frame_box){x0, baseline - 26.0, x1, baseline + 9.0}, 0.0, 0.0);
}

/* Left-aligned, dotted under; returns where the next may begin. */
static double word_draw(struct frame *frame, double x, double baseline, enum ways_word word, const char *text)
{
    return column_word(frame, x, 0.0, baseline, SPOT_WAY_WORD, (int)word, text) + 28.0;
}

static void words_draw(struct frame *frame, const struct scene *scene, double x0, double baseline)
{
    const int branch = ways_cursor(scene);
    const bool present = branch == scene->branches->present;
    double x = word_draw(frame, x0, baseline, WAYS_NAME, scene->view->ways.naming ? "that is its name" : "name it");
    if (!present)
        x = word_draw(frame, x, baseline, WAYS_GO, "go over to it");
    if (!present && branch > 0)
        word_draw(frame, x, baseline, WAYS_FORGET, "forget it");
}

static void behind_draw(struct frame *frame, const struct scene *scene, double x0, double x1, double baseline)
{
    const struct text_style soft = {22.0, 400, COLOUR_SOFT, 0.0};
    char text[128];
    const int behind = scene->branches->behind;
    snprintf(text, sizeof text, "The thin line in the charts: %d  %s", behind + 1, scene->branches->line[behind].name);
    column_fitted(frame, x0, baseline, x1 - x0, soft, text);
}

void ways_page_draw(struct frame *frame, const struct scene *scene, const struct layout *layout)
{
    const struct text_style soft = {HINT_SIZE, 500, COLOUR_SOFT, 0.0}, plain = {26.0, 400, COLOUR_SOFT, 0.0};
    const double x0 = layout->column_x0, x1 = layout->column_x1, top = layout->wide ? 116.0 : 760.0;
    const int count = scene->branches ? scene->branches->count : 0, room = layout->wide ? ULLAGE_BRANCHES_MOST : 5;
    char note[16];
    snprintf(note, sizeof note, "%d", count);
    column_heading(frame, x0, x1, top, "Ways it went", note);
    double baseline = top + (layout->wide ? 52.0 : 46.0);
    if (!count) {
        frame_text(frame, x0, baseline, plain, "One.");
        return;
    }
    const int first = drawer_top(ways_cursor(scene), count, room);
    for (int k = first; k < count && k < first + room; k++, baseline += LINE)
        line_draw(frame, scene, x0, x1, baseline, k);
    words_draw(frame, scene, x0, baseline + (layout->wide ? 16.0 : 6.0));
    if (layout->wide && scene->branches->behind >= 0)
        behind_draw(frame, scene, x0, x1, baseline + 74.0);
    if (layout->wide)
        column_fitted(frame, x0, 706.0, x1 - x0, soft,
                      scene->view->ways.naming ? "type its name  Enter done  Esc as it was"
                                               : "↑ ↓  Enter go over  L name it  Backspace forget it");
}
