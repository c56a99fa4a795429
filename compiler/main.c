/* main.c - the program; its commands stand in command/. */
#include "base/heap.h"
#include "command/command.h"

#include <signal.h>
#include <stdlib.h>

int main(int argc, char **argv) {
    heap_keep();
    void *gap = heap_large_pages(12 << 20); /* a large guide takes less */
    /* A file-size limit shows as an error of write(), not as a signal. */
    struct sigaction ignore = {.sa_handler = SIG_IGN};
    sigaction(SIGXFSZ, &ignore, NULL);
    int status = command_main(argc, argv);
    free(gap);
    return status;
}
