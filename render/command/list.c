/* command/list.c  `ullage list`: what there is, from the tables that the readers themselves use. */
#include "command/command.h"
#include "command/faults.h"
#include "command/options.h"
#include "command/scenario.h"
#include "report/comparison.h"
#include "report/page.h"

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { PATH_ROOM = 4096, KINDS_OFFERED = 64 };

enum { OPTION_READINGS };

static const struct option_row list_option[] = {
    {"readings", "SCENARIO", NULL, false,
     "of faults: runs the scenario sound and with each fault at its usual size, and prints a table of readings"},
    {0}};

static const char *const list_example[] = {"ullage list parts",
                                           "ullage list parts tank",
                                           "ullage list faults heron",
                                           "ullage list faults --readings scenarios/smoke-test.yaml",
                                           "ullage list channels scenarios/first-leak.yaml",
                                           "ullage list units",
                                           NULL};

/* One thing that can be listed. */
struct subject {
    const char *name, *operand; /* operand: what may follow; "" nothing */
    int least, most;            /* operands after the name */
    const char *meaning;
    enum exit_code (*write)(FILE *to, const struct words *words);
};

/* A row of two columns, the second wrapped. */
static void row_write(FILE *to, const char *name, int width, const char *meaning)
{
    struct page page = {.to = to};
    char head[CELL_MOST + 4];
    snprintf(head, sizeof head, "%.*s", CELL_MOST, name);
    page_begin(&page, width, head);
    page_put(&page, "%s", meaning);
    page_end(&page);
}

/* ---- files ------------------------------------------------------------------------------------------------------- */

static int is_yaml(const struct dirent *entry)
{
    const char *dot = strrchr(entry->d_name, '.');
    return dot && dot != entry->d_name && strcmp(dot, ".yaml") == 0;
}

/* The files of one folder: the name by which a scenario names them, then what they are about. Returns how many. */
static int folder_write(FILE *to, const char *folder, const char *kind)
{
    struct dirent **entry = NULL;
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s/%s", folder, kind);
    const int count = scandir(path, &entry, is_yaml, alphasort);
    for (int i = 0; i < count; i++) {
        struct ullage_heading heading = {0};
        char name[64];
        snprintf(path, sizeof path, "%s/%s/%s", folder, kind, entry[i]->d_name);
        snprintf(name, sizeof name, "%.*s", (int)(strlen(entry[i]->d_name) - strlen(".yaml")), entry[i]->d_name);
        const bool good = ullage_heading_read(path, &heading);
        row_write(to, name, 20, good ? heading.about : "cannot be read: see ullage check");
        fprintf(to, "%20s%s\n", "", path);
        free(entry[i]);
    }
    free(entry);
    return count > 0 ? count : 0;
}

static bool same_folder(const char *a, const char *b)
{
    struct stat first;
    struct stat second;
    return stat(a, &first) == 0 && stat(b, &second) == 0 && first.st_dev == second.st_dev &&
           first.st_ino == second.st_ino;
}

/* `kind` as a folder: "systems", "procedures"; here, and where scenarios anywhere find them. Each folder once, and of those
 * that came with the program the first that holds any. */
static enum exit_code files_write(FILE *to, const char *kind)
{
    const char *const near[] = {".", "scenarios"};
    int count = 0;
    for (int i = 0; i < 2; i++)
        count += folder_write(to, near[i], kind);
    int shipped = 0;
    for (const char *const *folder = search_folders(); *folder && shipped == 0; folder++)
        shipped = same_folder(*folder, near[0]) || same_folder(*folder, near[1]) ? 1 : folder_write(to, *folder, kind);
    if (count + shipped == 0)
        fprintf(to, "No %s are found here, nor where the program was installed.\n", kind);
    return EXIT_DONE;
}

static enum exit_code systems_write(FILE *to, const struct words *words)
{
    (void)words;
    return files_write(to, "systems");
}

static enum exit_code procedures_write(FILE *to, const struct words *words)
{
    (void)words;
    return files_write(to, "procedures");
}

/* ---- parts ------------------------------------------------------------------------------------------------------- */

