#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/money.h"
#include "base/random.h"

#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

static void knows_minor_digits(void **state)
{
    (void)state;
    /* ISO 4217, list one. */
    static const struct {
        const char *code;
        int digits; /* -1: no currency */
    } cases[] = {
        {"GBP", 2},  {"USD", 2},  {"EUR", 2}, {"JPY", 0}, {"KRW", 0},   {"ISK", 0},  {"CLP", 0},
        {"XOF", 0},  {"KWD", 3},  {"BHD", 3}, {"TND", 3}, {"CLF", 4},   {"UYW", 4},  {"CHF", 2},
        {"gbp", -1}, {"XXY", -1}, {"", -1},   {"GB", -1}, {"GBPX", -1}, {"P C", -1}, {"BP ", -1},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        int digits = -1;
        currency_digits(cases[i].code, &digits);
        if (digits != cases[i].digits) fail_msg("%s: %d", cases[i].code, digits);
    }
    int digits;
    assert_false(currency_digits(NULL, &digits));
}

static void reads_sums(void **state)
{
    (void)state;
    static const struct {
        const char *s, *fallback;
        int64_t minor;
        const char *currency;
    } cases[] = {
        {"12.50 GBP", NULL, 1250, "GBP"},
        {"GBP 12.50", NULL, 1250, "GBP"},
        {"gbp12.5", NULL, 1250, "GBP"},
        {"1,250", "USD", 125000, "USD"},
        {"1,250.00 EUR", "USD", 125000, "EUR"},
        {"1 250 000.07 EUR", NULL, 125000007, "EUR"},
        {"  7  GBP ", NULL, 700, "GBP"},
        {"-5.01 GBP", NULL, -501, "GBP"},
        {"0", "GBP", 0, "GBP"},
        {"500 JPY", NULL, 500, "JPY"},
        {"1.234 KWD", NULL, 1234, "KWD"},
        {"0.1 GBP", NULL, 10, "GBP"},
        {"90071992547.41 GBP", NULL, 9007199254741, "GBP"},
        {"100,000,000,000.00 GBP", NULL, 10000000000000, "GBP"}, /* the most */
        {"1000.00 GBP", NULL, 100000, "GBP"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        struct money m = {0};
        if (!money_parse(cases[i].s, cases[i].fallback, &m, &f)) fail_msg("%s", f.text);
        if (m.minor != cases[i].minor) fail_msg("'%s': %ld", cases[i].s, (long)m.minor);
        assert_string_equal(m.currency, cases[i].currency);
    }
}

static void refuses_what_is_no_sum(void **state)
{
    (void)state;
    static const struct {
        const char *s, *fallback, *says;
    } cases[] = {
        {"12.50", NULL, "no currency"},
        {"12.505 GBP", NULL, "more decimals"},
        {"12.0 JPY", NULL, "more decimals"},
        {"12.50 QQQ", NULL, "no currency 'QQQ'"},
        {"GBP 12 GBP", NULL, "no sum"},
        {"1,25 EUR", NULL, "by threes"},
        {"12,50 EUR", NULL, "by threes"},
        {"1,2500 EUR", NULL, "by threes"},
        {"1,250 000 EUR", NULL, "no sum"},
        {"1.250,00 EUR", NULL, "no sum"},
        {"1250,000 EUR", NULL, "by threes"},
        {",250 EUR", NULL, "by threes"},
        {"1,,250 EUR", NULL, "by threes"},
        {"GBP", NULL, "no sum"},
        {"", "GBP", "no sum"},
        {"-", "GBP", "no sum"},
        {".50", "GBP", "no sum"},
        {"5.", "GBP", "nothing after the point"},
        {"5. JPY", NULL, "nothing after the point"},
        {"1e3 GBP", NULL, "no sum"},
        {"nan GBP", NULL, "no currency 'NAN'"},
        {"£5", "GBP", "no sum"},
        {"100,000,000,000.01 GBP", NULL, "so large"},
        {"99999999999999999999999999 GBP", NULL, "so large"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        struct money m = {.minor = 77};
        if (money_parse(cases[i].s, cases[i].fallback, &m, &f))
            fail_msg("'%s' was taken", cases[i].s);
        assert_int_equal(m.minor, 77);
        assert_int_equal(f.kind, FAIL_INPUT);
        if (!strstr(f.text, cases[i].says)) fail_msg("'%s' says: %s", cases[i].s, f.text);
    }
}

static void prints_what_it_reads(void **state)
{
    (void)state;
    static const char *const codes[] = {"GBP", "JPY", "KWD", "CLF"};
    struct arena a = arena_open(1 << 16);
    for (uint32_t i = 0; i < 20000; i++) {
        const struct philox p = random_words(1, 2, i, 0);
        const uint64_t word = (uint64_t)p.word[0] << 32 | p.word[1];
        struct money m = {.minor = (int64_t)((word >> 20) >> (p.word[2] % 44)) % 10000000000001};
        if (p.word[3] % 2) m.minor = -m.minor;
        strcpy(m.currency, codes[i % 4]);
        struct arena scratch = a;
        struct text t = {.arena = &scratch};
        struct fail f = {0};
        struct money back = {0};
        money_print(&t, m);
        if (!money_parse(text_get(&t), NULL, &back, &f)) fail_msg("%s", f.text);
        if (back.minor != m.minor) fail_msg("%s: %ld", text_get(&t), (long)back.minor);
        assert_string_equal(back.currency, m.currency);
    }
    arena_close(&a);
}

static void prints_exactly_and_about(void **state)
{
    (void)state;
    static const struct {
        int64_t minor;
        const char *currency, *exact, *about;
    } cases[] = {
        {125000, "GBP", "1,250.00 GBP", "1,300 GBP"},
        {0, "GBP", "0.00 GBP", "0 GBP"},
        {7, "GBP", "0.07 GBP", "0.07 GBP"},
        {-501, "GBP", "-5.01 GBP", "-5 GBP"},
        {1249, "GBP", "12.49 GBP", "12 GBP"},
        {124, "GBP", "1.24 GBP", "1.20 GBP"},
        {99499, "GBP", "994.99 GBP", "990 GBP"},
        {99500, "GBP", "995.00 GBP", "1,000 GBP"},
        {123456789, "JPY", "123,456,789 JPY", "120,000,000 JPY"},
        {1005, "KWD", "1.005 KWD", "1 KWD"},
        {-100000, "USD", "-1,000.00 USD", "-1,000 USD"},
    };
    struct arena a = arena_open(1 << 16);
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct text exact = {.arena = &a}, about = {.arena = &a};
        struct money m = {.minor = cases[i].minor};
        strcpy(m.currency, cases[i].currency);
        money_print(&exact, m);
        money_print_about(&about, (double)m.minor, m.currency);
        assert_string_equal(text_get(&exact), cases[i].exact);
        assert_string_equal(text_get(&about), cases[i].about);
    }
    arena_close(&a);
}

static void knows_the_currency_of_a_locale(void **state)
{
    (void)state;
    static const struct {
        const char *locale, *currency;
    } cases[] = {
        {"en_GB.UTF-8", "GBP"}, {"en_US", "USD"},       {"de_DE@euro", "EUR"},
        {"ja_JP.eucJP", "JPY"}, {"de_CH.UTF-8", "CHF"}, {"C", NULL},
        {"POSIX", NULL},        {"C.UTF-8", NULL},      {"", NULL},
        {"en", NULL},           {"en_ZZ", NULL},        {"en_GBR", NULL},
        {"en_", NULL},          {NULL, NULL},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        const char *currency = currency_of_locale(cases[i].locale);
        if (!cases[i].currency) {
            assert_null(currency);
            continue;
        }
        int digits;
        assert_non_null(currency);
        assert_string_equal(currency, cases[i].currency);
        assert_true(currency_digits(currency, &digits));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(knows_minor_digits),
        cmocka_unit_test(reads_sums),
        cmocka_unit_test(refuses_what_is_no_sum),
        cmocka_unit_test(prints_what_it_reads),
        cmocka_unit_test(prints_exactly_and_about),
        cmocka_unit_test(knows_the_currency_of_a_locale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
