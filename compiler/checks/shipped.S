/* shipped.S - templates/hazards.md linked in, for libraries without their own. */
    .section .rodata
    .global shipped_hazards
    .global shipped_hazards_end
shipped_hazards:
    .incbin "templates/hazards.md"
shipped_hazards_end:
    .byte 0
    .section .note.GNU-stack, "", %progbits
