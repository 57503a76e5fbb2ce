/* The digest on which journal, files and cache names rest. Published: NIST FIPS 180-4 and its
 * example values. */
#include <setjmp.h>
#include <sodium.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void published_values(void **state)
{
    (void)state;
    static const struct {
        const char *text, *hex;
    } cases[] = {
        {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
        {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
        {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
         "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
        {"abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrl"
         "mnopqrsmnopqrstnopqr"
         "stu",
         "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        unsigned char hash[crypto_hash_sha256_BYTES];
        char hex[2 * sizeof hash + 1];
        crypto_hash_sha256(hash, (const unsigned char *)cases[i].text, strlen(cases[i].text));
        sodium_bin2hex(hex, sizeof hex, hash, sizeof hash);
        assert_string_equal(hex, cases[i].hex);
    }
}

static void a_million_letters_in_pieces(void **state)
{
    (void)state;
    unsigned char piece[1000], hash[crypto_hash_sha256_BYTES];
    char hex[2 * sizeof hash + 1];
    crypto_hash_sha256_state s;
    memset(piece, 'a', sizeof piece);
    crypto_hash_sha256_init(&s);
    for (int i = 0; i < 1000; i++) crypto_hash_sha256_update(&s, piece, sizeof piece);
    crypto_hash_sha256_final(&s, hash);
    sodium_bin2hex(hex, sizeof hex, hash, sizeof hash);
    assert_string_equal(hex, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_values),
        cmocka_unit_test(a_million_letters_in_pieces),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
