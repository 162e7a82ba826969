/* command/interrupt.h  Ctrl-C and its like: work stops at the next step, files stay whole, and the program is gone within
 * a fifth of a second whatever it was doing. */
#ifndef COMMAND_INTERRUPT_H
#define COMMAND_INTERRUPT_H

#include <signal.h>

/* Heeds SIGINT, SIGTERM and SIGHUP from now on, and ignores SIGPIPE: a broken pipe is a failed write. */
void interrupt_watch(void);

/* Non-zero once one has come. */
const volatile sig_atomic_t *interrupt_flag(void);

/* If one has come, ends the program by that very signal, as a shell expects to see it. Outputs must have been dropped. */
void interrupt_obey(void);

#endif