/* "0 mm to 500 mm", "must be given", "open, shut". */
static void range_write(FILE *to, const struct ullage_parameter *parameter)
{
    char usual[FIGURE_ROOM];
    char least[FIGURE_ROOM];
    char most[FIGURE_ROOM];
    struct page page = {.to = to};
    page_begin(&page, 4, "");
    if (strcmp(parameter->form, "table") == 0) {
        page_put(&page, "%s", parameter->choices);
    } else if (*parameter->choices) {
        page_put(&page, "one of: %s", parameter->choices);
    } else if (strcmp(parameter->form, "number") == 0) {
        page_put(&page, "%s to %s;", figure_plain(parameter->least, parameter->dimension, least),
                 figure_plain(parameter->most, parameter->dimension, most));
        if (isnan(parameter->usual))
            page_put(&page, "must be given");
        else if (parameter->usual < parameter->least)
            page_put(&page, "worked out where it is left out");
        else
            page_put(&page, "usual %s", figure_plain(parameter->usual, parameter->dimension, usual));
    } else {
        page_put(&page, "names a part, an opening of one, or air");
    }
    page_end(&page);
}

/* What stands in a list comes last, under the path that `--set` and `change` take. */
static void parameters_write(FILE *to, int kind)
{
    const char *list = "";
    for (int i = 0; i < ullage_kind_parameters(kind); i++) {
        const struct ullage_parameter parameter = ullage_kind_parameter(kind, i);
        const bool listed = *parameter.list != '\0';
        char name[FIGURE_ROOM];
        if (listed && strcmp(parameter.list, list) != 0)
            fprintf(to, "%s: [{...}, ...], from the tank's side to the air's; of each:\n", parameter.list);
        list = parameter.list;
        snprintf(name, sizeof name, "  %.20s%s%.40s", list, listed ? ".N." : "", parameter.name);
        row_write(to, name, 24, parameter.meaning);
        range_write(to, &parameter);
    }
    if (*list)
        fprintf(to, "Numbered from 1:  --set ID.%s.1.NAME=VALUE, or change: {ID.%s.1.NAME: VALUE}\n", list, list);
}

static enum exit_code part_unknown(const char *word)
{
    const char *name[KINDS_OFFERED];
    int count = 0;
    for (; count < ullage_kinds() && count < KINDS_OFFERED; count++)
        name[count] = ullage_kind_at(count).name;
    return unknown_print("ullage list: there is no part type", word, name, count, "ullage list parts");
}

static enum exit_code parts_write(FILE *to, const struct words *words)
{
    const int kinds = ullage_kinds();
    if (words->operands == 1) {
        for (int kind = 0; kind < kinds; kind++)
            row_write(to, ullage_kind_at(kind).name, 16, ullage_kind_at(kind).meaning);
        return EXIT_DONE;
    }
    const int kind = kind_find(words->operand[1]);
    if (kind >= 0) {
        fprintf(to, "%s: %s\n", ullage_kind_at(kind).name, ullage_kind_at(kind).meaning);
        parameters_write(to, kind);
        return EXIT_DONE;
    }
    return part_unknown(words->operand[1]);
}

/* ---- faults ------------------------------------------------------------------------------------------------------ */

static enum exit_code faults_write(FILE *to, const struct words *words)
{
    const char *scenario = words_value(words, OPTION_READINGS);
    const char *system = words->operands > 1 ? words->operand[1] : NULL;
    if (scenario)
        return fault_readings_write(to, system, scenario);
    return system ? system_faults_write(to, system) : fault_kinds_write(to);
}

/* ---- weather ----------------------------------------------------------------------------------------------------- */

static enum exit_code weather_write(FILE *to, const struct words *words)
{
    (void)words;
    for (int k = 0; k < ullage_weathers(); k++) {
        const struct ullage_weather weather = ullage_weather_at(k);
        char meaning[256], least[FIGURE_ROOM], most[FIGURE_ROOM];
        snprintf(meaning, sizeof meaning, "%s; %s to %s", weather.meaning,
                 figure_plain(weather.least, weather.dimension, least),
                 figure_plain(weather.most, weather.dimension, most));
        row_write(to, weather.key, 26, meaning);
    }
    fprintf(
        to,
        "While a run goes on:  set: {surroundings.temperature: 35 degC ramp=20min}, straight from where it is, within\n"
        "  %g s where no ramp is told; as-in-file goes back to what the file has in the same way.\n",
        ullage_weather_at(0).soonest);
    return EXIT_DONE;
}

