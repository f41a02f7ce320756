# make demo: see it work. make test: check everything. make lint: style, types, arrows.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/pip install --disable-pip-version-check
PAGE := $(shell find mobile_web -type f -not -path '*/node_modules/*' 2>/dev/null)
PORT ?= 8000
AT_ONCE ?= logical
PHOTOS ?= ../shared/photos/dev
SCENES ?= ../scenes

.PHONY: demo setup test lint bench long-test browser faults load audit-dependencies clean

demo: $(VENV)/.ready
	@$(BIN)/lastbolt demo --port $(PORT)

setup: $(VENV)/.ready-dev

$(BIN)/python:
	@bash .ci/system_packages.sh demo
	@echo "Making $(VENV) ..."
	@$(PYTHON) -m venv $(VENV)

# The demo needs the program alone; tests and lint need the tools too.
$(VENV)/.ready: $(BIN)/python pyproject.toml $(PAGE)
	@echo "Installing Lastbolt and building its page (once; most of it is downloads) ..."
	@$(PIP) -e .
	@touch $@

$(VENV)/.ready-dev: $(BIN)/python pyproject.toml $(PAGE)
	@bash .ci/system_packages.sh test
	@echo "Installing Lastbolt, its page and the tools for tests (once) ..."
	@$(PIP) -e '.[dev]'
	@touch $(VENV)/.ready $@

test: setup
	$(BIN)/python mobile_web/hatch_build.py check
	$(BIN)/python -m pytest -q -n $(AT_ONCE) --maxprocesses 4 --dist loadfile --no-loadscope-reorder

lint: setup
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports --no-cache
	$(BIN)/python .ci/secrets_scan.py
	$(BIN)/python .ci/audit_dependencies.py

bench: setup
	$(BIN)/python -m tests.bench.verify_cost
	$(BIN)/python -m tests.bench.board 200
	@if [ -d "$(PHOTOS)" ]; then $(BIN)/python -m tests.bench.vision_bars $(PHOTOS); \
	else echo "No photos with truth in $(PHOTOS): make bench PHOTOS=FOLDER measures the photo reader there."; fi
	@for set in few fair bare mat; do if [ -d "$(SCENES)/$$set" ]; then $(BIN)/python -m tests.bench.vision_bars $(SCENES)/$$set; \
	else echo "No scenes in $(SCENES)/$$set: server/training/judge_scenes.py makes them, make bench SCENES=FOLDER measures them."; fi; done
	$(BIN)/python -m tests.bench.label_bars

long-test: setup
	LASTBOLT_HYPOTHESIS=long $(BIN)/python -m pytest -q tests/replay/test_properties.py
	$(BIN)/python -m tests.bench.false_alarms

faults: setup
	LASTBOLT_FAULTS=long $(BIN)/python -m pytest -q -s -p no:randomly tests/faults tests/web/test_fuzzed_api.py

# Every browser test, the slowest flows and the widest screens too.
browser: setup
	LASTBOLT_BROWSER=all $(BIN)/python -m pytest -q -s tests/browser

load: setup
	$(BIN)/python -m tests.bench.load

audit-dependencies: setup
	$(BIN)/python .ci/audit_dependencies.py

clean:
	rm -rf $(VENV) .lastbolt-demo server/lastbolt/web/static mobile_web/node_modules
