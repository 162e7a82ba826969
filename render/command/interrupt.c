/* command/interrupt.c  Ctrl-C and its like.
 *
 * The handler sets a flag that every loop looks at, and winds up a timer: should the flag not be seen in time (inside a
 * library, or a write to a slow pipe), the timer's handler removes what stands beside and ends the program itself. */
#include "command/interrupt.h"

#include "report/output.h"

#include <stddef.h>
#include <time.h>

static const long patience = 150000000; /* ns from the signal to the end at the latest */

static const int heeded[] = {SIGINT, SIGTERM, SIGHUP};

static volatile sig_atomic_t received; /* the signal; 0: none */
static timer_t timer;
static volatile sig_atomic_t timer_made;

/* Ends the program by the signal that came, as if it had not been caught. */
static void end_by_signal(void)
{
    (void)signal(received, SIG_DFL);
    (void)raise(received);
}

static void out_of_patience(int number)
{
    (void)number;
    if (!received)
        return; /* not our timer */
    outputs_abandon();
    end_by_signal();
}

static void signal_came(int number)
{
    if (received)
        return; /* the first one counts, and its timer runs */
    received = number;
    if (timer_made)
        (void)timer_settime(timer, 0, &(struct itimerspec){.it_value = {.tv_nsec = patience}}, NULL);
}

void interrupt_watch(void)
{
    struct sigaction come = {.sa_handler = signal_came}; /* no SA_RESTART: a blocked write is to give up */
    struct sigaction end = {.sa_handler = out_of_patience};
    (void)sigemptyset(&come.sa_mask);
    (void)sigemptyset(&end.sa_mask);
    struct sigevent event = {.sigev_notify = SIGEV_SIGNAL, .sigev_signo = SIGALRM};
    timer_made = timer_create(CLOCK_MONOTONIC, &event, &timer) == 0 && sigaction(SIGALRM, &end, NULL) == 0;
    for (size_t i = 0; i < sizeof heeded / sizeof heeded[0]; i++) {
        struct sigaction before;
        if (sigaction(heeded[i], NULL, &before) == 0 && before.sa_handler != SIG_IGN) /* nohup stays nohup */
            (void)sigaction(heeded[i], &come, NULL);
    }
    (void)signal(SIGPIPE, SIG_IGN);
}

const volatile sig_atomic_t *interrupt_flag(void)
{
    return &received;
}

void interrupt_obey(void)
{
    if (received)
        end_by_signal();
}
