#!/bin/sh
# tests/invariant/bits.sh  The same bits at every level of optimisation: the library of this build against the same
# sources compiled at -O0 and at -O3, by the hash of each scenario's last state and by all that was recorded on the way.
set -eu
cd "$ULLAGE_TOP"
build=$(dirname "$ULLAGE")
room=$(mktemp -d)
trap 'rm -rf "$room"' EXIT INT TERM

cat >"$room/bits.c" <<'C'
#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdio.h>

#include "ullage.h"

int main(int count, char **path)
{
    gsl_set_error_handler_off();
    for (int k = 1; k < count; k++) {
        enum ullage_outcome outcome;
        struct ullage_problems *problems = ullage_problems_create();
        struct ullage_description *description = ullage_description_read(path[k], NULL, problems, &outcome);
        struct ullage_model *model = description ? ullage_model_create(description, problems) : NULL;
        struct ullage_run *run = model ? ullage_run_create(model, NULL) : NULL;
        if (!run || ullage_run_advance(model, run, INFINITY) != ULLAGE_FINISHED)
            return 1;
        printf("%s %016llx\n", path[k], (unsigned long long)ullage_run_hash(run));
        for (int row = 0; row < ullage_run_samples(run); row++)
            for (int c = 0; c <= ullage_model_recorded(model); c++)
                printf("%a\n", ullage_run_sample(run, row)[c]);
        ullage_run_free(run);
        ullage_model_free(model);
        ullage_description_free(description);
        ullage_problems_free(problems);
    }
    return 0;
}
C

flags="-std=c17 -D_GNU_SOURCE -ffp-contract=off -Isim"
libraries="$(pkg-config --libs gsl yaml-0.1) -lm"
sanitize=""
[ "${ULLAGE_SANITIZED:-0}" = 0 ] || sanitize="-fsanitize=address,undefined"
scenarios="scenarios/first-leak.yaml scenarios/equalise.yaml scenarios/blow-down.yaml scenarios/weather-day.yaml"

# shellcheck disable=SC2086
gcc $flags $sanitize -o "$room/build" "$room/bits.c" "$build/libullage.a" $libraries
"$room/build" $scenarios >"$room/build.txt"
for level in -O0 -O3; do
    mkdir "$room/objects"
    find sim -name '*.c' | xargs -P 2 -I{} sh -c 'gcc '"$flags $level"' -c -o "$1/$(echo "$2" | tr / -).o" "$2"' \
        compile "$room/objects" {}
    gcc $flags $level -o "$room/level" "$room/bits.c" "$room"/objects/*.o $libraries
    "$room/level" $scenarios >"$room/level.txt"
    cmp "$room/build.txt" "$room/level.txt" || { echo "bits.sh: $level gives other bits" >&2; exit 1; }
    rm -r "$room/objects"
done
echo "the same bits in this build, at -O0 and at -O3: $(wc -l <"$room/build.txt") numbers"
