/* page_frame.h - what stands around every page: head, navigation, main; and pages made of a sheet.
 */
#ifndef WEB_PAGE_FRAME_H
#define WEB_PAGE_FRAME_H

#include "face/show/sheet.h"
#include "face/web/render_html.h"
#include "face/web/route.h"

/* Opens <main>. vehicle: its pages are in the navigation too, this one marked; or NULL. here:
 * "survey", "intake" ... or "". */
struct html *page_begin(struct visit *v, const char *title, const struct record *vehicle,
                        const char *here);
/* Closes it, and makes the page the response. Always true, so that a page may end by it. */
bool page_end(struct visit *v);
/* What a form of this page came to: stored, as the address says, or the fault of one further down.
 */
void page_stored(struct visit *v, const char *fault);
/* A file that the program carries, with a tag by which a browser may keep it. */
bool page_file(struct visit *v, const char *from, const char *end, const char *type);
/* Loads a module; pages work without. */
void page_script_tag(struct html *h, const char *address);
void page_failure(struct visit *v, const struct fail *f);
/* Where commands on a sheet lead; vehicle NULL: only what needs none. */
struct page_links page_links_of(const struct record *vehicle);
/* The sheet of an answer; on the plan's, the form of a what-if in place of the link to it. */
void page_answer_sheet(struct html *h, const struct told *told, const struct record *vehicle,
                       day today);
/* Shown until the answer is there: the browser asks again at once and is then kept waiting. */
bool page_reckoning(struct visit *v, const struct record *vehicle, enum question q, double share);
/* A form that is sent to this page, with its token; to be closed by html_close(h, "form"). */
void page_form(struct visit *v, const char *class_name);
/* The same for one that may bring files. */
void page_form_files(struct visit *v, const char *class_name);
/* Where suppliers, quotes, orders and pieces sent are told: page_record.c. */
void page_record_links(struct visit *v);
const char *page_of_vehicle(struct arena *a, const struct record *vehicle, const char *name);

#endif
