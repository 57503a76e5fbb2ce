/* render_html.h - a sheet as HTML: every kind of node, in reading order, inside whatever element is
 * open. No page around it: no <html>, no navigation.
 *
 * The title becomes <h1>, headings <h2>..<h4> in order of their levels, none skipped. A tone is
 * told by a sign with a name
 * ("good", "care", "bad") before the words; style.css adds colour. Tables carry data-label on each
 * cell, so that style.css can fold them into blocks where room is short. Ids come from html_id, so
 * that several sheets fit on one page. */
#ifndef WEB_RENDER_HTML_H
#define WEB_RENDER_HTML_H

#include "face/show/sheet.h"
#include "face/web/html.h"

/* Where a command of a sheet's link ("plan", "survey add") leads: the address of a page, or NULL
 * where there is none; then the command is shown to be typed. The result lives in the arena. */
struct page_links {
    const char *(*address)(const void *context, struct arena *a, const char *command);
    const void *context;
};

void render_html_sheet(struct html *h, const struct sheet *s, struct page_links links);

/* Parts of it that pages with forms use too. */
void render_html_toned(struct html *h, const char *text, enum tone tone);
void render_html_mark(struct html *h, enum mark mark); /* nothing for MARK_NONE */
/* The usual caution beside an act; defer "" if none. */
void render_html_caution(struct html *h, const char *text, const char *defer);
void render_html_table(struct html *h, const struct sheet_table *t);

#endif
