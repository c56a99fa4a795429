/* faces.S - the four faces, linked into the program, so that each machine prints
 * the same bytes and nothing is looked up at run time. tests/unit/layout pins
 * each of them by its SHA-256. */
    .macro face name, dir, file
    .globl face_\name\()_start
    .globl face_\name\()_end
    .balign 16
face_\name\()_start:
    .incbin "\dir/\file"
face_\name\()_end:
    .byte 0
    .endm

    .section .rodata
    face regular, FONT_DIR, "DejaVuSansCondensed.ttf"
    face bold, FONT_DIR, "DejaVuSansCondensed-Bold.ttf"
    face oblique, FONT_DIR, "DejaVuSansCondensed-Oblique.ttf"
    face mono, FONT_DIR, "DejaVuSansMono.ttf"

    .section .note.GNU-stack, "", %progbits
