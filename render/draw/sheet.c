/* sheet.c  Painting a frame into a file. Bytes go through report/output, so that an old file stays whole when the new one
 * cannot be finished. SVG and PDF carry no clock: the same frame, the same bytes. */
#include "draw/sheet.h"

#include "draw/painter.h"
#include "report/output.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

#define NO_CLOCK "2000-01-01T00:00:00Z" /* of every PDF */

enum sheet_form sheet_form(const char *path)
{
    static const struct {
        const char *ending;
        enum sheet_form form;
    } forms[] = {{".png", SHEET_PNG}, {".svg", SHEET_SVG}, {".pdf", SHEET_PDF}};

    if (!strcmp(path, "-"))
        return SHEET_PNG;
    const size_t length = strlen(path);
    for (size_t k = 0; k < sizeof forms / sizeof forms[0]; k++) {
        const size_t tail = strlen(forms[k].ending);
        if (length > tail && !strcasecmp(path + length - tail, forms[k].ending))
            return forms[k].form;
    }
    return SHEET_UNKNOWN;
}

static cairo_status_t write_bytes(void *closure, const unsigned char *bytes, unsigned count)
{
    return fwrite(bytes, 1, count, closure) == count ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_WRITE_ERROR;
}

static cairo_surface_t *surface_make(enum sheet_form form, const struct painter_fit *fit, FILE *stream)
{
    if (form == SHEET_PNG)
        return cairo_image_surface_create(CAIRO_FORMAT_RGB24, fit->width, fit->height);
    if (form == SHEET_SVG)
        return cairo_svg_surface_create_for_stream(write_bytes, stream, fit->width, fit->height);
    cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(write_bytes, stream, fit->width, fit->height);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, NO_CLOCK);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, "model for teaching");
    return pdf;
}

static cairo_status_t paint(struct painter *painter, const struct frame *frame, const struct painter_fit *fit,
                            enum sheet_form form, FILE *stream)
{
    cairo_surface_t *surface = surface_make(form, fit, stream);
    cairo_t *to = cairo_create(surface);
    if (form == SHEET_PNG)
        painter_paint(painter, frame, to, fit);
    else
        painter_paint_whole(painter, frame, to, fit);
    cairo_status_t status = cairo_status(to);
    cairo_destroy(to);
    if (status == CAIRO_STATUS_SUCCESS && form == SHEET_PNG)
        status = cairo_surface_write_to_png_stream(surface, write_bytes, stream);
    cairo_surface_finish(surface);
    if (status == CAIRO_STATUS_SUCCESS)
        status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    return status;
}

enum draw_outcome sheet_write(struct painter *painter, const struct frame *frame, const struct painter_fit *fit,
                              const char *path, char *trouble)
{
    const enum sheet_form form = sheet_form(path);
    int failure = 0;
    trouble[0] = '\0';
    if (form == SHEET_UNKNOWN) {
        snprintf(trouble, DRAW_TROUBLE, "%s: a picture's name ends in .png, .svg or .pdf", path);
        return DRAW_BAD_INPUT;
    }
    struct output *output = output_open(path, &failure);
    if (!output) {
        snprintf(trouble, DRAW_TROUBLE, "%s: %s", path, strerror(failure));
        return DRAW_UNWRITABLE;
    }
    const cairo_status_t status = paint(painter, frame, fit, form, output_stream(output));
    if (status != CAIRO_STATUS_SUCCESS && status != CAIRO_STATUS_WRITE_ERROR) {
        snprintf(trouble, DRAW_TROUBLE, "%s: %s", path, cairo_status_to_string(status));
        output_drop(output);
        return DRAW_UNWRITABLE;
    }
    failure = output_close(output);
    if (!failure && status == CAIRO_STATUS_WRITE_ERROR)
        failure = EIO;
    if (failure) {
        snprintf(trouble, DRAW_TROUBLE, "%s: %s", path, strerror(failure));
        return DRAW_UNWRITABLE;
    }
    return DRAW_GOOD;
}
