/* embed.S - files carried inside the program: the trade data as one blob, the schema of the store, the
 * style and the scripts of the pages. */
    .section .rodata
    .global embed_trade
    .global embed_trade_end
    .global embed_schema
    .global embed_schema_end
embed_trade:
    .incbin "build/trade.blob"
embed_trade_end:
    .byte 0
embed_schema:
    .incbin "src/garage/schema.sql"
    .byte 0
embed_schema_end:
    .global embed_style
    .global embed_style_end
embed_style:
    .incbin "src/face/web/style.css"
embed_style_end:
    .byte 0
    .global embed_what_if
    .global embed_what_if_end
embed_what_if:
    .incbin "src/face/web/what_if.js"
embed_what_if_end:
    .byte 0
    .global embed_live
    .global embed_live_end
embed_live:
    .incbin "src/face/web/live.js"
embed_live_end:
    .byte 0
    .section .note.GNU-stack, "", @progbits
