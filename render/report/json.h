/* report/json.h  A run as one JSON object, for other programs. */
#ifndef REPORT_JSON_H
#define REPORT_JSON_H

#include <stdio.h>

#include "report/experiment.h"

/* What the run itself does not know of how it was made. */
struct json_circumstances {
    uint64_t seed;
    double seconds; /* that following it took; the only number that differs from run to run */
};

/* False when memory ran out; failures of writing are the stream's. */
bool json_write(FILE *to, const struct experiment *of, const struct json_circumstances *circumstances);

#endif
