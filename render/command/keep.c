/* command/keep.c  The folder of the XDG base directory specification, version 0.8: $XDG_CACHE_HOME, or $HOME/.cache where
 * that is unset or empty; a path that is not absolute is to be ignored. */
#include "command/keep.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>

static char folder[PATH_MAX];

static const char *folder_below(const char *base, const char *below)
{
    if (!base || base[0] != '/')
        return NULL;
    const int length = snprintf(folder, sizeof folder, "%s%s", base, below);
    return length > 0 && length < PATH_MAX ? folder : NULL;
}

const char *keep_folder(void)
{
    const char *cache = getenv("XDG_CACHE_HOME");
    const char *found = folder_below(cache, "/ullage");
    return found ? found : folder_below(getenv("HOME"), "/.cache/ullage");
}
