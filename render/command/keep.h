/* command/keep.h  Where this user keeps what may be lost and made anew. */
#ifndef COMMAND_KEEP_H
#define COMMAND_KEEP_H

/* The folder, whether it is there or not. Null: nothing in the environment says where. */
const char *keep_folder(void);

#endif
