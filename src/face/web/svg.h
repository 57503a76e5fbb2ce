/* svg.h - a chart of a sheet as inline SVG, with a table of the same values behind it.
 *
 * Across, everything is placed in percent of the width, down in CSS pixels, so that text keeps its
 * size from 320 px to a wide screen and on paper. Values stand as text beside the drawing; the SVG
 * names itself by <title> and <desc>, and the table in the <details> below says all of it again. */
#ifndef WEB_SVG_H
#define WEB_SVG_H

#include "face/show/sheet.h"
#include "face/web/html.h"

void svg_chart(struct html *h, const struct sheet_chart *c);

#endif
