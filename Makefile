# dawnlow: `make` alone lists what there is. Honours CC, CFLAGS, CPPFLAGS, LDFLAGS, BUILD, PREFIX,
# DESTDIR. Everything made lands in $(BUILD).
MAKEFLAGS += --no-builtin-rules
.DELETE_ON_ERROR:
.SUFFIXES:

# A machine that has no compiler yet gets gcc, so that is the name to count on.
ifeq ($(origin CC),default)
CC := $(if $(shell command -v gcc),gcc,$(if $(shell command -v cc),cc,gcc))
endif
BUILD ?= build
PREFIX ?= /usr/local
CFLAGS ?= -O3 -g

WARN = -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes \
       -Wvla -Wno-psabi -Werror
# Nothing may fuse a product and a sum: the same bits on every processor (src/base/lane.h). And the
# ABI of vectors does not matter where no vector is handed from file to file.
LANGUAGE = -std=c17 -D_POSIX_C_SOURCE=200809L -ffp-contract=off
INCLUDES = -Iinclude -Isrc
COMPILE = $(CC) $(LANGUAGE) $(WARN) $(INCLUDES) $(OPENMP) $(CPPFLAGS) $(CFLAGS) -MMD -MP
# clang would need a run-time library of its own; built with it, jobs run one after another.
OPENMP := $(if $(findstring clang,$(CC)),,-fopenmp)
LIBS = -lsundials_cvode -lnlopt -lcsv -lyaml -lm $(OPENMP)
# Each use of the sanitizers is a build of its own, a folder below the ordinary one.
SANITIZE = -fsanitize=address,undefined,float-divide-by-zero,float-cast-overflow \
           -fno-sanitize-recover=all -fno-omit-frame-pointer
FUZZ_SECONDS ?= 20
# For makes within make, unless whoever called has said how many jobs.
ALL_CORES = $(if $(filter -j%,$(MAKEFLAGS)),,-j$(shell nproc 2>/dev/null || echo 2))
DEMO = nights scenarios/alder-hollow.yaml --from 2026-03-08 --to 2026-03-22
VERSION = $(shell sed -n 's/^\#define DAWN_VERSION "\(.*\)"/\1/p' include/dawnlow/version.h)

