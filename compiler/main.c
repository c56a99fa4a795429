/* main.c - the program; its commands stand in command/. */
#include "command/command.h"

#include <signal.h>
#include <stdlib.h>

#ifdef __GLIBC__
#include <malloc.h>

/* What one guide gave back is the next one's: asking the system for it again
 * takes a tenth of a run over many. */
static void keep_memory(void) {
    mallopt(M_TRIM_THRESHOLD, 64 << 20);
    mallopt(M_MMAP_THRESHOLD, 4 << 20);
}
#else
static void keep_memory(void) {
}
#endif

int main(int argc, char **argv) {
    keep_memory();
    /* A file-size limit shows as an error of write(), not as a signal. */
    struct sigaction ignore = {.sa_handler = SIG_IGN};
    sigaction(SIGXFSZ, &ignore, NULL);
    return command_main(argc, argv);
}
