/* main.c - the program; its commands stand in command/. */
#include "command/command.h"

#include <signal.h>

int main(int argc, char **argv) {
    /* A file-size limit shows as an error of write(), not as a signal. */
    struct sigaction ignore = {.sa_handler = SIG_IGN};
    sigaction(SIGXFSZ, &ignore, NULL);
    return command_main(argc, argv);
}
