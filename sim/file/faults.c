/* sim/file/faults.c  The list of what is wrong. A hole becomes a part of kind `hole` from where it sits to the air; what moves
 * a parameter or a command is told of the part it belongs to; what is wrong with the fuel from the start is done to the fuel.
 * Where a hand may put in a hole, or liquid where there is none, what that needs is made. */
#include "base/text.h"
#include "element/course.h"
#include "file/readers.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NAMES_MOST = 128, RIGHT = 400 };

static const char *const own_keys[] = {"id", "fault", "where", "from", "ramp", "until", "every", "for"};

enum { OWN_KEYS = sizeof own_keys / sizeof own_keys[0] };

static const struct row *hole_rows(void)
{
    return element_find("hole")->parameter;
}

/* Numbers of a hole, or the one size. */
static void fault_keys_wanted(struct reader *reader, const struct node *map, const struct fault_row *row)
{
    const char *name[OWN_KEYS + ROWS_MOST];
    int count = 0;
    for (; count < OWN_KEYS; count++)
        name[count] = own_keys[count];
    if (!fault_is_hole(row))
        name[count++] = row->size;
    for (int i = 0; fault_is_hole(row) && hole_rows()[i].name; i++)
        name[count++] = hole_rows()[i].name;
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
    struct course_told told = {0};
    for (int k = 0; k < COURSE_KEYS; k++) {
        const struct range range = {ULLAGE_TIME, course_keys[k].least, HUGE_VAL};
        const struct node *node = node_find(map, course_keys[k].name);
        if (!node)
            continue;
        told.stands[k] = true;
        told.key_at[k] = node->key_at;
        told.at[k] = node->at;
        told.good[k] = number_wanted(reader, node, range, &told.value[k]);
    }
    course_make(&told, 0.0, reader->found, course);
    if (isnan(course->from))
        course->from = 0.0;
}

/* The word of kind `hole` that makes a fault's shape; the others stand at their usual. */
static void shape_set(struct part *part, const char *shape)
{
    const struct word_row *rows = part->kind->word;
    for (int i = 0; rows[i].name; i++)
        part->word[i] = rows[i].usual;
    const int row = words_find(rows, "shape");
    for (int i = 0; shape && rows[row].choice[i]; i++)
        if (strcmp(rows[row].choice[i], shape) == 0)
            part->word[row] = i;
}

/* Whether faults are to stand there without effect. */
static bool sound(const struct reader *reader)
{
    return reader->into->sound;
}

/* ---- which fault, of which part ---- */

static bool name_noted(const char *const *name, int count, const char *one)
{
    for (int i = 0; i < count; i++)
        if (strcmp(name[i], one) == 0)
            return true;
    return false;
}

/* Names of what a kind can have, each once; of what fits the part, where one is given. */
static int names_of(const struct ullage_description *in, const struct element_kind *kind, const struct part *part,
                    const char **name, int count)
{
    const struct fault_row *row = NULL;
    for (int r = 0; (row = fault_at(kind, r)) && count < NAMES_MOST; r++)
        if (!name_noted(name, count, row->name) && (!part || fault_fits(row, part, in->part, in->parts)))
            name[count++] = row->name;
    return count;
}

/* What the part can have in place of it. */
static void fault_misplaced(struct reader *reader, const struct node *node, const struct part *part)
{
    const char *name[NAMES_MOST];
    char right[RIGHT] = "name a part that keeps gas, or one that opens and shuts", shown[TEXT_SHORT];
    const int count = names_of(reader->into, part->kind, part, name, 0);
    if (count > 0)
        offer(node->text, name, count, "it can have", right, sizeof right);
    problem_add(reader->found, node->at, right, "%s cannot have %s", part->id, text_short(node->text, shown));
}

/* The row of a fault that a part can have; part null: its place has been told of, and there is none. Null with a problem. */
static const struct fault_row *row_wanted(struct reader *reader, const struct node *node, const struct part *part)
{
    const struct ullage_description *in = reader->into;
    const char *word = word_wanted(reader, node), *name[NAMES_MOST];
    const struct element_kind *kind = part ? part->kind : NULL;
    const struct fault_row *row = word && kind ? fault_named(kind, word) : NULL;
    if (!word || (row && fault_fits(row, part, in->part, in->parts)))
        return row;
    int known = 0;
    for (int k = 0; element_kinds()[k]; k++)
        known = names_of(in, element_kinds()[k], NULL, name, known);
    char right[RIGHT], shown[TEXT_SHORT];
    if (!name_noted(name, known, word)) {
        const int own = kind ? names_of(in, kind, part, name, 0) : 0, count = own > 0 ? own : known;
        problem_add(reader->found, node->at, offer(word, name, count, "it can have", right, sizeof right),
                    "there is no fault %s", text_short(word, shown));
    } else if (kind) {
        fault_misplaced(reader, node, part);
    }
    return NULL;
}

