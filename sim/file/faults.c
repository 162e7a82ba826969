/* sim/file/faults.c  A fault of the list: a hole in a part that comes and goes. Each becomes a part of kind `hole` from
 * where it sits to the air. */
#include "file/readers.h"

#include <string.h>

/* What a fault is called, and the hole it is. New names for holes: one row. */
static const struct {
    const char *name, *shape;
} fault_kinds[] = {
    {"leak", "round"}, {"seal-leak", "round"}, {"slit", "slit"}, {"porous-spot", "porous"}, {"crack", "crack"},
};

enum { FAULT_KINDS = sizeof fault_kinds / sizeof fault_kinds[0] };

static const char *const own_keys[] = {"id", "fault", "where", "from", "ramp", "until", "every", "for"};

enum { OWN_KEYS = sizeof own_keys / sizeof own_keys[0] };

static void fault_keys_wanted(struct reader *reader, const struct node *map, const struct row *rows)
{
    const char *name[OWN_KEYS + ROWS_MOST];
    int count = 0;
    for (; count < OWN_KEYS; count++)
        name[count] = own_keys[count];
    for (int i = 0; rows[i].name; i++)
        name[count++] = rows[i].name;
    keys_wanted(reader, map, name, count, "a fault");
}

static const struct node *needed(struct reader *reader, const struct node *map, const char *key, const char *right)
{
    const struct node *node = node_find(map, key);
    if (!node)
        problem_add(reader->found, map->at, right, "%s of a fault is missing", key);
    return node;
}

static void course_read(struct reader *reader, const struct node *map, struct course *course)
{
    const struct range moment = {ULLAGE_TIME, 0.0, HUGE_VAL}, span = {ULLAGE_TIME, 1e-3, HUGE_VAL};
    const struct node *every = node_find(map, "every"), *lasts = node_find(map, "for"),
                      *until = node_find(map, "until");
    course->until = HUGE_VAL;
    const bool from = number_wanted(reader, node_find(map, "from"), moment, &course->from);
    const bool ramp = number_wanted(reader, node_find(map, "ramp"), moment, &course->ramp);
    const bool ends = number_wanted(reader, until, moment, &course->until);
    const bool comes = number_wanted(reader, every, span, &course->every);
    const bool stays = number_wanted(reader, lasts, span, &course->lasts);
    course->given = from || ramp || ends || comes || stays;
    if (ends && course->until <= course->from)
        problem_add(reader->found, until->at, "let it end after it began", "this fault ends before it begins");
    if ((every == NULL) != (lasts == NULL))
        problem_add(reader->found, (every ? every : lasts)->key_at, "write both, like every: 8 s, for: 2 s",
                    "%s stands without the other of every and for", every ? "every" : "for");
    if (comes && stays && course->lasts > course->every)
        problem_add(reader->found, lasts->at, "let it last shorter than it takes to come again",
                    "this fault lasts longer than the time after which it comes again");
}

/* The word of kind `hole` that makes a fault's shape; the others stand at their usual. */
static void shape_set(struct part *part, const char *shape)
{
    const struct word_row *rows = part->kind->word;
    for (int i = 0; rows[i].name; i++)
        part->word[i] = rows[i].usual;
    const int row = words_find(rows, "shape");
    for (int i = 0; rows[row].choice[i]; i++)
        if (strcmp(rows[row].choice[i], shape) == 0)
            part->word[row] = i;
}

static void fault_kind_read(struct reader *reader, const struct node *node, struct part *part)
{
    const char *name[FAULT_KINDS];
    for (int i = 0; i < FAULT_KINDS; i++)
        name[i] = fault_kinds[i].name;
    const int chosen = choice_wanted(reader, node, name, FAULT_KINDS);
    if (chosen >= 0)
        shape_set(part, fault_kinds[chosen].shape);
}

static void where_read(struct reader *reader, const struct node *node, struct part *part)
{
    struct part_end *from = &part->end[ends_find(part->kind->end, "from")];
    if (!end_read(reader, node, from))
        return;
    if (strcmp(from->part, "air") == 0)
        problem_add(reader->found, node->at, "name the part that leaks", "a fault cannot sit in the air");
    part->end[ends_find(part->kind->end, "to")] = (struct part_end){"air", "", node->at};
}

void fault_read(struct reader *reader, const struct node *map, struct part *part)
{
    part->kind = element_find("hole");
    if (!map_wanted(reader, map, "a fault", "write {id: a, fault: leak, where: PART, diameter: 0.5 mm}"))
        return;
    fault_keys_wanted(reader, map, part->kind->parameter);
    const struct node *id = needed(reader, map, "id", "give it a name, like id: a");
    const struct node *kind = needed(reader, map, "fault", "write what it is, like fault: leak");
    const struct node *where = needed(reader, map, "where", "write where it sits, like where: tank.roof");
    if (id) {
        part->id = word_wanted(reader, id);
        part->at = id->at;
    }
    if (kind)
        fault_kind_read(reader, kind, part);
    if (where)
        where_read(reader, where, part);
    numbers_read(reader, map, false, part->kind->parameter, part->value, part->value_at);
    course_read(reader, map, &part->course);
}

int ullage_faults(void)
{
    return FAULT_KINDS;
}

struct ullage_fault ullage_fault_at(int index)
{
    return (struct ullage_fault){fault_kinds[index].name, fault_kinds[index].shape};
}
