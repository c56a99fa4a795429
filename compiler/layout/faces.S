/* faces.S - the faces, linked into the program, so that each machine prints
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
    face regular, TEXT_FONTS, "Inter-Regular.otf"
    face bold, TEXT_FONTS, "Inter-Bold.otf"
    face oblique, TEXT_FONTS, "Inter-Italic.otf"
    face mono, MORE_FONTS, "DejaVuSansMono.ttf"
    face symbol, MORE_FONTS, "DejaVuSansCondensed.ttf"

    .section .note.GNU-stack, "", %progbits