LIB_SRC := $(sort $(filter-out src/cli/%,$(wildcard src/*/*.c)))
CLI_SRC := $(sort $(wildcard src/cli/*.c))
SUPPORT_SRC := $(sort $(wildcard tests/support/*.c))
TEST_SRC := $(sort $(wildcard tests/unit/*/test_*.c tests/exact/test_*.c tests/law/test_*.c))
BENCH_SRC := $(sort $(wildcard tests/bench/bench_*.c))
BENCH_PART_SRC := $(sort $(filter-out $(BENCH_SRC),$(wildcard tests/bench/*.c)))
FUZZ_SRC := $(sort $(wildcard tests/fuzz/fuzz_*.c))
VALLEY_SRC := $(sort $(wildcard tests/demo_weather/make_*.c))
HEADERS := $(sort $(wildcard include/dawnlow/*.h include/dawnlow/*/*.h))

LIB_OBJ := $(LIB_SRC:%.c=$(BUILD)/%.o)
CLI_OBJ := $(CLI_SRC:%.c=$(BUILD)/%.o)
SUPPORT_OBJ := $(SUPPORT_SRC:%.c=$(BUILD)/%.o)
TEST_BIN := $(TEST_SRC:%.c=$(BUILD)/%)
BENCH_BIN := $(BENCH_SRC:%.c=$(BUILD)/%)
BENCH_PART_OBJ := $(BENCH_PART_SRC:%.c=$(BUILD)/%.o)
REPLAY_BIN := $(FUZZ_SRC:tests/fuzz/fuzz_%.c=$(BUILD)/tests/fuzz/replay_%)
FUZZ_BIN := $(FUZZ_SRC:%.c=$(BUILD)/%)
VALLEY_BIN := $(VALLEY_SRC:%.c=$(BUILD)/%)

# What the program writes of itself, and where it goes below $(PREFIX).
MANUAL = $(addprefix $(BUILD)/manual/,dawnlow.1 dawnlow-scenario.5 dawnlow-weather.5 \
         dawnlow-tutorial.7)
COMPLETION = $(addprefix $(BUILD)/completion/,bash zsh fish)
BASH_PLACE = share/bash-completion/completions/dawnlow
ZSH_PLACE = share/zsh/site-functions/_dawnlow
FISH_PLACE = share/fish/vendor_completions.d/dawnlow.fish
EXAMPLES := $(sort $(wildcard scenarios/*.yaml scenarios/*.md weather/*.csv weather/*.md))
TO = $(DESTDIR)$(PREFIX)

LIB = $(BUILD)/libdawnlow.a
PROGRAM = $(BUILD)/dawnlow
# The commands without main, so that their parts can be tested like any other.
COMMANDS = $(BUILD)/commands.a
SUPPORT = $(BUILD)/support.a
BENCH_PARTS = $(BUILD)/bench.a

# ---- targets for people ----

help: ## this list
	@sed -n 's/^\([a-z][a-z]*\):.*## \(.*\)/\1|\2/p' Makefile | \
	    while IFS='|' read -r name text; do printf 'make %-8s %s\n' "$$name" "$$text"; done

all: $(PROGRAM) $(LIB) ## build the program and libdawnlow.a into build/

demo: ## install what is missing, build, and show the nights of a nursery
	@tests/support/need.sh demo
	@echo "Building $(PROGRAM)"
	@$(MAKE) -s --no-print-directory $(ALL_CORES) $(PROGRAM)
	$(PROGRAM) $(DEMO)

test: ## install what is missing, then every check there is
	@tests/support/need.sh test
	+@$(RUN_TESTS) all

lint: ## layers, names, format, warnings of gcc and clang, clang-tidy, cppcheck
	+@$(RUN_TESTS) lint

san: ## unit, exact, law and cli tests with the address and undefined-behaviour sanitizers
	+@$(RUN_TESTS) san

one: ## one test, with all it says: make one T=tests/unit/base/test_text.c
	+@$(RUN_TESTS) one $(T)

fuzz: ## libFuzzer on the readers, FUZZ_SECONDS (20) each, from tests/fuzz/corpus
	@tests/support/need.sh fuzz
	+@MAKE='$(MAKE)' BUILD='$(BUILD)' FUZZ_SECONDS='$(FUZZ_SECONDS)' tests/fuzz/run_fuzz.sh

bench: $(BENCH_BIN) $(PROGRAM) ## measure how fast it is (some minutes, on an idle machine)
	@BUILD='$(BUILD)' CC='$(CC)' CFLAGS='$(CFLAGS)' tests/bench/run_bench.sh

cover: ## line and branch coverage by room, with gcovr, into build/cover
	+@MAKE='$(MAKE)' BUILD='$(BUILD)' tests/support/cover.sh

format: ## clang-format all C
	clang-format -i $$(find src include tests -name '*.[ch]')

install: install-program install-library ## program, manual, completion, examples, library, headers below $(DESTDIR)$(PREFIX)

install-program: $(PROGRAM) $(MANUAL) $(COMPLETION)
	install -D -m 755 $(PROGRAM) '$(TO)/bin/dawnlow'
	for page in $(MANUAL); do install -D -m 644 "$$page" \
	    '$(TO)'"/share/man/man$${page##*.}/$${page##*/}" || exit 1; done
	install -D -m 644 $(BUILD)/completion/bash '$(TO)/$(BASH_PLACE)'
	install -D -m 644 $(BUILD)/completion/zsh '$(TO)/$(ZSH_PLACE)'
	install -D -m 644 $(BUILD)/completion/fish '$(TO)/$(FISH_PLACE)'
	for file in $(EXAMPLES); do install -D -m 644 "$$file" '$(TO)'"/share/dawnlow/$$file" || exit 1; done

install-library: $(LIB)
	install -D -m 644 $(LIB) '$(TO)/lib/libdawnlow.a'
	for h in $(HEADERS); do install -D -m 644 "$$h" '$(TO)'"/$$h" || exit 1; done
	install -d '$(TO)/lib/pkgconfig'
	printf '%s\n' 'Name: dawnlow' 'Description: night lows of an unheated nursery' \
	    'Version: $(VERSION)' 'Cflags: -I$(PREFIX)/include' 'Libs: -L$(PREFIX)/lib -ldawnlow $(LIBS)' \
	    > '$(TO)/lib/pkgconfig/dawnlow.pc'

uninstall: ## take away what `make install` laid down, with the same DESTDIR and PREFIX
	rm -f '$(TO)/bin/dawnlow' '$(TO)/lib/libdawnlow.a' '$(TO)/lib/pkgconfig/dawnlow.pc' \
	    '$(TO)/$(BASH_PLACE)' '$(TO)/$(ZSH_PLACE)' '$(TO)/$(FISH_PLACE)'
	for page in $(MANUAL); do \
	    rm -f '$(TO)'"/share/man/man$${page##*.}/$${page##*/}" || exit 1; done
	rm -rf '$(TO)/include/dawnlow' '$(TO)/share/dawnlow'

deb: $(PROGRAM) ## build a Debian package of the program into build/deb
	+@MAKE='$(MAKE)' BUILD='$(BUILD)' src/package/make_deb.sh

clean: ## remove build/
	rm -rf '$(BUILD)'

# ---- targets for the scripts in tests/ ----

programs: $(PROGRAM) $(LIB) $(TEST_BIN) $(VALLEY_BIN)
replays: $(REPLAY_BIN)
fuzzers: $(FUZZ_BIN)
list-tests:
	@printf '%s\n' $(TEST_SRC)
list-fuzz:
	@printf '%s\n' $(FUZZ_SRC:tests/fuzz/fuzz_%.c=%)
list-objects:
	@printf '%s\n' $(LIB_OBJ) $(CLI_OBJ)

# The flags, as shell assignments: the checks compile with what the build compiles with.
list-flags:
	@echo "export WARN='$(WARN)' LANGUAGE='$(LANGUAGE)' INCLUDES='$(INCLUDES)'"
	@echo "export SANITIZE='$(SANITIZE)' DEMO='$(DEMO)'"
RUN_TESTS = MAKE='$(MAKE)' BUILD='$(BUILD)' tests/run.sh

# ---- how things are made ----

# Objects made with other flags are no use: the flags file changes, and everything after it.
FLAGS = $(BUILD)/flags
$(FLAGS): FORCE
	@mkdir -p $(@D)
	@printf '%s\n' '$(COMPILE) $(LDFLAGS)' | cmp -s - $@ || printf '%s\n' '$(COMPILE) $(LDFLAGS)' > $@
FORCE:

$(PROGRAM): $(CLI_OBJ) $(LIB)
	$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)

$(BUILD)/manual/%.7: src/cli/man/%.7
	@mkdir -p $(@D)
	cp $< $@
$(BUILD)/manual/%: $(PROGRAM)
	@mkdir -p $(@D)
	$(PROGRAM) manual $(basename $(@F)) > $@
$(COMPLETION): $(BUILD)/completion/%: $(PROGRAM)
	@mkdir -p $(@D)
	$(PROGRAM) completion $* > $@

# A fresh archive each time: `ar r` alone would keep the members of deleted files.
$(LIB): $(LIB_OBJ)
$(COMMANDS): $(filter-out %/main.o,$(CLI_OBJ))
$(SUPPORT): $(SUPPORT_OBJ)
$(BENCH_PARTS): $(BENCH_PART_OBJ)
$(LIB) $(COMMANDS) $(SUPPORT) $(BENCH_PARTS): $(FLAGS)
	@mkdir -p $(@D)
	@rm -f $@
	ar rcs $@ $(filter %.o,$^)

# Files for one level of processor only; the program asks the processor before it calls them.
ifneq ($(findstring x86_64,$(shell $(CC) -dumpmachine)),)
%_level3.o: LEVEL = -march=x86-64-v3
%_level4.o: LEVEL = -march=x86-64-v4 -mprefer-vector-width=512
endif

$(BUILD)/tests/%.o: tests/%.c $(FLAGS)
	@mkdir -p $(@D)
	$(COMPILE) $(LEVEL) -Itests -c -o $@ $<
$(BUILD)/%.o: %.c $(FLAGS)
	@mkdir -p $(@D)
	$(COMPILE) $(LEVEL) -c -o $@ $<

$(TEST_BIN): %: %.o $(SUPPORT) $(COMMANDS) $(LIB)
	$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ -lcmocka $(LIBS)
$(BENCH_BIN): %: %.o $(BENCH_PARTS) $(LIB)
	$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)
$(VALLEY_BIN): %: %.o $(LIB)
	$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)
$(REPLAY_BIN): $(BUILD)/tests/fuzz/replay_%: $(BUILD)/tests/fuzz/fuzz_%.o \
        $(BUILD)/tests/fuzz/replay_main.o $(COMMANDS) $(LIB)
	$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)
# Only run_fuzz.sh asks for these: it builds all with clang and -fsanitize=fuzzer-no-link.
$(FUZZ_BIN): %: %.o $(COMMANDS) $(LIB)
	$(CC) $(CFLAGS) $(LDFLAGS) -fsanitize=fuzzer -o $@ $^ $(LIBS)

-include $(patsubst %.c,$(BUILD)/%.d,$(LIB_SRC) $(CLI_SRC) $(SUPPORT_SRC) $(TEST_SRC) \
    $(BENCH_SRC) $(BENCH_PART_SRC) $(FUZZ_SRC) $(VALLEY_SRC) tests/fuzz/replay_main.c)

.PHONY: help all demo test lint san one fuzz bench cover format install install-program \
        install-library uninstall deb clean programs replays \
        fuzzers list-tests list-fuzz list-objects list-flags FORCE
.SECONDARY:
