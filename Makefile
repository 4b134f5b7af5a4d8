# Feltpage. Two commands do everything: `make run` and `make test`.
# `make help` lists the rest.

# Used by every build and every test; SQLite's full-text search needs its tag.
TAGS := sqlite_fts5
GO ?= go
GOFILES := $(shell git ls-files '*.go' 2>/dev/null)
STATICCHECK := honnef.co/go/tools/cmd/staticcheck@v0.7.0
export FELTPAGE_SHARED ?= $(abspath ../shared)

.PHONY: run test quick build headless install lint measure evaluate generate clean help

run: ## set up this machine, build, and open the window
	@case "$$(uname)$$DISPLAY$$WAYLAND_DISPLAY" in Linux) \
	  echo "There is no screen here to open a window on; 'make headless' builds bin/feltpage-headless, whose 'inspect FILE' reads a story without one." >&2; exit 1;; esac
	@.ci/setup build
	@$(MAKE) --no-print-directory build
	@bin/feltpage

test: ## install what the tests need and run all of them, in a real window too
	@.ci/setup build test
	FELTPAGE_WINDOW=1 $(GO) test -tags "$(TAGS)" -timeout 30m ./...
	$(GO) vet -tags "$(TAGS) headless" ./cmd/feltpage

quick: ## the tests without a window
	$(GO) vet -tags "$(TAGS)" ./...
	$(GO) test -tags "$(TAGS)" ./...

build: ## bin/feltpage
	$(GO) build -tags "$(TAGS)" -o bin/feltpage ./cmd/feltpage

headless: ## bin/feltpage-headless: the commands alone, no graphics libraries
	CGO_ENABLED=0 $(GO) build -tags "$(TAGS) headless" -o bin/feltpage-headless ./cmd/feltpage

clean: ## remove what was built
	rm -rf bin

help: ## this list
	@sed -n 's/^\([a-z]*\):.*## /  make \1\t/p' Makefile
