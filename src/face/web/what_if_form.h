/* what_if_form.h - the form of a what-if, and the place where its answer comes; on the page of its
 * own and on the plan's. */
#ifndef WEB_WHAT_IF_FORM_H
#define WEB_WHAT_IF_FORM_H

#include "face/show/what_if_form.h"
#include "face/web/page_frame.h"

/* Opens <div class="what-if">, writes the form, and the line that sums up the answer; `headline`
 * NULL: nothing was said yet. typed may be NULL. Trade data is not asked for. */
void what_if_form_begin(struct html *h, const struct record *vehicle, const struct what_if_now *now,
                        day today, const char *direction, const struct what_if_typed *typed,
                        const char *headline);
/* Around the answer: <section id="answer"> .. </section></div>. */
void what_if_answer_begin(struct html *h);
void what_if_answer_end(struct html *h);

#endif
