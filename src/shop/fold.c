#include "shop/fold.h"

#include <ctype.h>
#include <string.h>

static const char *const same_words[][2] = {
    {"hood", "bonnet"},
    {"wrench", "spanner"},
    {"aluminum", "aluminium"},
    {"color", "colour"},
    {"gray", "grey"},
    {"center", "centre"},
    {"mold", "mould"},
    {"gage", "gauge"},
    {"antenna", "aerial"},
    {"sedan", "saloon"},
    {"wrist", "gudgeon"},
    {"cotter", "split"},
    {"blinker", "indicator"},
    {"license", "number"},
    {"licence", "number"},
    {"kerosene", "paraffin"},
    {"trunk", "boot"},
    {"fender", "wing"},
    {"tire", "tyre"},
    {"windshield", "windscreen"},
    {"muffler", "silencer"},
    {"gas", "fuel"},
    {"gasoline", "fuel"},
    {"petrol", "fuel"},
    {"ground", "earth"},
    {"rotor", "disc"},
    {"disk", "disc"},
    {"generator", "dynamo"},
    {"carb", "carburettor"},
    {"carburetor", "carburettor"},
    {"shock", "damper"},
    {"absorber", "damper"},
    {"lining", "shoe"},
    {"harness", "loom"},
    {"wiring", "loom"},
    {"firewall", "bulkhead"},
    {"transmission", "gearbox"},
    {"kingpin", "swivel"},
    {"parking", "handbrake"},
    {"light", "lamp"},
    {"brightwork", "trim"},
    {"driveshaft", "propeller"},
    {"seized", "stuck"},
    {"seize", "stuck"},
    {"frozen", "stuck"},
    {"jammed", "stuck"},
    {"fast", "stuck"},
    {"snapped", "broken"},
    {"snap", "broken"},
    {"sheared", "broken"},
    {"shear", "broken"},
    {"broke", "broken"},
    {"break", "broken"},
    {"rusted", "rust"},
    {"rusty", "rust"},
    {"corroded", "rust"},
    {"rotted", "rotten"},
    {"rot", "rotten"},
    {"cracked", "crack"},
    {"leaking", "leak"},
    {"weep", "leak"},
    {"weeping", "leak"},
    {"stripped", "strip"},
    {"rounded", "round"},
    {"warped", "warp"},
    {"bent", "warp"},
};
static const char *const troubles[] = {
    "stuck", "broken", "rust",  "rotten", "crack", "leak",    "strip",  "round", "warp",
    "worn",  "pitted", "burnt", "torn",   "spun",  "missing", "lost",   "wrong", "dead",
    "hole",  "holed",  "drag",  "snag",   "boil",  "fade",    "chewed",
};
enum {
    SAME = sizeof same_words / sizeof *same_words,
    TROUBLES = sizeof troubles / sizeof *troubles
};

const char *fold_word(struct arena *a, const char *word, size_t n)
{
    char *s = arena_copy_n(a, word, n);
    for (char *c = s; *c; c++) *c = (char)tolower((unsigned char)*c);
    for (int i = 0; i < SAME; i++)
        if (text_is(s, same_words[i][0])) return same_words[i][1];
    n = strlen(s);
    if (n > 5 && (text_is(s + n - 4, "ches") || text_is(s + n - 4, "shes") ||
                  text_is(s + n - 4, "sses") || text_is(s + n - 3, "xes")))
        s[n - 2] = '\0';
    else if (n > 3 && s[n - 1] == 's' && s[n - 2] != 's')
        s[n - 1] = '\0';
    for (int i = 0; i < SAME; i++)
        if (text_is(s, same_words[i][0])) return same_words[i][1];
    return s;
}

bool fold_is_trouble(const char *folded)
{
    for (int i = 0; i < TROUBLES; i++)
        if (text_is(folded, troubles[i])) return true;
    return false;
}

const char *fold_text(struct arena *a, const char *text)
{
    struct text t = {.arena = a};
    while (*text) {
        size_t n = 0;
        while (isalnum((unsigned char)text[n]) || (unsigned char)text[n] >= 0x80) n++;
        if (n > 0) text_print(&t, "%s%s", t.length ? " " : "", fold_word(a, text, n));
        text += n > 0 ? n : 1;
    }
    return text_get(&t);
}
