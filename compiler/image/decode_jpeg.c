/* decode_jpeg.c - samples of a JPEG. libjpeg calls back where it fails, and
 * must not be returned to: setjmp() in one place, begin(), leads out. */
#include "image/decode_jpeg.h"

#include "base/arena.h"
#include "image/fault.h"
#include "image/segment.h"

#include <setjmp.h>
#include <stdio.h>

#include <jpeglib.h>

#include <jerror.h>

/* A progressive file has some ten scans; a file of thousands of empty ones is
 * made to keep its reader busy. */
enum { SCANS_MAX = 100 };

struct jpeg {
    struct jpeg_decompress_struct info;
    struct jpeg_error_mgr errors;
    struct jpeg_progress_mgr progress;
    jmp_buf out;
    struct arena *arena;
    struct image *im; /* its size is filled in when it is checked */
    struct shrink *to;
    struct image_report *report;
};

static enum image_fault fault_of(int code) {
    switch (code) {
    case JERR_BAD_PRECISION:
    case JERR_SOF_UNSUPPORTED:
    case JERR_ARITH_NOTIMPL:
    case JERR_CONVERSION_NOTIMPL:
    case JERR_COMPONENT_COUNT:
        return IMAGE_UNCOMMON;
    case JERR_IMAGE_TOO_BIG:
        return IMAGE_LARGE;
    default:
        return IMAGE_DAMAGED;
    }
}

static _Noreturn void leave(j_common_ptr info) {
    struct jpeg *j = info->client_data;
    char words[JMSG_LENGTH_MAX];
    if (info->err->msg_code == JERR_OUT_OF_MEMORY)
        arena_exhausted();
    info->err->format_message(info, words);
    fault_note(j->report, fault_of(info->err->msg_code), "%s", words);
    longjmp(j->out, 1);
}

static void hear(j_common_ptr info, int level) {
    if (level < 0) /* a warning; the rest is chatter */
        leave(info);
}

static void count_scans(j_common_ptr info) {
    struct jpeg *j = info->client_data;
    if (j->info.input_scan_number <= SCANS_MAX)
        return;
    fault_note(j->report, IMAGE_UNCOMMON, "more than %d scans", SCANS_MAX);
    longjmp(j->out, 1);
}

static void refuse(struct jpeg *j, enum image_fault fault, const char *words) {
    fault_note(j->report, fault, "%s", words);
    longjmp(j->out, 1);
}

static void take_head(struct jpeg *j) {
    struct image *im = j->im;
    im->width = j->info.image_width;
    im->height = j->info.image_height;
    if (!fault_size(j->report, im->width, im->height))
        longjmp(j->out, 1);
    switch (j->info.jpeg_color_space) {
    case JCS_GRAYSCALE:
        im->channels = 1;
        break;
    case JCS_YCbCr:
    case JCS_RGB:
        im->channels = 3;
        break;
    case JCS_CMYK:
    case JCS_YCCK:
        refuse(j, IMAGE_INKS, "save it as RGB");
        break;
    default:
        refuse(j, IMAGE_UNCOMMON, "its colours are not known");
        break;
    }
    /* PDF knows no arithmetic coding, and takes three channels for YCbCr. */
    im->passes = !j->info.arith_code && j->info.jpeg_color_space != JCS_RGB;
}

static void read_rows(struct jpeg *j) {
    j->info.out_color_space = j->im->channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
    jpeg_start_decompress(&j->info);
    size_t row = (size_t)j->info.output_width * j->im->channels;
    JSAMPROW samples = arena_alloc(j->arena, row, 1);
    while (j->info.output_scanline < j->info.output_height) {
        jpeg_read_scanlines(&j->info, &samples, 1);
        if (j->to != NULL)
            shrink_row(j->to, samples);
    }
    jpeg_finish_decompress(&j->info);
}

static void check(struct jpeg *j) {
    take_head(j);
    j->info.scale_num = 1;
    j->info.scale_denom = 8;
    read_rows(j);
    j->im->len -= j->info.src->bytes_in_buffer;
}

static bool begin(struct jpeg *j, void (*work)(struct jpeg *j)) {
    j->info.err = jpeg_std_error(&j->errors);
    j->errors.error_exit = leave;
    j->errors.emit_message = hear;
    j->info.client_data = j;
    if (setjmp(j->out) != 0) {
        jpeg_destroy_decompress(&j->info);
        return false;
    }
    jpeg_create_decompress(&j->info);
    j->progress.progress_monitor = count_scans;
    j->info.progress = &j->progress;
    jpeg_mem_src(&j->info, j->im->bytes, (unsigned long)j->im->len);
    jpeg_read_header(&j->info, TRUE);
    work(j);
    jpeg_destroy_decompress(&j->info);
    return true;
}

bool decode_jpeg_check(struct arena *a, struct image *im,
                       struct image_report *report) {
    struct jpeg *j = arena_alloc(a, 1, sizeof *j);
    j->arena = a;
    j->im = im;
    j->report = report;
    size_t whole = im->len;
    if (!begin(j, check))
        return false;
    /* With bytes behind the image libjpeg takes a quicker way, which overlooks
     * what is wrong with its end. */
    if (im->len < whole && !begin(j, check))
        return false;
    im->turn = segment_turn(im->bytes, im->len);
    return true;
}

bool decode_jpeg_rows(struct arena *a, const struct image *im,
                      struct shrink *to, struct image_report *report) {
    struct jpeg *j = arena_alloc(a, 1, sizeof *j);
    struct image copy = *im;
    j->arena = a;
    j->im = &copy;
    j->to = to;
    j->report = report;
    return begin(j, read_rows);
}
