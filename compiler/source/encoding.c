/* encoding.c - which bytes and characters a source may hold.
 *
 * What the author sees in an editor must be what is compiled: a character that
 * shows nothing, or that reorders its neighbours, can make a number read other
 * than it looks. Private-use characters are refused for one more reason: they
 * stand for {...} while Markdown reads the text (mask.c). */
#include "source/encoding.h"

#include "base/diag.h"

enum { ENCODING_MESSAGES = 20 }; /* for one file; then the rest is the same */

struct refused {
    uint32_t first, last;
    const char *why;
};

static const char control[] = "control character";
static const char direction[] = "changes the direction of text";
static const char invisible[] = "cannot be seen";
static const char line_end[] = "line end that editors do not show";
static const char private_use[] = "private use: has no agreed meaning";
static const char unassigned[] = "never a character";

/* In order of code point. Unicode 15, chapter 23 (special areas and format
 * characters). */
static const struct refused refused[] = {
    {0x0000, 0x0008, control},         {0x000B, 0x000C, control},
    {0x000E, 0x001F, control},         {0x007F, 0x009F, control},
    {0x00AD, 0x00AD, invisible},       {0x034F, 0x034F, invisible},
    {0x061C, 0x061C, direction},       {0x115F, 0x1160, invisible},
    {0x17B4, 0x17B5, invisible},       {0x180B, 0x180F, invisible},
    {0x200B, 0x200D, invisible},       {0x200E, 0x200F, direction},
    {0x2028, 0x2029, line_end},        {0x202A, 0x202E, direction},
    {0x2060, 0x2065, invisible},       {0x2066, 0x2069, direction},
    {0x206A, 0x206F, invisible},       {0x3164, 0x3164, invisible},
    {0xE000, 0xF8FF, private_use},     {0xFDD0, 0xFDEF, unassigned},
    {0xFE00, 0xFE0F, invisible},       {0xFEFF, 0xFEFF, invisible},
    {0xFFA0, 0xFFA0, invisible},       {0xFFF0, 0xFFFB, invisible},
    {0x1BCA0, 0x1BCA3, invisible},     {0x1D173, 0x1D17A, invisible},
    {0xE0000, 0xE0FFF, invisible},     {0xF0000, 0xFFFFD, private_use},
    {0x100000, 0x10FFFD, private_use},
};

const char *encoding_refuses(uint32_t code) {
    if ((code & 0xFFFE) == 0xFFFE)
        return unassigned;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++)
        if (code >= refused[i].first && code <= refused[i].last)
            return refused[i].why;
    return NULL;
}

bool encoding_is_private(uint32_t code) {
    return encoding_refuses(code) == private_use;
}

static void refuse(struct diags *d, const struct source *src, size_t start,
                   size_t end, uint32_t code) {
    struct span at = {src, start, end};
    if (code == 0)
        diag_add(d, DIAG_FILE_NOT_TEXT, at, "it holds a NUL byte");
    else if (code == 0xFEFF && start == 0)
        diag_add(
            d, DIAG_CHARACTER_REFUSED, at,
            "U+FEFF, a byte-order mark; save the file as UTF-8 without one");
    else if (code == '\r')
        diag_add(d, DIAG_CHARACTER_REFUSED, at,
                 "U+000D, a carriage return without a line feed; save the file "
                 "with line feeds as line ends");
    else
        diag_add(d, DIAG_CHARACTER_REFUSED, at, "U+%04X: %s", (unsigned)code,
                 encoding_refuses(code));
}

bool encoding_check(struct diags *d, const struct source *src) {
    struct text t = src->text;
    size_t found = 0;
    bool returned = false; /* one message for all lone carriage returns */
    for (size_t at = 0; at < t.len && found < ENCODING_MESSAGES;) {
        size_t start = at;
        unsigned char byte = (unsigned char)t.start[at];
        if (byte >= 0x20 && byte < 0x7F) {
            at++;
            continue;
        }
        uint32_t code = text_next(t, &at);
        /* text_next() answers U+FFFD for a bad byte; a true one has 3 bytes */
        if (code == 0xFFFD && at - start == 1) {
            diag_add(d, DIAG_NOT_UTF8, (struct span){src, start, at},
                     "byte 0x%02X; save the file as UTF-8", (unsigned)byte);
            return false;
        }
        bool crlf = at < t.len && t.start[at] == '\n';
        bool bad = code == '\r' ? !crlf : encoding_refuses(code) != NULL;
        if (!bad || (code == '\r' && returned))
            continue;
        returned |= code == '\r';
        refuse(d, src, start, at, code);
        if (code == 0)
            return false;
        found++;
    }
    return found == 0;
}
