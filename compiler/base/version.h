/* version.h - what `bayleaf --version` and the PDF's Producer say. */
#ifndef VERSION_H
#define VERSION_H

#define BAYLEAF_VERSION "0.1.0"

#endif
