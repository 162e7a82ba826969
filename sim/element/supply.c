/* sim/element/supply.c  A regulated gas supply: a source at its set pressure over the surroundings, a hose with its own
 * gas and friction, and a limit to what the regulator passes. */
#include "element/elements.h"
#include "law/passages.h"
#include "law/sum.h"

enum { GAUGE_PRESSURE, FLOW_LIMIT, HOSE_BORE, HOSE_LENGTH };

enum { GAS, TRACER };

#define HOSE_WALL 2e-3 /* m, rubber taken as plastic */
#define HOSE_OUTER 8.0 /* W/m2/K, still air */
#define HOSE_FILM 10.0 /* W/m2/K: Nusselt 3.66 at 10 mm */

static const struct row supply_parameter[] = {
    {"gauge_pressure", ULLAGE_PRESSURE, REQUIRED, -9e4, 2e6, "its regulator's setting over the surroundings", true},
    {"flow_limit", ULLAGE_VOLUME_FLOW, 20e-3 / 60.0, 1e-9, 10.0, "most it passes, at 20 degC and 101325 Pa", true},
    {"hose_bore", ULLAGE_LENGTH, 10e-3, 1e-3, 0.1, "inside diameter of its hose", false},
    {"hose_length", ULLAGE_LENGTH, 2.0, 0.01, 100.0, "of its hose", false},
    {0}};

static const char *const tracers[] = {"none", "smoke", NULL};
static const struct word_row supply_word[] = {
    {"gas", NULL, 1, "what it feeds"}, {"tracer", tracers, 0, "what rides along and can be seen"}, {0}};

static const struct end_row supply_end[] = {{"join", false, "port it is joined to from the start"}, {0}};
static const struct command_row supply_command[] = {{"on", 1.0}, {"off", 0.0}, {0}};

static const struct show_row supply_shows[] = {
    {"set_pressure", ULLAGE_PRESSURE, "setting of its regulator over the surroundings"},
    {"open", ULLAGE_NUMBER, "1 on, 0 off"},
    {0}};

static double supply_pressure(const struct boundary_view *at)
{
    return at->ambient + at->parameter[GAUGE_PRESSURE];
}

static void supply_stores(struct blueprint *into, int part)
{
    const struct part *here = &into->part[part];
    struct boundary_plan source = {.part = part, .pressure = supply_pressure};
    source.share[here->word[GAS]] = 1.0;
    if (here->word[TRACER] == 1)
        source.share[species_find("smoke")] = 1.0;
    blueprint_opening(into, part, "source", blueprint_boundary(into, source));
    const double bore = here->value[HOSE_BORE];
    const struct shell shell = {M_PI * bore * here->value[HOSE_LENGTH], HOSE_WALL, HOSE_FILM, HOSE_OUTER, SURFACE_LIES, bore};
    const double volume = 0.25 * M_PI * bore * bore * here->value[HOSE_LENGTH];
    blueprint_opening(into, part, "", blueprint_volume(into, shell_plan(part, volume, 0.0, shell)));
}

static struct flow supply_flow(const struct passage_view *at, const struct gas *a, const struct gas *b)
{
    if (!(at->opening > 0.0))
        return (struct flow){0};
    const double *p = at->parameter;
    const double most = p[FLOW_LIMIT] * STANDARD_PRESSURE / (GAS_CONSTANT * STANDARD_TEMPERATURE);
    return flow_times(flow_held_under(tube_flow(p[HOSE_BORE], p[HOSE_LENGTH], 0.0, 0.0, a, b), most), at->opening);
}

static void supply_passages(struct blueprint *into, int part)
{
    blueprint_passage(into, (struct passage_plan){.part = part,
                                                  .a = blueprint_place(into, part, "source"),
                                                  .b = blueprint_place(into, part, ""),
                                                  .law = supply_flow,
                                                  .joint_of = -1,
                                                  .bore = into->part[part].value[HOSE_BORE]});
}

static void supply_show(const struct part_look *at, double *shown, signed char *off_scale)
{
    (void)off_scale;
    shown[0] = at->set[GAUGE_PRESSURE];
    shown[1] = at->opening;
}

const struct element_kind supply_kind = {
    .name = "supply",
    .meaning = "regulated gas with a hose and a limit of flow",
    .parameter = supply_parameter,
    .fault = supply_fault,
    .word = supply_word,
    .end = supply_end,
    .command = supply_command,
    .shows = supply_shows,
    .has_volumes = true,
    .feeds = true,
    .stores = supply_stores,
    .passages = supply_passages,
    .show = supply_show,
};
