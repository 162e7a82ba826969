/* tests/hostile/bad.c  Broken files, each answered by the built program with FILE:LINE:COLUMN, what is wrong, what would be
 * right, exit 2 (4 where the file cannot be read), in a second and 200 MB, with nothing half-written left behind.
 *
 * They stand in tests/hostile/bad/, with their places counted by hand in the table below. Large ones: large.c. */
#include "support/answer.h"

#include <dirent.h>

/* Name, file that the place is in (null: this one), line, column, words that the first sentence holds. */
static const struct bad {
    const char *name, *where;
    int line, column;
    const char *says;
} bad[] = {
    /* clang-format off */
    {"empty.yaml", NULL, 1, 1, "nothing in this file"},
    {"comments-only.yaml", NULL, 1, 1, "nothing in this file"},
    {"one-word.yaml", NULL, 1, 1, "holds keys"},
    {"a-list.yaml", NULL, 1, 1, "holds keys"},
    {"cut-in-quote.yaml", NULL, 2, 7, "quote"},
    {"cut-in-map.yaml", NULL, 4, 13, "not closed"},
    {"cut-in-list.yaml", NULL, 2, 46, "not closed"},
    {"cut-after-line.yaml", NULL, 1, 1, "no system"},
    {"cut-in-parts.yaml", NULL, 3, 9, "holds keys"},
    {"no-header.yaml", NULL, 1, 1, "ullage: scenario/1"},
    {"other-kind.yaml", NULL, 1, 9, "scenario/1"},
    {"later-version.yaml", NULL, 1, 9, "scenario/1"},
    {"header-misspelt.yaml", NULL, 1, 1, "ullage: scenario/1"},
    {"no-utf8.yaml", NULL, 3, 11, "no UTF-8"},
    {"overlong.yaml", NULL, 2, 7, "no UTF-8"},
    {"nul.yaml", NULL, 2, 8, "control character"},
    {"escape.yaml", NULL, 2, 7, "control character"},
    {"utf-16.yaml", NULL, 1, 1, "no UTF-8"},
    {"next-line.yaml", NULL, 2, 8, "control character"},
    {"line-separator.yaml", NULL, 2, 8, "control character"},
    {"byte-order-mark-inside.yaml", NULL, 2, 7, "control character"},
    {"after-byte-order-mark.yaml", NULL, 2, 1, "did you mean name?"},
    {"carriage-returns.yaml", NULL, 2, 1, "did you mean name?"},
    {"directive.yaml", NULL, 1, 1, "%"},
    {"second-document.yaml", NULL, 6, 1, "second document"},
    {"after-the-end.yaml", NULL, 7, 1, "ended"},
    {"anchor.yaml", NULL, 2, 15, "names a place"},
    {"alias.yaml", NULL, 2, 15, "refers"},
    {"tag.yaml", NULL, 2, 6, "says a type"},
    {"own-tag.yaml", NULL, 2, 15, "says a type"},
    {"merge.yaml", NULL, 2, 1, "no key of a scenario"},
    {"tab.yaml", NULL, 3, 1, "tabs"},
    {"uneven.yaml", NULL, 5, 4, "line"},
    {"list-key.yaml", NULL, 2, 3, "key"},
    {"no-colon.yaml", NULL, 3, 1, "':' is missing"},
    {"two-colons.yaml", NULL, 2, 16, "quotes"},
    {"no-space.yaml", NULL, 5, 24, "space after ':'"},
    {"no-space-in-word.yaml", NULL, 2, 15, "space after ':'"},
    {"no-comma.yaml", NULL, 5, 39, "comma"},
    {"two-commas.yaml", NULL, 5, 24, "missing before"},
    {"backslash.yaml", NULL, 2, 11, "backslash"},
    {"backtick.yaml", NULL, 2, 8, "quotes"},
    {"unknown-section.yaml", NULL, 2, 1, "did you mean surroundings?"},
    {"unknown-key.yaml", NULL, 5, 28, "did you mean volume?"},
    {"unknown-far-key.yaml", NULL, 5, 41, "it may have volume"},
    {"unknown-type.yaml", NULL, 5, 20, "did you mean vessel?"},
    {"type-missing.yaml", NULL, 5, 5, "write type:"},
    {"number-missing.yaml", NULL, 5, 5, "volume of second is missing"},
    {"end-missing.yaml", NULL, 5, 5, "to of leak is missing"},
    {"value-missing.yaml", NULL, 5, 28, "no value"},
    {"duplicate-key.yaml", NULL, 3, 1, "after line 2"},
    {"duplicate-parameter.yaml", NULL, 5, 41, "after line 5"},
    {"duplicate-id.yaml", NULL, 5, 5, "after line 4"},
    {"id-of-equipment.yaml", NULL, 3, 3, "name of another part"},
    {"id-of-fault.yaml", NULL, 2, 15, "name of another part"},
    {"id-air.yaml", NULL, 5, 5, "something else"},
    {"id-time.yaml", NULL, 5, 5, "something else"},
    {"id-of-a-key.yaml", NULL, 5, 5, "something else"},
    {"id-with-point.yaml", NULL, 5, 5, "cannot be a name"},
    {"id-with-digit-first.yaml", NULL, 5, 5, "cannot be a name"},
    {"no-parts.yaml", NULL, 3, 10, "no parts"},
    {"part-is-a-word.yaml", NULL, 5, 13, "holds keys"},
    {"unit-missing.yaml", NULL, 5, 36, "has no unit"},
    {"unit-misspelt.yaml", NULL, 2, 26, "did you mean inH2O?"},
    {"unit-in-capitals.yaml", NULL, 2, 26, "did you mean kPa?"},
    {"unit-of-another-kind.yaml", NULL, 5, 36, "30 s is a time"},
    {"unit-composed.yaml", NULL, 5, 36, "30 L/min is a flow"},
    {"negative.yaml", NULL, 5, 36, "out of range"},
    {"too-large.yaml", NULL, 5, 36, "out of range"},
    {"nan.yaml", NULL, 5, 36, "no number"},
    {"dot-nan.yaml", NULL, 5, 36, "no number"},
    {"infinity.yaml", NULL, 5, 36, "no number"},
    {"huge.yaml", NULL, 5, 36, "too large"},
    {"hexadecimal.yaml", NULL, 5, 36, "no unit"},
    {"comma.yaml", NULL, 5, 36, "point"},
    {"yes.yaml", NULL, 5, 36, "no number"},
    {"list-for-number.yaml", NULL, 5, 36, "holds a list"},
    {"map-for-number.yaml", NULL, 5, 36, "holds a map"},
    {"word-of-none.yaml", NULL, 5, 71, "did you mean shut?"},
    {"turn.yaml", NULL, 5, 47, "0, 90, 180 or 270"},
    {"centre.yaml", NULL, 5, 45, "two numbers"},
    {"link-to-nothing.yaml", NULL, 5, 30, "did you mean vessel?"},
    {"link-to-no-opening.yaml", NULL, 6, 30, "did you mean roof?"},
    {"link-to-opening-of-air.yaml", NULL, 5, 42, "names no opening"},
    {"link-to-no-gas.yaml", NULL, 6, 30, "holds no gas"},
    {"loop.yaml", NULL, 5, 5, "loop of no volume"},
    {"loop-of-valves.yaml", NULL, 5, 42, "gas space between"},
    {"hole-of-no-size.yaml", NULL, 5, 5, "diameter"},
    {"opening-too-high.yaml", NULL, 5, 65, "above its height"},
    {"relief-key.yaml", NULL, 5, 61, "did you mean hysteresis?"},
    {"relief-of-no-pressure.yaml", NULL, 5, 79, "out of range"},
    {"relief-vacuum-below-zero.yaml", NULL, 5, 77, "out of range"},
    {"relief-without-hysteresis.yaml", NULL, 5, 73, "out of range"},
    {"check-valve-of-no-bore.yaml", NULL, 5, 5, "bore of seat is missing"},
    {"roll-over-sideways.yaml", NULL, 9, 19, "upright, rolled"},
    {"fill-limit-commanded.yaml", NULL, 9, 13, "takes no command"},
    {"levels-from-above.yaml", NULL, 5, 63, "begin at the bottom"},
    {"levels-fall.yaml", NULL, 5, 91, "not above the one before"},
    {"levels-past-the-roof.yaml", NULL, 5, 76, "is 220 mm high"},
    {"levels-of-one.yaml", NULL, 5, 76, "two values"},
    {"levels-empty.yaml", NULL, 5, 62, "is empty"},
    {"levels-in-mm.yaml", NULL, 5, 77, "90 mm is a length"},
    {"trace-empty.yaml", NULL, 5, 35, "is empty"},
    {"trace-of-two.yaml", NULL, 5, 36, "three values"},
    {"trace-goes-back.yaml", NULL, 5, 81, "goes back in time"},
    {"trace-of-no-air.yaml", NULL, 5, 50, "out of range"},
    {"trace-in-litres.yaml", NULL, 5, 50, "4 L/s is a flow"},
    {"trace-and-load.yaml", NULL, 5, 5, "a trace and a load"},
    {"engine-speed.yaml", NULL, 5, 40, "out of range"},
    {"engine-of-no-load.yaml", NULL, 5, 38, "off, idle, town, motorway"},
    {"pulses-in-seconds.yaml", NULL, 5, 69, "100 ms is a time"},
    {"engine-set-to-nothing.yaml", NULL, 8, 21, "cannot be set to fast"},
    {"bed-missing.yaml", NULL, 5, 5, "has no bed"},
    {"bed-of-no-length.yaml", NULL, 5, 63, "out of range for length"},
    {"bed-without-length.yaml", NULL, 5, 39, "length"},
    {"bed-key.yaml", NULL, 5, 71, "no key of a bed"},
    {"start-of-nothing.yaml", NULL, 2, 9, "did you mean vessel?"},
    {"start-of-a-hole.yaml", NULL, 2, 9, "holds no gas"},
    {"start-twice-told.yaml", NULL, 2, 37, "keep one"},
    {"start-below-vacuum.yaml", NULL, 2, 34, "below no pressure"},
    {"start-not-isothermal.yaml", NULL, 3, 31, "isothermal"},
    {"conditioned-vessel.yaml", NULL, 2, 18, "has no beds"},
    {"conditioned-word.yaml", NULL, 2, 33, "holds keys"},
    {"conditioned-key.yaml", NULL, 2, 34, "did you mean cycles?"},
    {"conditioned-load-key.yaml", NULL, 2, 41, "did you mean gas?"},
    {"conditioned-purge-word.yaml", NULL, 2, 41, "holds keys"},
    {"conditioned-with-gas.yaml", NULL, 2, 37, "keep one"},
    {"conditioned-no-such-gas.yaml", NULL, 2, 46, "did you mean n-butane?"},
    {"conditioned-with-air.yaml", NULL, 2, 46, "cannot be nitrogen"},
    {"conditioned-share-of-fuel.yaml", NULL, 2, 52, "vapor pressure says"},
    {"conditioned-without-fuel.yaml", NULL, 2, 20, "there is no fuel"},
    {"conditioned-until-nothing.yaml", NULL, 2, 48, "out of range"},
    {"conditioned-rate.yaml", NULL, 2, 47, "40 L/min is a flow"},
    {"conditioned-volumes.yaml", NULL, 2, 51, "out of range"},
    {"conditioned-cycles.yaml", NULL, 2, 42, "no number of cycles"},
    {"conditioned-no-cycles.yaml", NULL, 2, 42, "out of range"},
    {"conditioned-too-hot.yaml", NULL, 2, 47, "out of range"},
    {"conditioned-no-carbon.yaml", NULL, 2, 20, "hold nothing"},
    {"shares.yaml", NULL, 2, 23, "90 %"},
    {"no-such-gas.yaml", NULL, 2, 23, "did you mean nitrogen?"},
    {"gas-is-smoke.yaml", NULL, 2, 23, "no gas known"},
    {"saturation.yaml", NULL, 2, 30, "from 0 to 100 %"},
    {"fill.yaml", NULL, 2, 1, "which fuel"},
    {"fill-past-the-brim.yaml", NULL, 2, 15, "out of range"},
    {"fill-swells-over-the-brim.yaml", NULL, 3, 15, "at 60 degC, as outside, this fuel swells to 102.4 %"},
    {"fill-shares.yaml", NULL, 2, 33, "90 %"},
    {"fill-shares-over.yaml", NULL, 2, 33, "101 %"},
    {"pump-on-quick.yaml", NULL, 2, 52, "mixes with no other"},
    {"pump-of-nothing.yaml", NULL, 2, 33, "which fuel"},
    {"fill-warmer-than-propane.yaml", NULL, 2, 34, "nothing is known of propane in the fuel at 65 degC"},
    {"fill-colder-than-known.yaml", NULL, 2, 34, "isobutane in the fuel at -42 degC"},
    {"surroundings-colder-than-fuel.yaml", NULL, 2, 53, "gasoline in the fuel at -45 degC"},
    {"altitude-colder-than-fuel.yaml", NULL, 2, 26, "in the fuel at -43.42 degC"},
    {"fill-unknown-component.yaml", NULL, 2, 34, "did you mean n-pentane?"},
    {"fill-told-twice.yaml", NULL, 2, 33, "told twice"},
    {"fill-no-such-blend.yaml", NULL, 2, 28, "sumer"},
    {"profile-falls.yaml", NULL, 2, 63, "not later"},
    {"profile-of-threes.yaml", NULL, 2, 30, "two values"},
    {"profile-empty.yaml", NULL, 2, 29, "no corner"},
    {"altitude-and-pressure.yaml", NULL, 2, 34, "keep one"},
    {"altitude-too-high.yaml", NULL, 2, 26, "from -1 to 11 km"},
    {"assume-heat.yaml", NULL, 2, 16, "did you mean isothermal?"},
    {"assume-discharge.yaml", NULL, 2, 21, "out of range"},
    {"let-of-nothing.yaml", NULL, 2, 14, "begin with a number"},
    {"let-called-and.yaml", NULL, 2, 7, "something else"},
    {"record-never.yaml", NULL, 2, 17, "out of range"},
    {"record-no-such-channel.yaml", NULL, 2, 21, "vessel.pressure"},
    {"record-list.yaml", NULL, 2, 20, "is a list"},
    {"seed.yaml", NULL, 2, 7, "whole number"},
    {"by-hand-backwards.yaml", NULL, 2, 49, "order of their times"},
    {"by-hand-never.yaml", NULL, 2, 11, "at is missing"},
    {"by-hand-nothing.yaml", NULL, 2, 11, "set is missing"},
    {"by-hand-no-such-part.yaml", NULL, 2, 27, "did you mean leak?"},
    {"by-hand-no-such-word.yaml", NULL, 2, 33, "plugged"},
    {"by-hand-before-its-time.yaml", NULL, 2, 52, "leave from out"},
    {"by-hand-no-such-time.yaml", NULL, 2, 47, "did you mean until?"},
    {"by-hand-list.yaml", NULL, 2, 33, "list"},
    {"by-hand-key.yaml", NULL, 2, 21, "did you mean set?"},
    {"by-hand-map.yaml", NULL, 2, 10, "list"},
    {"by-hand-joined.yaml", NULL, 2, 33, "plugged"},
    {"weather-at-once.yaml", NULL, 9, 52, "10 s at least"},
    {"weather-of-no-key.yaml", NULL, 9, 26, "these can be set"},
    {"weather-misspelt.yaml", NULL, 9, 26, "did you mean surroundings.temperature?"},
    {"weather-off.yaml", NULL, 9, 31, "as-in-file"},
    {"weather-over.yaml", NULL, 9, 47, "ramp=20min"},
    {"weather-of-no-unit.yaml", NULL, 9, 39, "unit"},
    {"weather-too-warm.yaml", NULL, 9, 39, "cannot be 200 degC"},
    {"weather-colder-than-fuel.yaml", NULL, 9, 39, "in the fuel at -60 degC"},
    {"weather-swells.yaml", NULL, 9, 39, "swells to 10"},
    {"weather-storm.yaml", NULL, 9, 32, "cannot be 90 m/s"},
    {"weather-forever.yaml", NULL, 9, 52, "soon"},
    {"weather-is-read.yaml", NULL, 2, 27, "did you mean surroundings.temperature?"},
    {"id-surroundings.yaml", NULL, 4, 5, "no part can be called surroundings"},
    {"by-hand-after-less-than-nothing.yaml", NULL, 2, 16, "out of range"},
    {"end-without-unit.yaml", NULL, 2, 6, "has no unit"},
    {"fault-of-no-kind.yaml", NULL, 2, 25, "did you mean leak?"},
    {"fault-nowhere.yaml", NULL, 2, 10, "where"},
    {"fault-in-the-air.yaml", NULL, 2, 38, "in the air"},
    {"fault-ends-first.yaml", NULL, 2, 81, "before it begins"},
    {"fault-half-repeated.yaml", NULL, 2, 62, "without"},
    {"fault-of-no-size.yaml", NULL, 2, 15, "diameter"},
    {"fault-map.yaml", NULL, 2, 9, "is a list"},
    {"fault-of-another-kind.yaml", NULL, 2, 25, "valve cannot have overfilled"},
    {"fault-poured-again.yaml", NULL, 2, 10, "again and again"},
    {"fault-of-one-substance.yaml", NULL, 2, 15, "one substance"},
    {"fault-later-without-fuel.yaml", NULL, 2, 15, "no fuel"},
    {"by-hand-poured-again.yaml", NULL, 2, 46, "again and again"},
    {"by-hand-of-one-substance.yaml", NULL, 2, 27, "one substance"},
    {"fault-of-no-unit.yaml", NULL, 2, 56, "has no unit"},
    {"fault-too-large.yaml", NULL, 2, 58, "out of range"},
    {"fault-on-an-opening.yaml", NULL, 2, 44, "name the part alone"},
    {"fault-without-fuel.yaml", NULL, 2, 15, "no fuel"},
    {"fault-called-twice.yaml", NULL, 4, 10, "name of another part"},
    {"change-of-nothing.yaml", NULL, 2, 10, "no part"},
    {"change-of-no-key.yaml", NULL, 2, 17, "did you mean volume?"},
    {"change-of-no-path.yaml", NULL, 2, 17, "no path"},
    {"change-of-bad-value.yaml", NULL, 2, 25, "has no unit"},
    {"wait-without-limit.yaml", NULL, 8, 7, "at_most"},
    {"wait-on-nothing.yaml", NULL, 8, 21, "vessel.pressure"},
    {"wait-for-a-length.yaml", NULL, 8, 19, ""},
    {"no-such-verb.yaml", NULL, 8, 7, "did you mean wait?"},
    {"two-verbs.yaml", NULL, 8, 26, "same step"},
    {"step-is-a-word.yaml", NULL, 8, 7, ""},
    {"steps-map.yaml", NULL, 7, 10, "is a list"},
    {"steps-missing.yaml", NULL, 6, 12, "no steps"},
    {"set-nothing.yaml", NULL, 8, 13, ""},
    {"join-nothing.yaml", NULL, 8, 14, ""},
    {"no-such-system.yaml", NULL, 2, 9, "no file"},
    {"no-such-procedure.yaml", NULL, 6, 12, "no file"},
    {"system-in-pieces.yaml", "systems/torn.yaml", 4, 26, "did you mean volume?"},
    {"procedure-in-pieces.yaml", "procedures/torn.yaml", 3, 5, "at_most"},
    {"system-is-a-procedure.yaml", "procedures/torn.yaml", 1, 9, "system/1"},
    /* clang-format on */
};

