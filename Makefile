# Bayleaf. `make guides` and `make check` do all their own set-up.
#
#   make                 the program, build/bayleaf
#   make guides          set up, build, print every guide in procedures/
#   make check           set up, build, run every test, plain and sanitized
#   make SAN=1 check     only the sanitized half
#   make unit-FOLDER     unit tests of one folder; later folders may be broken
#   make accept [TEST=topic/name]  write expected files of golden tests
#   make install | uninstall PREFIX=/usr/local DESTDIR=
#   make docs            the tables of docs/language.md
#   make calc            the calculations alone, build/libbayleafcalc.a
#   make mutate [COUNT=400]  share of changes to calc/ that a test notices
#   make oracle          2000 random circuits against ngspice
#   make geometry [GUIDES=500]  the pages of that many generated guides
#   make bench [ROWS=1000]  guides, circuits, libraries and fleets
#   make fuzz SECONDS=60 | format | headers | deps-check | clean
# Q= shows the commands.
CC = gcc
Q = @
SAN =
WERROR =
SECONDS = 60
COUNT = 400
GUIDES = 500
ROWS = 1000
TEXT_FONTS = /usr/share/fonts/opentype/inter
MORE_FONTS = /usr/share/fonts/truetype/dejavu
BUILD = build$(if $(SAN),/san,$(if $(WERROR),/check))
# In the order in which data flows: a folder includes only those before it.
FOLDERS = base image calc source values checks layout print library command
CFLAGS = $(if $(SAN),-O1,-O2) -g
SANITIZE = -fsanitize=address,undefined -fno-sanitize-recover=all
WARN = -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes \
 -Wmissing-prototypes -Wold-style-definition -Wwrite-strings -Wcast-qual \
 -Wpointer-arith -Wundef -Wvla -Wformat=2
pkg = $(shell pkg-config $1 2>/dev/null)
PKG = libcmark harfbuzz harfbuzz-subset libqrencode nettle jansson libpng libjpeg \
 libdeflate
COMPILE := $(CC) -std=c17 -D_XOPEN_SOURCE=700 $(WARN) $(WERROR) \
 $(CFLAGS) $(if $(SAN),$(SANITIZE)) -Icompiler -DTEXT_FONTS='"$(TEXT_FONTS)"' \
 -DMORE_FONTS='"$(MORE_FONTS)"' \
 $(call pkg,--cflags $(PKG))
# Six are linked in where their package has an archive: each that is looked for
# when the program starts takes as long as half a page.
ARCHIVED = libcmark nettle jansson libpng libjpeg libdeflate
archive = $(or $(if $(call pkg,--libs-only-L $1),,$(filter /%,$(shell $(CC) \
 -print-file-name=$(patsubst -l%,lib%.a,$(call pkg,--libs-only-l $1))))),\
 $(call pkg,--libs $1))
LIBS := $(foreach p,$(ARCHIVED),$(call archive,$p)) $(call pkg,--libs \
 $(filter-out $(ARCHIVED),$(PKG))) -lhpdf -lz -lm -pthread
# Set-up by Debian package; `make SETUP=: check` where all is there already.
SETUP = tests/tools/setup
NEEDS = gcc libc6-dev pkg-config libcmark-dev libhpdf-dev libharfbuzz-dev \
 libqrencode-dev nettle-dev libjansson-dev libpng-dev libjpeg62-turbo-dev \
 libdeflate-dev fonts-inter fonts-dejavu-core fonts-dejavu-extra
TEST_NEEDS = libcmocka-dev zlib1g-dev libmd-dev qpdf poppler-utils mupdf-tools ghostscript units \
 groff-base bash ngspice
JOBS = $(if $(filter -j%,$(MAKEFLAGS)),,-j$(shell nproc))
PREFIX = /usr/local
DESTDIR =
TO = $(DESTDIR)$(PREFIX)
INSTALL = install -D -m 644
PAGES = docs/language.md docs/messages.md docs/tutorial.md LICENSE
RUN = tests/tools/run-tests
TEMPLATES := $(shell find templates -name '*.md')
PROC = $(wildcard /proc/self/exe)

all: $(BUILD)/bayleaf $(BUILD)/bayleaf.1 $(BUILD)/bayleaf.bash

