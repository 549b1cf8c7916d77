# Racewright. `make` alone shows this menu.
.DEFAULT_GOAL := help
.PHONY: help demo test lint docs prove bench screenshots clean
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PART ?= thread

help: ## show this menu
	@grep -E '^[a-z]+:.*## ' $(MAKEFILE_LIST) | sed 's/:.*## /\t/' | expand -t 10

$(VENV)/.made: requirements.lock pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "Racewright needs Python 3.11 or newer as '$(PYTHON)'; say 'make PYTHON=python3.11 demo'"; exit 1; }
	@$(PYTHON) -m venv $(VENV) || { echo "No virtual environment: on Debian install the package python3-venv"; exit 1; }
	@echo "Installing what Racewright needs into $(VENV) ..."
	@$(BIN)/pip install -q --disable-pip-version-check --require-hashes -r requirements.lock
	@$(BIN)/pip install -q --disable-pip-version-check --no-deps -e .
	@touch $@

$(VENV)/.made-test: requirements-test.lock $(VENV)/.made
	@$(BIN)/pip install -q --disable-pip-version-check --require-hashes -r requirements-test.lock
	@touch $@

demo: $(VENV)/.made ## set up, compute the bundled example, name its dossier
	@test -e demo/scheme.toml || $(BIN)/racewright new demo
	@$(BIN)/racewright report demo/scheme.toml --workers 2

test: $(VENV)/.made-test ## set up, run the whole suite at reduced counts
	@$(BIN)/python -m pytest -n 2 --dist loadfile

lint: $(VENV)/.made-test ## format, lint, types, import contracts, locks, licences
	@$(BIN)/ruff format --check src tests tools
	@$(BIN)/ruff check src tests tools
	@$(BIN)/mypy
	@$(BIN)/lint-imports --no-logo
	@$(BIN)/python tools/hygiene/lock_check.py
	@$(BIN)/python tools/hygiene/licences.py

prove: $(VENV)/.made-test ## print every acceptance line of PART with target, measured, ok
	@$(BIN)/python tools/prove.py $(PART) $(if $(CAP),--minutes $(CAP))

docs: $(VENV)/.made-test ## write the generated pages and check that everything is documented
	@$(BIN)/python tools/docs/build.py

bench: $(VENV)/.made-test ## medians and ratios to a yardstick of the same run
	@$(BIN)/python tools/bench/bench.py

screenshots: $(VENV)/.made-test ## pictures of every page of the desk, both sizes, light and dark
	@$(BIN)/python tools/screens/shoot.py docs/screenshots

clean: ## remove the environment; demo/ and its reports stay
	rm -rf $(VENV)
