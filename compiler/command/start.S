/* start.S - the examples of templates/start linked in, for `bayleaf start`. */
    .macro example name, file
    .global start_\name
    .global start_\name\()_end
start_\name:
    .incbin "templates/start/\file"
start_\name\()_end:
    .byte 0
    .endm

    .section .rodata
    example guide, guide.md
    example first, library/procedures/water-pump.md
    example vehicle, library/procedures/facts/reed.md
    example shop, library/procedures/facts/shop.md
    example isolation, library/procedures/shared/battery-isolation.md

    .section .note.GNU-stack, "", %progbits
