# make          the program: build/fettle
# make demo     set up what is missing, build, make the demonstration garage, print its plan
# make check    set up, build with gcc, compile with clang, lint, all tests under ASan and UBSan, the main job in a browser
# make check-long   what takes longer: kills, fuzz, every page in a browser
# make bench    timings; never part of a test
# INSTALL=no    refuse to install anything; says what is missing

.DELETE_ON_ERROR:
.SUFFIXES:
.PHONY: all demo check check-long bench lint format install-needs needs-check clean run-tests-% install
MAKEFLAGS += --no-builtin-rules
SHELL := /bin/bash

all: build/fettle

# ---- what this machine must have: Debian package and how its presence is told -------------------------------
PACKAGES_BUILD := gcc pkg-config libyaml-dev libsqlite3-dev libjansson-dev libsodium-dev libmicrohttpd-dev zlib1g-dev \
	libgnutls28-dev libqrencode-dev libjpeg62-turbo-dev libpng-dev libexif-dev
PACKAGES_CHECK := clang libclang-rt-14-dev libcmocka-dev clang-format mandoc
PACKAGES_BROWSER := chromium nodejs:node npm:npm
PACKAGES_BENCH := python3-numpy python3-scipy curl wrk nginx $(PACKAGES_BROWSER)

install-needs:
	@tools/needs.sh "$(INSTALL)" $(PACKAGES_BUILD)
install-needs-check:
	@tools/needs.sh "$(INSTALL)" $(PACKAGES_BUILD) $(PACKAGES_CHECK)
.PHONY: install-needs-check

# ---- how things are compiled ---------------------------------------------------------------------------------
# VARIANT: release (build/), asan (build/asan/, gcc), clang (build/clang/, for what a second compiler says), tsan
VARIANT ?= release
PKGS := yaml-0.1 sqlite3 jansson libsodium libmicrohttpd zlib gnutls libqrencode
VERSION := $(shell cat VERSION)

WARN := -Wall -Wextra -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wvla \
	-Wno-missing-field-initializers -Werror
COMMON := -std=c17 -D_DEFAULT_SOURCE -D_POSIX_C_SOURCE=200809L -DFETTLE_VERSION='"$(VERSION)"' -Isrc -g -pthread \
	-ffp-contract=off -fno-math-errno $(WARN)
PKG_CFLAGS := $(shell pkg-config --cflags $(PKGS) 2>/dev/null)
PKG_LIBS := $(shell pkg-config --libs $(PKGS) 2>/dev/null)

ifeq ($(VARIANT),release)
  CC := gcc
  B := build
  MODE := -O2 -fstack-protector-strong -D_FORTIFY_SOURCE=2
else ifeq ($(VARIANT),asan)
  CC := gcc
  B := build/asan
  MODE := -O1 -g1 -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer
else ifeq ($(VARIANT),clang)
  CC := clang
  B := build/clang
  MODE := -O0
else ifeq ($(VARIANT),tsan)
  CC := gcc
  B := build/tsan
  MODE := -O1 -fsanitize=thread
else
  $(error VARIANT is release, asan, clang or tsan)
endif
# One short line a file; V=1 shows whole commands.
Q := $(if $(V),,@)
say = $(if $(V),,@echo "  $(1)")

CFLAGS_ALL = $(COMMON) $(MODE) $(PKG_CFLAGS) $(CFLAGS)

# ---- floors: each a static library; a link line names a floor and those below it, so that an arrow upward
# fails to link (and tools/floors.sh fails on an include) ------------------------------------------------------
FLOORS := base reckon bench library garage model shop show web cli photo
DIR_base := src/base
DIR_reckon := src/reckon
DIR_bench := src/bench
DIR_library := src/library
DIR_garage := src/garage
DIR_model := src/model
DIR_shop := src/shop
DIR_show := src/face/show
DIR_web := src/face/web
DIR_cli := src/face/cli
DIR_photo := src/face/photo
BELOW_base := base
BELOW_reckon := reckon base
BELOW_bench := bench reckon base
BELOW_library := library base
BELOW_garage := garage base
BELOW_model := model reckon library garage base
BELOW_shop := shop bench $(BELOW_model)
BELOW_show := show $(BELOW_shop)
BELOW_web := web $(BELOW_show)
BELOW_cli := cli $(BELOW_web)
BELOW_photo := photo base