enum { BADS = sizeof bad / sizeof bad[0] };

/* ---- small files ---- */
static void every_bad_file_is_answered(void **state)
{
    const char *folder = *state;
    char path[200], place[300], output[300];
    snprintf(output, sizeof output, "%s/out.csv", folder);
    for (int i = 0; i < BADS; i++) {
        snprintf(path, sizeof path, "tests/hostile/bad/%s", bad[i].name);
        snprintf(place, sizeof place, "%s:%d:%d: ", bad[i].where ? bad[i].where : bad[i].name, bad[i].line,
                 bad[i].column);
        const struct answer answer = run_of(path, output);
        answer_is(path, &answer, BAD_INPUT, place, bad[i].says);
        no_file(output);
    }
}

/* A system is good where a scenario was wanted; all else is as bad for `check`. */
static void check_says_the_same(void **state)
{
    (void)state;
    char path[200], place[300];
    for (int i = 0; i < BADS; i++) {
        if (strcmp(bad[i].name, "other-kind.yaml") == 0)
            continue;
        snprintf(path, sizeof path, "tests/hostile/bad/%s", bad[i].name);
        snprintf(place, sizeof place, "%s:%d:%d: ", bad[i].where ? bad[i].where : bad[i].name, bad[i].line,
                 bad[i].column);
        const struct answer answer = check_of(path);
        answer_is(path, &answer, BAD_INPUT, place, bad[i].says);
    }
}

