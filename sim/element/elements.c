/* sim/element/elements.c  The list of kinds, and how their tables are searched. A new kind: one file, one row here. */
#include "element/elements.h"

#include <string.h>

static const struct element_kind *const kinds[] = {
    &vessel_kind, &tank_kind,      &canister_kind,   &line_kind,   &hole_kind,   &valve_kind,    &cap_kind,
    &port_kind,   &supply_kind,    &meter_kind,      &gauge_kind,  &sensor_kind, &manifold_kind, &check_valve_kind,
    &relief_kind, &roll_over_kind, &fill_limit_kind, &engine_kind, &nozzle_kind, &level_sensor_kind, &temperature_sensor_kind, NULL,
};

const struct element_kind *const *element_kinds(void)
{
    return kinds;
}

const struct element_kind *element_find(const char *name)
{
    for (int k = 0; kinds[k]; k++)
        if (!strcmp(kinds[k]->name, name))
            return kinds[k];
    return NULL;
}

/* All tables begin each row with its name and end with a null name; `size` is that of a row. */
static int table_count(const void *table, size_t size)
{
    int count = 0;
    if (table)
        for (const char *row = table; *(const char *const *)(const void *)row; row += size)
            count++;
    return count;
}

static int table_find(const void *table, size_t size, const char *name)
{
    const int count = table_count(table, size);
    for (int k = 0; k < count; k++)
        if (!strcmp(*(const char *const *)(const void *)((const char *)table + (size_t)k * size), name))
            return k;
    return -1;
}

int rows_count(const struct row *rows)
{
    return table_count(rows, sizeof *rows);
}

int words_count(const struct word_row *rows)
{
    return table_count(rows, sizeof *rows);
}

int ends_count(const struct end_row *rows)
{
    return table_count(rows, sizeof *rows);
}

int shows_count(const struct show_row *rows)
{
    return table_count(rows, sizeof *rows);
}

int rows_find(const struct row *rows, const char *name)
{
    return table_find(rows, sizeof *rows, name);
}

int words_find(const struct word_row *rows, const char *name)
{
    return table_find(rows, sizeof *rows, name);
}

int ends_find(const struct end_row *rows, const char *name)
{
    return table_find(rows, sizeof *rows, name);
}
