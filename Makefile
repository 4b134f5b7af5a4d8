# Tags used by every build and test; SQLite's full-text search needs its tag.
TAGS := sqlite_fts5
GO ?= go

.PHONY: quick
quick: ## the tests that need neither a window nor outside data
	$(GO) vet -tags "$(TAGS)" ./...
	$(GO) test -tags "$(TAGS)" ./...
