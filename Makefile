# One verb, one line of meaning. The environment lives in .venv; nothing is written outside this folder.
PYTHON ?= python3.11
PYTHON := $(shell command -v $(PYTHON) 2>/dev/null || command -v python3)
BIN := .venv/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check -q
REQUIRE := $(OATSACK_REQUIRE)
LOCK := $(if $(REQUIRE),full,dev)

# Bytecode is kept, whatever the shell says: without it every start compiles the whole program anew.
unexport PYTHONDONTWRITEBYTECODE

.PHONY: demo test fast check bench bench-full docs clean
.NOTPARALLEL:

demo: .venv/run.stamp  ## set up, provision the bundled trip, leave it in ./demo
	$(BIN)/oatsack demo demo

test: .venv/$(LOCK).stamp  ## set up and pass every test (slow ones too)
	$(BIN)/python -m pytest -n 2 --dist loadfile tests

fast: .venv/$(LOCK).stamp  ## the everyday suite, under 90 s: fewer examples, nothing slow
	OATSACK_EXAMPLES=everyday $(BIN)/python -m pytest -n 2 --dist loadfile -m "not slow and not browser and not tracks and not oracles" tests

check: .venv/dev.stamp  ## lint, strict types, layers and budgets
	$(BIN)/ruff check src tests scripts bench
	$(BIN)/mypy
	$(BIN)/python -m pytest tests/contracts/test_layers.py tests/contracts/test_budgets.py

bench: .venv/dev.stamp  ## ratios against something measured in the same run; at most 10 minutes
	$(BIN)/python -m bench

bench-full: .venv/dev.stamp
	$(BIN)/python -m bench --full

docs: .venv/dev.stamp  ## write the generated pages again
	$(BIN)/python scripts/make_docs.py

clean:
	rm -rf .venv demo

.venv/%.stamp: requirements/%.lock pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv .venv
	$(PIP) install --require-hashes -r requirements/$*.lock
	$(PIP) install --no-deps --no-build-isolation -e .
	$(BIN)/python -m compileall -q src
	touch $@
