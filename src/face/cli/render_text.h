/* render_text.h - a sheet as text for a terminal or a pipe.
 *
 * Reads at any width from 20 columns: paragraphs wrap, tables drop columns of low priority (saying
 * which) and fold into blocks where even that is too wide. A tone is told by a sign before the
 * words; colour only adds to it. Everything that people typed is made harmless first (wrap_clean).
 */
#ifndef CLI_RENDER_TEXT_H
#define CLI_RENDER_TEXT_H

#include "base/text.h"
#include "face/show/sheet.h"

struct render_style {
    int width; /* columns */
    bool colour;
};

void render_text(struct text *out, const struct sheet *s, struct render_style style);

/* Parts of it, each in a file of its own. */
void render_table(struct text *out, const struct sheet_table *t, struct render_style style);
void render_chart(struct text *out, const struct sheet_chart *c, struct render_style style);
/* The sign and the words of a toned value: "✓ ready", "! late", "✗ seized". */
const char *render_toned(struct arena *a, const char *text, enum tone tone);
/* s in the tone's colour, if there is colour. */
void render_colour(struct text *out, const char *s, enum tone tone, struct render_style style);
void render_strong(struct text *out, const char *s, struct render_style style);
/* A caption, wrapped, made harmless; nothing for "". */
void render_caption(struct text *out, const char *s, struct render_style style);

#endif