define floor
SRC_$(1) := $(filter-out %/main.c,$(wildcard $(DIR_$(1))/*.c))
OBJ_$(1) := $$(SRC_$(1):src/%.c=$(B)/obj/%.o)
$(B)/lib$(1).a: $$(OBJ_$(1))
	@rm -f $$@
	@ar rcs $$@ $$^
TEST_SRC_$(1) := $$(wildcard tests/$(1)/test_*.c)
TEST_HELP_$(1) := $$(patsubst %.c,$(B)/obj/%.o,$$(filter-out $$(TEST_SRC_$(1)),$$(wildcard tests/$(1)/*.c)))
TEST_BIN_$(1) := $$(TEST_SRC_$(1):tests/%.c=$(B)/tests/%)
$$(TEST_BIN_$(1)): $(B)/tests/$(1)/%: $(B)/obj/tests/$(1)/%.o $$(TEST_HELP_$(1)) $$(BELOW_$(1):%=$(B)/lib%.a) \
		$(B)/obj/embed.o
	@mkdir -p $$(@D)
	$$(call say,link $$@)
	$$(Q)$(CC) $$(CFLAGS_ALL) -o $$@ $$< $$(TEST_HELP_$(1)) $$(BELOW_$(1):%=$(B)/lib%.a) $(B)/obj/embed.o $$(PKG_LIBS) \
		-lcmocka -lm
run-tests-$(1): $$(TEST_BIN_$(1))
	@for t in $$(TEST_BIN_$(1)); do echo "== $$$$t"; $$$$t || exit 1; done
endef
$(foreach f,$(FLOORS),$(eval $(call floor,$(f))))

# A program of its own, that alone decodes pictures: with libraries that nothing else is linked with.
PKGS_photo := libjpeg libpng libexif
PKG_LIBS_photo := $(shell pkg-config --libs $(PKGS_photo) 2>/dev/null)
$(TEST_BIN_photo) $(B)/fettle-photo: private PKG_LIBS := $(PKG_LIBS_photo)
$(B)/fettle-photo: $(B)/obj/face/photo/main.o $(BELOW_photo:%=$(B)/lib%.a)
	$(call say,link $@)
	$(Q)$(CC) $(CFLAGS_ALL) -o $@ $< $(BELOW_photo:%=$(B)/lib%.a) $(PKG_LIBS) -lm
# What adds photographs runs it.
$(TEST_BIN_show) $(TEST_BIN_web) $(TEST_BIN_cli): | $(B)/fettle-photo

# Programs that are killed, or that get in each other's way: run by tools/check-long.sh.
CRASH := $(patsubst tests/crash/%.c,$(B)/tests/crash/%,$(wildcard tests/crash/*.c))
$(CRASH): $(B)/tests/crash/%: $(B)/obj/tests/crash/%.o $(BELOW_garage:%=$(B)/lib%.a) $(B)/obj/embed.o
	@mkdir -p $(@D)
	$(call say,link $@)
	$(Q)$(CC) $(CFLAGS_ALL) -o $@ $< $(BELOW_garage:%=$(B)/lib%.a) $(B)/obj/embed.o $(PKG_LIBS) -lm

# The simulation lives on these two floors.
ifeq ($(VARIANT),release)
$(B)/obj/reckon/%.o $(B)/obj/base/%.o: MODE += -O3
else ifeq ($(VARIANT),asan)
$(B)/obj/reckon/%.o $(B)/obj/base/%.o: MODE += -O2
endif
$(B)/obj/%.o: src/%.c
	@mkdir -p $(@D)
	$(call say,cc $@)
	$(Q)$(CC) $(CFLAGS_ALL) -MMD -MP -c -o $@ $<
# A test's own code is checked like the rest, but need not be quick.
ifeq ($(VARIANT),asan)
$(B)/obj/tests/%.o: MODE += -O0
endif
$(B)/obj/tests/%.o: tests/%.c
	@mkdir -p $(@D)
	$(call say,cc $@)
	$(Q)$(CC) $(CFLAGS_ALL) -Itests -DTRADE_DIR='"trade"' -DPROGRAMS_DIR='"$(B)"' -DSHARED_DIR='"../shared"' -MMD -MP -c -o $@ $<

# ---- embedded files: trade/ as one blob, checked before it is embedded ----------------------------------------
TRADE := $(shell find trade -name '*.yaml' | LC_ALL=C sort)
build/trade.blob: $(TRADE) tools/blob.sh
	@mkdir -p build
	@tools/blob.sh $(TRADE) > $@
$(B)/obj/embed.o: src/embed.S build/trade.blob src/garage/schema.sql src/face/web/style.css src/face/web/what_if.js \
		src/face/web/live.js
	@mkdir -p $(@D)
	$(Q)$(CC) -c -o $@ $<

$(B)/fettle: $(B)/obj/face/cli/main.o $(BELOW_cli:%=$(B)/lib%.a) $(B)/obj/embed.o | $(B)/fettle-photo
	$(call say,link $@)
	$(Q)$(CC) $(CFLAGS_ALL) -o $@ $< $(BELOW_cli:%=$(B)/lib%.a) $(B)/obj/embed.o $(PKG_LIBS) -lm
	@$@ trade check trade

# ---- acts ----------------------------------------------------------------------------------------------------
demo: install-needs
	@$(MAKE) --no-print-directory -j$$(nproc) build/fettle
	@if [ ! -e build/demo/garage.db ]; then build/fettle demo build/demo; fi
	@build/fettle plan --garage build/demo

tests: $(foreach f,$(FLOORS),$(TEST_BIN_$(f)))
# What a second compiler says of every file: nothing is linked.
objects: $(patsubst %.c,$(B)/obj/%.o,$(patsubst src/%,%,$(shell find src tests -name '*.c')))
.PHONY: tests objects
run-tests: tests $(B)/fettle
	@FETTLE=$(B)/fettle tools/run-tests.sh $(foreach f,$(FLOORS),$(TEST_BIN_$(f)))
.PHONY: run-tests

# The pages in a real browser: tests/browser, by playwright-core and axe-core.
build/browser/node_modules/.package-lock.json: tests/browser/package-lock.json
	@mkdir -p build/browser
	@cp tests/browser/package.json tests/browser/package-lock.json build/browser/
	@echo "  npm ci build/browser"
	@cd build/browser && npm ci --no-audit --no-fund --loglevel=error
	@touch $@
check-browser: build/fettle build/browser/node_modules/.package-lock.json
	@node tests/browser/run.mjs "$(ONLY)"
.PHONY: check-browser

check: install-needs-check
	@$(MAKE) --no-print-directory -j$$(nproc) build/fettle
	@$(MAKE) --no-print-directory lint
	@$(MAKE) --no-print-directory -j$$(nproc) VARIANT=clang objects
	@$(MAKE) --no-print-directory -j$$(nproc) VARIANT=asan build/asan/fettle tests
	@$(MAKE) --no-print-directory VARIANT=asan run-tests
	@if tools/needs.sh "$(INSTALL)" $(PACKAGES_BROWSER) && \
		$(MAKE) --no-print-directory build/browser/node_modules/.package-lock.json; then \
		$(MAKE) --no-print-directory check-browser ONLY="main job"; \
	else echo "skipped: the main job in a real browser; Chromium, Node.js or the packages of tests/browser are not to be had"; fi

check-long: install-needs-check
	@tools/needs.sh "$(INSTALL)" $(PACKAGES_BROWSER)
	@$(MAKE) --no-print-directory -j$$(nproc) build/fettle
	@tools/check-long.sh
	@LONG=1 $(MAKE) --no-print-directory check-browser

lint:
	@tools/floors.sh
	@tools/house.sh
	@if command -v clang-format >/dev/null; then clang-format --dry-run -Werror $$(git ls-files '*.c' '*.h'); fi
	@if command -v mandoc >/dev/null; then mandoc -Tlint -Wwarning docs/fettle.1; fi
format:
	clang-format -i $$(git ls-files '*.c' '*.h')

# Benchmark programs: bench/NAME.c -> build/bench/NAME, linked with every floor.
BENCH_BIN := $(patsubst bench/%.c,$(B)/bench/%,$(wildcard bench/*.c))
$(B)/obj/benchmarks/%.o: bench/%.c
	@mkdir -p $(@D)
	$(call say,cc $@)
	$(Q)$(CC) $(CFLAGS_ALL) -MMD -MP -c -o $@ $<
$(BENCH_BIN): $(B)/bench/%: $(B)/obj/benchmarks/%.o $(BELOW_cli:%=$(B)/lib%.a) $(B)/obj/embed.o
	@mkdir -p $(@D)
	$(call say,link $@)
	$(Q)$(CC) $(CFLAGS_ALL) -o $@ $< $(BELOW_cli:%=$(B)/lib%.a) $(B)/obj/embed.o $(PKG_LIBS) -lm
benchmarks: $(BENCH_BIN)
.PHONY: benchmarks

bench: install-needs
	@tools/needs.sh "$(INSTALL)" $(PACKAGES_BENCH)
	@$(MAKE) --no-print-directory -j$$(nproc) build/fettle benchmarks build/browser/node_modules/.package-lock.json
	@bench/run.sh

# For scripts that link for themselves.
print-%:
	@echo $($*)

clean:
	rm -rf build

-include $(shell find $(B)/obj -name '*.d' 2>/dev/null)
