/* test_bags.c - back together: last off first on, and what to buy for it, against sums made here
 * from what was put in. */
#include "shop/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "shop/bags.h"

#include <string.h>

static struct bags bags_of(struct scene *s)
{
    struct bags x;
    struct fail f = {0};
    if (!bags_read(&s->arena, s->garage, &s->trade, s->vehicle, &x, &f)) fail_msg("%s", f.text);
    return x;
}

static const struct hardware *bought(const struct bags *x, const char *name, const char *length)
{
    for (int i = 0; i < x->n_kit; i++)
        if (strcmp(x->kit[i].piece->name, name) == 0 &&
            (!length || (x->kit[i].piece->length && strcmp(x->kit[i].piece->length, length) == 0)))
            return &x->kit[i];
    return NULL;
}

/* Thirty bags, some emptied: the way back is the way apart, and each like piece is bought once. */
static void the_way_back_is_the_way_apart(void **state)
{
    (void)state;
    enum { BAGS = 30 };
    struct scene s;
    scene_open(&s);
    scene_add(&s, "vehicle", "name=Linnet", NULL);
    int pins = 0, lost = 0, full = 0;
    for (int i = 0; i < BAGS; i++) {
        const bool emptied = i % 4 == 1;
        const char *code = arena_print(&s.arena, "B%d", i + 1);
        const int count = 1 + i % 3;
        scene_add(&s, "bag", arena_print(&s.arena, "code=%s", code), "what=a part",
                  emptied ? "emptied=2026-11-20" : "note=full", NULL);
        scene_add(&s, "bag-item", arena_print(&s.arena, "bag=%s", code), "name=split pin",
                  arena_print(&s.arena, "count=%d", count), "length=40 mm", NULL);
        scene_add(&s, "bag-item", arena_print(&s.arena, "bag=%s", code), "name=cover screw",
                  "count=4", "thread=M6", i % 5 == 0 ? "back=3" : "back=4", NULL);
        pins += emptied ? 0 : count;
        lost += i % 5 == 0; /* one each, of emptied bags too */
        full += !emptied;
    }
    const struct bags x = bags_of(&s);
    assert_int_equal(x.count, BAGS);
    assert_int_equal(x.n_back, full);
    for (int i = 1; i < x.n_back; i++) assert_true(x.back[i - 1] > x.back[i]);
    assert_int_equal(x.n_kit, 2);
    assert_int_equal(bought(&x, "split pin", "40 mm")->count, pins);
    assert_int_equal(bought(&x, "split pin", NULL)->n_bags, full);
    assert_int_equal(bought(&x, "cover screw", NULL)->count, lost);
    scene_close(&s);
}

static void pieces_know_whether_they_go_back(void **state)
{
    (void)state;
    static const struct {
        const char *name, *thread, *torque, *renew;
        enum piece_state is;
        bool look_up;
    } cases[] = {
        {"hub nut", "M20x1.5", "120 lbf ft", NULL, PIECE_AGAIN, false},
        {"hub nut", "M20x1.5", NULL, NULL, PIECE_AGAIN, true},
        {"split pins, both", NULL, NULL, NULL, PIECE_NEW, false},
        {"Copper banjo WASHERS", NULL, NULL, NULL, PIECE_NEW, false}, /* in any case */
        {"spring washer", NULL, NULL, NULL, PIECE_LOOK, false},
        {"plain washer", NULL, NULL, NULL, PIECE_AGAIN, false},
        {"gasketed cover", NULL, NULL, NULL, PIECE_AGAIN, false}, /* no whole word */
        {"split pin", NULL, NULL, "no", PIECE_AGAIN, false},      /* as it was told */
        {"cover screw", NULL, NULL, "yes", PIECE_NEW, false},
    };
    struct scene s;
    scene_open(&s);
    scene_add(&s, "vehicle", "name=Linnet", NULL);
    scene_add(&s, "bag", "code=B1", "what=all", NULL);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        scene_add(
            &s, "bag-item", "bag=B1", "count=1", arena_print(&s.arena, "name=%s", cases[i].name),
            cases[i].thread ? arena_print(&s.arena, "thread=%s", cases[i].thread) : "note=none",
            arena_print(&s.arena, "torque=%s", cases[i].torque ? cases[i].torque : ""),
            arena_print(&s.arena, "renew=%s", cases[i].renew ? cases[i].renew : ""), NULL);
    const struct bags x = bags_of(&s);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct fact_piece *p = &x.all[0].pieces[i];
        if (piece_state_of(&s.trade, p) != cases[i].is) fail_msg("%s", cases[i].name);
        assert_int_equal(piece_lacks_torque(p), cases[i].look_up);
    }
    scene_close(&s);
}

static void the_next_code_is_free(void **state)
{
    (void)state;
    struct scene s;
    const char *code;
    struct fail f = {0};
    scene_open(&s);
    scene_add(&s, "vehicle", "name=Linnet", NULL);
    static const char *const told[] = {"code=B9", "code=b12", "code=BX", "code=C40"};
    for (int i = 0; i < 4; i++) scene_add(&s, "bag", told[i], "what=part", NULL);
    assert_true(bags_next_code(&s.arena, s.garage, &code, &f));
    assert_string_equal(code, "B13");
    scene_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_way_back_is_the_way_apart),
        cmocka_unit_test(pieces_know_whether_they_go_back),
        cmocka_unit_test(the_next_code_is_free),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
