# Feltpage. Two commands do everything: `make run` and `make test`.
# `make help` lists the rest.

# Used by every build and every test; SQLite's full-text search needs its tag.
TAGS := sqlite_fts5
GO ?= go
# The open data to measure on, beside the repository or elsewhere.
export FELTPAGE_SHARED ?= $(abspath ../shared)
STORIES := $(FELTPAGE_SHARED)/data/fairytale-dev/stories

.PHONY: run test quick build headless libraries evaluate measure lint clean help

run: ## set up this machine, build, and open the window
	@case "$$(uname)$$DISPLAY$$WAYLAND_DISPLAY" in Linux) \
	  echo "There is no screen here to open a window on; 'make headless' builds bin/feltpage-headless, whose 'inspect FILE' reads a story without one." >&2; exit 1;; esac
	@.ci/setup build
	@$(MAKE) --no-print-directory build
	@bin/feltpage

test: ## install what the tests need and run all of them, in a real window too
	@.ci/setup build test
	@$(MAKE) --no-print-directory libraries
	$(GO) vet -tags "$(TAGS) headless" ./cmd/feltpage
	FELTPAGE_WINDOW=1 $(GO) test -tags "$(TAGS)" -timeout 30m ./...

quick: ## the tests without a window, as they are run while working
	$(GO) vet -tags "$(TAGS)" ./...
	$(GO) test -short -tags "$(TAGS)" ./...

build: ## bin/feltpage
	$(GO) build -tags "$(TAGS)" -o bin/feltpage ./cmd/feltpage

headless: ## bin/feltpage-headless: the commands alone, no graphics libraries
	CGO_ENABLED=0 $(GO) build -tags "$(TAGS) headless" -o bin/feltpage-headless ./cmd/feltpage

libraries: ## the npm packages that some tests compare with, into bin/measure
	@mkdir -p bin/measure
	@if cmp -s testdata/measure/package-lock.json bin/measure/package-lock.json && [ -d bin/measure/node_modules ]; then :; \
	elif command -v npm >/dev/null; then \
	  cp testdata/measure/package.json testdata/measure/package-lock.json bin/measure/; \
	  npm ci --prefix bin/measure --no-audit --no-fund --silent || \
	    echo "The npm packages cannot be fetched; the tests that compare with them are skipped."; \
	else echo "npm is not installed; the tests that compare with its packages are skipped."; fi

evaluate: headless ## the accuracy table, on the open data in FELTPAGE_SHARED
	bin/feltpage-headless evaluate --data $(FELTPAGE_SHARED)/data

measure: ## the long runs: speed beside other libraries, agreement with them
	@.ci/setup build test measure
	@$(MAKE) --no-print-directory libraries evaluate
	$(GO) test -tags "$(TAGS)" -v -run 'Libraries|SameTags|WordNet|LemmasIn|PronouncingDictionary|Readings' ./nlp/... ./corpus/...
	$(GO) test -tags "$(TAGS)" -run xxx -bench 'Stories|Both|Length|Start|Prose' ./nlp/pipeline ./nlp/tag
	NODE_PATH=bin/measure/node_modules node testdata/measure/wink.cjs $(STORIES)

lint: ## gofmt, vet and staticcheck
	@test -z "$$(gofmt -l app cmd corpus exercises nlp)" || { gofmt -l app cmd corpus exercises nlp; exit 1; }
	$(GO) vet -tags "$(TAGS)" ./...
	$(GO) run honnef.co/go/tools/cmd/staticcheck@v0.8.2 -tags "$(TAGS)" ./...

clean: ## remove what was built
	rm -rf bin

help: ## this list
	@sed -n 's/^\([a-z]*\):.*## /  make \1\t/p' Makefile