/* What stands in the folder stands in the table: no file is forgotten. */
static void every_bad_file_is_in_the_table(void **state)
{
    (void)state;
    DIR *folder = opendir("tests/hostile/bad");
    assert_non_null(folder);
    int files = 0;
    const struct dirent *entry;
    while ((entry = readdir(folder))) {
        const bool yaml = strstr(entry->d_name, ".yaml");
        bool known = !yaml;
        for (int i = 0; i < BADS && !known; i++)
            known = strcmp(bad[i].name, entry->d_name) == 0;
        if (!known)
            fail_msg("%s stands in no row", entry->d_name);
        files += yaml;
    }
    closedir(folder);
    assert_int_equal(files, BADS);
    assert_true(files >= 60);
}

/* ---- files that cannot be read ---- */
static void what_cannot_be_read_is_told(void **state)
{
    const char *folder = *state;
    char path[300], output[300];
    snprintf(output, sizeof output, "%s/out.csv", folder);

    struct answer answer = run_of(folder, output);
    answer_is(folder, &answer, UNREADABLE, folder, "folder");

    snprintf(path, sizeof path, "%s/nowhere.yaml", folder);
    answer = run_of(path, output);
    answer_is(path, &answer, UNREADABLE, path, "no such file");

    answer = run_of("/dev/zero", output);
    answer_is("/dev/zero", &answer, UNREADABLE, "/dev/zero", "no regular file");

    snprintf(path, sizeof path, "%s/pipe.yaml", folder);
    assert_int_equal(mkfifo(path, 0600), 0);
    answer = run_of(path, output);
    answer_is(path, &answer, UNREADABLE, path, "no regular file");
    unlink(path);

    snprintf(path, sizeof path, "%s/locked.yaml", folder);
    const int file = open(path, O_CREAT | O_WRONLY, 0600);
    assert_true(file >= 0);
    close(file);
    assert_int_equal(chmod(path, 0), 0);
    answer = run_of(path, output);
    answer_is(path, &answer, UNREADABLE, path, "may not be read");
    unlink(path);
    no_file(output);
}

