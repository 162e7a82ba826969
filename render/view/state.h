/* state.h  What the person has chosen to see, apart from what there is. */
#ifndef VIEW_STATE_H
#define VIEW_STATE_H

#include "view/drawer.h"
#include "view/weather.h"

#include <stdbool.h>

enum page { PAGE_STEPS, PAGE_READINGS, PAGE_ENGINE, PAGE_FAULTS, PAGE_AIR, PAGE_WAYS, PAGES };

enum { STRIPS = 3, TYPED_MOST = 15, WAY_NAME_MOST = 60 };

/* The list of branches: which one keys act on, and a name being typed. */
struct ways_view {
    int cursor;
    bool naming;
    char name[WAY_NAME_MOST + 1];
};

struct view {
    int width, height; /* px of the picture */
    enum units units;
    bool bright; /* for a projector in a bright room */
    bool playing;
    bool help;   /* the keys are shown */
    double rate; /* simulated s per s */
    enum page page;
    struct drawer drawer;       /* of faults */
    struct weather_view weather; /* what is chosen of air, sun and wind */
    struct ways_view ways;
    bool sound;                 /* the sound run goes along in the charts */
    int focus;                  /* body that the keys act on; -1: none */
    int hover;                  /* part under the pointer; -1: none */
    char typed[TYPED_MOST + 1]; /* a size being typed; "": none */
    int strip[STRIPS];          /* which recorded channel a strip shows; -1: none; two or all */
    char message[160];          /* of the last thing done; "" */
};

#endif