# For each folder an archive and its tests, which link with the archives so far:
# a later folder that does not compile stops no test of an earlier one.
LOWER :=
define folder_rules
$(BUILD)/lib/$1.a: $(patsubst compiler/%,$(BUILD)/obj/%.o,$(basename \
 $(wildcard compiler/$1/*.c compiler/$1/*.S))) $(wildcard compiler/$1)
LOWER := $(BUILD)/lib/$1.a $(LOWER)
UNIT_$1 := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/unit/$1/test_*.c))
$$(UNIT_$1): $$(LOWER)
unit-$1: $$(UNIT_$1)
	$(RUN) $$^
endef
$(foreach f,$(FOLDERS),$(eval $(call folder_rules,$f)))
ENDS = $(patsubst %.c,$(BUILD)/%,$(wildcard tests/*.c))
SUITE = $(ENDS) $(foreach f,$(FOLDERS),$(UNIT_$f))
$(ENDS): $(BUILD)/lib/base.a

$(BUILD)/obj/%.o: compiler/%.c Makefile
	@mkdir -p $(@D)
	@echo $@
	$(Q)$(COMPILE) -MMD -MP -c $< -o $@
$(BUILD)/obj/%.o: compiler/%.S Makefile
	@mkdir -p $(@D)
	@echo $@
	$(Q)$(COMPILE) -MMD -MP -c $< -o $@
$(BUILD)/obj/checks/shipped.o: templates/hazards.md
$(BUILD)/obj/layout/sheets.o: templates/shop.md templates/bench.md \
 templates/owner.md
$(BUILD)/obj/command/start.o: $(TEMPLATES)
# What is found out of the faces before there is a guide.
$(BUILD)/ready: $(patsubst %,$(BUILD)/obj/%.o,ready layout/face layout/faces \
 layout/piece print/cut) $(BUILD)/lib/base.a
	@echo $@
	$(Q)$(COMPILE) $^ $(LIBS) -o $@
$(BUILD)/obj/layout/ready.c: WHAT = usual
$(BUILD)/obj/print/ready.c: WHAT = subset
$(BUILD)/obj/layout/ready.c $(BUILD)/obj/print/ready.c: $(BUILD)/ready
	@mkdir -p $(@D)
	$(Q)$< $(WHAT) >$@.part && mv $@.part $@
$(BUILD)/obj/%/ready.o: $(BUILD)/obj/%/ready.c
	@echo $@
	$(Q)$(COMPILE) -MMD -MP -c $< -o $@
$(BUILD)/lib/layout.a: $(BUILD)/obj/layout/ready.o
$(BUILD)/lib/print.a: $(BUILD)/obj/print/ready.o
$(BUILD)/lib/%.a:
	@mkdir -p $(@D) && rm -f $@
	@ar rcsD $@ $(filter %.o,$^)
$(BUILD)/bayleaf: $(BUILD)/obj/main.o $(LOWER)
	@echo $@
	$(Q)$(COMPILE) $^ $(LIBS) -o $@
$(BUILD)/tests/%: tests/%.c Makefile
	@mkdir -p $(@D)
	@echo $@
	$(Q)$(COMPILE) -MMD -MP -Itests -DBUILD='"$(BUILD)"' $< $(filter %.a,$^) -lcmocka -lz -lmd \
	 $(LIBS) -o $@
$(BUILD)/tests/bench/replay $(BUILD)/tests/bench/circuits $(patsubst %.c,$(BUILD)/%,$(wildcard \
 tests/fuzz/*.c)): $(LOWER)
archives: $(LOWER)

# Made by the program from the tables that it reads with.
$(BUILD)/bayleaf.1: $(BUILD)/bayleaf
	$(Q)$< help --as=manual >$@
$(BUILD)/bayleaf.bash: $(BUILD)/bayleaf
	$(Q)$< help --as=completion >$@
install: all
	install -D -m 755 $(BUILD)/bayleaf "$(TO)/bin/bayleaf"
	$(INSTALL) $(BUILD)/bayleaf.1 "$(TO)/share/man/man1/bayleaf.1"
	$(INSTALL) $(BUILD)/bayleaf.bash \
	 "$(TO)/share/bash-completion/completions/bayleaf"
	for f in $(TEMPLATES); do \
	 $(INSTALL) $$f "$(TO)/share/bayleaf/$$f" || exit; done
	for f in $(PAGES); do \
	 $(INSTALL) $$f "$(TO)/share/doc/bayleaf/$${f##*/}" || exit; done
uninstall:
	rm -f "$(TO)/bin/bayleaf" "$(TO)/share/man/man1/bayleaf.1" \
	 "$(TO)/share/bash-completion/completions/bayleaf"
	for f in $(TEMPLATES); do rm -f "$(TO)/share/bayleaf/$$f" || exit; done
	for f in $(PAGES); do \
	 rm -f "$(TO)/share/doc/bayleaf/$${f##*/}" || exit; done
	-find "$(TO)/share/bayleaf" "$(TO)/share/doc/bayleaf" -depth -type d \
	 -empty -delete
docs: $(BUILD)/bayleaf
	{ sed '/^<!-- tables/q' docs/language.md; $< help --as=reference; \
	 sed -n '/^<!-- end of tables/,$$p' docs/language.md; } >$(BUILD)/language.md
	cp $(BUILD)/language.md docs/language.md

guides:
	$(SETUP) $(NEEDS)
	+$(MAKE) $(JOBS) all
	build/bayleaf build $(wildcard procedures/*.md)
suite: $(BUILD)/bayleaf $(SUITE)
names:
	@echo $(SUITE)
# Sanitizers read their options, the stack's bounds and leaks from /proc.
check:
	$(SETUP) $(NEEDS) $(TEST_NEEDS)
	+$(if $(SAN),,$(MAKE) $(JOBS) -k WERROR=-Werror headers deps-check suite)
	+$(if $(PROC),$(MAKE) $(JOBS) -k WERROR=-Werror SAN=1 suite,\
	 @echo "There is no /proc here: without it no sanitized test can run.")
	$(RUN) $$($(if $(SAN),,$(MAKE) -s WERROR=-Werror names;) \
	 $(if $(PROC),$(MAKE) -s SAN=1 names))
unit: $(foreach f,$(FOLDERS),$(UNIT_$f))
	$(RUN) $^
accept: $(BUILD)/bayleaf $(BUILD)/tests/golden
	$(BUILD)/tests/golden --accept $(TEST)
bench: $(BUILD)/bayleaf $(BUILD)/tests/bench/replay $(BUILD)/tests/bench/bench \
 $(BUILD)/tests/bench/circuits $(BUILD)/tests/bench/library
	$(BUILD)/tests/bench/bench
	$(BUILD)/tests/bench/circuits
	$(BUILD)/tests/bench/library $(ROWS)
calc: $(BUILD)/libbayleafcalc.a
$(BUILD)/libbayleafcalc.a: $(BUILD)/lib/calc.a
	$(Q)cp $< $@
# More random circuits against the simulator than `check` takes time for.
oracle: $(BUILD)/tests/unit/calc/test_circuit_net
	BAYLEAF_CIRCUITS=2000 $<
geometry: $(BUILD)/tests/unit/layout/test_generated \
 $(BUILD)/tests/unit/layout/test_schematic \
 $(BUILD)/tests/unit/layout/test_schematic_ways
	BAYLEAF_GUIDES=$(GUIDES) $<
	BAYLEAF_DIAGRAMS=$(GUIDES) $(BUILD)/tests/unit/layout/test_schematic
	BAYLEAF_DIAGRAMS=$(GUIDES) $(BUILD)/tests/unit/layout/test_schematic_ways
mutate:
	tests/unit/calc/mutate $(COUNT)
fuzz:
	tests/tools/fuzz $(SECONDS)
format:
	clang-format -i $$(find compiler tests -name '*.[ch]')
headers:
	@for h in $(wildcard compiler/*.h compiler/*/*.h); do \
	 $(COMPILE) -fsyntax-only -include $$h -x c /dev/null || exit 1; done
deps-check:
	@set -- $(FOLDERS); while [ $$# -gt 1 ]; do f=$$1; shift; for l; do \
	 ! grep -rn "^#include \"$$l/" compiler/$$f || \
	 { echo "$$f/ may not include $$l/: it comes later" >&2; exit 1; }; done; done
	@! grep -rln '^#include <hpdf' compiler | grep -v ^compiler/print/
	@! grep -rln '^#include <cmark' compiler | grep -v ^compiler/source/
	@! grep -rlnE '^#include <(png|jpeglib)' compiler | grep -v ^compiler/image/
	@! grep -rlnE '^#include <(libdeflate|nettle)' compiler | grep -v ^compiler/base/
clean:
	find build -mindepth 1 ! -name .gitkeep -delete

-include $(shell find $(BUILD)/obj $(BUILD)/tests -name '*.d' 2>/dev/null)
.PHONY: calc geometry oracle mutate all archives guides suite names check unit accept bench fuzz format headers \
 deps-check clean install uninstall docs $(FOLDERS:%=unit-%)
