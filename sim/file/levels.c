/* sim/file/levels.c  How high so much liquid stands in a tank: [[0 L, 0 mm], [20 L, 90 mm], ...]. What the corners must be
 * together is the tank's own business (element/tank.c). */
#include "file/readers.h"

static void level_read(struct reader *reader, const struct node *node, struct part_level *level)
{
    const struct range volume = {ULLAGE_VOLUME, 0.0, HUGE_VAL}, height = {ULLAGE_LENGTH, 0.0, HUGE_VAL};
    level->at = node->at;
    if (node->kind != NODE_LIST || node->count != 2) {
        problem_add(reader->found, node->at, "write [VOLUME, HEIGHT], like [20 L, 90 mm]", "a level has two values");
        return;
    }
    number_wanted(reader, node->child[0], volume, &level->volume);
    number_wanted(reader, node->child[1], height, &level->height);
}

void levels_read(struct reader *reader, const struct node *list, struct part *part)
{
    static const char example[] = "write [[0 L, 0 mm], [20 L, 90 mm], ...]";
    if (!list_wanted(reader, list, "levels", example))
        return;
    if (list->count == 0)
        problem_add(reader->found, list->at, example, "levels of %s is empty", part->id);
    if (list->count > LEVELS_MOST) {
        problem_add(reader->found, list->child[LEVELS_MOST]->at, "give at most 24", "%s has too many levels", part->id);
        return;
    }
    part->levels = list->count;
    for (int i = 0; i < list->count; i++)
        level_read(reader, list->child[i], &part->level[i]);
}
