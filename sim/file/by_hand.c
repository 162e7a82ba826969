/* sim/file/by_hand.c  What is done by hand while the procedure goes on: a list of moments, each with what is set then. Of a
 * scenario, and of a recording. */
#include "file/readers.h"

#include <math.h>

static void words_wanted(struct reader *reader, const struct node *set)
{
    for (int i = 0; i < set->count; i++)
        word_wanted(reader, set->child[i]);
}

static bool item_read(struct reader *reader, const struct node *item, struct by_hand *into)
{
    static const char *const keys[] = {"at", "set"};
    static const char example[] = "write {at: 20 s, set: {vent-valve: shut}}";
    const struct range moment = {ULLAGE_TIME, 0.0, HUGE_VAL};
    if (!map_wanted(reader, item, "what is done by hand", example))
        return false;
    keys_wanted(reader, item, keys, sizeof keys / sizeof keys[0], "by_hand");
    const struct node *at = node_find(item, "at");
    into->set = node_find(item, "set");
    if (!at || !into->set)
        problem_add(reader->found, item->at, example, "%s is missing", at ? "set" : "at");
    if (!number_wanted(reader, at, moment, &into->time) ||
        !map_wanted(reader, into->set, "set", "write {vent-valve: shut, leak.diameter: 0.7 mm}"))
        return false;
    words_wanted(reader, into->set);
    return true;
}

void by_hand_read(struct reader *reader, const struct node *list)
{
    struct ullage_description *into = reader->into;
    if (!list_wanted(reader, list, "by_hand", "write [{at: 20 s, set: {vent-valve: shut}}]"))
        return;
    into->by_hand = reader_take(reader, (size_t)list->count * sizeof *into->by_hand);
    for (int i = 0; into->by_hand && i < list->count; i++) {
        struct by_hand *of = &into->by_hand[into->by_hands];
        if (!item_read(reader, list->child[i], of))
            continue;
        if (into->by_hands > 0 && of->time < of[-1].time)
            problem_add(reader->found, node_find(list->child[i], "at")->at, "put them in the order of their times",
                        "this comes before what stands above it");
        into->by_hands++;
    }
}