/* ---- where it sits ---- */

/* Out of the gas where it sits into the air. */
static void hole_ends(const struct part *of, const struct part_end *where, struct part *hole)
{
    const int end = fault_end(of);
    struct part_end *from = &hole->end[ends_find(hole->kind->end, "from")];
    *from = *where;
    if (end >= 0) {
        *from = of->end[end];
        from->at = where->at;
    }
    hole->end[ends_find(hole->kind->end, "to")] = (struct part_end){"air", "", where->at};
}

static const struct part *where_read(struct reader *reader, const struct node *node, struct part_end *where)
{
    if (!end_read(reader, node, where))
        return NULL;
    if (strcmp(where->part, "air") == 0) {
        problem_add(reader->found, node->at, "name the part that leaks", "a fault cannot sit in the air");
        return NULL;
    }
    const int part = part_find(reader->into, where->part);
    if (part < 0)
        part_missing(reader, where->at, where->part);
    return part < 0 ? NULL : &reader->into->part[part];
}

/* ---- what is done ---- */

/* Its size is what is met with where the file does not say; a plain hole has to say. */
static void hole_read(struct reader *reader, const struct node *map, const struct fault_row *row, struct part *hole)
{
    numbers_read(reader, map, false, hole->kind->parameter, hole->value, hole->value_at);
    const int size = rows_find(hole->kind->parameter, row->size);
    if (!fault_is_any(row) && !node_find(map, row->size))
        hole->value[size] = row->usual;
    if (row->given && !node_find(map, row->given))
        hole->value[rows_find(hole->kind->parameter, row->given)] = row->gives;
}

static void size_read(struct reader *reader, const struct node *map, const struct fault_row *row,
                      const struct element_kind *kind, struct fault *fault)
{
    struct range range = {row->dimension, 0.0, 0.0};
    fault_range(row, kind, &range.least, &range.most);
    fault->size = row->usual;
    number_wanted(reader, node_find(map, row->size), range, &fault->size);
}

static void pour_wanted(struct reader *reader, const struct node *map, const struct fault *fault)
{
    if (node_find(map, "every") || node_find(map, "for"))
        problem_add(reader->found, map->at, "write from, ramp and until, and leave out every and for",
                    "%s is liquid that is poured: it cannot come again and again", fault->row->name);
}

static void beds_wet(struct part *part, double share)
{
    const int wet = rows_find(part->kind->bed, "wet");
    for (int b = 0; b < part->beds; b++)
        part->bed[b].value[wet] = fmin(part->bed[b].value[wet] + share, part->kind->bed[wet].most);
}

#define SPARE 1.2 /* of the liquid: the room it lies in, at least */

/* Whether it has room for liquid of its own. */
static bool liquid_fits(const struct part *part, const struct fault_row *row)
{
    return part->value[rows_find(part->kind->parameter, row->row[0])] > 0.0 ||
           part->value[rows_find(part->kind->parameter, row->given)] > 0.0;
}

/* In the room that the part has for it, or is given; from the start, or as soon as it comes. */
static void liquid_lies(struct part *part, struct fault *fault)
{
    const int row = rows_find(part->kind->parameter, fault->row->row[0]);
    const int room = rows_find(part->kind->parameter, fault->row->given);
    const bool stands = course_stands(&fault->course);
    const double lies = fmin(part->value[row] + fault->size, part->kind->parameter[row].most);
    part->awaits = part->awaits || (!stands && !liquid_fits(part, fault->row));
    fault->begun = stands ? lies - part->value[row] : 0.0;
    part->value[row] += fault->begun;
    part->value[room] = fmax(part->value[room], fmax(fault->row->gives, SPARE * lies));
    part->value_at[row] = part->value_at[room] = fault->at;
}

static void bed_soaks(struct part *part, struct fault *fault)
{
    const bool stands = course_stands(&fault->course);
    fault->begun = stands ? fault->size : 0.0;
    beds_wet(part, fault->begun);
    part->awaits = part->awaits || !stands;
}