/* ---- recordings ---- */
static const struct bad recordings[] = {
    {"cut.yaml", NULL, 8, 21, "not closed"},
    {"a-scenario.yaml", NULL, 1, 9, "recording/1"},
    {"no-hash.yaml", NULL, 1, 1, "hash of this recording is missing"},
    {"hash-too-short.yaml", NULL, 10, 7, "16 digits"},
    {"hash-no-digits.yaml", NULL, 10, 7, "16 digits"},
    {"seed.yaml", NULL, 4, 7, "whole number"},
    {"solver.yaml", NULL, 5, 9, "did you mean bdf?"},
    {"tolerance.yaml", NULL, 6, 12, "out of range"},
    {"end-before-last.yaml", NULL, 9, 6, "before its last command"},
    {"end-in-metres.yaml", NULL, 9, 6, "m"},
    {"never.yaml", NULL, 8, 10, "has no unit"},
    {"no-such-part.yaml", NULL, 8, 22, "did you mean leak?"},
    {"no-such-word.yaml", NULL, 8, 28, "plugged"},
    {"not-while-it-runs.yaml", NULL, 8, 29, "cannot change while a run goes on"},
    {"unknown-key.yaml", NULL, 4, 1, "did you mean seed?"},
    {"set-is-a-word.yaml", NULL, 7, 6, "list"},
};

