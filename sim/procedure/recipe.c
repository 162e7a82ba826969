/* sim/procedure/recipe.c  Names and numbers, a line each; numbers as their 64 bits, so that the text is the same wherever the
 * values are, and another one wherever they are not. */
#include "procedure/recipe.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define METHOD 1 /* raised when what is done with these inputs changes in a way that its first steps do not show */

static void put(FILE *to, const char *name, const double *value, int count)
{
    fputs(name, to);
    for (int k = 0; k < count; k++) {
        uint64_t bits;
        memcpy(&bits, &value[k], sizeof bits);
        fprintf(to, " %016" PRIx64, bits);
    }
    fputc('\n', to);
}

static void part_put(FILE *to, const struct part *part)
{
    fprintf(to, "part %s\n", part->kind->name);
    put(to, "numbers", part->value, ROWS_MOST);
    for (int b = 0; b < part->beds; b++) {
        fprintf(to, "bed");
        for (int w = 0; w < words_count(part->kind->bed_word); w++)
            fprintf(to, " %d", part->bed[b].word[w]);
        put(to, "", part->bed[b].value, BED_ROWS_MOST);
    }
}

static void gas_put(FILE *to, const struct species *gas, double diffusion_volume, const struct adsorbate *held)
{
    fprintf(to, "gas %s\n", gas->name);
    put(to, "numbers", (const double[]){gas->molar_mass, gas->heat_capacity, gas->heat_slope, diffusion_volume}, 4);
    put(to, "viscosity", gas->viscosity, 4);
    put(to, "conductivity", gas->conductivity, 4);
    put(to, "affinity", held->affinity, CARBON_SITES);
    put(to, "heat", &held->heat, 1);
}

static void gases_put(FILE *to, const struct fill *fill)
{
    const struct species *air = species_at(0);
    gas_put(to, air, species_diffusion_volume(0), &adsorbate_table(NULL)[adsorbate_find(air->name)]);
    for (int k = 0; k < fill->fuels; k++) {
        const struct adsorbate held = adsorbate_of(&fill->fuel[k]);
        gas_put(to, &fill->fuel[k].gas, fill->fuel[k].diffusion_volume, &held);
    }
}

static void carbons_put(FILE *to)
{
    int count;
    const struct carbon *carbon = carbon_table(&count);
    for (int k = 0; k < count; k++) {
        const struct carbon *of = &carbon[k];
        fprintf(to, "carbon %s\n", of->name);
        put(to, "sites", of->capacity, CARBON_SITES);
        put(to, "numbers",
            (const double[]){of->density, of->void_share, of->gas_share, of->grain, of->heat_capacity, of->conductivity,
                             of->uptake_rate},
            7);
    }
}

char *recipe_text(const struct ullage_description *bench, const struct conditioning *told, double tolerance,
                  uint64_t first_steps)
{
    char *text = NULL;
    size_t length = 0;
    FILE *to = open_memstream(&text, &length);
    if (!to)
        return NULL;
    fprintf(to, "conditioning %d cycles %d heat %d rigid %d\n", METHOD, told->cycles, (int)bench->assume.heat,
            bench->assume.rigid);
    put(to, "numbers",
        (const double[]){told->until, told->volumes, tolerance, bench->assume.discharge,
                         bench->surroundings.pressure.value[0], bench->surroundings.temperature.value[0]},
        6);
    for (int k = 0; k < bench->parts; k++)
        part_put(to, &bench->part[k]);
    gases_put(to, &bench->fill);
    carbons_put(to);
    fprintf(to, "begins %016" PRIx64 "\n", first_steps);
    const bool good = !ferror(to);
    if (fclose(to) == 0 && good)
        return text;
    free(text);
    return NULL;
}
