/* font.c  Inter where it is installed (Debian: fonts-inter), else DejaVu Sans; never a silent third. Layouts are kept in a
 * table by text, size and weight, so that a frame of a hundred texts sets only those that changed. */
#include "draw/font.h"

#include "draw/frames.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SLOTS = 2048, TEXT_KEPT = 120 };

struct kept {
    char text[TEXT_KEPT];
    float size;
    int weight;
    PangoLayout *layout;
    double width, baseline;
};

struct font {
    PangoFontMap *map;
    PangoContext *context;
    PangoAttrList *features;
    const char *family;
    struct kept slot[SLOTS];
};

/* Whether the family that answers is the one asked for: fontconfig gives another in silence. */
static bool family_there(PangoContext *context, const char *family)
{
    PangoFontDescription *wanted = pango_font_description_new();
    pango_font_description_set_family(wanted, family);
    PangoFont *found = pango_context_load_font(context, wanted);
    pango_font_description_free(wanted);
    if (!found)
        return false;
    PangoFontDescription *got = pango_font_describe(found);
    const char *name = pango_font_description_get_family(got);
    const bool same = name && !strncmp(name, family, strlen(family));
    pango_font_description_free(got);
    g_object_unref(found);
    return same;
}

static const char *family_find(PangoContext *context)
{
    static const char *const families[] = {"Inter", "DejaVu Sans"};
    for (size_t k = 0; k < sizeof families / sizeof families[0]; k++)
        if (family_there(context, families[k]))
            return families[k];
    return NULL;
}

static void context_prepare(PangoContext *context)
{
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF); /* the same widths at every scale */
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
}

struct font *font_create(char *trouble)
{
    struct font *font = calloc(1, sizeof *font);
    trouble[0] = '\0';
    if (!font) {
        snprintf(trouble, DRAW_TROUBLE, "no memory for fonts");
        return NULL;
    }
    font->map = pango_cairo_font_map_new();
    font->context = pango_font_map_create_context(font->map);
    context_prepare(font->context);
    font->family = family_find(font->context);
    if (!font->family) {
        snprintf(trouble, DRAW_TROUBLE,
                 "no font to write with: neither Inter nor DejaVu Sans is installed (Debian: fonts-inter, "
                 "fonts-dejavu-core)");
        font_free(font);
        return NULL;
    }
    font->features = pango_attr_list_new();
    pango_attr_list_insert(font->features, pango_attr_font_features_new("tnum=1, calt=0"));
    return font;
}

void font_free(struct font *font)
{
    if (!font)
        return;
    for (int k = 0; k < SLOTS; k++)
        if (font->slot[k].layout)
            g_object_unref(font->slot[k].layout);
    if (font->features)
        pango_attr_list_unref(font->features);
    if (font->context)
        g_object_unref(font->context);
    if (font->map)
        g_object_unref(font->map);
    free(font);
}

const char *font_family(const struct font *font)
{
    return font->family;
}

static PangoLayout *layout_make(const struct font *font, const char *text, double size, int weight)
{
    PangoLayout *layout = pango_layout_new(font->context);
    PangoFontDescription *description = pango_font_description_new();
    pango_font_description_set_family_static(description, font->family);
    pango_font_description_set_absolute_size(description, size * PANGO_SCALE);
    pango_font_description_set_weight(description, (PangoWeight)weight);
    pango_layout_set_font_description(layout, description);
    pango_font_description_free(description);
    pango_layout_set_attributes(layout, font->features);
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango_layout_set_text(layout, text, -1);
    return layout;
}

static uint32_t text_hash(const char *text, float size, int weight)
{
    uint32_t hash = 2166136261u ^ (uint32_t)weight * 7919u ^ (uint32_t)(size * 64.0f) * 104729u;
    for (const char *c = text; *c; c++)
        hash = (hash ^ (unsigned char)*c) * 16777619u;
    return hash;
}

static bool is_kept(const struct kept *kept, const char *text, float size, int weight)
{
    return kept->layout && kept->weight == weight && !(kept->size < size) && !(size < kept->size) &&
           !strcmp(kept->text, text);
}

PangoLayout *font_set(struct font *font, const char *text, double size, int weight, double *width, double *baseline)
{
    struct kept *kept = &font->slot[text_hash(text, (float)size, weight) % SLOTS];
    if (!is_kept(kept, text, (float)size, weight)) {
        if (kept->layout)
            g_object_unref(kept->layout);
        kept->layout = layout_make(font, text, size, weight);
        kept->size = (float)size;
        kept->weight = weight;
        /* a text too long for the table is set anew each time: what is kept of it never matches */
        snprintf(kept->text, sizeof kept->text, "%s", text);
        PangoRectangle box;
        pango_layout_get_extents(kept->layout, NULL, &box);
        kept->width = (double)box.width / PANGO_SCALE;
        kept->baseline = (double)pango_layout_get_baseline(kept->layout) / PANGO_SCALE;
    }
    *width = kept->width;
    *baseline = kept->baseline;
    return kept->layout;
}