static struct fault *fault_add(struct reader *reader, const struct fault_row *row, int part, const char *site)
{
    struct fault *fault = &reader->into->fault[reader->into->faults++];
    *fault = (struct fault){.row = row, .part = part, .site = site, .hole = -1};
    if (row->keeps)
        reader->into->part[part].keeps = true;
    return fault;
}

/* The part that a hole is, after all others. */
static struct part *hole_add(struct reader *reader, struct fault *fault, struct ullage_place at)
{
    struct part *hole = &reader->into->part[reader->into->parts];
    *hole = (struct part){.at = at, .kind = element_find("hole"), .shape = "", .label = ""};
    shape_set(hole, fault->row->shape);
    hole->fault = true;
    fault->hole = reader->into->parts++;
    return hole;
}

static void fault_made(struct reader *reader, const struct node *map, struct fault *fault, const struct part_end *where)
{
    struct part *of = &reader->into->part[fault->part];
    course_read(reader, map, &fault->course);
    if (sound(reader)) /* it never comes */
        fault->course = (struct course){.given = true, .from = HUGE_VAL, .until = HUGE_VAL};
    if (fault_is_hole(fault->row)) {
        struct part *hole = hole_add(reader, fault, fault->at);
        hole->id = fault->id;
        hole->label = label_of(reader, hole->id);
        hole->course = fault->course;
        hole_ends(of, where, hole);
        hole_read(reader, map, fault->row, hole);
        fault->size = hole->value[rows_find(hole->kind->parameter, fault->row->size)];
        return;
    }
    if (*where->opening)
        problem_add(reader->found, where->at, "name the part alone", "%s sits on no opening of %s", fault->row->name,
                    of->id);
    size_read(reader, map, fault->row, of->kind, fault);
    if (fault_is_pour(fault->row) && !sound(reader))
        pour_wanted(reader, map, fault);
    if (fault->row->way == FAULT_WETS && !sound(reader))
        bed_soaks(of, fault);
    if (fault->row->way == FAULT_LIES && !sound(reader))
        liquid_lies(of, fault);
}

static void fault_read(struct reader *reader, const struct node *map)
{
    if (!map_wanted(reader, map, "a fault", "write {id: a, fault: leak, where: PART, diameter: 0.5 mm}"))
        return;
    struct part_end where = {0};
    const struct node *id = needed(reader, map, "id", "give it a name, like id: a");
    const struct node *kind = needed(reader, map, "fault", "write what it is, like fault: leak");
    const struct node *place = needed(reader, map, "where", "write where it sits, like where: tank.roof");
    const struct part *of = place ? where_read(reader, place, &where) : NULL;
    const struct fault_row *row = kind ? row_wanted(reader, kind, of) : NULL;
    if (row)
        fault_keys_wanted(reader, map, row);
    const char *name = id ? word_wanted(reader, id) : NULL;
    if (!row || !of || !name)
        return;
    struct fault *fault = fault_add(reader, row, (int)(of - reader->into->part), where.opening);
    fault->id = name;
    fault->at = id->at;
    id_wanted(reader, fault->at, name);
    fault_made(reader, map, fault, &where);
}

/* ---- what may come by hand ---- */

static bool fault_noted(const struct ullage_description *in, const struct fault_row *row, int part, const char *site)
{
    for (int f = 0; f < in->faults; f++)
        if (in->fault[f].row == row && in->fault[f].part == part && strcmp(in->fault[f].site, site) == 0)
            return true;
    return false;
}

/* A hole of no size, called as a hand calls it. */
static void hole_left(struct reader *reader, const struct fault_row *row, int part, const char *site, const char *name)
{
    struct ullage_description *in = reader->into;
    struct fault *fault = fault_add(reader, row, part, site);
    struct part *hole = hole_add(reader, fault, in->part[part].at);
    const struct part_end where = {in->part[part].id, site, in->part[part].at};
    hole_ends(&in->part[part], &where, hole);
    for (int r = 0; hole_rows()[r].name; r++) {
        hole->value[r] = isnan(hole_rows()[r].usual) ? 0.0 : hole_rows()[r].usual;
        hole->value_at[r] = hole->at;
    }
    if (row->given)
        hole->value[rows_find(hole_rows(), row->given)] = row->gives;
    hole->value_at[rows_find(hole_rows(), row->size)].line += hole->at.line == 0;
    hole->latent = true;
    hole->id = name;
    hole->label = hole->id;
}