/* ---- blends ------------------------------------------------------------------------------------------------------ */

static enum exit_code blends_write(FILE *to, const struct words *words)
{
    (void)words;
    return files_write(to, "fuels");
}

/* ---- channels, units --------------------------------------------------------------------------------------------- */

static enum exit_code channels_write(FILE *to, const struct words *words)
{
    const struct ullage_edits edits = search_edits();
    struct ullage_model *model = NULL;
    const enum exit_code code = scenario_open(words->operand[1], &edits, &model);
    for (int i = 0; model && i < ullage_model_channels(model); i++) {
        const struct ullage_channel channel = ullage_model_channel(model, i);
        char unit[64];
        char meaning[512];
        snprintf(meaning, sizeof meaning, "%-8s %.400s", ullage_dimension_name(channel.dimension, unit),
                 channel.meaning);
        cell_put(to, channel.name, 34);
        fprintf(to, "%s\n", meaning);
    }
    ullage_model_free(model);
    return code;
}

static enum exit_code units_write(FILE *to, const struct words *words)
{
    int count = 0;
    const struct ullage_unit *unit = ullage_units(&count);
    (void)words;
    for (int i = 0; i < count; i++) {
        char room[64];
        char si[96];
        const char *base = ullage_dimension_name((int)unit[i].dimension, room);
        base = strcmp(base, "1") == 0 ? "" : base;
        if (unit[i].offset != 0.0)
            snprintf(si, sizeof si, "x %.10g + %.10g %.20s", unit[i].factor, unit[i].offset, base);
        else
            snprintf(si, sizeof si, "x %.10g %.20s", unit[i].factor, base);
        cell_put(to, unit[i].name, 12);
        cell_put(to, si, 34);
        fprintf(to, "%s\n", unit[i].meaning);
    }
    return EXIT_DONE;
}

/* ---- the command ------------------------------------------------------------------------------------------------- */

static const struct subject subjects[] = {
    {"systems", "", 0, 0, "systems that a scenario can name", systems_write},
    {"parts", "[TYPE]", 0, 1, "types of part, or the parameters of one", parts_write},
    {"faults", "[SYSTEM]", 0, 1, "faults that can be put into a system", faults_write},
    {"weather", "", 0, 0, "what of air, sun and wind a file sets, and a run may change", weather_write},
    {"procedures", "", 0, 0, "procedures that a scenario can name", procedures_write},
    {"blends", "", 0, 0, "fuels that a tank can hold", blends_write},
    {"channels", "SCENARIO", 1, 1, "numbers that a scenario shows, with unit and meaning", channels_write},
    {"units", "", 0, 0, "units that files and options may use, with what they are in SI", units_write},
};

enum { SUBJECTS = sizeof subjects / sizeof subjects[0] };

static enum exit_code subject_unknown(const char *word)
{
    const char *name[SUBJECTS];
    for (int i = 0; i < SUBJECTS; i++)
        name[i] = subjects[i].name;
    return unknown_print("ullage list: there is no list of", word, name, SUBJECTS, "ullage list --help");
}

static enum exit_code list_follow(const struct words *words, FILE *to)
{
    for (int i = 0; i < SUBJECTS; i++) {
        const struct subject *subject = &subjects[i];
        const int more = words->operands - 1;
        if (strcmp(subject->name, words->operand[0]) != 0)
            continue;
        if (words_have(words, OPTION_READINGS) && subject->write != faults_write) {
            fputs("ullage list: --readings goes with faults\n", stderr);
            return EXIT_BAD_INPUT;
        }
        if (more >= subject->least && more <= subject->most)
            return subject->write(to, words);
        fprintf(stderr, "ullage list: write ullage list %s %s\n", subject->name, subject->operand);
        return EXIT_BAD_INPUT;
    }
    return subject_unknown(words->operand[0]);
}

const struct command command_list = {
    .name = "list",
    .operands =
        "systems | parts [TYPE] | faults [SYSTEM] | weather | procedures | blends | channels FILE | units",
    .least = 1,
    .most = 2,
    .about = "Prints what there is, from the tables that files are read by.",
    .more =
        "Systems and procedures are looked for in systems/ and procedures/ here, in scenarios/ here, where the program "
        "was installed, and in the source tree it was built from.",
    .example = list_example,
    .option = list_option,
    .follow = list_follow,
};
