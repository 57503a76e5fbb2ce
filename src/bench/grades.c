#include "bench/grades.h"

#include <stddef.h>
#include <string.h>

#define MPA  *1e6
#define KSI  *6.894757293168e6
#define INCH *0.0254

/* Published: ISO 898-1 (stress under proof load and tensile strength; 6.8's strength and 5.8's are
 * implied by its load tables) and SAE J429; head marks of grades 2, 5 and 8. Told from memory: the
 * other marks. */
static const struct grade grades[] = {
    {"4.6", 0.039, 225 MPA, 0, 400 MPA, "4.6"},
    {"4.8", 0.016, 310 MPA, 0, 420 MPA, "4.8"},
    {"5.8", 0.024, 380 MPA, 0, 520 MPA, "5.8"},
    {"6.8", 0.039, 440 MPA, 0, 600 MPA, "6.8"},
    {"8.8", 0.016, 580 MPA, 0, 800 MPA, "8.8"},
    {"8.8", 0.039, 600 MPA, 0, 830 MPA, "8.8"},
    {"9.8", 0.016, 650 MPA, 0, 900 MPA, "9.8"},
    {"10.9", 0.039, 830 MPA, 0, 1040 MPA, "10.9"},
    {"12.9", 0.039, 970 MPA, 0, 1220 MPA, "12.9"},
    {"grade-1", 1.5 INCH, 33 KSI, 36 KSI, 60 KSI, "no marks"},
    {"grade-2", 0.75 INCH, 55 KSI, 57 KSI, 74 KSI, "no marks"},
    {"grade-2", 1.5 INCH, 33 KSI, 36 KSI, 60 KSI, "no marks"},
    {"grade-4", 1.5 INCH, 65 KSI, 100 KSI, 115 KSI, "a stud, no marks"},
    {"grade-5", 1 INCH, 85 KSI, 92 KSI, 120 KSI, "three lines"},
    {"grade-5", 1.5 INCH, 74 KSI, 81 KSI, 105 KSI, "three lines"},
    {"grade-5.2", 1 INCH, 85 KSI, 92 KSI, 120 KSI, "three lines drawn to one side"},
    {"grade-7", 1.5 INCH, 105 KSI, 115 KSI, 133 KSI, "five lines"},
    {"grade-8", 1.5 INCH, 120 KSI, 130 KSI, 150 KSI, "six lines"},
    {"grade-8.2", 1 INCH, 120 KSI, 130 KSI, 150 KSI, "six lines drawn to one side"},
};
enum { GRADES = sizeof grades / sizeof *grades };

const char *const grade_names[] = {"4.6",       "4.8",     "5.8",       "6.8",     "8.8",
                                   "9.8",       "10.9",    "12.9",      "grade-1", "grade-2",
                                   "grade-4",   "grade-5", "grade-5.2", "grade-7", "grade-8",
                                   "grade-8.2", NULL};

const struct grade *grade_find(int choice, double diameter)
{
    for (int i = 0; i < GRADES; i++)
        if (strcmp(grades[i].name, grade_names[choice]) == 0 &&
            diameter <= grades[i].up_to * (1 + 1e-9))
            return &grades[i];
    return NULL;
}