enum { RECORDINGS = sizeof recordings / sizeof recordings[0] };

static void bad_recordings_are_answered(void **state)
{
    const char *folder = *state;
    char path[200], place[300], output[300];
    snprintf(output, sizeof output, "%s/again.yaml", folder);
    for (int i = 0; i < RECORDINGS; i++) {
        snprintf(path, sizeof path, "tests/hostile/bad-recordings/%s", recordings[i].name);
        snprintf(place, sizeof place, "%s:%d:%d: ", recordings[i].name, recordings[i].line, recordings[i].column);
        const char *const arguments[] = {
            program(), "run", "scenarios/vessel-decay.yaml", "--quiet", "--replay", path, "--record", output, NULL};
        const struct answer answer = program_runs(arguments);
        answer_is(path, &answer, BAD_INPUT, place, recordings[i].says);
        no_file(output);
    }
}

/* What stands in `set` is answered as on the command line. */
static void edits_of_a_recording_are_answered(void **state)
{
    (void)state;
    const char *const arguments[] = {program(), "run",      "scenarios/vessel-decay.yaml",
                                     "--quiet", "--replay", "tests/hostile/bad-recordings/set-of-nothing.yaml",
                                     NULL};
    const struct answer answer = program_runs(arguments);
    answer_is("set", &answer, BAD_INPUT, "--set leek.diameter=1mm:1:1: ", "did you mean leak?");
}

