#include "base/money.h"

#include <assert.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const int64_t MOST = 10000000000000; /* minor units */

/* Published: ISO 4217, list one (current currencies), by number of minor digits. */
static const char *const codes[5] = {
    "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    "",
    "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD "
    "CAD CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL "
    "GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR "
    "LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD "
    "PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC "
    "SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW "
    "ZWG",
    "BHD IQD JOD KWD LYD OMR TND",
    "CLF UYW",
};

bool currency_digits(const char *code, int *digits)
{
    if (!code || strlen(code) != 3 || strchr(code, ' ')) return false;
    for (int d = 0; d < 5; d++) {
        if (!strstr(codes[d], code)) continue;
        *digits = d;
        return true;
    }
    return false;
}

static bool is_letter(char c)
{
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Takes three letters off the front or the back of s[0..*n) and the blanks beside them. */
static bool take_code(const char **s, size_t *n, char code[4])
{
    const char *p = *s;
    size_t at;
    if (*n >= 3 && is_letter(p[0]) && is_letter(p[1]) && is_letter(p[2]))
        at = 0;
    else if (*n >= 3 && is_letter(p[*n - 1]) && is_letter(p[*n - 2]) && is_letter(p[*n - 3]))
        at = *n - 3;
    else
        return false;
    for (int i = 0; i < 3; i++) code[i] = (char)(p[at + (size_t)i] & ~0x20); /* upper case */
    code[3] = '\0';
    if (at == 0) *s += 3;
    *n -= 3;
    while (*n > 0 && **s == ' ') (*s)++, (*n)--;
    while (*n > 0 && (*s)[*n - 1] == ' ') (*n)--;
    return true;
}

/* "-1,250.5" with the currency's digits -> minor units; NULL, or what is wrong. Thousands may be
 * parted by commas or by blanks, but then everywhere. */
static const char *read_sum(const char *s, size_t n, int digits, int64_t *minor)
{
    const char *end = s + n, *p = s;
    const bool negative = p < end && *p == '-';
    if (p < end && (*p == '-' || *p == '+')) p++;
    int64_t sum = 0;
    int group = 0; /* digits since the last separator */
    char separator = '\0';
    for (; p < end && *p != '.'; p++) {
        if (is_digit(*p)) {
            if (separator && group == 3) return "thousands are parted by threes, as 12,500";
            sum = sum * 10 + (*p - '0');
            group++;
            if (sum > MOST) return "a sum so large is not reckoned with; check the figure";
        } else if ((*p == ',' || *p == ' ') && (separator ? *p == separator : true)) {
            if (separator ? group != 3 : group < 1 || group > 3)
                return "thousands are parted by threes and pence by a point, as 12,500.50";
            separator = *p;
            group = 0;
        } else {
            return "no sum of money; write for example 12.50 GBP";
        }
    }
    if (group == 0) return "no sum of money; write for example 12.50 GBP";
    if (separator && group != 3)
        return "thousands are parted by threes and pence by a point, as 12,500.50";
    const char *point = p;
    int decimals = 0;
    for (p += p < end; p < end; p++, decimals++) {
        if (!is_digit(*p)) return "no sum of money; write for example 12.50 GBP";
        if (decimals < digits) sum = sum * 10 + (*p - '0');
    }
    if (decimals > digits) return "more decimals than the currency has; round it";
    if (point < end && decimals == 0) return "nothing after the point; leave it out";
    for (; decimals < digits; decimals++) sum *= 10;
    if (sum > MOST) return "a sum so large is not reckoned with; check the figure";
    *minor = negative ? -sum : sum;
    return NULL;
}

bool money_parse(const char *s, const char *fallback_currency, struct money *out, struct fail *f)
{
    const char *p = s;
    while (*p == ' ') p++;
    size_t n = strlen(p);
    while (n > 0 && p[n - 1] == ' ') n--;
    struct money m = {0};
    if (!take_code(&p, &n, m.currency)) {
        if (!fallback_currency)
            return fail_set(f, FAIL_INPUT, "'%s': no currency; add its code, as 12.50 GBP", s);
        snprintf(m.currency, sizeof m.currency, "%s", fallback_currency);
    }
    int digits;
    if (!currency_digits(m.currency, &digits))
        return fail_set(f, FAIL_INPUT, "'%s': no currency '%s'; use an ISO 4217 code, as GBP", s,
                        m.currency);
    const char *wrong = read_sum(p, n, digits, &m.minor);
    if (wrong) return fail_set(f, FAIL_INPUT, "'%s': %s", s, wrong);
    *out = m;
    return true;
}

static void print_sum(struct text *t, struct money m, bool hide_zero_minor)
{
    int digits = 0;
    const bool known = currency_digits(m.currency, &digits);
    assert(known);
    int64_t scale = 1;
    for (int i = 0; i < digits; i++) scale *= 10;
    const uint64_t sum = m.minor < 0 ? -(uint64_t)m.minor : (uint64_t)m.minor;
    const uint64_t whole = sum / (uint64_t)scale, rest = sum % (uint64_t)scale;

    char plain[24];
    const int n = snprintf(plain, sizeof plain, "%" PRIu64, whole);
    if (m.minor < 0) text_add(t, "-");
    for (int i = 0; i < n; i++) {
        if (i > 0 && (n - i) % 3 == 0) text_add(t, ",");
        text_add_n(t, plain + i, 1);
    }
    if (digits > 0 && !(hide_zero_minor && rest == 0)) text_print(t, ".%0*" PRIu64, digits, rest);
    text_print(t, " %s", m.currency);
}

void money_print(struct text *t, struct money m)
{
    print_sum(t, m, false);
}

void money_print_about(struct text *t, double minor, const char *currency)
{
    assert(fabs(minor) < 1e18);
    double step = 1.0;
    while (fabs(minor) / step >= 100.0) step *= 10.0;
    struct money m = {.minor = (int64_t)(round(minor / step) * step)};
    snprintf(m.currency, sizeof m.currency, "%s", currency);
    print_sum(t, m, true);
}

/* ISO 3166 country and ISO 4217 currency, by country. */
static const char countries[][7] = {
    "AEAED", "AFAFN", "ALALL", "AMAMD", "ARARS", "ATEUR", "AUAUD", "AZAZN", "BABAM", "BDBDT",
    "BEEUR", "BGEUR", "BHBHD", "BOBOB", "BRBRL", "BTBTN", "BWBWP", "BYBYN", "CACAD", "CDCDF",
    "CHCHF", "CLCLP", "CNCNY", "COCOP", "CRCRC", "CUCUP", "CYEUR", "CZCZK", "DEEUR", "DJDJF",
    "DKDKK", "DODOP", "DZDZD", "ECUSD", "EEEUR", "EGEGP", "ESEUR", "ETETB", "FIEUR", "FJFJD",
    "FODKK", "FREUR", "GBGBP", "GEGEL", "GHGHS", "GREUR", "GTGTQ", "HKHKD", "HNHNL", "HREUR",
    "HUHUF", "IDIDR", "IEEUR", "ILILS", "ININR", "IQIQD", "IRIRR", "ISISK", "ITEUR", "JOJOD",
    "JPJPY", "KEKES", "KGKGS", "KHKHR", "KRKRW", "KWKWD", "KZKZT", "LALAK", "LBLBP", "LICHF",
    "LKLKR", "LTEUR", "LUEUR", "LVEUR", "LYLYD", "MAMAD", "MEEUR", "MGMGA", "MKMKD", "MMMMK",
    "MNMNT", "MTEUR", "MUMUR", "MVMVR", "MXMXN", "MYMYR", "NANAD", "NGNGN", "NINIO", "NLEUR",
    "NONOK", "NPNPR", "NZNZD", "OMOMR", "PAPAB", "PEPEN", "PGPGK", "PHPHP", "PKPKR", "PLPLN",
    "PRUSD", "PTEUR", "PYPYG", "QAQAR", "RORON", "RSRSD", "RURUB", "RWRWF", "SASAR", "SCSCR",
    "SDSDG", "SESEK", "SGSGD", "SIEUR", "SKEUR", "SNXOF", "SVUSD", "THTHB", "TJTJS", "TMTMT",
    "TNTND", "TRTRY", "TWTWD", "TZTZS", "UAUAH", "UGUGX", "USUSD", "UYUYU", "UZUZS", "VEVES",
    "VNVND", "WSWST", "XKEUR", "ZAZAR", "ZMZMW",
};

const char *currency_of_locale(const char *locale)
{
    const char *country = locale ? strchr(locale, '_') : NULL;
    if (!country || strcspn(++country, ".@") != 2) return NULL;
    for (size_t i = 0; i < sizeof countries / sizeof *countries; i++)
        if (memcmp(countries[i], country, 2) == 0) return countries[i] + 2;
    return NULL;
}
