/* command/deliver.c  The files that `run` was asked for. */
#include "command/deliver.h"

#include "command/interrupt.h"
#include "report/csv.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#ifndef ULLAGE_NO_PLOT
#include "draw/frames.h"
#include "draw/plot.h"
#endif

static bool is_stdout(const char *path)
{
    return path && strcmp(path, "-") == 0;
}

bool delivery_uses_stdout(const struct delivery *delivery)
{
    return is_stdout(delivery->csv) || is_stdout(delivery->json) || is_stdout(delivery->plot);
}

void unwritable_print(const char *path, int failure)
{
    if (failure != EPIPE)
        fprintf(stderr, "ullage: %s cannot be written: %s\n", is_stdout(path) ? "standard output" : path,
                strerror(failure));
}

/* ---- before the run ---------------------------------------------------------------------------------------------- */

bool place_same(const char *a, const char *b)
{
    struct stat first;
    struct stat second;
    if (strcmp(a, b) == 0)
        return true;
    if (is_stdout(a) || is_stdout(b) || stat(a, &first) != 0 || stat(b, &second) != 0)
        return false;
    return S_ISREG(first.st_mode) && first.st_dev == second.st_dev && first.st_ino == second.st_ino;
}

static bool plot_check(const char *plot)
{
#ifdef ULLAGE_NO_PLOT
    (void)plot;
    fputs("ullage run: this build draws no plots: it was made without cairo (ULLAGE_PLOT=OFF)\n", stderr);
    return false;
#else
    if (is_stdout(plot) || plot_takes(plot))
        return true;
    fprintf(stderr, "ullage run: --plot %s: give the name an ending that says what to draw: .svg, .png or .pdf\n",
            plot);
    return false;
#endif
}

bool delivery_check(const struct delivery *delivery, const char *scenario, const char *other)
{
    const char *const path[] = {delivery->csv, delivery->json, delivery->plot};
    const char *const option[] = {"--csv", "--json", "--plot"};
    for (int i = 0; i < 3; i++) {
        if (!path[i])
            continue;
        if (place_same(path[i], scenario) || (other && place_same(path[i], other))) {
            fprintf(stderr, "ullage run: %s %s would write over the scenario\n", option[i], path[i]);
            return false;
        }
        for (int j = 0; j < i; j++)
            if (path[j] && place_same(path[i], path[j])) {
                fprintf(stderr, "ullage run: %s and %s both go to %s\n", option[j], option[i], path[i]);
                return false;
            }
    }
    return !delivery->plot || plot_check(delivery->plot);
}

static enum exit_code one_open(const char *path, struct output **output)
{
    int failure = 0;
    if (!path)
        return EXIT_DONE;
    *output = output_open(path, &failure);
    if (*output)
        return EXIT_DONE;
    unwritable_print(path, failure);
    return EXIT_FILE;
}

enum exit_code delivery_open(struct delivery *delivery)
{
    if (one_open(delivery->csv, &delivery->csv_output) == EXIT_DONE &&
        one_open(delivery->json, &delivery->json_output) == EXIT_DONE)
        return EXIT_DONE;
    delivery_drop(delivery);
    return EXIT_FILE;
}

void delivery_drop(struct delivery *delivery)
{
    output_drop(delivery->csv_output);
    output_drop(delivery->json_output);
    delivery->csv_output = NULL;
    delivery->json_output = NULL;
}

/* ---- after the run ----------------------------------------------------------------------------------------------- */

/* Puts a file in its place, unless Ctrl-C has come meanwhile. */
static enum exit_code one_close(const char *path, struct output **output)
{
    struct output *closing = *output;
    *output = NULL;
    if (*interrupt_flag()) {
        output_drop(closing);
        return EXIT_FILE;
    }
    const int failure = output_close(closing);
    if (failure)
        unwritable_print(path, failure);
    return failure ? EXIT_FILE : EXIT_DONE;
}

static enum exit_code json_deliver(struct delivery *delivery, const struct experiment *of,
                                   const struct json_circumstances *circumstances)
{
    if (json_write(output_stream(delivery->json_output), of, circumstances))
        return one_close(delivery->json, &delivery->json_output);
    fputs("ullage: memory ran out\n", stderr);
    output_drop(delivery->json_output);
    delivery->json_output = NULL;
    return EXIT_NUMBERS;
}

static enum exit_code plot_deliver(const struct delivery *delivery, const struct experiment *of,
                                   const struct experiment *other, enum figure_units units)
{
#ifdef ULLAGE_NO_PLOT
    (void)delivery, (void)of, (void)other, (void)units;
    return EXIT_BAD_INPUT; /* delivery_check has said so */
#else
    char trouble[DRAW_TROUBLE] = "";
    const struct plot_source main = {of->model, of->run, other ? "this" : NULL};
    struct plot_source behind = {NULL, NULL, "other"};
    if (other)
        behind = (struct plot_source){other->model, other->run, "other"};
    if (plot_write(&main, other ? &behind : NULL, delivery->plot, units == FIGURE_SI, trouble))
        return EXIT_DONE;
    fprintf(stderr, "ullage: %s\n", trouble);
    return EXIT_FILE;
#endif
}

enum exit_code delivery_write(struct delivery *delivery, const struct experiment *of, const struct experiment *other,
                              const struct json_circumstances *circumstances, enum figure_units units)
{
    enum exit_code code[3] = {EXIT_DONE, EXIT_DONE, EXIT_DONE};

    if (delivery->csv_output) {
        csv_write(output_stream(delivery->csv_output), of, interrupt_flag());
        code[0] = one_close(delivery->csv, &delivery->csv_output);
    }
    if (delivery->json_output)
        code[1] = json_deliver(delivery, of, circumstances);
    if (delivery->plot && !*interrupt_flag())
        code[2] = plot_deliver(delivery, of, other, units);
    return code[0] != EXIT_DONE ? code[0] : code[1] != EXIT_DONE ? code[1] : code[2];
}