/* ---- what is said on top of a good file ---- */
static const struct {
    const char *option, *text, *place, *says;
} edits[] = {
    {"--set", "leak.diametre=1mm", "--set leak.diametre=1mm:1:6: ", "did you mean diameter?"},
    {"--set", "leek.diameter=1mm", "--set leek.diameter=1mm:1:1: ", "did you mean leak?"},
    {"--set", "leak.diameter=1", "--set leak.diameter=1:1:15: ", "has no unit"},
    {"--set", "leak.diameter", "--set leak.diameter:1:1: ", "no ="},
    {"--set", "leak=1mm", "--set leak=1mm:1:1: ", "name one of its keys"},
    {"--set", "=1mm", "--set =1mm:1:1: ", "no path"},
    {"--set", "", "--set :1:1: ", "no ="},
    {"--set", "leak.diameter.x=1mm", "--set leak.diameter.x=1mm:1:1: ", "through a value"},
    {"--set", "surroundings.altitude=9 miles", "--set surroundings.altitude=9 miles:1:23: ", "no unit"},
    {"--set", "surroundings.temperature=[[0 s, 20 degC], [1 h]]",
     "--set surroundings.temperature=[[0 s, 20 degC], [1 h]]:1:43: ", "two values"},
    {"--set", "start.vesel.pressure=1 bar", "--set start.vesel.pressure=1 bar:1:7: ", "did you mean vessel?"},
    {"--set", "let.limit=0.5mm", "--set let.limit=0.5mm:1:5: ", "nothing is called limit"},
    {"--set", "faults.a.diameter=1mm", "--set faults.a.diameter=1mm:1:8: ", "no fault is called a"},
    {"--set", "assume.heat=cold", "--set assume.heat=cold:1:13: ", "isothermal or adiabatic"},
    {"--set", "seed=-5", "--set seed=-5:1:6: ", "whole number"},
    {"--set", "fill.level=40%", "--set fill.level=40%:1:1: ", "which fuel"},
    {"--set", "leak.diameter=\xff", "--set leak.diameter=?:1:15: ", "no UTF-8"},
    {"--fault", "leak", "--fault leak:1:1: ", "its place"},
    {"--fault", "leek vessel diameter=1mm", "--fault leek vessel diameter=1mm:1:1: ", "did you mean leak?"},
    {"--fault", "leak vesel diameter=1mm", "--fault leak vesel diameter=1mm:1:6: ", "did you mean vessel?"},
    {"--fault", "leak vessel diametre=1mm", "--fault leak vessel diametre=1mm:1:13: ", "did you mean diameter?"},
    {"--fault", "leak vessel diameter=1", "--fault leak vessel diameter=1:1:22: ", "has no unit"},
    {"--fault", "leak vessel", "--fault leak vessel:1:1: ", "diameter"},
    {"--fault", "stuck-open vessel", "--fault stuck-open vessel:1:1: ", "it can have leak"},
    {"--fault", "pressure-low leak share=30%", "--fault pressure-low leak share=30%:1:1: ", "leak cannot have pressure-low"},
    {"--fault", "leak leak diameter=1mm", "--fault leak leak diameter=1mm:1:1: ", "leak cannot have leak; name a part that keeps gas"},
};

static void edits_are_answered(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof edits / sizeof edits[0]; i++) {
        const char *const arguments[] = {
            program(), "run", "scenarios/vessel-decay.yaml", "--quiet", edits[i].option, edits[i].text, NULL};
        const struct answer answer = program_runs(arguments);
        answer_is(edits[i].text, &answer, BAD_INPUT, edits[i].place, edits[i].says);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_bad_file_is_answered),
        cmocka_unit_test(check_says_the_same),
        cmocka_unit_test(every_bad_file_is_in_the_table),
        cmocka_unit_test(what_cannot_be_read_is_told),
        cmocka_unit_test(bad_recordings_are_answered),
        cmocka_unit_test(edits_of_a_recording_are_answered),
        cmocka_unit_test(edits_are_answered),
    };
    return cmocka_run_group_tests(tests, folder_made, folder_removed) != 0;
}