static bool every_fault(const struct reader *reader)
{
    return reader->edits && reader->edits->every_fault;
}

/* A hand or the procedure puts it in by its name, as a key somewhere below. */
static bool is_key(const struct node *tree, const char *name)
{
    for (int i = 0; tree && tree->kind != NODE_WORD && i < tree->count; i++)
        if ((tree->child[i]->key && strcmp(tree->child[i]->key, name) == 0) || is_key(tree->child[i], name))
            return true;
    return false;
}

static bool fault_wanted(const struct reader *reader, const struct trees *trees, const char *name)
{
    return every_fault(reader) || is_key(node_find(trees->scenario, "by_hand"), name) || is_key(trees->procedure, name);
}

static const char *fault_called(struct reader *reader, const struct fault_row *row, const char *part, const char *site)
{
    return reader_text(reader, arena_format(reader->arena, "%s %s%s%s", row->name, part, *site ? "." : "", site));
}

/* The holes of one row that may come to a part: counted, or added. */
static int holes_of(struct reader *reader, const struct trees *trees, const struct fault_row *row, int part,
                    bool adding)
{
    struct ullage_description *in = reader->into;
    const char *site[OPENINGS_MOST];
    const int sites = fault_sites(row, &in->part[part], site);
    int count = 0;
    for (int s = 0; s < sites; s++) {
        const char *name = fault_called(reader, row, in->part[part].id, site[s]);
        if (fault_noted(in, row, part, site[s]) || !fault_wanted(reader, trees, name))
            continue;
        count++;
        if (adding)
            hole_left(reader, row, part, site[s], name);
    }
    return count;
}

/* What a fault that may come needs beside a sound part. */
static void part_awaits(struct reader *reader, const struct trees *trees, const struct fault_row *row,
                        struct part *part)
{
    const bool soaks = row->way == FAULT_WETS, lies = row->way == FAULT_LIES && !liquid_fits(part, row);
    if (!(row->keeps || soaks || lies) || !fault_wanted(reader, trees, fault_called(reader, row, part->id, "")))
        return;
    part->keeps = part->keeps || row->keeps;
    part->awaits = part->awaits || soaks || lies;
}

/* All that could still be put in and needs something made for it: how many holes. */
static int holes_left(struct reader *reader, const struct trees *trees, int parts, bool adding)
{
    struct ullage_description *in = reader->into;
    const struct fault_row *row = NULL;
    int count = 0;
    for (int k = 0; k < parts; k++)
        for (int r = 0; in->part[k].kind && in->part[k].id && (row = fault_at(in->part[k].kind, r)); r++) {
            struct part *part = &in->part[k];
            if (isnan(row->usual) || !fault_fits(row, part, in->part, parts))
                continue;
            part_awaits(reader, trees, row, part);
            count += fault_is_hole(row) ? holes_of(reader, trees, row, k, adding) : 0;
        }
    return count;
}

static bool lists_grow(struct reader *reader, int more)
{
    struct ullage_description *in = reader->into;
    struct part *part = reader_take(reader, (size_t)(in->parts + more) * sizeof *part);
    struct fault *fault = reader_take(reader, (size_t)(in->faults + more) * sizeof *fault);
    if (!part || !fault)
        return false;
    memcpy(part, in->part, (size_t)in->parts * sizeof *part);
    memcpy(fault, in->fault, (size_t)in->faults * sizeof *fault);
    in->part = part;
    in->fault = fault;
    return true;
}

static int listed(const struct node *list)
{
    return list && list->kind == NODE_LIST ? list->count : 0;
}

void faults_read(struct reader *reader, const struct trees *trees, const struct node *list)
{
    struct ullage_description *in = reader->into;
    const int parts = in->parts; /* without holes of the list */
    in->fault = reader_take(reader, ((size_t)listed(list) + 1) * sizeof *in->fault);
    for (int i = 0; in->fault && i < listed(list); i++)
        fault_read(reader, list->child[i]);
    if (!in->fault)
        return;
    const int more = holes_left(reader, trees, parts, false);
    if (in->parts + more > PARTS_MOST)
        problem_add(reader->found, in->at, "keep the system smaller", "%d parts and holes that may come are too many",
                    in->parts + more);
    else if (more > 0 && lists_grow(reader, more))
        holes_left(reader, trees, parts, true);
}
