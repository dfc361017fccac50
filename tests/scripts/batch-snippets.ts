/** Snippets of DEVELOPERS.md, section "A fleet office", as they stand there; `tests/scripts/plan-many.test.ts` runs them. */
export const BATCH_SNIPPETS = {
  xargs: `find boats -name '*.json' -print0 | xargs -0 -P 2 -n 1 slatch plan-many --out plans --parallel 1 --`,
  makefile: `plans/%.plan.json: boats/%.json
	slatch plan-many --out plans --parallel 1 $<
all: $(patsubst boats/%.json,plans/%.plan.json,$(wildcard boats/*.json))
.PHONY: all
`,
  make: 'make -j 2 --keep-going all',
} as const;
