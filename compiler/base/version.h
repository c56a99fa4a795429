/* version.h - what `bayleaf --version`, the manual and the PDF's Producer say.
 */
#ifndef VERSION_H
#define VERSION_H

#define BAYLEAF_VERSION "0.1.0"
#define BAYLEAF_DATE "November 25, 2026" /* of this version, for the manual */

/* Makes the header a translation unit by itself: `make headers` compiles it. */
_Static_assert(sizeof BAYLEAF_VERSION > 1, "a version is never empty");

#endif
