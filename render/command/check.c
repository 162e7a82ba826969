/* command/check.c  `ullage check`: reads files of any kind and says what is wrong, without running anything. */
#include "command/command.h"
#include "command/scenario.h"

#include <stdio.h>

static const struct option_row check_option[] = {{0}};

static const char *const check_example[] = {"ullage check scenarios/first-leak.yaml",
                                            "ullage check my-rig.yaml my-test.yaml && ullage run my-test.yaml", NULL};

static enum exit_code file_check(FILE *to, const char *path)
{
    const struct ullage_edits edits = search_edits();
    struct ullage_problems *problems = ullage_problems_create();
    const enum ullage_outcome outcome = problems ? ullage_check(path, &edits, problems) : ULLAGE_OUT_OF_MEMORY;
    if (problems)
        problems_print(problems);
    if (outcome == ULLAGE_GOOD)
        fprintf(to, "%s: good\n", path);
    if (outcome == ULLAGE_OUT_OF_MEMORY)
        fputs("ullage: memory ran out\n", stderr);
    ullage_problems_free(problems);
    return outcome_code(outcome);
}

static enum exit_code check_follow(const struct words *words, FILE *to)
{
    enum exit_code worst = EXIT_DONE;
    for (int i = 0; i < words->operands; i++) {
        const enum exit_code code = file_check(to, words->operand[i]);
        worst = code > worst ? code : worst;
    }
    return worst;
}

const struct command command_check = {
    .name = "check",
    .operands = "FILE...",
    .least = 1,
    .most = 1000000,
    .about = "Reads scenarios, systems and procedures and says what is wrong in them, without running anything.",
    .more = "Every mistake is told as FILE:LINE:COLUMN: what is wrong; what would be right, on standard error. A file "
            "without any is told as good on standard output. The exit code is that of the worst file.",
    .example = check_example,
    .option = check_option,
    .follow = check_follow,
};
