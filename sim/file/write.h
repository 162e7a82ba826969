/* sim/file/write.h  Tree to text: what yaml.h reads, written so that it reads back as the same tree. */
#ifndef FILE_WRITE_H
#define FILE_WRITE_H

#include "base/tree.h"

#include <stdio.h>

/* A word, in quotes where it needs them. */
void word_write(FILE *to, const char *text, bool quoted);
/* "key: value", indented by so many columns, on as many lines as it takes: lists and maps that fit on a line stand on one. */
void entry_write(FILE *to, const struct node *node, int indent);

#endif
