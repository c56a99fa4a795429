/* sheets.S - the templates linked in, for libraries without their own. */
    .section .rodata
    .global sheet_shop
    .global sheet_shop_end
    .global sheet_bench
    .global sheet_bench_end
    .global sheet_owner
    .global sheet_owner_end
sheet_shop:
    .incbin "templates/shop.md"
sheet_shop_end:
    .byte 0
sheet_bench:
    .incbin "templates/bench.md"
sheet_bench_end:
    .byte 0
sheet_owner:
    .incbin "templates/owner.md"
sheet_owner_end:
    .byte 0
    .section .note.GNU-stack, "", %progbits
