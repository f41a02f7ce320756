# One command to see it (make demo), one to check it all (make test).
PY ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.installed

.PHONY: setup demo test lint bench long-test faults clean

setup: $(STAMP)

$(STAMP): pyproject.toml
	@$(PY) tools/system_packages.py
	@test -x $(BIN)/python || $(PY) -m venv $(VENV)
	@echo "Installing Lastbolt and what it needs into $(VENV) ..."
	@$(BIN)/pip install --disable-pip-version-check -q -e '.[dev]'
	@touch $(STAMP)

test: setup
	$(BIN)/python -m pytest

lint: setup
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

clean:
	rm -rf $(VENV) .lastbolt-demo server/lastbolt/web/static mobile_web/node_modules
