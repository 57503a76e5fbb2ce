/* sample.h - a sheet with every kind of node, and with text that a person should never have typed.
 */
#ifndef TESTS_SHOW_SAMPLE_H
#define TESTS_SHOW_SAMPLE_H

#include "face/show/sheet.h"

static inline struct sheet *sample_sheet(struct arena *a)
{
    struct sheet *s = sheet_new(a, "Linnet: plan");
    sheet_text(
        s, "Ready between %s and %s. A figure without a mark is reckoned from those that have one.",
        "March 2027", "November 2027");
    sheet_heading(s, 1, "What it comes to");
    sheet_fact(s, TONE_PLAIN, "direction", "drive");
    sheet_fact(s, TONE_GOOD, "chance to end ahead", "%d %%", 72);
    sheet_fact(s, TONE_CARE, "bill",
               "7,400 GBP as often over as under, 9,100 GBP at four chances in five");
    sheet_fact(s, TONE_BAD, "ceiling", "passed in 18 of 100 runs");
    sheet_heading(s, 2, "Jobs");
    struct sheet_table *t = sheet_table(s, "In order of their start");
    sheet_column(s, t, "job", ALIGN_LEFT, 1);
    sheet_column(s, t, "hours", ALIGN_RIGHT, 1);
    sheet_column(s, t, "start", ALIGN_LEFT, 2);
    sheet_column(s, t, "verdict", ALIGN_LEFT, 1);
    sheet_column(s, t, "why", ALIGN_LEFT, 3);
    static const struct {
        const char *job, *hours, *start, *verdict, *why;
        enum tone tone;
    } jobs[] = {
        {"Open all four drums", "3.5", "2026-12-05", "ready", "nothing stands before it",
         TONE_GOOD},
        {"Brake cylinders, sleeved or new", "5", "2026-12-19", "waits",
         "the kits come between two days and three weeks after the order", TONE_CARE},
        {"First start", "2", "2027-02-06", "shut", "the fuel system is not proved", TONE_BAD},
        {"Evil \033[31mred\033[0m job\twith\nbreaks", "1", "", "",
         "\xc2\x9b and \xe2\x80\xae and \xff", TONE_PLAIN},
    };
    for (size_t i = 0; i < sizeof jobs / sizeof *jobs; i++) {
        sheet_cell(s, t, TONE_PLAIN, "%s", jobs[i].job);
        sheet_cell(s, t, TONE_PLAIN, "%s", jobs[i].hours);
        sheet_cell(s, t, TONE_PLAIN, "%s", jobs[i].start);
        sheet_cell(s, t, jobs[i].tone, "%s", jobs[i].verdict);
        sheet_cell(s, t, TONE_PLAIN, "%s", jobs[i].why);
    }
    struct sheet_chart *c =
        sheet_chart(s, CHART_RANGES, "Bill by direction", "GBP", 0, "0", 20000, "20,000");
    sheet_chart_row(s, c,
                    (struct chart_row){"drive", "7,400", 5200, 7400, 9900, TONE_PLAIN, ROW_DRAWN});
    sheet_chart_row(
        s, c, (struct chart_row){"restore", "16,000", 11000, 16000, 24000, TONE_BAD, ROW_DRAWN});
    sheet_chart_limit(s, c, 9000, "ceiling 9,000 GBP");
    c = sheet_chart(s, CHART_BARS, "Odds unseen", "%", 0, "0", 100, "100");
    sheet_chart_row(s, c, (struct chart_row){"sound", "5", 0, 5, 5, TONE_PLAIN, ROW_DRAWN});
    sheet_chart_row(s, c, (struct chart_row){"failed", "40", 0, 40, 40, TONE_PLAIN, ROW_DRAWN});
    c = sheet_chart(s, CHART_SPANS, "Weeks to come", "", 0, "1 Dec", 28, "29 Dec");
    sheet_chart_series(s, c, "work by hands");
    sheet_chart_series(s, c, "bay taken");
    sheet_chart_series(s, c, "wait");
    sheet_chart_series(s, c, "ordered, then here");
    sheet_chart_tick(s, c, 14, "mid-month");
    sheet_chart_row(s, c, (struct chart_row){.label = "Hands", .text = "9 h on 2 days"});
    sheet_chart_row(s, c, (struct chart_row){.label = "Bay", .text = "from 3 Dec on"});
    sheet_chart_row(s, c, (struct chart_row){.label = "Deliveries", .text = "1 arrives"});
    sheet_chart_row(s, c, (struct chart_row){.label = "Idle", .text = "none", .how = ROW_WORDS});
    sheet_chart_row(s, c, (struct chart_row){.label = "Kit", .text = "9 Dec", .how = ROW_TABLE});
    sheet_chart_piece(s, c, (struct chart_piece){0, 0, 2, 3});
    sheet_chart_piece(s, c, (struct chart_piece){0, 0, 9, 10});
    sheet_chart_piece(s, c, (struct chart_piece){1, 1, 2, 28});
    sheet_chart_piece(s, c, (struct chart_piece){2, 0, 10, 15});
    sheet_chart_piece(s, c, (struct chart_piece){3, 2, 1, 8});
    c = sheet_chart(s, CHART_CURVES, "Done by when", "date", 0, "2027", 10, "2037");
    sheet_chart_rise(s, c, 100, "100 %");
    sheet_chart_series(s, c, "as it is");
    sheet_chart_series(s, c, "what if");
    sheet_chart_piece(s, c, (struct chart_piece){0, 0, 0, 0});
    sheet_chart_piece(s, c, (struct chart_piece){0, 0, 5, 50});
    sheet_chart_piece(s, c, (struct chart_piece){0, 0, 10, 100});
    sheet_chart_piece(s, c, (struct chart_piece){1, 0, 0, 0});
    sheet_chart_piece(s, c, (struct chart_piece){1, 0, 8, 100});
    sheet_chart_row(s, c,
                    (struct chart_row){.label = "50 %", .text = "2032", .low = 5, .middle = 50});
    sheet_chart_limit(s, c, 80, "80 %");
    sheet_caution(s,
                  "Never under a vehicle that stands on a jack: stands on firm level ground, and "
                  "shake it first.",
                  "the maker of the stands");
    sheet_item(s, "Look at the sills next: half an hour could swing the bill by 900 GBP");
    sheet_item(s, "Café Ünïcode: 駆動軸 is two columns a character");
    sheet_note(s, MARK_PRACTICE, "hours of one competent amateur", "");
    struct sheet_why *w = sheet_why(s, "Why 3.5 hours?", "middle x exp(s z)", MARK_PUBLISHED,
                                    "a named handbook, table 3");
    sheet_why_input(s, w, "low", "%g h", 2.0);
    sheet_why_input(s, w, "high", "%g h", 6.0);
    sheet_link(s, "What to do this evening", "session");
    sheet_link(s, "What could be chosen instead", "choose");
    return s;
}

#endif
